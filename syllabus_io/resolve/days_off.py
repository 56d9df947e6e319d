"""The days off an outline names, as days of its term."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.outline.records import NoClass
from syllabus_io.resolve.day_names import is_break
from syllabus_io.resolve.mention_days import Bench, resolve_mention
from syllabus_io.resolve.records import Ambiguous, Resolved, Unresolved
from syllabus_io.resolve.row_order import RowDay, usual_step
from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.wording import days_in_words, quoted

__all__ = ["resolve_days_off"]

_WEEK = timedelta(days=7)
_LONGEST = 35  # days; the longest break within a term or school year, common practice, no source


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
        last = _last_day(off, first, last or first, bench.evidence.rows)
        if (last - first).days > _LONGEST:
            notes.append(f"the day off {quoted(off.name)} would last from {days_in_words(first, last)}: left out")
            continue
        found.setdefault((first, last), DayOff(off.name, first, last, origin, course))
    rows = frozenset(row.first for row in bench.evidence.rows) | frozenset(bench.calendar.meetings_dates())
    days_off = _joined(sorted(found.values(), key=lambda off: (off.first_day, off.last_day)), rows)
    return days_off, tuple(dict.fromkeys(notes))


def _last_day(off: NoClass, first: date, last: date, rows: Sequence[RowDay]) -> date:
    """The last day of a stretch: the Friday where it is the Monday to Sunday of a week, or a break that stands on a
    Monday in a schedule with a row a week."""
    if first.isoweekday() == 1 and last == first + timedelta(days=6):
        return last - timedelta(days=2)
    weekly = usual_step(rows) == _WEEK
    if first == last and first.isoweekday() == 1 and off.mention.row is not None and weekly and is_break(off.name):
        return first + timedelta(days=4)
    return last


def _joined(days_off: Sequence[DayOff], class_days: frozenset[date]) -> tuple[DayOff, ...]:
    """Days off of one name in one week as one stretch where no class lies between them; stretches inside others left
    out."""
    joined: list[DayOff] = []
    for off in days_off:
        before = joined[-1] if joined else None
        if before is not None and off.last_day <= before.last_day:
            continue
        if before is not None and _continues(before, off, class_days):
            joined[-1] = replace(before, last_day=off.last_day)
        elif before is not None and off.first_day == before.first_day:
            joined[-1] = off
        else:
            joined.append(off)
    return tuple(joined)


def _continues(before: DayOff, off: DayOff, class_days: frozenset[date]) -> bool:
    monday = before.first_day - timedelta(days=before.first_day.isoweekday() - 1)
    return (
        before.name.casefold() == off.name.casefold()
        and off.first_day < monday + _WEEK
        and not any(before.last_day < day < off.first_day for day in class_days)
    )
