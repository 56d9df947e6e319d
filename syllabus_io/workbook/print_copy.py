"""A copy of a workbook to be printed: only the sheets asked for, lists printed as far as they are filled by now."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.errors import BadSetting, WorkbookMismatch
from syllabus_io.workbook.language import Language, language_of
from syllabus_io.workbook.layout import (
    DEADLINES_TABLE,
    EXAMS_TABLE,
    REVIEW_TABLE,
    Name,
    TableLayout,
    quote_sheet,
)
from syllabus_io.workbook.layout_plan import COMMITMENTS_TABLE, TO_DO_TABLE

if TYPE_CHECKING:
    from lxml.etree import _Element
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["PrintFacts", "choose_sheets", "print_copy", "read_print_facts"]

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_AREA = "_xlnm.Print_Area"
_LISTS = (
    (REVIEW_TABLE, "title"),
    (DEADLINES_TABLE, "title"),
    (EXAMS_TABLE, "title"),
    (TO_DO_TABLE, "what"),
    (COMMITMENTS_TABLE, "what"),
)
"""Lists that grow as a person types, with the column that every row in use fills."""


@dataclass(frozen=True, slots=True)
class PrintFacts:
    """What a binder says on its first pages, the visible sheets in order, the last row in use of each list, and the
    language in which all that is named."""

    term: str
    student: str
    courses: tuple[str, ...]
    sheets: tuple[str, ...]
    filled: Mapping[str, int]
    language: Language


def read_print_facts(path: Path) -> PrintFacts:
    """The facts of a workbook on disk. Raises WorkbookMismatch when it is none, or none of this program."""
    from openpyxl import load_workbook

    try:
        with path.open("rb") as file:
            book = load_workbook(file, data_only=True)
    except FileNotFoundError:
        raise WorkbookMismatch(path, "does not exist", "give the path of a workbook made by build") from None
    except OSError as error:
        why = (error.strerror or "unknown reason").lower()
        raise WorkbookMismatch(path, f"cannot be opened ({why})", "close it elsewhere, or give another") from None
    except (ValueError, KeyError, zipfile.BadZipFile):
        raise WorkbookMismatch(path, "is no workbook", "give a workbook made by build") from None
    language = language_of(book.sheetnames)
    if language is None:
        raise WorkbookMismatch(path, "was not made by this program", "give a workbook made by build")
    courses = tuple(value for value in _values(book, Name.COURSES) if value)
    return PrintFacts(
        term=next(iter(_values(book, Name.TERM_NAME)), ""),
        student=next(iter(_values(book, Name.STUDENT)), ""),
        courses=courses,
        sheets=tuple(sheet.title for sheet in book.worksheets if sheet.sheet_state == "visible"),
        filled={
            name: _last_filled(book[name], table, key)
            for table, key in _LISTS
            if (name := language.sheet(table.sheet)) in book.sheetnames
        },
        language=language,
    )


def _values(book: Workbook, name: str) -> list[str]:
    """The texts in a named range; none when a program has dropped the name."""
    if name not in book.defined_names:
        return []
    found = []
    for sheet, cells in book.defined_names[name].destinations:
        area = book[sheet][cells.replace("$", "")]
        rows = area if isinstance(area, tuple) else ((area,),)
        found += [str(cell.value) for row in rows for cell in row if cell.value is not None]
    return found


def _last_filled(sheet: Worksheet, table: TableLayout, key: str) -> int:
    """The last row under the headings with something in that column; the row of the headings when there is none."""
    column, last = table.number(key), table.heading_row
    for row in range(table.first_row, sheet.max_row + 1):
        if str(sheet.cell(row, 1).value or "") and sheet.cell(row, column).value not in (None, ""):
            last = row
    return last


def choose_sheets(asked: Collection[str], facts: PrintFacts) -> tuple[str, ...]:
    """The sheets to print, in the order of the workbook; all when none is asked for. A name stands for every sheet that
    begins with it as a word ("grades" for those of all courses). Raises BadSetting for a name that fits none."""
    if not asked:
        return facts.sheets
    chosen = set()
    for name in asked:
        wanted = name.strip().casefold()
        exact = [sheet for sheet in facts.sheets if sheet.casefold() == wanted]
        fitting = exact or [sheet for sheet in facts.sheets if sheet.casefold().startswith(f"{wanted} ")]
        if not fitting:
            known = ", ".join(facts.sheets)
            raise BadSetting(f"--sheets {name!r}", "the workbook has no such sheet", f"choose from: {known}")
        chosen |= set(fitting)
    return tuple(sheet for sheet in facts.sheets if sheet in chosen)


def print_copy(content: bytes, sheets: Collection[str], filled: Mapping[str, int]) -> bytes:
    """The workbook with all sheets but those given hidden, and the print areas of lists widened to their last row in
    use. Everything else stays as it was saved."""
    from lxml import etree

    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            data = old.read(entry)
            if entry.filename == "xl/workbook.xml":
                root = etree.fromstring(data, etree.XMLParser(resolve_entities=False, no_network=True))
                _change_workbook(root, sheets, filled)
                data = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
            new.writestr(entry.filename, data)
    return packed.getvalue()


def _change_workbook(root: _Element, sheets: Collection[str], filled: Mapping[str, int]) -> None:
    every = list(root.iter(f"{_MAIN}sheet"))
    for sheet in every:
        if sheet.get("name") in sheets:
            sheet.attrib.pop("state", "visible")
        else:
            sheet.set("state", "hidden")
    first = next((str(number) for number, sheet in enumerate(every) if sheet.get("name") in sheets), "0")
    for view in root.iter(f"{_MAIN}workbookView"):
        view.set("activeTab", first)
        view.set("firstSheet", first)
    for defined in list(root.iter(f"{_MAIN}definedName")):
        if defined.get("name") != _AREA or not defined.get("localSheetId", "").isdigit():
            continue
        name = every[int(defined.get("localSheetId", "0"))].get("name") or ""
        parent = defined.getparent()
        if name in sheets:
            defined.text = _widened(defined.text or "", filled.get(name, 0), name)
        elif parent is not None:
            parent.remove(defined)  # a hidden sheet with a print area is printed all the same


def _widened(area: str, last: int, sheet: str) -> str:
    match = re.fullmatch(r".*!(\$[A-Z]+\$\d+):\$([A-Z]+)\$(\d+)", area)
    if match is None or int(match[3]) >= last:
        return area
    return f"{quote_sheet(sheet)}!{match[1]}:${match[2]}${last}"
