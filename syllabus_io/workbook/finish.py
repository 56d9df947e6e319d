"""The last hand on every sheet, the same for all: protection, and cells to fill in that are joined.

Protection has no password: it guards formulas against a slip, and a person lifts it with one click. Only cells meant to
be filled in are open; columns and rows may be widened, and lists filtered.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING, Any

from openpyxl.cell.cell import MergedCell
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.workbook.book import Book, row_height
from syllabus_io.workbook.layout import GRADES, OVERVIEW, column_letter
from syllabus_io.workbook.styles import SIZE

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["finish_sheets"]

_USUAL_HEIGHT = 15.0  # points of a row whose height is not set
_ALLOWED = ("formatCells", "formatColumns", "formatRows", "insertRows", "insertHyperlinks", "sort", "autoFilter")


def finish_sheets(book: Book) -> None:
    """Protects every sheet of the book, and makes rows high enough for what stands in them."""
    for sheet in book.workbook.worksheets:
        _join_entries(sheet)
        # A course's grades are laid out page by page: their rows are high enough as they were written.
        if (sheet.sheet_state == "visible" and not sheet.title.startswith(f"{GRADES} ")) or sheet.title == OVERVIEW:
            _fit_rows(sheet)
        _protect(sheet)


def _fit_rows(sheet: Worksheet) -> None:
    """Raises the height of rows whose wrapped texts need more; what formulas give is left to the sheet's own module."""
    joined = {(cells.min_row, cells.min_col): cells for cells in sheet.merged_cells.ranges}
    widths = [
        0.0 if (one := sheet.column_dimensions[column_letter(number)]).hidden else one.width
        for number in range(1, sheet.max_column + 1)
    ]
    for row in sheet.iter_rows():
        for cell in row:
            text = cell.value
            if cell.data_type != "s" or not isinstance(text, str) or not cell.alignment.wrap_text:
                continue
            at, column = coordinate_to_tuple(cell.coordinate)
            area = joined.get((at, column))
            if area is not None and area.max_row > at:
                continue
            width = sum(widths[column - 1 : area.max_col if area else column])
            dimension = sheet.row_dimensions[at]
            if not width or dimension.hidden:
                continue
            needed = row_height([(text, width)], size=cell.font.sz or SIZE, least=0.0, bold=bool(cell.font.b))
            if needed > (dimension.height or _USUAL_HEIGHT):
                dimension.height = needed


def _join_entries(sheet: Worksheet) -> None:
    """Cells joined with another are dressed as it is: its borders go around all of them. Those joined with one to fill
    in are as open as it is, too: some programs ask all of them."""
    for cells in sheet.merged_cells.ranges:
        first: Any = sheet.cell(cells.min_row, cells.min_col)
        if isinstance(first, MergedCell):
            continue
        for row, column in cells.cells:
            joined: Any = sheet.cell(row, column)
            if joined is not first and (isinstance(joined, MergedCell) or not first.protection.locked):
                joined._style = copy(first._style)  # what its style's name stands for


def _protect(sheet: Worksheet) -> None:
    """Turns protection on, without a password."""
    sheet.protection.sheet = True
    for right in _ALLOWED:
        setattr(sheet.protection, right, False)  # the file format notes what is forbidden
