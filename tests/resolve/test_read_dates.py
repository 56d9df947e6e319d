"""Dates that are written out: year, order and weekday in invented terms. Days are counted by hand on a calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from syllabus_io.resolve.evaluate import ReadingContext
from syllabus_io.resolve.expression import FullDate, MonthDay, NumericDate, Span
from syllabus_io.resolve.records import Certainty
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS, TERMS
from tests.resolve.answers import FR, MO, TH, TU, ambiguous, resolved, unresolved


class TestDatesWithAMonth:
    """Full dates and dates whose year the term gives."""

    def test_full_date(self) -> None:
        found = resolved(FullDate(date(2026, 10, 6), TU))
        assert (found.date, found.certainty, found.reasons) == (date(2026, 10, 6), Certainty.STATED, ())

    def test_year_of_the_term(self) -> None:
        found = resolved(MonthDay(10, 12))
        assert (found.date, found.certainty, found.reasons) == (date(2026, 10, 12), Certainty.STATED, ())
        assert found.expression == FullDate(date(2026, 10, 12))

    @pytest.mark.parametrize(("month", "day", "year"), [(11, 20, 2026), (12, 31, 2026), (1, 5, 2027), (2, 12, 2027)])
    def test_year_in_a_term_over_new_year(self, month: int, day: int, year: int) -> None:
        found = resolved(MonthDay(month, day), CALENDARS["uk"])
        assert found.date == date(year, month, day) and not found.reasons

    def test_outside_the_term_is_the_nearest_year_with_a_reason(self) -> None:
        found = resolved(MonthDay(1, 20))
        assert found.date == date(2027, 1, 20)
        assert found.certainty is Certainty.ASSUMED
        assert any("outside the term" in reason for reason in found.reasons)

    def test_full_date_outside_the_term_says_so(self) -> None:
        assert any("outside the term" in reason for reason in resolved(FullDate(date(2027, 3, 1))).reasons)

    def test_leap_day_in_a_leap_year(self) -> None:
        assert resolved(MonthDay(2, 29), CALENDARS["southern"]).date == date(2028, 2, 29)

    def test_leap_day_of_a_term_without_one(self) -> None:
        assert unresolved(MonthDay(2, 29), CALENDARS["quarter"]).reason == "there is no 29 Feb in 2027"

    def test_term_whose_dates_are_assumed_gives_an_assumed_year(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], assumed=("the first day is that of the first row",)))
        found = resolved(MonthDay(10, 12), calendar)
        assert found.certainty is Certainty.ASSUMED and found.reasons == ()
        named = resolved(MonthDay(10, 12), calendar, ReadingContext(years=(2026,)))
        assert named.certainty is Certainty.STATED


class TestWrongWeekdays:
    """A weekday beside a date that is another day."""

    def test_reason_names_both_days(self) -> None:
        found = resolved(MonthDay(10, 12, FR))
        assert found.date == date(2026, 10, 12)
        assert found.reasons == ("12 October 2026 is a Monday, the outline says Friday",)

    def test_day_beside_it_with_that_weekday_is_a_question(self) -> None:
        found = ambiguous(MonthDay(10, 12, TU))
        assert [candidate.date.day for candidate in found.candidates] == [12, 13]
        assert found.reasons == ("12 October 2026 is a Monday, the outline says Tuesday",)

    def test_right_weekday_in_the_year_of_the_term_is_a_question(self) -> None:
        # 13 October is a Tuesday in 2026 and a Monday in 2025.
        found = ambiguous(FullDate(date(2025, 10, 13), TU))
        assert {candidate.date for candidate in found.candidates} == {date(2025, 10, 13), date(2026, 10, 13)}

    def test_right_weekday_raises_nothing(self) -> None:
        assert not resolved(MonthDay(10, 12, MO)).reasons


class TestNumbersInDoubtfulOrder:
    """Two numbers of which one is the month."""

    def test_known_order_decides(self) -> None:
        assert resolved(NumericDate(10, 12), context=ReadingContext(order="mdy")).date == date(2026, 10, 12)
        assert resolved(NumericDate(10, 12), context=ReadingContext(order="dmy")).date == date(2026, 12, 10)

    def test_only_one_reading_lies_in_the_term(self) -> None:
        found = resolved(NumericDate(3, 9))
        assert found.date == date(2026, 9, 3)
        assert found.certainty is Certainty.DERIVED and "lie in the term" in found.how

    def test_weekday_decides(self) -> None:
        # 12 October 2026 is a Monday, 10 December a Thursday.
        assert resolved(NumericDate(10, 12, weekday=TH)).date == date(2026, 12, 10)
        assert resolved(NumericDate(10, 12, weekday=MO)).date == date(2026, 10, 12)

    def test_both_readings_are_a_question(self) -> None:
        found = ambiguous(NumericDate(10, 12))
        assert [candidate.date for candidate in found.candidates] == [date(2026, 10, 12), date(2026, 12, 10)]
        assert "?" in found.question

    def test_same_numbers_are_no_question(self) -> None:
        assert resolved(NumericDate(10, 10)).date == date(2026, 10, 10)

    def test_known_order_against_the_term_is_a_question(self) -> None:
        found = ambiguous(NumericDate(3, 9), context=ReadingContext(order="mdy"))
        assert {candidate.date for candidate in found.candidates} == {date(2026, 9, 3), date(2027, 3, 9)}
        assert found.candidates[0].date == date(2026, 9, 3)
        assert "outside the term" in found.candidates[1].reason

    def test_known_order_against_the_weekday_is_a_question(self) -> None:
        found = ambiguous(NumericDate(10, 12, weekday=TH), context=ReadingContext(order="mdy"))
        assert {candidate.date for candidate in found.candidates} == {date(2026, 10, 12), date(2026, 12, 10)}

    def test_year_is_kept(self) -> None:
        assert resolved(NumericDate(9, 11, 2026), context=ReadingContext(order="mdy")).date == date(2026, 9, 11)

    def test_stretch_that_is_short_only_one_way_round(self) -> None:
        found = resolved(Span(NumericDate(10, 1, 2026), NumericDate(10, 7, 2026)))
        assert (found.date, found.end_date) == (date(2026, 10, 1), date(2026, 10, 7))

    def test_stretch_that_is_short_both_ways_keeps_its_order_on_both_sides(self) -> None:
        found = ambiguous(Span(NumericDate(10, 11), NumericDate(11, 11)))
        pairs = [(candidate.date, candidate.end_date) for candidate in found.candidates]
        assert pairs == [(date(2026, 10, 11), date(2026, 11, 11)), (date(2026, 11, 10), date(2026, 11, 11))]
