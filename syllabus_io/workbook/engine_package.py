"""A workbook for the engine alone: cells, formulas and names without looks, so that it loads in much less time."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape, quoteattr

from openpyxl.utils.cell import coordinate_to_tuple
from openpyxl.utils.datetime import to_excel as _to_excel

from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.shared_formulas import FilledCells, formula_elements

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["engine_package"]

_number_of_day: Callable[..., float] = _to_excel
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPES = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
_STYLES = (
    f'{_HEAD}<styleSheet xmlns="{_MAIN}"><fonts count="1"><font><sz val="11"/><name val="Arial"/></font></fonts>'
    '<fills count="1"><fill><patternFill patternType="none"/></fill></fills>'
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>'
    '<cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="1"><xf/></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)


def engine_package(
    workbook: Workbook, fixed: dict[tuple[str, str], float], filled: Mapping[Worksheet, Sequence[FilledCells]]
) -> bytes:
    """The workbook without looks. ``fixed`` are numbers to stand in cells in place of what they hold, by sheet and
    cell, ``filled`` cells whose formula goes on down their column. Formulas that repeat are shared, whatever sheet they
    refer to."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as archive:
        for name, text in _parts(workbook, fixed, filled):
            archive.writestr(name, text)
    return packed.getvalue()


def _parts(
    workbook: Workbook, fixed: dict[tuple[str, str], float], filled: Mapping[Worksheet, Sequence[FilledCells]]
) -> Iterator[tuple[str, str]]:
    titles = workbook.sheetnames
    numbers = range(1, len(titles) + 1)
    overrides = "".join(
        f'<Override PartName="/xl/worksheets/sheet{number}.xml" ContentType="{_TYPES}.worksheet+xml"/>'
        for number in numbers
    )
    yield (
        "[Content_Types].xml",
        f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types"><Default Extension="xml" ContentType="application/xml"/>'
        f'<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>{overrides}'
        f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPES}.sheet.main+xml"/>'
        f'<Override PartName="/xl/styles.xml" ContentType="{_TYPES}.styles+xml"/></Types>',
    )
    yield "_rels/.rels", _relations([("rId1", "officeDocument", "xl/workbook.xml")])
    sheets = [(f"rId{number}", "worksheet", f"worksheets/sheet{number}.xml") for number in numbers]
    yield "xl/_rels/workbook.xml.rels", _relations([*sheets, ("rIdS", "styles", "styles.xml")])
    listed = "".join(
        f'<sheet name={quoteattr(title)} sheetId="{number}" r:id="rId{number}"/>'
        for number, title in zip(numbers, titles, strict=True)
    )
    names = "".join(
        f"<definedName name={quoteattr(name)}>{escape(defined.attr_text or '')}</definedName>"
        for name, defined in workbook.defined_names.items()
    )
    yield (
        "xl/workbook.xml",
        f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>{listed}</sheets>'
        f"<definedNames>{names}</definedNames></workbook>",
    )
    yield "xl/styles.xml", _STYLES
    for number, sheet in enumerate(workbook.worksheets, start=1):
        here = {cell: value for (title, cell), value in fixed.items() if title == sheet.title}
        yield f"xl/worksheets/sheet{number}.xml", _sheet_text(sheet, here, filled.get(sheet, ()))


def _relations(targets: list[tuple[str, str, str]]) -> str:
    listed = "".join(
        f'<Relationship Id="{name}" Type="{_OFFICE}/{kind}" Target="{target}"/>' for name, kind, target in targets
    )
    return f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{listed}</Relationships>'


def _sheet_text(sheet: Any, fixed: dict[str, float], filled: Sequence[FilledCells]) -> str:
    standing = {coordinate_to_tuple(cell): value for cell, value in fixed.items()}
    elements = formula_elements(
        {at: cell.value[1:] for at, cell in sheet._cells.items() if cell.data_type == "f" and at not in standing},
        filled,
        across_sheets=True,
    )
    rows: dict[int, dict[int, str]] = {}
    for (row, column), element in elements.items():  # the engine asks for a value of each formula
        rows.setdefault(row, {})[column] = f'<c r="{column_letter(column)}{row}">{element}<v>0</v></c>'
    for at, cell in sheet._cells.items():
        if at not in elements and cell.value is not None and cell.value != "":
            kind, text = ("", f"<v>{standing[at]!r}</v>") if at in standing else _contents_of(cell)
            rows.setdefault(at[0], {})[at[1]] = f'<c r="{column_letter(at[1])}{at[0]}"{kind}>{text}</c>'
    lines = "".join(
        f'<row r="{row}">{"".join(texts[column] for column in sorted(texts))}</row>'
        for row, texts in sorted(rows.items())
    )
    return f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetData>{lines}</sheetData></worksheet>'


def _contents_of(cell: Any) -> tuple[str, str]:
    """The attribute with a cell's type, and what stands in its element."""
    match cell.data_type:
        case "s":
            return ' t="inlineStr"', f'<is><t xml:space="preserve">{escape(cell.value)}</t></is>'
        case "b":
            return ' t="b"', f"<v>{int(cell.value)}</v>"
        case "d":
            return "", f"<v>{_number_of_day(cell.value)!r}</v>"
        case _:
            return "", f"<v>{cell.value!r}</v>"
