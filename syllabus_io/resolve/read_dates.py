"""Dates that name their month: full dates, yearless dates, two numbers in doubtful order, months and their parts."""

from __future__ import annotations

import calendar as month_lengths
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.resolve.expression import (
    DateExpression,
    DayInMonth,
    FullDate,
    MonthDay,
    MonthPart,
    NthWeekday,
    NumericDate,
    Part,
    Weekday,
    WholeMonth,
)
from syllabus_io.resolve.reading import (
    Found,
    Outcome,
    Picked,
    Reading,
    Scene,
    each,
    one,
    pick_year,
    read_expression,
    weaker,
)
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.wording import in_words, month_and_day, weekday_in_words

__all__ = ["month_stretch", "part_stretch"]

_DAY = timedelta(days=1)
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August",
    "September", "October", "November", "December",
)  # fmt: skip
_ORDINALS = {1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", -1: "last"}


def month_stretch(year: int, month: int) -> tuple[date, date]:
    """First and last day of a month."""
    return date(year, month, 1), date(year, month, month_lengths.monthrange(year, month)[1])


def part_stretch(part: Part, year: int, month: int) -> tuple[date, date]:
    """The window that a part of a month means: thirds for early, middle and late, a week for beginning and end.

    Common practice, no source.
    """
    first, last = month_stretch(year, month)
    match part:
        case Part.EARLY:
            return first, first.replace(day=10)
        case Part.MIDDLE:
            return first.replace(day=11), first.replace(day=20)
        case Part.LATE:
            return first.replace(day=21), last
        case Part.BEGINNING:
            return first, first.replace(day=7)
        case Part.END:
            return last - 6 * _DAY, last


def _day_of(year: int, month: int, day: int) -> tuple[date, date] | None:
    try:
        found = date(year, month, day)
    except ValueError:
        return None
    return found, found


def _day_reading(
    day: date, weekday: Weekday | None, certainty: Certainty, how: str = "", reasons: tuple[str, ...] = ()
) -> Reading:
    return Reading(day, day, FullDate(day, weekday), certainty, how, reasons)


def _checked(reading: Reading, weekday: Weekday | None, scene: Scene) -> tuple[Reading, ...]:
    """The reading, or when its weekday is not the written one, the readings that may be meant, with the reason."""
    day = reading.first
    if weekday is None or day.isoweekday() == weekday:
        return (reading,)
    named = f"{day.day} {_MONTHS[day.month - 1]} {day.year}"
    reason = f"{named} is a {weekday_in_words(day)}, the outline says {weekday_in_words(weekday)}"
    marked = replace(reading, reasons=(*reading.reasons, reason), certainty=Certainty.ASSUMED, expression=FullDate(day))
    for other in _days_meant(day, weekday, scene):
        why = f"{in_words(other)} is the {weekday_in_words(weekday)} beside it"
        if (other.month, other.day) == (day.month, day.day):
            why = f"in {other.year} that day is a {weekday_in_words(weekday)}"
        return marked, _day_reading(other, None, Certainty.ASSUMED, why, (reason,))
    return (marked,)


def _days_meant(day: date, weekday: Weekday, scene: Scene) -> Iterator[date]:
    calendar = scene.calendar
    if calendar is not None and not calendar.holds(day):
        for year in range(calendar.bounds[0].year, calendar.bounds[1].year + 1):
            same = _day_of(year, day.month, day.day)
            if same and calendar.holds(same[0]) and same[0].isoweekday() == weekday:
                yield same[0]
    for other in (day + _DAY, day - _DAY):
        if other.isoweekday() == weekday and (calendar is None or calendar.holds(other)):
            yield other


def _asked_between(readings: tuple[Reading, ...]) -> Found:
    if len(readings) == 1:
        return Found(readings)
    days = " or ".join(in_words(reading.first) for reading in readings)
    return Found(readings, f"which day is meant, {days}?")


@read_expression.register
def _(expression: FullDate, scene: Scene) -> Outcome:
    reading = _day_reading(expression.day, expression.weekday, Certainty.STATED)
    return _asked_between(_checked(reading, expression.weekday, scene))


@read_expression.register
def _(expression: MonthDay, scene: Scene) -> Outcome:
    return _month_day(expression.month, expression.day, None, expression.weekday, scene)


def _month_day(month: int, day: int, year: int | None, weekday: Weekday | None, scene: Scene) -> Outcome:
    picked = pick_year(lambda y: _day_of(y, month, day), year, scene, weekday, what=month_and_day(month, day))
    if isinstance(picked, Unresolved):
        return picked
    readings: list[Reading] = []
    for first, _last in picked.choices:
        reading = _day_reading(first, weekday, picked.certainty, picked.how, picked.reasons)
        readings += _checked(reading, weekday, scene)
    return _asked_between(tuple(readings))


@read_expression.register
def _(expression: NumericDate, scene: Scene) -> Outcome:
    orders = {"mdy": (expression.first, expression.second), "dmy": (expression.second, expression.first)}
    outcomes: dict[str, Outcome] = {}
    for order, (month, day) in orders.items():
        if 1 <= month <= 12:
            outcomes[order] = _month_day(month, day, expression.year, None, scene)
    read = {order: outcome.readings[0] for order, outcome in outcomes.items() if isinstance(outcome, Found)}
    if not read:
        return next(iter(outcomes.values()), Unresolved("neither number is a month", "ask which day is meant"))
    days = {reading.first for reading in read.values()}
    if len(days) == 1 and (scene.context.order in (None, *read)):
        return _asked_between(_checked(next(iter(read.values())), expression.weekday, scene))
    return _ordered(expression, read, scene)


_ORDER_WORDS = {"mdy": "the month stands first", "dmy": "the day stands first"}


def _ordered(expression: NumericDate, read: dict[str, Reading], scene: Scene) -> Outcome:
    weekday, calendar, known = expression.weekday, scene.calendar, scene.context.order
    fits = [order for order, reading in read.items() if weekday is not None and reading.first.isoweekday() == weekday]
    inside = [order for order, reading in read.items() if calendar is not None and calendar.holds(reading.first)]
    if known in read and (known in fits or not fits) and (known in inside or not inside):
        reading = replace(read[known], how=f"read so that {_ORDER_WORDS[known]}, as in the rest of the outline")
        return _asked_between(_checked(reading, weekday, scene))
    if known is None:
        both = [order for order in fits if order in inside]
        for evidence, why in (
            (both, "so weekday and term agree"),
            (fits, f"so it is a {weekday_in_words(weekday)}" if weekday else ""),
            (inside, "only so does it lie in the term"),
        ):
            if len(evidence) == 1:
                reading = read[evidence[0]]
                how = f"read so that {_ORDER_WORDS[evidence[0]]}: {why}"
                return _asked_between(
                    _checked(
                        replace(reading, certainty=weaker(reading.certainty, Certainty.DERIVED), how=how),
                        weekday,
                        scene,
                    )
                )
    ranked = sorted(read, key=lambda order: (order not in inside, order not in fits, order != known))
    readings = tuple(
        replace(read[order], certainty=Certainty.ASSUMED, how=f"if {_ORDER_WORDS[order]}") for order in ranked
    )
    if len(readings) == 1:
        reason = f"the outline writes dates so that {_ORDER_WORDS[known]}, which gives no day here" if known else ""
        only = replace(readings[0], reasons=(*readings[0].reasons, reason) if reason else readings[0].reasons)
        return _asked_between(_checked(only, weekday, scene))
    return Found(readings, f"is it {in_words(readings[0].first)} or {in_words(readings[1].first)}?")


@read_expression.register
def _(expression: DayInMonth, scene: Scene) -> Outcome:
    if expression.month is not None:
        return _month_day(expression.month, expression.day, None, expression.weekday, scene)
    reference, calendar = scene.search_from, scene.calendar
    if reference is not None:
        start, months = reference, 14
    elif calendar is not None:
        start, months = calendar.bounds[0], 24
    else:
        return Unresolved(f"no month is written for day {expression.day}", "ask which month is meant")
    days = [
        day for day in _days_numbered(expression.day, start, months) if expression.weekday in (None, day.isoweekday())
    ]
    if reference is None and calendar is not None:
        days = [day for day in days if calendar.holds(day)]
    if not days:
        return Unresolved(f"no month fits day {expression.day} with the weekday beside it", "ask which month is meant")
    if reference is not None or len(days) == 1:
        since = (
            f"; the next one from {in_words(reference)} on is taken" if reference else "; only one day of the term fits"
        )
        reason = f"no month is written for day {expression.day}{since}"
        return one(_day_reading(days[0], expression.weekday, Certainty.ASSUMED, reasons=(reason,)))
    readings = tuple(
        _day_reading(day, None, Certainty.ASSUMED, f"if {_MONTHS[day.month - 1]} is meant") for day in days
    )
    return Found(readings, f"in which month does day {expression.day} lie?")


def _days_numbered(number: int, start: date, months: int) -> Iterator[date]:
    for n in range(months):
        year, month = divmod(start.year * 12 + start.month - 1 + n, 12)
        found = _day_of(year, month + 1, number)
        if found and found[0] >= start:
            yield found[0]


@read_expression.register
def _(expression: WholeMonth, scene: Scene) -> Outcome:
    month = expression.month
    picked = pick_year(lambda y: month_stretch(y, month), expression.year, scene, what=_MONTHS[month - 1])
    window = f"the outline names only the month, {_MONTHS[month - 1]}; find out the day"
    return _stretches(picked, window, lambda first: WholeMonth(month, first.year))


@read_expression.register
def _(expression: MonthPart, scene: Scene) -> Outcome:
    part, month = expression.part, expression.month
    picked = pick_year(lambda y: part_stretch(part, y, month), expression.year, scene, what=_MONTHS[month - 1])
    window = f"the outline gives only a part of {_MONTHS[month - 1]}, which is a window; find out the day"
    return _stretches(picked, window, lambda first: MonthPart(part, month, first.year))


def _stretches(picked: Picked | Unresolved, window: str, made: Callable[[date], DateExpression]) -> Outcome:
    if isinstance(picked, Unresolved):
        return picked
    readings = tuple(
        Reading(first, last, made(first), Certainty.ASSUMED, picked.how, picked.reasons, window)
        for first, last in picked.choices
    )
    return Found(readings, "which year is meant?" if len(readings) > 1 else "")


@read_expression.register
def _(expression: NthWeekday, scene: Scene) -> Outcome:
    number, weekday, month = expression.number, expression.weekday, expression.month
    name = f"{_ORDINALS.get(number, f'{number}th')} {weekday_in_words(weekday)} of {_MONTHS[month - 1]}"
    picked = pick_year(lambda y: _nth_weekday(number, weekday, y, month), expression.year, scene, what=name)
    if isinstance(picked, Unresolved):
        return picked
    readings = tuple(
        Reading(
            first,
            first,
            replace(expression, year=first.year),
            weaker(picked.certainty, Certainty.DERIVED),
            picked.how,
            picked.reasons,
        )
        for first, _last in picked.choices
    )
    return each(Found(readings, f"which year's {name} is meant?"), lambda reading: reading)


def _nth_weekday(number: int, weekday: Weekday, year: int, month: int) -> tuple[date, date] | None:
    first, last = month_stretch(year, month)
    if number > 0:
        day = first + timedelta(days=(weekday - first.isoweekday()) % 7 + 7 * (number - 1))
    else:
        day = last - timedelta(days=(last.isoweekday() - weekday) % 7 + 7 * (-number - 1))
    return (day, day) if number and first <= day <= last else None
