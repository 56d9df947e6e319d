"""The grid of a Word table: merged cells stand once with their spans, slivers between columns are closed.

ECMA-376 part 1, section 17.4: gridSpan and the older hMerge join columns, vMerge joins rows, gridBefore and
gridAfter leave columns out at the ends of a row.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lxml import etree

from syllabus_io.extract.word_package import element_name, w
from syllabus_io.extract.word_styles import is_on, twentieths

__all__ = ["CellShape", "TableShape", "read_shape"]

MAX_SPAN = 63
"""The most columns a word processor lets a table have (common practice, no source)."""
SLIVER_POINTS = 7.0
"""Column edges of different rows that lie closer than this are one edge that was dragged carelessly."""

ROW_WRAPPERS = {"sdt", "sdtContent", "customXml", "ins", "moveTo"}


@dataclass(frozen=True, slots=True)
class CellShape:
    """One cell: its element and where it stands, rows and columns from 1."""

    element: etree._Element
    row: int
    column: int
    row_span: int = 1
    column_span: int = 1


@dataclass(frozen=True, slots=True)
class TableShape:
    """The cells of a table in reading order, its bounds, and the text of rows that a tracked change deleted."""

    cells: tuple[CellShape, ...]
    row_count: int
    column_count: int
    deleted: tuple[str, ...] = ()


def read_shape(table: etree._Element) -> TableShape:
    """The shape of a table element. A cell that goes on from the row above is counted to the one it goes on from."""
    cells: list[CellShape] = []
    deleted: list[str] = []
    open_merges: dict[int, int] = {}
    row_number = 0
    for row in _wrapped(table, "tr"):
        properties = row.find(w("trPr"))
        if properties is not None and is_on(properties, "del") is not None:
            deleted.append(" ".join(text for part in row.iter(w("delText"), w("t")) if (text := part.text)))
            continue
        row_number += 1
        open_merges = _read_row(row, row_number, cells, open_merges)
    column_count = max((cell.column + cell.column_span - 1 for cell in cells), default=0)
    cells, column_count = _closed_slivers(table, cells, column_count)
    cells, column_count = _without_unused_edges(cells, column_count)
    return TableShape(tuple(cells), row_number, column_count, tuple(deleted))


def _wrapped(parent: etree._Element, name: str) -> Iterator[etree._Element]:
    """Children of a name, also those inside content controls and other wrappers."""
    for child in parent:
        found = element_name(child)
        if found == name:
            yield child
        elif found in ROW_WRAPPERS:
            yield from _wrapped(child, name)


def _read_row(row: etree._Element, row_number: int, cells: list[CellShape], above: dict[int, int]) -> dict[int, int]:
    """Add a row's cells; returns the vertically merged ones that may go on below: column -> index in ``cells``."""
    properties = row.find(w("trPr"))
    column = 1 + _count(properties, "gridBefore", 0)
    going_on: dict[int, int] = {}
    for element in _wrapped(row, "tc"):
        own = element.find(w("tcPr"))
        span = max(1, _count(own, "gridSpan", 1))
        vertical, horizontal = _merge(own, "vMerge"), _merge(own, "hMerge")
        if horizontal == "continue" and cells and cells[-1].row == row_number:
            cells[-1] = replace(cells[-1], column_span=cells[-1].column_span + span)
        elif vertical == "continue" and column in above:
            index = above[column]
            cells[index] = replace(cells[index], row_span=row_number - cells[index].row + 1)
            going_on[column] = index
        else:
            cells.append(CellShape(element, row_number, column, 1, span))
            if vertical is not None:
                going_on[column] = len(cells) - 1
        column += span
    return going_on


def _count(properties: etree._Element | None, name: str, default: int) -> int:
    found = None if properties is None else properties.find(w(name))
    value = "" if found is None else found.get(w("val")) or ""
    return min(int(value), MAX_SPAN) if value.isascii() and value.isdigit() else default


def _merge(properties: etree._Element | None, name: str) -> str | None:
    """ "restart", "continue", or None when the cell is not merged; without a value it goes on."""
    found = None if properties is None else properties.find(w(name))
    return None if found is None else found.get(w("val")) or "continue"


def _closed_slivers(table: etree._Element, cells: list[CellShape], column_count: int) -> tuple[list[CellShape], int]:
    """The cells with edges that nearly meet made one; unchanged when widths are unknown or a cell would vanish."""
    grid = table.find(w("tblGrid"))
    columns = [] if grid is None else grid.findall(w("gridCol"))
    widths = [twentieths(column.get(w("w"))) or 0.0 for column in columns]
    if len(widths) < column_count or not any(widths):
        return cells, column_count
    edges = [0]
    for width in widths[:column_count]:
        edges.append(edges[-1] + (width >= SLIVER_POINTS))
    edges = [edge + 1 for edge in edges]
    moved: list[CellShape] = []
    for cell in cells:
        first, last = edges[cell.column - 1], edges[min(cell.column - 1 + cell.column_span, column_count)]
        if first == last:
            if any((text.text or "").strip() for text in cell.element.iter(w("t"))):
                return cells, column_count
            continue
        moved.append(replace(cell, column=first, column_span=last - first))
    return moved, edges[-1] - 1


def _without_unused_edges(cells: list[CellShape], column_count: int) -> tuple[list[CellShape], int]:
    """The cells on a grid without the column edges that no cell uses."""
    used = sorted({cell.column for cell in cells} | {cell.column + cell.column_span for cell in cells})
    if not used:
        return cells, column_count
    number = {edge: index + 1 for index, edge in enumerate(used)}
    moved = [
        replace(
            cell, column=number[cell.column], column_span=number[cell.column + cell.column_span] - number[cell.column]
        )
        for cell in cells
    ]
    return moved, len(used) - 1
