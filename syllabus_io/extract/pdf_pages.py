"""One page's content in reading order: flows of printed lines, and tables between them."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import TypeAlias

from syllabus_io.extract.pdf_grids import merged_rules
from syllabus_io.extract.pdf_lines import Flow
from syllabus_io.extract.pdf_marks import Glyph, PageMarks, Rule
from syllabus_io.extract.pdf_open_tables import open_tables
from syllabus_io.extract.pdf_raw_tables import RawTable
from syllabus_io.extract.pdf_regions import split_columns
from syllabus_io.extract.pdf_struck import mark_struck
from syllabus_io.extract.pdf_tables import aligned_tables, drawn_tables
from syllabus_io.extract.pdf_words import PrintedLine, Word, printed_line, printed_lines

__all__ = ["PageText", "Piece", "page_pieces", "page_text"]

STAND_IN = "\ufffc"
"""The text of the line that stands for a table while the reading order is found (object replacement character)."""

Piece: TypeAlias = Flow | RawTable


@dataclass(frozen=True, slots=True)
class PageText:
    """A page with its lines and drawn tables found, before running heads are known."""

    marks: PageMarks
    across: tuple[Rule, ...]
    tables: tuple[RawTable, ...]
    lines: tuple[PrintedLine, ...]
    struck: tuple[PrintedLine, ...]


def page_text(marks: PageMarks) -> PageText:
    """The printed lines and drawn tables of a page."""
    glyphs: Sequence[Glyph] = marks.glyphs
    rules: Sequence[Rule] = marks.across
    if rules:
        glyphs, rules = mark_struck(glyphs, rules)
    across, down = merged_rules(rules), merged_rules(marks.down)
    lines = printed_lines(marks.number, glyphs, down)
    tables, rest = drawn_tables(marks.number, lines, across, down)
    return PageText(marks, tuple(across), tuple(tables), tuple(rest), tuple(_struck(lines)))


def _struck(lines: Sequence[PrintedLine]) -> list[PrintedLine]:
    parts = [(line.page, [word for word in line.words if word.struck]) for line in lines]
    return [printed_line(page, words) for page, words in parts if words]


def page_pieces(page: PageText, running: AbstractSet[int]) -> list[Piece]:
    """The page's flows and tables in reading order, without the running lines."""
    number = page.marks.number
    kept = [line for line in page.lines if id(line) not in running]
    tables, rest = open_tables(number, kept, page.across)
    tables = [*page.tables, *tables]
    if not rest:
        return [*sorted(tables, key=lambda table: (table.box.top, table.box.left))]
    return _in_order(page, [*rest, *(_stand_in(number, table) for table in tables)], tables)


def _in_order(page: PageText, lines: Sequence[PrintedLine], tables: Sequence[RawTable]) -> list[Piece]:
    across = page.across
    ordered = sorted(lines, key=lambda line: (line.base, line.box.left))
    pieces: list[Piece] = []
    for region in split_columns(ordered, across, [table.box for table in tables]):
        text = [line for line in region.lines if line.words[0].text != STAND_IN]
        left = min((line.box.left for line in text), default=0.0)
        right = _reached(text)
        for part in _between_tables(region.lines):
            if part[0].words[0].text == STAND_IN:
                pieces.append(_table_of(part[0], tables))
            else:
                pieces.extend(_with_aligned(page, part, left, right))
    return pieces


def _reached(lines: Sequence[PrintedLine]) -> float:
    """How far lines of text reach; a line in twenty may stick out (a long address that could not be broken)."""
    rights = sorted((line.box.right for line in lines), reverse=True)
    return rights[len(rights) // 20] if rights else 0.0


def _stand_in(number: int, table: RawTable) -> PrintedLine:
    box = table.box
    return printed_line(
        number, [Word(STAND_IN, box.left, box.top, box.right, box.bottom, box.bottom, 10.0, False, False)]
    )


def _table_of(line: PrintedLine, tables: Sequence[RawTable]) -> RawTable:
    return next(table for table in tables if table.box == line.box)


def _between_tables(lines: Sequence[PrintedLine]) -> list[list[PrintedLine]]:
    """The lines in stretches, each stand-in of a table a stretch of its own."""
    parts: list[list[PrintedLine]] = []
    for line in lines:
        stands_in = line.words[0].text == STAND_IN
        if not parts or stands_in or parts[-1][0].words[0].text == STAND_IN:
            parts.append([line])
        else:
            parts[-1].append(line)
    return parts


def _with_aligned(page: PageText, lines: Sequence[PrintedLine], left: float, right: float) -> list[Piece]:
    """The lines as flows, with the tables that only gutters show between them."""
    tables, rest = aligned_tables(page.marks.number, lines, page.across)
    even = page.marks.width - left
    pieces: list[Piece] = []
    waiting: list[PrintedLine] = []
    todo = sorted(tables, key=lambda table: table.box.top)
    for line in rest:
        while todo and todo[0].box.top < line.base:
            if waiting:
                pieces.append(Flow(tuple(waiting), left, right, even))
                waiting = []
            pieces.append(todo.pop(0))
        waiting.append(line)
    if waiting:
        pieces.append(Flow(tuple(waiting), left, right, even))
    return [*pieces, *todo]
