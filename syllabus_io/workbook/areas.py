"""The shape of a sheet as it was written: its tables by their headings, their rows by id, label or content.

It is taken from the finished sheet itself (headings and cells to fill in are told by their styles), noted in the
workbook, and used to find every cell again however rows and columns have been moved since. A sheet that is added to
the program needs nothing more to be read back.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, TypeAlias

from syllabus_io.workbook.cell_values import Content, FormulaText, content_of, mark_of, value_of

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

    from syllabus_io.workbook.shared_formulas import FilledCells

__all__ = ["Area", "AreaRow", "Mark", "SheetShape", "shape_of", "shapes_of"]

Mark: TypeAlias = str | float | bool | None


@dataclass(frozen=True, slots=True)
class AreaRow:
    """A row to which something can be typed. ``cells`` are the marks of what it held, by column; blank ones are left
    out. ``entries`` are the columns meant to be filled in. ``label`` are the words that stand before them."""

    at: int
    id: str
    label: str
    label_column: int
    cells: dict[int, Mark]
    entries: tuple[int, ...]

    @property
    def is_blank(self) -> bool:
        """Whether nothing but formulas stood in it."""
        return all(mark == "=" for mark in self.cells.values())


@dataclass(frozen=True, slots=True)
class Area:
    """A heading row (0: none) and the rows under it, up to the next heading row. Columns are numbered from 1.

    Where the same tables stand once for each of several things, a section's row holds the hidden id of its thing. It
    counts as a heading row, and the id is the ``block`` of the areas from there on.
    """

    heading_row: int
    headings: dict[int, str]
    id_column: int
    rows: tuple[AreaRow, ...]
    block: str = ""

    @property
    def signature(self) -> tuple[str, ...]:
        """What tells the area from others of its sheet: its block in brackets, where it has one, then its headings."""
        return (*((f"[{self.block}]",) if self.block else ()), *self.headings.values())


@dataclass(frozen=True, slots=True)
class SheetShape:
    """The areas of a sheet, and the marks of all other constants with their cells."""

    areas: tuple[Area, ...]
    loose: dict[tuple[int, int], Mark] = field(default_factory=dict)
    formulas: frozenset[tuple[int, int]] = frozenset()
    size: tuple[int, int] = (0, 0)

    def has_formula(self, row: int, column: int) -> bool:
        """Whether a formula stood in a cell."""
        return (row, column) in self.formulas or any(
            one.at == row and one.cells.get(column) == "=" for area in self.areas for one in area.rows
        )

    def to_json(self) -> dict[str, Any]:
        """The shape as plain lists and texts."""
        return {
            "areas": [
                [
                    area.heading_row,
                    sorted(area.headings.items()),
                    area.id_column,
                    [
                        [row.at, row.id, row.label, row.label_column, sorted(row.cells.items()), row.entries]
                        for row in area.rows
                    ],
                    area.block,
                ]
                for area in self.areas
            ],
            "loose": [[row, column, mark] for (row, column), mark in sorted(self.loose.items())],
            "formulas": _runs(self.formulas),
            "size": self.size,
        }

    @classmethod
    def from_json(cls, content: dict[str, Any]) -> SheetShape:
        """The shape that :meth:`to_json` wrote."""
        areas = tuple(
            Area(
                heading,
                dict(headings),
                id_column,
                tuple(
                    AreaRow(at, own, label, label_column, dict(cells), tuple(entries))
                    for at, own, label, label_column, cells, entries in rows
                ),
                block,
            )
            for heading, headings, id_column, rows, block in content["areas"]
        )
        loose = {(row, column): mark for row, column, mark in content["loose"]}
        rows, columns = content["size"]
        return cls(areas, loose, _places(content["formulas"]), (rows, columns))


def shapes_of(
    workbook: Workbook, skip: frozenset[str], filled: Mapping[Worksheet, Sequence[FilledCells]]
) -> dict[str, SheetShape]:
    """The shape of every sheet that a person sees, but for those to skip. ``filled`` are cells whose formula goes on
    down their column, by sheet."""
    return {
        sheet.title: shape_of(sheet, filled.get(sheet, ()))
        for sheet in workbook.worksheets
        if sheet.sheet_state == "visible" and sheet.title not in skip
    }


def _runs(places: Iterable[tuple[int, int]]) -> list[tuple[int, int, int]]:
    """Cells as runs down a column: column, first row and number of rows."""
    runs: list[tuple[int, int, int]] = []
    for column, row in sorted((column, row) for row, column in places):
        if runs and runs[-1][0] == column and sum(runs[-1][1:]) == row:
            runs[-1] = (column, runs[-1][1], runs[-1][2] + 1)
        else:
            runs.append((column, row, 1))
    return runs


def _places(runs: Iterable[Sequence[int]]) -> frozenset[tuple[int, int]]:
    return frozenset((row, column) for column, first, count in runs for row in range(first, first + count))


@dataclass(frozen=True, slots=True)
class _Cell:
    content: Content
    style: str


def shape_of(sheet: Worksheet, filled: Sequence[FilledCells] = ()) -> SheetShape:
    """The shape of a sheet that has just been written, while its cells still have their named styles."""
    rows = _rows_of(sheet)
    heading_rows = [at for at, cells in rows.items() if _is_heading_row(cells) or _block_cell(cells)]
    areas = []
    block = ""
    seen: Counter[tuple[str, ...]] = Counter()
    consumed: set[tuple[int, int]] = set()
    for heading, following in zip([0, *heading_rows], [*heading_rows, max(rows, default=0) + 1], strict=True):
        begins = _block_cell(rows.get(heading, {}))
        headings = begins or (_headings(rows.get(heading, {})) if heading else {})
        block = next(iter(begins.values())) if begins else block
        consumed |= {(heading, column) for column in headings}
        area = _area(heading, headings, {at: rows[at] for at in rows if heading < at < following}, block)
        seen[area.signature] += 1
        if seen[area.signature] > 1:
            area = replace(area, block=f"{block}#{seen[area.signature]}")
        if heading or area.rows:
            areas.append(area)
        for row in area.rows:
            consumed |= {(row.at, column) for column in row.cells}
            consumed |= {(row.at, column) for column in (row.id and area.id_column, row.label_column) if column}
    rest = [
        ((at, column), cell)
        for at, cells in rows.items()
        for column, cell in cells.items()
        if cell.content is not None and (at, column) not in consumed
    ]
    further = {at for column in filled for at in column.cells[1:]}
    return SheetShape(
        tuple(areas),
        {place: mark_of(cell.content) for place, cell in rest if not isinstance(cell.content, FormulaText)},
        frozenset(further).union(place for place, cell in rest if isinstance(cell.content, FormulaText)),
        (
            max([*rows, *(row for row, _ in further)], default=0),
            max((column for cells in rows.values() for column in cells), default=0),
        ),
    )


def _rows_of(sheet: Worksheet) -> dict[int, dict[int, _Cell]]:
    from openpyxl.cell.cell import MergedCell

    names = list(sheet.parent._named_styles.names)  # type: ignore[union-attr]  # in the order of their numbers
    found: dict[int, dict[int, _Cell]] = {}
    for (row, column), cell in sheet._cells.items():  # going over rows would make all the others
        if not isinstance(cell, MergedCell):
            style = names[cell._style.xfId] if cell._style else ""  # type: ignore[attr-defined]
            if cell.value is not None or style.startswith("entry"):
                found.setdefault(row, {})[column] = _Cell(content_of(value_of(cell)), style)
    return dict(sorted(found.items()))


def _is_heading_row(cells: dict[int, _Cell]) -> bool:
    return any(cell.style.startswith("heading") and isinstance(cell.content, str) for cell in cells.values())


def _block_cell(cells: dict[int, _Cell]) -> dict[int, str]:
    """The hidden id in the row of a section, by its column; empty when there is none."""
    if not any(cell.style == "section" for cell in cells.values()):
        return {}
    found = {column: cell.content for column, cell in cells.items() if cell.style == "hidden"}
    return next(({column: text} for column, text in sorted(found.items()) if isinstance(text, str)), {})


def _headings(cells: dict[int, _Cell]) -> dict[int, str]:
    """Headings by column; the second of the same words is told apart by its number."""
    seen: Counter[str] = Counter()
    headings = {}
    for column, cell in sorted(cells.items()):
        if isinstance(cell.content, str) and cell.style.startswith(("heading", "hidden")):
            seen[cell.content] += 1
            number = seen[cell.content]
            headings[column] = cell.content if number == 1 else f"{cell.content}#{number}"
    return headings


def _area(heading: int, headings: dict[int, str], rows: dict[int, dict[int, _Cell]], block: str) -> Area:
    id_column = next((column for column, text in headings.items() if text.lower().endswith(" id")), 0)
    found = []
    seen: Counter[str] = Counter()
    for at, cells in sorted(rows.items()):
        entries = tuple(column for column, cell in sorted(cells.items()) if cell.style.startswith("entry"))
        own = cells[id_column].content if id_column in cells else None
        if not entries and not isinstance(own, str):
            continue
        label, label_column = ("", 0) if isinstance(own, str) else _label(cells, entries)
        if label:
            seen[label] += 1
            label = label if seen[label] == 1 else f"{label}#{seen[label]}"
        kept = {
            column: mark_of(cell.content)
            for column, cell in cells.items()
            if column not in (id_column if isinstance(own, str) else 0, label_column)
            and cell.content is not None
            and (column in headings or column in entries)
        }
        found.append(AreaRow(at, own if isinstance(own, str) else "", label, label_column, kept, entries))
    return Area(heading, headings, id_column, tuple(found), block)


def _label(cells: dict[int, _Cell], entries: tuple[int, ...]) -> tuple[str, int]:
    """The first words before the cells to fill in."""
    for column, cell in sorted(cells.items()):
        if column >= entries[0]:
            break
        if isinstance(cell.content, str | float) and not isinstance(cell.content, bool) and cell.style != "hidden":
            text = cell.content if isinstance(cell.content, str) else f"{cell.content:.9g}"
            return text, column
    return "", 0
