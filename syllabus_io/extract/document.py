"""What a file holds, once read: lines and tables in reading order, each with its place.

Nothing here knows about courses, and nothing after this stage knows whether a line came from PDF or Word.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from syllabus_io.provenance import Place, union

__all__ = ["Block", "Cell", "Document", "Line", "Note", "Part", "Table"]


@dataclass(frozen=True, slots=True)
class Part:
    """One printed line of a :class:`Line` that was wrapped: where its characters start, and its place."""

    start: int
    place: Place


@dataclass(frozen=True, slots=True)
class Line:
    """A paragraph, list entry or heading: its text on one line, wrapped lines joined by a blank.

    ``marker`` is the bullet or number that stood before the text ("•", "3.", "(a)"), no longer in it.
    ``level`` is the heading level (1 highest, 0 no heading), ``depth`` the nesting of a list entry (0 none),
    ``indent`` the distance in points of the text from the left edge of its column, ``size`` the type size in
    points (0 unknown). ``bold`` and ``italic`` hold when most letters are. ``lead`` is the text of a bold run
    that opens a line which is not bold as a whole ("Due:" in "**Due:** Essay 1"), else empty.
    ``gap`` is the blank space above, in points (0 unknown).
    """

    text: str
    place: Place
    marker: str = ""
    level: int = 0
    depth: int = 0
    indent: float = 0.0
    size: float = 0.0
    bold: bool = False
    italic: bool = False
    lead: str = ""
    gap: float = 0.0
    parts: tuple[Part, ...] = ()

    def place_of(self, start: int, end: int) -> Place:
        """The place of the characters from ``start`` up to ``end``: page and box of the printed lines they touch."""
        if not self.parts:
            return self.place.narrowed(start, end)
        touched = [
            part.place
            for number, part in enumerate(self.parts)
            if part.start < end and (number + 1 == len(self.parts) or self.parts[number + 1].start > start)
        ]
        first = touched[0] if touched else self.parts[-1].place
        box = None
        for place in touched:
            if place.page == first.page:
                box = union(box, place.box)
        return Place(first.document, first.page, self.place.block, self.place.row, self.place.column, box, (start, end))


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a table; a merged cell stands once, at its first row and column, with its spans.

    ``text`` joins the cell's lines with line feeds. ``tables`` are tables nested in the cell.
    """

    text: str
    place: Place
    row: int
    column: int
    row_span: int = 1
    column_span: int = 1
    lines: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A grid of cells. ``row_count`` and ``column_count`` bound it; ``ruled`` tells whether lines were drawn.

    A table that goes on over a page break is one table; a header row repeated on the next page is left out.
    """

    place: Place
    row_count: int
    column_count: int
    cells: tuple[Cell, ...]
    ruled: bool = True

    def grid(self) -> tuple[tuple[Cell | None, ...], ...]:
        """Rows of cells, a merged cell repeated in every position it covers; None where the grid has a hole."""
        rows: list[list[Cell | None]] = [[None] * self.column_count for _ in range(self.row_count)]
        for cell in self.cells:
            for row in range(cell.row - 1, min(cell.row - 1 + cell.row_span, self.row_count)):
                for column in range(cell.column - 1, min(cell.column - 1 + cell.column_span, self.column_count)):
                    rows[row][column] = cell
        return tuple(tuple(row) for row in rows)


Block: TypeAlias = Line | Table


@dataclass(frozen=True, slots=True)
class Note:
    """Something about the reading that a person should know: text left out, or a page that could not be read.

    ``kind`` is one of "struck" (struck-through text left out), "deleted" (tracked deletion left out),
    "running" (running head or foot left out), "unread" (what could not be read), "loose" (a table, by its box, whose
    rows are not told apart with certainty).
    """

    kind: str
    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Document:
    """One outline as read. ``digest`` is the SHA-256 of the file in hexadecimal; ``pages`` is 0 when unknown."""

    name: str
    digest: str
    pages: int
    blocks: tuple[Block, ...]
    notes: tuple[Note, ...] = ()

    def lines(self) -> Iterator[Line]:
        """Every line in reading order, also those inside table cells."""
        for block in self.blocks:
            yield from _lines_of(block)


def _lines_of(block: Block) -> Iterator[Line]:
    if isinstance(block, Line):
        yield block
        return
    for cell in block.cells:
        yield from cell.lines
        for table in cell.tables:
            yield from _lines_of(table)
