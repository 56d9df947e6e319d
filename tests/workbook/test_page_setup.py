"""How sheets are set up for print, without rendering them: one page wide, holes, headings, footers, nothing blank."""

from __future__ import annotations

import re
from typing import Any

import pytest
from openpyxl.utils.cell import get_column_letter, range_boundaries

from syllabus_io.workbook.layout import DEADLINES, DEADLINES_TABLE, EXAMS, EXAMS_TABLE, REVIEW, REVIEW_TABLE, START
from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import TODAY, collected, opened

INCHES = {"letter": (8.5, 11.0), "a4": (8.268, 11.693)}  # ANSI/ASME Y14.1; ISO 216
WIDEST_DIGIT = 5.56  # points of a digit of Arial 10 (Adobe's metrics of Helvetica) where programs do not round it
READABLE = 8.0  # points of the smallest type on a list that a person works with on paper
HOLES = 0.9  # inches free on the punched side: holes reach 0.8 inch in (ISO 838: 12 mm, and common ring binders)


@pytest.fixture(scope="module", params=["letter", "a4"])
def written(request: pytest.FixtureRequest) -> Any:
    content = collected(usual_plan(), WorkbookOptions(paper=request.param, today=TODAY))
    book = opened(content)
    return [sheet for sheet in book if sheet.sheet_state == "visible"], request.param


def _areas(sheet: Any) -> list[str]:
    return [area.split("!")[-1].replace("$", "") for area in str(sheet.print_area).split(",") if area]


def _width(sheet: Any, area: str) -> float:
    """The width in points of the columns of an area."""
    first, _, last, _ = range_boundaries(area)
    columns = [sheet.column_dimensions[get_column_letter(number)] for number in range(first or 1, (last or 1) + 1)]
    return float(sum(one.width for one in columns if not one.hidden) * WIDEST_DIGIT)


def _room(sheet: Any, paper: str) -> float:
    sides = INCHES[paper]
    across = sides[1] if sheet.page_setup.orientation == "landscape" else sides[0]
    return float((across - sheet.page_margins.left - sheet.page_margins.right) * 72)


def test_no_column_prints_on_a_second_page(written: Any) -> None:
    sheets, paper = written
    for sheet in sheets:
        assert sheet.print_area, f"{sheet.title} would print whatever stands on it"
        if sheet.sheet_properties.pageSetUpPr and sheet.sheet_properties.pageSetUpPr.fitToPage:
            assert int(sheet.page_setup.fitToWidth or 1) == 1, f"{sheet.title} is set to several pages across"
            continue
        scale = int(sheet.page_setup.scale or 100) / 100
        for area in _areas(sheet):
            width = _width(sheet, area) * scale
            assert width <= _room(sheet, paper), f"{sheet.title}: {area} is {width:.0f} points wide"


@pytest.mark.parametrize("title", [REVIEW, DEADLINES, EXAMS])
def test_lists_can_be_read_on_paper(written: Any, title: str) -> None:
    sheets, paper = written
    sheet = next(one for one in sheets if one.title == title)
    size = 10 * min(1.0, _room(sheet, paper) / _width(sheet, _areas(sheet)[0]))
    assert round(size, 1) >= READABLE, f"{title} prints at {size:.1f} points"


def test_the_punched_side_is_free(written: Any) -> None:
    for sheet in written[0]:
        margins = sheet.page_margins
        landscape = sheet.page_setup.orientation == "landscape"
        free = margins.top if landscape else margins.left
        assert free >= HOLES, f"{sheet.title}: {free} inch on the punched side"
        assert not landscape or margins.header >= 0.5, f"{sheet.title}: the header lies in the holes"


def test_pages_carry_their_sheet_and_number(written: Any) -> None:
    for sheet in written[0]:
        assert "&A" in sheet.oddFooter.left.text and "&P" in sheet.oddFooter.right.text, sheet.title


@pytest.mark.parametrize("table", [REVIEW_TABLE, DEADLINES_TABLE, EXAMS_TABLE], ids=lambda table: table.sheet)
def test_headings_are_repeated_and_every_printed_page_holds_something(written: Any, table: Any) -> None:
    sheet = next(one for one in written[0] if one.title == table.sheet)
    rows = re.findall(r"\d+", str(sheet.print_title_rows))
    assert set(rows) == {str(table.heading_row)}, "the heading row stands on every page"
    assert sheet.freeze_panes == f"A{table.first_row}"


def test_breaks_fall_between_the_parts_of_start_here(written: Any) -> None:
    sheet = next(one for one in written[0] if one.title == START)
    parts = [sheet.cell(one.id + 1, 1).value for one in sheet.row_breaks.brk]
    assert len(parts) == 2 and all(parts), "a page begins with the title of a part"
