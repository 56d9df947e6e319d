"""Recurring rules that date a series of works."""

from __future__ import annotations

import pytest

from .documents import document, heading
from .reading import dated_work, titles


def test_a_weekly_rule_makes_a_series() -> None:
    found = dated_work(
        document(
            heading("Quizzes"),
            "There will be a quiz every Friday at the start of class.",
            heading("Journals"),
            "Journal entries are due every Sunday by 11:59 pm.",
        )
    )
    assert found == {
        "quiz: Quiz": "every(weekly, weekdays=[FR])",
        "assignment: Journal entry": "every(weekly, weekdays=[SU]) @23:59",
    }


@pytest.mark.parametrize(
    "sentence",
    [
        "Homework is collected roughly every other week on Wednesday.",
        "We meet every Monday; quizzes may come at any time.",
        "Office hours are every Tuesday before the exam.",
        "All assignments are due Fridays at 5 pm.",
        "There is usually a quiz every Friday.",
    ],
)
def test_loose_rules_make_none(sentence: str) -> None:
    assert titles(document(sentence)) == []


def test_a_series_that_the_schedule_dates_is_not_made_again() -> None:
    found = titles(
        document(
            "There is a quiz every Friday.",
            [["Date", "Due"], ["Sep 18", "Quiz 1"], ["Sep 25", "Quiz 2"], ["Oct 16", "Quiz 3"]],
        )
    )
    assert found == ["Quiz 1", "Quiz 2", "Quiz 3"]


def test_a_rule_in_the_section_of_its_work() -> None:
    found = titles(
        document(
            heading("Grading"),
            [["Component", "Weight"], ["Reading responses", "40%"], ["Final exam", "60%"]],
            heading("Reading responses"),
            "They must be submitted by 11:59 pm the night before each class.",
        )
    )
    assert found == ["Reading response"]
