"""From drafts to blocks: columns set with tabs become tables, and every place gets the number of its block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from syllabus_io.extract.document import Block, Cell, Line, Table
from syllabus_io.extract.word_lines import DraftLine

__all__ = ["Draft", "numbered", "with_tabbed_tables"]

Draft: TypeAlias = DraftLine | Table

MIN_TABBED_LINES = 3
MIN_TABBED_COLUMNS = 3
"""Two columns are left alone: a label and its value read well as one line."""


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
