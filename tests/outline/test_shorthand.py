"""Short names that an outline gives its work."""

from __future__ import annotations

import pytest

from syllabus_io.outline.read import passages_of
from syllabus_io.outline.shorthand import read_shorthand, spelled_out

from .documents import document, heading
from .reading import dated_work, work


@pytest.mark.parametrize(
    ("text", "meanings"),
    [
        ("WJ = weekly journal, handed in at the door.", {"WJ": "weekly journal"}),
        (
            "In the plan LN stands for lab notebook and FR means field report.",
            {"LN": "lab notebook", "FR": "field report"},
        ),
        ("Gallery critiques (GC), one page each, 12%", {"GC": "gallery critique"}),
        ("Papers of opinion (“POs”): 3 of them", {"PO": "papers of opinion"}),
        ("VQ: vocabulary quiz, at the start of class", {"VQ": "vocabulary quiz"}),
        ("C = case, T = tutorial room", {"C": "case"}),
        ("TH = Thomas Hall. BR = Brown's Reader, third edition.", {}),
        ("A = 93 and above, B = 85 and above", {}),
        ("HW = homework", {}),
        ("CR = case report. CR = critical review.", {}),
    ],
)
def test_explanations(text: str, meanings: dict[str, str]) -> None:
    assert read_shorthand([text]) == meanings


def test_short_names_in_a_schedule_are_work() -> None:
    outline = document(
        heading("Plan of the course"),
        "WJ = weekly journal, due when class begins.",
        "Mon Sep 14: Rivers and roads. WJ 1",
        "Mon Sep 21: The delta; WJ#2",
        "Mon Sep 28: Dams and locks, WJ 3",
    )
    assert dated_work(outline) == {
        "assignment: Weekly journal 1": "month_day(9, 14, MO)",
        "assignment: Weekly journal#2": "month_day(9, 21, MO)",
        "assignment: Weekly journal 3": "month_day(9, 28, MO)",
    }


def test_short_names_in_a_column_and_in_sentences() -> None:
    outline = document(
        heading("Assessment"),
        "Sound diaries (SD), two of them: 40%",
        "Concert reports (CR): 60%",
        heading("Schedule"),
        [
            ["Date", "Topic"],
            ["Sep 28", "Echo"],
            ["Oct 5", "Pitch. SD 1"],
            ["Oct 12", "Timbre. CR 1"],
            ["Oct 19", "Rhythm. SD 2 due"],
        ],
    )
    assert dated_work(outline) == {
        "assignment: Sound diary 1": "month_day(10, 5)",
        "assignment: Concert report 1": "month_day(10, 12)",
        "assignment: Sound diary 2": "month_day(10, 19)",
    }


def test_places_point_at_the_words_as_they_stand() -> None:
    outline = document("WJ = weekly journal.", "Due by noon: WJ 4, then nothing")
    passages = passages_of(outline)
    before, after = passages[1], spelled_out(passages, {"WJ": "weekly journal"})[1]
    assert after.text == "Due by noon: Weekly journal 4, then nothing"
    start = after.text.index("then")
    span = after.place_of(start, start + 4).span
    assert span is not None and before.text[span[0] : span[1]] == "then"


def test_an_explanation_behind_the_last_row_is_no_part_of_it() -> None:
    outline = document(
        heading("Week 1: Sept 7 – 11"),
        "Tuesday: LJ 1",
        heading("Week 2: Sept 14 – 18"),
        "Tuesday: LJ 2",
        heading("Week 3: Sept 21 – 25"),
        "Thursday: LJ 3",
        "LJ stands for learning journal; each is due when class begins.",
    )
    assert [item.title for item in work(outline)] == ["Learning journal 1", "Learning journal 2", "Learning journal 3"]
