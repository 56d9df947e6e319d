"""The evidence of a whole outline, and the readings of one date under it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from syllabus_io.resolve.evidence import read_evidence, readings_of, with_month
from syllabus_io.resolve.expression import (
    DateExpression,
    DayInMonth,
    FullDate,
    MonthDay,
    NumericDate,
    Offset,
    Span,
    Unit,
    Weekday,
    WeekOf,
)
from syllabus_io.resolve.expression_parts import parts_of, with_parts
from syllabus_io.resolve.term import Term
from tests.resolve.made_outlines import AUTUMN, mention, outline, rows

WINTER = Term("Winter 2026/27", date(2026, 11, 30), date(2027, 3, 12))
"""Crosses New Year."""
LEAP = Term("Spring 2028", date(2028, 1, 10), date(2028, 4, 28))


@pytest.mark.parametrize(
    ("term", "month", "day", "expected"),
    [
        (AUTUMN, 10, 6, date(2026, 10, 6)),
        (WINTER, 12, 20, date(2026, 12, 20)),
        (WINTER, 2, 1, date(2027, 2, 1)),
        (WINTER, 3, 15, date(2027, 3, 15)),  # three days after the term, nearer than 2026
        (WINTER, 11, 20, date(2026, 11, 20)),
        (LEAP, 2, 29, date(2028, 2, 29)),
    ],
)
def test_a_date_without_a_year_lies_in_the_term_or_nearest_to_it(
    term: Term, month: int, day: int, expected: date
) -> None:
    (reading,) = readings_of(MonthDay(month, day), read_evidence(outline(), term), term)
    assert reading.expression == FullDate(expected)


def test_order_and_year_are_applied_inside_a_tree() -> None:
    evidence = read_evidence(outline(row_dates=(mention(MonthDay(10, 22), "22/10", row=1),)), AUTUMN)
    tree = Offset(WeekOf(NumericDate(5, 10)), 1, Unit.WEEK)
    (reading,) = readings_of(tree, evidence, AUTUMN)
    assert reading.expression == Offset(WeekOf(FullDate(date(2026, 10, 5))), 1, Unit.WEEK)
    assert reading.why == "the day stands first, as in “22/10”"


def test_one_date_may_show_its_own_order_where_the_outline_shows_none() -> None:
    evidence = read_evidence(outline(), AUTUMN)
    (reading,) = readings_of(NumericDate(10, 3), evidence, AUTUMN)
    assert reading.expression == FullDate(date(2026, 10, 3)), "10 March is not in the term"
    assert len(readings_of(NumericDate(9, 10), evidence, AUTUMN)) == 2


@pytest.mark.parametrize(
    ("day", "after", "expected"),
    [
        (DayInMonth(12), date(2026, 9, 5), DayInMonth(12, month=9)),
        (DayInMonth(3), date(2026, 9, 5), DayInMonth(3, month=10)),
        (DayInMonth(31), date(2026, 9, 5), DayInMonth(31, month=10)),
        (DayInMonth(8), date(2026, 12, 20), DayInMonth(8, month=1)),
        (DayInMonth(8, month=5), date(2026, 12, 20), DayInMonth(8, month=5)),
    ],
)
def test_a_day_number_takes_the_first_month_that_follows(day: DayInMonth, after: date, expected: DayInMonth) -> None:
    assert with_month(day, after) == expected


def test_day_numbers_in_rows_go_on_over_the_end_of_a_month() -> None:
    dated = [mention(MonthDay(9, 24), "Sep 24", row=1)]
    dated += [mention(DayInMonth(day), str(day), row=row) for row, day in enumerate((29, 1, 6), start=2)]
    evidence = read_evidence(outline(row_dates=tuple(dated)), AUTUMN)
    assert [row.first for row in evidence.rows] == [
        date(2026, 9, 24),
        date(2026, 9, 29),
        date(2026, 10, 1),
        date(2026, 10, 6),
    ]


def test_weekdays_that_agree_are_counted_and_said() -> None:
    days = [date(2026, 9, 1) + timedelta(weeks=n) for n in range(5)]
    evidence = read_evidence(outline(row_dates=rows(days, with_weekdays=True)), AUTUMN)
    assert evidence.year.why == "in the term, Autumn 2026, where 5 of 5 weekdays written beside dates agree"
    assert evidence.year.leftover == ""


def test_parts_of_a_tree_are_walked_and_replaced() -> None:
    tree: DateExpression = Span(MonthDay(9, 28), Offset(MonthDay(9, 30), 2, Unit.DAY))
    assert [type(part).__name__ for part in parts_of(tree)] == ["Span", "MonthDay", "Offset", "MonthDay"]

    def in_may(part: DateExpression) -> DateExpression:
        return MonthDay(5, part.day, Weekday.MO) if isinstance(part, MonthDay) else part

    assert with_parts(tree, in_may) == Span(
        MonthDay(5, 28, Weekday.MO), Offset(MonthDay(5, 30, Weekday.MO), 2, Unit.DAY)
    )
    assert with_parts(tree, lambda part: part) == tree
