"""Room for text: widths against a published table of metrics, and row heights that grow with the text."""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from syllabus_io.workbook.text_fit import count_lines, row_height, text_width


@pytest.mark.parametrize("character", sorted(set(string.printable) - set(string.whitespace) | {" "}))
def test_widths_are_those_of_the_published_metrics(character: str) -> None:
    """Adobe's font metrics of Helvetica, as another library holds them."""
    assert text_width(character) * 556 == pytest.approx(stringWidth(character, "Helvetica", 1000), abs=30)


def test_bold_text_is_given_enough_room() -> None:
    text = "Lab report 3: what lives between the tide marks"
    assert text_width(text, bold=True) * 556 >= stringWidth(text, "Helvetica-Bold", 1000) * 0.99


def test_text_wraps_between_words_and_long_words_break() -> None:
    assert count_lines("two words", 20) == 1
    assert count_lines("two words", 7) == 2
    assert count_lines("one\n\nthree", 20) == 3
    assert count_lines("x" * 100, 10) >= 9


@given(st.text(max_size=200), st.floats(5, 60))
def test_more_room_never_needs_more_lines(text: str, width: float) -> None:
    assert count_lines(text, width) >= count_lines(text, width + 10) >= 1


def test_a_row_is_never_higher_than_the_format_allows() -> None:
    assert row_height([("a\n" * 500, 10)]) == 409.0
    assert row_height([("short", 20)]) < row_height([("short\nshort", 20)])
