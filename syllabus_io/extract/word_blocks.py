"""From drafts to blocks: tables cut in two are joined, columns set with tabs become tables, blocks are numbered."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import TypeAlias

from syllabus_io.extract.document import Block, Cell, Line, Table
from syllabus_io.extract.word_lines import DraftLine

__all__ = ["Draft", "numbered", "with_joined_tables", "with_tabbed_tables"]

Draft: TypeAlias = DraftLine | Table

HEAD_SEARCH_ROWS = 3
"""How deep in a table its head is looked for: a title may stand above it."""
MIN_JOINED_COLUMNS = 3
MIN_TABBED_LINES = 3
MIN_TABBED_COLUMNS = 3
LABEL_COLUMNS = 2
"""Two columns are left alone: a label and its value read well as one line."""
MIN_DATED_LINES = 5
LONGEST_DATE = 24


def with_joined_tables(drafts: Sequence[Draft]) -> list[Draft]:
    """The drafts, with tables joined that were cut in two: nothing stands between them, they have the same columns,
    and the second repeats the head of the first (which is left out) or begins on a new page without a head."""
    joined: list[Draft] = []
    for draft in drafts:
        before = joined[-1] if joined else None
        if isinstance(draft, Table) and isinstance(before, Table) and before.column_count == draft.column_count:
            head = _texts(draft, 1)
            repeats = draft.row_count > 1 and any(
                head == _texts(before, row) for row in range(1, min(HEAD_SEARCH_ROWS, before.row_count) + 1)
            )
            if repeats or _goes_on_over_the_page(before, draft):
                joined[-1] = _joined(before, draft, skipped_rows=int(repeats))
                continue
        joined.append(draft)
    return joined


def _texts(table: Table, row: int) -> list[str]:
    return [" ".join(cell.text.split()).casefold() for cell in table.cells if cell.row == row]


def _goes_on_over_the_page(before: Table, after: Table) -> bool:
    if before.column_count < MIN_JOINED_COLUMNS or before.ruled != after.ruled:
        return False
    last, first = before.cells[-1].place.page, after.cells[0].place.page
    has_own_head = all(cell.bold for cell in after.cells if cell.row == 1 and cell.text)
    return last is not None and first is not None and first > last and not has_own_head


def _joined(before: Table, after: Table, skipped_rows: int) -> Table:
    shift = before.row_count - skipped_rows
    cells = [_moved(cell, cell.row + shift) for cell in after.cells if cell.row > skipped_rows]
    return replace(before, row_count=before.row_count + after.row_count - skipped_rows, cells=(*before.cells, *cells))


def _moved(cell: Cell, row: int) -> Cell:
    """The cell in another row of the outermost table, with all places inside it."""
    lines = tuple(replace(line, place=replace(line.place, row=row)) for line in cell.lines)
    tables = tuple(
        replace(inner, place=replace(inner.place, row=row), cells=tuple(_placed(part, row) for part in inner.cells))
        for inner in cell.tables
    )
    return replace(cell, row=row, place=replace(cell.place, row=row), lines=lines, tables=tables)


def _placed(cell: Cell, row: int) -> Cell:
    """A cell of an inner table, which keeps its own row but stands in another row of the outer table."""
    return replace(_moved(cell, row), row=cell.row)


def with_tabbed_tables(drafts: Sequence[Draft]) -> list[Block]:
    """The blocks, with lines that tabs set in the same number of columns made tables without rules."""
    blocks: list[Block] = []
    run: list[DraftLine] = []

    def close() -> None:
        for part, columns in _column_runs(run):
            if columns:
                blocks.append(_tabbed_table(part, columns))
            else:
                blocks.extend(draft.line for draft in part)
        run.clear()

    for draft in drafts:
        count = len(draft.columns) if isinstance(draft, DraftLine) and not draft.line.marker else 0
        if run and count < LABEL_COLUMNS:
            close()
        if isinstance(draft, DraftLine) and count >= LABEL_COLUMNS:
            run.append(draft)
        else:
            blocks.append(draft.line if isinstance(draft, DraftLine) else draft)
    close()
    return blocks


def _column_runs(run: Sequence[DraftLine]) -> Iterator[tuple[list[DraftLine], list[tuple[str, ...]]]]:
    """Neighbouring lines with columns in parts that are one table, with the cells of each row; no cells: no table.

    Rows of a schedule may leave cells out: lines that mostly begin with a number or a date are one table even when
    their columns are not equally many.
    """
    lines = list(run)
    if _is_dated_list(lines):
        tabs = {len(draft.tabbed) for draft in lines}
        width = max(len(draft.columns) for draft in lines)
        if len(tabs) == 1 and len(lines[0].tabbed) >= width:
            yield lines, [draft.tabbed for draft in lines]
        else:
            yield lines, [(*draft.columns, *[""] * (width - len(draft.columns))) for draft in lines]
        return
    for _, group in groupby(lines, key=lambda draft: len(draft.columns)):
        part = list(group)
        is_table = len(part) >= MIN_TABBED_LINES and len(part[0].columns) >= MIN_TABBED_COLUMNS
        yield part, [draft.columns for draft in part] if is_table else []


def _is_dated_list(lines: Sequence[DraftLine]) -> bool:
    counts = {len(draft.columns) for draft in lines}
    numbered_rows = sum(
        1 for draft in lines if re.search(r"\d", draft.columns[0]) and len(draft.columns[0]) <= LONGEST_DATE
    )
    return len(counts) > 1 and len(lines) >= MIN_DATED_LINES and numbered_rows >= 0.7 * len(lines)


def _tabbed_table(run: list[DraftLine], columns: list[tuple[str, ...]]) -> Table:
    cells: list[Cell] = []
    for row, (draft, texts) in enumerate(zip(run, columns, strict=True), 1):
        for column, text in enumerate(texts, 1):
            text = " ".join(text.split())
            place = replace(draft.line.place, row=row, column=column)
            line = replace(draft.line, text=text, place=place, level=0, lead="", parts=(), indent=0.0)
            cells.append(Cell(text, place, row, column, lines=(line,), bold=line.bold))
    return Table(run[0].line.place, len(run), len(columns[0]), tuple(cells), ruled=False)


def numbered(blocks: Sequence[Block]) -> list[Block]:
    """The blocks with their number, from 1, in every place."""
    return [_with_block(block, number) for number, block in enumerate(blocks, 1)]


def _with_block(block: Block, number: int) -> Block:
    if isinstance(block, Line):
        parts = tuple(replace(part, place=replace(part.place, block=number)) for part in block.parts)
        return replace(block, place=replace(block.place, block=number), parts=parts)
    return _table_with_block(block, number)


def _table_with_block(table: Table, number: int) -> Table:
    cells = tuple(
        replace(
            cell,
            place=replace(cell.place, block=number),
            lines=tuple(replace(line, place=replace(line.place, block=number)) for line in cell.lines),
            tables=tuple(_table_with_block(inner, number) for inner in cell.tables),
        )
        for cell in table.cells
    )
    return replace(table, place=replace(table.place, block=number), cells=cells)
