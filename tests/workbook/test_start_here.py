"""Start here: fits a phone held upright, says which grades moved, leads everywhere."""

from __future__ import annotations

from datetime import date, timedelta

from openpyxl.utils import get_column_letter

from syllabus_io.workbook.layout import MARKS_COLUMNS, REVIEW, START
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import TODAY, Sheets, iron

PHONE = 390  # pixels across a usual phone held upright; common practice, no source
DIGIT = 7  # pixels of a digit of Arial 10 at 96 dots to an inch: the unit of column widths


def test_it_is_no_wider_than_a_phone() -> None:
    sheet = Sheets.of(usual_plan()).book[START]
    columns = [sheet.column_dimensions[get_column_letter(number)] for number in range(1, sheet.max_column + 1)]
    assert sum(one.width for one in columns if not one.hidden) * DIGIT <= PHONE


def _column(key: str) -> int:
    return next(number for number, column in enumerate(MARKS_COLUMNS, start=1) if column.key == key)


def _mark(sheets: Sheets, work: str, points: float, day: date) -> None:
    """Types a mark on the sheet of BIO 110."""
    sheet = sheets.book["Grades BIO 110"]
    own = work.casefold()
    row = next(row for row in range(1, sheet.max_row + 1) if str(sheet.cell(row, 1).value).endswith(own))
    for key, value in (("possible", 100), ("points", points), ("date", day)):
        sheets.put(sheet.title, f"{get_column_letter(_column(key))}{row}", value)


def _moved(sheets: Sheets) -> str:
    """What stands beside the first course under Grades."""
    results = iron(sheets)[START]
    sheet = sheets.book[START]
    heading = next(row for row in range(1, sheet.max_row + 1) if sheet.cell(row, 3).value == "Moved in two weeks")
    return str(results[f"C{heading + 1}"])


def test_a_grade_that_moved_is_said_in_words() -> None:
    sheets = Sheets.of(usual_plan())
    assert _moved(sheets) == ""
    _mark(sheets, "Quiz 1", 80, TODAY - timedelta(days=20))
    assert _moved(sheets) == "no new marks"
    _mark(sheets, "Quiz 2", 90, TODAY - timedelta(days=3))
    assert _moved(sheets).startswith("up ") and _moved(sheets).endswith("points, 1 new mark")
    _mark(sheets, "Midterm exam", 10, TODAY)
    assert _moved(sheets).startswith("down ") and _moved(sheets).endswith("2 new marks")


def test_first_marks_have_nothing_to_move_from() -> None:
    sheets = Sheets.of(usual_plan())
    _mark(sheets, "Quiz 1", 80, TODAY)
    assert _moved(sheets) == "1 new mark"


def test_links_lead_to_sheets() -> None:
    book = Sheets.of(usual_plan()).book
    targets = [cell.hyperlink.location for row in book[START].iter_rows() for cell in row if cell.hyperlink]
    assert f"'{REVIEW}'!A1" in targets
    assert all(target.rsplit("!", 1)[0].strip("'") in book.sheetnames for target in targets)
