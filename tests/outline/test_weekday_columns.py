"""Weekdays in columns: in a heading with other words, or alone in a cell beside the work."""

from __future__ import annotations

import pytest

from syllabus_io.outline.columns import weekday_alone

from .documents import document
from .reading import dated_work


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fri", "FR"),
        ("Sunday, 11:59 pm", "SU"),
        ("due Wed.", "WE"),
        ("Thurs noon", "TH"),
        ("Fri lab report", None),
        ("Mon 9/7", None),
        ("week 3", None),
        ("", None),
    ],
)
def test_a_weekday_alone(text: str, expected: str | None) -> None:
    found = weekday_alone(text)
    assert (found[0].name if found else None) == expected


def test_a_due_column_that_holds_only_weekdays_dates_the_work_of_its_row() -> None:
    rows = [
        ["Week", "Dates", "Topic", "Work", "Due"],
        ["1", "Sep 7–13", "Ponds", "Sketch 1", "Fri"],
        ["2", "Sep 14–20", "Frogs", "Quiz 1", "Sun 9 pm"],
        ["3", "Sep 21–27", "Newts", "Sketch 2", ""],
    ]
    found = dated_work(document(rows))
    assert found["assignment: Sketch 1"] == "weekday_in(week_of(month_day(9, 7)), FR)"
    assert found["quiz: Quiz 1"] == "weekday_in(week_of(month_day(9, 14)), SU) @21:00"
    assert found["assignment: Sketch 2"] == "span(month_day(9, 21), month_day(9, 27))"


def test_rows_of_days_under_a_week() -> None:
    rows = [
        ["Week", "Day", "Topic", "Due"],
        ["1", "Mon", "Ponds", ""],
        ["", "Wed", "Frogs", "Sketch 1"],
        ["2", "Mon", "Newts", "Sketch 2"],
        ["", "Wed", "Toads", "Quiz 1"],
    ]
    assert dated_work(document(rows)) == {
        "assignment: Sketch 1": "weekday_in(week(1), WE)",
        "assignment: Sketch 2": "weekday_in(week(2), MO)",
        "quiz: Quiz 1": "weekday_in(week(2), WE)",
    }


def test_a_weekday_in_brackets_behind_a_heading() -> None:
    rows = [
        ["Week", "Class (Tue)", "Clinic (Thu)", "Due"],
        ["1", "Fluids", "Site day", ""],
        ["2", "Exam 1", "Site day", "Care essay 1 (Fri)"],
        ["3", "Heart", "Skills test 1", ""],
    ]
    assert dated_work(document(rows)) == {
        "exam: Exam 1": "weekday_in(week(2), TU)",
        "assignment: Care essay 1": "weekday_in(week(2), FR)",
        "exam: Skills test 1": "weekday_in(week(3), TH)",
    }


def test_a_column_without_heading_that_mostly_names_work_is_a_column_of_work() -> None:
    rows = [
        ["Week 2, Wednesday", "Reflection 1"],
        ["Week 5 Friday", "Sketch 2 and Quiz 1"],
        ["Week 6, Monday", "Test 1"],
    ]
    assert dated_work(document(rows)) == {
        "assignment: Reflection 1": "weekday_in(week(2), WE)",
        "assignment: Sketch 2": "weekday_in(week(5), FR)",
        "quiz: Quiz 1": "weekday_in(week(5), FR)",
        "exam: Test 1": "weekday_in(week(6), MO)",
    }


def test_cells_of_weekdays_that_hold_their_own_days() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Tuesday", "Thursday"],
                ["4", "9/22 Cod; essay topic due", "9/24 Whales; Quiz 2"],
                ["5", "9/29\nTea", "10/1\nMidterm 2"],
                ["6", "10/13 Exam 2", "10/15 Salt"],
            ]
        )
    )
    assert found == {
        "assignment: Essay topic": "month_day(9, 22)",
        "quiz: Quiz 2": "month_day(9, 24)",
        "exam: Midterm 2": "numeric_date(10, 1)",
        "exam: Exam 2": "month_day(10, 13)",
    }
