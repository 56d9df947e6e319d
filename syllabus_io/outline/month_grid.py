"""Month grids: a page of a wall calendar, a column a weekday, day numbers in the cells."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.extract.document import Cell, Table
from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.grids import cell_text
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.row_dates import month_alone
from syllabus_io.outline.rows import Rows
from syllabus_io.resolve.expression import MonthDay

__all__ = ["read_month_grid"]

LEAST_WEEKDAYS = 4
_DAY = re.compile(r"^\s*(?:([A-Za-z]{3,9})\.?\s+)?(\d{1,2})(?:st|nd|rd|th)?(?=\D|$)[\s.:)–-]*")


def read_month_grid(table: Table, rows: Rows, section: str, month: int | None) -> bool:
    """Whether the table is a month grid; when it is, its cells are added to ``rows``, each under its day."""
    grid = table.grid()
    head = next((number for number, row in enumerate(grid[:3]) if _weekday_count(row) >= LEAST_WEEKDAYS), None)
    if head is None:
        return False
    for row in grid[:head]:
        month = next((found for cell in row if (found := month_alone(cell_text(cell)))), month)
    month = month or month_alone(section)
    body = [cell for row in grid[head + 1 :] for cell in row if cell is not None and cell_text(cell)]
    numbered = [cell for cell in body if _DAY.match(cell.text)]
    if month is None or len(numbered) < 0.6 * len(body):
        return False
    rows.groups += 1
    weekdays = [weekday_in(cell_text(cell)) for cell in grid[head]]
    last = 0
    for row in grid[head + 1 :]:
        for index, cell in enumerate(row):
            if cell is None or cell.column - 1 != index:
                continue
            match = _DAY.match(cell.text)
            if not match:
                continue
            day = int(match[2])
            named = month_alone(match[1]) if match[1] else None
            if named is not None:
                month = named
            elif last and day < last - 20:
                month = month % 12 + 1
            last = day
            _add(cell, match.end(), MonthDay(month, day, weekdays[index]), rows, section)
    return True


def _weekday_count(row: tuple[Cell | None, ...]) -> int:
    return len({day for cell in row if (day := weekday_in(cell_text(cell))) is not None and len(cell_text(cell)) < 14})


def _add(cell: Cell, start: int, day: MonthDay, rows: Rows, section: str) -> None:
    words = " ".join(cell.text[:start].split()) or str(day.day)
    frame = rows.add_row(Frame(day=day, words=words), cell, cell.text)
    text = cell.text[start:]
    if text.strip():
        lines = cell.lines if not start else ()
        rows.passages.append(
            Passage(
                text,
                replace(cell.place, span=(start, len(cell.text))),
                lines,
                ColumnRole.TOPIC,
                "",
                section,
                frame,
                rows.groups,
            )
        )
