"""Work that is due by a rule ("every Friday"): expanded into numbered items, one a day."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from syllabus_io.outline.records import GradingScheme, Item
from syllabus_io.resolve.expression import (
    DateExpression,
    Every,
    Frequency,
    FullDate,
    MeetingNumber,
    Offset,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
)
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import in_words

__all__ = ["SeriesItem", "is_dated_one_by_one", "number_series", "series_size"]

_EDGE = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class SeriesItem:
    """One item of a series: its number from 1, its day, the tree that gives this day, and reasons to check it."""

    number: int
    day: date
    expression: DateExpression
    reasons: tuple[str, ...] = ()


def series_size(item: Item, items: Iterable[Item], scheme: GradingScheme) -> int | None:
    """How many items the outline counts in a series: stated for it, or for the grading category it alone fills."""
    if item.series_count is not None:
        return item.series_count
    if item.category is None or sum(other.category == item.category for other in items) > 1:
        return None
    return next((each.count for each in scheme.categories if each.name == item.category), None)


def is_dated_one_by_one(item: Item, others: Iterable[Item]) -> bool:
    """Whether the outline dates the items of a series one by one elsewhere, so that the rule must not repeat them."""
    own = _stem(item.title)
    same = [
        other
        for other in others
        if other is not item
        and other.kind is item.kind
        and not any(isinstance(mention.phrase.expression, Every) for mention in other.mentions)
        and (_stem(other.title) == own or (other.category is not None and other.category == item.category))
    ]
    return len([other for other in same if other.number is not None or re.search(r"\d", other.title)]) >= 2


def number_series(
    rule: Every, days: Sequence[date], size: int | None, calendar: TermCalendar, school: TermCalendar
) -> tuple[SeriesItem, ...]:
    """The items of a rule's days. With a ``size``, the first so many; a mismatch that the last week of term does not
    explain is a reason on every item. Without one, a first or last day at the edge of the term is a reason."""
    chosen = tuple(days if size is None else days[:size])
    common: list[str] = []
    if size is not None and len(days) < size:
        common.append(f"the rule gives {len(days)} days in the term, but the outline counts {size}")
    surplus = days[len(chosen) :]
    if any(day < calendar.teaching_end - _EDGE for day in surplus):
        common.append(f"the rule gives {len(days)} days in the term, but the outline counts only {size}")
    items = []
    for number, day in enumerate(chosen, start=1):
        reasons = list(common)
        if size is None:
            reasons += _edge_reasons(rule, day, number == 1, number == len(chosen), calendar)
        items.append(SeriesItem(number, day, _tree(rule, day, calendar, school), tuple(reasons)))
    return tuple(items)


def _edge_reasons(rule: Every, day: date, is_first: bool, is_last: bool, calendar: TermCalendar) -> list[str]:
    """Reasons for days near the edges of the term, where a rule without bounds of its own may not hold yet or any more.
    What is due for every class is due for the first and last of them too."""
    if rule.frequency is Frequency.MEETING:
        return []
    reasons = []
    if is_first and rule.start is None and day < calendar.first_day + _EDGE:
        reasons.append(f"the outline gives no start for this rule; {in_words(day)} is in the first week of the term")
    is_whole = rule.start is not None and bool(rule.except_in)  # who names the first day and each gap names the rest
    if is_last and not is_whole and rule.until is None and rule.count is None and day > calendar.last_day - _EDGE:
        reasons.append(f"the outline gives no end for this rule; {in_words(day)} is in the last week of the term")
    return reasons


def _tree(rule: Every, day: date, calendar: TermCalendar, school: TermCalendar) -> DateExpression:
    """The day as a tree that moves with the term where the rule does; a fixed date where its bounds are fixed."""
    if any(isinstance(part, FullDate) for part in parts_of(rule)):
        return FullDate(day)
    if rule.frequency is Frequency.MEETING:
        meetings = calendar.meetings_dates(rule.kind)
        base = day - timedelta(days=rule.shift_days)
        if base not in meetings:
            return FullDate(day)
        meeting = MeetingNumber(meetings.index(base) + 1, rule.kind)
        return Offset(meeting, rule.shift_days, Unit.DAY) if rule.shift_days else meeting
    week = calendar.week_number(day)
    if rule.frequency is Frequency.WEEKLY and week and calendar.week(week) == school.week(week):
        return WeekdayIn(Week(week), Weekday(day.isoweekday()))
    return FullDate(day)


def _stem(title: str) -> str:
    """The title without numbers and plural endings, so that "Homeworks" is the stem of "Homework 3"."""
    return " ".join(word.rstrip("s") for word in re.findall(r"[a-z]+", title.casefold()))
