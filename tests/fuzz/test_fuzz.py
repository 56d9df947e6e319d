"""A short run of changed inputs, and every one that once did harm. The long run is ``python -m tests.fuzz.run``."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.targets import TARGETS, read_file, read_phrase, read_term

FINDS: tuple[tuple[str, int], ...] = (("pdf", 0), ("word", 0), ("phrase", 0), ("term", 0))
"""Kind and number of inputs to be run every time; the first four show that the four kinds work."""

_WORDS = st.sampled_from(
    [
        "Oct",
        "6",
        "10/12",
        "week",
        "5",
        "Friday",
        "of",
        "the",
        "last",
        "every",
        "-",
        "–",
        "/",
        "2026",
        "noon",
        "(",
        "31st",
    ]
)


@pytest.mark.parametrize(("kind", "number"), FINDS)
def test_a_find_stays_mended(kind: str, number: int, tmp_path: Path) -> None:
    TARGETS[kind](Random(f"{kind} {number}"), tmp_path)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.one_of(st.text(max_size=80), st.lists(_WORDS, max_size=12).map(" ".join)))
def test_any_text_is_read_or_declined(text: str) -> None:
    read_phrase(text)


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.one_of(st.binary(max_size=200), st.text(max_size=200).map(lambda text: f"[term]\n{text}".encode())))
def test_any_term_file_is_read_or_refused(tmp_path: Path, content: bytes) -> None:
    read_term(content, tmp_path)


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from([b"%PDF-1.7\n", b"PK\x03\x04", b""]), st.binary(max_size=300), st.sampled_from([".pdf", ".docx"])
)
def test_any_bytes_are_refused_in_one_line(tmp_path: Path, head: bytes, content: bytes, ending: str) -> None:
    read_file(head + content, ending, tmp_path)


@pytest.mark.parametrize("kind", ["pdf", "word", "phrase", "term"])
def test_changed_samples_are_survived(kind: str, tmp_path: Path) -> None:
    for number in range(1, 5):
        TARGETS[kind](Random(f"{kind} {number}"), tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["pdf", "word", "phrase", "term"])
def test_many_changed_samples_are_survived(kind: str, tmp_path: Path) -> None:
    for number in range(1_000, 1_060):
        TARGETS[kind](Random(f"{kind} {number}"), tmp_path)
