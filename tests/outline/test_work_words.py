"""Words around a piece of work that tell whether it is one, and when."""

from __future__ import annotations

import pytest

from syllabus_io.outline.work_words import is_negated


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
