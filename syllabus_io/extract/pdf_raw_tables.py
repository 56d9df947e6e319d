"""Tables of one page as cells of printed lines, and how rows and gutters make them."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from syllabus_io.extract.pdf_gutters import (
    Gutter,
    column_words,
    shared_gutters,
)
from syllabus_io.extract.pdf_rows import text_rows
from syllabus_io.extract.pdf_words import PrintedLine, printed_line
from syllabus_io.provenance import Box, union

__all__ = ["RawCell", "RawTable", "band_rows", "box_of", "first_entry", "from_bands", "from_rows", "parted", "slot"]

FEW_BANDS = 3
"""A table with so few bands between its rules does not have a rule between all its rows."""
SHORT_ENTRY_LETTERS = 26


@dataclass(frozen=True, slots=True)
class RawCell:
    """A cell with its printed lines; rows and columns count from 0. ``left`` and ``right`` bound its text."""

    row: int
    column: int
    row_span: int
    column_span: int
    lines: tuple[PrintedLine, ...]
    box: Box
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class RawTable:
    """A table of one page, before tables that go on over pages are joined. ``lefts`` are its columns' left ends.

    Where gutters and not rules part the columns, ``rows`` holds the printed lines row by row, and ``gutters`` those.
    ``is_loose`` tells that some line may belong to the row beside its own.
    """

    page: int
    box: Box
    row_count: int
    lefts: tuple[float, ...]
    cells: tuple[RawCell, ...]
    ruled: bool
    rows: tuple[tuple[PrintedLine, ...], ...] = ()
    gutters: tuple[Gutter, ...] = ()
    is_loose: bool = False

    @property
    def column_count(self) -> int:
        """How many columns it has."""
        return len(self.lefts)


def parted(lines: Iterable[PrintedLine], box: Box) -> tuple[list[PrintedLine], list[PrintedLine]]:
    """The lines inside the box and those outside; a line that crosses its side is parted between words."""
    inside, outside = [], []
    for line in lines:
        height = line.base - 0.3 * line.size
        if not box.top <= height <= box.bottom:
            outside.append(line)
            continue
        within = [word for word in line.words if box.left - 1 <= (word.left + word.right) / 2 <= box.right + 1]
        beyond = [word for word in line.words if not box.left - 1 <= (word.left + word.right) / 2 <= box.right + 1]
        if within:
            inside.append(printed_line(line.page, within))
        if beyond:
            outside.append(printed_line(line.page, beyond))
    return inside, outside


def slot(places: Sequence[float], value: float) -> int:
    """Between which two of the places, in rising order, the value lies: the number of the first, within bounds."""
    return min(max(bisect_right(places, value) - 1, 0), len(places) - 2)


def from_bands(page: int, box: Box, lines: Sequence[PrintedLine], places: Sequence[float]) -> RawTable | None:
    """The table whose rows are parted by rules across and whose columns by gutters only; None without gutters."""
    ordered = sorted(lines, key=lambda line: line.base)
    gutters = shared_gutters(ordered, fewest=2)
    if not gutters or len(places) < 2:
        return None
    rows = band_rows(ordered, gutters, places, closed=False)
    if len(rows) < 2:
        return None
    return from_rows(page, rows, gutters, box, ruled=True)


def band_rows(
    lines: Sequence[PrintedLine], gutters: Sequence[Gutter], places: Sequence[float], *, closed: bool
) -> list[list[PrintedLine]]:
    """The lines as rows: a band between two rules is one, unless its own lines are rows without rules.

    ``closed`` tells that rules down part the columns.
    """
    bands: dict[int, list[PrintedLine]] = {}
    for line in sorted(lines, key=lambda line: line.base):
        bands.setdefault(slot(places, line.base - 0.3 * line.size), []).append(line)
    few = len(bands) <= FEW_BANDS
    labels = Counter(text for band in bands.values() for text in {first_entry(line, gutters) for line in band} if text)
    rows: list[list[PrintedLine]] = []
    for number, band in enumerate(bands.values()):
        entries = [text for line in band if (text := first_entry(line, gutters))]
        repeated = sum(labels[text] > 2 for text in entries)
        alone = few and not closed and len(entries) <= 1 and number > 0
        if alone or (len(entries) > 1 and (2 * repeated >= len(entries) or _is_list(band, gutters, few))):
            rows.extend(text_rows(band, gutters))
        else:
            rows.append(band)
    return rows


def first_entry(line: PrintedLine, gutters: Sequence[Gutter]) -> str:
    """The line's text in the first column, empty where there is none."""
    words = column_words(line, gutters).get(0, ())
    return " ".join(word.text for word in words)


def _is_list(band: Sequence[PrintedLine], gutters: Sequence[Gutter], few: bool) -> bool:
    """Whether the band's lines are rows of their own: short first entries, most with a neighbour in their line."""
    columns = [column_words(line, gutters) for line in band]
    first = [own for own in columns if 0 in own]
    if len(first) < (2 if few else 3):
        return False
    lengths = sum(sum(len(word.text) + 1 for word in own[0]) for own in first)
    paired = sum(len(own) > 1 for own in first)
    return lengths <= SHORT_ENTRY_LETTERS * len(first) and 5 * paired >= 3 * len(first)


def box_of(lines: Sequence[PrintedLine]) -> Box:
    """The box round all the lines."""
    box: Box | None = None
    for line in lines:
        box = union(box, line.box)
    return box or Box(0, 0, 0, 0)


def from_rows(
    page: int, rows: Sequence[Sequence[PrintedLine]], gutters: Sequence[Gutter], box: Box, *, ruled: bool
) -> RawTable:
    """The table of rows of printed lines whose columns the gutters part."""
    shares = [_row_cells(row, gutters) for row in rows]
    extents: dict[int, tuple[float, float]] = {}
    for share in shares:
        for column, (lines, span) in share.items():
            if span == 1:
                left = min(line.box.left for line in lines)
                right = max(line.box.right for line in lines)
                old = extents.get(column, (left, right))
                extents[column] = (min(old[0], left), max(old[1], right))
    edges = [box.left, *(gutter.middle for gutter in gutters)]
    cells = []
    for number, share in enumerate(shares):
        for column, (lines, span) in share.items():
            own = box_of(lines)
            left, right = extents.get(column, (own.left, own.right))
            cells.append(RawCell(number, column, 1, span, tuple(lines), own, left, max(right, own.right)))
    parted = tuple(tuple(row) for row in rows)
    return RawTable(page, box, len(rows), tuple(edges), tuple(cells), ruled, parted, tuple(gutters))


def _row_cells(row: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> dict[int, tuple[list[PrintedLine], int]]:
    lines: dict[int, list[PrintedLine]] = {}
    for line in row:
        for column, words in column_words(line, gutters).items():
            lines.setdefault(column, []).append(printed_line(line.page, words))
    cells = {}
    for column, own in lines.items():
        right = max(line.box.right for line in own)
        last = sum(gutter.middle < right - 1 for gutter in gutters)
        while last > column and any(other in lines for other in range(column + 1, last + 1)):
            last -= 1
        cells[column] = (own, max(last, column) - column + 1)
    return cells
