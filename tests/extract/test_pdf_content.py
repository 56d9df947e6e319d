"""Plain content streams give what the library's own parser (pdfminer) gives; all others are left to it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pdfminer.pdfinterp import PDFContentParser
from pdfminer.pdftypes import PDFStream
from pdfminer.psparser import PSEOF

from syllabus_io.extract.pdf_content import read_objects


def library_objects(content: bytes) -> list[Any]:
    """What pdfminer's parser reads from a content stream."""
    parser = PDFContentParser([PDFStream({}, content)])
    found: list[Any] = []
    while True:
        try:
            found.append(parser.nextobject()[1])
        except PSEOF:
            return found


PLAIN = (
    b"BT /F1 12 Tf 72 720 Td (Quiz 2) Tj ET",
    b"[(He) -20 (llo) 3.5 <414243>] TJ T* (next) ' 1 0 0 1 5. -.5 cm",
    rb"(a \(b\) \101\12 \\ \q tail) Tj",
    b"(broken \\\nline \\\r\nagain) Tj",
    b"/P <</MCID 3 /A [1 2 <</B true>>] /C (x)>> BDC EMC",
    b"1 0 0 RG 0.5 w 5-3 m 1.2.3 l S q Q",
    b"\x00 0 g\r\n+7 -7 re f*",
    b"/ (unnamed) Tj /\xe4\xf6 gs <41 42\n43> Tj",
    b"",
    b"  \n",
)
NOT_PLAIN = (
    b"q % a remark\nQ",
    b"BI /W 1 /H 1 ID x EI Q",
    b"(nested (signs)) Tj",
    b"/F#31 12 Tf",
    b"<414> Tj",
    b"[1 2 Tj",
    b"1 2] TJ",
    b"<</A 1 /B>> BDC",
    b"[(a) Tj]",
    rb"(\777) Tj",
    b"- 5 m",
    b"12345678901234567890 w",
    b"{1 2}",
    b"(open",
    b"\xff\xfe",
)


@pytest.mark.parametrize("content", PLAIN)
def test_a_plain_stream_gives_what_the_library_gives(content: bytes) -> None:
    assert read_objects(content) == library_objects(content)


@pytest.mark.parametrize("content", NOT_PLAIN)
def test_what_is_not_plain_is_left_to_the_library(content: bytes) -> None:
    assert read_objects(content) is None


_PIECES = [piece for content in (*PLAIN, *NOT_PLAIN) for piece in content.split(b" ")]


@given(st.lists(st.one_of(st.sampled_from(_PIECES), st.binary(max_size=4)), max_size=12), st.sampled_from([b" ", b""]))
@settings(max_examples=400, deadline=None)
def test_any_stream_is_read_alike_or_left_to_the_library(pieces: list[bytes], between: bytes) -> None:
    content = between.join(pieces)
    found = read_objects(content)
    if found is not None:
        assert found == library_objects(content)


def test_long_streams_are_read_alike_over_the_edges_of_the_librarys_buffer() -> None:
    content = b" ".join(b"%d %d.5 Td (word number %d) Tj" % (n, n, n) for n in range(2000))
    assert read_objects(content) == library_objects(content)
