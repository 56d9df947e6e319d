"""Which of two numbers is the month, decided by what the whole outline shows."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from syllabus_io.resolve.expression import FullDate, NumericDate
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.wording import quoted, weekday_in_words
from syllabus_io.resolve.written_days import (
    DayOrder,
    WrittenDay,
    agrees,
    day_near,
    distance,
    month_and_day_of,
)

__all__ = ["OrderEvidence", "order_of_words", "read_order"]

_ORDERS: tuple[DayOrder, DayOrder] = ("mdy", "dmy")
_SAID: dict[DayOrder, str] = {"mdy": "the month stands first", "dmy": "the day stands first"}
_NUMBERS = re.compile(r"(?<![\d/.:-])(\d{1,2})(?:[/.](\d{1,2})(?![\d:])|-(\d{1,2})-\d{2,4})")
_MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_MONTH_FIRST = re.compile(rf"\b{_MONTH}\s*\d{{1,2}}(?!\d)", re.IGNORECASE)
_DAY_FIRST = re.compile(
    rf"(?<!\d)\d{{1,2}}(?:st|nd|rd|th)?\s+(?:of\s+)?{_MONTH}(?![a-z])(?!\s*\d{{1,2}}(?!\d))", re.IGNORECASE
)
# Short date patterns of the Unicode locale data, from memory: M/d/yy in the United States, its territories and the
# Philippines; Canada uses both; elsewhere the day comes before the month.
_MONTH_FIRST_REGIONS = frozenset({"US", "PR", "GU", "VI", "AS", "MP", "PH"})
_BOTH_ORDERS = frozenset({"CA"})


@dataclass(frozen=True, slots=True)
class OrderEvidence:
    """The order of day and month in dates such as 3/4, and what shows it. ``order`` is None when nothing does."""

    order: DayOrder | None = None
    why: str = ""


def order_of_words(words: str) -> DayOrder | None:
    """The order that a numeric date shows by itself, because one part is above 12.

    >>> order_of_words("9/25"), order_of_words("25.9."), order_of_words("3/4")
    ('mdy', 'dmy', None)
    """
    for match in _NUMBERS.finditer(words):
        first, second = int(match[1]), int(match[2] or match[3])
        if first <= 12 < second <= 31:
            return "mdy"
        if second <= 12 < first <= 31:
            return "dmy"
    return None


def read_order(days: Sequence[WrittenDay], term: Term) -> OrderEvidence:
    """The order that the outline's dates show, by the strongest evidence that speaks: a part above 12, weekdays,
    the rising order of schedule rows, the bounds of the term, dates written in words, the region of the term."""
    numeric = [day for day in days if isinstance(day.part, NumericDate) and day.part.first != day.part.second]
    found = _by_large_part(days)
    if found.order or not numeric:
        return found
    witnesses: tuple[Callable[[], OrderEvidence], ...] = (
        lambda: _by_weekdays(numeric, term),
        lambda: _by_rising_rows(days, term),
        lambda: _by_term(numeric, term),
        lambda: _by_words(days),
        lambda: _by_region(term),
    )
    for witness in witnesses:
        evidence = witness()
        if evidence.order:
            return OrderEvidence(evidence.order, f"{_SAID[evidence.order]}: {evidence.why}")
    return found


def _by_large_part(days: Iterable[WrittenDay]) -> OrderEvidence:
    shown: dict[DayOrder, list[str]] = {"mdy": [], "dmy": []}
    for day in days:
        order = order_of_words(day.words)
        if order and not isinstance(day.part, NumericDate):
            shown[order].append(day.words)
    for order, other in (_ORDERS, _ORDERS[::-1]):
        if shown[order] and len(shown[order]) >= 5 * len(shown[other]):
            return OrderEvidence(order, f"{_SAID[order]}, as in {quoted(shown[order][0])}")
    if shown["mdy"]:
        return OrderEvidence(None, f"the outline writes both {quoted(shown['mdy'][0])} and {quoted(shown['dmy'][0])}")
    return OrderEvidence()


def _reading(day: WrittenDay, order: DayOrder, term: Term) -> date | None:
    if isinstance(day.part, FullDate):
        return day.part.day
    pair = month_and_day_of(day.part, order)
    if pair is None:
        return None
    if isinstance(day.part, NumericDate) and day.part.year is not None:
        try:
            return date(day.part.year, *pair)
        except ValueError:
            return None
    return day_near(*pair, term)


def _clear_winner(good: dict[DayOrder, int], bad: dict[DayOrder, int]) -> DayOrder | None:
    for order, other in (_ORDERS, _ORDERS[::-1]):
        if good[order] and bad[other] and 3 * bad[order] < bad[other]:
            return order
    return None


def _by_weekdays(numeric: Sequence[WrittenDay], term: Term) -> OrderEvidence:
    good: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    bad: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    example: dict[DayOrder, str] = {}
    for day in numeric:
        if day.part.weekday is None:
            continue
        for order in _ORDERS:
            reading = _reading(day, order, term)
            if reading is not None and agrees(reading, day.part.weekday):
                good[order] += 1
                example.setdefault(order, f"{quoted(day.words)} is then a {weekday_in_words(reading)}")
            else:
                bad[order] += 1
    order_found = _clear_winner(good, bad)
    return OrderEvidence(order_found, example[order_found]) if order_found else OrderEvidence()


def _by_rising_rows(days: Sequence[WrittenDay], term: Term) -> OrderEvidence:
    rises: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    falls: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    for order in _ORDERS:
        rows: dict[int, date] = {}
        for day in days:
            reading = _reading(day, order, term) if day.row is not None else None
            if reading is not None and day.row is not None:
                rows.setdefault(day.row, reading)
        in_order = [rows[row] for row in sorted(rows)]
        for earlier, later in pairwise(in_order):
            rises[order] += earlier <= later
            falls[order] += earlier > later
    order_found = _clear_winner(rises, falls)
    return (
        OrderEvidence(order_found, "the rows of the schedule then follow each other")
        if order_found
        else OrderEvidence()
    )


def _by_term(numeric: Sequence[WrittenDay], term: Term) -> OrderEvidence:
    inside: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    outside: dict[DayOrder, int] = {"mdy": 0, "dmy": 0}
    for day in numeric:
        for order in _ORDERS:
            reading = _reading(day, order, term)
            within = reading is not None and distance(reading, term) == 0
            inside[order] += within
            outside[order] += not within
    order_found = _clear_winner(inside, outside)
    return OrderEvidence(order_found, "the dates then lie within the term") if order_found else OrderEvidence()


def _by_words(days: Iterable[WrittenDay]) -> OrderEvidence:
    shown: dict[DayOrder, list[str]] = {"mdy": [], "dmy": []}
    for day in days:
        for order, pattern in (("mdy", _MONTH_FIRST), ("dmy", _DAY_FIRST)):
            if pattern.search(day.words):
                shown["mdy" if order == "mdy" else "dmy"].append(day.words)
    for order_found, other in (_ORDERS, _ORDERS[::-1]):
        if shown[order_found] and len(shown[order_found]) > 3 * len(shown[other]):
            return OrderEvidence(order_found, f"so does the outline in words, {quoted(shown[order_found][0])}")
    return OrderEvidence()


def _by_region(term: Term) -> OrderEvidence:
    region = (term.holidays or "").upper().split("-")[0]
    if not region or region in _BOTH_ORDERS:
        return OrderEvidence()
    return OrderEvidence(
        "mdy" if region in _MONTH_FIRST_REGIONS else "dmy", f"so it is usual in the term's region, {region}"
    )
