"""Formulas that are written once for a whole block of cells, as spreadsheet programs write them (ECMA-376 part 1,
18.3.1.40).

The first cell of a block holds the text; the others refer to it and mean the same with their references moved along.
Microsoft's description of the format (MS-XLSB 2.5.98.98, SharedParsedFormula) allows no reference to another sheet
there, no array and no range made by a function; names are allowed, wherever they lead. Formulas with such references
stay as they are, one for each cell.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from syllabus_io.workbook.layout import column_letter

__all__ = ["FilledCells", "FormulaCell", "shared_formulas"]

_CELL = re.compile(r"""("[^"]*"|'[^']*')|(?<![\w.])(\$?)([A-Z]{1,3})(\$?)([0-9]+)(?![\w.(])""")
_LETTERS: dict[str, int] = {}


@dataclass(frozen=True, slots=True)
class FormulaCell:
    """How a formula cell is written: its text ("" when another cell of its block holds it), and the block's number
    and area, None and "" for a formula of its own."""

    text: str
    block: int | None = None
    area: str = ""


@dataclass(frozen=True, slots=True)
class FilledCells:
    """Cells of a column that hold the formula of the first of them, its references moved along."""

    row: int
    column: int
    rows: int

    @property
    def first(self) -> tuple[int, int]:
        """Row and column of the cell that holds the formula."""
        return self.row, self.column

    @property
    def cells(self) -> list[tuple[int, int]]:
        """Row and column of each."""
        return [(self.row + offset, self.column) for offset in range(self.rows)]


def shared_formulas(
    formulas: Mapping[tuple[int, int], str], filled: Sequence[FilledCells] = (), across_sheets: bool = False
) -> dict[tuple[int, int], FormulaCell]:
    """How each formula of a sheet is written, by row and column; texts come without their equals sign.

    ``across_sheets`` also shares formulas with references to other sheets: an engine reads them, not every program.
    """
    written: dict[tuple[int, int], FormulaCell] = {}
    for number, one in enumerate(filled):
        text = formulas[one.first]
        written |= _filled(one, text, number if across_sheets or _is_sharable(text) else None)
    blocks = len(filled)
    for row, column in sorted(formulas, key=lambda at: (at[1], at[0])):
        if (row, column) in written:
            continue
        text = formulas[row, column]
        if not across_sheets and not _is_sharable(text):
            written[row, column] = FormulaCell(text)
            continue
        last_row, last_column = _block(formulas, written, (row, column))
        if (last_row, last_column) == (row, column):
            written[row, column] = FormulaCell(text)
            continue
        follower = FormulaCell("", blocks)
        for cell in _cells((row, column), (last_row, last_column)):
            written[cell] = follower
        area = f"{column_letter(column)}{row}:{column_letter(last_column)}{last_row}"
        written[row, column] = FormulaCell(text, blocks, area)
        blocks += 1
    return written


def _is_sharable(text: str) -> bool:
    return not any(mark in text for mark in "![{#")


def _filled(column: FilledCells, text: str, block: int | None) -> dict[tuple[int, int], FormulaCell]:
    if block is None or column.rows == 1:
        moved = _Moved(text)
        return {at: FormulaCell(moved.by(offset, 0)) for offset, at in enumerate(column.cells)}
    letter = column_letter(column.column)
    area = f"{letter}{column.row}:{letter}{column.row + column.rows - 1}"
    return dict.fromkeys(column.cells, FormulaCell("", block)) | {column.first: FormulaCell(text, block, area)}


def _block(
    formulas: Mapping[tuple[int, int], str], taken: Mapping[tuple[int, int], object], first: tuple[int, int]
) -> tuple[int, int]:
    """The last row and column of the block that begins in a cell: down as far as it goes, then to the right."""
    row, column = first
    moved = _Moved(formulas[first])

    def follows(at: tuple[int, int]) -> bool:
        text = formulas.get(at)
        return text is not None and at not in taken and text == moved.by(at[0] - row, at[1] - column)

    last_row, last_column = row, column
    while follows((last_row + 1, column)):
        last_row += 1
    while all(follows((at, last_column + 1)) for at in range(row, last_row + 1)):
        last_column += 1
    return last_row, last_column


def _cells(first: tuple[int, int], last: tuple[int, int]) -> Iterator[tuple[int, int]]:
    for row in range(first[0], last[0] + 1):
        for column in range(first[1], last[1] + 1):
            yield row, column


class _Moved:
    """A formula as it reads when it is copied to another cell."""

    def __init__(self, text: str) -> None:
        self._texts: list[str] = []
        self._moving: list[tuple[int, int, int]] = []  # place of its letters in the texts, column and row, 0 if fixed
        at = 0
        for match in _CELL.finditer(text):
            if match[1]:
                continue
            if match[2] and match[4]:
                continue
            self._texts.append(text[at : match.start()])
            column, row = 0 if match[2] else _column(match[3]), 0 if match[4] else int(match[5])
            self._moving.append((len(self._texts), column, row))
            self._texts += [match[2] + match[3], match[4] + match[5]]
            at = match.end()
        self._texts.append(text[at:])

    def by(self, rows: int, columns: int) -> str:
        """The text so many rows further down and columns further right."""
        texts = self._texts.copy()
        for place, column, row in self._moving:
            if row:
                texts[place + 1] = str(row + rows)
            if columns and column:
                texts[place] = column_letter(column + columns)
        return "".join(texts)


def _column(letters: str) -> int:
    number = _LETTERS.get(letters)
    if number is None:
        number = 0
        for letter in letters:
            number = number * 26 + ord(letter) - ord("A") + 1
        _LETTERS[letters] = number
    return number
