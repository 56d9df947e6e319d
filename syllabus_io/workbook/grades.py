"""Grades of one course: its categories, every graded item with room for the mark, and where it all stands."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.workbook.book import Book
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.grades_hidden import block_for, write_block
from syllabus_io.workbook.grades_place import Spare, place_grades
from syllabus_io.workbook.grades_rows import CourseGrades, read_course_grades
from syllabus_io.workbook.grades_scheme import CAUTION, write_scheme
from syllabus_io.workbook.grades_table import write_charts, write_marks
from syllabus_io.workbook.layout import GRADE_SUMS, MARKS_COLUMNS, grades_sheet_names

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["CAUTION", "write_course_grades", "write_grade_sums", "write_grades"]

_FIRST_BLOCK = 3
_CHARACTER = 5.25  # points of a character of column width; programs that draw columns wider shrink the page more
_PAGE_POINTS = {"letter": 490.0, "a4": 473.0}  # height of a landscape page between the margins of Book.set_print
_PAGE_WIDTH = {"letter": 720.0, "a4": 770.0}


def write_grades(book: Book) -> tuple[GradesBlock, ...]:
    """Adds a sheet for each course; returns where its figures stand and are computed, in the plan's order."""
    courses = book.plan.resolved.courses
    blocks: list[GradesBlock] = []
    top = _FIRST_BLOCK
    for course, title in zip(courses, grades_sheet_names(course.key for course in courses), strict=True):
        own = [row for row in book.rows if row.course == course.key]
        block = write_course_grades(book, title, _heading(course), read_course_grades(course, own), top)
        blocks.append(block)
        top = block.end
    return tuple(blocks)


def _heading(course: ResolvedCourse) -> str:
    title = course.outline.course.title
    return f"{course.key}: {title}" if title and title != course.key else course.key


def write_course_grades(
    book: Book, title: str, heading: str, grades: CourseGrades, top: int, spare: Spare | None = None
) -> GradesBlock:
    """Adds the sheet of one course, which is computed from row ``top`` of the hidden sheet on."""
    sheet = book.add_sheet(title)
    block = block_for(place_grades(title, grades, spare or Spare()), top)
    write_scheme(book, sheet, block, heading, grades)
    write_marks(book, sheet, block, grades)
    write_charts(sheet, block, grades)
    _finish(book, sheet, block)
    return block


def write_grade_sums(book: Book, blocks: tuple[GradesBlock, ...]) -> None:
    """Adds the hidden sheet on which all grades are computed."""
    sheet = book.add_sheet(GRADE_SUMS, hidden=True)
    sheet["A1"].value = "Computed from the grades sheets; nothing is to be typed here."
    for block in blocks:
        write_block(book, sheet, block)


def _finish(book: Book, sheet: Worksheet, block: GradesBlock) -> None:
    place = block.place
    widths = [column.width for column in MARKS_COLUMNS]
    hidden = tuple(number for number, column in enumerate(MARKS_COLUMNS, start=1) if column.hidden)
    book.set_widths(sheet, widths, hidden)
    sheet.freeze_panes = "A5"
    repeat = f"{place.marks_heading}:{place.marks_heading}"
    book.set_print(sheet, f"A1:N{place.marks_closing}", landscape=True, repeat_rows=repeat)
    _break_pages(book, sheet, block)


def _break_pages(book: Book, sheet: Worksheet, block: GradesBlock) -> None:
    """Page breaks between the bands of the upper part, so that no chart or table is cut; the marks follow on."""
    from openpyxl.worksheet.pagebreak import Break

    place = block.place
    width = sum(column.width for column in MARKS_COLUMNS if not column.hidden) * _CHARACTER
    room = _PAGE_POINTS[book.options.paper] / min(1.0, _PAGE_WIDTH[book.options.paper] / width)
    settings = sheet[place.setting("method").replace("$", "")].row - 1
    charts = place.categories.closing + 1
    bands = (1, place.categories.heading, charts, place.scale.heading, settings, place.marks_heading)
    used = 0.0
    for start, end in pairwise(bands):
        height = sum(sheet.row_dimensions[row].height or 15.0 for row in range(start, end))
        if used and used + height > room:
            sheet.row_breaks.append(Break(id=start - 1))
            used = 0.0
        used += height
