"""Formulas that are written once for a whole block of cells, as spreadsheet programs write them (ECMA-376 part 1,
18.3.1.40).

The first cell of a block holds the text; the others refer to it and mean the same with their references moved along.
Microsoft's description of the format (MS-XLSB 2.5.98.98, SharedParsedFormula) allows no reference to another sheet
there, no array and no range made by a function; names are allowed, wherever they lead. Formulas with such references
stay as they are, one for each cell.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from syllabus_io.workbook.layout import column_letter

__all__ = ["FormulaCell", "shared_formulas"]

_CELL = re.compile(r"""("[^"]*"|'[^']*')|(?<![\w.])(\$?)([A-Z]{1,3})(\$?)([0-9]+)(?![\w.(])""")
_LETTERS: dict[str, int] = {}


@dataclass(frozen=True, slots=True)
class FormulaCell:
    """How a formula cell is written: its text ("" when another cell of its block holds it), and the block's number
    and area, None and "" for a formula of its own."""

    text: str
    block: int | None = None
    area: str = ""


def shared_formulas(
    formulas: Mapping[tuple[int, int], str], across_sheets: bool = False
) -> dict[tuple[int, int], FormulaCell]:
    """How each formula of a sheet is written, by row and column; texts come without their equals sign.

    ``across_sheets`` also shares formulas with references to other sheets: an engine reads them, not every program.
    """
    written: dict[tuple[int, int], FormulaCell] = {}
    blocks = 0
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
        self._pieces: list[str] = []
        self._cells: list[tuple[str, int, int, int]] = []  # fixed or empty letters, column, row to move, fixed row
        at = 0
        for match in _CELL.finditer(text):
            if match[1]:
                continue
            self._pieces.append(text[at : match.start()])
            column = 0 if match[2] else _column(match[3])
            letters = "$" + match[3] if match[2] else match[3]
            row = int(match[5])
            self._cells.append((letters, column, 0 if match[4] else row, row))
            at = match.end()
        self._rest = text[at:]

    def by(self, rows: int, columns: int) -> str:
        """The text so many rows further down and columns further right."""
        texts = []
        for piece, (letters, column, row, fixed) in zip(self._pieces, self._cells, strict=True):
            texts.append(piece)
            texts.append(column_letter(column + columns) if column and columns else letters)
            texts.append(str(row + rows) if row else f"${fixed}")
        texts.append(self._rest)
        return "".join(texts)


def _column(letters: str) -> int:
    number = _LETTERS.get(letters)
    if number is None:
        number = 0
        for letter in letters:
            number = number * 26 + ord(letter) - ord("A") + 1
        _LETTERS[letters] = number
    return number
