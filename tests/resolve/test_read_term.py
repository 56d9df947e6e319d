"""Weeks, classes and windows of invented terms. Expected days are counted by hand on a calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from syllabus_io.resolve.evaluate import evaluate
from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    ClassNear,
    DateExpression,
    DayOf,
    Direction,
    IsoWeek,
    MeetingNumber,
    MonthDay,
    MonthPart,
    NamedDay,
    NthWeekday,
    Offset,
    Part,
    PartOf,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    WeekdayIn,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.records import Certainty, Resolved
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS, TERMS
from tests.resolve.answers import FR, SEMESTER, SU, TH, TU, resolved, unresolved


class TestWindows:
    """What is a stretch and no day: always with the reason to find out the day."""

    @pytest.mark.parametrize(
        ("expression", "first", "last"),
        [
            (Week(5), date(2026, 9, 28), date(2026, 10, 2)),
            (WeekOf(MonthDay(9, 8)), date(2026, 9, 7), date(2026, 9, 11)),
            (IsoWeek(41), date(2026, 10, 5), date(2026, 10, 9)),
            (CalendarWeek(MonthDay(9, 8), 1), date(2026, 9, 14), date(2026, 9, 18)),
            (WholeMonth(10), date(2026, 10, 1), date(2026, 10, 31)),
            (CalendarMonth(MonthDay(9, 8), 1), date(2026, 10, 1), date(2026, 10, 31)),
            (MonthPart(Part.MIDDLE, 10), date(2026, 10, 11), date(2026, 10, 20)),
            (MonthPart(Part.EARLY, 11), date(2026, 11, 1), date(2026, 11, 10)),
            (MonthPart(Part.END, 11), date(2026, 11, 24), date(2026, 11, 30)),
            (PartOf(Part.END, Week(9)), date(2026, 10, 29), date(2026, 10, 30)),
            (PartOf(Part.MIDDLE, CalendarMonth(MonthDay(9, 8), 1)), date(2026, 10, 11), date(2026, 10, 20)),
            (TermPoint(TermEdge.FINALS), date(2026, 12, 14), date(2026, 12, 18)),
            (Span(Week(11), Week(12)), date(2026, 11, 9), date(2026, 11, 20)),
        ],
    )
    def test_window(self, expression: DateExpression, first: date, last: date) -> None:
        found = resolved(expression)
        assert (found.date, found.end_date) == (first, last)
        assert any("find out the day" in reason for reason in found.reasons)

    def test_a_month_alone_is_assumed(self) -> None:
        assert resolved(MonthPart(Part.MIDDLE, 10)).certainty is Certainty.ASSUMED

    def test_a_day_inside_a_window_is_a_day(self) -> None:
        for expression in (WeekdayIn(Week(5), FR), WeekdayIn(WholeMonth(10), FR, 2), DayOf(WholeMonth(10), 9)):
            assert not resolved(expression).reasons

    def test_a_day_told_from_part_of_a_month_stays_vague(self) -> None:
        assert resolved(Offset(MonthPart(Part.MIDDLE, 10), 1, Unit.WEEK)).reasons

    def test_week_whose_number_hangs_on_the_break_says_so(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], break_weeks_count=None))
        assert any("week off before it" in reason for reason in resolved(WeekdayIn(Week(13), FR), calendar).reasons)
        assert not resolved(WeekdayIn(Week(12), FR), calendar).reasons

    def test_week_zero_lies_outside_the_term(self) -> None:
        assert any("outside the term" in reason for reason in resolved(Week(0)).reasons)


class TestDaysCountedInTheTerm:
    """Classes, rotating days, edges."""

    @pytest.mark.parametrize(
        ("expression", "day"),
        [
            (MeetingNumber(14), date(2026, 10, 20)),
            (MeetingNumber(-1), date(2026, 12, 10)),
            (TermPoint(TermEdge.FIRST_DAY), date(2026, 8, 31)),
            (TermPoint(TermEdge.LAST_DAY), date(2026, 12, 11)),
            (TermPoint(TermEdge.FIRST_MEETING), date(2026, 9, 1)),
            (TermPoint(TermEdge.LAST_MEETING), date(2026, 12, 10)),
            (ClassNear(NamedDay("autumn break"), Direction.BEFORE), date(2026, 10, 13)),
            (ClassNear(NamedDay("autumn break"), Direction.AFTER), date(2026, 10, 20)),
            (ClassNear(Week(5), Direction.ON_OR_AFTER, 2), date(2026, 10, 1)),
            (ClassNear(Week(5), Direction.ON_OR_BEFORE), date(2026, 10, 1)),
            (ClassNear(MonthDay(10, 14), Direction.NEAREST), date(2026, 10, 13)),
            (ClassNear(MonthDay(10, 14), Direction.AFTER, weekday=TH), date(2026, 10, 22)),
            (Offset(MeetingNumber(3), 2, Unit.MEETING), date(2026, 9, 15)),
        ],
    )
    def test_day_of_class(self, expression: DateExpression, day: date) -> None:
        found = resolved(expression)
        assert (found.date, found.certainty, found.reasons) == (day, Certainty.DERIVED, ())

    @pytest.mark.parametrize(
        ("expression", "day"),
        [
            (RotationDay("A"), date(2026, 8, 24)),
            (RotationDay("b", 2), date(2026, 8, 27)),
            (RotationDay("A", 1, Week(3)), date(2026, 9, 8)),
            (RotationDay("B", -1, Week(1)), date(2026, 8, 27)),
        ],
    )
    def test_rotating_day(self, expression: DateExpression, day: date) -> None:
        assert resolved(expression, CALENDARS["school-year"]).date == day

    def test_course_with_several_kinds_of_class_says_that_all_are_counted(self) -> None:
        trimester = CALENDARS["trimester"]
        assert any("all of them are counted" in reason for reason in resolved(MeetingNumber(3), trimester).reasons)
        assert not resolved(MeetingNumber(3, "lab"), trimester).reasons

    @pytest.mark.parametrize(
        ("expression", "missing"),
        [
            (MeetingNumber(40), "27 class days"),
            (MeetingNumber(3, "lab"), "lab meets"),
            (Week(60), None),
            (RotationDay("A"), "A days"),
            (ClassNear(TermPoint(TermEdge.FIRST_DAY), Direction.BEFORE), "no class"),
            (Anchor("the midterm"), "midterm"),
            (Reference(), "from which day"),
            (NamedDay("Spring break"), "Spring break"),
            (NthWeekday(5, TU, 10), "fifth Tuesday"),
            (WeekdayIn(TermPoint(TermEdge.FINALS), SU), "no Sunday"),
            (DayOf(Week(2), 8), "day number 8"),
        ],
    )
    def test_what_cannot_be_said_says_what_is_missing(self, expression: DateExpression, missing: str | None) -> None:
        if missing is None:
            found = evaluate(expression, SEMESTER)
            assert isinstance(found, Resolved) and any("outside the term" in reason for reason in found.reasons)
        else:
            assert missing in unresolved(expression).reason

    def test_unknown_days_of_class(self) -> None:
        calendar = TermCalendar(TERMS["semester"])
        assert "days the course meets" in unresolved(MeetingNumber(3), calendar).reason
        first = resolved(TermPoint(TermEdge.FIRST_MEETING), calendar)
        assert first.date == date(2026, 8, 31) and first.certainty is Certainty.ASSUMED and first.reasons
        assert first.expression == TermPoint(TermEdge.FIRST_DAY)

    def test_term_that_is_assumed_marks_what_is_counted_in_it(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], assumed=("its first day is guessed",)), SEMESTER.meetings)
        for expression in (
            WeekdayIn(Week(5), FR),
            MeetingNumber(12),
            Offset(TermPoint(TermEdge.LAST_DAY), -1, Unit.DAY),
        ):
            found = resolved(expression, calendar)
            assert found.certainty is Certainty.ASSUMED
            assert any("its first day is guessed" in reason for reason in found.reasons)

    def test_known_week_one_needs_no_first_day(self) -> None:
        term = replace(TERMS["semester"], assumed=("its first day is guessed",), week_one=date(2026, 8, 31))
        calendar = TermCalendar(term, SEMESTER.meetings)
        assert not resolved(WeekdayIn(Week(5), FR), calendar).reasons
        assert resolved(WeekdayIn(Week(-1), FR), calendar).reasons

    def test_examinations_that_are_not_given(self) -> None:
        assert "examination period" in unresolved(TermPoint(TermEdge.FINALS), CALENDARS["uk"]).reason
