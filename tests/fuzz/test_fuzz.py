"""A short run of changed inputs, and every one that once did harm. The long run is ``python -m tests.fuzz.run``."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.originals import pdf_originals, term_originals, word_originals
from tests.fuzz.run import main
from tests.fuzz.targets import KINDS, TARGETS, Outcome, check_file, check_phrase, check_term

FINDS: tuple[tuple[str, int], ...] = (("pdf", 0), ("word", 0), ("term", 0), ("phrase", 0))
"""Kind and number of inputs that did harm once, after the first of each kind."""

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
_QUIETLY = settings(
    max_examples=40, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def run(kind: str, number: int, folder: Path) -> Outcome:
    """Runs one input in a folder of its own."""
    own = folder / "input"
    own.mkdir(exist_ok=True)
    return TARGETS[kind].run(kind, number, own)


@pytest.mark.parametrize(("kind", "number"), FINDS)
def test_a_find_stays_mended(kind: str, number: int, tmp_path: Path) -> None:
    assert run(kind, number, tmp_path) in (Outcome.READ, Outcome.REFUSED)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.one_of(st.text(max_size=80), st.lists(_WORDS, max_size=12).map(" ".join)))
def test_any_text_is_read_or_declined(text: str) -> None:
    check_phrase(text)


@_QUIETLY
@given(st.one_of(st.binary(max_size=200), st.text(max_size=200).map(lambda text: f"[term]\n{text}".encode())))
def test_any_term_file_is_read_or_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "term.toml"
    path.write_bytes(content)
    check_term(path)


@_QUIETLY
@given(
    st.sampled_from([b"%PDF-1.7\n", b"PK\x03\x04", b""]), st.binary(max_size=300), st.sampled_from([".pdf", ".docx"])
)
def test_any_bytes_are_refused_in_one_line(tmp_path: Path, head: bytes, content: bytes, ending: str) -> None:
    path = tmp_path / f"outline{ending}"
    path.write_bytes(head + content)
    assert check_file(path) is Outcome.REFUSED


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "workbook"])
def test_changed_inputs_are_survived(kind: str, tmp_path: Path) -> None:
    outcomes = {run(kind, number, tmp_path) for number in range(24)}
    assert outcomes == {Outcome.READ, Outcome.REFUSED}, f"changes too slight or too gross to find anything: {outcomes}"


@pytest.mark.parametrize("number", range(3))
def test_changed_workbooks_are_survived(number: int, tmp_path: Path) -> None:
    run("workbook", number, tmp_path)


def test_the_originals_are_sound(tmp_path: Path) -> None:
    for ending, contents in (("pdf", pdf_originals()), ("docx", word_originals())):
        path = tmp_path / f"outline.{ending}"
        path.write_bytes(contents[0])
        assert check_file(path) is Outcome.READ
    path = tmp_path / "term.toml"
    for content in term_originals():
        path.write_bytes(content)
        assert check_term(path) is Outcome.READ


def test_the_long_run_tells_what_became_of_its_inputs(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--count", "term=20", "phrase=30", "--first", "40"]) == 0
    assert capsys.readouterr().out.endswith("50 inputs, 0 finds\n")


@pytest.mark.slow
def test_many_changed_inputs_are_survived(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--minutes", "4", "--first", "1000"]) == 0, capsys.readouterr().out
