"""Tables drawn with rules all round, and tables that only gutters show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.extract.pdf_aligned import find_runs
from syllabus_io.extract.pdf_grids import Grid, GridCell, find_grids
from syllabus_io.extract.pdf_gutters import (
    Gutter,
    column_words,
)
from syllabus_io.extract.pdf_marks import Rule
from syllabus_io.extract.pdf_raw_tables import (
    FEW_BANDS,
    RawCell,
    RawTable,
    band_rows,
    box_of,
    first_entry,
    from_bands,
    from_rows,
    parted,
    slot,
)
from syllabus_io.extract.pdf_rows import told_rows
from syllabus_io.extract.pdf_words import PrintedLine, Word, printed_line

__all__ = ["aligned_tables", "drawn_tables"]


def drawn_tables(
    page: int, lines: Sequence[PrintedLine], across: Sequence[Rule], down: Sequence[Rule]
) -> tuple[list[RawTable], list[PrintedLine]]:
    """The tables drawn with rules all round, and the lines that stand in none of them."""
    tables: list[RawTable] = []
    rest = list(lines)
    for grid in find_grids(across, down):
        if len(grid.cells) < 2:
            continue
        inside, outside = parted(rest, grid.box)
        if not inside:
            continue
        table = _from_grid(page, grid, inside)
        if table is not None:
            tables.append(table)
            rest = outside
    return tables, rest


def _from_grid(page: int, grid: Grid, lines: Sequence[PrintedLine]) -> RawTable | None:
    """The table in a grid; None when it is no more than a frame round text."""
    if len(grid.lefts) == 2:
        return from_bands(page, grid.box, lines, grid.tops)
    filled = _filled_cells(grid, lines)
    kept = [cell for cell in grid.cells if filled.get((cell.row, cell.column))]
    if len({cell.column for cell in kept}) < 2 or len(kept) < 2:
        return None
    bands = len(grid.tops) - 1
    if bands <= FEW_BANDS and all(cell.row_span == 1 for cell in kept):
        gutters = tuple(Gutter(left, left) for left in grid.lefts[1:-1])
        rows = band_rows(lines, gutters, grid.tops, closed=True)
        if len(rows) > bands:
            return from_rows(page, rows, gutters, grid.box, ruled=True)
    pads = _paddings(grid, filled)
    cells = tuple(
        RawCell(
            cell.row,
            cell.column,
            cell.row_span,
            cell.column_span,
            tuple(filled.get((cell.row, cell.column), ())),
            cell.box,
            cell.box.left + pads[cell.column],
            cell.box.right - pads[cell.column],
        )
        for cell in grid.cells
    )
    return _compact(RawTable(page, grid.box, bands, grid.lefts[:-1], cells, True))


def _filled_cells(grid: Grid, lines: Sequence[PrintedLine]) -> dict[tuple[int, int], list[PrintedLine]]:
    owners: dict[tuple[int, int], GridCell] = {}
    for cell in grid.cells:
        for row in range(cell.row, cell.row + cell.row_span):
            for column in range(cell.column, cell.column + cell.column_span):
                owners[row, column] = cell
    filled: dict[tuple[int, int], list[PrintedLine]] = {}
    for line in lines:
        row = slot(grid.tops, line.base - 0.3 * line.size)
        shares: dict[tuple[int, int], list[Word]] = {}
        for word in line.words:
            cell = owners[row, slot(grid.lefts, (word.left + word.right) / 2)]
            shares.setdefault((cell.row, cell.column), []).append(word)
        for key, words in shares.items():
            filled.setdefault(key, []).append(printed_line(line.page, words))
    return filled


def _paddings(grid: Grid, filled: dict[tuple[int, int], list[PrintedLine]]) -> dict[int, float]:
    """For each column the blank between its left side and its leftmost text."""
    pads: dict[int, float] = {}
    for cell in grid.cells:
        for line in filled.get((cell.row, cell.column), ()):
            pad = max(0.0, line.box.left - cell.box.left)
            pads[cell.column] = min(pads.get(cell.column, 12.0), pad)
    return {column: pads.get(column, 4.0) for column in range(len(grid.lefts))}


def _compact(table: RawTable) -> RawTable:
    """The table without rows and columns that no cell begins in or that hold nothing at all."""
    used_rows = sorted({cell.row for cell in table.cells if cell.lines} | _spaced_rows(table))
    used_columns = sorted({cell.column for cell in table.cells if cell.lines} | _headed_columns(table))
    rows = {old: new for new, old in enumerate(used_rows)}
    columns = {old: new for new, old in enumerate(used_columns)}
    cells = []
    for cell in table.cells:
        own_rows = [rows[row] for row in range(cell.row, cell.row + cell.row_span) if row in rows]
        own_columns = [columns[c] for c in range(cell.column, cell.column + cell.column_span) if c in columns]
        if own_rows and own_columns:
            cells.append(
                replace(
                    cell, row=own_rows[0], column=own_columns[0], row_span=len(own_rows), column_span=len(own_columns)
                )
            )
    return replace(
        table,
        row_count=len(used_rows),
        lefts=tuple(table.lefts[column] for column in used_columns),
        cells=tuple(cells),
    )


def _spaced_rows(table: RawTable) -> set[int]:
    """Rows in which an empty cell begins that is high enough to be a row and not a double rule."""
    return {cell.row for cell in table.cells if cell.row_span == 1 and cell.box.bottom - cell.box.top > 7}


def _headed_columns(table: RawTable) -> set[int]:
    return {cell.column for cell in table.cells if cell.column_span == 1 and cell.box.right - cell.box.left > 7}


def aligned_tables(
    page: int, lines: Sequence[PrintedLine], across: Sequence[Rule]
) -> tuple[list[RawTable], list[PrintedLine]]:
    """The tables that only gutters show, and the lines that stand in none of them."""
    ordered = sorted(lines, key=lambda line: (line.base, line.box.left))
    tables: list[RawTable] = []
    taken: set[int] = set()
    for run in find_runs(ordered):
        own = ordered[run.first : run.last]
        if _is_labelled(own, run.gutters) or _is_wrapped_prose(own, run.gutters):
            continue
        separators = [
            rule.at
            for rule in across
            if any(rule.start < gutter.left and rule.end > gutter.right for gutter in run.gutters)
        ]
        rows, is_loose = told_rows(own, run.gutters, separators)
        if len(rows) < 2:
            continue
        table = from_rows(page, rows, run.gutters, box_of(own), ruled=False)
        tables.append(replace(table, is_loose=is_loose))
        taken.update(range(run.first, run.last))
    return tables, [line for number, line in enumerate(ordered) if number not in taken]


def _is_labelled(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> bool:
    """Whether the lines are labels with a colon and what they label: text, not a table."""
    if len(gutters) != 1:
        return False
    entries = [entry for line in lines if (entry := first_entry(line, gutters))]
    return 5 * sum(entry.endswith(":") for entry in entries) >= 3 * len(entries)


def _is_wrapped_prose(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> bool:
    """Whether both sides of a single gutter are running text: long lines that go on in lower case."""
    if len(gutters) != 1 or len(lines) < 6:
        return False
    columns = [column_words(line, gutters) for line in lines]
    for side in (0, 1):
        texts = [" ".join(word.text for word in own[side]) for own in columns if side in own]
        running = sum(text[:1].islower() for text in texts)
        if len(texts) < 0.6 * len(lines) or sum(map(len, texts)) < 22 * len(texts) or 4 * running < len(texts):
            return False
    return True
