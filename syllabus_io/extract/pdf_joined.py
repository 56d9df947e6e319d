"""Tables that go on over page breaks: columns matched, repeated headers dropped, parted rows put together."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from syllabus_io.extract.pdf_gutters import Gutter, shared_gutters
from syllabus_io.extract.pdf_lines import Flow
from syllabus_io.extract.pdf_pages import Piece
from syllabus_io.extract.pdf_raw_tables import RawCell, RawTable, from_rows
from syllabus_io.extract.pdf_rows import text_rows
from syllabus_io.extract.pdf_words import PrintedLine

__all__ = ["join_over_pages"]

SAME_EDGE_POINTS = 8.0
"""Drawn columns of two pages are the same when their left ends differ by no more than this."""
SAME_MARGIN_POINTS = 14.0
"""Text goes on from page to page where its margins differ by no more than this."""
MOST_HEADER_ROWS = 3
USUAL_SHARE = 0.7
NEARLY_ALL_SHARE = 0.85
"""A row without the entry that so many rows have in the leading column is the rest of the row before the page break."""
FEWEST_ENTRIES = 3


def join_over_pages(pages: Sequence[Sequence[Piece]]) -> list[Piece]:
    """The pieces of all pages in one list, what a page break parts put together."""
    joined: list[Piece] = []
    for pieces in pages:
        rest = list(pieces)
        if joined and rest:
            before, after = joined[-1], rest[0]
            whole = _joined_pieces(before, after)
            if whole is not None:
                joined[-1] = whole
                rest = rest[1:]
        joined.extend(rest)
    return joined


def _joined_pieces(before: Piece, after: Piece) -> Piece | None:
    if isinstance(before, RawTable) and isinstance(after, RawTable):
        return _joined(before, after)
    if isinstance(before, Flow) and isinstance(after, Flow):
        left, right = abs(before.left - after.left), abs(before.right - after.right)
        return _joined_flows(before, after) if max(left, right) <= SAME_MARGIN_POINTS else None
    return None


def _joined(first: RawTable, second: RawTable) -> RawTable | None:
    if first.rows and second.rows:
        return _rebuilt(first, second)
    columns = _matched_columns(first, second)
    if columns is None:
        return None
    header = _repeated_rows(first, second, columns)
    while header < second.row_count - 1 and not any(cell.lines for cell in second.cells if cell.row == header):
        header += 1
    cells = [
        replace(cell, row=cell.row - header, column=columns[cell.column]) for cell in second.cells if cell.row >= header
    ]
    if not cells:
        return first
    if _continues_row(first, cells):
        return _with_row_continued(first, cells)
    shift = first.row_count
    moved = [replace(cell, row=cell.row + shift) for cell in cells]
    rows = shift + second.row_count - header
    return replace(first, cells=(*first.cells, *moved), row_count=rows)


def _rebuilt(first: RawTable, second: RawTable) -> RawTable | None:
    """Two tables without rules down as one, its gutters found anew over the lines of both; None when none are left."""
    lines = [line for row in (*first.rows, *second.rows) for line in row]
    gutters = shared_gutters(lines, fewest=2)
    if len(gutters) + 1 < max(first.column_count, second.column_count):
        return None
    rows_first, rows_second = _regrouped(first, gutters), _regrouped(second, gutters)
    head = from_rows(first.page, rows_first, gutters, first.box, ruled=first.ruled)
    rest = from_rows(second.page, rows_second, gutters, second.box, ruled=second.ruled)
    columns = {column: column for column in range(len(gutters) + 1)}
    repeated = _repeated_rows(head, rest, columns)
    cells = [replace(cell, row=cell.row - repeated) for cell in rest.cells if cell.row >= repeated]
    rows = rows_second[repeated:]
    if cells and _continues_row(head, cells):
        joined = [*rows_first[:-1], [*rows_first[-1], *rows[0]], *rows[1:]]
    else:
        joined = [*rows_first, *rows]
    whole = from_rows(first.page, joined, gutters, first.box, ruled=first.ruled)
    return replace(whole, is_loose=first.is_loose or second.is_loose)


def _regrouped(table: RawTable, gutters: Sequence[Gutter]) -> list[list[PrintedLine]]:
    """The table's rows; found anew below the header where the other page showed more columns."""
    rows = [list(row) for row in table.rows]
    if table.column_count > len(gutters) or len(rows) < 2:
        return rows
    return [rows[0], *text_rows([line for row in rows[1:] for line in row], gutters)]


def _matched_columns(first: RawTable, second: RawTable) -> dict[int, int] | None:
    """For each column of the second table that of the first which it continues; None when they do not match."""
    same_lefts = len(first.lefts) == len(second.lefts) and all(
        abs(a - b) <= SAME_EDGE_POINTS for a, b in zip(first.lefts, second.lefts, strict=True)
    )
    if first.ruled and second.ruled and same_lefts:
        return {column: column for column in range(first.column_count)}
    spans_first, spans_second = _extents(first), _extents(second)
    matched: dict[int, int] = {}
    for column, (left, right) in spans_second.items():
        hits = [
            (min(right, other[1]) - max(left, other[0]), number)
            for number, other in spans_first.items()
            if min(right, other[1]) - max(left, other[0]) > 0
        ]
        if not hits:
            return None
        matched[column] = max(hits)[1]
    if len(set(matched.values())) < len(matched) or len(matched) < 2 or first.column_count < second.column_count:
        return None
    if sorted(matched, key=lambda column: matched[column]) != sorted(matched):
        return None
    return matched | {column: 0 for column in range(second.column_count) if column not in matched}


def _extents(table: RawTable) -> dict[int, tuple[float, float]]:
    """Left and right end of the text in each column, spanning cells left out."""
    extents: dict[int, tuple[float, float]] = {}
    for cell in table.cells:
        if cell.column_span == 1:
            for line in cell.lines:
                old = extents.get(cell.column, (line.box.left, line.box.right))
                extents[cell.column] = (min(old[0], line.box.left), max(old[1], line.box.right))
    return extents


def _repeated_rows(first: RawTable, second: RawTable, columns: dict[int, int]) -> int:
    """How many rows at the head of the second table repeat the head of the first."""
    repeated = 0
    for row in range(min(MOST_HEADER_ROWS, first.row_count, second.row_count)):
        own = {columns[cell.column]: _text(cell) for cell in second.cells if cell.row == row and cell.lines}
        theirs = {cell.column: _text(cell) for cell in first.cells if cell.row == row and cell.lines}
        if not own or own != theirs:
            break
        repeated += 1
    return repeated


def _text(cell: RawCell) -> str:
    return " ".join(line.text for line in cell.lines)


def _continues_row(first: RawTable, cells: Sequence[RawCell]) -> bool:
    """Whether the first row of the rest goes on with the last row of the table before the page break.

    It does when it lacks the leading entry that nearly all rows have, or when its first entry completes the last row's
    to the form that the other rows' entries have ("Monday, May" and "5"; a number and what happens on that day).
    """
    own = {cell.column: cell for cell in cells if cell.row == 0 and cell.lines}
    rows = [
        {cell.column: cell for cell in first.cells if cell.lines and cell.row == row} for row in range(first.row_count)
    ]
    if not own or len(rows) < 2:
        return False
    others, last = rows[1:], rows[-1]
    leading = sum(0 in row for row in others) / len(others)
    column = min(own)
    if column == 0:
        later = [cell for cell in cells if cell.row > 0 and cell.column == 0 and cell.lines]
        entries = [_text(cell) for cell in [*(row[0] for row in others[:-1] if 0 in row), *later]]
        return 0 in last and len(entries) >= FEWEST_ENTRIES and _completes(_text(last[0]), _text(own[0]), entries)
    if _has_own_date(own, others):
        return False
    parted = not own.keys() & last.keys() or (column > 1 and first.column_count > 2) or first.column_count == 2
    return leading >= (USUAL_SHARE if parted else NEARLY_ALL_SHARE)


def _has_own_date(own: Mapping[int, RawCell], rows: Sequence[Mapping[int, RawCell]]) -> bool:
    """Whether the entries hold one with a number that has the form its column has in nearly all rows: a date."""
    for column, cell in own.items():
        forms = [_form(_text(row[column])) for row in rows if column in row]
        form = _form(_text(cell))
        usual = len(forms) >= max(FEWEST_ENTRIES, NEARLY_ALL_SHARE * len(rows))
        if usual and "9" in form and 2 * forms.count(form) >= len(forms):
            return True
    return False


def _completes(last: str, entry: str, entries: Sequence[str]) -> bool:
    """Whether the last entry takes the form of the others only together with the one behind the page break."""
    numbered = sum(other[:1].isdigit() for other in entries)
    if numbered >= NEARLY_ALL_SHARE * len(entries):
        return last[:1].isdigit() and not entry[:1].isdigit()
    forms = [_form(other) for other in entries]
    return _form(entry) not in forms and _form(last) not in forms and forms.count(_form(f"{last} {entry}")) > 1


def _form(text: str) -> str:
    """The shape of a text: words as a, numbers as 9.

    >>> _form("Monday, May 5")
    'a, a 9'
    """
    return re.sub(r"\d+", "9", re.sub(r"[^\W\d_]+", "a", text))


def _with_row_continued(first: RawTable, cells: Sequence[RawCell]) -> RawTable:
    last = first.row_count - 1
    rest = {cell.column: cell for cell in cells if cell.row == 0 and cell.lines}
    kept: list[RawCell] = []
    for cell in first.cells:
        more = rest.pop(cell.column, None) if cell.row + cell.row_span - 1 == last else None
        kept.append(replace(cell, lines=(*cell.lines, *more.lines)) if more else cell)
    kept.extend(replace(cell, row=last) for cell in rest.values())
    below = [replace(cell, row=cell.row + last) for cell in cells if cell.row > 0]
    rows = max([first.row_count, *(cell.row + cell.row_span for cell in below)])
    return replace(first, cells=(*kept, *below), row_count=rows)


def _joined_flows(before: Flow, after: Flow) -> Flow:
    left, right = min(before.left, after.left), max(before.right, after.right)
    return Flow((*before.lines, *after.lines), left, right, max(before.even, after.even))
