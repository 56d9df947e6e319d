"""What changed inputs once broke, reduced to the least that breaks it."""

from __future__ import annotations

from pathlib import Path

import pytest

from syllabus_io.extract.reader import read_document
from syllabus_io.resolve.running_text import find_phrases
from tests.isolation.crafted_pdf import page_with

LETTERS_OF_NO_SIZE = (
    b"BT /F1 12 Tf 72 700 Td (Soil Science 101) Tj ET "
    b"BT /F1 0 Tf 72 686 Td (Essay due) Tj ET "
    b"BT /F1 12 Tf 72 660 Td (October 6) Tj ET"
)


@pytest.mark.parametrize("content", [LETTERS_OF_NO_SIZE], ids=["letters of no size"])
def test_a_page_that_broke_the_reader_is_read(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "outline.pdf"
    path.write_bytes(page_with(content))
    lines = [line.text for line in read_document(path).lines()]
    assert "Soil Science 101" in lines and "October 6" in lines


@pytest.mark.parametrize("text", ["week 5 octobre 2026", "the Friday of week 5 octobre"])
def test_a_number_belongs_to_one_phrase(text: str) -> None:
    phrases = find_phrases(text)
    assert len(phrases) == 1 and "5 octobre" in phrases[0].text, [phrase.text for phrase in phrases]


def test_letters_that_grow_when_they_become_small_shift_no_place() -> None:
    (phrase,) = find_phrases("İ" * 50 + " le 6 octobre 2026")
    assert phrase.text == "6 octobre 2026"
