"""From drafts to blocks: tables cut in two are joined, columns set with tabs become tables, blocks are numbered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
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
"""Two columns are left alone: a label and its value read well as one line."""


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
        if len(run) >= MIN_TABBED_LINES:
            blocks.append(_tabbed_table(run))
        else:
            blocks.extend(draft.line for draft in run)
        run.clear()

    for draft in drafts:
        count = len(draft.columns) if isinstance(draft, DraftLine) and not draft.line.marker else 0
        if run and len(run[-1].columns) != count:
            close()
        if isinstance(draft, DraftLine) and count >= MIN_TABBED_COLUMNS:
            run.append(draft)
        else:
            blocks.append(draft.line if isinstance(draft, DraftLine) else draft)
    close()
    return blocks


def _tabbed_table(run: list[DraftLine]) -> Table:
    cells: list[Cell] = []
    for row, draft in enumerate(run, 1):
        for column, text in enumerate(draft.columns, 1):
            text = " ".join(text.split())
            place = replace(draft.line.place, row=row, column=column)
            line = replace(draft.line, text=text, place=place, level=0, lead="", parts=(), indent=0.0)
            cells.append(Cell(text, place, row, column, lines=(line,), bold=line.bold))
    return Table(run[0].line.place, len(run), len(run[0].columns), tuple(cells), ruled=False)


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
