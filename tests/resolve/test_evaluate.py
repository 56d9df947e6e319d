"""Whole phrases with and without a term, and that every kind of expression can be read."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import get_args

import pytest

from syllabus_io.resolve.evaluate import ReadingContext, due_time, resolve_phrase
from syllabus_io.resolve.expression import (
    CalendarWeek,
    ClockTime,
    DateExpression,
    DayInMonth,
    MeetingNumber,
    MonthDay,
    NamedDay,
    Offset,
    Phrase,
    Reference,
    RotationDay,
    TermEdge,
    TermPoint,
    Unit,
    Week,
)
from syllabus_io.resolve.reading import read_expression
from syllabus_io.resolve.records import Certainty, Resolved, Unresolved
from tests.resolve.answers import FR, SEMESTER, resolved, unresolved


def test_every_kind_of_expression_can_be_read() -> None:
    unread = [
        kind.__name__
        for kind in get_args(DateExpression)
        if read_expression.dispatch(kind) is read_expression.dispatch(object)
    ]
    assert not unread


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
        found = resolved(expression, None, self.REFERENCE)
        assert found.date == day
        assert found.certainty is Certainty.ASSUMED and found.reasons

    def test_years_of_the_outline_come_first(self) -> None:
        found = resolved(MonthDay(10, 12), None, ReadingContext(years=(2024,), reference=date(2026, 8, 16)))
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
        assert "term" in unresolved(expression, None, self.REFERENCE).reason

    def test_without_any_reference_nothing_is_guessed(self) -> None:
        assert "no year" in unresolved(MonthDay(10, 12), None).reason

    def test_week_runs_to_its_sunday(self) -> None:
        found = resolved(CalendarWeek(Reference(), 1), None, self.REFERENCE)
        assert (found.date, found.end_date) == (date(2026, 8, 17), date(2026, 8, 23))

    def test_holiday_names_the_country_that_was_taken(self) -> None:
        assert any("United States" in reason for reason in resolved(NamedDay("MLK Day"), None, self.REFERENCE).reasons)
        region = replace(self.REFERENCE, region="GB-ENG")
        assert resolved(NamedDay("May Day"), None, region).date == date(2027, 5, 3)


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
