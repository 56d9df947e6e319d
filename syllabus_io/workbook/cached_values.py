"""Computed results beside formulas, so that a phone, a mail preview or a program that does not calculate shows numbers.

A spreadsheet engine (IronCalc) evaluates the whole workbook before it is written, and its results are written with the
formulas.
"""

from __future__ import annotations

import io
import tempfile
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

from syllabus_io.workbook.layout import column_letter

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

    from syllabus_io.workbook.shared_formulas import FilledCells

__all__ = [
    "CellValue",
    "ErrorValue",
    "Values",
    "evaluate",
    "result_of",
    "serial",
    "sheet_parts",
]

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_EPOCH = date(1899, 12, 30)


@dataclass(frozen=True, slots=True)
class ErrorValue:
    """An error in a cell, as a spreadsheet writes it ("#N/A")."""

    code: str


CellValue: TypeAlias = float | str | bool | ErrorValue
Values: TypeAlias = Mapping[str, Mapping[str, CellValue]]
"""Results by sheet name and cell ("Review", "N7")."""


def serial(day: date) -> int:
    """The number by which a spreadsheet knows a day."""
    return (day - _EPOCH).days


def evaluate(
    workbook: Workbook,
    today: date,
    today_cell: tuple[str, str],
    filled: Mapping[Worksheet, Sequence[FilledCells]] | None = None,
) -> Values:
    """The result of every formula of a workbook. The cell that holds today's day gets ``today``.

    ``filled`` are cells whose formula goes on down their column, by sheet.
    """
    filled = filled or {}
    import ironcalc

    from syllabus_io.workbook.engine_package import engine_package

    with tempfile.TemporaryDirectory(prefix="syllabus-io-") as folder:
        path = Path(folder, "plan.xlsx")
        path.write_bytes(engine_package(workbook, {today_cell: serial(today)}, filled))
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    results: dict[str, dict[str, CellValue]] = {}
    for number, sheet in enumerate(workbook.worksheets):
        cells: Any = sheet._cells  # those that exist, without making others
        places = [at for at, cell in cells.items() if cell.data_type == "f"]
        places += [at for column in filled.get(sheet, ()) for at in column.cells[1:]]
        results[sheet.title] = {
            f"{column_letter(column)}{row}": result_of(model, number, row, column) for row, column in places
        }
    return results


def result_of(model: Any, sheet: int, row: int, column: int) -> CellValue:
    """What the engine has computed in a cell, rows and columns from 1, sheets from 0."""
    import ironcalc

    value: object = model.get_cell_value(sheet, row, column)
    if isinstance(value, float):
        return value
    if model.get_cell_type(sheet, row, column) == ironcalc.CellType.ErrorValue:
        return ErrorValue(str(value))
    if value is None:
        return ""
    if isinstance(value, bool | str):
        return value
    return float(str(value))


def sheet_parts(content: bytes) -> dict[str, str]:
    """The part of each sheet ("xl/worksheets/sheet1.xml") by the sheet's name."""
    from lxml import etree

    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        found = {name: archive.read(name) for name in ("xl/_rels/workbook.xml.rels", "xl/workbook.xml")}
    relations = etree.fromstring(found["xl/_rels/workbook.xml.rels"])
    targets = {one.get("Id"): (one.get("Target") or "").lstrip("/") for one in relations}
    book = etree.fromstring(found["xl/workbook.xml"])
    parts = {}
    for sheet in book.iter(f"{{{_MAIN}}}sheet"):
        target = targets[sheet.get(f"{{{_RELATIONS}}}id")]
        parts[sheet.get("name") or ""] = target if target.startswith("xl/") else f"xl/{target}"
    return parts
