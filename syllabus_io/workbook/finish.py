"""The last hand on every sheet, the same for all: protection, and cells to fill in that are joined.

Protection has no password: it guards formulas against a slip, and a person lifts it with one click. Only cells meant to
be filled in are open; columns and rows may be widened, and lists filtered.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING, Any, cast

from openpyxl.cell.cell import MergedCell

from syllabus_io.workbook.book import Book

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["finish_sheets"]

_ALLOWED = ("formatCells", "formatColumns", "formatRows", "insertRows", "insertHyperlinks", "sort", "autoFilter")


def finish_sheets(book: Book) -> None:
    """Protects every sheet of the book."""
    for sheet in book.workbook.worksheets:
        _join_entries(sheet)
        _protect(sheet)


def _join_entries(sheet: Worksheet) -> None:
    """Cells joined with one to fill in are as open as it is: some programs ask all of them."""
    for cells in sheet.merged_cells.ranges:
        first = sheet.cell(cells.min_row, cells.min_col)
        if isinstance(first, MergedCell) or first.protection.locked:
            continue
        style = cast("Any", first)._style  # what its style's name stands for
        for row, column in cells.cells:
            if (row, column) != (cells.min_row, cells.min_col):
                joined: Any = sheet.cell(row, column)
                joined._style = copy(style)


def _protect(sheet: Worksheet) -> None:
    """Turns protection on, without a password."""
    sheet.protection.sheet = True
    for right in _ALLOWED:
        setattr(sheet.protection, right, False)  # the file format notes what is forbidden
