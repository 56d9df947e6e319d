"""Documents as JSON and back, and as text for people."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from syllabus_io.extract.document import Cell, Document, Line, Note, Part, Table
from syllabus_io.extract.dump import document_from_json, document_to_json, show
from syllabus_io.extract.pdf import read_pdf
from syllabus_io.provenance import Box, Place
from tests.extract.pdf_files import Sheet


@pytest.fixture
def document(tmp_path: Path) -> Document:
    sheet = Sheet(tmp_path / "outline.pdf")
    sheet.text(72, 72, "Rivers and Maps", size=18)
    sheet.grid((72, 160, 300), [100, 116, 132], [["Date", "Due"], ["May 4", "Map 1"]])
    sheet.lines(72, 170, ["• Bring boots", "• Bring a pen"])
    return read_pdf(sheet.save())


def test_json_gives_the_same_document_back(document: Document) -> None:
    assert document_from_json(document_to_json(document)) == document


def test_nested_tables_and_every_field_survive() -> None:
    place = Place("a.docx", None, 3, 1, 2, Box(1, 2, 3, 4), (0, 4))
    line = Line("Due", place, "•", 2, 1, 9.5, 10.5, True, True, "D", 3.5, (Part(0, place),))
    inner = Table(place, 1, 1, (Cell("x", place, 1, 1),), False)
    outer = Table(place, 1, 2, (Cell("Due", place, 1, 1, 1, 2, (line,), (inner,), True),))
    document = Document("a.docx", "00", 0, (line, outer), (Note("unread", "a picture", place),))
    assert document_from_json(document_to_json(document)) == document


def test_json_of_another_kind_is_refused() -> None:
    with pytest.raises(ValueError, match="syllabus-io/document"):
        document_from_json(json.dumps({"format": "something"}))


def test_the_text_view_shows_lines_markers_and_cells(document: Document) -> None:
    shown = show(document)
    assert "# " in shown and "• Bring boots" in shown and "1: May 4 | 2: Map 1" in shown and "--- page 1" in shown
