"""Other languages: which texts are tried, where phrases stand, and that English is left alone."""

from __future__ import annotations

import subprocess
import sys

import pytest

from syllabus_io.resolve.foreign import RULE_NAME, foreign_stretches, has_foreign_word
from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.running_text import find_phrases
from tests.dates.phrase_lists import written


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("La tarea vence el viernes 3 de octubre a las 17:00.", ["month_day(10, 3, FR) @ 17:00"]),
        ("Le partiel aura lieu le 3 novembre à 14h30.", ["month_day(11, 3) @ 14:30"]),
        ("Abgabe bis Montag, 13. Oktober 2025; Klausur am 5. Dezember.", ["day(2025-10-13, MO)", "month_day(12, 5)"]),
        ("O trabalho é para 12 de outubro de 2025, sem falta.", ["day(2025-10-12)"]),
        ("La prova scritta è il 15 gennaio 2026 in aula.", ["day(2026-01-15)"]),
    ],
)
def test_phrases_are_found_in_running_text(text: str, expected: list[str]) -> None:
    found = find_phrases(text)
    assert [written(phrase) for phrase in found] == expected
    for phrase in found:
        assert text[phrase.start : phrase.end] == phrase.text
        assert phrase.rules[0] == RULE_NAME


@pytest.mark.parametrize(
    "text", ["The 4 Mars rovers", "Add 2 mayo jars", "Domingo sang 3 arias", "Read chapter 3 by Marzo"]
)
def test_words_that_english_has_too_show_no_other_language(text: str) -> None:
    assert foreign_stretches(text) == ()
    assert find_phrases(text) == ()


def test_a_phrase_of_two_languages_is_declined() -> None:
    assert parse_phrase("lundi 12 octubre") is None


def test_foreign_words_are_known_in_lower_case() -> None:
    assert has_foreign_word(["octubre"])
    assert not has_foreign_word(["october", "class"])


def test_english_phrases_do_not_load_the_library() -> None:
    code = (
        "import sys; from syllabus_io.resolve.parse import parse_phrase; "
        "from syllabus_io.resolve.running_text import find_phrases; "
        "parse_phrase('Oct 5'); parse_phrase('no date'); find_phrases('Due Oct 5 and never again'); "
        "sys.exit('dateparser' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
