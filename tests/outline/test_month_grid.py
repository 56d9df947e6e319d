"""Pages of a wall calendar as schedules."""

from __future__ import annotations

from .documents import document, heading
from .reading import dated_work, days_off

_OCTOBER = [
    ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"],
    ["27", "28", "29", "30\nQuiz 1", "1", "2", "3"],
    ["4", "5\nLab 1 due", "6", "7", "8", "9", "10"],
    ["11", "12\nNo class: Columbus Day", "13", "14\nMidterm", "15", "16", "17"],
    ["25", "26", "27", "28", "29", "30\nEssay due", "31"],
    ["1", "2\nQuiz 2", "3", "4", "5", "6", "7"],
]


def test_cells_under_their_day_numbers() -> None:
    found = dated_work(document(heading("October 2026"), [_OCTOBER[0], *_OCTOBER[2:]]))
    assert found == {
        "assignment: Lab 1": "month_day(10, 5, MO)",
        "exam: Midterm": "month_day(10, 14, WE)",
        "assignment: Essay": "month_day(10, 30, FR)",
        "quiz: Quiz 2": "month_day(11, 2, MO)",
    }


def test_days_off_in_the_grid() -> None:
    assert days_off(document(heading("October 2026"), [_OCTOBER[0], *_OCTOBER[2:]])) == {
        "Columbus Day": "month_day(10, 12, MO)"
    }


def test_a_grid_that_begins_with_the_end_of_the_month_before() -> None:
    found = dated_work(document(heading("October 2026"), _OCTOBER))
    assert found["quiz: Quiz 1"] == "month_day(9, 30, WE)"
    assert found["assignment: Lab 1"] == "month_day(10, 5, MO)"


def test_numbers_in_one_row_and_what_happens_in_the_row_below() -> None:
    rows = [
        ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday"],
        ["5", "6", "7", "8", "9"],
        ["Lab 1 due", "", "Quiz 1", "", ""],
        ["12", "13", "14", "15", "16"],
        ["", "Reefs", "", "", "Midterm"],
    ]
    assert dated_work(document(heading("October 2026"), rows)) == {
        "assignment: Lab 1": "month_day(10, 5, MO)",
        "quiz: Quiz 1": "month_day(10, 7, WE)",
        "exam: Midterm": "month_day(10, 16, FR)",
    }


def test_several_months_in_one_table_with_names_in_another_language() -> None:
    week: list[str | None] = ["lunes", "martes", "miércoles", "jueves", "viernes"]
    rows: list[list[str | None]] = [
        ["ENERO 2026", None, None, None, None],
        week,
        ["26\nRepaso", "27", "28", "29", "30\nQuiz 2"],
        ["FEBRERO 2026", None, None, None, None],
        week,
        ["2", "3", "4\nExam 1", "5", "6"],
    ]
    assert dated_work(document(rows)) == {
        "quiz: Quiz 2": "month_day(1, 30, FR)",
        "exam: Exam 1": "month_day(2, 4, WE)",
    }
