"""Small builders of documents for tests: a line is a string, a table a list of rows of strings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from syllabus_io.extract.document import Block, Cell, Document, Line, Note, Table
from syllabus_io.provenance import Place

__all__ = ["document", "heading", "line", "note", "table"]

_NAME = "outline.pdf"
_PLACE = Place(_NAME, page=1)


def line(
    text: str,
    *,
    bold: bool = False,
    marker: str = "",
    level: int = 0,
    depth: int = 0,
    indent: float = 0.0,
    size: float = 11.0,
    lead: str = "",
    page: int | None = 1,
) -> Line:
    """A line; a list entry when it has a marker or a depth."""
    return Line(
        text,
        replace(_PLACE, page=page),
        marker=marker,
        level=level,
        depth=depth or (1 if marker else 0),
        indent=indent,
        size=size,
        bold=bold,
        lead=lead,
    )


def heading(text: str, level: int = 2, *, page: int | None = 1) -> Line:
    """A heading of a level, as Word styles or large type give it."""
    return line(text, level=level, bold=True, size=14.0, page=page)


def table(rows: Sequence[Sequence[str | None]], *, ruled: bool = True, page: int | None = 1) -> Table:
    """A table: None repeats the cell to the left (merged over columns), "^" the one above (merged over rows)."""
    width = max(len(row) for row in rows)
    cells: list[Cell] = []
    owner: dict[tuple[int, int], int] = {}
    for r, row in enumerate(rows, 1):
        for c, text in enumerate(row, 1):
            if text is None and (r, c - 1) in owner:
                number = owner[r, c - 1]
                cells[number] = replace(cells[number], column_span=max(c - cells[number].column + 1, 1))
            elif text == "^" and (r - 1, c) in owner:
                number = owner[r - 1, c]
                cells[number] = replace(cells[number], row_span=r - cells[number].row + 1)
            else:
                number = len(cells)
                place = replace(_PLACE, page=page, row=r, column=c)
                lines = tuple(line(part, page=page) for part in (text or "").split("\n") if part.strip())
                cells.append(Cell(text or "", place, r, c, lines=lines))
            owner[r, c] = number
    return Table(replace(_PLACE, page=page), len(rows), width, tuple(cells), ruled)


def note(kind: str, text: str, *, page: int | None = 1) -> Note:
    """A note of the reading, such as a running head that was left out ("running")."""
    return Note(kind, text, replace(_PLACE, page=page))


def document(*parts: str | Block | Sequence[Sequence[str | None]], notes: Iterable[Note] = ()) -> Document:
    """A document of blocks in reading order: a string is a plain line, a list of rows a table."""
    blocks: list[Block] = []
    for number, part in enumerate(parts, 1):
        if isinstance(part, str):
            block: Block = line(part)
        elif isinstance(part, Line | Table):
            block = part
        else:
            block = table(part)
        blocks.append(_numbered(block, number))
    pages = max((block.place.page or 1 for block in blocks), default=1)
    return Document(_NAME, "0" * 64, pages, tuple(blocks), tuple(notes))


def _numbered(block: Block, number: int) -> Block:
    place = replace(block.place, block=number)
    if isinstance(block, Line):
        return replace(block, place=place)
    cells = tuple(
        replace(
            cell,
            place=replace(cell.place, block=number),
            lines=tuple(
                replace(part, place=replace(part.place, block=number, row=cell.row, column=cell.column))
                for part in cell.lines
            ),
        )
        for cell in block.cells
    )
    return replace(block, place=place, cells=cells)
