"""What an outline shows, taken as a whole, about dates that are left open: order, year, and slips of its rows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from syllabus_io.outline.records import Mention, Outline
from syllabus_io.resolve.cross_check import class_weekdays
from syllabus_io.resolve.day_order import OrderEvidence, read_order
from syllabus_io.resolve.expression import DateExpression, DayInMonth, FullDate, NumericDate
from syllabus_io.resolve.expression_parts import parts_of, with_parts
from syllabus_io.resolve.row_order import RowDay, RowSlip, find_slips
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.written_days import DayOrder, agrees, distance, settled, written_days
from syllabus_io.resolve.year_evidence import YearEvidence, leftover_by_class_days, read_years_shown

__all__ = ["Evidence", "Reading", "read_evidence", "readings_of"]


@dataclass(frozen=True, slots=True)
class Evidence:
    """The readings decided for one outline in one term, each with what shows it.

    ``rows`` are the dated schedule rows as they are read; ``slips`` those whose printed date cannot be right.
    """

    order: OrderEvidence
    year: YearEvidence
    rows: tuple[RowDay, ...] = ()
    slips: tuple[RowSlip, ...] = ()

    def row_day(self, row: int | None) -> date | None:
        """The first day of a schedule row, a slip mended; None when the row has no date."""
        slip = self.slip(row)
        if slip is not None and slip.likely is not None:
            return slip.likely
        return next((each.first for each in self.rows if each.row == row), None)

    def slip(self, row: int | None) -> RowSlip | None:
        """The slip of a schedule row, when there is one."""
        return next((slip for slip in self.slips if slip.row == row), None)


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read a date: the tree with order and year applied, and why this way."""

    expression: DateExpression
    why: str = ""


def read_evidence(outline: Outline, term: Term) -> Evidence:
    """What the outline's dates show together; every later reading of one date rests on it."""
    days = written_days(outline)
    order = read_order(days, term)
    year = read_years_shown(days, order.order or "mdy", term, outline.years, outline.course.term or "")
    rows = _rows(outline.row_dates, order.order or "mdy", term)
    if not year.leftover and not year.weekdays:
        row_days = [row.first for row in rows if row.first == row.last]
        year = replace(year, leftover=leftover_by_class_days(row_days, class_weekdays(outline.course.meetings), term))
    open_order = order.order is None and any(isinstance(day.part, NumericDate) for day in days)
    return Evidence(order, year, rows, () if open_order else find_slips(rows))


def _rows(mentions: Iterable[Mention], order: DayOrder, term: Term) -> tuple[RowDay, ...]:
    """The dated rows with their days. A day number without a month follows the row before it."""
    rows: dict[int, RowDay] = {}
    last: date | None = None
    for mention in mentions:
        if mention.phrase.expression is None or mention.row is None or mention.row in rows:
            continue
        tree = settled(with_month(mention.phrase.expression, last or term.first_day), order, term)
        written = [part.day for part in parts_of(tree) if isinstance(part, FullDate)] if tree else []
        if written:
            rows[mention.row] = RowDay(mention.row, written[0], max(written), mention.words)
            last = written[0]
    return tuple(rows[row] for row in sorted(rows))


def with_month(expression: DateExpression, after: date) -> DateExpression:
    """The tree with each day number that lacks a month given the first month in which it is not before ``after``."""

    def carry(part: DateExpression) -> DateExpression:
        if not isinstance(part, DayInMonth) or part.month is not None:
            return part
        for step in range(12):
            month = (after.month - 1 + step) % 12 + 1
            try:
                day = date(after.year + (after.month - 1 + step) // 12, month, part.day)
            except ValueError:
                continue
            if day >= after:
                return DayInMonth(part.day, part.weekday, month)
        return part

    return with_parts(expression, carry)


def readings_of(expression: DateExpression, evidence: Evidence, term: Term) -> tuple[Reading, ...]:
    """The ways to read a date under the evidence, the likeliest first; empty when it is no day of the calendar.

    More than one only when the order of day and month stays open, both orders give a day, and neither the term nor a
    weekday beside it tells them apart.
    """
    decided = evidence.order.order
    if decided:
        tree = settled(expression, decided, term)
        return (Reading(tree, evidence.order.why),) if tree else ()
    month_first = settled(expression, "mdy", term)
    day_first = settled(expression, "dmy", term)
    if month_first == day_first or day_first is None or month_first is None:
        tree = month_first or day_first
        return (Reading(tree),) if tree else ()
    readings = (Reading(month_first, "the month read first"), Reading(day_first, "the day read first"))
    scores = [_faults(reading.expression, term) for reading in readings]
    if scores[0] == scores[1]:
        return readings
    better = readings[scores.index(min(scores))]
    return (Reading(better.expression, f"{better.why}: only so the day fits the term and its weekday"),)


def _faults(expression: DateExpression, term: Term) -> int:
    written = [part for part in parts_of(expression) if isinstance(part, FullDate)]
    return sum((distance(part.day, term) > 0) + (not agrees(part.day, part.weekday)) for part in written)
