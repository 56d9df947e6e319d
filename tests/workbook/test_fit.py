"""No text is cut: every visible cell shows its text whole, measured with the widths of another library.

ReportLab carries Adobe's metrics of Helvetica, to which Arial and its free replacements are drawn. A line of text of
10 points takes 11.5 points (the face's ascent, descent and gap as common replacements give them).
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Any

import openpyxl
import pytest
from openpyxl.cell.cell import MergedCell
from openpyxl.utils import get_column_letter
from reportlab.pdfbase.pdfmetrics import stringWidth

from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import TODAY, made

DIGIT = 5.25  # points of a digit of Arial 10 where programs round it to 7 pixels of 1/96 inch: the narrowest there is
PADDING = 3.0  # points of a cell's width that programs keep free at its sides
LINE = 1.15  # of the size of type
CLOCK = {"letter": "12:59 PM", "a4": "23:59"}


@pytest.fixture(scope="module", params=["letter", "a4"])
def written(request: pytest.FixtureRequest) -> Any:
    options = WorkbookOptions(paper=request.param, today=TODAY)
    return openpyxl.load_workbook(io.BytesIO(made(usual_plan(), options)), data_only=True), request.param


def _widths(sheet: Any) -> dict[int, float]:
    """Widths in points of the columns that are seen."""
    widths = {}
    for column in range(1, sheet.max_column + 1):
        dimension = sheet.column_dimensions[get_column_letter(column)]
        widths[column] = 0.0 if dimension.hidden else dimension.width * DIGIT
    return widths


def _shown(cell: Any, clock: str) -> str:
    """What the cell shows, as its number format writes it."""
    match cell.value:
        case None:
            return ""
        case time():
            return clock
        case datetime() | date():
            written = f"{cell.value:%a} {cell.value.day} {cell.value:%b %Y}"
            return written if "yyyy" in cell.number_format else written[:-5]
        case float() | int() if not isinstance(cell.value, bool):
            if "h" in cell.number_format:
                return clock
            digits = cell.number_format.split(".")[-1].count("0") if "." in cell.number_format else 0
            return f"{cell.value * 100:.{digits}f}%" if "%" in cell.number_format else f"{cell.value:.4g}"
        case _:
            return str(cell.value)


def _cells(sheet: Any, clock: str) -> Iterator[tuple[Any, str, float, float]]:
    """Every visible cell that shows something: cell, text, width and height in points, joined cells taken together."""
    widths = _widths(sheet)
    joined = {(cells.min_row, cells.min_col): cells for cells in sheet.merged_cells.ranges}
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell, MergedCell) or not widths[cell.column] or sheet.row_dimensions[cell.row].hidden:
                continue
            text = _shown(cell, clock)
            if not text:
                continue
            area = joined.get((cell.row, cell.column))
            last_row, last_column = (area.max_row, area.max_col) if area else (cell.row, cell.column)
            width = sum(widths[column] for column in range(cell.column, last_column + 1))
            if not cell.alignment.wrap_text and isinstance(cell.value, str):
                width += sum(_room_beside(sheet, cell.row, last_column, widths))
            height = sum(sheet.row_dimensions[at].height or 15.0 for at in range(cell.row, last_row + 1))
            yield cell, text, width, height


def _room_beside(sheet: Any, row: int, column: int, widths: dict[int, float]) -> Iterator[float]:
    """The widths of the blank cells right of a cell, into which text that is not wrapped may run."""
    for further in range(column + 1, sheet.max_column + 1):
        beside = sheet.cell(row, further)
        if beside.value not in (None, ""):
            return
        yield widths[further]


def _lines(text: str, face: str, size: float, width: float) -> int:
    """How many lines the text takes, wrapped between words."""
    count = 0
    for paragraph in text.split("\n"):
        count, used = count + 1, ""
        for word in paragraph.split(" "):
            tried = f"{used} {word}" if used else word
            if used and stringWidth(tried, face, size) > width:
                count, used = count + 1, word
            else:
                used = tried
            while stringWidth(used, face, size) > width and len(used) > 1:
                used = _rest(used, face, size, width)
                count += 1
    return count


def _rest(word: str, face: str, size: float, width: float) -> str:
    """What is left of a word that is too long for a line, once the line is full."""
    for length in range(len(word) - 1, 0, -1):
        if stringWidth(word[:length], face, size) <= width:
            return word[length:]
    return word[1:]


def test_every_text_is_shown_whole(written: Any) -> None:
    book, paper = written
    faults = []
    for sheet in book:
        if sheet.sheet_state != "visible":
            continue
        for cell, text, width, height in _cells(sheet, CLOCK[paper]):
            face, size = "Helvetica-Bold" if cell.font.b else "Helvetica", cell.font.sz
            room = width - PADDING
            if cell.alignment.wrap_text and isinstance(cell.value, str):
                need = _lines(text, face, size, room) * size * LINE
                if need > height + 1:
                    faults.append(f"{sheet.title}!{cell.coordinate}: {need:.0f} of {height:.0f} points high: {text!r}")
            elif stringWidth(text, face, size) > room:
                faults.append(f"{sheet.title}!{cell.coordinate}: wider than {room:.0f} points: {text!r}")
    assert not faults, "\n".join(faults)
