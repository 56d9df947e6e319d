"""Days as an outline writes them, and the days they can mean in a term: the year chosen, the order applied."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal, TypeAlias

from syllabus_io.outline.records import Mention, Outline
from syllabus_io.resolve.expression import (
    DateExpression,
    DayInMonth,
    FullDate,
    MonthDay,
    NumericDate,
    Weekday,
)
from syllabus_io.resolve.expression_parts import parts_of, with_parts
from syllabus_io.resolve.term import Term

__all__ = [
    "DayOrder",
    "Written",
    "WrittenDay",
    "agrees",
    "day_near",
    "distance",
    "last_day_of",
    "mentions_of",
    "month_and_day_of",
    "settled",
    "written_days",
]

DayOrder: TypeAlias = Literal["mdy", "dmy"]
Written: TypeAlias = FullDate | MonthDay | NumericDate | DayInMonth


@dataclass(frozen=True, slots=True)
class WrittenDay:
    """One day as written: its part of the tree, the words around it, and the schedule row it stands in."""

    part: Written
    words: str
    row: int | None = None


def mentions_of(outline: Outline) -> Iterator[Mention]:
    """Every dated place of an outline, schedule rows first; a place that dates a row and an item comes once."""
    seen: set[Mention] = set()
    groups = [outline.row_dates, tuple(off.mention for off in outline.no_class)]
    groups += [(*item.mentions, *((item.end,) if item.end else ())) for item in outline.items]
    for group in groups:
        for mention in group:
            if mention not in seen:
                seen.add(mention)
                yield mention


def written_days(outline: Outline) -> tuple[WrittenDay, ...]:
    """Every written day of an outline. The same words in the same row count once."""
    found: dict[WrittenDay, None] = {}
    for mention in mentions_of(outline):
        if mention.phrase.expression is None:
            continue
        for part in parts_of(mention.phrase.expression):
            if isinstance(part, FullDate | MonthDay | NumericDate):
                found.setdefault(WrittenDay(part, mention.words, mention.row))
    return tuple(found)


def last_day_of(term: Term) -> date:
    """The last day on which anything can be due: of the examination period when there is one, else of the term."""
    return max(term.last_day, term.finals[1]) if term.finals else term.last_day


def distance(day: date, term: Term) -> int:
    """How many days a day lies outside the term; 0 inside it, examination period included."""
    first = min(term.first_day, term.finals[0]) if term.finals else term.first_day
    return max((first - day).days, (day - last_day_of(term)).days, 0)


def day_near(month: int, day: int, term: Term) -> date | None:
    """The day of that month and number that lies in the term, or nearest to it; None when there is none near.

    A 29 February exists in leap years only, so it may be missing.
    """
    found: list[date] = []
    for year in range(term.first_day.year - 1, last_day_of(term).year + 2):
        try:
            found.append(date(year, month, day))
        except ValueError:
            continue
    return min(found, key=lambda each: distance(each, term), default=None)


def month_and_day_of(part: Written, order: DayOrder) -> tuple[int, int] | None:
    """Month and day of a written day, two numbers read in ``order``; None when the month is missing or impossible."""
    match part:
        case FullDate(day=day):
            return (day.month, day.day)
        case MonthDay(month=month, day=number):
            return (month, number)
        case DayInMonth(day=number, month=month):
            return None if month is None else (month, number)
        case NumericDate(first=first, second=second):
            month, number = (first, second) if order == "mdy" else (second, first)
            return (month, number) if month <= 12 else None


def settled(expression: DateExpression, order: DayOrder, term: Term) -> DateExpression | None:
    """The tree with every written day made a full date in the term; None when one of them is no day at all."""
    missing = False

    def settle(part: DateExpression) -> DateExpression:
        nonlocal missing
        if not isinstance(part, MonthDay | NumericDate) and not (
            isinstance(part, DayInMonth) and part.month is not None
        ):
            return part
        pair = month_and_day_of(part, order)
        day = None if pair is None else _in_year(pair, part.year if isinstance(part, NumericDate) else None, term)
        if day is None:
            missing = True
            return part
        return FullDate(day, part.weekday)

    tree = with_parts(expression, settle)
    return None if missing else tree


def _in_year(pair: tuple[int, int], year: int | None, term: Term) -> date | None:
    if year is None:
        return day_near(*pair, term)
    try:
        return date(year, *pair)
    except ValueError:
        return None


def agrees(day: date, weekday: Weekday | None) -> bool:
    """Whether a day falls on the weekday written beside it; a missing weekday agrees with every day."""
    return weekday is None or day.isoweekday() == weekday
