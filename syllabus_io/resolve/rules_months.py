"""Rules for one day of several months that are named together: "the 15th of September, October and November"."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.resolve.expression import DateExpression, DayOf, Every, Frequency, Offset, Unit, Weekday, WholeMonth
from syllabus_io.resolve.rules import Rule

__all__ = ["RULES"]

_SCHOOL_WEEK = tuple(Weekday)[:5]


def _more_months(month: int, more: tuple[int, ...]) -> tuple[int, ...] | None:
    return (month, *more) if month not in more else None


def _in_months(rule: Every, month: int, more: tuple[int, ...]) -> Every | None:
    """The rule in the months named. Its days are named one by one, so that none is left out as a day off."""
    return replace(rule, months=(month, *more), open_days_only=False) if month not in more else None


def _numbered_day(number: int, month: int, more: tuple[int, ...]) -> Every | None:
    days = Every(Frequency.MONTHLY, month_days=(number,))
    return _in_months(days, month, more) if 1 <= number <= 31 else None


def _ordinal_weekday(number: int, weekday: Weekday, month: int, more: tuple[int, ...]) -> Every | None:
    days = Every(Frequency.MONTHLY, weekdays=(weekday,), numbers=(number,))
    return _in_months(days, month, more) if 1 <= abs(number) <= 5 else None


def _school_day(number: int, month: int, more: tuple[int, ...]) -> Every | None:
    """School days are counted among the days that are not off."""
    found = Every(Frequency.MONTHLY, weekdays=_SCHOOL_WEEK, set_positions=(number,), months=(month, *more))
    return found if month not in more and 1 <= abs(number) <= 23 else None


def _school_day_of_month(number: int, month: int) -> DateExpression | None:
    """The first or last school day of a month: one school day away from the day outside it."""
    if number == 1:
        return Offset(Offset(DayOf(WholeMonth(month), 1), -1, Unit.DAY), 1, Unit.SCHOOL_DAY)
    if number == -1:
        return Offset(Offset(DayOf(WholeMonth(month), -1), 1, Unit.DAY), -1, Unit.SCHOOL_DAY)
    return None


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
RULES = (
    Rule("<month> in a list", "<month>", lambda m: (m,), "<monthlist>",
         ("the 15th of September, October and November",)),
    Rule("<month> and <months> in a list", "<month> ,|and|&|/ [and] <monthlist>", _more_months, "<monthlist>",
         ("the 15th of September, October and November",)),
    Rule("the <number>th of <months>", "[on] [the] <nth> [day] of|in <month> ,|and|&|/ [and] <monthlist>",
         _numbered_day, "<every>", ("the 15th of September, October and November", "on the 1st of March and May")),
    Rule("the <ordinal> <weekday> of <months>",
         "[on] [the] <ordinal> <wday> of|in <month> ,|and|&|/ [and] <monthlist>", _ordinal_weekday, "<every>",
         ("the first Monday of September, October and November",)),
    Rule("the <ordinal> day of <months>", "[on] [the] <ordinal> day of|in <month> ,|and|&|/ [and] <monthlist>",
         _numbered_day, "<every>", ("the first day of October and December",)),
    Rule("the <ordinal> school day of <months>",
         "[on] [the] <ordinal> school day of|in <month> ,|and|&|/ [and] <monthlist>", _school_day, "<every>",
         ("on the last school day of September, October and November",)),
    Rule("the <ordinal> school day of <month>", "[the] <ordinal> school day of|in <month>", _school_day_of_month,
         "<point>", ("the last school day of September",)),
    Rule("the <ordinal> school day of each month", "[the] <ordinal> school day <eachmonth>",
         lambda n, step: Every(Frequency.MONTHLY, step or 1, _SCHOOL_WEEK, set_positions=(n,))
         if 1 <= abs(n) <= 23 else None, "<every>", ("the last school day of each month",)),
)
# fmt: on
