"""What a category is called where a sentence tells of it."""

from __future__ import annotations

import pytest

from syllabus_io.outline.grading_names import category_name
from syllabus_io.outline.read import read_outline

from .documents import document
from .reading import titles


@pytest.mark.parametrize(
    ("told", "name"),
    [
        ("Assessed by one piece of coursework", "Coursework"),
        ("You write two field reports", "Field reports"),
        ("In-class test on Tuesday, May 4", "In-class test"),
        ("Final exam due by June 1, from 9 to 11 a", "Final exam"),
        ("First paper, 4–5 pages", "First paper"),
        ("Midterm, in class, closed book", "Midterm"),
        ("is due at the start of Session 6; Essay 2", "Essay 2"),
        ("Essays", "Essays"),
        ("Chapter 4 quizzes", "Chapter 4 quizzes"),
        ("May 4", "May 4"),
    ],
)
def test_a_category_is_named_without_its_sentence(told: str, name: str) -> None:
    assert category_name(told) == name


def test_the_exam_of_the_exam_period_is_no_class_test() -> None:
    outline = document(
        "The class test takes place on May 4.",
        "The examination is held in the examination period; its timetable is published later.",
    )
    assert titles(outline) == ["Class test"]
    assert [work.title for work in read_outline(outline).undated] == ["Final exam"]


def test_an_exam_in_the_assessment_period_has_no_date_yet() -> None:
    outline = document(
        "The written examination will be held in the assessment period; the timetable is published in May."
    )
    assert titles(outline) == []
    assert [work.title for work in read_outline(outline).undated] == ["Written examination"]
