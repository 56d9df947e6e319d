"""Holidays, breaks and other named days. Expected days are counted by hand on a calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from syllabus_io.resolve.evaluate import ReadingContext
from syllabus_io.resolve.expression import Direction, FullDate, NamedDay, Span, WeekdayNear
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import TERMS
from tests.resolve.answers import SEMESTER, WE, ambiguous, resolved, unresolved


class TestNamedDays:
    """Holidays and days off by name."""

    def test_day_off_of_the_term(self) -> None:
        found = resolved(NamedDay("fall break"))
        assert (found.date, found.end_date, found.expression) == (
            date(2026, 10, 15),
            date(2026, 10, 16),
            NamedDay("Autumn break"),
        )

    def test_public_holiday_of_the_region(self) -> None:
        assert resolved(NamedDay("Veterans Day")).date == date(2026, 11, 11)

    def test_day_with_a_name_that_is_no_holiday(self) -> None:
        assert resolved(NamedDay("Halloween")).date == date(2026, 10, 31)

    def test_whole_break_taken_for_a_day_says_so(self) -> None:
        calendar = TermCalendar(
            replace(TERMS["semester"], holidays=None, no_class=TERMS["semester"].no_class[:2]), SEMESTER.meetings
        )
        found = resolved(WeekdayNear(NamedDay("Thanksgiving"), WE, Direction.BEFORE), calendar)
        assert any("taken as the whole of Thanksgiving break" in reason for reason in found.reasons)

    def test_holiday_without_a_region_asks_for_it(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], holidays=None, no_class=()))
        assert "holiday region" in unresolved(NamedDay("Labor Day"), calendar).settle

    def test_feast_kept_everywhere_needs_no_region(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], holidays=None, no_class=()))
        found = resolved(NamedDay("Halloween"), calendar)
        assert found.date == date(2026, 10, 31) and not found.reasons

    def test_two_days_off_of_one_name_are_a_question_or_the_next_one(self) -> None:
        term = replace(
            TERMS["semester"],
            no_class=tuple(replace(off, name="Reading day") for off in TERMS["semester"].no_class[:2]),
        )
        calendar = TermCalendar(term)
        assert len(ambiguous(NamedDay("reading day"), calendar).candidates) == 2
        later = resolved(NamedDay("reading day"), calendar, ReadingContext(reference=date(2026, 11, 2)))
        assert later.date == date(2026, 11, 23)
        assert later.expression == Span(FullDate(date(2026, 11, 23)), FullDate(date(2026, 11, 27)))
