"""Week numbering shown by an outline's own dated rows."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.week_numbers import monday_of_row, read_week_numbers
from tests.resolve.made_outlines import AUTUMN

BREAK = DayOff("Autumn break", date(2026, 10, 12), date(2026, 10, 16))
MONDAY = date(2026, 9, 7)


def week_row(number: int, monday: date) -> tuple[int, date, date]:
    return number, monday, monday + timedelta(days=4)


def test_week_one_may_begin_after_the_first_day_of_term() -> None:
    weeks = read_week_numbers([week_row(n, MONDAY + timedelta(weeks=n - 1)) for n in range(1, 6)], ())
    assert (weeks.week_one, weeks.unnumbered, weeks.contradictions) == (MONDAY, (), ())
    assert TermCalendar(weeks.adjusted(AUTUMN)).week(3) == (date(2026, 9, 21), date(2026, 9, 27))


def test_numbering_can_begin_at_zero() -> None:
    weeks = read_week_numbers([week_row(n, MONDAY + timedelta(weeks=n)) for n in range(4)], ())
    assert weeks.week_one == MONDAY + timedelta(weeks=1)


def test_a_break_between_numbers_takes_none() -> None:
    rows = [week_row(5, date(2026, 10, 5)), week_row(6, date(2026, 10, 19))]
    weeks = read_week_numbers(rows, (BREAK,))
    assert weeks.break_weeks_count is False
    assert weeks.why.endswith("Autumn break takes no week number there")
    calendar = TermCalendar(weeks.adjusted(replace(AUTUMN, no_class=(BREAK,))))
    assert calendar.week(6) == (date(2026, 10, 19), date(2026, 10, 25))


def test_a_break_with_a_number_of_its_own_counts() -> None:
    rows = [week_row(5, date(2026, 10, 5)), week_row(6, date(2026, 10, 12)), week_row(7, date(2026, 10, 19))]
    weeks = read_week_numbers(rows, (BREAK,))
    assert weeks.break_weeks_count is True
    calendar = TermCalendar(weeks.adjusted(replace(AUTUMN, no_class=(BREAK,))))
    assert calendar.week(7) == (date(2026, 10, 19), date(2026, 10, 25))


def test_a_break_that_is_passed_over_but_counted() -> None:
    rows = [week_row(5, date(2026, 10, 5)), week_row(7, date(2026, 10, 19))]
    assert read_week_numbers(rows, (BREAK,)).break_weeks_count is True


def test_a_week_left_out_without_a_word_is_a_doubt_between_its_neighbours() -> None:
    rows = [week_row(6, date(2026, 10, 12)), week_row(11, date(2026, 11, 23))]
    weeks = read_week_numbers(rows, ())
    (gap,) = weeks.unnumbered
    assert [n for n in range(1, 15) if gap.is_between(n)] == [7, 8, 9, 10]
    assert "between week 6 and week 11 takes no number" in gap.reason
    calendar = TermCalendar(weeks.adjusted(AUTUMN))
    assert calendar.week(11) == (date(2026, 11, 23), date(2026, 11, 29))
    assert calendar.week(6) == (date(2026, 10, 12), date(2026, 10, 18))


def test_a_row_that_fits_no_numbering_is_named() -> None:
    rows = [week_row(n, MONDAY + timedelta(weeks=n - 1)) for n in range(1, 9)]
    rows[4] = week_row(5, date(2026, 11, 30))
    weeks = read_week_numbers(rows, ())
    assert weeks.week_one == MONDAY
    assert weeks.contradictions == (
        "week 5 is dated Mon 30 Nov 2026, which does not fit the numbers of the other weeks",
    )


def test_the_monday_of_rows_that_begin_on_other_days() -> None:
    sunday, friday = date(2026, 9, 6), date(2026, 9, 4)
    assert monday_of_row(sunday, sunday + timedelta(days=6)) == MONDAY
    assert monday_of_row(sunday, sunday) == MONDAY
    assert monday_of_row(friday, friday + timedelta(days=7)) == MONDAY
    assert monday_of_row(date(2026, 9, 9), date(2026, 9, 11)) == MONDAY
