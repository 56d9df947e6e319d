"""Every phrase of the lists gives its expression, whole and in one reading; what is no date gives nothing."""

from __future__ import annotations

import pytest

from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.running_text import find_phrases
from tests.dates.phrase_lists import FOLDER, Case, read_cases, read_lines, written

LISTS = sorted(path for path in FOLDER.glob("*.txt") if path.stem not in {"never", "found"})
CASES = [case for path in LISTS for case in read_cases(path)]
FOUND = read_cases(FOLDER / "found.txt")
NEVER = [(f"never:{number}", line) for number, line in read_lines(FOLDER / "never.txt")]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_phrase_gives_its_expression(case: Case) -> None:
    phrase = parse_phrase(case.text)
    if phrase is None:
        parts = [part.text for part in find_phrases(case.text, weak=True)]
        kind = f"only parts of it are read: {parts}" if parts else "nothing in it is read"
        pytest.fail(f"{case.text!r} is no phrase; {kind}")
    assert written(phrase) == case.expected, f"{case.text!r} is read by {' / '.join(phrase.rules)}"


@pytest.mark.parametrize("case", FOUND, ids=str)
def test_phrases_are_found_in_running_text(case: Case) -> None:
    found = " | ".join(f"{phrase.text} -> {written(phrase)}" for phrase in find_phrases(case.text))
    assert found.replace("\n", " ") == case.expected


@pytest.mark.parametrize(("place", "text"), NEVER, ids=[f"{place} {text}" for place, text in NEVER])
def test_what_is_no_date_gives_nothing(place: str, text: str) -> None:
    running = text.removeprefix("~ ")
    assert [phrase.text for phrase in find_phrases(running)] == []
    if running == text:
        assert parse_phrase(text) is None


def test_places_in_the_text_are_kept() -> None:
    text = "Due: “Tues., Oct 7” at 11:59 pm – or on the following Tuesday."
    for phrase in find_phrases(text):
        assert text[phrase.start : phrase.end] == phrase.text


def test_the_lists_are_long_enough() -> None:
    assert len(NEVER) >= 150, "the list of what is no date lost lines"
    assert len(CASES) >= 700, "the lists of phrases lost lines"
