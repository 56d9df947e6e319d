"""Values that run over several columns of a row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Value
from syllabus_io.workbook.layout import column_letter

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["join_cells", "put_across"]


def put_across(
    book: Book, sheet: Worksheet, row: int, columns: tuple[int, int], value: Value, style: str, typed: bool = False
) -> None:
    """Writes a value over the columns from the first to the last given, all of them in the style."""
    first, last = columns
    book.put(sheet, row, first, value, style, typed=typed)
    for column in range(first + 1, last + 1):
        book.put(sheet, row, column, None, style)
    if last > first:
        join_cells(sheet, row, columns)


def join_cells(sheet: Worksheet, row: int, columns: tuple[int, int]) -> None:
    """Joins cells that are dressed already: much faster than letting them be dressed again, one border at a time."""
    from openpyxl.worksheet.cell_range import CellRange

    first, last = (column_letter(column) for column in columns)
    sheet.merged_cells.ranges.add(CellRange(f"{first}{row}:{last}{row}"))
