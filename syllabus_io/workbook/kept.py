"""Kept words: what was typed and has no place in the plan, word for word. The sheet exists only when there is some."""

from __future__ import annotations

from collections.abc import Sequence

from syllabus_io.workbook.book import Book, row_height
from syllabus_io.workbook.edits import KeptNote
from syllabus_io.workbook.layout_store import KEPT, KEPT_TABLE

__all__ = ["write_kept"]


def write_kept(book: Book, notes: Sequence[KeptNote]) -> None:
    """Adds the sheet when there are notes. Rows that the person deletes stay deleted."""
    if not notes:
        return
    sheet = book.add_sheet(KEPT)
    book.set_widths(sheet, [column.width for column in KEPT_TABLE.columns])
    how = "An update found no place for these words. Copy what you need, then delete the row."
    book.head(sheet, KEPT, how, len(KEPT_TABLE.columns))
    for number, column in enumerate(KEPT_TABLE.columns, start=1):
        book.put(sheet, KEPT_TABLE.heading_row, number, column.heading, "heading")
    for at, note in enumerate(notes, start=KEPT_TABLE.first_row):
        texts = (note.sheet, note.where, note.words, note.why)
        for number, text in enumerate(texts, start=1):
            book.put(sheet, at, number, text, "text", typed=True)
        widths = [column.width for column in KEPT_TABLE.columns]
        sheet.row_dimensions[at].height = row_height(list(zip(texts, widths, strict=True)))
    book.set_print(sheet, f"A1:D{KEPT_TABLE.heading_row + len(notes)}", landscape=True, repeat_rows="4:4")
