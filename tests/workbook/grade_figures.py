"""Figures of the hidden sheet of grades, computed by an engine: only those that are asked for, so that many gradebooks
fit into one workbook."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

import pytest
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.workbook.cached_values import CellValue, result_of
from syllabus_io.workbook.layout import GRADE_SUMS
from tests.workbook.sheets import needs_office
from tests.workbook.term_workbook import soffice

__all__ = ["GRADE_ENGINES", "iron_figures"]


def iron_figures(content: bytes, cells: Sequence[str]) -> dict[str, CellValue]:
    """What IronCalc computes in cells of the hidden sheet."""
    import ironcalc

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "book.xlsx")
        path.write_bytes(content)
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    sheet = [one["name"] for one in model.get_worksheets_properties()].index(GRADE_SUMS)
    return {cell: result_of(model, sheet, *coordinate_to_tuple(cell)) for cell in cells}


def office_figures(content: bytes, cells: Sequence[str]) -> dict[str, CellValue]:
    """What LibreOffice computes in cells of the hidden sheet."""
    import python_calamine

    program = soffice()
    assert program
    with tempfile.TemporaryDirectory() as folder:
        path, out = Path(folder, "book.xlsx"), Path(folder, "out")
        path.write_bytes(content)
        profile = f"-env:UserInstallation={Path(folder, 'profile').as_uri()}"
        command = [program, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(out), str(path)]
        subprocess.run(command, check=True, capture_output=True, timeout=900)
        book = python_calamine.CalamineWorkbook.from_path(str(out / path.name))
        rows = book.get_sheet_by_name(GRADE_SUMS).to_python(skip_empty_area=False)
    found: dict[str, CellValue] = {}
    for cell in cells:
        row, column = coordinate_to_tuple(cell)
        value = rows[row - 1][column - 1] if row <= len(rows) and column <= len(rows[row - 1]) else ""
        found[cell] = float(value) if isinstance(value, int | float) else str(value)
    return found


GRADE_ENGINES = [
    pytest.param(iron_figures, id="ironcalc"),
    pytest.param(office_figures, id="libreoffice", marks=[pytest.mark.office, needs_office]),
]
