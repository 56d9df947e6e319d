"""Which item is meant by words such as "the midterm"."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.anchors import find_items
from syllabus_io.resolve.expression import MonthDay
from tests.resolve.made_outlines import item, mention

DATE = mention(MonthDay(10, 6), "Oct 6")
ITEMS = [
    item(Kind.EXAM, "Midterm exam", DATE),
    item(Kind.EXAM, "Final exam", DATE),
    item(Kind.PROJECT, "Final project", DATE),
    item(Kind.PRESENTATION, "Group presentation", DATE),
    item(Kind.QUIZ, "Quiz 1", DATE, number=1),
    item(Kind.QUIZ, "Quiz 2", DATE, number=2),
]


@pytest.mark.parametrize(
    ("words", "titles"),
    [
        ("the midterm", ["Midterm exam"]),
        ("the mid-term", ["Midterm exam"]),
        ("the final", ["Final exam"]),
        ("the final exam", ["Final exam"]),
        ("the final project", ["Final project"]),
        ("your presentation", ["Group presentation"]),
        ("your talk", ["Group presentation"]),
        ("quiz 2", ["Quiz 2"]),
        ("the second quiz", ["Quiz 2"]),
        ("quiz 3", []),
        ("the field trip", []),
        ("the quiz", ["Quiz 1", "Quiz 2"]),
        ("", []),
    ],
)
def test_words_name_their_item(words: str, titles: list[str]) -> None:
    assert [found.title for found in find_items(words, ITEMS)] == titles
