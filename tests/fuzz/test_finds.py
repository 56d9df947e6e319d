"""What changed inputs once broke, reduced to the least that breaks it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.document import Document
from syllabus_io.extract.reader import read_document
from syllabus_io.extract.word import read_word
from syllabus_io.resolve.running_text import find_phrases
from tests.extract.word_files import paragraph, write_word
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


def with_version_in_directory(content: bytes, version: int) -> bytes:
    """The archive with another version "needed to extract" in its directory (APPNOTE of the zip format, 4.3.12)."""
    at = content.index(b"PK\x01\x02")
    return content[: at + 6] + version.to_bytes(2, "little") + content[at + 8 :]


@pytest.mark.parametrize("reader", [read_document, read_word])
def test_an_archive_of_an_unknown_version_is_refused(reader: Callable[[Path], Document], tmp_path: Path) -> None:
    path = write_word(tmp_path / "outline.docx", paragraph("Soil Science 101"))
    path.write_bytes(with_version_in_directory(path.read_bytes(), 204))
    with pytest.raises(UnreadableDocument, match="damaged or cut short"):
        reader(path)


@pytest.mark.parametrize("text", ["week 5 octobre 2026", "the Friday of week 5 octobre"])
def test_a_number_belongs_to_one_phrase(text: str) -> None:
    phrases = find_phrases(text)
    assert len(phrases) == 1 and "5 octobre" in phrases[0].text, [phrase.text for phrase in phrases]


def test_letters_that_grow_when_they_become_small_shift_no_place() -> None:
    (phrase,) = find_phrases("İ" * 50 + " le 6 octobre 2026")
    assert phrase.text == "6 octobre 2026"
