"""The pages of a binder that are no sheets: cover, contents with page numbers, and a divider for each part."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from syllabus_io.workbook.language import Language
from syllabus_io.workbook.layout import AS_PRINTED, DEADLINES, EXAMS, GRADES, OVERVIEW, REVIEW, START, TERM, TIMETABLE
from syllabus_io.workbook.layout_plan import NOTES
from syllabus_io.workbook.pages import MARGINS
from syllabus_io.workbook.print_copy import PrintFacts
from syllabus_io.workbook.styles import FACE
from syllabus_io.workbook.text_fit import row_height

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["Contents", "part_of", "write_binder_pages"]

_PARTS = {
    "The term": (TERM, TIMETABLE),
    "What is due": (REVIEW, AS_PRINTED, DEADLINES, EXAMS),
    "Grades": (OVERVIEW,),
    "Notes": (NOTES,),
}
_OTHER = "Work, weeks and days"
_WIDTH = 66.0  # characters of the page's text
_CAUTION = "The instructors' outlines and announcements govern. This plan repeats what was read from them."


@dataclass(frozen=True, slots=True)
class Contents:
    """What the pages say: facts of the plan, the first page of each sheet, the parts that there are, the paper."""

    facts: PrintFacts
    first_pages: Mapping[str, int]
    parts: tuple[str, ...]
    paper: str


def part_of(sheet: str, language: Language) -> str:
    """The part to which a sheet belongs, in English; "" for Start here, which stands before all parts."""
    sheet = language.original(sheet)
    if sheet == START:
        return ""
    if sheet.startswith(f"{GRADES} "):
        return "Grades"
    if sheet.startswith(f"{NOTES} "):
        return "Notes"
    return next((part for part, sheets in _PARTS.items() if sheet in sheets), _OTHER)


def write_binder_pages(contents: Contents) -> bytes:
    """A workbook with one page for the cover, one for the contents, and one for each part in order."""
    from openpyxl import Workbook

    book = Workbook()
    for sheet in book.worksheets:
        book.remove(sheet)
    _write_cover(book, contents)
    _write_contents(book, contents)
    for number, part in enumerate(contents.parts, start=1):
        _write_divider(book, contents, number, part)
    packed = io.BytesIO()
    book.save(packed)
    return packed.getvalue()


def _add_page(book: Workbook, title: str, paper: str) -> Worksheet:
    from openpyxl.worksheet.properties import PageSetupProperties

    sheet: Worksheet = book.create_sheet(title)
    sheet.sheet_view.showGridLines = False
    sheet.page_setup.paperSize = 9 if paper == "a4" else 1
    sheet.page_setup.orientation = "portrait"
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_setup.fitToWidth = sheet.page_setup.fitToHeight = 1
    margins, page = MARGINS[False], sheet.page_margins
    page.left, page.right, page.top, page.bottom = margins.left, margins.right, margins.top, margins.bottom
    sheet.column_dimensions["A"].width = _WIDTH
    sheet.column_dimensions["B"].width = 10
    return sheet


def _put(
    sheet: Worksheet, row: int, text: str | int, size: float, bold: bool = False, column: int = 1, right: bool = False
) -> None:
    from openpyxl.styles import Alignment, Font

    cell = sheet.cell(row, column)
    cell.value = text
    if isinstance(text, str):
        cell.data_type = "s"
    cell.font = Font(name=FACE, size=size, bold=bold)
    cell.alignment = Alignment(wrap_text=True, vertical="top", horizontal="right" if right else "left")
    if column == 1:
        sheet.row_dimensions[row].height = row_height([(str(text), _WIDTH)], size=size, bold=bold)


def _write_cover(book: Workbook, contents: Contents) -> None:
    facts, text = contents.facts, contents.facts.language.text
    sheet = _add_page(book, "Cover", contents.paper)
    sheet.row_dimensions[1].height = 150
    _put(sheet, 2, facts.term or text("Plan of the term"), 34, bold=True)
    if facts.student:
        _put(sheet, 4, facts.student, 20)
    row = 7
    for course in facts.courses:
        _put(sheet, row, course, 14)
        row += 1
    _put(sheet, row + 2, text(_CAUTION), 10)


def _write_contents(book: Workbook, contents: Contents) -> None:
    text = contents.facts.language.text
    sheet = _add_page(book, "Contents", contents.paper)
    _put(sheet, 1, text("Contents"), 24, bold=True)
    row, part = 3, ""
    for name, page in contents.first_pages.items():
        if part_of(name, contents.facts.language) != part:
            part = part_of(name, contents.facts.language)
            row += 1
            _put(sheet, row, text(part), 12, bold=True)
            row += 1
        _put(sheet, row, name, 11)
        _put(sheet, row, page, 11, column=2, right=True)
        row += 1


def _write_divider(book: Workbook, contents: Contents, number: int, part: str) -> None:
    sheet = _add_page(book, f"Part {number}", contents.paper)
    sheet.row_dimensions[1].height = 190
    _put(sheet, 2, contents.facts.language.text(f"Part {number}"), 14)
    _put(sheet, 3, contents.facts.language.text(part), 34, bold=True)
    row = 5
    for name in contents.first_pages:
        if part_of(name, contents.facts.language) == part:
            _put(sheet, row, name, 12)
            row += 1
