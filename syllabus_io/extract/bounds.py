"""Words and lines that no outline holds are shortened, with a note: what comes after must not wade through them."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.extract.document import Block, Cell, Document, Line, Note, Part, Table
from syllabus_io.provenance import Place

__all__ = ["bounded"]

LONGEST_LINE = 20_000
LONGEST_WORD = 1_000
"""Characters. The longest words are addresses of web pages; a page of print holds about three thousand characters."""
KEPT_OF_WORD = 100

_LONG_WORD = re.compile(rf"\S{{{LONGEST_WORD + 1},}}")


def bounded(document: Document) -> Document:
    """The document with overlong words and lines shortened, each with a note. An ordinary one comes back as it is."""
    if all(len(line.text) <= LONGEST_WORD for line in document.lines()):
        return document
    notes: list[Note] = []
    blocks = tuple(_block(block, notes) for block in document.blocks)
    return replace(document, blocks=blocks, notes=(*document.notes, *notes)) if notes else document


def _block(block: Block, notes: list[Note]) -> Block:
    return _line(block, notes) if isinstance(block, Line) else _table(block, notes)


def _table(table: Table, notes: list[Note]) -> Table:
    return replace(table, cells=tuple(_cell(cell, notes) for cell in table.cells))


def _cell(cell: Cell, notes: list[Note]) -> Cell:
    return replace(
        cell,
        text="\n".join(_shortened(line, cell.place, []) for line in cell.text.split("\n")),
        lines=tuple(_line(line, notes) for line in cell.lines),
        tables=tuple(_table(table, notes) for table in cell.tables),
    )


def _line(line: Line, notes: list[Note]) -> Line:
    text = _shortened(line.text, line.place, notes)
    if text == line.text:
        return line
    gone = [(word.start() + KEPT_OF_WORD, len(word.group()) - KEPT_OF_WORD - 1) for word in _long_words(line.text)]
    parts = (
        Part(part.start - sum(min(count, max(0, part.start - at)) for at, count in gone), part.place)
        for part in line.parts
    )
    kept = tuple(part for number, part in enumerate(parts) if number == 0 or part.start < len(text))
    return replace(line, text=text, parts=kept, lead=line.lead[:LONGEST_WORD])


def _shortened(text: str, place: Place, notes: list[Note]) -> str:
    if len(text) <= LONGEST_WORD:
        return text
    notes += [
        Note("unread", f"a word of {len(word.group())} characters was shortened", place) for word in _long_words(text)
    ]
    text = _LONG_WORD.sub(lambda word: word.group()[:KEPT_OF_WORD] + "…", text)
    if len(text) > LONGEST_LINE:
        notes.append(Note("unread", f"of a line of {len(text)} characters the first {LONGEST_LINE} were read", place))
    return text[:LONGEST_LINE]


def _long_words(text: str) -> list[re.Match[str]]:
    return list(_LONG_WORD.finditer(text))
