"""A finished workbook as a file: openpyxl writes all that stands around the cells, this module the cells themselves.

Cells are most of a workbook. Writing them here is many times faster than writing and re-reading them: results stand
beside their formulas at once, formulas that repeat are written once, and blank cells are written as blank (a styled
blank with a number type is read as zero by some programs).
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from openpyxl.cell.cell import MergedCell
from openpyxl.comments.comment_sheet import CommentRecord
from openpyxl.compat import safe_string
from openpyxl.drawing.spreadsheet_drawing import SpreadsheetDrawing
from openpyxl.utils.datetime import to_excel as _to_excel
from openpyxl.worksheet._writer import WorksheetWriter
from openpyxl.worksheet.dimensions import SheetDimension
from openpyxl.worksheet.merge import MergeCell, MergeCells
from openpyxl.writer.excel import ExcelWriter

from syllabus_io.workbook.cached_values import CellValue, ErrorValue, Values
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.shared_formulas import FilledCells, formula_elements

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["pack_workbook"]

_number_of_day: Callable[..., float] = _to_excel
_LEVEL = 8  # of compression: more takes longer and gains nothing
_STAMP = (1980, 1, 1, 0, 0, 0)  # the earliest time a zip archive can hold: the same file for the same input


def pack_workbook(
    workbook: Workbook, values: Values | None = None, filled: Mapping[Worksheet, Sequence[FilledCells]] | None = None
) -> bytes:
    """The workbook as a file, with results beside the formulas whose ``values`` are given. The same bytes for the same
    workbook. ``filled`` are cells whose formula goes on down their column, by sheet."""
    packed = io.BytesIO()
    with _Archive(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as archive:
        _Writer(workbook, archive, values or {}, filled or {}).write_data()
    return packed.getvalue()


class _Archive(zipfile.ZipFile):
    """An archive whose entries tell no time and no system."""

    def writestr(
        self,
        zinfo_or_arcname: str | zipfile.ZipInfo,
        data: Any,
        compress_type: int | None = None,
        compresslevel: int | None = None,
    ) -> None:
        name = zinfo_or_arcname if isinstance(zinfo_or_arcname, str) else zinfo_or_arcname.filename
        entry = zipfile.ZipInfo(name, _STAMP)
        entry.external_attr = 0o600 << 16
        super().writestr(entry, data, compress_type or zipfile.ZIP_DEFLATED, compresslevel or _LEVEL)


class _Writer(ExcelWriter):
    """openpyxl's writer with sheets of our own making."""

    _archive: zipfile.ZipFile

    def __init__(
        self,
        workbook: Workbook,
        archive: zipfile.ZipFile,
        values: Values,
        filled: Mapping[Worksheet, Sequence[FilledCells]],
    ) -> None:
        super().__init__(workbook, archive)
        self._values = values
        self._filled = filled

    def write_worksheet(self, ws: Any) -> None:
        ws._drawing = SpreadsheetDrawing()
        ws._drawing.charts, ws._drawing.images = ws._charts, ws._images
        writer = _SheetWriter(ws, self._values.get(ws.title, {}), self._filled.get(ws, ()))
        writer.write()
        ws._rels = writer.relations
        self._archive.writestr(ws.path[1:], writer.content())
        self.manifest.append(ws)


class _SheetWriter(WorksheetWriter):
    """openpyxl's writer of a sheet, but for its cells."""

    ws: Any
    xf: Any
    _rels: Any

    def __init__(self, sheet: Worksheet, results: Mapping[str, CellValue], filled: Sequence[FilledCells]) -> None:
        self._contents = io.BytesIO()
        super().__init__(sheet, self._contents)
        self._cells = ""
        self._results = results
        self._filled = filled

    def write_dimensions(self) -> None:
        places = {*self.ws._cells, *(at for column in self._filled for at in column.cells)} or {(1, 1)}
        rows, columns = {row for row, _ in places}, {column for _, column in places}
        first, last = f"{column_letter(min(columns))}{min(rows)}", f"{column_letter(max(columns))}{max(rows)}"
        self.xf.send(SheetDimension(f"{first}:{last}").to_tree())

    def write_merged_cells(self) -> None:
        cells = sorted(self.ws.merged_cells.ranges, key=lambda one: one.bounds)
        if cells:
            self.xf.send(MergeCells(mergeCell=[MergeCell(one.coord) for one in cells]).to_tree())

    def write_rows(self) -> None:
        stream = self.xf.send(True)
        with stream.element("sheetData"):
            pass
        self.xf.send(None)
        for cell in self.ws._cells.values():
            if cell.hyperlink:
                self.ws._hyperlinks.append(cell.hyperlink)
            if cell.comment:
                self.ws._comments.append(CommentRecord.from_cell(cell))
        self._cells = "".join(_row_texts(self.ws, self._results, self._filled))

    @property
    def relations(self) -> Any:
        """The sheet's relations to other parts, once it is written."""
        return self._rels

    def content(self) -> bytes:
        """The sheet's part, once it is written."""
        head, mark, tail = self._contents.getvalue().partition(b"<sheetData")
        tail = re.sub(rb"^\s*(/>|></sheetData>)", b"", tail)
        return b"".join((head, mark, b">", self._cells.encode(), b"</sheetData>", tail))


def _row_texts(sheet: Any, results: Mapping[str, CellValue], filled: Sequence[FilledCells]) -> Iterator[str]:
    """The rows of a sheet as the file format writes them."""
    cells = sheet._cells
    elements = formula_elements(
        {at: cell.value[1:] for at, cell in cells.items() if cell.data_type == "f" and type(cell.value) is str}, filled
    )
    rows: dict[int, dict[int, str]] = {row: {} for row in sheet.row_dimensions}
    styles = _Styles()
    for (row, column), cell in cells.items():
        if (row, column) not in elements:
            name, style = f"{column_letter(column)}{row}", styles.of(cell)
            kind, shown = _contents_of(cell, results)
            if shown:
                rows.setdefault(row, {})[column] = f'<c r="{name}"{style}{kind}>{shown}</c>'
            elif style:
                rows.setdefault(row, {})[column] = f'<c r="{name}"{style}/>'
    firsts = {at: cells[column.first] for column in filled for at in column.cells}
    for (row, column), element in elements.items():
        name, style = f"{column_letter(column)}{row}", styles.of(firsts.get((row, column)) or cells[row, column])
        kind, shown = _result_text(results.get(name))
        rows.setdefault(row, {})[column] = f'<c r="{name}"{style}{kind}>{element}{shown}</c>'
    for row, texts in sorted(rows.items()):
        look = "".join(f' {key}="{value}"' for key, value in dict(sheet.row_dimensions.get(row, ())).items())
        if texts or look:
            yield f'<row r="{row}"{look}>{"".join(texts[column] for column in sorted(texts))}</row>'


class _Styles:
    """The attribute for the style of a cell."""

    def __init__(self) -> None:
        self._known: dict[bytes, str] = {}

    def of(self, cell: Any) -> str:
        if cell._style is None:
            return ""
        key = cell._style.tobytes()
        style = self._known.get(key)
        if style is None:
            style = self._known[key] = f' s="{cell.style_id}"' if cell.has_style else ""
        return style


def _contents_of(cell: Any, results: Mapping[str, CellValue]) -> tuple[str, str]:
    """The attribute with a cell's type, and what stands in its element; two empty texts for a blank cell. Formulas
    here are only those of sheets of the user's own: arrays and data tables."""
    value = None if type(cell) is MergedCell else cell.value
    if value is None or value == "":
        return "", ""
    match cell.data_type:
        case "f":
            kind, shown = _result_text(results.get(cell.coordinate))
            return kind, _array_text(value) + shown
        case "s":
            space = ' xml:space="preserve"' if value != value.strip() else ""
            return ' t="inlineStr"', f"<is><t{space}>{_escaped(value)}</t></is>"
        case "d":
            return "", f"<v>{safe_string(_number_of_day(value, cell.parent.parent.epoch))}</v>"
        case "n":
            return "", f"<v>{safe_string(value)}</v>"
        case kind:
            return f' t="{kind}"', f"<v>{_escaped(safe_string(value))}</v>"


def _array_text(value: Any) -> str:
    kinds = "".join(f' {key}="{escape(str(one))}"' for key, one in dict(value).items())
    text = str(getattr(value, "text", None) or "=")[1:]
    return f"<f{kinds}>{_escaped(text)}</f>"


def _result_text(value: CellValue | None) -> tuple[str, str]:
    """The type and the element of a formula's result."""
    match value:
        case None:  # some engines ask for the element of a result
            return "", "<v></v>"
        case bool():
            return ' t="b"', f"<v>{int(value)}</v>"
        case ErrorValue(code):
            return ' t="e"', f"<v>{code}</v>"
        case str():
            space = ' xml:space="preserve"' if value != value.strip() or "\n" in value else ""
            return ' t="str"', f"<v{space}>{_escaped(value)}</v>" if value else "<v/>"
        case _:
            return "", f"<v>{int(value) if value == int(value) else repr(value)}</v>"


def _escaped(text: str) -> str:
    return escape(text, {"\r": "&#13;"}) if "&" in text or "<" in text or ">" in text or "\r" in text else text
