"""The three-way merge holds its laws: one side changed is taken, both changed is asked, nothing typed is lost."""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta

import pytest

from syllabus_io.outline.records import CourseFacts, Kind
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm
from syllabus_io.revise.changes import Changed
from syllabus_io.revise.identity import find_course
from syllabus_io.revise.merge import Merged, merge_course, settle_notices
from syllabus_io.workbook.cached_values import serial
from syllabus_io.workbook.cell_values import Content
from syllabus_io.workbook.edits import Edits, RowEdit, RowKey
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE
from tests.workbook.plans import TERM, make_course, make_item

KEY = "HIS 204"
FACTS = CourseFacts(code=KEY, title="Harbours")


def heading(key: str) -> str:
    return REVIEW_TABLE.columns[REVIEW_TABLE.number(key) - 1].heading


def item(title: str, day: date, kind: Kind = Kind.ASSIGNMENT) -> ResolvedItem:
    return make_item(KEY, kind, title, day)


def course(*items: ResolvedItem) -> ResolvedCourse:
    made = make_course(FACTS, items)
    return replace(made, outline=replace(made.outline, digest=str(hash(items))))


def typed(cells: Mapping[str, Mapping[str, Content]]) -> Edits:
    """What a person typed on Review, by row id and column."""
    rows = []
    for own, contents in cells.items():
        by_heading = {heading(key): content for key, content in contents.items()}
        rows.append(RowEdit(REVIEW, (), RowKey("id", own), by_heading, by_heading))
    return Edits(tuple(rows))


def merge(old: ResolvedCourse, new: ResolvedCourse, edits: Edits | None = None) -> Merged:
    start = Merged(ResolvedTerm(TERM, (old,)), (), edits or Edits(), ())
    return merge_course(start, DEFAULT_SETTINGS, old, new)


def days(merged: Merged) -> dict[str, date | None]:
    (only,) = merged.resolved.courses
    return {one.title: one.date for one in only.items}


def said(merged: Merged, what: Changed) -> list[str]:
    return [change.text for change in merged.changes if change.what is what]


ESSAY, MIDTERM, QUIZ = (
    item("Essay 1", date(2026, 10, 2)),
    item("Midterm", date(2026, 10, 6), Kind.EXAM),
    item("Quiz 3", date(2026, 9, 22), Kind.QUIZ),
)
BASE = course(ESSAY, MIDTERM, QUIZ)


def moved(one: ResolvedItem, days_later: int) -> ResolvedItem:
    assert one.date is not None
    return item(one.title, one.date + timedelta(days=days_later), one.kind)


def test_no_change_on_either_side_is_no_change() -> None:
    merged = merge(BASE, course(ESSAY, MIDTERM, QUIZ))
    assert not merged.changes and not merged.notices
    assert days(merged) == {one.title: one.date for one in (ESSAY, MIDTERM, QUIZ)}


def test_what_only_the_outline_moved_is_taken_and_said() -> None:
    merged = merge(BASE, course(moved(ESSAY, 7), MIDTERM, QUIZ))
    assert days(merged)["Essay 1"] == date(2026, 10, 9)
    assert said(merged, Changed.MOVED) == ["Essay 1: Fri 2 Oct 2026, now Fri 9 Oct 2026"]
    assert not merged.notices


def test_what_only_the_person_changed_stays() -> None:
    edits = typed({ESSAY.id: {"corrected": float(serial(date(2026, 10, 5)))}})
    merged = merge(BASE, course(ESSAY, MIDTERM, QUIZ), edits)
    assert merged.edits == edits and not merged.notices and not merged.changes


def test_what_both_changed_is_asked_with_the_three_values() -> None:
    edits = typed({ESSAY.id: {"corrected": float(serial(date(2026, 10, 5)))}})
    merged = merge(BASE, course(moved(ESSAY, 7), MIDTERM, QUIZ), edits)
    (notice,) = merged.notices
    assert notice.asks and notice.row == ESSAY.id
    for day in ("Fri 2 Oct 2026", "Mon 5 Oct 2026", "Fri 9 Oct 2026"):
        assert day in notice.text
    assert merged.edits == edits


def test_both_changed_to_the_same_day_is_no_question() -> None:
    edits = typed({ESSAY.id: {"corrected": float(serial(date(2026, 10, 9)))}})
    merged = merge(BASE, course(moved(ESSAY, 7), MIDTERM, QUIZ), edits)
    assert not merged.notices


def test_keep_said_of_a_date_that_moved_becomes_that_date_and_a_question() -> None:
    merged = merge(BASE, course(moved(ESSAY, 7), MIDTERM, QUIZ), typed({ESSAY.id: {"keep": "keep"}}))
    (edit,) = merged.edits.rows
    assert edit.changes[heading("corrected")] == serial(date(2026, 10, 2))
    assert edit.changes[heading("keep")] is None
    assert merged.notices[0].asks


def test_a_question_stays_until_it_is_answered() -> None:
    edits = typed({ESSAY.id: {"corrected": float(serial(date(2026, 10, 5)))}})
    notices = merge(BASE, course(moved(ESSAY, 7), MIDTERM, QUIZ), edits).notices
    assert settle_notices(notices, edits) == notices
    assert not settle_notices(notices, Edits())
    assert not settle_notices(notices, typed({ESSAY.id: {"corrected": 1.0, "keep": "keep"}}))


def test_work_that_is_gone_goes_unless_something_was_typed_for_it() -> None:
    merged = merge(BASE, course(MIDTERM, QUIZ))
    assert "Essay 1" not in days(merged) and said(merged, Changed.GONE)
    kept = merge(BASE, course(MIDTERM, QUIZ), typed({ESSAY.id: {"done": "done"}}))
    assert days(kept)["Essay 1"] == ESSAY.date
    assert said(kept, Changed.KEPT) and kept.notices[0].row == ESSAY.id


def test_a_mark_alone_keeps_work_that_is_gone() -> None:
    edits = Edits((RowEdit("Grades HIS 204", (), RowKey("id", ESSAY.id), {"Points": 17.0}, {"Points": 17.0}),))
    assert "Essay 1" in days(merge(BASE, course(MIDTERM, QUIZ), edits))


def test_renamed_work_keeps_its_id_and_what_was_typed() -> None:
    renamed = item("Essay 1: the pilot's log", date(2026, 10, 2))
    merged = merge(BASE, course(renamed, MIDTERM, QUIZ), typed({ESSAY.id: {"done": "done"}}))
    (only,) = merged.resolved.courses
    assert {one.title: one.id for one in only.items}["Essay 1: the pilot's log"] == ESSAY.id
    assert said(merged, Changed.RENAMED) == ["Essay 1 is now called Essay 1: the pilot's log"]


def test_renumbered_work_on_the_same_day_is_followed_another_number_elsewhere_is_not() -> None:
    same_day = merge(BASE, course(ESSAY, MIDTERM, item("Quiz 4", date(2026, 9, 22), Kind.QUIZ)))
    assert said(same_day, Changed.RENAMED) == ["Quiz 3 is now called Quiz 4"]
    elsewhere = merge(BASE, course(ESSAY, MIDTERM, item("Quiz 4", date(2026, 9, 29), Kind.QUIZ)))
    assert said(elsewhere, Changed.NEW) and said(elsewhere, Changed.GONE)


def test_exams_that_swapped_their_days_are_both_followed() -> None:
    first, second = item("Test 1", date(2026, 9, 30), Kind.EXAM), item("Test 2", date(2026, 11, 4), Kind.EXAM)
    swapped = course(item("Test 1", date(2026, 11, 4), Kind.EXAM), item("Test 2", date(2026, 9, 30), Kind.EXAM))
    merged = merge(course(first, second), swapped)
    assert days(merged) == {"Test 1": date(2026, 11, 4), "Test 2": date(2026, 9, 30)}
    assert len(said(merged, Changed.MOVED)) == 2


def test_the_order_of_updates_to_different_work_does_not_matter() -> None:
    one, other = (moved(ESSAY, 7), MIDTERM, QUIZ), (ESSAY, moved(MIDTERM, 1), QUIZ)
    both = (moved(ESSAY, 7), moved(MIDTERM, 1), QUIZ)

    def after(steps: Iterable[tuple[ResolvedItem, ...]]) -> dict[str, date | None]:
        merged = Merged(ResolvedTerm(TERM, (BASE,)), (), Edits(), ())
        for step in steps:
            (now,) = merged.resolved.courses
            merged = merge_course(merged, DEFAULT_SETTINGS, now, course(*step))
        return days(merged)

    assert after([one, both]) == after([other, both]) == days(merge(BASE, course(*both)))


def test_a_course_is_known_by_its_code_then_by_its_title() -> None:
    courses = [BASE]
    same = replace(BASE.outline, course=CourseFacts(code="his-204", title="Other"))
    other = replace(BASE.outline, course=CourseFacts(code="HIS 205", title="Harbours"))
    without = replace(BASE.outline, course=CourseFacts(title="Harbours."))
    assert find_course(same, courses) is BASE
    assert find_course(other, courses) is None
    assert find_course(without, courses) is BASE


@pytest.mark.parametrize("seed", range(100))
def test_generated_revisions_lose_nothing_typed(seed: int) -> None:
    """A hundred revisions: work moved, dropped, added, renamed, while a person has typed for some of it."""
    dice = random.Random(seed)
    first = date(2026, 9, 1)
    old = [item(f"Work {n}", first + timedelta(days=3 * n), dice.choice(list(Kind))) for n in range(12)]
    edits = typed({one.id: {"done": "done", "corrected": 46_300.0 + n} for n, one in enumerate(dice.sample(old, 5))})
    new: list[ResolvedItem] = []
    for one in old:
        what = dice.randrange(5)
        assert one.date is not None
        if what == 0:
            continue
        new.append(
            [one, moved(one, dice.randrange(1, 20)), item(f"{one.title} (draft)", one.date, one.kind), one][what - 1]
        )
    new += [item(f"Extra {n}", first + timedelta(days=5 * n)) for n in range(dice.randrange(3))]
    merged = merge(course(*old), course(*new), edits)
    (only,) = merged.resolved.courses
    ids = [one.id for one in only.items]
    assert len(ids) == len(set(ids)), "two items share an id"
    for edit in edits.rows:
        assert edit.key.word in ids, f"what was typed for {edit.key.word} has no row any more"
    titles = {one.title for one in only.items}
    assert {one.title for one in new} <= titles, "the revision's own work is missing"
