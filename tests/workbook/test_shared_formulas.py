"""Formulas written once for a block mean in every cell what was meant there."""

from __future__ import annotations

import io
import re
import zipfile
from datetime import date, datetime, time
from typing import Any, cast
from xml.sax.saxutils import escape

import openpyxl
import pytest
from openpyxl.formula.translate import Translator
from openpyxl.styles import Font
from openpyxl.utils.cell import get_column_letter
from openpyxl.worksheet.formula import ArrayFormula

from syllabus_io.workbook.cached_values import CellValue
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.shared_formulas import FilledCells, formula_elements

FORMULAS = (
    "A1+$B1*C$2-$D$3",
    'IF(A1="A1","B2 ""B3"" B4",Total_1+LOG10(A1))',
    "SUM(A$1:A1)+SUMPRODUCT(($B$1:$B$9=B1)*C1)",
    "AA10*XFD1+ClassCount_1+TODAY()",
)


@pytest.mark.parametrize("formula", FORMULAS)
def test_a_block_means_in_each_cell_what_a_copy_means_there(formula: str) -> None:
    # What a copy means is openpyxl's translation of references, written apart from ours.
    first = (3, 30)
    cells = {
        (row, column): Translator("=" + formula, "AD3").translate_formula(get_column_letter(column) + str(row))[1:]
        for row in range(3, 7)
        for column in range(30, 33)
    }
    if "XFD1" in formula:  # there is no column to the right of the last
        cells = {(row, column): text for (row, column), text in cells.items() if column == 30}
    written = formula_elements(cells)
    assert written[first].startswith('<f t="shared" ref="AD3:') and written[first].endswith(
        f'si="0">{escape(formula)}</f>'
    )
    assert {element for at, element in written.items() if at != first} == {'<f t="shared" si="0"/>'}


def test_cells_that_differ_stand_alone() -> None:
    written = formula_elements({(1, 1): "B1", (2, 1): "B3", (4, 1): "B4", (5, 1): "B4", (6, 1): "B6"})
    assert list(written.values()) == [f"<f>{text}</f>" for text in ("B1", "B3", "B4", "B4", "B6")]


@pytest.mark.parametrize("formula", ["'Other'!$A$1+B{row}", "SUM({{1,2}})+B{row}"])
def test_what_the_format_forbids_in_a_block_is_written_for_each_cell(formula: str) -> None:
    # MS-XLSB 2.5.98.98: no reference to another sheet and no array in a shared formula.
    cells = {(row, 1): formula.format(row=row) for row in range(1, 5)}
    assert formula_elements(cells) == {at: f"<f>{text}</f>" for at, text in cells.items()}
    filled = formula_elements({(1, 1): cells[1, 1]}, [FilledCells(1, 1, 4)])
    assert filled == formula_elements(cells), "the same formula, filled down"


def test_a_packed_workbook_reads_as_the_one_openpyxl_saves() -> None:
    workbook = openpyxl.Workbook()
    sheet: Any = workbook.create_sheet("A & B")
    for row in range(1, 30):
        sheet[f"A{row}"] = row / 7
        for letter in "BCD":
            sheet[f"{letter}{row}"] = f'=$A{row}&"<" & {letter}$1 & MAX(A{row}:A{row + 1})'
        sheet[f"E{row}"] = f"='A & B'!A{row}"
    for cell, value in zip(
        ("G1", "G2", "G3", "G4", "G5", "G6", "G7"),
        (True, date(2026, 9, 1), datetime(2026, 9, 1, 10, 30), time(8, 15), "  two\nlines & <more>", -1e-12, 10**15),  # noqa: DTZ001
        strict=True,
    ):
        sheet[cell] = value
    sheet["G5"].font = Font(bold=True)
    sheet["G8"] = "=1+1"
    sheet["G8"].data_type = "s"
    sheet["G9"] = ArrayFormula("G9:G10", "=A1:A2*2")
    sheet["G11"].font = Font(italic=True)
    sheet.row_dimensions[40].height = 33
    sheet["G2"].hyperlink = "#Sheet!A1"
    sheet.merge_cells("A41:C42")
    saved = io.BytesIO()
    workbook.save(saved)
    files = (saved, io.BytesIO(pack_workbook(workbook)))
    expected, packed = (cast("Any", openpyxl.load_workbook(file))["A & B"] for file in files)
    assert packed.dimensions == expected.dimensions
    assert packed.row_dimensions[40].height == 33 and str(packed.merged_cells) == "A41:C42"
    for line in expected.iter_rows():
        for cell in line:
            twin = packed[cell.coordinate]
            held = [getattr(one.value, "text", one.value) for one in (cell, twin)]
            assert held[0] == held[1], cell.coordinate
            assert (cell.data_type, cell.number_format, cell.font.b, cell.font.i) == (
                twin.data_type,
                twin.number_format,
                twin.font.b,
                twin.font.i,
            ), cell.coordinate


def test_a_filled_column_is_the_formula_copied_down() -> None:
    workbook = openpyxl.Workbook()
    sheet: Any = workbook.worksheets[0]
    sheet["B2"], sheet["C2"] = "=A2+A$1", "='Sheet'!$A2"
    filled = {sheet: [FilledCells(2, 2, 3), FilledCells(2, 3, 3)]}
    read: Any = openpyxl.load_workbook(io.BytesIO(pack_workbook(workbook, filled=filled)))["Sheet"]
    assert [[cell.value for cell in line] for line in read["B2:C4"]] == [
        [f"=A{row}+A$1", f"='Sheet'!$A{row}"] for row in (2, 3, 4)
    ]
    assert read.dimensions == "B2:C4"


def test_results_stand_beside_every_kind_of_formula() -> None:
    workbook = openpyxl.Workbook()
    sheet: Any = workbook.worksheets[0]
    for row in range(1, 6):
        sheet[f"A{row}"] = f"=B{row}*2"
    sheet["C1"] = "='Sheet'!A1"
    results: dict[str, CellValue] = {"A1": 1.0, "A2": 0.5, "A3": " a\nb ", "A4": True, "A5": "", "C1": 2.0}
    content = pack_workbook(workbook, {"Sheet": results})
    read = openpyxl.load_workbook(io.BytesIO(content), data_only=True)["Sheet"]
    assert [cast("Any", read)[cell].value for cell in results] == [1, 0.5, " a\nb ", True, None, 2]
    xml = zipfile.ZipFile(io.BytesIO(content)).read("xl/worksheets/sheet1.xml").decode()
    assert re.findall("<f[^>]*>", xml)[:2] == ['<f t="shared" ref="A1:A5" si="0">', "<f>"]
