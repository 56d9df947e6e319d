"""The sample outlines, read item for item against answers worked out by hand (samples/answers)."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from rapidfuzz.fuzz import token_set_ratio
from rapidfuzz.utils import default_process

from syllabus_io.export.json_out import outline_to_json
from syllabus_io.pipeline import read_outline_file, resolve_outlines
from syllabus_io.term_file import read_term_file

SAMPLES = Path(__file__).parents[1] / "samples"
ANSWERS = sorted((SAMPLES / "answers").glob("*.json"))
NAMES = [path.stem for path in ANSWERS]
LIKE_ENOUGH = 80  # of 100, rapidfuzz token_set_ratio: the words of the shorter title stand in the longer


@cache
def answer(name: str) -> dict[str, Any]:
    content = json.loads((SAMPLES / "answers" / f"{name}.json").read_text(encoding="utf-8"))
    assert isinstance(content, dict)
    return content


@cache
def read(name: str) -> dict[str, Any]:
    """What the program gives for a sample, through the same records that `extract --json` writes."""
    outline = read_outline_file(SAMPLES / answer(name)["file"])
    (course,) = resolve_outlines([outline], read_term_file(SAMPLES / "term.toml")).courses
    content = json.loads(outline_to_json(course))
    assert isinstance(content, dict)
    return content


def is_same(title: str, other: str) -> bool:
    return token_set_ratio(title, other, processor=default_process) >= LIKE_ENOUGH


def in_words(item: dict[str, Any]) -> str:
    return f"{item['date']} {item['kind']}: {item['title']}"


def dated(name: str) -> list[dict[str, Any]]:
    return [item for item in read(name)["items"] if item["kind"] != "reading" and item["date"]]


def pair(name: str) -> tuple[list[tuple[dict[str, Any], dict[str, Any]]], list[str], list[str]]:
    """Answers with the items read for them, then what was missed and what was invented."""
    left = dated(name)
    pairs, missed = [], []
    for want in answer(name)["items"]:
        fits = [got for got in left if got["date"] == want["date"] and is_same(want["title"], got["title"])]
        fits.sort(key=lambda got: got["kind"] != want["kind"])
        if fits:
            left.remove(fits[0])
            pairs.append((want, fits[0]))
        elif want.get("must", True):
            missed.append(in_words(want))
    return pairs, missed, [in_words(item) for item in left]


@pytest.mark.parametrize("name", NAMES)
def test_every_item_is_found_on_its_day_and_none_is_invented(name: str) -> None:
    _, missed, invented = pair(name)
    assert not missed, f"missed: {missed}"
    assert not invented, f"invented or on a wrong day: {invented}"


@pytest.mark.parametrize("name", NAMES)
def test_kind_time_last_day_and_weight(name: str) -> None:
    wrong = []
    for want, got in pair(name)[0]:
        wrong += [
            f"{in_words(want)}: {field} is {got[field]}, should be {want[field]}"
            for field in ("kind", "time", "end_date", "weight")
            if want.get(field) is not None and want[field] != got[field]
        ]
        if want.get("time") is None and got["time"] is not None:
            wrong.append(f"{in_words(want)}: a time {got['time']} that the outline does not give")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("name", NAMES)
def test_what_must_be_checked_is_marked_and_nothing_else(name: str) -> None:
    silent = [in_words(want) for want, got in pair(name)[0] if want.get("check") and not got["needs_review"]]
    needless = [
        f"{in_words(got)}: {got['reasons']}"
        for want, got in pair(name)[0]
        if got["needs_review"] and not want.get("check")
    ]
    needless += [
        f"{in_words(each)}: {each['reasons']}"
        for each in read(name)["items"]
        if each["kind"] == "reading" and each["reasons"]
    ]
    assert not silent, f"carries no reason to check: {silent}"
    assert not needless, f"marked without need: {needless}"


@pytest.mark.parametrize("name", NAMES)
def test_course_and_meetings(name: str) -> None:
    want, got = answer(name)["course"], read(name)["course"]
    assert got["code"] == want["code"]
    assert got["title"] == want["title"]
    assert got["term"] == want["term"]
    hours = [
        {(day, meeting["start"], meeting["end"]) for meeting in course["meetings"] for day in meeting["days"]}
        for course in (want, got)
    ]
    assert hours[1] == hours[0]


@pytest.mark.parametrize("name", NAMES)
def test_days_off_readings_and_undated_work(name: str) -> None:
    want, got = answer(name), read(name)
    days_off = [{(off["first_day"], off["last_day"]) for off in side["no_class"]} for side in (want, got)]
    assert days_off[1] == days_off[0]
    readings = [item for item in got["items"] if item["kind"] == "reading"]
    missing = [
        f"{each['date']} {each['title']}"
        for each in want["readings"]
        if not any(each["date"] == item["date"] and is_same(each["title"], item["title"]) for item in readings)
    ]
    assert not missing, f"readings missed: {missing}"
    wanted = {each["date"] for each in want["readings"]}
    invented = [f"{item['date']} {item['title']}" for item in readings if item["date"] not in wanted]
    assert not (want["readings_complete"] and invented), f"readings that the outline does not give: {invented}"
    lost = [
        each["title"] for each in want["undated"] if not any(is_same(each["title"], u["title"]) for u in got["undated"])
    ]
    assert not lost, f"undated work missed: {lost}"
    assert len(got["undated"]) == len(want["undated"]), f"undated work read: {[u['title'] for u in got['undated']]}"
    assert all(work["reason"] for work in got["undated"])


@pytest.mark.parametrize("name", NAMES)
def test_grading(name: str) -> None:
    want, got = answer(name)["grading"], read(name)["grading"]
    steps = [{(step["letter"], step["minimum"]) for step in side["scale"]} for side in (want, got)]
    assert steps[1] == steps[0]
    for category in want["categories"]:
        twins = [other for other in got["categories"] if is_same(category["name"], other["name"])]
        assert twins, f"category {category['name']} was not read"
        for field in ("weight", "points", "drop"):
            if category.get(field) is not None:
                assert any(other[field] == category[field] for other in twins), (
                    f"{category['name']}: {field} of {twins}"
                )
    assert len(got["categories"]) == len(want["categories"])
