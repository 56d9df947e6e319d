"""Words around a piece of work that tell whether it is one, and when."""

from __future__ import annotations

import pytest

from syllabus_io.outline.work_words import find_heads, is_negated


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No quiz this week", True),
        ("The final exam is scheduled by the registrar.", True),
        ("Final exam: date and time to be announced", True),
        ("Final exam on December 14, as scheduled by the registrar", False),
        ("Quiz 3 (to be held in Room 204)", False),
        ("Essay 2 is due", False),
    ],
)
def test_work_that_is_none_or_is_dated_elsewhere(text: str, expected: bool) -> None:
    assert is_negated(text) is expected


def test_a_number_before_a_colon_is_the_number_of_the_work_and_a_clock_time_is_not() -> None:
    assert [head.number for head in find_heads("Homework 3: Friday")] == ["3"]
    assert [head.number for head in find_heads("Quiz 9:30 in room 4")] == [""]
