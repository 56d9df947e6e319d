"""An office suite that computes a workbook in many states in one run: it is opened once, cells are typed, and after
each state the result of every formula is read."""

from __future__ import annotations

import subprocess
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, time
from pathlib import Path

from openpyxl.utils.cell import get_column_letter

from syllabus_io.workbook.cached_values import CellValue
from tests.workbook.office_edits import prepare_profile, write_library
from tests.workbook.sheets import Results, Sheets, serial
from tests.workbook.term_workbook import soffice

__all__ = ["office_states"]

Typed = Mapping[tuple[str, str], object]

_PROGRAM = """
Sub Main
  Dim options(0) As New com.sun.star.beans.PropertyValue
  options(0).Name = "Hidden"
  options(0).Value = True
  book = StarDesktop.loadComponentFromURL("{book}", "_blank", 0, options())
  book.enableAutomaticCalculation(False)
  book.calculateAll()
  files = CreateUnoService("com.sun.star.ucb.SimpleFileAccess")
  reading = CreateUnoService("com.sun.star.io.TextInputStream")
  reading.setInputStream(files.openFileRead("{changes}"))
  reading.setEncoding("UTF-8")
  writing = CreateUnoService("com.sun.star.io.TextOutputStream")
  writing.setOutputStream(files.openFileWrite("{results}"))
  writing.setEncoding("UTF-8")
  Do While Not reading.isEOF()
    parts = Split(reading.readLine(), Chr(9))
    If parts(0) = "compute" Then
      book.calculate()
      Show(book, writing)
    ElseIf UBound(parts) = 3 Then
      cell = book.Sheets.getByName(parts(0)).getCellRangeByName(parts(1))
      If parts(2) = "number" Then
        cell.setValue(Val(parts(3)))
      ElseIf parts(2) = "text" Then
        cell.setString(parts(3))
      Else
        cell.clearContents(23)
      End If
    End If
  Loop
  writing.closeOutput()
  book.close(True)
End Sub

Sub Show(book, writing)
  For Each sheet In book.Sheets
    area = sheet.createCursor()
    area.gotoEndOfUsedArea(False)
    last = area.RangeAddress
    data = sheet.getCellRangeByPosition(0, 0, last.EndColumn, last.EndRow).getDataArray()
    For row = 0 To UBound(data)
      cells = data(row)
      Dim words(UBound(cells)) As String
      For column = 0 To UBound(cells)
        value = cells(column)
        If VarType(value) = 8 Then
          If InStr(value, Chr(10)) > 0 Then value = Join(Split(value, Chr(10)), Chr(2))
          words(column) = "t" & value
        ElseIf IsNumeric(value) Then
          words(column) = "n" & value
        Else
          words(column) = ""
        End If
      Next
      writing.writeString(sheet.Name & Chr(9) & (row + 1) & Chr(9) & Join(words, Chr(9)) & Chr(10))
    Next
  Next
  writing.writeString("computed" & Chr(10))
End Sub
"""


def office_states(sheets: Sheets, states: Sequence[Typed], timeout: float = 1200) -> Iterator[Results]:
    """What LibreOffice makes of every cell after each of the states, each typed into the workbook as it was written.
    Cells with errors are left out."""
    program = soffice()
    assert program
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        (home / "book.xlsx").write_bytes(sheets.content)
        (home / "changes.txt").write_text("\n".join(_lines(sheets, states)), encoding="utf-8")
        start = prepare_profile(program, home)
        names = {"book": "book.xlsx", "changes": "changes.txt", "results": "results.txt"}
        code = _PROGRAM.format(**{key: (home / name).as_uri() for key, name in names.items()})
        write_library(home / "profile" / "user" / "basic", code)
        subprocess.run([*start, "macro:///Standard.Edits.Main"], check=True, capture_output=True, timeout=timeout)
        with (home / "results.txt").open(encoding="utf-8", newline="\n") as results:
            found: dict[str, dict[str, CellValue]] = {}
            for line in results:
                if line == "computed\n":
                    yield found
                    found = {}
                else:
                    sheet, row, *cells = line.rstrip("\n").split("\t")
                    found.setdefault(sheet, {}).update(_row(row, cells))


def _row(row: str, cells: list[str]) -> Iterator[tuple[str, CellValue]]:
    for column, cell in enumerate(cells, start=1):
        if cell.startswith("n"):
            yield f"{get_column_letter(column)}{row}", float(cell[1:])
        elif cell.startswith("t"):
            yield f"{get_column_letter(column)}{row}", cell[1:].replace("\x02", "\n")


def _lines(sheets: Sheets, states: Sequence[Typed]) -> Iterator[str]:
    before: set[tuple[str, str]] = set()
    for typed in states:
        for sheet, cell in sorted(before - set(typed)):
            yield _line(sheet, cell, sheets.book[sheet][cell].value)
        for (sheet, cell), value in typed.items():
            yield _line(sheet, cell, value)
        before = set(typed)
        yield "compute"


def _line(sheet: str, cell: str, value: object) -> str:
    match value:
        case None:
            kind, text = "blank", ""
        case date():
            kind, text = "number", str(serial(date(value.year, value.month, value.day)))
        case time():
            kind, text = "number", repr((value.hour * 60 + value.minute) / 1440)
        case float() | int():
            kind, text = "number", repr(value)
        case _:
            kind, text = "text", str(value)
    return f"{sheet}\t{cell}\t{kind}\t{text}"
