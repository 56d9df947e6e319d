"""The hidden sheet that computes every course's grades: a block of rows for each course, one under the other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from openpyxl.utils.cell import column_index_from_string

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.grades_block import NEXT, NUMBER, POINTS, ROW, GradesBlock, GradesPlace
from syllabus_io.workbook.grades_marks import mark_formulas
from syllabus_io.workbook.grades_pieces import (
    category_pieces,
    mark_pieces,
    part_pieces,
    piece_formulas,
    piece_singles,
)
from syllabus_io.workbook.grades_sums import category_formulas, part_formulas, single_formulas
from syllabus_io.workbook.grades_targets import target_formulas

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["INSERTED_MARKS", "INSERTED_OTHERS", "block_for", "write_block"]

INSERTED_MARKS = 6
"""How many rows for marks may be inserted beyond those on the sheet before the sheet says that there are too many."""

INSERTED_OTHERS = 1
"""The same for categories, parts and letters."""


def block_for(place: GradesPlace, top: int) -> GradesBlock:
    """The block that computes a course's sheet, from row ``top`` on, with room for inserted rows."""
    parts = place.parts.closing - place.parts.heading - 1 + INSERTED_OTHERS
    return GradesBlock(
        place,
        top,
        mark_count=place.marks_closing - place.marks_heading - 1 + INSERTED_MARKS,
        category_count=max(parts, place.categories.closing - place.categories.heading - 1 + INSERTED_OTHERS),
        part_count=parts,
        step_count=place.scale.closing - place.scale.heading - 1 + INSERTED_OTHERS,
    )


def write_block(book: Book, sheet: Worksheet, block: GradesBlock) -> None:
    """Writes the block: single figures, then a row for each mark, category, point, part and target."""
    sheet.cell(block.top, 1).value = block.place.sheet
    singles = single_formulas(block) | piece_singles(block)
    _put(sheet, {block.one(key): formula for key, formula in singles.items()}, block.top + 1)
    marks = _cells(block.mark, mark_formulas(block) | mark_pieces(block))
    categories = _cells(block.category, category_formulas(block) | category_pieces(block))
    parts = _cells(block.part, part_formulas(block) | part_pieces(block))
    for first, count, cells in (
        (block.first_mark, block.mark_count, marks),
        (block.first_category, block.category_count, categories),
        (block.first_part, block.part_count, parts),
        (block.first_target, block.step_count, _cells(block.target, target_formulas(block, is_own=False))),
        (block.own_target, 1, _cells(block.target, target_formulas(block, is_own=True))),
    ):
        _fill(book, sheet, first, count, cells)
    further, marks_from = block.first_piece + 1, block.first_piece + block.category_count
    for first, end in ((block.first_piece, further), (further, marks_from), (marks_from, marks_from + POINTS)):
        if end > first:
            _fill(book, sheet, first, end - first, _cells(block.piece, piece_formulas(block, first)))


def _fill(book: Book, sheet: Worksheet, first: int, count: int, cells: Mapping[str, str]) -> None:
    """Writes formulas made for any row into some rows."""
    for cell, formula in cells.items():
        column = column_index_from_string(cell.replace("$", "").replace(ROW, ""))
        if formula == NUMBER:
            for number in range(1, count + 1):
                sheet.cell(first + number - 1, column).value = number
        else:
            book.fill(sheet, first, column, count, Formula(_at_row(formula, first)))


def _cells(place: Callable[[str], str], formulas: Mapping[str, str]) -> dict[str, str]:
    """Formulas by the cell they stand in, for a row yet to be named."""
    return {place(key): formula for key, formula in formulas.items()}


def _put(sheet: Worksheet, cells: Mapping[str, str], row: int) -> None:
    """Writes formulas made for any row into one."""
    for cell, formula in cells.items():
        sheet[_at_row(cell, row).replace("$", "")].value = "=" + _at_row(formula, row)


def _at_row(text: str, row: int) -> str:
    return text.replace(ROW, str(row)).replace(NEXT, str(row + 1))
