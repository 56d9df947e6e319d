"""From expressions to days in invented terms. Expected days are counted by hand on a calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import get_args

import pytest

from syllabus_io.resolve.evaluate import ReadingContext, due_time, evaluate, resolve_phrase
from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    ClassNear,
    ClockTime,
    DateExpression,
    DayInMonth,
    DayOf,
    Direction,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthDay,
    MonthPart,
    NamedDay,
    NthWeekday,
    NumericDate,
    Offset,
    Part,
    PartOf,
    Phrase,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.reading import read_expression
from syllabus_io.resolve.records import Ambiguous, Certainty, Resolved, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS, TERMS

MO, TU, WE, TH, FR, SA, SU = (Weekday(number) for number in range(1, 8))
SEMESTER = CALENDARS["semester"]
THANKSGIVING = NamedDay("Thanksgiving")


def _resolved(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Resolved:
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Resolved), f"{expression} was not resolved: {resolution}"
    return resolution


def _ambiguous(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Ambiguous:
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Ambiguous), f"{expression} raised no question: {resolution}"
    return resolution


def _unresolved(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Unresolved:
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Unresolved), f"{expression} was resolved: {resolution}"
    assert resolution.reason and resolution.settle
    return resolution


def test_every_kind_of_expression_can_be_read() -> None:
    unread = [
        kind.__name__
        for kind in get_args(DateExpression)
        if read_expression.dispatch(kind) is read_expression.dispatch(object)
    ]
    assert not unread


class TestDatesWithAMonth:
    """Full dates and dates whose year the term gives."""

    def test_full_date(self) -> None:
        found = _resolved(FullDate(date(2026, 10, 6), TU))
        assert (found.date, found.certainty, found.reasons) == (date(2026, 10, 6), Certainty.STATED, ())

    def test_year_of_the_term(self) -> None:
        found = _resolved(MonthDay(10, 12))
        assert (found.date, found.certainty, found.reasons) == (date(2026, 10, 12), Certainty.STATED, ())
        assert found.expression == FullDate(date(2026, 10, 12))

    @pytest.mark.parametrize(("month", "day", "year"), [(11, 20, 2026), (12, 31, 2026), (1, 5, 2027), (2, 12, 2027)])
    def test_year_in_a_term_over_new_year(self, month: int, day: int, year: int) -> None:
        found = _resolved(MonthDay(month, day), CALENDARS["uk"])
        assert found.date == date(year, month, day) and not found.reasons

    def test_outside_the_term_is_the_nearest_year_with_a_reason(self) -> None:
        found = _resolved(MonthDay(1, 20))
        assert found.date == date(2027, 1, 20)
        assert found.certainty is Certainty.ASSUMED
        assert any("outside the term" in reason for reason in found.reasons)

    def test_full_date_outside_the_term_says_so(self) -> None:
        assert any("outside the term" in reason for reason in _resolved(FullDate(date(2027, 3, 1))).reasons)

    def test_leap_day_in_a_leap_year(self) -> None:
        assert _resolved(MonthDay(2, 29), CALENDARS["southern"]).date == date(2028, 2, 29)

    def test_leap_day_of_a_term_without_one(self) -> None:
        assert _unresolved(MonthDay(2, 29), CALENDARS["quarter"]).reason == "there is no 29 Feb in 2027"

    def test_term_whose_dates_are_assumed_gives_an_assumed_year(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], assumed=("the first day is that of the first row",)))
        found = _resolved(MonthDay(10, 12), calendar)
        assert found.certainty is Certainty.ASSUMED and found.reasons == ()
        named = _resolved(MonthDay(10, 12), calendar, ReadingContext(years=(2026,)))
        assert named.certainty is Certainty.STATED


class TestWrongWeekdays:
    """A weekday beside a date that is another day."""

    def test_reason_names_both_days(self) -> None:
        found = _resolved(MonthDay(10, 12, FR))
        assert found.date == date(2026, 10, 12)
        assert found.reasons == ("12 October 2026 is a Monday, the outline says Friday",)

    def test_day_beside_it_with_that_weekday_is_a_question(self) -> None:
        found = _ambiguous(MonthDay(10, 12, TU))
        assert [candidate.date.day for candidate in found.candidates] == [12, 13]
        assert found.reasons == ("12 October 2026 is a Monday, the outline says Tuesday",)

    def test_right_weekday_in_the_year_of_the_term_is_a_question(self) -> None:
        # 13 October is a Tuesday in 2026 and a Monday in 2025.
        found = _ambiguous(FullDate(date(2025, 10, 13), TU))
        assert {candidate.date for candidate in found.candidates} == {date(2025, 10, 13), date(2026, 10, 13)}

    def test_right_weekday_raises_nothing(self) -> None:
        assert not _resolved(MonthDay(10, 12, MO)).reasons


class TestNumbersInDoubtfulOrder:
    """Two numbers of which one is the month."""

    def test_known_order_decides(self) -> None:
        assert _resolved(NumericDate(10, 12), context=ReadingContext(order="mdy")).date == date(2026, 10, 12)
        assert _resolved(NumericDate(10, 12), context=ReadingContext(order="dmy")).date == date(2026, 12, 10)

    def test_only_one_reading_lies_in_the_term(self) -> None:
        found = _resolved(NumericDate(3, 9))
        assert found.date == date(2026, 9, 3)
        assert found.certainty is Certainty.DERIVED and "lie in the term" in found.how

    def test_weekday_decides(self) -> None:
        # 12 October 2026 is a Monday, 10 December a Thursday.
        assert _resolved(NumericDate(10, 12, weekday=TH)).date == date(2026, 12, 10)
        assert _resolved(NumericDate(10, 12, weekday=MO)).date == date(2026, 10, 12)

    def test_both_readings_are_a_question(self) -> None:
        found = _ambiguous(NumericDate(10, 12))
        assert [candidate.date for candidate in found.candidates] == [date(2026, 10, 12), date(2026, 12, 10)]
        assert "?" in found.question

    def test_same_numbers_are_no_question(self) -> None:
        assert _resolved(NumericDate(10, 10)).date == date(2026, 10, 10)

    def test_known_order_against_the_term_is_a_question(self) -> None:
        found = _ambiguous(NumericDate(3, 9), context=ReadingContext(order="mdy"))
        assert {candidate.date for candidate in found.candidates} == {date(2026, 9, 3), date(2027, 3, 9)}
        assert found.candidates[0].date == date(2026, 9, 3)
        assert "outside the term" in found.candidates[1].reason

    def test_known_order_against_the_weekday_is_a_question(self) -> None:
        found = _ambiguous(NumericDate(10, 12, weekday=TH), context=ReadingContext(order="mdy"))
        assert {candidate.date for candidate in found.candidates} == {date(2026, 10, 12), date(2026, 12, 10)}

    def test_year_is_kept(self) -> None:
        assert _resolved(NumericDate(9, 11, 2026), context=ReadingContext(order="mdy")).date == date(2026, 9, 11)

    def test_stretch_that_is_short_only_one_way_round(self) -> None:
        found = _resolved(Span(NumericDate(10, 1, 2026), NumericDate(10, 7, 2026)))
        assert (found.date, found.end_date) == (date(2026, 10, 1), date(2026, 10, 7))

    def test_stretch_that_is_short_both_ways_keeps_its_order_on_both_sides(self) -> None:
        found = _ambiguous(Span(NumericDate(10, 11), NumericDate(11, 11)))
        pairs = [(candidate.date, candidate.end_date) for candidate in found.candidates]
        assert pairs == [(date(2026, 10, 11), date(2026, 11, 11)), (date(2026, 11, 10), date(2026, 11, 11))]


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
        found = _resolved(expression)
        assert (found.date, found.end_date) == (first, last)
        assert any("find out the day" in reason for reason in found.reasons)

    def test_a_month_alone_is_assumed(self) -> None:
        assert _resolved(MonthPart(Part.MIDDLE, 10)).certainty is Certainty.ASSUMED

    def test_a_day_inside_a_window_is_a_day(self) -> None:
        for expression in (WeekdayIn(Week(5), FR), WeekdayIn(WholeMonth(10), FR, 2), DayOf(WholeMonth(10), 9)):
            assert not _resolved(expression).reasons

    def test_a_day_told_from_part_of_a_month_stays_vague(self) -> None:
        assert _resolved(Offset(MonthPart(Part.MIDDLE, 10), 1, Unit.WEEK)).reasons

    def test_week_whose_number_hangs_on_the_break_says_so(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], break_weeks_count=None))
        assert any("week off before it" in reason for reason in _resolved(WeekdayIn(Week(13), FR), calendar).reasons)
        assert not _resolved(WeekdayIn(Week(12), FR), calendar).reasons

    def test_week_zero_lies_outside_the_term(self) -> None:
        assert any("outside the term" in reason for reason in _resolved(Week(0)).reasons)


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
        found = _resolved(expression)
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
        assert _resolved(expression, CALENDARS["school-year"]).date == day

    def test_course_with_several_kinds_of_class_says_that_all_are_counted(self) -> None:
        trimester = CALENDARS["trimester"]
        assert any("all of them are counted" in reason for reason in _resolved(MeetingNumber(3), trimester).reasons)
        assert not _resolved(MeetingNumber(3, "lab"), trimester).reasons

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
            assert missing in _unresolved(expression).reason

    def test_unknown_days_of_class(self) -> None:
        calendar = TermCalendar(TERMS["semester"])
        assert "days the course meets" in _unresolved(MeetingNumber(3), calendar).reason
        first = _resolved(TermPoint(TermEdge.FIRST_MEETING), calendar)
        assert first.date == date(2026, 8, 31) and first.certainty is Certainty.ASSUMED and first.reasons
        assert first.expression == TermPoint(TermEdge.FIRST_DAY)

    def test_term_that_is_assumed_marks_what_is_counted_in_it(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], assumed=("its first day is guessed",)), SEMESTER.meetings)
        for expression in (
            WeekdayIn(Week(5), FR),
            MeetingNumber(12),
            Offset(TermPoint(TermEdge.LAST_DAY), -1, Unit.DAY),
        ):
            found = _resolved(expression, calendar)
            assert found.certainty is Certainty.ASSUMED
            assert any("its first day is guessed" in reason for reason in found.reasons)

    def test_known_week_one_needs_no_first_day(self) -> None:
        term = replace(TERMS["semester"], assumed=("its first day is guessed",), week_one=date(2026, 8, 31))
        calendar = TermCalendar(term, SEMESTER.meetings)
        assert not _resolved(WeekdayIn(Week(5), FR), calendar).reasons
        assert _resolved(WeekdayIn(Week(-1), FR), calendar).reasons

    def test_examinations_that_are_not_given(self) -> None:
        assert "examination period" in _unresolved(TermPoint(TermEdge.FINALS), CALENDARS["uk"]).reason


class TestRelativeDays:
    """Days told from other days."""

    @pytest.mark.parametrize(
        ("expression", "day"),
        [
            (WeekdayNear(THANKSGIVING, MO, Direction.AFTER), date(2026, 11, 30)),
            (WeekdayNear(THANKSGIVING, WE, Direction.BEFORE), date(2026, 11, 25)),
            (WeekdayNear(NamedDay("Thanksgiving break"), FR, Direction.BEFORE), date(2026, 11, 20)),
            (WeekdayNear(MonthDay(9, 8), TU, Direction.ON_OR_AFTER), date(2026, 9, 8)),
            (WeekdayNear(MonthDay(9, 8), TU, Direction.AFTER, 2), date(2026, 9, 22)),
            (WeekdayNear(Week(5), MO, Direction.ON_OR_AFTER), date(2026, 9, 28)),
            (WeekdayNear(Week(5), SU, Direction.ON_OR_BEFORE), date(2026, 10, 4)),
            (WeekdayNear(MonthDay(9, 9), MO, Direction.NEAREST), date(2026, 9, 7)),
            (Offset(NamedDay("autumn break"), 1, Unit.WEEK), date(2026, 10, 23)),
            (Offset(NamedDay("autumn break"), -2, Unit.DAY), date(2026, 10, 13)),
            (Offset(MonthDay(10, 14), 1, Unit.SCHOOL_DAY), date(2026, 10, 19)),
            (Offset(MonthDay(10, 14), 1, Unit.WEEKDAY), date(2026, 10, 15)),
            (Offset(MonthDay(8, 31), 1, Unit.MONTH), date(2026, 9, 30)),
            (Offset(FullDate(date(2025, 9, 8)), 1, Unit.YEAR), date(2026, 9, 8)),
            (WeekdayIn(WeekOf(MonthDay(9, 8)), FR), date(2026, 9, 11)),
            (WeekdayIn(WholeMonth(10), FR, -1), date(2026, 10, 30)),
            (NthWeekday(2, TU, 10), date(2026, 10, 13)),
            (NthWeekday(-1, FR, 10), date(2026, 10, 30)),
            (DayOf(TermPoint(TermEdge.FINALS), 2), date(2026, 12, 15)),
            (DayOf(CalendarMonth(MonthDay(9, 8), 1), 10), date(2026, 10, 10)),
        ],
    )
    def test_day(self, expression: DateExpression, day: date) -> None:
        found = _resolved(expression)
        assert (found.date, found.reasons) == (day, ())

    def test_anchor_in_the_context(self) -> None:
        context = ReadingContext(anchors={"Midterm exam": (date(2026, 10, 6), date(2026, 10, 6))})
        assert _resolved(Offset(Anchor("the midterm"), 1, Unit.WEEK), context=context).date == date(2026, 10, 13)
        assert _resolved(Anchor("Midterm Exam"), context=context).expression == Anchor("Midterm exam")

    def test_words_that_fit_two_items_fit_none(self) -> None:
        days = (date(2026, 10, 6), date(2026, 10, 6))
        context = ReadingContext(anchors={"Midterm 1": days, "Midterm 2": days})
        assert "midterm" in _unresolved(Anchor("the midterm"), context=context).reason

    def test_reference_day(self) -> None:
        context = ReadingContext(reference=date(2026, 10, 7))
        assert _resolved(Offset(Reference(), 1, Unit.DAY), context=context).date == date(2026, 10, 8)
        assert _resolved(WeekdayNear(Reference(), FR, Direction.AFTER), context=context).date == date(2026, 10, 9)

    def test_day_number_alone(self) -> None:
        assert _resolved(DayInMonth(12, month=10)).certainty is Certainty.STATED
        after = _resolved(DayInMonth(12), context=ReadingContext(reference=date(2026, 10, 20)))
        assert after.date == date(2026, 11, 12) and "no month is written" in after.reasons[0]
        assert len(_ambiguous(DayInMonth(12)).candidates) == 4
        # Of the 12ths of the term only that of November 2026 is a Thursday.
        assert _resolved(DayInMonth(12, TH)).date == date(2026, 11, 12)

    def test_span(self) -> None:
        found = _resolved(Span(MonthDay(12, 8), MonthDay(12, 10)))
        assert (found.date, found.end_date, found.certainty, found.reasons) == (
            date(2026, 12, 8),
            date(2026, 12, 10),
            Certainty.STATED,
            (),
        )

    def test_span_over_new_year(self) -> None:
        found = _resolved(Span(MonthDay(12, 29), MonthDay(1, 6)), CALENDARS["uk"])
        assert (found.date, found.end_date) == (date(2026, 12, 29), date(2027, 1, 6))

    def test_span_that_ends_before_it_begins_is_its_first_day_with_a_reason(self) -> None:
        found = _resolved(Span(MonthDay(10, 12), MonthDay(10, 5)))
        assert (found.date, found.end_date) == (date(2026, 10, 12), None)
        assert any("before it begins" in reason for reason in found.reasons)


class TestNamedDays:
    """Holidays and days off by name."""

    def test_day_off_of_the_term(self) -> None:
        found = _resolved(NamedDay("fall break"))
        assert (found.date, found.end_date, found.expression) == (
            date(2026, 10, 15),
            date(2026, 10, 16),
            NamedDay("Autumn break"),
        )

    def test_public_holiday_of_the_region(self) -> None:
        assert _resolved(NamedDay("Veterans Day")).date == date(2026, 11, 11)

    def test_day_with_a_name_that_is_no_holiday(self) -> None:
        assert _resolved(NamedDay("Halloween")).date == date(2026, 10, 31)

    def test_whole_break_taken_for_a_day_says_so(self) -> None:
        calendar = TermCalendar(
            replace(TERMS["semester"], holidays=None, no_class=TERMS["semester"].no_class[:2]), SEMESTER.meetings
        )
        found = _resolved(WeekdayNear(NamedDay("Thanksgiving"), WE, Direction.BEFORE), calendar)
        assert any("taken as the whole of Thanksgiving break" in reason for reason in found.reasons)

    def test_holiday_without_a_region_asks_for_it(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], holidays=None, no_class=()))
        assert "holiday region" in _unresolved(NamedDay("Labor Day"), calendar).settle

    def test_feast_kept_everywhere_needs_no_region(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], holidays=None, no_class=()))
        found = _resolved(NamedDay("Halloween"), calendar)
        assert found.date == date(2026, 10, 31) and not found.reasons

    def test_two_days_off_of_one_name_are_a_question_or_the_next_one(self) -> None:
        term = replace(
            TERMS["semester"],
            no_class=tuple(replace(off, name="Reading day") for off in TERMS["semester"].no_class[:2]),
        )
        calendar = TermCalendar(term)
        assert len(_ambiguous(NamedDay("reading day"), calendar).candidates) == 2
        later = _resolved(NamedDay("reading day"), calendar, ReadingContext(reference=date(2026, 11, 2)))
        assert later.date == date(2026, 11, 23)
        assert later.expression == Span(FullDate(date(2026, 11, 23)), FullDate(date(2026, 11, 27)))


class TestLonePhrases:
    """Without a term the reference day decides, and the reason says so."""

    REFERENCE = ReadingContext(reference=date(2026, 8, 16))

    @pytest.mark.parametrize(
        ("expression", "day"),
        [
            (MonthDay(8, 16), date(2026, 8, 16)),
            (MonthDay(8, 15), date(2027, 8, 15)),
            (MonthDay(7, 16, FR), date(2027, 7, 16)),
            (MonthDay(2, 29), date(2028, 2, 29)),
            (DayInMonth(1), date(2026, 9, 1)),
            (NamedDay("Labor Day"), date(2026, 9, 7)),
            (NamedDay("Canadian Thanksgiving"), date(2026, 10, 12)),
            (NamedDay("Black Friday"), date(2026, 11, 27)),
        ],
    )
    def test_next_one_from_the_reference_day(self, expression: DateExpression, day: date) -> None:
        found = _resolved(expression, None, self.REFERENCE)
        assert found.date == day
        assert found.certainty is Certainty.ASSUMED and found.reasons

    def test_years_of_the_outline_come_first(self) -> None:
        found = _resolved(MonthDay(10, 12), None, ReadingContext(years=(2024,), reference=date(2026, 8, 16)))
        assert found.date == date(2024, 10, 12) and not found.reasons

    @pytest.mark.parametrize(
        "expression",
        [
            Week(5),
            MeetingNumber(3),
            TermPoint(TermEdge.LAST_DAY),
            Offset(MonthDay(9, 8), 2, Unit.MEETING),
            RotationDay("A"),
        ],
    )
    def test_what_counts_in_a_term_needs_one(self, expression: DateExpression) -> None:
        assert "term" in _unresolved(expression, None, self.REFERENCE).reason

    def test_without_any_reference_nothing_is_guessed(self) -> None:
        assert "no year" in _unresolved(MonthDay(10, 12), None).reason

    def test_week_runs_to_its_sunday(self) -> None:
        found = _resolved(CalendarWeek(Reference(), 1), None, self.REFERENCE)
        assert (found.date, found.end_date) == (date(2026, 8, 17), date(2026, 8, 23))

    def test_holiday_names_the_country_that_was_taken(self) -> None:
        assert any("United States" in reason for reason in _resolved(NamedDay("MLK Day"), None, self.REFERENCE).reasons)
        region = replace(self.REFERENCE, region="GB-ENG")
        assert _resolved(NamedDay("May Day"), None, region).date == date(2027, 5, 3)


class TestPhrases:
    """Parsing and evaluation joined."""

    def test_phrase_with_a_time(self) -> None:
        found = resolve_phrase("Tuesday, October 6 at 5 pm", SEMESTER)
        assert found is not None
        phrase, resolution = found
        assert phrase.time == ClockTime(17)
        assert isinstance(resolution, Resolved) and resolution.date == date(2026, 10, 6)

    def test_midnight_is_the_end_of_the_named_day(self) -> None:
        found = resolve_phrase("October 6 at midnight", SEMESTER)
        assert found is not None
        phrase, resolution = found
        assert str(phrase.time) == "23:59"
        assert isinstance(resolution, Resolved)
        assert resolution.date == date(2026, 10, 6) and "end of the named day" in resolution.how

    def test_time_alone_is_no_day(self) -> None:
        found = resolve_phrase("5 pm", SEMESTER)
        assert found is not None and isinstance(found[1], Unresolved)

    def test_what_is_no_date_phrase(self) -> None:
        assert resolve_phrase("the cell membrane", SEMESTER) is None

    def test_due_time_without_midnight(self) -> None:
        assert due_time(Phrase("noon", 0, 4, None, ClockTime(12))) == (ClockTime(12), "")
