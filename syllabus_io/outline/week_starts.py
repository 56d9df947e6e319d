"""Rows of whole weeks that are headed by one date: a date a week apart from the next stands for the week it opens."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from syllabus_io.resolve.expression import DateExpression, FullDate, MonthDay, NumericDate, Weekday
from syllabus_io.resolve.term import Meeting

__all__ = ["ClassWeek", "class_week", "opens_weeks"]

LEAST_ROWS = 4
LEAST_SHARE = 0.8  # of the steps from row to row, in whole weeks
_SAYS_WEEK = re.compile(
    r"\b(?:weeks?|w/c|wk|begin(?:s|ning)?|start(?:s|ing)?|commenc(?:es|ing)|mondays?|sundays?)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class ClassWeek:
    """What is known of the week of a course: its class days, those of its kinds of meeting that are held once a week,
    and a year of its term for the weekday of a date, None when the outline names none."""

    days: frozenset[Weekday] = frozenset()
    once: frozenset[Weekday] = frozenset()
    year: int | None = None


def class_week(meetings: Sequence[Meeting], years: Sequence[int]) -> ClassWeek:
    """The class days of a course by its meetings."""
    kinds: dict[str, set[Weekday]] = {}
    for meeting in meetings:
        kinds.setdefault(meeting.kind, set()).update(meeting.days)
    once = {day for days in kinds.values() if len(days) == 1 for day in days}
    whole = {day for days in kinds.values() for day in days}
    return ClassWeek(frozenset(whole), frozenset(once), years[0] if years else None)


def opens_weeks(days: Sequence[DateExpression], heading: str, has_topics: bool, course: ClassWeek) -> bool:
    """Whether the dates of a table's rows, in order, each open a week instead of being the day of what the row holds.

    They do when they are whole weeks apart and their column says so, or when the course has more classes in a week
    than such a table has rows. A list of deadlines, with no topics beside them, is left alone.
    """
    if len(days) < LEAST_ROWS:
        return False
    for order in ("mdy", "dmy"):
        dated = [_as_date(day, order, course.year) for day in days]
        known = [day for day in dated if day is not None]
        steps = [(b - a).days % 365 for a, b in pairwise(known)]
        weekly = [step for step in steps if step and step % 7 == 0]
        if len(known) < len(days) or len(weekly) < LEAST_SHARE * len(steps) or 2 * steps.count(7) < len(steps):
            continue
        weekday = _weekday(days, known, course.year)
        if weekday is not None and weekday in course.once:
            return False
        # a class held once a week leaves out its holidays, a table of weeks does not
        is_whole = bool(course.days) or steps.count(7) == len(steps)
        return bool(_SAYS_WEEK.search(heading)) or (has_topics and is_whole and _is_opening_day(weekday, course))
    return False


def _is_opening_day(weekday: Weekday | None, course: ClassWeek) -> bool:
    edge = weekday in (Weekday.MO, Weekday.SU)
    if len(course.days) >= 2:
        return weekday is None or edge or weekday == min(course.days)
    return edge


def _as_date(day: DateExpression, order: str, year: int | None) -> date | None:
    match day:
        case FullDate(day=full):
            return full
        case MonthDay(month=month, day=number):
            pass
        case NumericDate(first=first, second=second):
            month, number = (first, second) if order == "mdy" else (second, first)
        case _:
            return None
    try:
        return date(year or 2001, month, number)
    except ValueError:
        return None


def _weekday(days: Sequence[DateExpression], dates: Sequence[date], year: int | None) -> Weekday | None:
    written = {day.weekday for day in days if isinstance(day, FullDate | MonthDay | NumericDate) and day.weekday}
    if len(written) == 1:
        return written.pop()
    if year is None and not all(isinstance(day, FullDate) for day in days):
        return None
    found = {day.isoweekday() for day in dates}
    return Weekday(found.pop()) if len(found) == 1 else None
