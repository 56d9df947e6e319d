"""Columns that hold nothing but the dates of one kind of work."""

from __future__ import annotations

from .documents import document
from .reading import dated_work


def test_a_column_for_each_kind_of_work_with_the_numbers_of_its_rows() -> None:
    rows = [["No.", "Essay", "Quiz"], ["1", "January 23", "February 1"], ["2", "March 4", "February 20 at 9 am"]]
    assert dated_work(document(rows)) == {
        "assignment: Essay 1": "month_day(1, 23)",
        "assignment: Essay 2": "month_day(3, 4)",
        "quiz: Quiz 1": "month_day(2, 1)",
        "quiz: Quiz 2": "month_day(2, 20) @09:00",
    }


def test_units_with_their_quiz_and_test() -> None:
    rows = [
        ["Unit", "Dates", "Lab report due", "Quiz", "Test"],
        ["1 Matter", "Aug 31 – Sep 18", "Sep 11", "Sep 9", "Sep 18"],
        ["2 Atoms", "Sep 21 – Oct 9", "Oct 2", "", "Oct 9"],
        ["3 Bonds", "Oct 13 – Oct 30", "Oct 23", "Oct 21", "Oct 30"],
    ]
    assert dated_work(document(rows)) == {
        "assignment: Lab report 1": "month_day(9, 11)",
        "assignment: Lab report 2": "month_day(10, 2)",
        "assignment: Lab report 3": "month_day(10, 23)",
        "quiz: Quiz 1": "month_day(9, 9)",
        "quiz: Quiz 3": "month_day(10, 21)",
        "exam: Test 1": "month_day(9, 18)",
        "exam: Test 2": "month_day(10, 9)",
        "exam: Test 3": "month_day(10, 30)",
    }


def test_a_date_column_of_a_schedule_is_no_such_column() -> None:
    rows = [["Date", "Quiz"], ["Sep 9", "Quiz 1"], ["Sep 16", "Quiz 2"], ["Sep 23", "Quiz 3"]]
    assert dated_work(document(rows)) == {
        "quiz: Quiz 1": "month_day(9, 9)",
        "quiz: Quiz 2": "month_day(9, 16)",
        "quiz: Quiz 3": "month_day(9, 23)",
    }


def test_headings_that_only_name_kinds_of_work_are_a_header() -> None:
    rows = [["No.", "Essay", "Reflection"], ["1", "Sep. 19", "Sep. 28"], ["2", "Sep. 21", "Sep. 29"]]
    assert dated_work(document(rows)) == {
        "assignment: Essay 1": "month_day(9, 19)",
        "assignment: Essay 2": "month_day(9, 21)",
        "assignment: Reflection 1": "month_day(9, 28)",
        "assignment: Reflection 2": "month_day(9, 29)",
    }
