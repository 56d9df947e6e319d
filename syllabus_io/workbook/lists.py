"""Lists (hidden): what drop-downs offer."""

from __future__ import annotations

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import KINDS, LISTS, Name

__all__ = ["write_lists"]


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
