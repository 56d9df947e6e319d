"""Tables drawn with rules: from straight rules to grids of cells. Pure geometry, in points."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from syllabus_io.extract.pdf_marks import Rule
from syllabus_io.provenance import Box

__all__ = ["Grid", "GridCell", "find_grids", "merged_rules"]

SNAP_POINTS = 3.0
"""Rules nearer to each other than this lie on one line; ends nearer than this meet."""
GAP_POINTS = 4.0
"""Pieces of one rule with gaps no wider than this are one rule."""
COVER_SHARE = 0.6
"""A wall stands between two cells when rules cover this share of their common side."""
SMALLEST_CELL_POINTS = 4.0


@dataclass(frozen=True, slots=True)
class GridCell:
    """A cell of a grid: first row and column (from 0), spans, box."""

    row: int
    column: int
    row_span: int
    column_span: int
    box: Box


@dataclass(frozen=True, slots=True)
class Grid:
    """Rules that meet, as rows and columns: the places of the lines between them, and the cells they bound."""

    lefts: tuple[float, ...]
    tops: tuple[float, ...]
    cells: tuple[GridCell, ...]
    box: Box


def merged_rules(rules: Iterable[Rule]) -> list[Rule]:
    """The rules, with those that continue or cover each other made one."""
    lines: list[list[Rule]] = []
    for rule in sorted(rules, key=lambda rule: rule.at):
        if lines and rule.at - lines[-1][0].at <= SNAP_POINTS:
            lines[-1].append(rule)
        else:
            lines.append([rule])
    merged: list[Rule] = []
    for line in lines:
        at = sum(rule.at for rule in line) / len(line)
        start, end, thickness = None, 0.0, 0.0
        for rule in sorted(line, key=lambda rule: rule.start):
            if start is None:
                start, end, thickness = rule.start, rule.end, rule.thickness
            elif rule.start <= end + GAP_POINTS:
                end, thickness = max(end, rule.end), max(thickness, rule.thickness)
            else:
                merged.append(Rule(at, start, end, thickness))
                start, end, thickness = rule.start, rule.end, rule.thickness
        if start is not None:
            merged.append(Rule(at, start, end, thickness))
    return merged


def find_grids(across: Sequence[Rule], down: Sequence[Rule]) -> list[Grid]:
    """The grids that merged rules form, largest area last; rules that meet no vertical rule form none."""
    grids = []
    for rows, columns in _meeting(across, down):
        grid = _grid(rows, columns)
        if grid is not None:
            grids.append(grid)
    return sorted(grids, key=lambda grid: (grid.box.right - grid.box.left) * (grid.box.bottom - grid.box.top))


def _meeting(across: Sequence[Rule], down: Sequence[Rule]) -> list[tuple[list[Rule], list[Rule]]]:
    """Groups of rules that touch or cross one another."""
    parent = list(range(len(across) + len(down)))

    def root(number: int) -> int:
        while parent[number] != number:
            parent[number] = parent[parent[number]]
            number = parent[number]
        return number

    for i, row in enumerate(across):
        for j, column in enumerate(down):
            if (
                row.start - SNAP_POINTS <= column.at <= row.end + SNAP_POINTS
                and column.start - SNAP_POINTS <= row.at <= column.end + SNAP_POINTS
            ):
                parent[root(i)] = root(len(across) + j)
    groups: dict[int, tuple[list[Rule], list[Rule]]] = {}
    for i, row in enumerate(across):
        groups.setdefault(root(i), ([], []))[0].append(row)
    for j, column in enumerate(down):
        groups.setdefault(root(len(across) + j), ([], []))[1].append(column)
    return [group for group in groups.values() if group[0] and group[1]]


def _grid(across: list[Rule], down: list[Rule]) -> Grid | None:
    lefts = _places(rule.at for rule in down)
    tops = _places(rule.at for rule in across)
    lefts = _with_ends(lefts, min(rule.start for rule in across), max(rule.end for rule in across))
    tops = _with_ends(tops, min(rule.start for rule in down), max(rule.end for rule in down))
    if len(lefts) < 2 or len(tops) < 2:
        return None
    walls_down = {
        (r, c): _covers(down, lefts[c], tops[r], tops[r + 1])
        for r in range(len(tops) - 1)
        for c in range(1, len(lefts) - 1)
    }
    walls_across = {
        (r, c): _covers(across, tops[r], lefts[c], lefts[c + 1])
        for r in range(1, len(tops) - 1)
        for c in range(len(lefts) - 1)
    }
    cells = tuple(
        GridCell(r, c, r2 - r + 1, c2 - c + 1, Box(lefts[c], tops[r], lefts[c2 + 1], tops[r2 + 1]))
        for r, c, r2, c2 in _rectangles(len(tops) - 1, len(lefts) - 1, walls_down, walls_across)
    )
    return Grid(tuple(lefts), tuple(tops), cells, Box(lefts[0], tops[0], lefts[-1], tops[-1]))


def _places(values: Iterable[float]) -> list[float]:
    """The distinct places, those nearer than the snap distance put together."""
    groups: list[list[float]] = []
    for value in sorted(values):
        if groups and value - groups[-1][-1] <= SNAP_POINTS:
            groups[-1].append(value)
        else:
            groups.append([value])
    return [sum(group) / len(group) for group in groups]


def _with_ends(places: list[float], first: float, last: float) -> list[float]:
    """The places, with the outermost ends of the rules across them added: the sides of a grid open there."""
    wide = [*([first] if first < places[0] - SMALLEST_CELL_POINTS else []), *places]
    return [*wide, *([last] if last > places[-1] + SMALLEST_CELL_POINTS else [])]


def _covers(rules: list[Rule], at: float, start: float, end: float) -> bool:
    covered = sum(
        max(0.0, min(rule.end, end) - max(rule.start, start)) for rule in rules if abs(rule.at - at) <= SNAP_POINTS
    )
    return covered >= COVER_SHARE * (end - start)


def _rectangles(
    rows: int, columns: int, walls_down: dict[tuple[int, int], bool], walls_across: dict[tuple[int, int], bool]
) -> list[tuple[int, int, int, int]]:
    """Cells as (first row, first column, last row, last column): unit cells without a wall between them are one."""
    taken: set[tuple[int, int]] = set()
    found = []
    for row in range(rows):
        for column in range(columns):
            if (row, column) in taken:
                continue
            last = column
            while last + 1 < columns and (row, last + 1) not in taken and not walls_down[row, last + 1]:
                last += 1
            bottom = row
            while bottom + 1 < rows and _goes_on(bottom + 1, column, last, columns, walls_down, walls_across, taken):
                bottom += 1
            taken.update((r, c) for r in range(row, bottom + 1) for c in range(column, last + 1))
            found.append((row, column, bottom, last))
    return found


def _goes_on(
    row: int,
    first: int,
    last: int,
    columns: int,
    walls_down: dict[tuple[int, int], bool],
    walls_across: dict[tuple[int, int], bool],
    taken: set[tuple[int, int]],
) -> bool:
    """Whether the cell over columns first to last goes on into the row: no wall above it, closed at its sides."""
    if any((row, column) in taken or walls_across[row, column] for column in range(first, last + 1)):
        return False
    if any(walls_down[row, column] for column in range(first + 1, last + 1)):
        return False
    left_closed = first == 0 or walls_down[row, first]
    right_closed = last == columns - 1 or walls_down[row, last + 1]
    return left_closed and right_closed
