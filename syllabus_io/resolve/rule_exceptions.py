"""Exceptions of a recurring rule, applied to its days."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.outline.records import Kind, SeriesException
from syllabus_io.resolve.expression import Anchor, DateExpression, Every, NamedDay
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.term_calendar import TermCalendar

__all__ = ["made_exception", "split_exceptions", "week_of", "whole_stretch"]

_EXAM_WEEKS = re.compile(r"\b(?:exam|examination|test|mid-?term)s?\s+weeks?\b", re.IGNORECASE)


def split_exceptions(stated: Sequence[SeriesException], rule: Every) -> tuple[tuple[SeriesException, ...], Every]:
    """Every exception of a rule, and the rule without those that hang on other items of the outline.

    An exception that is stated both in the rule and beside it counts once.
    """
    moved = [part for part in rule.except_in if _is_exam_weeks(part) or _hangs_on_items(part)]
    own = [
        SeriesException(around=Kind.EXAM) if _is_exam_weeks(part) else SeriesException(part)
        for part in moved
        if not any(each.stretch == part for each in stated)
    ]
    kept = tuple(
        part for part in rule.except_in if part not in moved and not any(each.stretch == part for each in stated)
    )
    return tuple(dict.fromkeys([*own, *stated])), replace(rule, except_in=kept)


def made_exception(
    days: Sequence[date],
    exception: SeriesException,
    stretches: Iterable[tuple[date, date]],
    calendar: TermCalendar,
) -> tuple[date, ...]:
    """The days of a rule without those of the exception, and with the days that stand in for them.

    Days that stand in on a day off are left out.
    """
    kept = set(days)
    for first, last in stretches:
        kept -= {
            day for day in days if first <= day <= last and day.isoweekday() in (exception.weekdays or range(1, 8))
        }
        inside = (first + timedelta(days=n) for n in range((last - first).days + 1))
        kept |= {day for day in inside if day.isoweekday() in exception.instead and not calendar.is_off(day)}
    return tuple(sorted(kept))


def week_of(day: date) -> tuple[date, date]:
    """Monday and Sunday of the week that holds a day."""
    monday = day - timedelta(days=day.isoweekday() - 1)
    return monday, monday + timedelta(days=6)


def whole_stretch(first: date, last: date | None) -> tuple[date, date]:
    """A stretch as an exception means it: a week shown from Monday to Friday holds its weekend too."""
    if last is not None and first.isoweekday() == 1 and last.isoweekday() == 5:
        return first, last + timedelta(days=2)
    return first, last or first


def _is_exam_weeks(part: DateExpression) -> bool:
    return isinstance(part, NamedDay) and bool(_EXAM_WEEKS.search(part.name))


def _hangs_on_items(part: DateExpression) -> bool:
    return any(isinstance(each, Anchor) for each in parts_of(part))
