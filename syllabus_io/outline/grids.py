"""Tables as grids: a column with what it holds, the words of a cell, rows that say nothing but a month."""

from __future__ import annotations

from dataclasses import dataclass

from syllabus_io.extract.document import Cell
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.row_dates import month_alone
from syllabus_io.resolve.expression import Phrase, Weekday

__all__ = ["Column", "Grid", "cell_text", "distinct_cells", "is_month_row"]

Grid = tuple[tuple[Cell | None, ...], ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its number from 0, role, heading words, and the weekday or clock time of its heading."""

    index: int
    role: ColumnRole | None
    heading: str = ""
    weekday: Weekday | None = None
    clock: Phrase | None = None
    of_week: bool = False


def cell_text(cell: Cell | None) -> str:
    """The words of a cell on one line, empty for a hole."""
    return " ".join(cell.text.split()) if cell is not None else ""


def distinct_cells(row: tuple[Cell | None, ...]) -> list[Cell]:
    """The cells of a row, one that covers several positions once."""
    cells: list[Cell] = []
    for cell in row:
        if cell is not None and cell not in cells:
            cells.append(cell)
    return cells


def is_month_row(row: tuple[Cell | None, ...]) -> int | None:
    """The month when a row of a table says nothing but a month; None otherwise."""
    texts = {text for cell in row if (text := cell_text(cell))}
    return month_alone(texts.pop()) if len(texts) == 1 else None
