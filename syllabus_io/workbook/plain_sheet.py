"""A sheet whose joined cells cost little: they are dressed once, when the workbook is finished."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, Any, cast

from openpyxl.cell.cell import MergedCell
from openpyxl.worksheet.cell_range import CellRange
from openpyxl.worksheet.worksheet import Worksheet

if TYPE_CHECKING:
    from openpyxl import Workbook

__all__ = ["add_plain_sheet"]


class _PlainSheet(Worksheet):
    """openpyxl's sheet, but for how cells are joined: the library dresses them again with every join, border by border,
    and looks through all others joined before."""

    def merge_cells(
        self,
        range_string: Any = None,
        start_row: Any = None,
        start_column: Any = None,
        end_row: Any = None,
        end_column: Any = None,
    ) -> None:
        joined = CellRange(range_string, start_column, start_row, end_column, end_row)
        self.merged_cells.ranges.add(joined)
        cells = cast("Any", self)._cells
        for at in islice(joined.cells, 1, None):
            cells[at] = MergedCell(cast("Any", self), *at)


def add_plain_sheet(workbook: Workbook, title: str) -> Worksheet:
    """A new sheet after those already there."""
    sheet = _PlainSheet(workbook, title)
    cast("Any", workbook)._add_sheet(sheet)
    return sheet
