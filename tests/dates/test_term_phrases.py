"""Phrases in seven term calendars give the days that were worked out apart from the program.

The lists in terms/ say how: weeks counted on the calendar, classes and series with ``dateutil.rrule`` less the days
off, public holidays from the ``holidays`` library.
"""

from __future__ import annotations

import pytest

from syllabus_io.resolve.evaluate import expand, resolve_phrase
from syllabus_io.resolve.expression import Every
from syllabus_io.resolve.records import Ambiguous, Resolved
from tests.dates.calendars import calendar_named
from tests.dates.phrase_lists import FOLDER, Case, read_cases

CASES = [case for path in sorted((FOLDER / "terms").glob("*.txt")) for case in read_cases(path)]


def outcome(text: str, name: str) -> str:
    """What a phrase comes to in a calendar, as the lists write it."""
    calendar = calendar_named(name)
    found = resolve_phrase(text, calendar)
    if found is None:
        return "none"
    phrase, resolution = found
    if isinstance(phrase.expression, Every):
        return " ".join(day.isoformat() for day in expand(phrase.expression, calendar)) or "open"
    match resolution:
        case Resolved(date=first, end_date=None):
            return str(first)
        case Resolved(date=first, end_date=last):
            return f"{first}..{last}"
        case Ambiguous():
            return " | ".join(str(candidate.date) for candidate in resolution.candidates)
        case _:
            return "open"


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_phrase_comes_to_its_days(case: Case) -> None:
    assert case.calendar is not None, f"{case.place}: the list names no calendar"
    assert outcome(case.text, case.calendar) == case.expected


def test_the_lists_cover_seven_terms() -> None:
    assert len(CASES) >= 500
    assert len({case.calendar for case in CASES}) >= 7
