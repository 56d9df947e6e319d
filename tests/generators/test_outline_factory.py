"""Outlines from random plans: the same seed gives the same files, and every answer stands in its outline."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from syllabus_io.extract.reader import read_document
from tests.generators.outline_factory import FAMILIES, main, write_outline


def test_there_are_at_least_fourteen_families() -> None:
    assert len(FAMILIES) >= 14


def test_the_same_seed_gives_the_same_files(tmp_path: Path) -> None:
    for folder in ("first", "second"):
        main(["--count", "4", "--out", str(tmp_path / folder), "--seed", "7"])
    first = {path.name: path.read_bytes() for path in (tmp_path / "first").iterdir()}
    second = {path.name: path.read_bytes() for path in (tmp_path / "second").iterdir()}
    assert first == second
    assert len(first) == 8


@pytest.mark.parametrize("form", ["pdf", "docx"])
@pytest.mark.parametrize("family", FAMILIES)
def test_every_answer_stands_in_its_outline(family: str, form: str, tmp_path: Path) -> None:
    path = write_outline(tmp_path, family, form, 3)
    truth = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    words = " ".join(" ".join(line.text.split()) for line in read_document(path).lines())
    off = [(day["first_day"], day["last_day"]) for day in truth["no_class"] + truth["term"]["no_class"]]
    assert truth["items"]
    for item in truth["items"]:
        name, _, number = item["title"].rpartition(" ")
        # a column a kind of work writes the name above and the number beside
        shown = name if family == "columns-by-kind" and number.isdigit() else item["title"]
        assert shown.casefold() in words.casefold(), f"{item['title']} is not in {path.name}"
        assert date.fromisoformat(item["date"]).weekday() < 5
        assert not any(first <= item["date"] <= last for first, last in off)
    assert sum(part["weight"] for part in truth["grading"]["categories"]) == 100
