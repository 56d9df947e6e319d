"""What counts as work among the topics of a schedule."""

from __future__ import annotations

import pytest

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.verdicts import chosen_head, verdict_of
from syllabus_io.outline.work_words import find_heads
from syllabus_io.provenance import Place


@pytest.mark.parametrize(
    ("text", "is_work"),
    [
        ("Personal statement draft", True),
        ("Rough draft", True),
        ("Full draft of the petition", True),
        ("Peer review draft", False),
        ("Share your draft", False),
        ("From outline to draft", False),
        ("Writing a draft", False),
        ("Draft weather maps", False),
        ("Essay 2 final, with a short talk", True),
        ("Essay 2 in the light of what we read, and more", False),
    ],
)
def test_drafts_and_remarks_behind_numbered_work(text: str, is_work: bool) -> None:
    passage = Passage(text, Place("outline.pdf"), role=ColumnRole.TOPIC)
    head = chosen_head(text, list(find_heads(text)), ColumnRole.TOPIC)
    assert (verdict_of(text, head, passage, False, False) is not None) is is_work
