"""The days off an outline names, as days of its term."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from syllabus_io.outline.records import NoClass
from syllabus_io.resolve.mention_days import Bench, resolve_mention
from syllabus_io.resolve.records import Ambiguous, Resolved, Unresolved
from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.wording import quoted

__all__ = ["resolve_days_off"]


def resolve_days_off(
    named: Iterable[NoClass], bench: Bench, origin: str, course: str
) -> tuple[tuple[DayOff, ...], tuple[str, ...]]:
    """The days off with their dates, each stretch once, and a note for each that has none or is in doubt.

    A week off is given as its Monday to Friday. A name without a date is left to the term's own day off of that name.
    """
    found: dict[tuple[date, date], DayOff] = {}
    notes: list[str] = []
    for off in named:
        resolution = resolve_mention(off.mention, bench, {}).resolution
        match resolution:
            case Resolved(date=first, end_date=last):
                reasons = resolution.reasons
            case Ambiguous(candidates=candidates):
                first, last = candidates[0].date, candidates[0].end_date
                reasons = (resolution.question, *resolution.reasons)
            case Unresolved(reason=reason):
                if bench.calendar.named(off.name) is None:
                    notes.append(f"the day off {quoted(off.name)} has no date: {reason}")
                continue
        notes += [f"the day off {quoted(off.name)}: {reason}" for reason in reasons]
        last = _without_weekend(first, last or first)
        found.setdefault((first, last), DayOff(off.name, first, last, origin, course))
    return tuple(sorted(found.values(), key=lambda off: off.first_day)), tuple(dict.fromkeys(notes))


def _without_weekend(first: date, last: date) -> date:
    """The last day of a stretch; the Friday where it runs from a Monday to the Sunday of a week."""
    return last - timedelta(days=2) if first.isoweekday() == 1 and last.isoweekday() == 7 else last
