"""Crafted pages: read up to a limit, with a note, in bounded time."""

from __future__ import annotations

from pathlib import Path

import pytest

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract import pdf_interpret
from syllabus_io.extract.pdf import read_pdf
from tests.extract.pdf_files import Sheet, notes, texts


def raw_pdf(path: Path, objects: list[bytes]) -> Path:
    """A PDF made of numbered objects; the first is its catalogue (ISO 32000-1, 7.5)."""
    body, places = b"%PDF-1.4\n", []
    for number, content in enumerate(objects, 1):
        places.append(len(body))
        body += b"%d 0 obj\n" % number + content + b"\nendobj\n"
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    start = len(body)
    size = len(objects) + 1
    body += b"xref\n0 %d\n0000000000 65535 f \n" % size + table
    body += b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (size, start)
    path.write_bytes(body)
    return path


def stream(content: bytes, entries: bytes = b"") -> bytes:
    return b"<< /Length %d %s >>\nstream\n" % (len(content), entries) + content + b"\nendstream"


FONT = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"


def page_of(content: bytes, resources: bytes, *further: bytes) -> list[bytes]:
    """The objects of a one-page file: catalogue, pages, page, content, font, then the further ones from number 6 on."""
    page = b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << %s >> >>" % resources
    pages = b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>"
    return [b"<< /Type /Catalog /Pages 2 0 R >>", pages, page, stream(content), FONT, *further]


def test_forms_that_call_the_next_one_twice_end(tmp_path: Path) -> None:
    depth = 24
    forms = []
    for number in range(depth):
        following = number + 7
        calls = b"/Next Do /Next Do" if number < depth - 1 else b""
        entries = b"/Type /XObject /Subtype /Form /BBox [0 0 612 792] /Resources << /XObject << /Next %d 0 R >> >>"
        forms.append(stream(calls, entries % following))
    content = b"BT /F 12 Tf 72 700 Td (Rivers and Maps) Tj ET /First Do"
    path = raw_pdf(
        tmp_path / "a.pdf",
        page_of(content, b"/Font << /F 5 0 R >> /XObject << /First 6 0 R >>", *forms),
    )
    document = read_pdf(path)
    assert texts(document) == ["Rivers and Maps"]
    assert notes(document, "unread") == ["page 1 holds too much to be read whole"]


def test_a_form_that_calls_itself_ends(tmp_path: Path) -> None:
    entries = b"/Type /XObject /Subtype /Form /BBox [0 0 612 792] /Resources << /XObject << /Self 6 0 R >> >>"
    content = b"BT /F 12 Tf 72 700 Td (Rivers and Maps) Tj ET /Self Do"
    path = raw_pdf(
        tmp_path / "a.pdf",
        page_of(content, b"/Font << /F 5 0 R >> /XObject << /Self 6 0 R >>", stream(b"/Self Do", entries)),
    )
    try:
        assert texts(read_pdf(path)) == ["Rivers and Maps"]
    except UnreadableDocument as fault:
        assert "damaged" in fault.fault


def test_letters_beyond_the_limit_are_left_out_with_a_note(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf_interpret, "MOST_LETTERS", 100)
    sheet = Sheet(tmp_path / "a.pdf")
    sheet.lines(72, 72, ["x" * 60] * 5)
    document = read_pdf(sheet.save())
    assert sum(text.count("x") for text in texts(document)) == 100
    assert notes(document, "unread") == ["page 1 holds too much to be read whole"]


def test_paths_beyond_the_limit_do_not_keep_the_text_from_being_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pdf_interpret, "MOST_PATHS", 50)
    sheet = Sheet(tmp_path / "a.pdf")
    sheet.text(72, 72, "Rivers and Maps")
    for number in range(100):
        sheet.across(100 + number, 72, 300)
    document = read_pdf(sheet.save())
    assert texts(document) == ["Rivers and Maps"] and notes(document, "unread")
