"""A term that was changed by hand on Term dates: what a merge says and keeps are the days that the workbook shows."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import openpyxl

from syllabus_io.outline.records import CourseFacts, Kind
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS
from syllabus_io.resolve.expression import Week, Weekday, WeekdayIn
from syllabus_io.resolve.records import ResolvedCourse, ResolvedTerm
from syllabus_io.resolve.term import DayOff
from syllabus_io.revise.changes import Changed
from syllabus_io.revise.merge import Merged, merge_outlines
from syllabus_io.revise.standing_term import standing_term
from syllabus_io.workbook.areas import Mark
from syllabus_io.workbook.cached_values import serial
from syllabus_io.workbook.cell_values import Content
from syllabus_io.workbook.edits import Edits, RowEdit, RowKey
from syllabus_io.workbook.layout import TERM as TERM_SHEET
from syllabus_io.workbook.read import read_workbook
from tests.revise.test_merge import heading, typed
from tests.revise.test_update import first_made
from tests.workbook.plans import TERM, make_course, make_item

KEY = "HIS 204"
OFF_HEADINGS = ("Day off", "First day", "Last day", "Course", "Who says so")


def fact(label: str, content: Content) -> RowEdit:
    return RowEdit(TERM_SHEET, (), RowKey("label", label), {"column 2": content})


def day_off(key: RowKey, cells: Mapping[str, Content]) -> RowEdit:
    return RowEdit(TERM_SHEET, OFF_HEADINGS, key, cells, cells)


def number(day: date) -> float:
    return float(serial(day))


def test_nothing_typed_is_the_term_as_first_read() -> None:
    assert standing_term(TERM, Edits()) == TERM


def test_facts_that_were_typed_are_taken_and_impossible_ends_are_not() -> None:
    later = standing_term(
        TERM, Edits((fact("First day", number(date(2026, 9, 7))), fact("Do weeks off count?", "Yes")))
    )
    assert (later.first_day, later.break_weeks_count) == (date(2026, 9, 7), True)
    assert standing_term(TERM, Edits((fact("First day", number(date(2027, 9, 7))),))).first_day == TERM.first_day
    assert standing_term(TERM, Edits((fact("Week 1 from", None),))).week_one is None


def test_days_off_are_added_changed_and_removed() -> None:
    first, second = TERM.no_class[:2]
    held: list[tuple[tuple[str, Mark], ...]] = [
        tuple(zip(OFF_HEADINGS, ("'x", number(off.first_day), number(off.last_day)), strict=False))
        for off in (first, second)
    ]
    longer: dict[str, Content] = {
        "Day off": first.name,
        "First day": number(first.first_day),
        "Last day": number(date(2026, 9, 9)),
    }
    edits = Edits(
        (
            day_off(RowKey("was", number=1, cells=held[0]), longer),
            replace(day_off(RowKey("was", number=1, cells=held[1]), {}), deleted=True),
            day_off(RowKey("free", number=1), {"Day off": "Fair", "First day": number(date(2026, 11, 2))}),
        )
    )
    now = standing_term(TERM, edits).no_class
    assert now == (
        replace(first, last_day=date(2026, 9, 9)),
        *TERM.no_class[2:],
        DayOff("Fair", date(2026, 11, 2), date(2026, 11, 2), "the workbook"),
    )


def test_what_is_typed_in_a_workbook_is_found() -> None:
    book = openpyxl.load_workbook(io.BytesIO(first_made()))
    sheet = book[TERM_SHEET]
    rows = {sheet.cell(at, 1).value: at for at in range(1, 40)}
    sheet.cell(rows["First day"], 2).value = date(2026, 9, 7)
    free = next(at for at in range(rows["Day off"] + 1, 40) if sheet.cell(at, 1).value is None)
    sheet.cell(free, 1).value, sheet.cell(free, 2).value = "Fair", date(2026, 11, 2)
    packed = io.BytesIO()
    book.save(packed)
    now = standing_term(TERM, read_workbook(Path("plan.xlsx"), packed.getvalue()).edits)
    assert now.first_day == date(2026, 9, 7)
    assert [off.name for off in now.no_class] == [*(off.name for off in TERM.no_class), "Fair"]


def course(week: int, digest: str) -> ResolvedCourse:
    expression = WeekdayIn(Week(week), Weekday.FR)
    days = {5: date(2026, 10, 2), 6: date(2026, 10, 9)}
    item = make_item(KEY, Kind.ASSIGNMENT, "Essay 1", days[week], expression=expression, words=f"Friday of week {week}")
    made = make_course(CourseFacts(code=KEY, title="Harbours"), (item,))
    return replace(made, outline=replace(made.outline, digest=digest * 64))


def merged(edits: Edits) -> Merged:
    """Friday of week 5, of week 6 in the revised outline."""
    return merge_outlines(ResolvedTerm(TERM, (course(5, "1"),)), DEFAULT_SETTINGS, (), edits, (course(6, "2").outline,))


def test_a_moved_day_is_said_as_the_workbook_shows_it() -> None:
    """By hand: the term begins a week later, so that the Friday of week 5 is 9 October, that of week 6 the 16th."""
    result = merged(Edits((fact("First day", number(date(2026, 9, 7))),)))
    assert [change.text for change in result.changes if change.what is Changed.MOVED] == [
        "Essay 1: Fri 9 Oct 2026, now Fri 16 Oct 2026"
    ]


def test_keep_keeps_the_day_that_the_workbook_showed() -> None:
    own = course(5, "1").items[0].id
    kept = typed({own: {"keep": "keep"}}).rows
    result = merged(Edits((*kept, fact("First day", number(date(2026, 9, 7))))))
    (edit,) = (edit for edit in result.edits.rows if edit.sheet == "Review")
    assert edit.changes[heading("corrected")] == number(date(2026, 10, 9))
    assert "Fri 9 Oct 2026" in result.notices[0].text and "Fri 16 Oct 2026" in result.notices[0].text
