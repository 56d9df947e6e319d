"""Days told from other days: weeks around them, weekdays in or near them, so many units away, and stretches."""

from __future__ import annotations

from dataclasses import replace
from datetime import MAXYEAR, MINYEAR, date, timedelta

from dateutil.relativedelta import relativedelta

from syllabus_io.resolve.expression import (
    CalendarMonth,
    CalendarWeek,
    DateExpression,
    DayOf,
    Direction,
    IsoWeek,
    MonthPart,
    Offset,
    Part,
    PartOf,
    Span,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.read_dates import month_stretch, part_stretch
from syllabus_io.resolve.read_term import no_classes, no_term, week_of
from syllabus_io.resolve.reading import Found, Outcome, Reading, Scene, each, read_expression, weaker
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import ONLY_THE_WEEK, days_in_words, in_words, weekday_in_words

__all__: list[str] = []

_DAY = timedelta(days=1)
_BEYOND = Unresolved("the date lies beyond the years that a calendar holds", "ask for the date")
_WINDOWS = (Week, WeekOf, IsoWeek, CalendarWeek, WholeMonth, CalendarMonth, MonthPart, PartOf)
_LONGEST_LIKELY = 31
"""Days that a stretch written with two dates lasts at most when one of two readings lasts for months."""
_MOST_DAYS = 4000
"""How far a count of days may lead before it is taken for a misreading."""


def _derived(base: Reading, first: date, last: date, expression: DateExpression, how: str) -> Reading:
    """A reading that follows from ``base``. What is vague about a part of a month stays vague."""
    vague = base.window if isinstance(base.expression, MonthPart | PartOf) else ""
    return Reading(
        first,
        last,
        expression,
        weaker(base.certainty, Certainty.DERIVED),
        how,
        base.reasons,
        vague,
        counted=base.counted,
    )


@read_expression.register
def _(expression: WeekOf, scene: Scene) -> Outcome:
    return _week_around(expression, 0, scene)


@read_expression.register
def _(expression: CalendarWeek, scene: Scene) -> Outcome:
    return _week_around(expression, expression.count, scene)


def _week_around(expression: WeekOf | CalendarWeek, count: int, scene: Scene) -> Outcome:
    def around(base: Reading) -> Reading | Unresolved:
        if abs(count) * 7 > _MOST_DAYS:
            return Unresolved(f"{count} weeks away is too far to be meant", "ask for the date")
        first, last = week_of((base.last if count > 0 else base.first) + 7 * count * _DAY)
        friday = first + 4 * _DAY
        week = _derived(base, first, last, replace(expression, base=base.expression), f"the week of {in_words(first)}")
        window = f"{ONLY_THE_WEEK} ({in_words(first)} to {in_words(friday)}); find out the day"
        return replace(week, window=window, end=friday if scene.calendar else None)

    return each(read_expression(expression.base, scene), around)


@read_expression.register
def _(expression: CalendarMonth, scene: Scene) -> Outcome:
    count = expression.count

    def month(base: Reading) -> Reading | Unresolved:
        if abs(count) * 31 > _MOST_DAYS:
            return Unresolved(f"{count} months away is too far to be meant", "ask for the date")
        start = _months_later(base.first, count)
        if isinstance(start, Unresolved):
            return start
        first, last = month_stretch(start.year, start.month)
        whole = _derived(base, first, last, replace(expression, base=base.expression), days_in_words(first, last))
        return replace(whole, window="the outline names only the month; find out the day")

    return each(read_expression(expression.base, scene), month)


@read_expression.register
def _(expression: DayOf, scene: Scene) -> Outcome:
    number = expression.number

    def day_of(base: Reading) -> Reading | Unresolved:
        length = (base.last - base.first).days + 1
        shown = days_in_words(base.first, base.end or base.last)
        if not 1 <= abs(number) <= length:
            return Unresolved(f"{shown} has no day number {number}", "ask for the date")
        day = base.first + (number - 1) * _DAY if number > 0 else base.last + (number + 1) * _DAY
        how = f"day number {number} of {shown}" if number > 0 else f"day number {-number} from the end of {shown}"
        return _derived(base, day, day, replace(expression, stretch=base.expression), how)

    return each(read_expression(expression.stretch, scene), day_of)


@read_expression.register
def _(expression: PartOf, scene: Scene) -> Outcome:
    part = expression.part

    def part_of(base: Reading) -> Reading | Unresolved:
        end = base.end or base.last
        if isinstance(base.expression, WholeMonth | CalendarMonth):
            first, last = part_stretch(part, base.first.year, base.first.month)
        else:
            first, last = _third(part, base.first, end)
        how = f"{part.value} in {days_in_words(base.first, end)}"
        window = _derived(base, first, last, replace(expression, stretch=base.expression), how)
        said = f"the outline gives only a part of {days_in_words(base.first, end)}, which is a window; find out the day"
        return replace(window, window=said, certainty=Certainty.ASSUMED)

    return each(read_expression(expression.stretch, scene), part_of)


def _third(part: Part, first: date, last: date) -> tuple[date, date]:
    """A third of a stretch, its first for early, its last for late. Common practice, no source."""
    third = (last - first).days // 3 * _DAY
    match part:
        case Part.EARLY | Part.BEGINNING:
            return first, first + third
        case Part.MIDDLE:
            return first + third, last - third
        case Part.LATE | Part.END:
            return last - third, last


@read_expression.register
def _(expression: WeekdayIn, scene: Scene) -> Outcome:
    weekday, number = expression.weekday, expression.number

    def inside(base: Reading) -> Reading | Unresolved:
        if number > 0:
            day = base.first + ((weekday - base.first.isoweekday()) % 7 + 7 * (number - 1)) * _DAY
        else:
            day = base.last - ((base.last.isoweekday() - weekday) % 7 + 7 * (-number - 1)) * _DAY
        if not number or not base.first <= day <= base.last:
            stretch = days_in_words(base.first, base.end or base.last)
            which = (
                f"no {weekday_in_words(weekday)}"
                if number in (1, -1)
                else f"no {weekday_in_words(weekday)} number {number}"
            )
            return Unresolved(f"{stretch} holds {which}", "ask for the date")
        how = f"the {weekday_in_words(weekday)} in {days_in_words(base.first, base.end or base.last)}"
        return _derived(base, day, day, replace(expression, stretch=base.expression), how)

    return each(read_expression(expression.stretch, scene), inside)


@read_expression.register
def _(expression: WeekdayNear, scene: Scene) -> Outcome:
    direction, count = expression.direction, expression.count

    def near(base: Reading) -> Reading | Unresolved:
        if not 0 < count * 7 <= _MOST_DAYS:
            return Unresolved("that weekday is too far away to be meant", "ask for the date")
        day = weekday_near(base.first, base.last, expression.weekday, direction, count)
        shown = days_in_words(base.first, base.end or base.last)
        how = f"the {weekday_in_words(expression.weekday)} {direction.value.replace('_', ' ')} {shown}"
        return _derived(base, day, day, replace(expression, base=base.expression), how)

    return each(read_expression(expression.base, scene), near)


def weekday_near(first: date, last: date, weekday: Weekday, direction: Direction, count: int = 1) -> date:
    """The weekday before the first or after the last day of a stretch; on or after its first, on or before its last.

    NEAREST is the earliest such weekday inside the stretch, else the nearer of the two around it, and the earlier
    one of two equally near.
    """
    more = 7 * (count - 1)
    before = first - ((first.isoweekday() - weekday - 1) % 7 + 1) * _DAY
    after = last + ((weekday - last.isoweekday() - 1) % 7 + 1) * _DAY
    match direction:
        case Direction.BEFORE:
            return before - more * _DAY
        case Direction.ON_OR_BEFORE:
            return last - ((last.isoweekday() - weekday) % 7 + more) * _DAY
        case Direction.ON_OR_AFTER:
            return first + ((weekday - first.isoweekday()) % 7 + more) * _DAY
        case Direction.AFTER:
            return after + more * _DAY
        case Direction.NEAREST:
            inside = first + (weekday - first.isoweekday()) % 7 * _DAY
            if inside <= last:
                return inside
            return before if first - before <= after - last else after


@read_expression.register
def _(expression: Offset, scene: Scene) -> Outcome:
    count, unit = expression.count, expression.unit

    def away(base: Reading) -> Reading | Unresolved:
        start = base.last if count > 0 else base.first
        moved = _moved(start, count, unit, scene.calendar)
        if isinstance(moved, Unresolved):
            return moved
        side = "after" if count > 0 else "before"
        units = unit.value.replace("_", " ") + ("s" if abs(count) != 1 else "")
        how = f"{abs(count)} {units} {side} {in_words(start)}"
        away = _derived(base, moved, moved, replace(expression, base=base.expression), how)
        return replace(away, counted=away.counted or unit is Unit.MEETING)

    return each(read_expression(expression.base, scene), away)


def _moved(start: date, count: int, unit: Unit, calendar: TermCalendar | None) -> date | Unresolved:
    if abs(count) > _MOST_DAYS or (unit is Unit.YEAR and abs(count) > 100):
        return Unresolved(f"{abs(count)} {unit.value}s away is too far to be meant", "ask for the date")
    match unit:
        case Unit.DAY:
            return start + count * _DAY
        case Unit.WEEK:
            return start + 7 * count * _DAY
        case Unit.MONTH:
            return _months_later(start, count)
        case Unit.YEAR:
            return _months_later(start, 12 * count)
        case Unit.MEETING:
            return _classes_away(start, count, calendar)
        case Unit.SCHOOL_DAY | Unit.WEEKDAY:
            return _school_days_away(start, count, calendar if unit is Unit.SCHOOL_DAY else None)


def _months_later(start: date, months: int) -> date | Unresolved:
    """The same day of a later month, or its last day where that month is shorter."""
    if not MINYEAR <= start.year + (start.month - 1 + months) // 12 <= MAXYEAR:
        return _BEYOND
    return start + relativedelta(months=months)


def _classes_away(start: date, count: int, calendar: TermCalendar | None) -> date | Unresolved:
    if calendar is None:
        return no_term("a number of classes")
    if not calendar.meetings_dates():
        return no_classes(calendar)
    if count == 0:
        return start
    day = calendar.class_after(start, count) if count > 0 else calendar.class_before(start, -count)
    return day or Unresolved(
        f"the term has no {abs(count)} classes on that side of {in_words(start)}", "ask for the date"
    )


def _school_days_away(start: date, count: int, calendar: TermCalendar | None) -> date:
    day, step = start, _DAY if count > 0 else -_DAY
    for _ in range(abs(count)):
        day += step
        while day.isoweekday() > 5 or (calendar is not None and calendar.is_off(day)):
            day += step
    return day


@read_expression.register
def _(expression: Span, scene: Scene) -> Outcome:
    starts = read_expression(expression.first, scene)
    if isinstance(starts, Unresolved):
        return starts
    found: list[Reading] = []
    question = starts.question
    for index, start in enumerate(starts.readings):
        ends = _ends(expression.last, start, scene)
        if isinstance(ends, Unresolved):
            if len(starts.readings) == 1:
                return ends
            continue
        # Two numbers in doubtful order on both sides are written in the same order.
        paired = ends.readings if len(starts.readings) == 1 else ends.readings[min(index, len(ends.readings) - 1) :][:1]
        question = question or ends.question
        found += [_joined(start, end) for end in paired]
    if not found:
        return Unresolved("no end of the stretch can be worked out", "ask for its last day")
    likely = _likely(found)
    return Found(tuple(likely), question if len(likely) > 1 else "")


def _ends(last: DateExpression, start: Reading, scene: Scene) -> Outcome:
    """The readings of a stretch's last day: not before its first, and counted from there where it would be."""
    ends = read_expression(last, replace(scene, not_before=start.first))
    if isinstance(ends, Found) and all(reading.last < start.first for reading in ends.readings):
        again = read_expression(last, scene.seen_from(start.first))
        if isinstance(again, Found) and any(reading.last >= start.first for reading in again.readings):
            return again
    return ends


def _likely(found: list[Reading]) -> list[Reading]:
    """Stretches that run forward and, where the order of day and month alone tells them apart, the only short one."""
    forward = [reading for reading in found if isinstance(reading.expression, Span)] or found
    short = [reading for reading in forward if (reading.last - reading.first).days <= _LONGEST_LIKELY]
    if len(short) == 1 < len(forward):
        how = f"{short[0].how}; read the other way round it would last for months"
        return [replace(short[0], certainty=weaker(short[0].certainty, Certainty.DERIVED), how=how)]
    return forward


def _joined(start: Reading, end: Reading) -> Reading:
    first, last = start.first, end.last
    reasons = tuple(dict.fromkeys((*start.reasons, *end.reasons)))
    if last < first:
        reason = f"the stretch would end on {in_words(last)}, before it begins; its first day is taken"
        return replace(start, reasons=(*reasons, reason), certainty=Certainty.ASSUMED)
    vague = [side.window for side in (start, end) if isinstance(side.expression, _WINDOWS)]
    return Reading(
        first,
        last,
        Span(start.expression, end.expression),
        weaker(start.certainty, end.certainty),
        f"{days_in_words(first, end.end or last)}",
        reasons,
        vague[0] if vague else "",
        end.end,
        start.counted or end.counted,
    )
