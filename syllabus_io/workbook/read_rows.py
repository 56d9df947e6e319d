"""Which row of a table is which, and what was typed in it."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field

from syllabus_io.workbook.areas import Area, AreaRow, Mark
from syllabus_io.workbook.cell_values import Content, FormulaText, as_typed, holds, mark_of, same_mark
from syllabus_io.workbook.edits import KeptNote, RowEdit, RowKey
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.locate import FoundArea, Grid, label_places

__all__ = ["AreaReading", "list_keys", "read_area"]

_LIKE = 0.5
_COUNTED = re.compile(r"(?!own-)[a-z]+(?:-[0-9]+)+")
"""An id that only counts the rows of a table ("category-2"): after a revision it may stand for another one."""


@dataclass(slots=True)
class AreaReading:
    """What one table gave: edits, rows by the row of the file, cells accounted for, what was typed over formulas.
    ``blank`` are the rows left free, in which nothing of the table's own was typed."""

    edits: list[RowEdit] = field(default_factory=list)
    keys: dict[int, RowKey] = field(default_factory=dict)
    blank: dict[int, RowKey] = field(default_factory=dict)
    consumed: set[tuple[int, int]] = field(default_factory=set)
    over_formulas: list[tuple[RowKey, str, KeptNote]] = field(default_factory=list)
    deleted: list[RowKey] = field(default_factory=list)
    formulas_lost: int = 0
    formulas_found: int = 0


def list_keys(area: Area, rows: tuple[AreaRow, ...]) -> dict[int, RowKey]:
    """The keys of rows by the row they stood in: id, words before the cells, content, or number among blank rows."""
    keys = {}
    blank = 0
    seen: Counter[tuple[tuple[str, Mark], ...]] = Counter()
    for row in rows:
        if row.id and not _COUNTED.fullmatch(row.id):
            keys[row.at] = RowKey("id", row.id)
        elif row.label:
            keys[row.at] = RowKey("label", row.label)
        elif row.is_blank:
            blank += 1
            keys[row.at] = RowKey("free", number=blank)
        else:
            cells = tuple((_name(area, column), mark) for column, mark in sorted(row.cells.items()) if mark != "=")
            seen[cells] += 1
            keys[row.at] = RowKey("was", number=seen[cells], cells=cells)
    return keys


def _name(area: Area, column: int) -> str:
    return area.headings.get(column) or f"column {column}"


def read_area(sheet: str, found: FoundArea, grid: Grid, words: frozenset[str] = frozenset()) -> AreaReading:
    """Everything typed in a table. ``words`` are marks of what the sheet itself says beside its tables."""
    reading = AreaReading()
    keys = list_keys(found.area, found.area.rows)
    pairs, missing, added = _pair_rows(found, grid, words)
    if found.heading_row:
        reading.consumed |= {(found.heading_row, column) for column in found.columns.values()}
    for row, at in pairs:
        _read_row(reading, sheet, found, grid, row, keys[row.at], at)
    for row in missing:
        if not row.is_blank:
            reading.deleted.append(keys[row.at])
            cleared: dict[str, Content] = {found.key(column): None for column in row.cells if column in row.entries}
            reading.edits.append(RowEdit(sheet, found.area.signature, keys[row.at], cleared, deleted=True))
    for at, free in added:
        _read_added(
            reading, sheet, found, grid, at, RowKey("free", number=free) if free else RowKey("added", number=at)
        )
    places = {found.heading_row + distance: number for distance, number in _free_numbers(found).items()}
    reading.blank = {at: RowKey("free", number=number) for at, number in places.items() if at not in reading.keys}
    return reading


# --- which row is which -----------------------------------------------------------------------------------


def _pair_rows(
    found: FoundArea, grid: Grid, words: frozenset[str]
) -> tuple[list[tuple[AreaRow, int]], list[AreaRow], list[tuple[int, int]]]:
    """Rows as written with the rows of the file; rows that are gone; rows that were added, each with the number of the
    blank row it stands in (0: none)."""
    area = found.area
    pairs: list[tuple[AreaRow, int]] = []
    taken: set[int] = set()
    for row in area.rows:
        at = _row_by_words(found, grid, row, taken)
        if at:
            pairs.append((row, at))
            taken.add(at)
    done = {row.at for row, _ in pairs}
    loose = [row for row in area.rows if row.at not in done and not row.id]
    open_rows = [at for at in range(found.heading_row + 1, found.last + 1) if at not in taken and at in grid.rows]
    pairs += _pair_lists(found, grid, loose, open_rows)
    done = {row.at for row, _ in pairs}
    taken = {at for _, at in pairs}
    missing = [row for row in area.rows if row.at not in done]
    numbers = _free_numbers(found)
    end = found.heading_row + (max((row.at for row in area.rows), default=area.heading_row) - area.heading_row)
    grown = max(0, max((at for _, at in pairs), default=0) - end)
    last = min(found.last, max(end + grown, max(taken, default=0)) + 1)
    added = [
        (at, numbers.get(at - found.heading_row, 0))
        for at in open_rows
        if at not in taken and _holds_entries(found, grid, at, last, words)
    ]
    return pairs, [row for row in missing if not row.is_blank], added


def _row_by_words(found: FoundArea, grid: Grid, row: AreaRow, taken: set[int]) -> int:
    """The row of the file with the id or the label of a row; 0 when there is none."""
    first = found.heading_row + 1
    if row.id:
        column = found.columns.get(found.area.id_column, 0)
        hits = [at for at in range(first, found.last + 1) if grid.cell(at, column) == row.id]
    elif row.label:
        words, mark, number = row.label.rpartition("#")
        label = words if mark and number.isdigit() else row.label
        hits = [at for at, _ in label_places(grid, first, found.last, label)]
    else:
        return 0
    return next((at for at in hits if at not in taken), 0)


def _pair_lists(found: FoundArea, grid: Grid, rows: list[AreaRow], open_rows: list[int]) -> list[tuple[AreaRow, int]]:
    """Rows without a name of their own: first those that hold what they held, then the likest, then by their place."""
    pairs: list[tuple[AreaRow, int]] = []
    left = [row for row in rows if not row.is_blank]
    free = list(open_rows)
    for least in (1.0, _LIKE):
        for row in list(left):
            at = _likest(found, grid, row, free)
            if at and _likeness(found, grid, row, at) >= least:
                pairs.append((row, at))
                left.remove(row)
                free.remove(at)
    for row in left:
        at = row.at - found.area.heading_row + found.heading_row
        if at in free:
            pairs.append((row, at))
            free.remove(at)
    return pairs


def _likest(found: FoundArea, grid: Grid, row: AreaRow, open_rows: list[int]) -> int:
    """The open row that holds most of what a row held, the nearest of equals; 0 when none is open."""
    return max(open_rows, key=lambda at: (_likeness(found, grid, row, at), -_off(found, row, at)), default=0)


def _off(found: FoundArea, row: AreaRow, at: int) -> int:
    return abs((at - found.heading_row) - (row.at - found.area.heading_row))


def _likeness(found: FoundArea, grid: Grid, row: AreaRow, at: int) -> float:
    """The share of a row's cells that a row of the file holds."""
    kept = {column: mark for column, mark in row.cells.items() if mark != "="}
    held = {
        column: mark_of(grid.cell(at, place))
        for column, place in found.columns.items()
        if column in row.entries or column in kept
    }
    held = {column: mark for column, mark in held.items() if mark is not None and mark != "="}
    same = sum(same_mark(held.get(column), mark) for column, mark in kept.items())
    return same / max(len(kept), len(held), 1)


def _free_numbers(found: FoundArea) -> dict[int, int]:
    """The numbers of rows left blank, by their distance from the heading row."""
    blank = [row for row in found.area.rows if not row.id and not row.label and row.is_blank]
    return {row.at - found.area.heading_row: number for number, row in enumerate(blank, start=1)}


def _holds_entries(found: FoundArea, grid: Grid, at: int, last: int, words: frozenset[str]) -> bool:
    """Whether a row that is not known holds something in a column that is meant to be filled in."""
    if at > last or not found.area.rows:
        return False
    entries = {column for row in found.area.rows for column in row.entries}
    cells = (grid.cell(at, found.columns[column]) for column in entries if column in found.columns)
    return any(
        cell is not None
        and not isinstance(cell, FormulaText)
        and words.isdisjoint((mark_of(cell), mark_of(as_typed(cell))))
        for cell in cells
    )


# --- what stands in a row ---------------------------------------------------------------------------------


def _read_row(
    reading: AreaReading, sheet: str, found: FoundArea, grid: Grid, row: AreaRow, key: RowKey, at: int
) -> None:
    changes: dict[str, Content] = {}
    whole: dict[str, Content] = {}
    reading.keys[at] = key
    id_column = found.area.id_column if row.id else 0
    for column in (id_column, row.label_column):
        place = found.columns.get(column, column + _shift(row, grid, at) if column == row.label_column else 0)
        if column:
            reading.consumed.add((at, place))
    for column, place in found.columns.items():
        if column in (id_column, row.label_column):
            continue
        if column not in row.cells and column not in row.entries and column not in found.area.headings:
            continue
        content = grid.cell(at, place)
        reading.consumed.add((at, place))
        mark = row.cells.get(column)
        if mark == "=":
            reading.formulas_found += isinstance(content, FormulaText)
            reading.formulas_lost += not isinstance(content, FormulaText)
            if content is not None and not isinstance(content, FormulaText):
                note = KeptNote(sheet, _where(found, row, column, place, at), "", "")
                reading.over_formulas.append((key, found.key(column), _with_words(note, content)))
            continue
        if content is not None:
            whole[found.key(column)] = as_typed(content)
        if not holds(content, mark):
            changes[found.key(column)] = as_typed(content)
    if changes:
        reading.edits.append(RowEdit(sheet, found.area.signature, key, changes, whole, at))


def _shift(row: AreaRow, grid: Grid, at: int) -> int:
    words, mark, number = row.label.rpartition("#")
    label = words if mark and number.isdigit() else row.label
    places = label_places(grid, at, at, label)
    return places[0][1] - row.label_column if places else 0


def _with_words(note: KeptNote, content: Content) -> KeptNote:
    from dataclasses import replace

    from syllabus_io.workbook.cell_values import shown

    return replace(note, words=shown(as_typed(content)), why="it was typed over a formula, which was put back")


def _where(found: FoundArea, row: AreaRow, column: int, place: int, at: int) -> str:
    heading = found.area.headings.get(column, "")
    of_row = row.label or ""
    parts = [f"cell {column_letter(place)}{at}", f"column {heading}" if heading else "", of_row]
    return ", ".join(part for part in parts if part)


def _read_added(reading: AreaReading, sheet: str, found: FoundArea, grid: Grid, at: int, key: RowKey) -> None:
    """A row that the person put in. What stands in columns of formulas is kept only where it was typed."""
    formulas = {column for row in found.area.rows for column, mark in row.cells.items() if mark == "="}
    formulas -= {column for row in found.area.rows for column in row.entries}
    whole: dict[str, Content] = {}
    for column, place in found.columns.items():
        content = grid.cell(at, place)
        reading.consumed.add((at, place))
        if content is None or column == found.area.id_column:
            continue
        if column in formulas:
            if not isinstance(content, FormulaText):
                row = AreaRow(at, "", "", 0, {}, ())
                note = KeptNote(sheet, _where(found, row, column, place, at), "", "")
                reading.over_formulas.append((key, found.key(column), _with_words(note, content)))
            continue
        whole[found.key(column)] = as_typed(content)
    if whole:
        reading.keys[at] = key
        reading.edits.append(RowEdit(sheet, found.area.signature, key, dict(whole), whole, at))
