"""Lists (hidden): what drop-downs offer, and the readings of dates that can be several days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import KINDS, LISTS, Name, column_letter
from syllabus_io.workbook.review_rows import MOST_READINGS

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_lists"]

_READINGS_COLUMN = 20  # from here on; the columns before it are for lists of words


def write_lists(book: Book) -> None:
    """Adds the hidden sheet: kinds of items, and courses to show with "All" first."""
    sheet = book.add_sheet(LISTS, hidden=True)
    for number, kind in enumerate(KINDS, start=1):
        book.put(sheet, number, 1, kind, "hidden")
    book.name(Name.KIND_LIST, LISTS, "A1", f"A{len(KINDS)}")
    book.put(sheet, 1, 2, "All", "hidden")
    count = max(1, len(book.plan.resolved.courses))
    for number in range(1, count + 1):
        book.put(sheet, number + 1, 2, Formula(f'INDEX({Name.COURSES},{number})&""'), "hidden")
    book.name(Name.COURSE_CHOICES, LISTS, "B1", f"B{count + 1}")
    _write_readings(book, sheet, _READINGS_COLUMN)


def _write_readings(book: Book, sheet: Worksheet, column: int) -> None:
    """The readings of dates that can be several days, a row for each such row of Review: id, days, last days."""
    rows = [row for row in book.rows if row.readings]
    for at, row in enumerate(rows, start=1):
        book.put(sheet, at, column, row.id, "hidden", typed=True)
        for offset, (first, last) in enumerate(row.readings, start=1):
            book.put(sheet, at, column + offset, first, "hidden_date")
            book.put(sheet, at, column + MOST_READINGS + offset, last, "hidden_date")
    bottom = max(1, len(rows))
    book.name(Name.READING_IDS, LISTS, f"{column_letter(column)}1", f"{column_letter(column)}{bottom}")
    for name, first_column in ((Name.READING_DAYS, column + 1), (Name.READING_ENDS, column + MOST_READINGS + 1)):
        left, right = column_letter(first_column), column_letter(first_column + MOST_READINGS - 1)
        book.name(name, LISTS, f"{left}1", f"{right}{bottom}")
