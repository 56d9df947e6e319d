"""Checks of a date against everything else, each by itself."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.cross_check import (
    Dated,
    is_final_after_classes,
    nearest_weekday,
    outside_term_reason,
    reasons_together,
    repeated_titles,
    weekday_reason,
)
from syllabus_io.resolve.expression import FullDate, Weekday
from syllabus_io.resolve.term import DayOff, Meeting
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


def test_a_final_behind_the_last_class_needs_no_mark_where_the_term_knows_no_examinations() -> None:
    term = replace(AUTUMN, finals=None)
    after = term.last_day + timedelta(days=5)
    assert is_final_after_classes(dated(Kind.EXAM, "Final exam", after), term)
    assert is_final_after_classes(dated(Kind.EXAM, "Exam 3", after, time_written=True), term)
    assert is_final_after_classes(dated(Kind.ASSIGNMENT, "Final paper", after), term)
    assert not is_final_after_classes(dated(Kind.EXAM, "Exam 3", after), term), "nothing supports the day"
    assert not is_final_after_classes(dated(Kind.ASSIGNMENT, "Essay 2", after, weekday_written=True), term)
    assert not is_final_after_classes(dated(Kind.EXAM, "Final exam", after + timedelta(days=21)), term)
    assert not is_final_after_classes(dated(Kind.EXAM, "Final exam", after), AUTUMN), "its examinations are known"
    final = dated(Kind.EXAM, "Final exam", after)
    assert reasons_together([final], term, (), ())[final.id] == ()


def reasons(*items: Dated, off: tuple[DayOff, ...] = (), meetings: tuple[Meeting, ...] = (TUESDAYS_THURSDAYS,)) -> Any:
    found = reasons_together(items, AUTUMN, off, meetings)
    return tuple(reason for item in items for reason in found[item.id])


def test_an_exam_on_a_day_without_class_is_marked_unless_something_supports_it() -> None:
    assert reasons(dated(Kind.EXAM, "Exam 1", TUESDAY)) == ()
    assert reasons(dated(Kind.EXAM, "Exam 1", WEDNESDAY)) == (
        "Wed 7 Oct 2026 is not a class day; the class meets on Tuesday and Thursday",
    )
    assert reasons(dated(Kind.EXAM, "Exam 1", WEDNESDAY, weekday_written=True)) == ()
    assert reasons(dated(Kind.EXAM, "Exam 1", WEDNESDAY, time_written=True)) == ()
    assert reasons(dated(Kind.EXAM, "Take-home exam", WEDNESDAY)) == ()
    assert reasons(dated(Kind.ASSIGNMENT, "Essay", WEDNESDAY)) == ()
    assert reasons(dated(Kind.EXAM, "Exam 1", WEDNESDAY), meetings=()) == ()


def test_one_quiz_off_the_class_days_is_marked_and_a_habit_is_not() -> None:
    days = [TUESDAY + timedelta(weeks=n) for n in range(4)]
    usual = [dated(Kind.QUIZ, f"Quiz {n}", day) for n, day in enumerate(days, start=1)]
    odd = dated(Kind.QUIZ, "Quiz 9", WEDNESDAY)
    assert reasons(*usual, odd) == ("Wed 7 Oct 2026 is not a class day; the class meets on Tuesday and Thursday",)
    online = [dated(Kind.QUIZ, f"Quiz {n}", day + timedelta(days=1)) for n, day in enumerate(days, start=1)]
    assert reasons(*online) == ()


def test_a_quiz_on_a_day_off_is_marked_and_homework_is_not() -> None:
    off = (DayOff("Founders' Day", TUESDAY, TUESDAY),)
    assert reasons(dated(Kind.QUIZ, "Quiz 2", TUESDAY), off=off) == ("Tue 6 Oct 2026 is a day off: Founders' Day",)
    assert reasons(dated(Kind.ASSIGNMENT, "Essay", TUESDAY), off=off) == ()
    assert reasons(dated(Kind.QUIZ, "Quiz 2", TUESDAY), off=off, meetings=()) == (), "a course without classes"


def test_the_same_numbered_title_on_two_days_is_marked_on_both() -> None:
    items = [
        dated(Kind.QUIZ, "Quiz 2", TUESDAY, id="a", number=2),
        dated(Kind.QUIZ, "Quiz 2", WEDNESDAY, id="b", number=2),
        dated(Kind.QUIZ, "Quiz 3", WEDNESDAY, id="c", number=3),
        dated(Kind.ASSIGNMENT, "Reading response", TUESDAY, id="d"),
        dated(Kind.ASSIGNMENT, "Reading response", WEDNESDAY, id="e"),
    ]
    found = repeated_titles(items)
    assert set(found) == {"a", "b"}
    assert found["a"] == "the outline has “Quiz 2” on Tue 6 Oct 2026 and Wed 7 Oct 2026"


def test_one_title_in_two_spellings_is_the_same_title() -> None:
    items = [
        dated(Kind.EXAM, "Midterm 1", TUESDAY, id="a", number=1),
        dated(Kind.EXAM, "Midterm Exam I (20%)", WEDNESDAY, id="b", number=1),
    ]
    assert set(repeated_titles(items)) == {"a", "b"}


def test_what_stands_in_brackets_may_tell_titles_apart() -> None:
    items = [
        dated(Kind.QUIZ, "Quiz 3 (pages 1-20)", TUESDAY, id="a"),
        dated(Kind.QUIZ, "Quiz 3 (pages 21-40)", WEDNESDAY, id="b"),
    ]
    assert repeated_titles(items) == {}
