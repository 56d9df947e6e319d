"""A workbook in the hands of a test: change cells as a person would, compute it, read the results by heading."""

from __future__ import annotations

import functools
import io
import re
import subprocess
import tempfile
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.plan.records import Plan
from syllabus_io.workbook.cached_values import CellValue, ErrorValue, result_of, sheet_parts
from syllabus_io.workbook.layout import DEADLINES_TABLE, EXAMS_TABLE, REVIEW_TABLE, START, TODAY_CELL, TableLayout
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.write import WorkbookOptions, collect_book, collect_workbook, make_workbook
from tests.shared_files import shared_file
from tests.workbook.term_workbook import soffice

__all__ = [
    "ENGINES",
    "TODAY",
    "Sheets",
    "collected",
    "day",
    "iron",
    "made",
    "needs_office",
    "office",
    "opened",
    "serial",
]

TODAY = date(2026, 9, 28)
_EPOCH = date(1899, 12, 30)
_FORMULA_CELL = re.compile(r'<c r="([A-Z]+[0-9]+)"[^>]*><f')
Results = Mapping[str, Mapping[str, CellValue]]

needs_office = pytest.mark.skipif(soffice() is None, reason="LibreOffice is not installed")


def serial(value: date) -> float:
    """A day as the number a spreadsheet stores."""
    return float((value - _EPOCH).days)


def day(value: CellValue) -> date | None:
    """The day a number stands for; None for text."""
    return _EPOCH + timedelta(days=int(value)) if isinstance(value, float) else None


@dataclass(slots=True)
class Sheets:
    """A workbook, and what a person has typed into it since."""

    content: bytes
    typed: dict[tuple[str, str], object] = field(default_factory=dict)

    @classmethod
    def of(cls, plan: Plan, **options: Any) -> Sheets:
        """The workbook of a plan, without results. The day of today is fixed, so that all engines share it."""
        return cls(_with_fixed_day(plan, WorkbookOptions(today=TODAY, **options)))

    @property
    def book(self) -> Any:
        """The workbook as it was written, as openpyxl reads it; not to be changed."""
        return opened(self.content)

    def put(self, sheet: str, cell: str, value: object) -> None:
        """Types a value into a cell."""
        self.typed[sheet, cell] = value

    def cell_of(self, name: str) -> tuple[str, str]:
        """The sheet and cell of a defined name."""
        sheet, cell = self.book.defined_names[name].attr_text.split("!")
        return sheet.strip("'"), cell.replace("$", "")

    def put_name(self, name: str, value: object) -> None:
        """Types a value into the cell of a defined name."""
        self.put(*self.cell_of(name), value)

    def row_of(self, table: TableLayout, title: str, course: str = "") -> int:
        """The row of a table of constants with that title, and of that course where one is given."""
        sheet = self.book[table.sheet]
        for row in range(table.first_row, sheet.max_row + 1):
            if sheet[f"{table.letter('title')}{row}"].value == title and (
                not course or sheet[f"{table.letter('course')}{row}"].value == course
            ):
                return row
        raise AssertionError(f"{table.sheet} has no row {title!r}")

    def put_review(self, title: str, key: str, value: object, course: str = "") -> None:
        """Types into a column of Review, in the row of an item."""
        self.put(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter(key)}{self.row_of(REVIEW_TABLE, title, course)}", value)

    def add_review_row(self, **values: object) -> None:
        """Types a row by hand into the first free row of Review, values by column key."""
        sheet = self.book[REVIEW_TABLE.sheet]
        free = (row for row in range(REVIEW_TABLE.first_row, sheet.max_row) if _is_free(sheet[f"A{row}"].value))
        row = next(
            row for row in free if (REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter('title')}{row}") not in self.typed
        )
        for key, value in values.items():
            self.put(REVIEW_TABLE.sheet, f"{REVIEW_TABLE.letter(key)}{row}", value)

    def packed(self) -> bytes:
        """The file with what was typed, ready for an engine."""
        if not self.typed:
            return self.content
        book = openpyxl.load_workbook(io.BytesIO(self.content))
        for (sheet, cell), value in self.typed.items():
            book[sheet][cell].value = value
        return pack_workbook(book)


def _is_free(own: object) -> bool:
    return str(own).startswith("own-")


@functools.lru_cache(maxsize=16)
def collected(plan: Plan, options: WorkbookOptions) -> bytes:
    """The workbook of a plan without results, written once for all tests that only look at it."""
    return shared_file("collected", (plan, options), lambda: collect_workbook(plan, options))


@functools.lru_cache(maxsize=16)
def made(plan: Plan, options: WorkbookOptions) -> bytes:
    """The same with results."""
    return shared_file("made", (plan, options), lambda: make_workbook(plan, options))


@functools.lru_cache(maxsize=8)
def _with_fixed_day(plan: Plan, options: WorkbookOptions) -> bytes:
    def make() -> bytes:
        book = collect_book(plan, options)
        book.workbook[START][TODAY_CELL].value = TODAY
        return pack_workbook(book.workbook, filled=book.filled)

    return shared_file("with-fixed-day", (plan, options), make)


@functools.lru_cache(maxsize=8)
def opened(content: bytes) -> Any:
    """The workbook as openpyxl reads it, read once; not to be changed."""
    return openpyxl.load_workbook(io.BytesIO(content))


@functools.lru_cache(maxsize=8)
def _formula_cells(content: bytes) -> tuple[tuple[str, str, int, int], ...]:
    found: list[tuple[str, str, int, int]] = []
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for title, part in sheet_parts(content).items():
            cells = _FORMULA_CELL.findall(archive.read(part).decode())
            found += [(title, cell, *coordinate_to_tuple(cell)) for cell in cells]
    return tuple(found)


@functools.lru_cache(maxsize=8)
def _iron_model(content: bytes) -> bytes:
    return shared_file("model", content, lambda: _loaded(content))


def _loaded(content: bytes) -> bytes:
    import ironcalc

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "book.xlsx")
        path.write_bytes(content)
        return bytes(ironcalc.load_from_xlsx(str(path), "en", "UTC", "en").to_bytes())


def iron(sheets: Sheets) -> Results:
    """What IronCalc makes of every formula."""
    import ironcalc

    model = ironcalc.load_from_bytes(_iron_model(sheets.content), "en")
    names = [sheet["name"] for sheet in model.get_worksheets_properties()]
    for (sheet, cell), value in sheets.typed.items():
        typed = str(serial(value)) if isinstance(value, date) else "" if value is None else str(value)
        model.set_user_input(names.index(sheet), *coordinate_to_tuple(cell), typed)
    model.evaluate()
    results: dict[str, dict[str, CellValue]] = {name: {} for name in names}
    for sheet, cell, row, column in _formula_cells(sheets.content):
        results[sheet][cell] = result_of(model, names.index(sheet), row, column)
    return results


def office(sheets: Sheets) -> Results:
    """What LibreOffice makes of every formula."""
    program = soffice()
    assert program
    with tempfile.TemporaryDirectory() as folder:
        path, out = Path(folder, "book.xlsx"), Path(folder, "out")
        path.write_bytes(sheets.packed())
        profile = f"-env:UserInstallation={Path(folder, 'profile').as_uri()}"
        command = [program, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(out), str(path)]
        subprocess.run(command, check=True, capture_output=True, timeout=300)
        computed = openpyxl.load_workbook(out / path.name, data_only=True)
    results: dict[str, dict[str, CellValue]] = {sheet.title: {} for sheet in sheets.book}
    for sheet_name, cell, row, column in _formula_cells(sheets.content):
        results[sheet_name][cell] = _plain(computed[sheet_name].cell(row, column).value)
    return results


def _plain(value: object) -> CellValue:
    """A value as the file holds it: days and times are numbers there."""
    match value:
        case None:
            return ""
        case bool():
            return value
        case datetime():
            span = value - datetime(1899, 12, 30)  # noqa: DTZ001  # spreadsheets have no zone
            return span / timedelta(days=1)
        case time():
            return (value.hour * 3600 + value.minute * 60 + value.second) / 86400
        case str() if value.startswith("#") and value.rstrip("!?").isupper():
            return ErrorValue(value)
        case str():
            return value
        case _:
            return float(str(value))


ENGINES = [
    pytest.param(iron, id="ironcalc"),
    pytest.param(office, id="libreoffice", marks=[pytest.mark.office, pytest.mark.slow, needs_office]),
]


@dataclass(frozen=True, slots=True)
class Listed:
    """One row of a list that formulas keep in order."""

    course: str
    title: str
    day: date | None
    values: Mapping[str, CellValue]


def listed(results: Results, table: TableLayout) -> list[Listed]:
    """The rows of a list that are filled, from top to bottom."""
    return list(_rows(results[table.sheet], table))


def _rows(cells: Mapping[str, CellValue], table: TableLayout) -> Iterator[Listed]:
    row = table.first_row
    while f"A{row}" in cells:
        if cells[f"A{row}"] != "":
            values = {column.key: cells[f"{table.letter(column.key)}{row}"] for column in table.columns}
            yield Listed(str(values["course"]), str(values["title"]), day(values["used"]), values)
        row += 1


def deadlines(results: Results) -> list[Listed]:
    """Deadlines, from top to bottom."""
    return listed(results, DEADLINES_TABLE)


def exams(results: Results) -> list[Listed]:
    """Exams, from top to bottom."""
    return listed(results, EXAMS_TABLE)
