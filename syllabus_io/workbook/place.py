"""Puts what was typed into a workbook that has just been written: each cell where its row and heading now stand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, cast

from syllabus_io.workbook.areas import Area, AreaRow, Mark, SheetShape
from syllabus_io.workbook.book import clean_text
from syllabus_io.workbook.cell_values import Content, FormulaText, Stamp, shown
from syllabus_io.workbook.edits import Edits, Extra, KeptNote, LooseEdit, RowEdit, RowKey
from syllabus_io.workbook.layout import REVIEW, column_letter
from syllabus_io.workbook.read_rows import list_keys

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["free_rows_needed", "place_edits", "put_content"]

_LEAST_SHARED = 0.5
_ROOM = 15  # rows of Review left free beyond those in use


def free_rows_needed(edits: Edits) -> int:
    """How many free rows Review must have so that every row of the person's own has its place."""
    own = [edit for edit in edits.of_sheet(REVIEW) if edit.key.word.startswith("own-")]
    highest = max((int(edit.key.word[4:]) for edit in own if edit.key.word[4:].isdigit()), default=0)
    added = sum(edit.key.how == "added" for edit in edits.of_sheet(REVIEW))
    return highest + added + _ROOM if highest or added else 0


def place_edits(
    workbook: Workbook, shapes: Mapping[str, SheetShape], edits: Edits, before: Mapping[str, SheetShape]
) -> list[KeptNote]:
    """Puts everything typed in its place; returns what has none. ``shapes`` are those of the sheets as just written,
    ``before`` those of the workbook in which it was typed."""
    left: list[KeptNote] = []
    titles = [one.sheet for one in edits.rows]
    titles += [*(one.sheet for one in edits.extras), *(one.sheet for one in edits.loose)]
    for title in dict.fromkeys(titles):
        if title not in shapes:
            left += _without_sheet(edits, title)
            continue
        placer = _Placer(workbook[title], shapes[title], before.get(title))
        placer.place_rows(edits.of_sheet(title))
        placer.place_extras([extra for extra in edits.extras if extra.sheet == title])
        placer.place_loose([loose for loose in edits.loose if loose.sheet == title])
        left += placer.left
    return left


def put_content(cell: Cell, content: Content) -> None:
    """Writes typed content into a cell: text stays text, a formula is moved along with its cell."""
    from openpyxl.formula.translate import Translator

    match content:
        case FormulaText():
            text = content.text
            if content.cell and content.cell != cell.coordinate:
                text = cast("str", Translator(text, origin=content.cell).translate_formula(cell.coordinate))
            cell.value = text
        case str():
            cell.value = clean_text(content)
            cell.data_type = "s"
            cell.quotePrefix = True
        case bool() | None:
            cell.value = content
        case _:
            cell.value = int(content) if content == int(content) else float(content)
            if isinstance(content, Stamp) and not cell.is_date:
                cell.number_format = content.format


def _without_sheet(edits: Edits, title: str) -> list[KeptNote]:
    """Everything typed on a sheet that the plan no longer has."""
    why = "the plan has no such sheet any more"
    kept = [
        KeptNote(title, _where(edit.key, name), shown(content), why)
        for edit in edits.of_sheet(title)
        for name, content in edit.changes.items()
        if content is not None
    ]
    for extra in edits.extras:
        if extra.sheet == title:
            kept += [KeptNote(title, _where(key, shown(extra.heading)), shown(c), why) for key, c in extra.cells]
    kept += [
        KeptNote(title, f"cell {column_letter(one.column)}{one.row}", shown(one.content), why)
        for one in edits.loose
        if one.sheet == title
    ]
    return kept


def _where(key: RowKey, column: str) -> str:
    row = {"id": f"row {key.word}", "label": key.word, "was": "a changed row", "free": f"free row {key.number}"}
    words = row.get(key.how, f"an added row ({key.number})")
    if key.how == "was":
        words = "row " + ", ".join(str(mark).lstrip("'") for _, mark in key.cells)[:80]
    return f"{words}, column {column}" if column else words


@dataclass(slots=True)
class _Table:
    """A table as just written, its rows by key, its columns by name, and the rows that already took something."""

    area: Area
    rows: dict[RowKey, AreaRow]
    columns: dict[str, int]
    used: set[int] = field(default_factory=set)
    added: dict[RowKey, AreaRow] = field(default_factory=dict)

    def row(self, key: RowKey) -> AreaRow | None:
        """The row that took what was typed under a key."""
        return self.added.get(key) or self.named(key)

    def named(self, key: RowKey) -> AreaRow | None:
        """The row of a key: the same, or, for a row told by its content, the likest that is not taken."""
        row = self.rows.get(key)
        if row is not None or key.how != "was":
            return row
        likeness = {one.at: _likeness(self.area, one, key) for one in self.area.rows if one.at not in self.used}
        best = max(likeness, key=lambda at: likeness[at], default=0)
        if not best or likeness[best] < _LEAST_SHARED:
            return None
        return next(one for one in self.area.rows if one.at == best)


class _Placer:
    """Puts what was typed on one sheet in its place."""

    def __init__(self, sheet: Worksheet, shape: SheetShape, before: SheetShape | None) -> None:
        self._sheet = sheet
        self._shape = shape
        self._before = before or shape
        self._tables: dict[int, _Table] = {}
        self._taken_columns: dict[int, set[int]] = {}
        self.left: list[KeptNote] = []

    def place_rows(self, edits: Iterable[RowEdit]) -> None:
        """Rows that are named first, then those that need a free row."""
        waiting: list[tuple[_Table, RowEdit]] = []
        for edit in edits:
            table = self._table(edit.signature)
            if table is None:
                self._keep_row(edit, "its table is no longer there")
                continue
            row = table.named(edit.key)
            if row is None:
                waiting.append((table, edit))
                continue
            table.used.add(row.at)
            for name, content in edit.changes.items():
                self._put(table, row, edit, name, content)
        for table, edit in waiting:
            self._place_waiting(table, edit)

    def _place_waiting(self, table: _Table, edit: RowEdit) -> None:
        is_own = edit.key.word.startswith("own-")
        if edit.deleted or (edit.key.how in ("id", "label") and not is_own):
            self._keep_row(edit, "its row is no longer in the plan")
            return
        row = _free_row(table)
        if row is None:
            self._keep_row(edit, "no free row was left in its table")
            return
        table.used.add(row.at)
        table.added[edit.key] = row
        for name, content in (edit.whole or edit.changes).items():
            self._put(table, row, edit, name, content)

    def _put(self, table: _Table, row: AreaRow, edit: RowEdit, name: str, content: Content) -> None:
        column = table.columns.get(name)
        if column is None:
            self._keep(edit.key, name, content, "its column is no longer there")
            return
        if content is None and row.cells.get(column) == "=":
            return
        cell = self._sheet.cell(row.at, column)
        if _is_covered(cell):
            self._keep(edit.key, name, content, "its cell is covered by another")
        else:
            put_content(cast("Cell", cell), content)

    def place_extras(self, extras: Iterable[Extra]) -> None:
        """Columns of the person's own: where they stood when that is free, else to the right of everything."""
        for extra in extras:
            table = self._table(extra.signature)
            rows = [(table.row(key) if table else None, key, content) for key, content in extra.cells]
            column = self._free_column(extra, table, [row for row, _, _ in rows if row])
            if table and table.area.heading_row and extra.heading is not None:
                heading = cast("Cell", self._sheet.cell(table.area.heading_row, column))
                put_content(heading, extra.heading)
                heading.style = "heading"
            elif extra.heading is not None:
                self.left.append(KeptNote(extra.sheet, "a heading", shown(extra.heading), "its table is gone"))
            for row, key, content in rows:
                if row is None:
                    self._keep(key, shown(extra.heading), content, "its row is no longer in the plan", extra.sheet)
                    continue
                put_content(cast("Cell", self._sheet.cell(row.at, column)), content)

    def _free_column(self, extra: Extra, table: _Table | None, rows: list[AreaRow]) -> int:
        heading_row = table.area.heading_row if table else 0
        places = {row.at for row in rows} | ({heading_row} if heading_row else set())
        column = extra.column
        if column <= self._shape.size[1] and not self._is_free(places, column):
            column = self._shape.size[1] + 1
        while not self._is_free(places, column):
            column += 1
        for place in places:
            self._taken_columns.setdefault(place, set()).add(column)
        return column

    def _is_free(self, rows: Iterable[int], column: int) -> bool:
        """Whether nothing stands, and nothing is meant to be typed, in a column of some rows."""
        by_row = {row.at: row for area in self._shape.areas for row in area.rows}
        for at in rows:
            row = by_row.get(at)
            if (row and column in row.entries) or column in self._taken_columns.get(at, ()):
                return False
            if not self._is_blank(at, column):
                return False
        return True

    def _is_blank(self, row: int, column: int) -> bool:
        """Whether nothing is in a cell, nor will be: a formula that goes on down its column has no cells as yet."""
        cell = self._sheet.cell(row, column)
        return cell.value is None and (row, column) not in self._shape.formulas and not _is_covered(cell)

    def place_loose(self, loose: Iterable[LooseEdit]) -> None:
        """What stood beside the tables: where it stood, when nothing of ours is there now; what stood below everything
        moves down as the sheet grows."""
        inside = {row.at for area in self._shape.areas for row in area.rows}
        grown = max(0, self._shape.size[0] - self._before.size[0])
        for edit in loose:
            row = edit.row + (grown if edit.row > self._before.size[0] else 0)
            outside = row > self._shape.size[0] or edit.column > self._shape.size[1] or row not in inside
            if outside and self._is_blank(row, edit.column):
                put_content(cast("Cell", self._sheet.cell(row, edit.column)), edit.content)
                continue
            where = f"cell {column_letter(edit.column)}{edit.row}"
            self.left.append(KeptNote(edit.sheet, where, shown(edit.content), "something else stands there now"))

    def _table(self, signature: tuple[str, ...]) -> _Table | None:
        """The table with these headings, or the one that shares most of them."""
        best, place = 0.0, -1
        for number, area in enumerate(self._shape.areas):
            share = _shared(area.signature, signature)
            if share > best:
                best, place = share, number
        if place < 0 or best < _LEAST_SHARED:
            return None
        if place not in self._tables:
            area = self._shape.areas[place]
            keys = list_keys(area, area.rows)
            columns = {heading: column for column, heading in area.headings.items()}
            for row in area.rows:
                for column in row.entries:
                    if column not in area.headings:
                        columns[f"column {column}"] = column
            self._tables[place] = _Table(area, {keys[row.at]: row for row in area.rows}, columns)
        return self._tables[place]

    def _keep_row(self, edit: RowEdit, why: str) -> None:
        for name, content in edit.changes.items():
            self._keep(edit.key, name, content, why)

    def _keep(self, key: RowKey, name: str, content: Content, why: str, sheet: str = "") -> None:
        if content is not None:
            self.left.append(KeptNote(sheet or self._sheet.title, _where(key, name), shown(content), why))


def _shared(first: tuple[str, ...], second: tuple[str, ...]) -> float:
    if first == second:
        return 1.0
    if {one for one in first if one.startswith("[")} != {one for one in second if one.startswith("[")}:
        return 0.0
    every = set(first) | set(second)
    return len(set(first) & set(second)) / len(every) if every else 1.0


def _likeness(area: Area, row: AreaRow, key: RowKey) -> float:
    """How much of what a row held still stands in another; its first words count half."""
    held = {area.headings.get(column) or f"column {column}": mark for column, mark in row.cells.items() if mark != "="}
    words = next((name for name, mark in key.cells if isinstance(mark, str)), "")
    share = sum(held.get(name) == mark for name, mark in key.cells) / max(len(held), len(key.cells), 1)
    return 0.5 + share / 2 if words and held.get(words) == dict(key.cells)[words] else share


def _free_row(table: _Table) -> AreaRow | None:
    """The first row in which nothing stands that a person could have typed."""

    def is_free(row: AreaRow) -> bool:
        held: list[Mark] = [mark for column, mark in row.cells.items() if mark != "="]
        return not held and not row.label and row.at not in table.used

    return next((row for row in table.area.rows if is_free(row)), None)


def _is_covered(cell: object) -> bool:
    from openpyxl.cell.cell import MergedCell

    return isinstance(cell, MergedCell)
