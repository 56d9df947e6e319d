"""Readings that sentences date."""

from __future__ import annotations

import pytest

from .documents import document
from .reading import readings, titles


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "For Tuesday, May 4, read Lowe, pp. 3–20. For Thursday, May 6, read the preface of Aster.",
            {"Lowe, pp. 3–20": "month_day(5, 4, TU)", "Preface of Aster": "month_day(5, 6, TH)"},
        ),
        ("By May 6, please read chapter 2.", {"Chapter 2": "month_day(5, 6)"}),
        ("Please read chapters 3 and 4 by Monday, May 10.", {"Chapters 3 and 4": "month_day(5, 10, MO)"}),
        ("For the tutorial on 12 May, read the map of Tarn.", {"Map of Tarn": "month_day(5, 12)"}),
        ("We open the atlas on May 12; for that day read pp. 1–9.", {"Pp. 1–9": "month_day(5, 12)"}),
    ],
)
def test_a_sentence_dates_its_reading(text: str, expected: dict[str, str]) -> None:
    outline = document(text)
    assert readings(outline) == expected
    assert titles(outline) == []


@pytest.mark.parametrize(
    "text",
    [
        "The essays we read were printed on May 4, 1871.",
        "If you have not read the book by May 4, drop the course.",
        "Reading days are May 4 and 5.",
        "On May 4 we meet in the reading room.",
    ],
)
def test_other_sentences_about_reading_date_none(text: str) -> None:
    assert readings(document(text)) == {}
