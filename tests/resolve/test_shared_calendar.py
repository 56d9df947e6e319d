"""What the outlines of one term show together about its calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.outline.records import Kind, NoClass, Outline
from syllabus_io.resolve.expression import MonthDay, Week, Weekday, WeekdayIn, WeekOf
from syllabus_io.resolve.outlines import resolve_outline
from syllabus_io.resolve.records import Resolved
from syllabus_io.resolve.shared_calendar import shared_calendar
from tests.resolve.made_outlines import AUTUMN, item, mention, outline, rows

BREAK = NoClass("Autumn break", mention(WeekOf(MonthDay(10, 14)), "week of Oct 14"))
MONDAYS = [date(2026, 8, 31) + timedelta(weeks=n) for n in range(15)]


def with_week_rows(first_number: int, file: str = "made.pdf") -> Outline:
    taught = [day for day in MONDAYS if day != date(2026, 10, 12)]
    numbered = tuple((n, MonthDay(day.month, day.day)) for n, day in enumerate(taught, start=first_number))
    essay = item(Kind.ASSIGNMENT, "Essay", mention(WeekdayIn(Week(9), Weekday.FR), "Friday of week 9"))
    return outline([essay], file=file, week_rows=numbered, no_class=(BREAK,), row_dates=rows(taught))


def test_a_week_off_that_an_outline_names_is_the_terms_and_trees_stay_live() -> None:
    made = with_week_rows(1)
    term = shared_calendar([made], AUTUMN)
    (off,) = term.no_class
    assert (off.name, off.first_day, off.last_day, off.course) == (
        "Autumn break",
        date(2026, 10, 12),
        date(2026, 10, 16),
        None,
    )
    assert (term.week_one, term.break_weeks_count) == (date(2026, 8, 31), False)
    (essay,) = resolve_outline(made, term, "BOT 210").items
    assert isinstance(essay.resolution, Resolved)
    assert essay.date == date(2026, 11, 6)
    assert essay.resolution.expression == WeekdayIn(Week(9), Weekday.FR)


def test_a_week_in_which_another_course_meets_is_not_off_for_the_school() -> None:
    other = outline(file="other.pdf", row_dates=rows(MONDAYS))
    assert shared_calendar([with_week_rows(1), other], AUTUMN).no_class == ()


def test_outlines_that_number_weeks_differently_leave_the_term_alone() -> None:
    term = shared_calendar([with_week_rows(1), with_week_rows(0, "zero.pdf")], AUTUMN)
    assert term.week_one is None


def test_what_the_term_states_stands() -> None:
    stated = replace(AUTUMN, week_one=date(2026, 9, 7), break_weeks_count=True)
    term = shared_calendar([with_week_rows(1)], stated)
    assert (term.week_one, term.break_weeks_count) == (date(2026, 9, 7), True)
