"""Reading order: columns and side bars of a page, read one after the other between what spans the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from syllabus_io.extract.pdf_marks import Rule
from syllabus_io.extract.pdf_words import PrintedLine, fragments, printed_line
from syllabus_io.provenance import Box

__all__ = ["Region", "split_columns"]

GUTTER_POINTS = 7.0
"""Columns of text stand at least this far apart."""
SAME_LEFT_POINTS = 2.0
FEWEST_COLUMN_LINES = 5
FEWEST_LAST_LINES = 2
FULL_COLUMN_LINES = 15
"""The last column of a text may be so short where the one before it holds so many lines."""
REACH_SHARE = 5.0
"""Lines of a column reach to within this share of their size from the next column, one in four at least."""
MOST_CANDIDATES = 16
ALIGNED_POINTS = 1.5
"""Lines whose baselines differ by no more than this stand side by side, as in a table."""
CLASH_SHARE = 0.85
"""Lines side by side whose baselines differ by more, but less than this share of their size, are set independently."""
LONG_LINE_LETTERS = 22
LONGEST_KEY_LETTERS = 14
KEY_SHARE = 0.8


@dataclass(frozen=True, slots=True)
class Region:
    """Lines that are read from top to bottom."""

    lines: tuple[PrintedLine, ...]


@dataclass(frozen=True, slots=True)
class _Piece:
    """A fragment of a line: what a gutter must not cross."""

    line: int
    left: float
    right: float
    base: float
    size: float
    text: str


def split_columns(
    lines: Sequence[PrintedLine], across: Sequence[Rule] = (), tables: Sequence[Box] = (), depth: int = 0
) -> list[Region]:
    """The lines as regions in reading order. Rules across and tables are not read over by a gutter."""
    if len(lines) < 2 * FEWEST_COLUMN_LINES or depth > 3:
        return [Region(tuple(lines))]
    pieces = _pieces(lines)
    best: tuple[float, float, float] | None = None
    for place in _candidates(pieces):
        found = _tallest(pieces, place, across, tables)
        if found is not None and (best is None or found[1] - found[0] > best[2] - best[1]):
            best = (place, *found)
    if best is None:
        return [Region(tuple(lines))]
    place, top, bottom = best
    above, left, right, below = _shared_out(lines, place, top, bottom)
    regions = []
    for part in (above, left, right, below):
        if part:
            regions.extend(split_columns(part, across, tables, depth + 1))
    return regions


def _pieces(lines: Sequence[PrintedLine]) -> list[_Piece]:
    return [
        _Piece(number, part[0].left, part[-1].right, line.base, line.size, " ".join(word.text for word in part))
        for number, line in enumerate(lines)
        for part in fragments(line)
    ]


def _candidates(pieces: Sequence[_Piece]) -> list[float]:
    """Places where the left ends of several pieces stand under one another, right of other text."""
    outer = min(piece.left for piece in pieces)
    groups: list[list[float]] = []
    for left in sorted(piece.left for piece in pieces if piece.left > outer + 40):
        if groups and left - groups[-1][-1] <= SAME_LEFT_POINTS:
            groups[-1].append(left)
        else:
            groups.append([left])
    likely = sorted((group for group in groups if len(group) >= FEWEST_LAST_LINES), key=len, reverse=True)
    return [group[0] for group in likely[:MOST_CANDIDATES]]


def _tallest(
    pieces: Sequence[_Piece], place: float, across: Sequence[Rule], tables: Sequence[Box]
) -> tuple[float, float] | None:
    """Top and bottom of the tallest stretch where the strip left of the place is blank between two columns."""
    left, right = place - GUTTER_POINTS, place - 0.5
    stops = sorted(
        [piece.base for piece in pieces if piece.left < right and piece.right > left]
        + [rule.at for rule in across if rule.start < left and rule.end > right]
        + [height for box in tables if box.left < right and box.right > left for height in (box.top, box.bottom)]
    )
    ends = [-1e9, *stops, 1e9]
    best: tuple[float, float] | None = None
    for top, bottom in pairwise(ends):
        inside = [piece for piece in pieces if top < piece.base < bottom]
        before = [piece for piece in inside if piece.right <= left + 0.5]
        after = [piece for piece in inside if piece.left >= right - 0.5]
        if _are_columns(before, after):
            stretch = (min(p.base for p in (*before, *after)) - 0.1, max(p.base for p in (*before, *after)) + 0.1)
            if best is None or stretch[1] - stretch[0] > best[1] - best[0]:
                best = stretch
    return best


def _are_columns(before: Sequence[_Piece], after: Sequence[_Piece]) -> bool:
    """Whether two blocks side by side are columns of text and not the columns of a table."""
    if _are_keys(before):
        return False
    rows_before = {piece.line: piece.base for piece in before}
    rows_after = {piece.line: piece.base for piece in after}
    if _is_last_column(before, after, len(rows_before), len(rows_after)):
        return True
    if min(len(rows_before), len(rows_after)) < FEWEST_COLUMN_LINES:
        return False
    low = max(min(rows_before.values()), min(rows_after.values()))
    high = min(max(rows_before.values()), max(rows_after.values()))
    beside = [base for base in rows_before.values() if low - 2 <= base <= high + 2]
    if len(beside) < FEWEST_COLUMN_LINES - 1:
        return False
    size = max(piece.size for piece in before)
    nearest = [min(abs(base - other) for other in rows_after.values()) for base in beside]
    clashing = sum(ALIGNED_POINTS < distance < CLASH_SHARE * size for distance in nearest)
    if 2 * clashing >= len(beside):
        return True
    return _is_running_text(before) and _is_running_text(after)


def _are_keys(pieces: Sequence[_Piece]) -> bool:
    """Whether the pieces are nothing but short entries with numbers, as dates are, which say nothing by themselves."""
    keys = [p for p in pieces if len(p.text) <= LONGEST_KEY_LETTERS and any(letter.isdigit() for letter in p.text)]
    return len(pieces) >= FEWEST_COLUMN_LINES and len(keys) >= KEY_SHARE * len(pieces)


def _is_last_column(before: Sequence[_Piece], after: Sequence[_Piece], many: int, few: int) -> bool:
    """Whether the lines are the end of running text that fills a column before them and is wrapped at the gutter."""
    if few < FEWEST_LAST_LINES or many < FULL_COLUMN_LINES:
        return False
    edge = min(piece.left for piece in after) - GUTTER_POINTS
    reaching = sum(piece.right > edge - REACH_SHARE * piece.size for piece in before)
    running = sum(piece.text[:1].islower() for piece in before)
    wrapped = sum(len(piece.text) >= LONG_LINE_LETTERS and piece.text[:1].islower() for piece in after)
    return 4 * reaching >= len(before) and 10 * running >= len(before) and 10 * wrapped >= len(after)


def _is_running_text(pieces: Sequence[_Piece]) -> bool:
    texts = [piece.text for piece in pieces]
    running = sum(text[:1].islower() for text in texts)
    return sum(map(len, texts)) >= LONG_LINE_LETTERS * len(texts) and 5 * running >= len(texts)


def _shared_out(
    lines: Sequence[PrintedLine], place: float, top: float, bottom: float
) -> tuple[list[PrintedLine], list[PrintedLine], list[PrintedLine], list[PrintedLine]]:
    above: list[PrintedLine] = []
    left: list[PrintedLine] = []
    right: list[PrintedLine] = []
    below: list[PrintedLine] = []
    for line in lines:
        if line.base < top:
            above.append(line)
        elif line.base > bottom:
            below.append(line)
        else:
            for words, side in (
                ([word for word in line.words if word.left < place - 1], left),
                ([word for word in line.words if word.left >= place - 1], right),
            ):
                if words:
                    side.append(printed_line(line.page, words))
    return above, left, right, below
