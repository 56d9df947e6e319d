"""How much of a sheet a printed page takes: print areas end with the last page that holds something.

Lists keep spare rows under them. What is printed ends with what is filled, and with the spare rows that still fit on
the same page: no page is blank, and a few rows more are printed without a change.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = [
    "MARGINS",
    "PAPER_SIZES",
    "Margins",
    "Sheaf",
    "fitting_scale",
    "last_row_to_print",
    "print_scale",
    "rows_scale",
    "sheet_width",
]

Paper = Literal["a4", "letter"]

PAPER_SIZES: dict[Paper, tuple[float, float]] = {"letter": (8.5, 11.0), "a4": (8.268, 11.693)}
"""Width and height in inches, upright (ANSI/ASME Y14.1; ISO 216)."""

_PIXELS = 96.0  # to an inch
_DIGIT = 7.42  # pixels of a digit of the usual face and size, the unit of column widths; some programs round to 7
_POINTS = 72.0
_ROW = 15.0  # points of a row whose height is not set
_SAFE = 0.95  # of a page's height: programs measure text a little differently
_SAFE_WIDTH = 0.98


@dataclass(frozen=True, slots=True)
class Margins:
    """Margins in inches; the punched side is left on upright pages, the top of those that lie."""

    left: float
    right: float
    top: float
    bottom: float
    header: float
    footer: float = 0.3


MARGINS = {False: Margins(1.0, 0.5, 0.75, 0.75, 0.5), True: Margins(0.5, 0.5, 1.1, 0.6, 0.7)}
"""By whether the page lies."""


@dataclass(frozen=True, slots=True)
class Sheaf:
    """The pages that a sheet is printed on."""

    paper: Paper
    landscape: bool

    @property
    def room(self) -> tuple[float, float]:
        """Width in pixels and height in points between the margins."""
        sides = PAPER_SIZES[self.paper]
        width, height = reversed(sides) if self.landscape else sides
        margins = MARGINS[self.landscape]
        across = (width - margins.left - margins.right) * _PIXELS
        return across, (height - margins.top - margins.bottom) * _POINTS


def sheet_width(sheet: Worksheet, first: int, last: int) -> float:
    """The width of columns in pixels, those hidden left out."""
    from openpyxl.utils import get_column_letter

    widths = [sheet.column_dimensions[get_column_letter(number)] for number in range(first, last + 1)]
    return sum(one.width * _DIGIT for one in widths if not one.hidden)


def print_scale(sheet: Worksheet, sheaf: Sheaf, columns: int) -> float:
    """By how much the columns from A on shrink to fit on one page; 1 when they fit."""
    return min(1.0, sheaf.room[0] / max(1.0, sheet_width(sheet, 1, columns)))


def fitting_scale(sheet: Worksheet, sheaf: Sheaf, area: str, most: int) -> int:
    """The largest scale in percent, at most ``most``, at which the columns of an area safely stand on one page."""
    from openpyxl.utils.cell import range_boundaries

    first, _, last, _ = range_boundaries(area)
    return max(10, min(most, int(sheaf.room[0] / sheet_width(sheet, first or 1, last or 1) * _SAFE_WIDTH * 100)))


def rows_scale(sheet: Worksheet, sheaf: Sheaf, first: int, last: int) -> int:
    """The largest scale in percent, at most 100, at which some rows safely stand on one page."""
    height = sum(_height(sheet, row) for row in range(first, last + 1))
    return max(10, min(100, int(sheaf.room[1] / max(1.0, height) * _SAFE * 100)))


def last_row_to_print(
    sheet: Worksheet, sheaf: Sheaf, columns: int, filled: tuple[int, int], repeated: tuple[int, int] | None = None
) -> int:
    """The last row to print of a sheet whose rows are filled up to ``filled[0]``, with spare ones up to ``filled[1]``.

    ``repeated`` are the first and last row repeated on top of each further page.
    """
    used, spare = filled
    room = sheaf.room[1] / print_scale(sheet, sheaf, columns) * _SAFE
    again = sum(_height(sheet, row) for row in range(repeated[0], repeated[1] + 1)) if repeated else 0.0
    taken = 0.0
    for row in range(1, spare + 1):
        height = _height(sheet, row)
        if taken + height > room:
            if row > used:
                return row - 1
            taken = again
        taken += height
    return spare


def _height(sheet: Worksheet, row: int) -> float:
    dimension = sheet.row_dimensions[row]
    return 0.0 if dimension.hidden else (dimension.height or _ROW)
