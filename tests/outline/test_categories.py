"""Work is put into the grading category that its words name, and into none where two fit."""

from __future__ import annotations

import pytest

from syllabus_io.outline.categories import find_category
from syllabus_io.outline.records import Category, Kind

SCHEME = tuple(
    Category(name)
    for name in (
        "Unit tests (4)",
        "Reading quizzes",
        "Midterm 1",
        "Midterm 2",
        "Lab reports",
        "Essay 2",
        "Homework",
        "Bridge project",
        "Final examination",
    )
)


@pytest.mark.parametrize(
    ("title", "kind", "name"),
    [
        ("Unit 3 test", Kind.EXAM, "Unit tests (4)"),
        ("Reading quiz 4", Kind.QUIZ, "Reading quizzes"),
        ("Midterm 2", Kind.EXAM, "Midterm 2"),
        ("Lab report 10", Kind.ASSIGNMENT, "Lab reports"),
        ("Essay 2", Kind.ASSIGNMENT, "Essay 2"),
        ("Essay 2 outline", Kind.ASSIGNMENT, None),
        ("Essay 3", Kind.ASSIGNMENT, None),
        ("Homework 5", Kind.ASSIGNMENT, "Homework"),
        ("Map quiz", Kind.QUIZ, "Reading quizzes"),
        ("Bridge project: model and report", Kind.PROJECT, "Bridge project"),
        ("Bridge project: topic and partner", Kind.PROJECT, None),
        ("Final exam", Kind.EXAM, "Final examination"),
    ],
)
def test_the_category_of_a_title(title: str, kind: Kind, name: str | None) -> None:
    found = find_category(title, kind, SCHEME)
    assert (found.name if found else None) == name


def test_two_categories_that_fit_equally_leave_the_choice_open() -> None:
    scheme = (Category("Field essays"), Category("Archive essays"))
    assert find_category("Essay 1", Kind.ASSIGNMENT, scheme) is None


def test_the_name_of_one_work_is_no_category_of_others_of_its_kind() -> None:
    one = (Category("Portfolio", weight=10), Category("Final exam", weight=40))
    assert find_category("Peer reply", Kind.ASSIGNMENT, one) is None
    assert find_category("Portfolio", Kind.ASSIGNMENT, one) == one[0]
    many = (Category("Essays", weight=30),)
    assert find_category("Peer reply", Kind.ASSIGNMENT, many) == many[0]
