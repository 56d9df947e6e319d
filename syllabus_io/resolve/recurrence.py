"""Recurring rules: the days they give, by the recurrence rules of RFC 5545 section 3.3.10 (dateutil)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from itertools import groupby, islice
from typing import Literal

from dateutil import rrule

from syllabus_io.resolve.expression import Every, Frequency, FullDate
from syllabus_io.resolve.reading import Found, Outcome, Reading, Scene, one, read_expression
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import in_words

__all__ = ["MOST_DATES", "Expansion", "expand_rule"]

MOST_DATES = 400
"""How many days a rule gives at most: more than one a day for a school year is a misreading."""
_FREQUENCIES: dict[Frequency, Literal[0, 1, 2, 3]] = {
    Frequency.DAILY: rrule.DAILY,
    Frequency.WEEKLY: rrule.WEEKLY,
    Frequency.MONTHLY: rrule.MONTHLY,
    Frequency.YEARLY: rrule.YEARLY,
}


@dataclass(frozen=True, slots=True)
class Expansion:
    """The days of a rule in order, and plain-words reasons to check them."""

    days: tuple[date, ...]
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Bounds:
    first: date
    last: date | None
    reasons: tuple[str, ...]


def expand_rule(rule: Every, scene: Scene) -> Expansion | Unresolved:
    """The days of a rule, in order, at most :data:`MOST_DATES`.

    It runs from the first day of ``rule.start`` (else the first day of term, else the reference day) to the last
    day of ``rule.until`` (else the last day of classes), both included. ``count`` counts the days that are left
    once days off and exceptions are out: ten quizzes are ten quizzes. Days off are known only with a term. A first or
    last day that can be read in two ways, and an exception that cannot be placed, are reasons to check the days.
    """
    bounds = _bounds(rule, scene)
    if isinstance(bounds, Unresolved):
        return bounds
    left_out, unplaced = _left_out(rule, scene)
    days = _raw_days(rule, bounds.first, bounds.last, scene)
    if isinstance(days, Unresolved):
        return days
    open_days = (day for day in days if not any(first <= day <= last for first, last in left_out))
    if rule.open_days_only and scene.calendar is not None:
        calendar = scene.calendar
        open_days = (day for day in open_days if not calendar.is_off(day))
    limit = MOST_DATES if rule.count is None else min(rule.count, MOST_DATES)
    shift = timedelta(days=rule.shift_days)
    found = tuple(day + shift for day in islice(open_days, limit))
    return Expansion(found, (*bounds.reasons, *unplaced))


def _bounds(rule: Every, scene: Scene) -> _Bounds | Unresolved:
    calendar = scene.calendar
    start = calendar.first_day if calendar else scene.context.reference
    reasons: list[str] = []
    if rule.start is not None:
        first = read_expression(rule.start, scene)
        if isinstance(first, Unresolved):
            return first
        start = first.readings[0].first
        reasons += _doubts(first, "first")
    if start is None:
        return Unresolved("nothing says on which day the series begins", "give the term or the first day")
    until = calendar.teaching_end if calendar else None
    if rule.until is not None:
        last = read_expression(rule.until, scene.seen_from(start) if rule.start is not None else scene)
        if isinstance(last, Unresolved):
            return last
        until = last.readings[0].last
        reasons += _doubts(last, "last")
    return _Bounds(start, until, tuple(reasons))


def _doubts(end: Found, which: str) -> Iterator[str]:
    """The question about an end of a series that can be read in two ways; the likeliest reading is taken."""
    if len(end.readings) > 1:
        days = " or ".join(in_words(reading.first) for reading in end.readings)
        yield f"the {which} day of the series can be {days}; the first of these is taken"


def _left_out(rule: Every, scene: Scene) -> tuple[list[tuple[date, date]], list[str]]:
    """The stretches that exceptions leave out, and a reason for each exception that cannot be placed."""
    stretches: list[tuple[date, date]] = []
    unplaced: list[str] = []
    for expression in rule.except_in:
        outcome = read_expression(expression, scene)
        if isinstance(outcome, Unresolved):
            unplaced.append(f"an exception of the series could not be placed, its days are kept: {outcome.reason}")
        else:
            stretches += [(reading.first, reading.last) for reading in outcome.readings]
    return stretches, unplaced


def _raw_days(rule: Every, start: date, until: date | None, scene: Scene) -> Iterable[date] | Unresolved:
    if rule.frequency is Frequency.MEETING:
        if scene.calendar is None or not scene.calendar.meetings_dates(rule.kind):
            return Unresolved("the days of class are not known", "give the days on which the course meets")
        return _bounded(scene.calendar.meetings_dates(rule.kind), rule, start, until)
    if rule.rotation:
        if scene.calendar is None or not scene.calendar.rotation_labels:
            settle = f"give the day on which {rule.rotation} days begin"
            return Unresolved("the term does not say which days rotate", settle)
        return _bounded(scene.calendar.rotation_dates(rule.rotation), rule, start, until)
    counts_open_days = rule.open_days_only and rule.frequency is Frequency.MONTHLY and rule.set_positions
    if counts_open_days and scene.calendar is not None and until is not None:
        return _open_days_by_position(rule, start, until, scene.calendar)
    return _ruled_days(rule, start, until)


def _bounded(days: Iterable[date], rule: Every, start: date, until: date | None) -> list[date]:
    kept = [day for day in days if start <= day and (until is None or day <= until)]
    return [day for day in kept if not rule.weekdays or day.isoweekday() in rule.weekdays][:: rule.interval]


def _open_days_by_position(rule: Every, start: date, until: date, calendar: TermCalendar) -> Iterator[date]:
    """The days at the positions of a monthly rule, counted among the days that are not off ("last school day")."""
    every = replace(rule, set_positions=())
    month_end = date(until.year + until.month // 12, until.month % 12 + 1, 1) - timedelta(days=1)
    days = (day for day in _ruled_days(every, start.replace(day=1), month_end) if not calendar.is_off(day))
    for _, inside in groupby(days, key=lambda day: (day.year, day.month)):
        month = list(inside)
        places = sorted(set(_places(rule.set_positions, len(month))))
        yield from (month[place] for place in places if start <= month[place] <= until)


def _places(positions: Iterable[int], count: int) -> Iterator[int]:
    """Positions counted from 1, or from the end below 0, as places from 0; those beyond a month are left out."""
    for position in positions:
        if abs(position) <= count:
            yield position - 1 if position > 0 else count + position


def _ruled_days(rule: Every, start: date, until: date | None) -> Iterator[date]:
    weekdays = [rrule.weekday(day - 1) for day in rule.weekdays]
    if rule.numbers:
        weekdays = [day(number) for number in rule.numbers for day in weekdays]
    found = rrule.rrule(
        _FREQUENCIES[rule.frequency],
        dtstart=datetime.combine(start, time()),
        interval=rule.interval,
        until=datetime.combine(until, time()) if until else None,
        wkst=rule.week_start - 1,
        byweekday=weekdays or None,
        bymonthday=rule.month_days or None,
        bymonth=rule.months or None,
        bysetpos=rule.set_positions or None,
        byyearday=rule.year_days or None,
        byweekno=rule.iso_weeks or None,
    )
    return (moment.date() for moment in found)


@read_expression.register
def _(expression: Every, scene: Scene) -> Outcome:
    expansion = expand_rule(expression, scene)
    if isinstance(expansion, Unresolved):
        return expansion
    days = expansion.days
    if not days:
        return Unresolved("the rule gives no day in the term", "ask for the dates")
    how = f"the first of {len(days)} days, the last is {in_words(days[-1])}"
    reasons = [*expansion.reasons]
    if expression.interval > 1 and expression.start is None:
        reasons.append("the outline does not say when the series begins; the first one in the term is taken")
    if expression.frequency is Frequency.WEEKLY and not expression.weekdays:
        reasons.append("the outline does not say on which weekday")
    return one(Reading(days[0], days[0], FullDate(days[0]), Certainty.DERIVED, how, tuple(reasons)))
