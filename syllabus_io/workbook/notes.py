"""Notes: a ruled page for each course, with a narrow column for key words; to print, or to type on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import Name
from syllabus_io.workbook.layout_plan import NOTES
from syllabus_io.workbook.pages import Sheaf
from syllabus_io.workbook.spans import join_cells

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["LINES", "write_notes"]

LINES = 26
_BLOCK_ROWS = LINES + 4
_HEIGHTS = (30.0, 20.0, 18.0)


def write_notes(book: Book) -> None:
    """Adds the sheet, a page a course, and one without a course."""
    sheet = book.add_sheet(NOTES)
    across, down = Sheaf(book.options.paper, False).room
    width = (across - 3 * 5) / 7 - 0.2
    book.set_widths(sheet, [22.0, 18.0, width - 40.0])
    line = (down * 0.975 - sum(_HEIGHTS) - 14.0) / LINES
    count = len(book.plan.resolved.courses)
    areas = []
    for number in range(count + 1):
        top = 1 + number * _BLOCK_ROWS
        _write_page(book, sheet, top, number + 1 if number < count else None, line)
        areas.append(f"A{top}:C{top + _BLOCK_ROWS - 1}")
    book.set_print(sheet, ",".join(areas))


def _write_page(book: Book, sheet: Worksheet, top: int, course: int | None, line: float) -> None:
    """One page; ``course`` is the number of its course, None for a page of no course."""
    title = Formula(f'"Notes: "&INDEX({Name.COURSES},{course})') if course else "Notes"
    book.put(sheet, top, 1, title, "title")
    sheet.merge_cells(start_row=top, start_column=1, end_row=top, end_column=3)
    for column, word in enumerate(("Day:", "Topic:", None), start=1):
        book.put(sheet, top + 1, column, word, "entry_line")
    book.put(sheet, top + 2, 1, "Key words, questions", "small_note")
    book.put(sheet, top + 2, 2, "Notes", "small_note")
    for row, height in enumerate(_HEIGHTS):
        sheet.row_dimensions[top + row].height = height
    for at in range(top + 3, top + 3 + LINES):
        for column in range(1, 4):
            book.put(sheet, at, column, None, "entry_line")
        join_cells(sheet, at, (2, 3))
        sheet.row_dimensions[at].height = line
    sheet.row_dimensions[top + 3 + LINES].height = 14.0
    words = "In one line: what was it about?"
    book.put(sheet, top + 3 + LINES, 1, words, "small_note")
    sheet.merge_cells(start_row=top + 3 + LINES, start_column=1, end_row=top + 3 + LINES, end_column=3)
