"""Computed results beside formulas, so that a phone, a mail preview or a program that does not calculate shows numbers.

The writer leaves formulas without results. Here a spreadsheet engine (IronCalc) evaluates the whole workbook, and its
results are put into the formula cells; every other part of the file stays as it was written.
"""

from __future__ import annotations

import io
import re
import tempfile
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from lxml.etree import _Element

__all__ = [
    "CellValue",
    "ErrorValue",
    "Values",
    "evaluate",
    "put_values",
    "result_of",
    "serial",
    "sheet_parts",
    "tidy_package",
]

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_CELL, _VALUE, _FORMULA = (f"{{{_MAIN}}}{tag}" for tag in ("c", "v", "f"))
_STAMP = (1980, 1, 1, 0, 0, 0)  # the earliest time a zip archive can hold: the same file for the same input
_CORE_STAMP = b"2000-01-01T00:00:00Z"
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


def tidy_package(content: bytes) -> bytes:
    """The file with everything that differs from run to run set fast, and blank cells written as blank.

    A styled blank written with a number type is read as zero by some programs.
    """
    from lxml import etree

    parts = []
    for name, data in _parts(content):
        if name == "docProps/core.xml":
            data = re.sub(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*", rb"\g<1>" + _CORE_STAMP, data)
        elif name.startswith("xl/worksheets/"):
            root = etree.fromstring(data)
            for cell in root.iter(_CELL):
                _tidy_cell(cell)
            data = _serialised(root)
        parts.append((name, data))
    return _packed(parts)


def _tidy_cell(cell: _Element) -> None:
    if cell.find(_FORMULA) is not None:
        return
    value = cell.find(_VALUE)
    if value is not None and not value.text and cell.get("t", "n") == "n":
        cell.remove(value)
    if cell.get("t") == "n" and len(cell) == 0:
        del cell.attrib["t"]


def evaluate(content: bytes, today: date, today_cell: tuple[str, str]) -> Values:
    """The result of every formula in a tidied workbook. The cell that holds today's day gets ``today``."""
    import ironcalc

    with tempfile.TemporaryDirectory(prefix="syllabus-io-") as folder:
        path = Path(folder, "plan.xlsx")
        path.write_bytes(content)
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    sheets = [sheet["name"] for sheet in model.get_worksheets_properties()]
    row, column = _coordinates(today_cell[1])
    model.set_user_input(sheets.index(today_cell[0]), row, column, str(serial(today)))
    model.evaluate()
    results: dict[str, dict[str, CellValue]] = {}
    for name, cells in _formula_cells(content).items():
        sheet = sheets.index(name)
        results[name] = {cell: result_of(model, sheet, *_coordinates(cell)) for cell in cells}
    return results


def result_of(model: object, sheet: int, row: int, column: int) -> CellValue:
    """What the engine has computed in a cell, rows and columns from 1, sheets from 0."""
    import ironcalc

    value: object = model.get_cell_value(sheet, row, column)  # type: ignore[attr-defined]  # the engine has no types
    kind = model.get_cell_type(sheet, row, column)  # type: ignore[attr-defined]
    if kind == ironcalc.CellType.ErrorValue:
        return ErrorValue(str(value))
    if value is None:
        return ""
    if isinstance(value, bool | str):
        return value
    return float(str(value))


def put_values(content: bytes, values: Values) -> bytes:
    """The workbook with results in its formula cells."""
    from lxml import etree

    sheets = {part: name for name, part in sheet_parts(content).items()}
    parts = []
    for name, data in _parts(content):
        if name in sheets:
            root = etree.fromstring(data)
            results = values.get(sheets[name], {})
            for cell in root.iter(_CELL):
                if cell.find(_FORMULA) is not None and cell.get("r") in results:
                    _put_value(cell, results[cell.get("r", "")])
            data = _serialised(root)
        parts.append((name, data))
    return _packed(parts)


def _put_value(cell: _Element, value: CellValue) -> None:
    from lxml import etree

    for old in cell.findall(_VALUE):
        cell.remove(old)
    if "t" in cell.attrib:
        del cell.attrib["t"]
    shown = etree.SubElement(cell, _VALUE)
    match value:
        case bool():
            cell.set("t", "b")
            shown.text = "1" if value else "0"
        case ErrorValue(code):
            cell.set("t", "e")
            shown.text = code
        case str():
            cell.set("t", "str")
            shown.text = value
            if value != value.strip() or "\n" in value:
                shown.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
        case _:
            shown.text = repr(int(value)) if value == int(value) else repr(value)


# --- the package ----------------------------------------------------------------------------------------


def _parts(content: bytes) -> Iterable[tuple[str, bytes]]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for entry in archive.infolist():
            yield entry.filename, archive.read(entry)


def _packed(parts: Iterable[tuple[str, bytes]]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts:
            entry = zipfile.ZipInfo(name, _STAMP)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            archive.writestr(entry, data)
    return packed.getvalue()


def _serialised(root: _Element) -> bytes:
    from lxml import etree

    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def sheet_parts(content: bytes) -> dict[str, str]:
    """The part of each sheet ("xl/worksheets/sheet1.xml") by the sheet's name."""
    from lxml import etree

    found = dict(_parts(content))
    relations = etree.fromstring(found["xl/_rels/workbook.xml.rels"])
    targets = {one.get("Id"): (one.get("Target") or "").lstrip("/") for one in relations}
    book = etree.fromstring(found["xl/workbook.xml"])
    parts = {}
    for sheet in book.iter(f"{{{_MAIN}}}sheet"):
        target = targets[sheet.get(f"{{{_RELATIONS}}}id")]
        parts[sheet.get("name") or ""] = target if target.startswith("xl/") else f"xl/{target}"
    return parts


def _formula_cells(content: bytes) -> dict[str, list[str]]:
    from lxml import etree

    found = dict(_parts(content))
    return {
        name: [
            cell.get("r") or "" for cell in etree.fromstring(found[part]).iter(_CELL) if cell.find(_FORMULA) is not None
        ]
        for name, part in sheet_parts(content).items()
    }


def _coordinates(cell: str) -> tuple[int, int]:
    match = re.fullmatch(r"([A-Z]+)([0-9]+)", cell)
    if match is None:
        raise ValueError(f"no cell: {cell}")
    column = 0
    for letter in match[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(match[2]), column
