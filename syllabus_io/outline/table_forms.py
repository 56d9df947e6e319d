"""Tables of other forms than a row a day: labelled blocks, class calendars, exam dates, graded work."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.extract.document import Cell
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.grids import Column, Grid, cell_text
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.row_dates import read_row_date
from syllabus_io.outline.row_labels import label_of
from syllabus_io.outline.rows import Rows, TableState
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import DateExpression, MeetingNumber

__all__ = ["as_requirements", "is_block_table", "read_block_table", "read_class_days", "read_titled_dates", "row_text"]

LEAST_DATED_ROWS = 2
LEAST_NAMES = 3


MOST_TITLED_ROWS = 5


_EXAM_TITLE = re.compile(r"\b(?:finals?|exams?|midterms?|tests?)\b", re.IGNORECASE)


LEAST_CLASS_DAYS = 4


_CLASS_ALONE = re.compile(r"(?:class|session|meeting|lecture|day)\s*#?\s*\d{1,3}\W*", re.IGNORECASE)


def read_titled_dates(grid: Grid, rows: Rows) -> bool:
    """Whether a small table names an exam in its title ("Finals schedule"), over dates; they are then its days."""
    titles = {cell_text(cell) for cell in grid[0] if cell is not None}
    title = titles.pop() if len(titles) == 1 else ""
    if len(grid) > MOST_TITLED_ROWS or not _EXAM_TITLE.search(title):
        return False
    name = re.sub(r"(?i)\b(?:schedule|dates?|times?|calendar)\b", "", title).strip(" :")
    name = "Final exam" if name.lower() in ("final", "finals") else name
    found = False
    for cell in dict.fromkeys(cell for row in grid[1:] for cell in row if cell is not None and cell_text(cell)):
        read = read_row_date(cell.text)
        if read is not None and read.frame.day is not None:
            text = f"{name}: {cell_text(cell)}"
            rows.passages.append(Passage(text, cell.place, (), ColumnRole.EXAM, "", name))
            found = True
    return found


def as_requirements(columns: tuple[Column, ...], grid: Grid, body: int) -> tuple[Column, ...]:
    """The columns of a table of graded work with its dates behind: the date column is then one of due dates."""
    if body == 0 and (pairs := _as_pairs(columns, grid)) is not None:
        return pairs
    roles = [column.role for column in columns]
    graded = ColumnRole.WEIGHT in roles or ColumnRole.POINTS in roles
    if ColumnRole.DATE not in roles[1:] or ColumnRole.WEEK in roles or roles[0] is ColumnRole.DATE:
        return columns
    if not graded and (any(column.heading for column in columns) or not _names_work(grid, body)):
        return columns
    return tuple(
        replace(column, role=ColumnRole.DUE_DATE)
        if column.role is ColumnRole.DATE
        else replace(column, role=ColumnRole.WORK)
        if graded and column.index == 0 and column.role is None
        else column
        for column in columns
    )


def _as_pairs(columns: tuple[Column, ...], grid: Grid) -> tuple[Column, ...] | None:
    """The columns of a table without header that lists works and their dates in two or more pairs side by side."""
    if len(columns) < 4 or len(columns) % 2:
        return None
    for column in columns:
        texts = [text for row in grid if (text := cell_text(row[column.index]))]
        dated = sum(1 for text in texts if (found := read_row_date(text)) is not None and found.frame.day is not None)
        if not texts or (dated < 0.8 * len(texts) if column.index % 2 else 2 * dated > len(texts)):
            return None
    return tuple(
        replace(column, role=ColumnRole.DUE_DATE if column.index % 2 else ColumnRole.WORK) for column in columns
    )


def _names_work(grid: Grid, body: int) -> bool:
    """Whether most cells of the first column name work with its number or as a kind of which there is one."""
    names = [cell_text(row[0]) for row in grid[body:] if row[0] is not None and cell_text(row[0])]
    named = [name for name in names if any(not head.is_weak for head in find_heads(name))]
    return len(names) >= LEAST_NAMES and len(named) >= 0.6 * len(names)


def read_class_days(grid: Grid, rows: Rows) -> bool:
    """Whether a table only pairs class numbers with days ("Class 5 | Jul 18"); when it does, the pairs are kept."""
    texts = [cell_text(cell) for row in grid for cell in dict.fromkeys(row) if cell_text(cell)]
    pairs: dict[int, DateExpression] = {}
    used = 0
    for number, text in enumerate(texts):
        joined = f"{text} {texts[number + 1]}" if number + 1 < len(texts) and _CLASS_ALONE.fullmatch(text) else text
        found = read_row_date(joined, max_lead=0)
        if found is None or found.number is None or found.frame.day is None or found.rest:
            continue
        if not isinstance(found.frame.day, MeetingNumber):
            pairs[found.number] = found.frame.day
            used += 1 if joined is text else 2
    if len(pairs) < LEAST_CLASS_DAYS or used < 0.8 * len(texts):
        return False
    rows.class_days.update(pairs)
    return True


def is_block_table(grid: Grid) -> bool:
    """Whether a table is a list of days: a row that dates, then rows that a label opens ("DUE", "IN CLASS")."""
    labelled = dated = 0
    for row in grid:
        if label_of(f"{cell_text(row[0])}:")[0] is not None and cell_text(row[0]):
            labelled += 1
        elif (found := read_row_date(row_text(row))) is not None and found.frame.is_dated:
            dated += 1
    return dated >= LEAST_DATED_ROWS and labelled >= dated and labelled + dated >= 0.7 * len(grid)


def row_text(row: tuple[Cell | None, ...]) -> str:
    return " ".join(dict.fromkeys(cell_text(cell) for cell in row if cell is not None and cell_text(cell)))


def read_block_table(grid: Grid, rows: Rows, section: str) -> None:
    if rows.last_state is None or rows.last_columns:
        rows.groups += 1
        rows.last_state = TableState()
    rows.last_columns = ()
    state = rows.last_state
    for row in grid:
        first, text = row[0], row_text(row)
        role, heading, _ = label_of(f"{cell_text(first)}:") if cell_text(first) else (None, "", "")
        if role is None:
            found = read_row_date(text)
            if found is not None and found.frame.is_dated and first is not None:
                state.frame = rows.add_row(found.frame, first, text)
                if found.rest:
                    place = (row[-1] or first).place
                    rest = Passage(found.rest, place, (), ColumnRole.TOPIC, "", section, state.frame, rows.groups)
                    rows.passages.append(rest)
                continue
        for cell in dict.fromkeys(cell for cell in row[1:] if cell is not None and cell is not first):
            if cell.text.strip():
                rows.passages.append(
                    Passage(
                        cell.text,
                        cell.place,
                        cell.lines,
                        role or ColumnRole.TOPIC,
                        heading,
                        section,
                        state.frame,
                        rows.groups,
                    )
                )
