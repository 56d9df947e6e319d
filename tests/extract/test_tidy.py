"""Text made plain, held against the Unicode normalisation forms (UAX 15, by way of unicodedata)."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from syllabus_io.extract.tidy import join_wrapped, split_marker, tidy_text


@given(st.text())
def test_tidy_text_is_composed_single_spaced_and_stable(text: str) -> None:
    tidy = tidy_text(text)
    assert unicodedata.is_normalized("NFC", tidy)
    assert tidy == tidy.strip() and "  " not in tidy and "\u00a0" not in tidy and "\u00ad" not in tidy
    assert tidy_text(tidy) == tidy


@pytest.mark.parametrize(
    ("text", "tidy"),
    [("o\ufb03ce", "office"), ("\U0001d44e \u2264 3", "a ≤ 3"), ("10\u202f%", "10 %"), ("re\u00adport", "report")],
)
def test_ligatures_odd_letters_and_blanks(text: str, tidy: str) -> None:
    assert tidy_text(text) == tidy


@pytest.mark.parametrize(
    ("first", "second", "whole"),
    [
        ("the home-", "work is due", "the homework is due"),
        ("Sept. 3-", "5", "Sept. 3-5"),
        ("the Anglo-", "Saxon map", "the Anglo-Saxon map"),
        ("in pages 4–", "9", "in pages 4–9"),
        ("two", "words", "two words"),
        ("see https://fernhill.example", "/maps", "see https://fernhill.example/maps"),
        ("either/", "or", "either/or"),
        ("a dash -", "then text", "a dash - then text"),
    ],
)
def test_wrapped_lines(first: str, second: str, whole: str) -> None:
    joined, start = join_wrapped(first, second)
    assert joined == whole
    assert joined[start:] == second


def test_a_hyphen_the_document_uses_elsewhere_stays() -> None:
    assert join_wrapped("a half-", "day walk", {"half-day"})[0] == "a half-day walk"
    assert join_wrapped("a half-", "day walk", {"half-day", "halfday"})[0] == "a halfday walk"


@pytest.mark.parametrize(
    ("text", "marker"),
    [
        ("• Map 1", "•"),
        ("3. Map 1", "3."),
        ("(a) Map 1", "(a)"),
        ("iv) Map 1", "iv)"),
        ("– Map 1", "–"),
        ("12 May", ""),
        ("A. Brook teaches", ""),
        ("Oct. 3 map", ""),
        ("3.", ""),
        ("3.5 points", ""),
    ],
)
def test_markers(text: str, marker: str) -> None:
    assert split_marker(text)[0] == marker
