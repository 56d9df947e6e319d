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
from xml.sax.saxutils import escape

from syllabus_io.workbook.layout import column_letter

__all__ = ["FilledCells", "formula_elements"]

_CELL = re.compile(r"""("[^"]*"|'[^']*')|(?<![\w.])(\$?)([A-Z]{1,3})(\$?)([0-9]+)(?![\w.(])""")
_LETTERS: dict[str, int] = {}


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


def formula_elements(
    formulas: Mapping[tuple[int, int], str], filled: Sequence[FilledCells] = (), across_sheets: bool = False
) -> dict[tuple[int, int], str]:
    """The element of each formula of a sheet, by row and column; texts come without their equals sign.

    ``across_sheets`` also shares formulas with references to other sheets: an engine reads them, not every program.
    """
    elements: dict[tuple[int, int], str] = {}
    for number, one in enumerate(filled):
        text = formulas[one.first]
        if one.rows > 1 and (across_sheets or _is_sharable(text)):
            elements |= dict.fromkeys(one.cells, _follower(number))
            elements[one.first] = _leader(text, number, one.first, (one.row + one.rows - 1, one.column))
        else:
            moved = _Moved(text)
            elements |= {at: _alone(moved.by(offset, 0)) for offset, at in enumerate(one.cells)}
    number = len(filled)
    for at in sorted(formulas, key=lambda at: (at[1], at[0])):
        if at in elements:
            continue
        text = formulas[at]
        last = _block(formulas, elements, at) if across_sheets or _is_sharable(text) else at
        if last == at:
            elements[at] = _alone(text)
            continue
        elements |= dict.fromkeys(_cells(at, last), _follower(number))
        elements[at] = _leader(text, number, at, last)
        number += 1
    return elements


def _alone(text: str) -> str:
    return f"<f>{_escaped(text)}</f>"


def _leader(text: str, block: int, first: tuple[int, int], last: tuple[int, int]) -> str:
    area = ":".join(f"{column_letter(column)}{row}" for row, column in (first, last))
    return f'<f t="shared" ref="{area}" si="{block}">{_escaped(text)}</f>'


def _follower(block: int) -> str:
    return f'<f t="shared" si="{block}"/>'


def _escaped(text: str) -> str:
    return escape(text, {"\r": "&#13;"})


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
