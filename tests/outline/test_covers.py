"""What exams cover."""

from __future__ import annotations

from .documents import document
from .reading import work


def test_notes_of_the_row_and_sentences_elsewhere() -> None:
    found = work(
        document(
            [
                ["Date", "Topic", "Notes"],
                ["Oct 14", "Exam 1", "Exam covers modules 1-6"],
                ["Nov 18", "Exam 2", ""],
                ["Dec 16", "Final exam", ""],
            ],
            "Exam 2 will cover chapters 7 to 11.",
        )
    )
    assert {item.title: item.covers for item in found} == {
        "Exam 1": "Modules 1-6",
        "Exam 2": "Chapters 7 to 11",
        "Final exam": None,
    }
