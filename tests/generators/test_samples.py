"""The committed sample outlines are what their scripts write, and their answers agree with the calendar."""

from __future__ import annotations

import json
import re
import zipfile
from datetime import date
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from syllabus_io.term_file import read_term_file
from tests.generators.make_samples import SAMPLES

SAMPLES_FOLDER = Path(__file__).parents[2] / "samples"
ANSWERS = sorted((SAMPLES_FOLDER / "answers").glob("*.json"))
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def answer(path: Path) -> dict[str, Any]:
    """One file of answers."""
    content = json.loads(path.read_text(encoding="utf-8"))
    assert isinstance(content, dict)
    return content


def printed(path: Path) -> list[tuple[str, float, float]]:
    """Every character of a PDF with the place it is printed at, in points."""
    with pdfplumber.open(path) as document:
        return [
            (mark["text"], round(mark["x0"], 1), round(mark["top"], 1))
            for page in document.pages
            for mark in page.chars
        ]


@pytest.mark.parametrize("name", SAMPLES)
def test_the_committed_sample_is_what_its_script_writes(name: str, tmp_path: Path) -> None:
    # compared by what they say, not byte by byte: another release of a library may pack the same page otherwise
    SAMPLES[name](tmp_path / name)
    committed, made = SAMPLES_FOLDER / name, tmp_path / name
    advice = f"samples/{name} is not what its script writes: run python -m tests.generators.make_samples"
    if name.endswith(".pdf"):
        assert printed(committed) == printed(made), advice
        return
    with zipfile.ZipFile(committed) as old, zipfile.ZipFile(made) as new:
        assert old.read("word/document.xml") == new.read("word/document.xml"), advice


@pytest.mark.parametrize("name", SAMPLES)
def test_writing_a_sample_twice_gives_the_same_bytes(name: str, tmp_path: Path) -> None:
    first, second = tmp_path / f"1-{name}", tmp_path / f"2-{name}"
    SAMPLES[name](first)
    SAMPLES[name](second)
    assert first.read_bytes() == second.read_bytes()


def test_every_sample_has_its_answers() -> None:
    assert {answer(path)["file"] for path in ANSWERS} == set(SAMPLES)


@pytest.mark.parametrize("path", ANSWERS, ids=lambda path: path.stem)
def test_answers_lie_in_the_term_and_on_school_days(path: Path) -> None:
    term = read_term_file(SAMPLES_FOLDER / "term.toml")
    assert term.first_day and term.finals
    for item in answer(path)["items"]:
        day = date.fromisoformat(item["date"])
        assert term.first_day <= day <= term.finals[1], item
        assert day.weekday() < 5, item
        assert not any(off.first_day <= day <= off.last_day for off in term.no_class), item
        assert item["end_date"] is None or item["end_date"] > item["date"], item


@pytest.mark.parametrize("path", ANSWERS, ids=lambda path: path.stem)
def test_a_weekday_in_the_outlines_words_is_that_of_the_answer(path: Path) -> None:
    # source: the proleptic Gregorian calendar of Python's datetime
    checked = 0
    for item in answer(path)["items"]:
        words = re.findall(r"\b(Mon|Tue|Wed|Thu|Fri)(?:day|sday|nesday|rsday|s)?\b", item["as_written"])
        if words and not item.get("conflict") and item["end_date"] is None:
            checked += 1
            assert WEEKDAYS[date.fromisoformat(item["date"]).weekday()] == words[-1], item
    assert checked or path.stem == "music", f"no weekday was checked in {path.stem}"


@pytest.mark.parametrize("path", ANSWERS, ids=lambda path: path.stem)
def test_the_parts_of_the_grade_add_up(path: Path) -> None:
    grading = answer(path)["grading"]
    weights = [category["weight"] for category in grading["categories"] if category["weight"] is not None]
    points = [category["points"] for category in grading["categories"] if category.get("points") is not None]
    assert sum(weights) in (0, 100)
    assert sum(points) == grading.get("total_points", 0)
    assert bool(weights) != bool(points)


def test_one_contradiction_is_there_to_be_marked() -> None:
    marked = [(path.stem, item) for path in ANSWERS for item in answer(path)["items"] if item.get("check")]
    assert [(name, item["title"]) for name, item in marked] == [("history", "Essay 1")]
    # October 6, 2026 is a Tuesday, by Python's calendar; the outline says Monday
    assert date(2026, 10, 6).strftime("%a") == "Tue"
