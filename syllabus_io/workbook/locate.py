"""Finds the tables of a sheet again after a person or another program has moved rows and columns."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from syllabus_io.workbook.areas import Area, SheetShape
from syllabus_io.workbook.cell_values import Content, FormulaText, as_typed, content_of, holds, mark_of, value_of

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FoundArea", "Grid", "grid_of", "held_cells", "label_places", "likeness", "locate", "unknown_cells"]

_LEAST_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class Grid:
    """The contents of a sheet by row and column."""

    rows: Mapping[int, Mapping[int, Content]]
    size: tuple[int, int]

    def cell(self, row: int, column: int) -> Content:
        """What a cell holds."""
        return self.rows.get(row, {}).get(column)


def held_cells(sheet: Worksheet) -> list[tuple[tuple[int, int], Any]]:
    """The cells that a sheet holds, with row and column, in that order. Going over rows would make all the others too,
    which takes many times as long."""
    return sorted(sheet._cells.items())


def grid_of(sheet: Worksheet) -> Grid:
    """The contents of a sheet; blank cells are left out."""
    rows: dict[int, dict[int, Content]] = {}
    for (at, column), cell in held_cells(sheet):
        content = content_of(value_of(cell), cell.coordinate, cell.number_format) if cell.value is not None else None
        if content is not None:
            rows.setdefault(at, {})[column] = content
    return Grid(rows, (max(rows, default=0), max((max(cells) for cells in rows.values()), default=0)))


@dataclass(frozen=True, slots=True)
class FoundArea:
    """An area where it now stands. ``columns`` leads from the columns as written to those of the file; ``last`` is the
    last row that can belong to it; ``renamed`` are headings that were typed over."""

    area: Area
    heading_row: int
    columns: Mapping[int, int]
    last: int
    renamed: tuple[str, ...] = ()

    def key(self, column: int) -> str:
        """The name of a column as written: its heading, or its number where it has none."""
        return self.area.headings.get(column) or f"column {column}"


def locate(shape: SheetShape, grid: Grid) -> tuple[tuple[FoundArea, ...], tuple[Area, ...]]:
    """The areas of a sheet that were found, in the order of the file, and those that were not."""
    places: dict[int, int] = {}
    shift = 0
    for number, area in enumerate(shape.areas):
        if area.heading_row == 0:
            continue
        row = _heading_row(area, grid, area.heading_row + shift, set(places.values()))
        if row:
            places[number] = row
            shift = row - area.heading_row
    found, missing = [], []
    starts = sorted(places.values())
    for number, area in enumerate(shape.areas):
        if area.heading_row == 0:
            last = (starts[0] if starts else grid.size[0] + 1) - 1
            found.append(FoundArea(area, 0, _headless_columns(area, grid, last), last))
        elif number in places:
            row = places[number]
            last = next((start for start in starts if start > row), grid.size[0] + 1) - 1
            columns, renamed = _columns(area, grid.rows.get(row, {}))
            found.append(FoundArea(area, row, columns, last, renamed))
        else:
            missing.append(area)
    return tuple(sorted(found, key=lambda one: one.heading_row)), tuple(missing)


def _heading_row(area: Area, grid: Grid, expected: int, taken: set[int]) -> int:
    """The row that holds most of the headings, the nearest of equals; 0 when none holds half of them."""
    wanted = Counter(_bare(text) for text in area.headings.values())
    best, best_row = (0.0, 0), 0
    for row, cells in grid.rows.items():
        if row in taken:
            continue
        held = Counter(text for text in cells.values() if isinstance(text, str))
        share = sum((wanted & held).values()) / wanted.total()
        if share >= _LEAST_SHARE and (share, -abs(row - expected)) > best:
            best, best_row = (share, -abs(row - expected)), row
    return best_row


def _bare(heading: str) -> str:
    """A heading without the number that tells it from another of the same words."""
    words, mark, number = heading.rpartition("#")
    return words if mark and number.isdigit() else heading


def _columns(area: Area, cells: Mapping[int, Content]) -> tuple[dict[int, int], tuple[str, ...]]:
    """Where each column now stands; headings that were typed over are known by standing in the gap that is left."""
    by_text: dict[str, list[int]] = defaultdict(list)
    for column, text in sorted(cells.items()):
        if isinstance(text, str):
            by_text[text].append(column)
    columns: dict[int, int] = {}
    missing = []
    for column, heading in sorted(area.headings.items()):
        places = by_text.get(_bare(heading))
        if places:
            columns[column] = places.pop(0)
        else:
            missing.append(column)
    renamed = []
    for column in missing:
        place = _gap(column, columns, cells)
        if place:
            columns[column] = place
            renamed.append(area.headings[column])
    for row in area.rows:
        for column in row.entries:
            columns.setdefault(column, column + _nearest_shift(column, columns))
    return columns, tuple(renamed)


def _gap(column: int, columns: Mapping[int, int], cells: Mapping[int, Content]) -> int:
    """The column of the file that stands between the neighbours of a column whose heading is gone; 0 when unclear."""
    before = max((known for known in columns if known < column), default=0)
    after = min((known for known in columns if known > column), default=0)
    place = (columns[before] if before else 0) + (column - before)
    between = place < columns[after] if after else True
    return place if between and place not in columns.values() and cells.get(place) is not None else 0


def _nearest_shift(column: int, columns: Mapping[int, int]) -> int:
    known = min(columns, key=lambda other: (abs(other - column), other > column), default=0)
    return columns[known] - known if known else 0


def _headless_columns(area: Area, grid: Grid, last: int) -> dict[int, int]:
    """Columns without headings: they follow the words that stand before their cells."""
    columns: dict[int, int] = {}
    for row in area.rows:
        shift = 0
        if row.label:
            places = label_places(grid, 1, last, _bare(row.label))
            if places:
                shift = places[0][1] - row.label_column
        for column in row.entries:
            columns.setdefault(column, column + shift)
    return columns


def label_places(grid: Grid, first: int, last: int, label: str) -> list[tuple[int, int]]:
    """The cells, row by row, that hold the words of a label."""
    return [
        (row, column)
        for row in range(first, last + 1)
        for column, content in sorted(grid.rows.get(row, {}).items())
        if _label_text(content) == label
    ]


def _label_text(content: Content) -> str | None:
    if isinstance(content, str):
        return content
    return f"{content:.9g}" if isinstance(content, float) and not isinstance(content, bool) else None


def likeness(shape: SheetShape, grid: Grid) -> float:
    """The share of a sheet's own words that a sheet holds: how surely it is the same under another name."""
    wanted = Counter(text for area in shape.areas for text in map(_bare, area.headings.values()))
    wanted += Counter(mark[1:] for mark in shape.loose.values() if isinstance(mark, str) and mark.startswith("'"))
    held = Counter(text for cells in grid.rows.values() for text in cells.values() if isinstance(text, str))
    return sum((wanted & held).values()) / wanted.total() if wanted else 0.0


def unknown_cells(
    shape: SheetShape, grid: Grid, consumed: Iterable[tuple[int, int]]
) -> tuple[dict[tuple[int, int], Content], int]:
    """The constants of a sheet that neither belong to its tables nor stood on it when it was written, and how many
    formulas beside its tables there are fewer than were written, wherever they now stand."""
    taken = set(consumed)
    left = Counter({_hashable(mark): 0 for mark in shape.loose.values()})
    left.update(_hashable(mark) for mark in shape.loose.values())
    rest: dict[tuple[int, int], Content] = {}
    for at, cells in grid.rows.items():
        for column, content in cells.items():
            if (at, column) in taken:
                continue
            mark = mark_of(content)
            if (at, column) in shape.loose and holds(content, shape.loose[at, column]):
                left[_hashable(mark)] -= 1
            else:
                rest[at, column] = content
    lost = max(0, len(shape.formulas) - sum(isinstance(content, FormulaText) for content in rest.values()))
    found: dict[tuple[int, int], Content] = {}
    for place, content in rest.items():
        if isinstance(content, FormulaText):
            continue
        mark = _hashable(mark_of(content))
        if left[mark] > 0:
            left[mark] -= 1
        else:
            found[place] = as_typed(content)
    return found, lost


def _hashable(mark: str | float | bool | None) -> str:
    return f"{mark:.9g}" if isinstance(mark, float | int) and not isinstance(mark, bool) else repr(mark)
