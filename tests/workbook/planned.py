"""What a workbook says of a student's time at a moment, read back as the facts that the Python twins take, and random
changes such as a person makes."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from typing import Any

from openpyxl.utils.cell import coordinate_from_string, get_column_letter, range_boundaries

from syllabus_io.plan.facts import (
    Commitment,
    CourseFact,
    DatedItem,
    FactOff,
    OwnTask,
    PlanningFacts,
    Stretch,
    WeeklyClass,
    day_count,
)
from syllabus_io.plan.records import KindSetting, Plan
from syllabus_io.workbook.layout import REVIEW_TABLE, Name
from syllabus_io.workbook.layout_plan import COMMITMENTS_TABLE, TO_DO_TABLE, PlanName
from tests.workbook.sheets import Results, Sheets, day

__all__ = ["Planned", "change_at_random", "clock"]


def clock(value: object) -> time | None:
    """A time of day from a cell."""
    if isinstance(value, time):
        return value
    if isinstance(value, float | int) and not isinstance(value, bool):
        minutes = round(float(value) * 1440)
        return time(minutes // 60 % 24, minutes % 60)
    return None


def as_date(value: object) -> date | None:
    """A day from a cell, typed, written or computed."""
    if isinstance(value, date):
        return date(value.year, value.month, value.day)
    return day(float(value)) if isinstance(value, float | int) and not isinstance(value, bool) else None


@dataclass(slots=True)
class Planned:
    """A workbook, the plan it was made of, and what an engine computed."""

    sheets: Sheets
    plan: Plan
    results: Results

    def cell(self, sheet: str, cell: str) -> Any:
        """What stands in a cell: typed, else computed, else as written."""
        if (sheet, cell) in self.sheets.typed:
            return self.sheets.typed[sheet, cell]
        if cell in self.results[sheet]:
            return self.results[sheet][cell]
        return self.sheets.book[sheet][cell].value

    def named(self, name: str) -> Any:
        """What stands in the cell of a name."""
        return self.cell(*self.sheets.cell_of(name))

    def rows(self, name: str) -> list[list[Any]]:
        """What stands in the range of a name, row by row."""
        sheet, cells = self.sheets.cell_of(name)
        left, top, right, bottom = range_boundaries(cells)
        columns = [get_column_letter(column) for column in range(int(left or 0), int(right or 0) + 1)]
        return [
            [self.cell(sheet, f"{letter}{row}") for letter in columns]
            for row in range(int(top or 0), int(bottom or 0) + 1)
        ]

    def column(self, name: str) -> list[Any]:
        """The first column of the range of a name."""
        return [row[0] for row in self.rows(name)]

    # --- facts ---

    def facts(self) -> PlanningFacts:
        """Everything that the twins need."""
        first, end = as_date(self.named(Name.FIRST_DAY)), as_date(self.named(Name.CLASSES_END))
        one, today = as_date(self.named(Name.WEEK_ONE)), as_date(self.named(Name.TODAY))
        assert first and end and one and today
        keys = [str(key) for key in self.column(Name.COURSES)]
        credits_held = self.column(Name.CREDITS)
        return PlanningFacts(
            first,
            end,
            one,
            today,
            self._settings(),
            courses=tuple(CourseFact(key, held) for key, held in zip(keys, credits_held, strict=True)),
            items=tuple(self._items()),
            days_off=tuple(self._days_off(keys)),
            classes=tuple(self._classes()),
            commitments=tuple(self._commitments()),
            kept_free=tuple(self._kept_free()),
            kept_weekdays=frozenset(
                number for number, mark in enumerate(self.rows(PlanName.KEPT_WEEKDAYS)[0], start=1) if mark == "x"
            ),
            tasks=tuple(self._tasks()),
            rotation_first=as_date(self.named(Name.ROTATION_FIRST)) if self.plan.resolved.term.rotation else None,
            rotation_labels=self.plan.resolved.term.rotation.labels if self.plan.resolved.term.rotation else (),
            day_count=day_count(self.plan),
        )

    def _settings(self) -> Any:
        kinds = zip(
            self.plan.settings.kinds,
            *(self.column(name) for name in (Name.SET_LEADS, Name.SET_HOURS, Name.SET_SESSIONS)),
            strict=True,
        )
        return replace(
            self.plan.settings,
            kinds=tuple(KindSetting(one.kind, lead, hours, sessions) for one, lead, hours, sessions in kinds),
            hours_per_day=self.named(Name.HOURS_PER_DAY),
            heavy_percent=self.named(Name.HEAVY_FROM) * 100,
            heavy_factor=self.named(Name.HEAVY_FACTOR),
            session_spread=self.named(Name.SESSION_SPREAD),
            study_on_days_off=self.named(PlanName.STUDY_ON_OFF) == "yes",
            avoid_exam_days=self.named(PlanName.AVOID_EXAMS) == "yes",
            full_hours=self.named(PlanName.FULL_FROM),
            study_hour=self.named(PlanName.STUDY_HOUR),
            class_hours_per_credit=self.named(PlanName.CLASS_PER_CREDIT),
            own_hours_per_credit=self.named(PlanName.OWN_PER_CREDIT),
            heavy_week_factor=self.named(PlanName.HEAVY_WEEK),
            ease_days=self.named(PlanName.EASE_DAYS),
        )

    def review_rows(self) -> Iterator[tuple[int, dict[str, Any]]]:
        """Each row of Review by its place, from 1, with what stands in its columns."""
        last = len(self.column(Name.REVIEW_USED))
        for place in range(1, last + 1):
            row = REVIEW_TABLE.first_row + place - 1
            yield (
                place,
                {
                    column.key: self.cell(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter(column.key)}{row}")
                    for column in REVIEW_TABLE.columns
                },
            )

    def _items(self) -> Iterator[DatedItem]:
        for place, row in self.review_rows():
            used = as_date(row["used"])
            if used is None:
                continue
            weight = row["weight"]
            yield DatedItem(
                str(row["id"]),
                place,
                str(row["course"] or ""),
                str(row["kind"]),
                str(row["title"]),
                used,
                as_date(row["until"]),
                clock(row["time"]),
                float(weight) if isinstance(weight, float | int) else None,
                bool(row["done"]),
            )

    def _days_off(self, keys: list[str]) -> Iterator[FactOff]:
        names = (Name.OFF_FIRST, Name.OFF_LAST, Name.OFF_COURSES)
        for first, last, course in zip(*(self.column(name) for name in names), strict=True):
            begin = as_date(first)
            if begin:
                number = 0 if not course else keys.index(course) + 1 if course in keys else -1
                yield FactOff(Stretch(begin, max(begin, as_date(last) or begin)), number)

    def _classes(self) -> Iterator[WeeklyClass]:
        names = (Name.CLASS_COURSES, Name.CLASS_KINDS, Name.CLASS_ROOMS, Name.CLASS_STARTS, Name.CLASS_ENDS)
        columns = [self.column(name) for name in (*names, Name.CLASS_ALTERNATE)]
        marked = self.rows(Name.CLASS_DAYS)
        cycle = self.column(Name.CLASS_CYCLE) if self.plan.resolved.term.rotation else [""] * len(marked)
        for (course, kind, room, start, end, other), marks, word in zip(
            zip(*columns, strict=True), marked, cycle, strict=True
        ):
            days = frozenset(number for number, mark in enumerate(marks, start=1) if mark == "x")
            yield WeeklyClass(
                course or "", kind or "", room or "", days, clock(start), clock(end), as_date(other), word or ""
            )

    def _commitments(self) -> Iterator[Commitment]:
        sheet, first = COMMITMENTS_TABLE.sheet, COMMITMENTS_TABLE.first_row
        for row in range(first, first + len(self.column(PlanName.COMMIT_WHAT))):
            what, weekday, begin, until, start, end = (self.cell(sheet, f"{letter}{row}") for letter in "ABCDEF")
            yield Commitment(what or "", weekday or "", as_date(begin), as_date(until), clock(start), clock(end))

    def _kept_free(self) -> Iterator[Stretch]:
        sheet, cells = self.sheets.cell_of(PlanName.KEPT_FIRST)
        for first, until in zip(self.column(PlanName.KEPT_FIRST), self.column(PlanName.KEPT_UNTIL), strict=True):
            begin = as_date(first)
            if begin:
                yield Stretch(begin, as_date(until) or begin)
        assert sheet and cells

    def _tasks(self) -> Iterator[OwnTask]:
        sheet, first = TO_DO_TABLE.sheet, TO_DO_TABLE.first_row
        for row in range(first, first + len(self.column(PlanName.TO_DO_WHAT))):
            when, sort, what, who, matters, done = (self.cell(sheet, f"{letter}{row}") for letter in "BCDEFG")
            if as_date(when):
                yield OwnTask(row, as_date(when) or date.min, sort, what or "", who or "", matters, bool(done))


# --- random changes ---------------------------------------------------------------------------------------

_WEEKDAYS = ("Monday", "Wednesday", "Friday", "Saturday", "weekdays", "every day", None)


def change_at_random(sheets: Sheets, plan: Plan, seed: int) -> None:
    """Changes a workbook as a person might: the term's first day, days off, dates, rows added, commitments, days kept
    free, tasks, settings, ticks, the chosen week and day."""
    rng = random.Random(seed)
    first = plan.resolved.term.first_day + timedelta(days=rng.choice((0, 0, -7, 7, 3)))
    sheets.put_name(Name.FIRST_DAY, first)

    def some_day(spread: int = 110) -> date:
        return first + timedelta(days=rng.randrange(-3, spread))

    _change_review(sheets, plan, rng, some_day)
    _change_term(sheets, rng, some_day)
    _change_classes(sheets, plan, rng, some_day)
    _add_commitments(sheets, rng, some_day)
    _add_tasks(sheets, rng, some_day)
    _change_settings(sheets, rng)
    sheets.put("Start here", "B4", some_day())
    sheets.put_name(PlanName.WEEK_CHOSEN, some_day())
    sheets.put_name(PlanName.DAY_CHOSEN, some_day())


def _change_review(sheets: Sheets, plan: Plan, rng: random.Random, some_day: Any) -> None:
    rows = range(REVIEW_TABLE.first_row, REVIEW_TABLE.first_row + len(plan.entries))
    crowded = some_day()
    for row in rows:
        if rng.random() < 0.4:
            when = crowded + timedelta(days=rng.randrange(7)) if rng.random() < 0.3 else some_day()
            sheets.put(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter('corrected')}{row}", when)
        if rng.random() < 0.1:
            sheets.put(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter('done')}{row}", "done")
        if rng.random() < 0.05:
            sheets.put(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter('keep')}{row}", "skip")
    for number in range(rng.randrange(12)):
        kind = rng.choice(("exam", "quiz", "assignment", "reading", "project"))
        weight = rng.choice((None, 0.05, 0.3))
        added = {"course": "BIO 110", "kind": kind, "title": f"Added {kind} {number}", "corrected": some_day()}
        sheets.add_review_row(**{**added, **({"weight": weight} if weight else {})})


def _change_term(sheets: Sheets, rng: random.Random, some_day: Any) -> None:
    sheet, cells = sheets.cell_of(Name.OFF_FIRST)
    free = [row for row in _rows_of(cells) if sheets.book[sheet][f"B{row}"].value is None]
    for row in free[: rng.randrange(2, 5)]:
        begin = some_day()
        sheets.put(sheet, f"B{row}", begin)
        sheets.put(sheet, f"C{row}", begin + timedelta(days=rng.randrange(4)))
        if rng.random() < 0.4:
            sheets.put(sheet, f"D{row}", rng.choice(("BIO 110", "MAT 131")))


def _change_classes(sheets: Sheets, plan: Plan, rng: random.Random, some_day: Any) -> None:
    """Some classes become those of every other week, or of a rotating day; one is added."""
    sheet, cells = sheets.cell_of(Name.CLASS_ALTERNATE)
    alternate, rows = coordinate_from_string(cells.split(":")[0])[0], list(_rows_of(cells))
    free = rows[-6]
    added = {"A": "MAT 131", "B": "seminar", rng.choice("EFGHI"): "x", "L": rng.choice((8, 13, 17)) / 24, "M": 18 / 24}
    for letter, value in added.items():
        sheets.put(sheet, f"{letter}{free}", value)
    for row in rows[:-5]:
        if rng.random() < 0.25:
            sheets.put(sheet, f"{alternate}{row}", some_day(40))
        if plan.resolved.term.rotation and rng.random() < 0.4:
            letter = coordinate_from_string(sheets.cell_of(Name.CLASS_CYCLE)[1].split(":")[0])[0]
            sheets.put(sheet, f"{letter}{row}", rng.choice(plan.resolved.term.rotation.labels))


def _rows_of(cells: str) -> range:
    left, right = cells.split(":")
    return range(coordinate_from_string(left)[1], coordinate_from_string(right)[1] + 1)


def _add_commitments(sheets: Sheets, rng: random.Random, some_day: Any) -> None:
    sheet, cells = sheets.cell_of(PlanName.COMMIT_WHAT)
    for row in list(_rows_of(cells))[: rng.randrange(25)]:
        weekday = rng.choice(_WEEKDAYS)
        begin = some_day() if weekday is None or rng.random() < 0.4 else None
        start = rng.randrange(6 * 4, 21 * 4) * 15
        values = {
            "A": rng.choice(("Swim practice with the club", "Shop", "Rehearsal of the spring play", "Dentist")),
            "B": weekday,
            "C": begin,
            "D": begin + timedelta(days=rng.randrange(30)) if begin and rng.random() < 0.5 else None,
            "E": start / 1440,
            "F": (start + rng.randrange(1, 12) * 15) / 1440 if rng.random() < 0.9 else None,
        }
        for letter, value in values.items():
            if value is not None:
                sheets.put(sheet, f"{letter}{row}", value)
    sheet, cells = sheets.cell_of(PlanName.KEPT_FIRST)
    letter = coordinate_from_string(cells.split(":")[0])[0]
    for row in list(_rows_of(cells))[: rng.randrange(5)]:
        sheets.put(sheet, f"{letter}{row}", some_day())
    marks, cells = sheets.cell_of(PlanName.KEPT_WEEKDAYS)
    if rng.random() < 0.5:
        sheets.put(marks, cells.split(":")[rng.randrange(2)], "x")


def _add_tasks(sheets: Sheets, rng: random.Random, some_day: Any) -> None:
    for row in range(TO_DO_TABLE.first_row, TO_DO_TABLE.first_row + rng.randrange(20)):
        values = {
            "B": some_day(),
            "C": rng.choice(("task", "call", "message", "aim", "note")),
            "D": rng.choice(("buy graph paper for the map", "ask about the lab coat", "return the tide tables")),
            "E": rng.choice((None, "Dr. Holloway")),
            "F": rng.choice((None, 1, 2)),
            "G": rng.choice((None, None, "done")),
        }
        for letter, value in values.items():
            if value is not None:
                sheets.put(TO_DO_TABLE.sheet, f"{letter}{row}", value)


def _change_settings(sheets: Sheets, rng: random.Random) -> None:
    choices: dict[str, tuple[object, ...]] = {
        PlanName.STUDY_ON_OFF: ("yes", "no"),
        PlanName.AVOID_EXAMS: ("yes", "no"),
        PlanName.FULL_FROM: (0, 4, 9),
        PlanName.STUDY_HOUR: (9, 16, 18),
        PlanName.OWN_PER_CREDIT: (0, 2, 3),
        PlanName.HEAVY_WEEK: (0, 1.2, 1.5),
        PlanName.EASE_DAYS: (0, 2, 5),
        Name.HOURS_PER_DAY: (1, 2, 3.5),
        Name.SESSION_SPREAD: (0.5, 1, 1.5, 2),
    }
    for name, values in choices.items():
        sheets.put_name(name, rng.choice(values))
