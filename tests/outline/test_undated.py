"""Graded work without a date."""

from __future__ import annotations

import pytest

from syllabus_io.outline.read import read_outline
from syllabus_io.outline.undated_said import EACH

from .documents import document, heading
from .reading import titles


def test_work_to_be_announced() -> None:
    undated = read_outline(
        document("Thurs Apr 8: Review", "Fri Apr 9: Exam 2", "Mon Apr 12: Talks", "Final exam: To be announced")
    ).undated
    assert [(work.kind.value, work.title) for work in undated] == [("exam", "Final exam")]
    assert "To be announced" in undated[0].reason


def test_the_registrar_sets_the_final() -> None:
    undated = read_outline(document("The final exam is scheduled by the registrar.")).undated
    assert [work.title for work in undated] == ["Final exam"]


def test_grading_categories_without_a_dated_item() -> None:
    outline = read_outline(
        document(
            heading("Grading"),
            [
                ["Component", "Weight"],
                ["Problem sets", "40%"],
                ["Midterm", "30%"],
                ["Final project", "20%"],
                ["Participation", "10%"],
            ],
            heading("Schedule"),
            [["Date", "Due"], ["Sep 14", "Problem set 1"], ["Oct 14", "Midterm"], ["Oct 19", "Problem set 2"]],
        )
    )
    assert [work.title for work in outline.undated] == ["Final project"]
    assert outline.undated[0].weight is not None and outline.undated[0].weight.percent == 20


def test_dated_plurals_are_not_undated() -> None:
    outline = read_outline(
        document(
            heading("Grading"),
            [["Component", "Weight"], ["Exercises", "60%"], ["Weekly quizzes", "40%"]],
            [["Date", "Due"], ["Sep 14", "Exercise 1"], ["Sep 21", "Quiz 1"], ["Sep 28", "Exercise 2"]],
        )
    )
    assert outline.undated == ()


def test_a_calendar_without_dates_makes_no_date_of_a_week() -> None:
    undated = read_outline(document("Exam dates are end of week 5, week 9 and week 12.")).undated
    assert [work.title for work in undated] == ["Exam 1", "Exam 2", "Exam 3"]


def test_work_of_every_class_and_work_that_is_only_named() -> None:
    undated = read_outline(
        document(
            "The in-class activity is due at the beginning of class each day.",
            "There will be one math assignment and one writing assignment.",
        )
    ).undated
    assert [work.title for work in undated] == ["In-class activity", "Math assignment", "Writing assignment"]


def test_a_heading_of_weekly_work() -> None:
    undated = read_outline(document(heading("Weekly presentations"), "Almost every week you will present.")).undated
    assert [work.title for work in undated] == ["Weekly presentations"]


def test_rows_that_name_work_where_their_date_should_stand() -> None:
    undated = read_outline(
        document(
            [
                ["Weekday", "Date", "Topic"],
                ["M", "9/14", "Vectors"],
                ["W", "9/16", "Forces"],
                ["Lab", "", "Measurement"],
                ["M", "9/21", "Energy"],
                ["Lab", "", "Pendulum"],
            ]
        )
    ).undated
    assert [work.title for work in undated] == ["Labs"]


@pytest.mark.parametrize(
    ("sentence", "title"),
    [
        ("The herbarium log is due in late October.", "Herbarium log"),
        ("The reading journals are collected in early October.", "Reading journals"),
    ],
)
def test_work_that_is_due_in_a_month_is_listed_without_a_date(sentence: str, title: str) -> None:
    outline = document(sentence)
    assert titles(outline) == []
    assert [work.title for work in read_outline(outline).undated] == [title]


def test_a_policy_about_a_month_lists_no_work() -> None:
    assert read_outline(document("Late essays are not accepted if they are handed in in December.")).undated == ()


@pytest.mark.parametrize(
    ("sentence", "title"),
    [
        ("Each member must submit a completed group evaluation after each phase.", "Group evaluation"),
        ("A reflection essay is to be handed in after every visit.", "Reflection essay"),
    ],
)
def test_work_that_follows_each_stage_has_a_rule_and_no_day(sentence: str, title: str) -> None:
    (work,) = read_outline(document(sentence, "Essay 1 is due May 4.")).undated
    assert (work.title, work.reason.startswith(EACH)) == (title, True)


def test_a_stage_headed_with_a_number_is_work_without_a_date() -> None:
    outline = document(
        heading("Phase 1: Literature review"), "Due May 4.", heading("Phase 2: Final oral presentation"), "Wear shoes."
    )
    assert "Final oral presentation" in [work.title for work in read_outline(outline).undated]
