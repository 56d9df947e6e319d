"""Rows whose printed date cannot be right where they stand."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from syllabus_io.resolve.row_order import RowDay, find_slips

MONDAYS = [date(2026, 9, 7) + timedelta(weeks=n) for n in range(8)]


def row_days(days: list[date]) -> list[RowDay]:
    return [RowDay(number, day, day, f"{day:%b} {day.day}") for number, day in enumerate(days, start=1)]


def test_a_wrong_month_is_found_with_the_day_that_fits() -> None:
    days = [*MONDAYS]
    days[3] = date(2026, 11, 28)  # printed Nov 28 between Sep 21 and Oct 5
    (slip,) = find_slips(row_days(days))
    assert (slip.row, slip.printed, slip.likely) == (4, date(2026, 11, 28), date(2026, 9, 28))
    assert slip.reason == (
        "the date printed is Sat 28 Nov 2026, but its row stands between Mon 21 Sep 2026 and Mon 5 Oct 2026"
    )


def test_a_wrong_day_number_is_mended_by_the_usual_step() -> None:
    days = [*MONDAYS]
    days[2] = date(2026, 9, 12)  # printed Sep 12 between Sep 14 and Sep 28
    (slip,) = find_slips(row_days(days))
    assert slip.likely == date(2026, 9, 21)


def test_a_second_list_that_begins_anew_is_no_slip() -> None:
    assert find_slips(row_days([*MONDAYS, *MONDAYS])) == ()


def test_a_list_in_no_order_gives_nothing() -> None:
    jumbled = [MONDAYS[n] for n in (4, 0, 6, 2, 7, 1, 5, 3)]
    assert find_slips(row_days(jumbled)) == ()


@given(st.lists(st.dates(date(2026, 1, 1), date(2026, 12, 31)), max_size=30))
def test_rows_in_order_never_give_a_slip(days: list[date]) -> None:
    assert find_slips(row_days(sorted(days))) == ()


@given(st.lists(st.dates(date(2026, 1, 1), date(2026, 12, 31)), max_size=30))
def test_a_likely_day_always_lies_between_the_neighbours(days: list[date]) -> None:
    for slip in find_slips(row_days(days)):
        assert not slip.before <= slip.printed <= slip.after
        assert slip.likely is None or slip.before < slip.likely < slip.after
