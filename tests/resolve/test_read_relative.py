"""Days told from other days, in invented terms. Expected days are counted by hand on a calendar."""

from __future__ import annotations

from datetime import date

import pytest

from syllabus_io.resolve.evaluate import ReadingContext
from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    DateExpression,
    DayInMonth,
    DayOf,
    Direction,
    FullDate,
    MonthDay,
    NamedDay,
    NthWeekday,
    Offset,
    Reference,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.records import Certainty
from tests.dates.calendars import CALENDARS
from tests.resolve.answers import FR, MO, SU, TH, TU, WE, ambiguous, resolved, unresolved

THANKSGIVING = NamedDay("Thanksgiving")


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
        found = resolved(expression)
        assert (found.date, found.reasons) == (day, ())

    def test_anchor_in_the_context(self) -> None:
        context = ReadingContext(anchors={"Midterm exam": (date(2026, 10, 6), date(2026, 10, 6))})
        assert resolved(Offset(Anchor("the midterm"), 1, Unit.WEEK), context=context).date == date(2026, 10, 13)
        assert resolved(Anchor("Midterm Exam"), context=context).expression == Anchor("Midterm exam")

    def test_words_that_fit_two_items_fit_none(self) -> None:
        days = (date(2026, 10, 6), date(2026, 10, 6))
        context = ReadingContext(anchors={"Midterm 1": days, "Midterm 2": days})
        assert "midterm" in unresolved(Anchor("the midterm"), context=context).reason

    def test_reference_day(self) -> None:
        context = ReadingContext(reference=date(2026, 10, 7))
        assert resolved(Offset(Reference(), 1, Unit.DAY), context=context).date == date(2026, 10, 8)
        assert resolved(WeekdayNear(Reference(), FR, Direction.AFTER), context=context).date == date(2026, 10, 9)

    def test_day_number_alone(self) -> None:
        assert resolved(DayInMonth(12, month=10)).certainty is Certainty.STATED
        after = resolved(DayInMonth(12), context=ReadingContext(reference=date(2026, 10, 20)))
        assert after.date == date(2026, 11, 12) and "no month is written" in after.reasons[0]
        assert len(ambiguous(DayInMonth(12)).candidates) == 4
        # Of the 12ths of the term only that of November 2026 is a Thursday.
        assert resolved(DayInMonth(12, TH)).date == date(2026, 11, 12)

    def test_span(self) -> None:
        found = resolved(Span(MonthDay(12, 8), MonthDay(12, 10)))
        assert (found.date, found.end_date, found.certainty, found.reasons) == (
            date(2026, 12, 8),
            date(2026, 12, 10),
            Certainty.STATED,
            (),
        )

    def test_span_over_new_year(self) -> None:
        found = resolved(Span(MonthDay(12, 29), MonthDay(1, 6)), CALENDARS["uk"])
        assert (found.date, found.end_date) == (date(2026, 12, 29), date(2027, 1, 6))

    def test_span_that_ends_before_it_begins_is_its_first_day_with_a_reason(self) -> None:
        found = resolved(Span(MonthDay(10, 12), MonthDay(10, 5)))
        assert (found.date, found.end_date) == (date(2026, 10, 12), None)
        assert any("before it begins" in reason for reason in found.reasons)
