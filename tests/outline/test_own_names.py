"""Work that goes by a name of its own, told from the grading scheme. Inputs are invented."""

from __future__ import annotations

import pytest

from syllabus_io.outline.own_names import own_names, says_own_name
from syllabus_io.outline.records import Category

from .documents import document
from .reading import dated_work

NAMES = own_names([Category("Sketchbook", 20), Category("Bridge inspections (3)", 30), Category("Participation", 10)])


@pytest.mark.parametrize(
    "text",
    ["Sketchbook check 2", "Sketchbook 1: trees", "Bridge inspection 3", "Bridge inspection", "First sketchbook due"],
)
def test_a_name_with_number_or_step_or_a_longer_name_alone_is_work(text: str) -> None:
    assert says_own_name(text, NAMES)


@pytest.mark.parametrize(
    "text",
    [
        "Sketchbook",
        "Sketchbooks of Turner",
        "Bridge inspection methods",
        "Participation",
        "Bridges",
        "Bring sketchbook 2",
    ],
)
def test_what_only_begins_like_a_name_is_not(text: str) -> None:
    assert not says_own_name(text, NAMES)


def test_common_words_for_work_and_for_presence_are_no_names_of_their_own() -> None:
    assert own_names([Category("Essays", 40), Category("Class discussion", 10), Category("Labs", 20)]) == frozenset()


def test_named_work_among_topics_is_dated_by_its_row() -> None:
    found = dated_work(
        document(
            "Grading: bridge inspections 60%, exam 40%",
            [
                ["Date", "Topic"],
                ["Sept 8", "Arches"],
                ["Sept 15", "Bridge inspection 1"],
                ["Sept 22", "Trusses; bridge inspection methods"],
                ["Sept 29", "Exam"],
            ],
        )
    )
    assert found == {
        "assignment: Bridge inspection 1": "month_day(9, 15)",
        "exam: Exam": "month_day(9, 29)",
    }


def test_what_is_due_where_it_is_listed_goes_by_its_short_name() -> None:
    found = dated_work(
        document(
            "WB pages are to be handed in at the beginning of class on the day they appear.",
            [
                ["T 1/13", "Chords", ""],
                ["R 1/15", "Sevenths", "WB 1-4"],
                ["T 1/20", "Sequences", ""],
                ["R 1/22", "Quiz 1", "WB 18, 20-21"],
            ],
        )
    )
    assert [title for title in found if "WB" in title] == ["assignment: WB 1-4", "assignment: WB 18, 20-21"]
