"""A workbook that holds only the term sheet and the day table, with formulas to probe, and engines to compute it."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import openpyxl
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.outline.records import CourseFacts, Outline
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm
from syllabus_io.resolve.term import DayOff, Meeting, Term
from syllabus_io.workbook.book import Book, Formula, WorkbookOptions
from syllabus_io.workbook.days import write_days
from syllabus_io.workbook.layout import TERM, Name
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.styles import find_look, register_styles
from syllabus_io.workbook.term_dates import write_term_dates

__all__ = ["PROBE", "TermBook", "as_day", "iron_values", "office_values", "soffice"]

PROBE = "Probe"
_EPOCH = date(1899, 12, 30)
_TODAY = date(2026, 9, 1)


@dataclass(slots=True)
class TermBook:
    """A workbook with the term sheet of some courses, and a sheet of formulas to look at."""

    book: Book

    @classmethod
    def of(
        cls,
        term: Term,
        courses: Mapping[str, tuple[Meeting, ...]],
        items: Sequence[ResolvedItem] = (),
        own_days_off: Mapping[str, tuple[DayOff, ...]] | None = None,
    ) -> TermBook:
        """The term sheet of courses by key, with their meetings. The items, all of the first course, tell which
        counts the day table needs."""
        resolved_courses = tuple(
            ResolvedCourse(
                key,
                Outline(f"{key}.pdf", "0" * 64, 1, CourseFacts(code=key, meetings=meetings)),
                tuple(items) if number == 0 else (),
                (own_days_off or {}).get(key, ()),
                (),
            )
            for number, (key, meetings) in enumerate(courses.items())
        )
        return cls.with_plan(make_plan(ResolvedTerm(term, resolved_courses)))

    @classmethod
    def with_plan(cls, plan: Plan) -> TermBook:
        """The term sheet of a plan."""
        workbook = openpyxl.Workbook()
        for sheet in workbook.worksheets:
            workbook.remove(sheet)
        options = WorkbookOptions(today=_TODAY)
        look = find_look("plain")
        register_styles(workbook, look, "a4")
        book = Book(workbook, plan, options, look, _TODAY)
        probe = book.add_sheet(PROBE)
        for row, course in enumerate(plan.resolved.courses, start=1):
            book.put(probe, row, 3, course.key, "text")
        book.name(Name.COURSES, PROBE, "C1", f"C{max(1, len(plan.resolved.courses))}")
        write_term_dates(book)
        write_days(book)
        return cls(book)

    def probe(self, row: int, formula: str) -> None:
        """Puts a formula into column A of the probe sheet."""
        self.book.put(self.book.workbook[PROBE], row, 1, Formula(formula), "date")

    def cell_of(self, name: str) -> str:
        """The first cell of a defined name on the term sheet."""
        return str(self.book.workbook.defined_names[name].attr_text).split("!")[1].split(":")[0].replace("$", "")

    def change(self, cell: str, value: object) -> None:
        """Types a value into a cell of the term sheet."""
        self.book.workbook[TERM][cell].value = value

    def free_row_of(self, name: str) -> int:
        """The first row of a table column of the term sheet that holds nothing."""
        first, last = self.book.workbook.defined_names[name].attr_text.split("!")[1].replace("$", "").split(":")
        for (cell,) in self.book.workbook[TERM][f"{first}:{last}"]:
            if cell.value is None:
                return int(cell.row)
        raise AssertionError(f"{name} has no free row")

    def content(self) -> bytes:
        """The file, without computed results."""
        return pack_workbook(self.book.workbook, filled=self.book.filled)


def as_day(value: object) -> date | str | None:
    """A cell's value as a day; text and blanks as text."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _EPOCH + timedelta(days=round(value))
    if isinstance(value, date):
        return date(value.year, value.month, value.day)
    return str(value or "")


def iron_values(content: bytes, cells: Mapping[str, Sequence[str]]) -> dict[tuple[str, str], object]:
    """What IronCalc computes for cells, by sheet and cell."""
    import ironcalc

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "probe.xlsx")
        path.write_bytes(content)
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    sheets = [sheet["name"] for sheet in model.get_worksheets_properties()]
    found: dict[tuple[str, str], object] = {}
    for sheet, names in cells.items():
        for name in names:
            row, column = coordinate_to_tuple(name)
            found[sheet, name] = model.get_cell_value(sheets.index(sheet), row, column)
    return found


def soffice() -> str | None:
    """The LibreOffice program, None when it is not installed."""
    return shutil.which("soffice") or shutil.which("libreoffice")


def office_values(contents: Sequence[bytes], cells: Mapping[str, Sequence[str]]) -> list[dict[tuple[str, str], object]]:
    """What LibreOffice computes for cells of each workbook, by sheet and cell; all files in one run."""
    program = soffice()
    assert program, "LibreOffice is not installed"
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder, "out")
        paths = [Path(folder, f"book{number:03}.xlsx") for number in range(len(contents))]
        for path, content in zip(paths, contents, strict=True):
            path.write_bytes(content)
        command = [program, f"-env:UserInstallation={Path(folder, 'profile').as_uri()}", "--headless", "--convert-to"]
        subprocess.run(
            [*command, "xlsx", "--outdir", str(out), *map(str, paths)], check=True, capture_output=True, timeout=600
        )
        results: list[dict[tuple[str, str], object]] = []
        for path in paths:
            workbook = openpyxl.load_workbook(out / path.name, data_only=True, read_only=False)
            results.append(
                {(sheet, name): workbook[sheet][name].value for sheet, names in cells.items() for name in names}
            )
        return results
