"""Dates that became nothing, with why."""

from __future__ import annotations

import pytest

from syllabus_io.extract.document import Document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.set_aside import (
    ASKS,
    GIVEN_OUT,
    HANDED_OUT_COLUMN,
    NO_WORK,
    PASSED_OVER,
    read_set_aside,
)

from .documents import document


def left_out(outline: Document) -> dict[str, str]:
    """The words of each date left out, with its reason."""
    return {one.words: one.doubts[0] for one in read_set_aside(outline, read_outline(outline))}


@pytest.mark.parametrize(
    ("sentence", "words", "reason"),
    [
        ("The mill opened on May 4, 2019.", "May 4, 2019", NO_WORK),
        ("Essay 2 is handed out on October 12.", "October 12", GIVEN_OUT),
        ("We hold the exam review on October 12.", "October 12", PASSED_OVER),
        ("Students who need help should see me by October 12.", "October 12", ASKS),
    ],
)
def test_each_date_left_out_says_why(sentence: str, words: str, reason: str) -> None:
    assert left_out(document(sentence)) == {words: reason}


def test_a_sentence_about_rules_names_the_words_that_made_it_one() -> None:
    (reason,) = left_out(document("Late essays are accepted until October 12.")).values()
    assert "“Late”" in reason


def test_dates_that_became_work_rows_or_days_off_are_not_among_them() -> None:
    outline = document(
        "The essay is due October 12. There is no class on October 19.",
        [["Date", "Topic", "Due"], ["Oct 5", "Rivers", "Quiz 1"], ["Oct 7", "Lakes", ""], ["Oct 9", "Seas", "Map"]],
    )
    assert left_out(outline) == {}


def test_a_column_of_work_handed_out() -> None:
    outline = document(
        [
            ["Week", "Date", "Assigned", "Due"],
            ["1", "Oct 5", "Homework 1 (from Oct 6 on)", ""],
            ["2", "Oct 12", "Homework 2", "Homework 1"],
            ["3", "Oct 19", "Homework 3", "Homework 2"],
        ]
    )
    assert set(left_out(outline).values()) == {HANDED_OUT_COLUMN}
