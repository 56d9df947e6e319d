"""Work due at a numbered class whose day the schedule gives. Inputs are invented."""

from __future__ import annotations

from .documents import document
from .reading import dated_work

ROWS = [[str(number), f"Sept {day}", "Topic"] for number, day in enumerate((6, 8, 13, 15, 20), 1)]


def test_a_class_number_stands_for_the_day_its_row_gives() -> None:
    found = dated_work(
        document(
            "Homework 1 is due at Lecture 2. Homework 2 is due at class 5.",
            [["Lecture", "Date", "Topic"], *ROWS],
        )
    )
    assert found == {"assignment: Homework 1": "month_day(9, 8)", "assignment: Homework 2": "month_day(9, 20)"}


def test_a_number_with_two_days_is_left_to_be_counted() -> None:
    found = dated_work(
        document(
            "Homework 1 is due at Lecture 2.",
            [["Lecture", "Date", "Topic"], *ROWS, ["2", "Sept 22", "Second group"]],
        )
    )
    assert found == {"assignment: Homework 1": 'meeting_number(2, "lecture")'}
