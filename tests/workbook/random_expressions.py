"""Date expressions drawn at random, of every kind that can be a formula, for a term calendar."""

from __future__ import annotations

import random
from datetime import timedelta

from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    ClassNear,
    DateExpression,
    DayOf,
    Direction,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthPart,
    NamedDay,
    NthWeekday,
    Offset,
    Part,
    PartOf,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.term_calendar import TermCalendar

__all__ = ["ANCHOR", "draw_expression"]

ANCHOR = "midterm"
_NEAR = (Direction.BEFORE, Direction.ON_OR_BEFORE, Direction.ON_OR_AFTER, Direction.AFTER)


def draw_expression(dice: random.Random, calendar: TermCalendar, depth: int = 2) -> DateExpression:
    """An expression of at most ``depth`` further levels, most of them with a day in the term."""
    kinds = [_week, _meeting, _named, _edge, _nth_weekday, _anchor, _rotation]
    if depth:
        kinds = [
            _week, _meeting, _rotation, _weekday_in, _weekday_in, _weekday_near, _weekday_near, _class_near, _offset,
            _offset, _week_of, _calendar_week, _calendar_month, _day_of, _part_of, _span,
        ]  # fmt: skip
    return dice.choice(kinds)(dice, calendar, depth - 1)


def _weekday(dice: random.Random) -> Weekday:
    return Weekday(dice.randint(1, 7))


def _week(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return Week(dice.choice([*range(1, 12), 0, -1, -2, -3]))


def _meeting(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return MeetingNumber(dice.choice([*range(1, 21), -1, -2, -5]))


def _named(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return NamedDay(dice.choice(calendar.days_off).name)


def _edge(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return TermPoint(dice.choice(list(TermEdge)))


def _nth_weekday(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    month = (calendar.first_day + timedelta(days=dice.randint(0, 90))).month
    return NthWeekday(dice.choice((1, 2, 3, 4, 5, -1)), _weekday(dice), month)


def _anchor(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return Anchor(ANCHOR)


def _rotation(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    labels = calendar.rotation_labels or ("A",)
    stretch = Week(dice.randint(1, 10)) if dice.random() < 0.5 else None
    return RotationDay(dice.choice(labels), 1 if stretch else dice.choice((1, 2, 7, -1)), stretch)


def _weekday_in(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    month = WholeMonth((calendar.first_day + timedelta(days=dice.randint(5, 80))).month)
    stretch = dice.choice((_week(dice, calendar, depth), _week_of(dice, calendar, depth), month))
    return WeekdayIn(stretch, _weekday(dice), dice.choice((1, 1, 1, -1)))


def _weekday_near(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    base = draw_expression(dice, calendar, depth)
    return WeekdayNear(base, _weekday(dice), dice.choice(list(Direction)), dice.choice((1, 1, 2)))


def _class_near(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return ClassNear(draw_expression(dice, calendar, depth), dice.choice(_NEAR), dice.choice((1, 1, 2)))


def _offset(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    base = draw_expression(dice, calendar, depth)
    return Offset(base, dice.choice((-10, -3, -2, -1, 1, 2, 3, 10)), dice.choice(list(Unit)))


def _week_of(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    fixed = FullDate(calendar.first_day + timedelta(days=dice.randint(0, 80)))
    return WeekOf(dice.choice((fixed, _named(dice, calendar, 0), _meeting(dice, calendar, 0))))


def _calendar_week(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return CalendarWeek(draw_expression(dice, calendar, 0), dice.choice((-1, 0, 1, 2)))


def _calendar_month(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    return CalendarMonth(draw_expression(dice, calendar, 0), dice.choice((-1, 0, 1)))


def _day_of(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    stretches = (TermPoint(TermEdge.FINALS), _week(dice, calendar, 0), _calendar_month(dice, calendar, 0))
    return DayOf(dice.choice(stretches), dice.choice((1, 2, 4, -1, -2)))


def _part_of(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    stretch = dice.choice(
        (_week(dice, calendar, 0), _calendar_month(dice, calendar, 0), _calendar_week(dice, calendar, 0))
    )
    return PartOf(dice.choice(list(Part)), stretch)


def _span(dice: random.Random, calendar: TermCalendar, depth: int) -> DateExpression:
    first = dice.randint(1, 8)
    weeks = Span(Week(first), Week(first + dice.randint(0, 2)))
    inside = Span(WeekdayIn(Week(first), Weekday.TU), WeekdayIn(Week(first), Weekday.FR))
    month = (calendar.first_day + timedelta(days=40)).month
    fixed = Span(TermPoint(TermEdge.FIRST_DAY), IsoWeek((calendar.first_day + timedelta(days=30)).isocalendar().week))
    return dice.choice((weeks, inside, fixed, Span(Week(2), MonthPart(dice.choice(list(Part)), month))))
