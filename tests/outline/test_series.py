"""Recurring rules that date a series of works."""

from __future__ import annotations

import pytest

from syllabus_io.outline.read import read_outline

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


def test_each_work_of_a_sentence_has_its_own_rule() -> None:
    found = dated_work(
        document("Each week: initial posts are due Wednesdays by 11:59 pm and two replies are due Sundays by noon.")
    )
    assert set(found.values()) == {"every(weekly, weekdays=[WE]) @23:59", "every(weekly, weekdays=[SU]) @12:00"}


def test_weekly_work_is_due_on_the_day_it_closes() -> None:
    found = dated_work(document("Weekly reading quizzes open Friday at noon and close Monday at 9 am."))
    assert found == {"quiz: Weekly reading quiz": "every(weekly, weekdays=[MO]) @09:00"}


def test_work_given_out_on_one_weekday_is_due_on_the_next() -> None:
    found = dated_work(document("Problem sets are posted on Mondays and due the following Thursday."))
    assert found == {"assignment: Problem set": "every(weekly, weekdays=[TH])"}


@pytest.mark.parametrize(
    "sentence",
    [
        "You will complete a problem set every two weeks, due Fridays at 5 pm.",
        "Problem sets are biweekly and are due on Fridays.",
    ],
)
def test_a_longer_step_without_a_start_dates_nothing(sentence: str) -> None:
    assert titles(document(sentence)) == []


@pytest.mark.parametrize(
    "text",
    [
        "There will be ten quizzes, given every Friday beginning January 23.",
        "Quizzes are given every Friday. There will be 10 of them and I drop the lowest.",
    ],
)
def test_the_paragraph_counts_the_works(text: str) -> None:
    (item,) = read_outline(document(text)).items
    assert (item.title, item.series_count) == ("Quiz", 10)


def test_a_rule_that_begins_and_ends_in_numbered_weeks() -> None:
    found = dated_work(document("A one-page response is due each Monday, starting in week 2 and ending in week 13."))
    assert list(found.values()) == ["every(weekly, weekdays=[MO], start=week(2), until=week(13))"]
