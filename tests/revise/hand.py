"""A person at a workbook, played by dice: types into cells meant to be filled in, adds, removes and swaps rows, adds
columns and sheets. What was typed is remembered by sheet, row id and heading, as the person would look for it."""

from __future__ import annotations

import io
import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any

import openpyxl
from openpyxl.cell.cell import MergedCell

__all__ = ["Hand", "Typed", "every_constant", "heading_column", "row_of"]

_HEADINGS = {"Review": 6}


def heading_column(sheet: Any, heading: str) -> int:
    """The column of Review under a heading."""
    return next(int(cell.column) for cell in sheet[_HEADINGS["Review"]] if cell.value == heading)


def row_of(sheet: Any, title: str) -> int:
    """The row of Review of the work with a title."""
    column = heading_column(sheet, "What")
    return next(at for at in range(7, sheet.max_row) if sheet.cell(at, column).value == title)


@dataclass(frozen=True, slots=True)
class Typed:
    """Something typed: what, on which sheet, in the row of which id (where rows have one) under which heading."""

    sheet: str
    value: object
    row_id: str = ""
    heading: str = ""


@dataclass(slots=True)
class Hand:
    """An open workbook and everything typed into it so far; each typed value occurs once."""

    content: bytes
    dice: random.Random
    typed: list[Typed] = field(default_factory=list)
    removed: list[str] = field(default_factory=list)
    book: Any = field(init=False)

    def __post_init__(self) -> None:
        self.book = openpyxl.load_workbook(io.BytesIO(self.content))

    def saved(self) -> bytes:
        """The file as saved now."""
        packed = io.BytesIO()
        self.book.save(packed)
        return packed.getvalue()

    def fill_cells(self, count: int) -> None:
        """Types into some of the cells that are meant to be filled in, over what stands there."""
        open_cells = [
            cell
            for sheet in self.book.worksheets
            if sheet.sheet_state == "visible"
            for line in sheet.iter_rows()
            for cell in line
            if not isinstance(cell, MergedCell) and cell.protection.locked is False
        ]
        for cell in self.dice.sample(open_cells, min(count, len(open_cells))):
            self.type_in(cell.parent, cell.row, cell.column, self._value(cell))

    def type_in(self, sheet: Any, row: int, column: int, value: object) -> None:
        """Types a value into a cell, over what stands there."""
        sheet.cell(row, column).value = value
        self._remember(sheet, row, column, value)

    def _value(self, cell: Any) -> object:
        number = len(self.typed)
        if "d" in cell.number_format and "m" in cell.number_format:
            return date(2026, 9, 1) + timedelta(days=number)
        if "h" in cell.number_format:
            return time(number // 60, number % 60)
        if cell.number_format in ("General", "@"):
            return f"typed words {number}"
        return 3 + number / 8

    def _remember(self, sheet: Any, row: int, column: int, value: object) -> None:
        self.typed = [one for one in self.typed if one.value != value]
        heading_row = _HEADINGS.get(sheet.title)
        row_id, heading = "", ""
        if heading_row and row > heading_row:
            row_id, heading = str(sheet.cell(row, 1).value or ""), str(sheet.cell(heading_row, column).value or "")
        self.typed.append(Typed(sheet.title, value, row_id, heading))

    def add_row(self) -> None:
        """Inserts a row among the items of Review and types into it."""
        sheet = self.book["Review"]
        at = self.dice.randint(8, 12)
        _let_go(sheet, at)
        sheet.insert_rows(at)
        for column, value in (
            (5, f"added work {len(self.typed)}"),
            (10, date(2027, 1, 1) + timedelta(len(self.typed))),
        ):
            sheet.cell(at, column).value = value
            self.typed.append(Typed("Review", value))

    def remove_row(self) -> None:
        """Removes one of the rows of Review that were read from the outline."""
        sheet = self.book["Review"]
        read = [at for at in range(7, 13) if sheet.cell(at, 1).value and sheet.cell(at, 1).value not in self.removed]
        at = self.dice.choice([at for at in read if not str(sheet.cell(at, 1).value).startswith("own-")])
        own = str(sheet.cell(at, 1).value)
        held = {_plain(cell.value) for cell in sheet[at] if cell.value is not None}
        self.typed = [one for one in self.typed if one.sheet != "Review" or one.value not in held]
        self.removed.append(own)
        _let_go(sheet, at)
        sheet.delete_rows(at)

    def insert_row_elsewhere(self) -> None:
        """A row put into the middle of a list on another sheet, with words in it."""
        title, headings = self.dice.choice(sorted(_LISTS.items()))
        sheet = self.book[title]
        heading_row = _row_with(sheet, headings)
        at = heading_row + self.dice.randint(2, 4)
        _let_go(sheet, at)
        sheet.insert_rows(at)
        column = next(int(cell.column) for cell in sheet[heading_row] if cell.value == headings[0])
        value = f"put in {len(self.typed)} on {title}"
        sheet.cell(at, column).value = value
        self.typed.append(Typed(title, value))

    def insert_column(self) -> None:
        """A column put into the middle of a list, with a heading and words."""
        title, headings = self.dice.choice(sorted(_LISTS.items()))
        sheet = self.book[title]
        heading_row = _row_with(sheet, headings)
        column = next(int(cell.column) for cell in sheet[heading_row] if cell.value == headings[1])
        _let_go(sheet, 1)
        sheet.insert_cols(column)
        name = f"between {len(self.typed)} on {title}"
        sheet.cell(heading_row, column).value = name
        sheet.cell(heading_row + 1, column).value = f"{name}, a word"
        self.typed += [Typed(title, name), Typed(title, f"{name}, a word")]

    def clear_cells(self) -> None:
        """Clears some typed cells again: what is cleared must stay cleared."""
        for sheet in self.book.worksheets:
            for line in sheet.iter_rows():
                for cell in line:
                    one = next(
                        (one for one in self.typed if one.sheet == sheet.title and one.value == cell.value), None
                    )
                    if one is not None and cell.value is not None and self.dice.random() < 0.1:
                        cell.value = None
                        self.typed.remove(one)

    def add_column(self) -> None:
        """A column of the person's own to the right of Review."""
        sheet = self.book["Review"]
        column = sheet.max_column + self.dice.randint(1, 3)
        name = f"my column {len(self.typed)}"
        sheet.cell(6, column).value = name
        self.typed.append(Typed("Review", name))
        for at in self.dice.sample(range(7, 20), 4):
            value = f"beside {at} in {name}"
            sheet.cell(at, column).value = value
            self._remember(sheet, at, column, value)

    def add_words_beside(self) -> None:
        """Words below everything on some sheets."""
        for title in ("Deadlines", "Timetable", "Start here"):
            sheet = self.book[title]
            value = f"note {len(self.typed)} under {title}"
            sheet.cell(sheet.max_row + 3, 2).value = value
            self.typed.append(Typed(title, value))

    def add_sheet(self) -> None:
        """A sheet of the person's own, with a formula."""
        sheet = self.book.create_sheet(f"Mine {len(self.typed)}")
        value = f"on my own sheet {len(self.typed)}"
        sheet["B2"], sheet["B3"] = value, "=1+1"
        self.typed.append(Typed(sheet.title, value))

    def sort_review(self) -> None:
        """Swaps the constants of rows of Review with their ids, as sorting does."""
        sheet = self.book["Review"]
        last = next((at for at in range(7, sheet.max_row) if sheet.cell(at, 1).value == "own-001"), 8)
        rows = list(range(7, last))
        order = rows[:]
        self.dice.shuffle(order)
        columns = [
            column
            for column in range(1, sheet.max_column + 1)
            if not any(str(sheet.cell(at, column).value or "").startswith("=") for at in rows)
        ]
        held = {at: [sheet.cell(at, column).value for column in columns] for at in rows}
        for at, other in zip(rows, order, strict=True):
            for column, value in zip(columns, held[other], strict=True):
                sheet.cell(at, column).value = value


_LISTS = {
    "To do": ("What", "Who, or where to reach them"),
    "Commitments": ("What", "On"),
    "Goals": ("Step", "What it takes"),
    "Reading log": ("Book", "Minutes"),
    "Term dates": ("Day off", "First day"),
}
"""Lists on other sheets, by the headings of two neighbouring columns, the first of which takes words."""


def _row_with(sheet: Any, headings: tuple[str, str]) -> int:
    """The row that holds both headings."""
    rows = sheet.iter_rows()
    return next(int(line[0].row) for line in rows if {*headings} <= {cell.value for cell in line})


def _let_go(sheet: Any, at: int) -> None:
    """Links and joined cells follow their row in a spreadsheet program; the library leaves them behind."""
    for area in list(sheet.merged_cells.ranges):
        if area.max_row >= at:
            sheet.unmerge_cells(str(area))
    for line in sheet.iter_rows(min_row=at):
        for cell in line:
            cell.hyperlink = None


def _plain(value: object) -> object:
    return value.date() if isinstance(value, datetime) else value


def every_constant(content: bytes) -> Iterator[tuple[str, str, str, object]]:
    """Each constant of a file with its sheet, row id and heading."""
    book = openpyxl.load_workbook(io.BytesIO(content))
    for sheet in book.worksheets:
        if sheet.sheet_state != "visible":
            continue
        heading_row = _HEADINGS.get(sheet.title)
        cells: Any = sheet.iter_rows()
        for line in cells:
            for cell in line:
                value: Any = cell.value
                if value is None or (isinstance(value, str) and value.startswith("=")):
                    continue
                row_id, heading = "", ""
                if heading_row and cell.row > heading_row:
                    row_id = str(sheet.cell(cell.row, 1).value or "")
                    heading = str(sheet.cell(heading_row, cell.column).value or "")
                yield sheet.title, row_id, heading, value.date() if isinstance(value, datetime) else value
