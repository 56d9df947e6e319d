"""Overlong words and lines: shortened, said, and never in the way of what stands behind them."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from syllabus_io.extract.bounds import LONGEST_LINE, LONGEST_WORD, bounded
from syllabus_io.extract.document import Document, Line, Part
from syllabus_io.extract.reader import read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.provenance import Place
from tests.extract.word_files import paragraph, write_word

PLACE = Place("soil.pdf", 1, 1)


def document_of(*lines: Line) -> Document:
    return Document("soil.pdf", "00", 2, lines)


def test_an_ordinary_document_is_left_alone() -> None:
    document = document_of(Line("Essay due October 6", PLACE), Line("word " * 1_000, PLACE))
    assert bounded(document) is document


def test_a_long_word_is_shortened_and_said() -> None:
    document = bounded(document_of(Line(f"Essay {'x' * 5_000} due October 6", PLACE)))
    (line,) = document.lines()
    assert line.text == f"Essay {'x' * 100}… due October 6"
    assert [note.text for note in document.notes] == ["a word of 5000 characters was shortened"]


def test_a_long_line_is_cut_and_said() -> None:
    document = bounded(document_of(Line("week 1 " * 5_000, PLACE)))
    (line,) = document.lines()
    assert len(line.text) == LONGEST_LINE
    assert [note.text for note in document.notes] == [
        f"of a line of 35000 characters the first {LONGEST_LINE} were read"
    ]


def test_places_behind_a_long_word_stay_right() -> None:
    second = Place("soil.pdf", 2, 1)
    text = f"Essay {'x' * (LONGEST_WORD + 1)} due October 6"
    parts = (Part(0, PLACE), Part(text.index("due"), second))
    (line,) = bounded(document_of(Line(text, PLACE, parts=parts))).lines()
    at = line.text.index("October")
    assert line.place_of(at, at + 7).page == 2
    at = line.text.index("Essay")
    assert line.place_of(at, at + 5).page == 1


@pytest.mark.parametrize("filler", ["x", "x-", "1", "1/", "(", "a.", "0:", "é", "@a", "A1"])
def test_what_stands_behind_a_long_word_is_read_at_once(tmp_path: Path, filler: str) -> None:
    body = paragraph("Soil Science 101") + paragraph(f"Essay {filler * 30_000} is due October 6, 2026.")
    path = write_word(tmp_path / "soil.docx", body)
    began = time.process_time()
    outline = read_outline(read_document(path))
    assert time.process_time() - began < 8, "reading must not grow with the square of a word's length"
    assert any("was shortened" in note for note in outline.notes)
