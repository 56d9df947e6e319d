"""Outlines as JSON: every record comes back equal, and nothing but those records can come back."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from syllabus_io.extract.reader import read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Outline
from syllabus_io.record_json import outline_from_json, outline_to_json

SAMPLES = Path(__file__).parents[1] / "samples"


@pytest.mark.parametrize("name", ["algebra.docx", "biology.docx", "music.pdf"])
def test_an_outline_comes_back_equal(name: str) -> None:
    outline = read_outline(read_document(SAMPLES / name))
    text = outline_to_json(outline)
    assert "\n" not in text
    back = outline_from_json(text)
    assert back == outline
    assert repr(back) == repr(outline), "types of numbers and enumerations must come back too"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "null",
        "[]",
        '["Outline"]',
        '["date", "2026-10-06"]',
        '["os.system", "exit 0"]',
        '["Outline", {"a": 1}, "x", 1]',
        '["eval", "1"]',
        "[" * 100_000,
        '["ClockTime", 99]',
    ],
    ids=lambda text: text[:20],
)
def test_other_text_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"."):
        outline_from_json(text)


def test_what_is_no_record_of_an_outline_is_not_written() -> None:
    with pytest.raises(TypeError, match="no record of an outline: object"):
        outline_to_json(Outline("a.pdf", "00", 1, notes=(object(),)))  # type: ignore[arg-type]


def test_a_record_with_fields_too_many_is_refused() -> None:
    packed = json.loads(outline_to_json(Outline("a.pdf", "00", 1)))
    with pytest.raises(ValueError, match="the text holds no outline"):
        outline_from_json(json.dumps([*packed, "one more"]))
