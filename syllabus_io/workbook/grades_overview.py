"""Grades overview: every course on one page."""

from __future__ import annotations

from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.grade_formulas import Block
from syllabus_io.workbook.grades import CAUTION
from syllabus_io.workbook.layout import OVERVIEW, OVERVIEW_TABLE, Name, quote_sheet

__all__ = ["fill_grades_overview", "write_grades_overview"]

_TABLE = OVERVIEW_TABLE
_STYLES = {
    "course": "strong",
    "title": "text",
    "letter": "centre",
    "marks": "centre",
    "credits": "whole_centre",
}


def write_grades_overview(book: Book) -> None:
    """Adds the sheet in its place, before those of the courses; it is filled once they stand."""
    sheet = book.add_sheet(OVERVIEW)
    book.head(sheet, "Grades overview", CAUTION, len(_TABLE.columns))
    how = "Figures come from each course's sheet; set the target there. Current: over the marks so far."
    book.put(sheet, 3, 1, how, "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=3, end_column=len(_TABLE.columns))
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 32
    book.set_widths(sheet, [column.width for column in _TABLE.columns])
    sheet.freeze_panes = f"A{_TABLE.first_row}"


def fill_grades_overview(book: Book, blocks: tuple[Block, ...]) -> None:
    """Writes a row for each course from where its figures stand."""
    sheet = book.workbook[OVERVIEW]
    for number, (course, block) in enumerate(zip(book.plan.resolved.courses, blocks, strict=True), start=1):
        at = _TABLE.heading_row + number
        title = course.outline.course.title or ""
        name = quote_sheet(block.marks.sheet)
        states = f"{name}!{block.column('state')}"
        graded = f'COUNTIF({states},"graded")'
        values: dict[str, Value] = {
            "course": Formula(f'INDEX({Name.COURSES},{number})&""'),
            "title": title,
            "current": Formula(f"{name}!{block.current}"),
            "letter": Formula(f'IF({name}!{block.current}="","–",{name}!{block.letter})'),
            "lowest": Formula(f"{name}!{block.lowest}"),
            "highest": Formula(f"{name}!{block.highest}"),
            "target": Formula(f"{name}!{block.target}"),
            "enough": Formula(f"{name}!{block.enough}"),
            "marks": Formula(f'{graded}&" of "&{graded}+COUNTIF({states},"open")'),
            "credits": Formula(f'IF(ISNUMBER(INDEX({Name.CREDITS},{number})),INDEX({Name.CREDITS},{number}),"")'),
        }
        for column_number, column in enumerate(_TABLE.columns, start=1):
            if column.key == "sheet":
                book.put_link(sheet, at, column_number, "Open", f"{name}!A1")
                continue
            style = _STYLES.get(column.key, "percent_fine")
            book.put(sheet, at, column_number, values[column.key], style, typed=column.key == "title")
        sheet.row_dimensions[at].height = row_height([(title, _TABLE.columns[1].width), (course.key, 14)], least=20)
    last = _TABLE.heading_row + max(1, len(blocks))
    book.colour_courses(sheet, f"A{_TABLE.first_row}:A{last}", f"$A{_TABLE.first_row}")
    book.set_print(sheet, f"A1:{_TABLE.letter('sheet')}{last}", landscape=True)
