"""The plan as it stands in a workbook that has been written anew: typed values with computed ones."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from syllabus_io.outline.records import Kind
from syllabus_io.plan.standing import StandingClass, StandingItem, StandingOff, StandingPlan
from syllabus_io.resolve.expression import Weekday
from syllabus_io.revise.update import Updated
from syllabus_io.workbook.cell_values import Content, FormulaText, content_of, date_of, shown, time_of, value_of
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE, Name, column_letter
from syllabus_io.workbook.layout_store import STORE
from syllabus_io.workbook.revisions import TERM_EVENTS
from syllabus_io.workbook.store import Store, read_store

if TYPE_CHECKING:
    from pathlib import Path

    from openpyxl import Workbook

    from syllabus_io.workbook.cached_values import CellValue

__all__ = ["Cells", "standing_plan"]

_KINDS = {kind.value: kind for kind in Kind}


class Cells:
    """The cells of a workbook written anew: what was typed, or what its formula gives."""

    def __init__(self, updated: Updated) -> None:
        from openpyxl import load_workbook

        from syllabus_io.workbook.light_package import lightened

        self.workbook: Workbook = load_workbook(io.BytesIO(lightened(updated.plain, STORE)))
        self._values: Mapping[str, Mapping[str, CellValue]] = updated.values

    def cell(self, sheet: str, row: int, column: int) -> Content:
        """The content of a cell; an error counts as nothing."""
        content = content_of(value_of(self.workbook[sheet].cell(row, column)))
        if not isinstance(content, FormulaText):
            return content
        value: Any = self._values.get(sheet, {}).get(f"{column_letter(column)}{row}")
        return value if isinstance(value, str | float | bool) and value != "" else None

    def named(self, name: str) -> list[list[Content]]:
        """The rows of a defined name."""
        text = self.workbook.defined_names[name].attr_text or ""
        match = re.fullmatch(r"'?(.+?)'?!\$([A-Z]+)\$([0-9]+)(?::\$([A-Z]+)\$([0-9]+))?", text)
        if match is None:
            return []
        from openpyxl.utils import column_index_from_string

        sheet, left, top = match[1].replace("''", "'"), column_index_from_string(match[2]), int(match[3])
        right = column_index_from_string(match[4]) if match[4] else left
        bottom = int(match[5]) if match[5] else top
        columns = range(left, right + 1)
        return [[self.cell(sheet, row, column) for column in columns] for row in range(top, bottom + 1)]

    def computed(self, name: str) -> list[Content]:
        """The results in the column of a defined name on a hidden sheet, whose cells are not read."""
        text = self.workbook.defined_names[name].attr_text or ""
        match = re.fullmatch(r"'?(.+?)'?!\$([A-Z]+)\$([0-9]+):\$[A-Z]+\$([0-9]+)", text)
        if match is None:
            return []
        values = self._values.get(match[1], {})
        found: list[Any] = [values.get(f"{match[2]}{row}") for row in range(int(match[3]), int(match[4]) + 1)]
        return [one if isinstance(one, str | float | bool) else None for one in found]

    def one(self, name: str) -> Content:
        """The cell of a defined name."""
        rows = self.named(name)
        return rows[0][0] if rows else None

    def column(self, name: str) -> list[Content]:
        """The column of a defined name."""
        return [row[0] for row in self.named(name)]


def standing_plan(path: Path, updated: Updated) -> StandingPlan:
    """Everything that other programs can use, with the corrections of the person."""
    cells = Cells(updated)
    store = read_store(path, cells.workbook)
    term = updated.plan.resolved.term
    first = date_of(cells.one(Name.FIRST_DAY)) or term.first_day
    last = date_of(cells.one(Name.LAST_DAY)) or term.last_day
    return StandingPlan(
        plan_id=store.plan_id,
        name=shown(cells.one(Name.TERM_NAME)) or term.name,
        student=shown(cells.one(Name.STUDENT)),
        first_day=first,
        last_day=last,
        classes_end=date_of(cells.one(Name.CLASSES_END)) or last,
        timezone=term.timezone,
        courses=tuple(course.key for course in updated.plan.resolved.courses),
        items=tuple(_items(cells, store)),
        classes=tuple(_classes(cells)),
        days_off=tuple(_days_off(cells)),
        term_revision=store.events[TERM_EVENTS].revision if TERM_EVENTS in store.events else 0,
    )


def _items(cells: Cells, store: Store) -> Iterator[StandingItem]:
    sheet = cells.workbook[REVIEW]
    for row in range(REVIEW_TABLE.first_row, sheet.max_row + 1):
        own = sheet.cell(row, 1).value
        if not isinstance(own, str):
            continue
        held = {column.key: cells.cell(REVIEW, row, REVIEW_TABLE.number(column.key)) for column in REVIEW_TABLE.columns}
        title, course = shown(held["title"]), shown(held["course"])
        if not title and not course and held["corrected"] is None:
            continue
        weight = held["weight"]
        yield StandingItem(
            id=own,
            course=course,
            kind=_KINDS.get(shown(held["kind"])),
            title=title or shown(held["kind"]) or "(no title)",
            day=date_of(held["used"]),
            until=date_of(held["until"]),
            time=time_of(held["time"]),
            weight=float(weight) if isinstance(weight, float) else None,
            start=date_of(held["start"]),
            is_done=held["done"] is not None,
            is_skipped=held["keep"] == "skip",
            flag=shown(held["flag"]),
            why=shown(held["why"]),
            words=shown(held["words"]),
            revision=store.events[own].revision if own in store.events else 0,
        )


def _classes(cells: Cells) -> Iterator[StandingClass]:
    names = (Name.CLASS_COURSES, Name.CLASS_KINDS, Name.CLASS_ROOMS, Name.CLASS_TEACHERS)
    texts = zip(*(cells.column(name) for name in names), strict=True)
    times = zip(cells.column(Name.CLASS_STARTS), cells.column(Name.CLASS_ENDS), strict=True)
    days = cells.named(Name.CLASS_DAYS)
    dates = _cycle_dates(cells)
    cycle = cells.column(Name.CLASS_CYCLE) if dates else [None] * len(days)
    turns = zip(cells.column(Name.CLASS_ALTERNATE), cycle, strict=True)
    rows = zip(texts, days, times, turns, strict=True)
    for number, (text, marks, (start, end), (other, word)) in enumerate(rows, start=1):
        course, kind, room, teacher = (shown(one) for one in text)
        held = tuple(day for day, mark in zip(Weekday, marks, strict=True) if shown(mark).strip().lower() == "x")
        label = shown(word).strip()
        held = held or (tuple(Weekday)[:5] if label else ())
        if course and held:
            yield StandingClass(
                number,
                course,
                kind,
                room,
                teacher,
                held,
                time_of(start),
                time_of(end),
                date_of(other),
                label,
                dates.get(label.casefold(), ()),
            )


def _cycle_dates(cells: Cells) -> dict[str, tuple[date, ...]]:
    """The dates of each day of a rotating timetable; empty where the term has none."""
    if Name.ROTATION_WORDS not in cells.workbook.defined_names:
        return {}
    found: dict[str, list[date]] = {}
    for one, word in zip(cells.computed(Name.DAY_DATES), cells.computed(Name.ROTATION_WORDS), strict=True):
        day, label = date_of(one), shown(word).strip().casefold()
        if day and label:
            found.setdefault(label, []).append(day)
    return {label: tuple(days) for label, days in found.items()}


def _days_off(cells: Cells) -> Iterator[StandingOff]:
    names = (Name.OFF_NAMES, Name.OFF_FIRST, Name.OFF_LAST, Name.OFF_COURSES)
    for name, first, last, course in zip(*(cells.column(one) for one in names), strict=True):
        first_day: date | None = date_of(first)
        if first_day is not None:
            last_day = date_of(last) or first_day
            yield StandingOff(shown(name) or "Day off", first_day, max(first_day, last_day), shown(course))
