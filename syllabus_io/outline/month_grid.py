"""Month grids: pages of a wall calendar, a column a weekday, day numbers in the cells or in the row above them."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, field, replace

from syllabus_io.extract.document import Cell, Table
from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.grids import Grid, cell_text, is_month_row
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.row_dates import month_alone
from syllabus_io.outline.rows import Rows
from syllabus_io.resolve.expression import MonthDay, Weekday
from syllabus_io.resolve.words import FOREIGN_WEEKDAY_NAMES

__all__ = ["read_month_grid"]

LEAST_WEEKDAYS = 4
LEAST_NUMBERED = 0.6  # of the filled cells
LAST_WEEK = 20  # days by which the numbers fall where a new month begins
_DAY = re.compile(r"^\s*(?:([^\W\d_]{3,10})\.?\s+)?(\d{1,2})(?:st|nd|rd|th)?(?=\D|$)[\s.:)–-]*")


@dataclass(slots=True)
class _Grid:
    """Where the reading of a grid stands: its month, its weekdays by column, the last day, the days of the last row."""

    month: int
    weekdays: list[Weekday | None]
    last: int = 0
    is_new: bool = True
    days: dict[int, MonthDay] = field(default_factory=dict)

    def begin(self, month: int) -> None:
        """Go on with another month."""
        self.month, self.last, self.is_new, self.days = month, 0, True, {}

    def see_row(self, numbers: list[int]) -> None:
        """Go back a month where the first row of a page begins with the last days of the month before."""
        if self.is_new and any(b < a - LAST_WEEK for a, b in itertools.pairwise(numbers)):
            self.month = (self.month - 2) % 12 + 1
        self.is_new = False

    def next_day(self, named: int | None, day: int, index: int) -> MonthDay:
        """The day of a number in a column, the month moved on where the numbers begin again."""
        if named is not None:
            self.month = named
        elif day < self.last - LAST_WEEK:
            self.month = self.month % 12 + 1
        self.last = day
        weekday = self.weekdays[index] if index < len(self.weekdays) else None
        self.days[index] = MonthDay(self.month, day, weekday)
        return self.days[index]


def read_month_grid(table: Table, rows: Rows, section: str, month: int | None) -> bool:
    """Whether the table is a month grid; when it is, its cells are added to ``rows``, each under its day."""
    grid = table.grid()
    head = next((number for number, row in enumerate(grid[:3]) if _weekday_count(row) >= LEAST_WEEKDAYS), None)
    if head is None:
        return False
    for row in grid[:head]:
        month = next((found for cell in row if (found := month_alone(cell_text(cell)))), month)
    month = month or month_alone(section)
    if month is None or not _is_numbered(grid[head + 1 :]):
        return False
    rows.groups += 1
    state = _Grid(month, _weekdays(grid[head]))
    for row in grid[head + 1 :]:
        _read_row(row, state, rows, section)
    return True


def _is_numbered(rows: Grid) -> bool:
    """Whether most cells open with the number of a day or stand in the row below such numbers."""
    filled = numbered = 0
    above: set[int] = set()
    for row in rows:
        if is_month_row(row) is not None or _weekday_count(row) >= LEAST_WEEKDAYS:
            continue
        cells = {index: cell for index, cell in enumerate(row) if cell is not None and cell_text(cell)}
        days = {index for index, cell in cells.items() if _day_of(cell.text)}
        filled += len(cells)
        numbered += len(days) if days else len(cells.keys() & above)
        above = days
    return numbered >= LEAST_NUMBERED * filled > 0


def _read_row(row: tuple[Cell | None, ...], state: _Grid, rows: Rows, section: str) -> None:
    named = is_month_row(row)
    if named is not None:
        state.begin(named)
        return
    if _weekday_count(row) >= LEAST_WEEKDAYS:
        state.weekdays = _weekdays(row)
        return
    cells = [(index, cell) for index, cell in enumerate(row) if cell is not None and cell.column - 1 == index]
    matches = {index: match for index, cell in cells if (match := _day_of(cell.text))}
    if not matches:
        for index, cell in cells:
            if (day := state.days.get(index)) is not None:
                _add(cell, 0, day, rows, section)
        return
    state.days = {}
    state.see_row([int(match[2]) for match in matches.values()])
    for index, cell in cells:
        match = matches.get(index)
        if match is not None:
            month = month_alone(match[1]) if match[1] else None
            _add(cell, match.end(), state.next_day(month, int(match[2]), index), rows, section)


def _day_of(text: str) -> re.Match[str] | None:
    """The number of a day that opens a cell, perhaps behind the name of its month; "Quiz 1" is none."""
    match = _DAY.match(text)
    return match if match is not None and (not match[1] or month_alone(match[1]) is not None) else None


def _weekday(cell: Cell | None) -> Weekday | None:
    text = cell_text(cell)
    return (weekday_in(text) or FOREIGN_WEEKDAY_NAMES.get(text.strip(" .:").lower())) if 0 < len(text) < 14 else None


def _weekdays(row: tuple[Cell | None, ...]) -> list[Weekday | None]:
    return [_weekday(cell) for cell in row]


def _weekday_count(row: tuple[Cell | None, ...]) -> int:
    return len({day for cell in row if (day := _weekday(cell)) is not None})


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
