"""Comparing dates without a calendar: two expressions that plainly say the same day have the same key."""

from __future__ import annotations

from typing import TypeAlias

from syllabus_io.resolve.expression import (
    DateExpression,
    FullDate,
    MonthDay,
    NumericDate,
    Span,
    WeekdayIn,
    WeekOf,
    write_expression,
)

__all__ = ["DayKey", "day_key"]

DayKey: TypeAlias = tuple[str, int, int] | tuple[str, str]


def day_key(expression: DateExpression) -> DayKey:
    """A key that is equal for the same month and day however written; other expressions are compared as they are.

    Numeric dates are taken month first; where an outline writes day first, its own dates still agree with each other.
    """
    match expression:
        case FullDate(day=day):
            return ("date", day.month, day.day)
        case MonthDay(month=month, day=number):
            return ("date", month, number)
        case NumericDate(first=first, second=second):
            return ("date", first, second)
        case WeekdayIn(stretch=WeekOf(base=base), weekday=weekday, number=number):
            return ("weekday", f"{day_key(base)} {weekday} {number}")
        case Span(first=first, last=last):
            return ("span", f"{day_key(first)} {day_key(last)}")
        case _:
            return ("other", write_expression(expression))
