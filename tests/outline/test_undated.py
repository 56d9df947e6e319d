"""Graded work without a date."""

from __future__ import annotations

from syllabus_io.outline.read import read_outline

from .documents import document, heading


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
