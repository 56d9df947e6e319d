"""Invented term calendars for the phrase lists: six ways in which schools lay out a term.

Dates are our own; the shapes are common practice, no source. Public holidays come from the ``holidays`` library.
"""

from __future__ import annotations

from datetime import date, time

from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.public_holidays import public_holidays
from syllabus_io.resolve.term import DayOff, Meeting, Rotation, Term
from syllabus_io.resolve.term_calendar import TermCalendar

__all__ = ["CALENDARS", "TERMS", "calendar_named"]

MO, TU, WE, TH, FR = (Weekday(number) for number in range(1, 6))


def _with_holidays(term: Term) -> Term:
    """The term with the public holidays of its region among its days off."""
    from dataclasses import replace

    assert term.holidays is not None, f"{term.name} has no region"
    last = max(term.last_day, term.finals[1]) if term.finals else term.last_day
    return replace(term, no_class=(*term.no_class, *public_holidays(term.holidays, term.first_day, last)))


# A North American semester: starts on a Monday, two short breaks, the second a whole week.
SEMESTER = _with_holidays(
    Term(
        name="Semester, autumn 2026",
        first_day=date(2026, 8, 31),
        last_day=date(2026, 12, 11),
        finals=(date(2026, 12, 14), date(2026, 12, 18)),
        holidays="US-OH",
        break_weeks_count=False,
        timezone="America/New_York",
        no_class=(
            DayOff("Autumn break", date(2026, 10, 15), date(2026, 10, 16)),
            DayOff("Thanksgiving break", date(2026, 11, 23), date(2026, 11, 27)),
        ),
    )
)

# A ten-week quarter that starts in the middle of a week and has no break.
QUARTER = _with_holidays(
    Term(
        name="Quarter, winter 2027",
        first_day=date(2027, 1, 6),
        last_day=date(2027, 3, 12),
        finals=(date(2027, 3, 15), date(2027, 3, 19)),
        holidays="US-WA",
        break_weeks_count=False,
    )
)

# A trimester with a break week in its middle that takes a number.
TRIMESTER = Term(
    name="Trimester, spring 2027",
    first_day=date(2027, 3, 1),
    last_day=date(2027, 5, 28),
    finals=(date(2027, 5, 31), date(2027, 6, 4)),
    break_weeks_count=True,
    no_class=(
        DayOff("Spring break", date(2027, 4, 5), date(2027, 4, 9)),
        DayOff("Reading day", date(2027, 5, 28), date(2027, 5, 28)),
    ),
)

# A British term that crosses New Year, with two weeks off that take no number.
UK_WINTER = _with_holidays(
    Term(
        name="UK winter term 2026/27",
        first_day=date(2026, 11, 9),
        last_day=date(2027, 2, 12),
        holidays="GB-ENG",
        break_weeks_count=False,
        timezone="Europe/London",
        no_class=(DayOff("Christmas holidays", date(2026, 12, 21), date(2027, 1, 1)),),
    )
)

# A southern semester: the year's first, over Easter and into winter. 2028 is a leap year.
SOUTHERN = _with_holidays(
    Term(
        name="Semester 1, 2028 (southern)",
        first_day=date(2028, 2, 28),
        last_day=date(2028, 6, 2),
        finals=(date(2028, 6, 12), date(2028, 6, 23)),
        holidays="AU-NSW",
        break_weeks_count=False,
        timezone="Australia/Sydney",
        no_class=(DayOff("Mid-semester break", date(2028, 4, 14), date(2028, 4, 21)),),
    )
)

# A secondary school year with A and B days.
SCHOOL_YEAR = _with_holidays(
    Term(
        name="School year 2026/27",
        first_day=date(2026, 8, 24),
        last_day=date(2027, 6, 4),
        holidays="US",
        break_weeks_count=False,
        no_class=(
            DayOff("Fall break", date(2026, 10, 8), date(2026, 10, 9)),
            DayOff("Thanksgiving recess", date(2026, 11, 25), date(2026, 11, 27)),
            DayOff("Winter break", date(2026, 12, 21), date(2027, 1, 1)),
            DayOff("Spring break", date(2027, 3, 22), date(2027, 3, 26)),
        ),
        rotation=Rotation(("A", "B"), date(2026, 8, 24)),
    )
)

# A secondary school term with a six-day cycle that is not in step with the week.
SIX_DAY_CYCLE = Term(
    name="Autumn term 2026 (six-day cycle)",
    first_day=date(2026, 9, 2),
    last_day=date(2026, 12, 18),
    break_weeks_count=True,
    no_class=(
        DayOff("Half-term", date(2026, 10, 26), date(2026, 10, 30)),
        DayOff("Staff day", date(2026, 11, 20), date(2026, 11, 20)),
    ),
    rotation=Rotation(("1", "2", "3", "4", "5", "6"), date(2026, 9, 2)),
)

_MEETINGS: dict[str, tuple[Meeting, ...]] = {
    "semester": (Meeting((TU, TH), time(10), time(11, 15)),),
    "quarter": (Meeting((MO, WE, FR), time(9), time(9, 50)),),
    "trimester": (Meeting((MO, WE), kind="lecture"), Meeting((FR,), kind="lab")),
    "uk": (Meeting((TU,)), Meeting((FR,))),
    "southern": (Meeting((MO, TH)),),
    "school-year": (Meeting((MO, TU, WE, TH, FR)),),
    "six-day": (Meeting((MO, TU, WE, TH, FR)),),
}

TERMS: dict[str, Term] = {
    "semester": SEMESTER,
    "quarter": QUARTER,
    "trimester": TRIMESTER,
    "uk": UK_WINTER,
    "southern": SOUTHERN,
    "school-year": SCHOOL_YEAR,
    "six-day": SIX_DAY_CYCLE,
}
"""The terms by the short name that a phrase list gives."""

CALENDARS: dict[str, TermCalendar] = {name: TermCalendar(term, _MEETINGS[name]) for name, term in TERMS.items()}
"""A course's calendar in each term: TU TH, MO WE FR, MO WE with a lab on FR, TU FR, MO TH, and every weekday."""


def calendar_named(name: str) -> TermCalendar:
    """The calendar of that short name; KeyError when there is none."""
    return CALENDARS[name]
