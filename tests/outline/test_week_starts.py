"""Tables with one date a week: whether the date is the day of the work or opens the week it is in."""

from __future__ import annotations

import pytest

from syllabus_io.outline.read import read_outline
from syllabus_io.outline.week_starts import ClassWeek, opens_weeks
from syllabus_io.resolve.expression import DateExpression, MonthDay, NumericDate, Weekday, WeekOf
from tests.outline.documents import document

MONDAYS = [MonthDay(9, 7), MonthDay(9, 14), MonthDay(9, 21), MonthDay(9, 28)]  # of 2026
TWICE = ClassWeek(frozenset({Weekday.TU, Weekday.TH}), year=2026)


@pytest.mark.parametrize(
    ("heading", "has_topics", "course", "expected"),
    [
        ("Date", True, TWICE, True),
        ("Begins", False, ClassWeek(), True),
        ("Monday", False, TWICE, True),
        ("Date", False, TWICE, False),  # a list of deadlines
        ("Date", True, ClassWeek(year=2026), True),
        ("Date", True, ClassWeek(), False),  # no year: the weekday is not known, nor the class days
        ("Date", True, ClassWeek(frozenset({Weekday.MO}), frozenset({Weekday.MO}), 2026), False),
        ("Date", True, ClassWeek(frozenset({Weekday.MO, Weekday.WE}), frozenset({Weekday.MO}), 2026), False),
        ("Date", True, ClassWeek(frozenset({Weekday.TH}), frozenset({Weekday.TH}), 2026), True),
    ],
)
def test_dates_a_week_apart(heading: str, has_topics: bool, course: ClassWeek, expected: bool) -> None:
    assert opens_weeks(MONDAYS, heading, has_topics, course) is expected


def test_days_of_classes_and_short_lists_open_no_weeks() -> None:
    classes = [MonthDay(9, 8), MonthDay(9, 10), MonthDay(9, 15), MonthDay(9, 17)]
    assert not opens_weeks(classes, "Date", True, TWICE)
    assert not opens_weeks(MONDAYS[:3], "Date", True, TWICE)
    fridays = [MonthDay(9, 4), MonthDay(9, 11), MonthDay(9, 18), MonthDay(9, 25)]
    assert not opens_weeks(fridays, "Date", True, TWICE)


def test_a_skipped_week_shows_class_days_where_none_are_stated() -> None:
    skipped = [MonthDay(8, 31), *MONDAYS[1:]]
    assert not opens_weeks(skipped, "Date", True, ClassWeek(year=2026))
    assert opens_weeks(skipped, "Date", True, TWICE)


def test_numeric_dates_in_either_order() -> None:
    days: list[DateExpression] = [NumericDate(7, 9), MonthDay(9, 14), MonthDay(9, 21), MonthDay(9, 28)]
    assert opens_weeks(days, "Date", True, TWICE)


def test_work_in_such_a_row_stands_in_its_week_and_is_marked() -> None:
    rows = [["Date", "Topic", "Work"]] + [
        [f"Sep {day}", "Ponds", f"Sketch {n}"] for n, day in enumerate((7, 14, 21, 28))
    ]
    outline = read_outline(
        document("FROG 12: Ponds, Fall 2026", "Class meets Tuesdays and Thursdays 10-11:15 am", rows)
    )
    assert [mention.phrase.expression for item in outline.items for mention in item.mentions] == [
        WeekOf(day) for day in MONDAYS
    ]
    assert all(mention.doubts for item in outline.items for mention in item.mentions)


def test_a_row_without_class_shows_the_days_of_a_weekly_class() -> None:
    rows = [["Date", "Topic", "Work"]] + [[f"Sep {day}", "Ponds", f"Sketch {n}"] for n, day in enumerate((14, 21, 28))]
    rows.insert(1, ["Sep 7", "No class (Labor Day)", ""])
    outline = read_outline(document("FROG 12: Ponds, Fall 2026", rows))
    assert [mention.phrase.expression for item in outline.items for mention in item.mentions] == MONDAYS[1:]
