"""Checks of a date against everything else, each by itself."""

from __future__ import annotations

from datetime import date
from typing import Any

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.cross_check import (
    Dated,
    check_alone,
    nearest_weekday,
    outside_term_reason,
    repeated_titles,
    weekday_reason,
)
from syllabus_io.resolve.expression import FullDate, Weekday
from syllabus_io.resolve.term import DayOff
from tests.resolve.made_outlines import AUTUMN, TUESDAYS_THURSDAYS

TUESDAY = date(2026, 10, 6)
WEDNESDAY = date(2026, 10, 7)


def dated(kind: Kind, title: str, day: date, **more: Any) -> Dated:
    return Dated(more.pop("id", title), kind, title, day, **more)


def test_a_weekday_that_disagrees_is_said_with_both_weekdays() -> None:
    assert weekday_reason(FullDate(TUESDAY, Weekday.TU), "Tues Oct 6") == ""
    assert weekday_reason(FullDate(WEDNESDAY, Weekday.TU), "Tues Oct 7") == (
        "the outline writes “Tues Oct 7”, but 7 Oct 2026 is a Wednesday, not a Tuesday"
    )


def test_the_nearest_weekday_is_at_most_three_days_away() -> None:
    for weekday in Weekday:
        found = nearest_weekday(TUESDAY, weekday)
        assert found.isoweekday() == weekday
        assert abs((found - TUESDAY).days) <= 3


def test_a_day_outside_the_term_is_said_with_the_bound_it_passes() -> None:
    assert outside_term_reason(date(2026, 12, 18), None, AUTUMN) == ""
    assert outside_term_reason(date(2026, 12, 19), None, AUTUMN) == (
        "Sat 19 Dec 2026 lies after the last day of examinations, Fri 18 Dec 2026"
    )
    assert outside_term_reason(date(2026, 8, 28), None, AUTUMN) == (
        "Fri 28 Aug 2026 lies before the first day of the term, Mon 31 Aug 2026"
    )
    assert "after the last day" in outside_term_reason(date(2026, 12, 15), date(2026, 12, 20), AUTUMN)


def test_an_exam_on_a_day_without_class_is_marked_unless_something_supports_it() -> None:
    meetings = (TUESDAYS_THURSDAYS,)
    assert check_alone(dated(Kind.EXAM, "Exam 1", TUESDAY), AUTUMN, (), meetings) == ()
    assert check_alone(dated(Kind.EXAM, "Exam 1", WEDNESDAY), AUTUMN, (), meetings) == (
        "Wed 7 Oct 2026 is not a class day; the class meets on Tuesday and Thursday",
    )
    assert check_alone(dated(Kind.EXAM, "Exam 1", WEDNESDAY, weekday_written=True), AUTUMN, (), meetings) == ()
    assert check_alone(dated(Kind.EXAM, "Exam 1", WEDNESDAY, time_written=True), AUTUMN, (), meetings) == ()
    assert check_alone(dated(Kind.EXAM, "Take-home exam", WEDNESDAY), AUTUMN, (), meetings) == ()
    assert check_alone(dated(Kind.ASSIGNMENT, "Essay", WEDNESDAY), AUTUMN, (), meetings) == ()
    assert check_alone(dated(Kind.EXAM, "Exam 1", WEDNESDAY), AUTUMN, (), ()) == ()


def test_a_quiz_on_a_day_off_is_marked_and_homework_is_not() -> None:
    off = (DayOff("Founders' Day", TUESDAY, TUESDAY),)
    assert check_alone(dated(Kind.QUIZ, "Quiz 2", TUESDAY), AUTUMN, off, ()) == (
        "Tue 6 Oct 2026 is a day off: Founders' Day",
    )
    assert check_alone(dated(Kind.ASSIGNMENT, "Essay", TUESDAY), AUTUMN, off, ()) == ()


def test_the_same_numbered_title_on_two_days_is_marked_on_both() -> None:
    items = [
        dated(Kind.QUIZ, "Quiz 2", TUESDAY, id="a", number=2),
        dated(Kind.QUIZ, "Quiz 2", WEDNESDAY, id="b", number=2),
        dated(Kind.QUIZ, "Quiz 3", WEDNESDAY, id="c", number=3),
        dated(Kind.ASSIGNMENT, "Reading response", TUESDAY, id="d"),
        dated(Kind.ASSIGNMENT, "Reading response", WEDNESDAY, id="e"),
    ]
    reasons = repeated_titles(items)
    assert set(reasons) == {"a", "b"}
    assert reasons["a"] == "the outline has “Quiz 2” on Tue 6 Oct 2026 and Wed 7 Oct 2026"
