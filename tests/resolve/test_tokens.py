"""Tokens: places are kept, weekday letters and small words are told apart, bullets are no ranges."""

from __future__ import annotations

import pytest

from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.grammar import Grammar
from syllabus_io.resolve.language import RULES
from syllabus_io.resolve.tokens import Token

_LEXICON = Grammar(RULES).lexicon


def tokens_of(text: str) -> list[Token]:
    return _LEXICON.tokens(text)


def test_places_are_places_in_the_text() -> None:
    text = "Tues., Oct 7ᵗʰ – 11:59 p.m."
    assert [text[token.start : token.end] for token in tokens_of(text)] == [
        "Tues.",
        ",",
        "Oct",
        "7ᵗʰ",
        "–",
        "11:59",
        "p.m.",
    ]


@pytest.mark.parametrize(
    ("letters", "days"),
    [
        ("MWF", "MO WE FR"),
        ("TTh", "TU TH"),
        ("TuTh", "TU TH"),
        ("TR", "TU TH"),
        ("MTWRF", "MO TU WE TH FR"),
        ("MW", "MO WE"),
    ],
)
def test_runs_of_letters_are_weekdays(letters: str, days: str) -> None:
    (token,) = tokens_of(letters)
    assert token.value("<pattern>") == tuple(Weekday[day] for day in days.split())


@pytest.mark.parametrize("text", ["mwf", "FM", "MM", "FWM", "TM"])
def test_other_runs_of_letters_are_none(text: str) -> None:
    (token,) = tokens_of(text)
    assert token.value("<pattern>") is None


@pytest.mark.parametrize("text", ["You may go", "We sat down on it", "March on, as you may"])
def test_small_words_in_a_text_with_capitals_name_no_month_or_weekday(text: str) -> None:
    small = [token for token in tokens_of(text) if token.start > 0]
    assert all(token.value("<month>", "<weekday>") is None for token in small)


def test_small_words_name_a_month_where_nothing_has_capitals() -> None:
    assert tokens_of("may 5")[0].value("<month>") == 5


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("Quizzes:\n- Oct 3\n- Oct 5", ["•", "•"]),
        ("Sept 29\n– Oct 3", ["-"]),
        ("Sept 29 –\nOct 3", ["-"]),
    ],
)
def test_dashes_that_open_lines_are_bullets_when_there_are_several(text: str, signs: list[str]) -> None:
    assert [token.word for token in tokens_of(text) if token.word in ("-", "•")] == signs


def test_an_empty_line_is_a_token_that_no_rule_has() -> None:
    assert [token.sort.keys for token in tokens_of("Oct\n\n5")][1] == ()


def test_years_and_hours_are_classes_of_numbers() -> None:
    year, hour, large = tokens_of("2025 23 123456")
    assert year.value("<year>") == 2025
    assert hour.value("<hh>") == 23
    assert large.sort.keys == ()
