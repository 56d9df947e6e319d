"""The order of day and month, decided by the whole outline."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from syllabus_io.resolve.day_order import order_of_words, read_order
from syllabus_io.resolve.expression import MonthDay, NumericDate, Weekday
from syllabus_io.resolve.written_days import WrittenDay
from tests.resolve.made_outlines import AUTUMN


def numeric(first: int, second: int, weekday: Weekday | None = None, row: int | None = None) -> WrittenDay:
    return WrittenDay(NumericDate(first, second, weekday=weekday), f"{first}/{second}", row)


@pytest.mark.parametrize(
    ("words", "order"),
    [
        ("10/25", "mdy"),
        ("25/10", "dmy"),
        ("25.10.2026", "dmy"),
        ("10-25-26", "mdy"),
        ("3/4", None),
        ("2026-10-25", None),
        ("9:30", None),
        ("45/60", None),
    ],
)
def test_a_part_above_12_shows_the_order(words: str, order: str | None) -> None:
    assert order_of_words(words) == order


def test_one_date_above_12_decides_for_all_and_is_named_as_the_reason() -> None:
    found = read_order([numeric(9, 10), WrittenDay(MonthDay(10, 25), "10/25")], AUTUMN)
    assert (found.order, found.why) == ("mdy", "the month stands first, as in “10/25”")


def test_weekdays_decide_where_no_part_is_above_12() -> None:
    # 10 September 2026 is a Thursday, 9 October 2026 a Friday (ISO 8601 calendar, from Python's date).
    assert date(2026, 9, 10).isoweekday() == 4 and date(2026, 10, 9).isoweekday() == 5
    assert read_order([numeric(10, 9, Weekday.TH)], AUTUMN).order == "dmy"
    found = read_order([numeric(10, 9, Weekday.FR)], AUTUMN)
    assert (found.order, found.why) == ("mdy", "the month stands first: “10/9” is then a Friday")


def test_rising_rows_decide_where_there_are_no_weekdays() -> None:
    rising = [numeric(9, 8, row=1), numeric(9, 10, row=2), numeric(10, 6, row=3), numeric(10, 8, row=4)]
    assert read_order(rising, AUTUMN).order == "mdy"
    falling = [numeric(8, 9, row=1), numeric(10, 9, row=2), numeric(6, 10, row=3), numeric(8, 10, row=4)]
    assert read_order(falling, AUTUMN).order == "dmy"


def test_the_term_decides_for_a_date_that_fits_one_way_only() -> None:
    assert read_order([numeric(3, 10), numeric(4, 11)], AUTUMN).order == "dmy"


def test_dates_in_words_and_the_region_decide_last() -> None:
    assert read_order([numeric(9, 10)], AUTUMN).order is None
    words = WrittenDay(MonthDay(10, 6), "October 6")
    assert read_order([numeric(9, 10), words], AUTUMN).order == "mdy"
    assert read_order([numeric(9, 10), WrittenDay(MonthDay(10, 6), "6 October")], AUTUMN).order == "dmy"
    assert read_order([numeric(9, 10)], replace(AUTUMN, holidays="US-OH")).order == "mdy"
    assert read_order([numeric(9, 10)], replace(AUTUMN, holidays="GB")).order == "dmy"
    assert read_order([numeric(9, 10)], replace(AUTUMN, holidays="CA-NL")).order is None


def test_both_orders_in_one_outline_decide_nothing() -> None:
    days = [WrittenDay(MonthDay(10, 25), "10/25"), WrittenDay(MonthDay(10, 26), "26/10"), numeric(9, 10)]
    found = read_order(days, AUTUMN)
    assert found.order is None
    assert "both “10/25” and “26/10”" in found.why
