"""What a person changed in a workbook, as records: by sheet, table, row and column heading, never by position."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from syllabus_io.workbook.areas import Mark
from syllabus_io.workbook.cell_values import Content

__all__ = ["Edits", "Extra", "KeptNote", "LooseEdit", "RowEdit", "RowKey"]


@dataclass(frozen=True, slots=True)
class RowKey:
    """Which row of a table is meant.

    ``how`` is "id" (its hidden id), "label" (the words before its cells), "was" (``cells`` are the marks of what it
    held when it was written, ``number`` counts rows that held the same), "free" (the ``number``-th row that was left
    blank) or "added" (a row that the person put in; ``number`` is its row in the file).
    """

    how: str
    word: str = ""
    number: int = 0
    cells: tuple[tuple[str, Mark], ...] = ()


@dataclass(frozen=True, slots=True)
class RowEdit:
    """What was typed in one row: contents by column (heading, or letter where there is none). ``changes`` are the
    cells that differ from what was written, a blank one was cleared; ``whole`` is everything that stands in the row.
    ``at`` is the row in the file, for a report."""

    sheet: str
    signature: tuple[str, ...]
    key: RowKey
    changes: Mapping[str, Content]
    whole: Mapping[str, Content] = field(default_factory=dict)
    at: int = 0
    deleted: bool = False


@dataclass(frozen=True, slots=True)
class Extra:
    """A column that a person added beside a table: its heading, where it stood, and its cells by row."""

    sheet: str
    signature: tuple[str, ...]
    column: int
    heading: Content
    cells: tuple[tuple[RowKey, Content], ...]


@dataclass(frozen=True, slots=True)
class LooseEdit:
    """Something written beside the tables of a sheet, with its cell."""

    sheet: str
    row: int
    column: int
    content: Content


@dataclass(frozen=True, slots=True)
class KeptNote:
    """Something that was typed and has no place: it is kept word for word, with where it stood and why it was moved."""

    sheet: str
    where: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Edits:
    """Everything that was typed into a workbook since it was first made. ``deleted_items`` are ids of rows of Review
    that were removed; ``notes`` are plain sentences on what was found."""

    rows: tuple[RowEdit, ...] = ()
    extras: tuple[Extra, ...] = ()
    loose: tuple[LooseEdit, ...] = ()
    kept: tuple[KeptNote, ...] = ()
    deleted_items: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    def of_sheet(self, sheet: str) -> tuple[RowEdit, ...]:
        """The rows changed on one sheet."""
        return tuple(row for row in self.rows if row.sheet == sheet)
