"""Every sample outline comes anew in mid-term: no typed value is lost, and the summary says what a tutor must know."""

from __future__ import annotations

import functools
import random
import tempfile
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import read_outlines, resolve_outlines
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.revise.changes import Changed
from syllabus_io.revise.merge import Merged, merge_outlines
from syllabus_io.revise.update import Updated, update_workbook
from syllabus_io.term_file import read_term_file
from syllabus_io.workbook.cached_values import serial
from syllabus_io.workbook.edits import Edits
from syllabus_io.workbook.write import WorkbookOptions, make_workbook
from tests.generators.revised_samples import REVISED, make_revised_samples
from tests.revise.hand import Hand, heading_column, row_of
from tests.revise.test_merge import typed
from tests.revise.test_update import TODAY, check_kept

SAMPLES = Path(__file__).parents[2] / "samples"

SAID = {
    "Algebra II": {
        "moved: Unit 1 test: Fri 18 Sep 2026, now Tue 22 Sep 2026",
        "renamed: Quiz 2: systems of equations is now called Quiz 2: systems of two equations",
        "re-weighted: Quizzes counted 80 points for 4, now 100 points for 4",
        "re-weighted: the course had 1000 points in all, now 1020",
        "re-weighted: Quiz 1: linear equations: 20 points, now 25 points",
        "re-weighted: Quiz 2: systems of two equations: 20 points, now 25 points",
        "re-weighted: Quiz 3: factoring: 20 points, now 25 points",
        "re-weighted: Quiz 4: parabolas: 20 points, now 25 points",
        "re-weighted: 23 other works have another share of the grade because of this",
    },
    "BIOL 120": {
        "moved: Herbarium sheet 1: Tue 29 Sep 2026, now Tue 6 Oct 2026",
        "moved: Exam 3: Thu 10 Dec 2026, now Thu 3 Dec 2026",
        "moved: Group presentations: Thu 3 Dec 2026, now Thu 10 Dec 2026",
        "re-weighted: Garden plan counted 20 %, now 15 %",
        "re-weighted: Final exam counted 10 %, now 15 %",
    },
    "GEOL 110": {
        "moved: Midterm 2: Thu 5 Nov 2026, now Thu 19 Nov 2026",
        "renamed: Field guide proposal is now called Field guide: proposal and list of rocks",
        "gone: Reading quiz 2 (Thu 8 Oct 2026)",
        "new: Map exercise (Thu 22 Oct 2026)",
        "re-weighted: Lab reports counted 30 % for 10 without the lowest, now 25 % for 10 without the lowest",
        "re-weighted: Reading quizzes counted 10 % for 5, now 10 % for 4",
        "re-weighted: Final exam counted 20 %, now 25 %",
    },
    "HIST 233": {
        "moved: Map quiz: Mon 14 Sep 2026, now Wed 16 Sep 2026",
        "moved: Final examination: Wed 16 Dec 2026 14:00, now Thu 17 Dec 2026 14:00",
        "renamed: Portfolio is now called Portfolio of notes",
    },
    "ENGL 214": {
        "moved: Paper 1: Fri 25 Sep 2026 17:00, now Mon 28 Sep 2026 17:00",
        "moved: Midterm: Wed 14 Oct 2026, now Wed 21 Oct 2026",
        "moved: Response: Wed 21 Oct 2026, now Wed 28 Oct 2026",
        "re-weighted: Paper 1: 20 %, now 25 %",
        "re-weighted: Paper 2: 25 %, now 20 %",
    },
    "MUSC 150": {
        "moved: Concert report 1: Tue 29 Sep 2026, now Thu 1 Oct 2026",
        "moved: MIDTERM EXAM: Thu 8 Oct 2026, now Tue 6 Oct 2026",
    },
}
"""What the summary says of each course; the days are worked out by hand from the changed words and a calendar."""


@functools.cache
def outlines() -> tuple[tuple[Outline, ...], tuple[Outline, ...]]:
    """The samples as they were and as they are revised."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        make_revised_samples(folder)
        old = read_outlines([SAMPLES / one for one in REVISED])
        new = read_outlines([folder / one for one in REVISED.values()])
    assert not old.faults and not new.faults
    return old.outlines, new.outlines


@functools.cache
def first_read() -> ResolvedTerm:
    return resolve_outlines(outlines()[0], read_term_file(SAMPLES / "term.toml"))


def said(merged: Merged | Updated) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for change in merged.changes:
        found.setdefault(change.course, set()).add(f"{change.what.value}: {change.text}")
    return found


def merge(revised: Sequence[Outline], edits: Edits | None = None) -> Merged:
    return merge_outlines(first_read(), DEFAULT_SETTINGS, (), edits or Edits(), revised)


def test_the_summary_says_each_change_once_and_nothing_else() -> None:
    merged = merge(outlines()[1])
    assert said(merged) == SAID
    assert not merged.notices, "a question is asked though nobody typed anything"


def test_the_order_in_which_revised_outlines_come_does_not_matter() -> None:
    revised = outlines()[1]
    together, reversed_order = merge(revised), merge(revised[::-1])
    assert together.resolved == reversed_order.resolved
    assert set(together.changes) == set(reversed_order.changes)


def test_merging_the_same_outlines_again_changes_nothing() -> None:
    revised = outlines()[1]
    merged = merge(revised)
    again = merge_outlines(merged.resolved, DEFAULT_SETTINGS, merged.notices, merged.edits, revised)
    assert again.resolved == merged.resolved and again.notices == merged.notices
    assert {change.what for change in again.changes} == {Changed.COURSE}


def test_a_correction_for_every_work_is_kept_and_each_that_moved_is_asked_about() -> None:
    first = first_read()
    items = {item.id: item for course in first.courses for item in course.items}
    corrected = {own: float(serial(date(2027, 1, 1))) + number for number, own in enumerate(items)}
    merged = merge(outlines()[1], typed({own: {"corrected": day} for own, day in corrected.items()}))
    held = {edit.key.word: edit.changes["Corrected date"] for edit in merged.edits.rows}
    assert held == corrected, "a typed date was lost or changed"
    ids = {item.id for course in merged.resolved.courses for item in course.items}
    assert set(items) <= ids, "work for which something was typed is gone"
    moved = {change.text.split(":")[0] for change in merge(outlines()[1]).changes if change.what is Changed.MOVED}
    asked = {items[notice.row].title for notice in merged.notices if "was typed" in notice.text}
    assert asked == moved
    gone = [items[notice.row].title for notice in merged.notices if "no longer names" in notice.text]
    assert gone == ["Reading quiz 2"]
    for notice in merged.notices:
        if items[notice.row].title == "Midterm 2":
            typed_day = date(1899, 12, 30) + timedelta(days=corrected[notice.row])
            words = ("Thu 5 Nov 2026", f"{typed_day:%a} {typed_day.day} {typed_day:%b %Y}", "Thu 19 Nov 2026")
            assert all(word in notice.text for word in words), notice.text


@pytest.mark.slow
def test_whole_workbooks_of_the_samples_keep_what_was_typed() -> None:
    """Marks, ticks, corrections, notes and added rows in a plan of all samples, then all revised outlines at once."""
    plan = make_plan(first_read())
    hand = Hand(make_workbook(plan, WorkbookOptions(today=TODAY, student="Ines Quill")), random.Random(5))
    hand.fill_cells(150)
    sheet = hand.book["Review"]
    for title in ("Midterm 2", "Herbarium sheet 1", "Concert report 1"):
        day = date(2027, 3, 1) + timedelta(days=len(hand.typed))
        hand.type_in(sheet, row_of(sheet, title), heading_column(sheet, "Corrected date"), day)
    hand.type_in(sheet, row_of(sheet, "Reading quiz 2"), heading_column(sheet, "Done"), "done, 7 of 10")
    hand.add_row()
    hand.add_words_beside()
    hand.add_sheet()
    revised = outlines()[1]
    result = update_workbook(Path("plan.xlsx"), hand.saved(), revised, TODAY)
    check_kept(hand, result)
    texts = said(result)
    for course, sentences in SAID.items():
        missing = {one for one in sentences - texts[course] if one.startswith(("new", "gone", "re-weighted"))}
        assert missing <= {"gone: Reading quiz 2 (Thu 8 Oct 2026)"}, f"{course}: not said: {missing}"
    questions = [change.text for change in result.changes if change.what is Changed.QUESTION]
    for title in ("Midterm 2", "Herbarium sheet 1", "Concert report 1"):
        assert any(text.startswith(title) for text in questions), f"nothing is asked about {title}"
    kept = [change.text for change in result.changes if change.what is Changed.KEPT]
    assert any(text.startswith("Reading quiz 2") for text in kept)
    again = update_workbook(Path("plan.xlsx"), result.content, (), TODAY)
    assert again.content == result.content, "a second update changed something more"
    same = update_workbook(Path("plan.xlsx"), result.content, revised, TODAY)
    assert {change.what for change in same.changes} == {Changed.COURSE}
    assert replace(same, changes=()).content == result.content, "the same outlines again changed something more"
