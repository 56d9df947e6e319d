"""What formulas are made of: the names they refer to, and the first and last day of a stretch as formulas."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import singledispatch
from types import MappingProxyType

from syllabus_io.resolve.expression import DateExpression, DayInMonth, Every, MonthDay, NumericDate, Reference

__all__ = [
    "LONGEST",
    "UNWRITTEN",
    "Days",
    "FormulaNames",
    "date_formula",
    "one",
    "plus",
    "stretch_formulas",
    "week_from",
    "weekday_inside",
    "written",
]

LONGEST = 8000
"""A formula may have 8,192 characters (ECMA-376 part 1, 18.17); longer ones are not written."""
UNWRITTEN = (MonthDay, NumericDate, DayInMonth, Reference, Every)
"""What no formula can follow."""


def _no_names() -> Mapping[str, str]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class FormulaNames:
    """Where a formula of one course finds the facts of the term.

    ``class_counts`` names, by kind of class ("" is any), the column of the day table that counts the classes up to
    each day. ``days_off`` gives for each name of a day off as the calendar has it the name under which the table of
    days off lists it. ``anchors`` gives for the words of another item the cell of its date; ``anchor_ends`` the cell
    of its last day where it is a stretch. ``school_count`` and ``rotation_count`` are columns of the day table that
    count school days and days of the rotating timetable; empty when the sheet has none.
    """

    class_counts: Mapping[str, str] = field(default_factory=_no_names)
    days_off: Mapping[str, str] = field(default_factory=_no_names)
    anchors: Mapping[str, str] = field(default_factory=_no_names)
    anchor_ends: Mapping[str, str] = field(default_factory=_no_names)
    school_count: str = ""
    rotation_count: str = ""
    rotation_labels: tuple[str, ...] = ()
    first_day: str = "FirstDay"
    last_day: str = "LastDay"
    classes_end: str = "ClassesEnd"
    finals_first: str = "FinalsFirst"
    finals_last: str = "FinalsLast"
    week_one: str = "WeekOne"
    week_numbers: str = "WeekNumbers"
    week_mondays: str = "WeekMondays"
    day_dates: str = "DayDates"
    off_names: str = "OffNames"
    off_first: str = "OffFirst"
    off_last: str = "OffUntil"


@dataclass(frozen=True, slots=True)
class Days:
    """Formulas of a stretch: its first and last day, and the last day that is shown."""

    first: str
    last: str
    end: str


def one(formula: str) -> Days:
    return Days(formula, formula, formula)


def date_formula(day: date) -> str:
    return f"DATE({day.year},{day.month},{day.day})"


def plus(formula: str, days: int) -> str:
    return f"{formula}{days:+d}" if days else formula


def week_from(monday: str) -> Days:
    return Days(monday, f"({monday}+6)", f"({monday}+4)")


def stretch_formulas(expression: DateExpression, names: FormulaNames) -> Days | None:
    """The formulas of an expression, None when it has none or they would be too long to build on."""
    days = written(expression, names)
    return days if days and len(days.first) + len(days.last) <= LONGEST else None


@singledispatch
def written(expression: object, names: FormulaNames) -> Days | None:
    if isinstance(expression, UNWRITTEN):
        return None
    raise TypeError(f"no way to write {expression!r} over {names!r}")


def weekday_inside(first: str, last: str, weekday: int, number: int) -> str:
    if number > 0:
        return f"({plus(f'{first}+MOD({weekday}-WEEKDAY({first},2),7)', 7 * (number - 1))})"
    return f"({plus(f'{last}-MOD(WEEKDAY({last},2)-{weekday},7)', 7 * (number + 1))})"
