"""What is still open or odd in a workbook, in plain words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import combinations
from pathlib import Path

from syllabus_io.outline.records import Kind
from syllabus_io.plan.class_rows import OFFICE_HOURS
from syllabus_io.plan.day_table import week_phase
from syllabus_io.plan.standing import StandingClass, StandingItem, StandingPlan
from syllabus_io.resolve.wording import days_in_words
from syllabus_io.revise.merge import heading, typed_rows
from syllabus_io.revise.standing import Cells, standing_plan
from syllabus_io.revise.update import Updated
from syllabus_io.workbook.cell_values import shown
from syllabus_io.workbook.layout import GRADES, MARKS_COLUMNS
from syllabus_io.workbook.layout_store import KEPT

__all__ = ["Finding", "check_workbook"]

_OPEN_FLAGS = {"check": "to check", "no date": "without a date", "not a date": "not a date"}
_MARK_NOTES = ("category?", "out of how many?", "part?", "no mark?", "points or percent?", "above full marks")
_EXAMS = (Kind.EXAM, Kind.QUIZ)
_TO_CHECK = "To check:"
_COUNTED_ROWS = "rows of marks that do not count"  # each of them is named here


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to look at: what sort of thing, where, and what is the matter."""

    what: str
    course: str
    text: str


def check_workbook(path: Path, updated: Updated, today: date) -> tuple[Finding, ...]:
    """Everything open or odd: dates to check, past work that is not done, clashes, marks that do not count as they
    stand, words without a place."""
    plan = standing_plan(path, updated)
    return (
        *_open_dates(plan, updated),
        *_past(plan, today),
        *_clashes(plan),
        *_grades(Cells(updated)),
        *(Finding("no place", "", f"{note.sheet}, {note.where}: {note.words}") for note in updated.edits.kept),
        *(Finding("no place", "", f"{note.sheet}, {note.where}: {note.words}") for note in updated.left),
        *(Finding("workbook", "", note) for note in dict.fromkeys(updated.notes)),
    )


def _open_dates(plan: StandingPlan, updated: Updated) -> Iterator[Finding]:
    typed = typed_rows(updated.edits)
    for item in plan.items:
        if item.flag in _OPEN_FLAGS:
            day = days_in_words(item.day, item.until) if item.day else "no date"
            why = " ".join(item.why.split())
            if item.flag == "not a date" and item.id in typed:
                words = shown(typed[item.id].whole.get(heading("corrected")))
                why = (
                    f"“{words}” was typed as its corrected date, and is none: type a day of the calendar. {why}".strip()
                )
            yield Finding(_OPEN_FLAGS[item.flag], item.course, f"{item.title} ({day}){f': {why}' if why else ''}")


def _past(plan: StandingPlan, today: date) -> Iterator[Finding]:
    for item in plan.items:
        last = item.until or item.day
        if last and last < today and not item.is_done and not item.is_skipped and item.kind is not Kind.READING:
            yield Finding("past and not done", item.course, f"{item.title} ({days_in_words(last, None)})")


def _clashes(plan: StandingPlan) -> Iterator[Finding]:
    by_day: defaultdict[date, list[StandingItem]] = defaultdict(list)
    for item in plan.items:
        if item.kind in _EXAMS and item.day and not item.is_skipped:
            by_day[item.day].append(item)
            for off in plan.days_off:
                single = not item.until or item.until == item.day
                if single and off.course in ("", item.course) and off.first_day <= item.day <= off.last_day:
                    yield Finding("clash", item.course, f"{item.title} is on a day off ({off.name})")
    for day, items in sorted(by_day.items()):
        if sum(item.kind is Kind.EXAM for item in items) > 1:
            names = ", ".join(f"{item.course} {item.title}" for item in items if item.kind is Kind.EXAM)
            yield Finding("clash", "", f"more than one exam on {days_in_words(day, None)}: {names}")
    for one, other in combinations(plan.classes, 2):
        if _overlap(one, other):
            yield Finding("clash", one.course, f"its class overlaps one of {other.course}")


def _overlap(one: StandingClass, other: StandingClass) -> bool:
    if not (one.start and one.end and other.start and other.end) or not set(one.days) & set(other.days):
        return False
    if one.cycle_day and other.cycle_day and one.cycle_day.casefold() != other.cycle_day.casefold():
        return False
    first, second = one.alternate_from, other.alternate_from
    if OFFICE_HOURS & {one.kind, other.kind} or (first and second and week_phase(first) != week_phase(second)):
        return False
    return one.start < other.end and other.start < one.end


def _grades(cells: Cells) -> Iterator[Finding]:
    """What the grades sheets themselves say, and rows of marks that do not count as they stand."""
    note = next(number for number, column in enumerate(MARKS_COLUMNS, start=1) if column.key == "note")
    work = next(number for number, column in enumerate(MARKS_COLUMNS, start=1) if column.key == "work")
    for sheet in cells.workbook.worksheets:
        if sheet.sheet_state != "visible" or not sheet.title.startswith(f"{GRADES} ") or sheet.title == KEPT:
            continue
        course = sheet.title.removeprefix(f"{GRADES} ")
        named = ""
        for row in range(1, sheet.max_row + 1):
            text = shown(cells.cell(sheet.title, row, 2))
            if text.startswith(_TO_CHECK) and not (_COUNTED_ROWS in text and text.strip().endswith("(see Note).")):
                named += text
                yield Finding("grades", course, text.removeprefix(_TO_CHECK).strip())
            said = shown(cells.cell(sheet.title, row, note))
            name = shown(cells.cell(sheet.title, row, work)) or "a mark"
            if said in _MARK_NOTES and f"“{name}”" not in named:
                yield Finding("grades", course, f"{name}: {said}")
