"""Print areas end with the last page that holds something."""

from __future__ import annotations

import openpyxl
import pytest

from syllabus_io.workbook.pages import Sheaf, last_row_to_print, print_scale

UPRIGHT = Sheaf("letter", landscape=False)  # 7 inches across, 9.5 inches (684 points) down


def _sheet(rows: int, height: float):  # type: ignore[no-untyped-def]  # a worksheet, imported late
    sheet = openpyxl.Workbook().create_sheet()
    for row in range(1, rows + 1):
        sheet.row_dimensions[row].height = height
    for letter in "ABCDEFG":
        sheet.column_dimensions[letter].width = 12.0  # 84 digits of 7.42 pixels: less than 7 inches
    return sheet


@pytest.mark.parametrize(
    ("used", "spare", "printed"),
    [(10, 14, 14), (10, 40, 32), (32, 40, 32), (33, 40, 40), (33, 90, 64)],
    ids=["all spare rows fit", "to the end of the page", "full page", "second page begun", "end of the second page"],
)
def test_spare_rows_fill_the_last_page_and_no_more(used: int, spare: int, printed: int) -> None:
    """Rows of 20 points: 32 of them in 95 % of 684 points."""
    assert last_row_to_print(_sheet(spare, 20), UPRIGHT, 7, (used, spare)) == printed


def test_repeated_headings_take_room_on_later_pages() -> None:
    sheet = _sheet(90, 20)
    assert last_row_to_print(sheet, UPRIGHT, 7, (33, 90), (1, 2)) == 32 + 30


def test_columns_wider_than_the_page_shrink() -> None:
    sheet = _sheet(5, 20)
    assert print_scale(sheet, UPRIGHT, 7) == 1
    sheet.column_dimensions["G"].width = 12 + 84  # as wide again as all of them
    assert print_scale(sheet, UPRIGHT, 7) == pytest.approx(672 / (2 * 84 * 7.42))
    sheet.column_dimensions["G"].hidden = True
    assert print_scale(sheet, UPRIGHT, 7) == 1
