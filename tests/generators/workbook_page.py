"""Makes docs/workbook.md from the layout and a workbook written anew: ``python -m tests.generators.workbook_page``.

What programs must be able to do is taken from the finished file, so that nothing is used without being listed.
"""

from __future__ import annotations

import functools
import io
import re
import zipfile
from pathlib import Path
from typing import Any

import openpyxl

from syllabus_io.workbook import layout, layout_plan
from syllabus_io.workbook.layout import Column, TableLayout
from syllabus_io.workbook.styles import LOOKS
from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import TODAY, collected

PAGE = Path(__file__).parents[2] / "docs" / "workbook.md"

_HEAD = """# The workbook

This page is made from the program's own layout and from a workbook it writes: run
`python -m tests.generators.workbook_page` after a change.

Cells that are framed are for a person to fill in, and the only ones that are not protected. The protection has no
password: "Unprotect Sheet" in any program lifts it. Every other cell is computed by formulas, or holds what was read.
Columns that stand on no screen serve the formulas; they are not listed here.
"""

_FEATURES = (
    ("tables with filter buttons", r"<autoFilter"),
    ("drop-down lists", r'type="list"'),
    ("checks on what is typed (dates, times, numbers)", r'type="(date|time|decimal)"'),
    ("conditional formats with a formula", r'<cfRule type="expression"'),
    ("joined cells", r"<mergeCell "),
    ("frozen headings", r'state="frozen"'),
    ("links within the workbook", r"<hyperlink [^>]*location="),
    ("page breaks, print areas, repeated headings, footers", r"<rowBreaks|<oddFooter"),
    ("sheet protection without a password", r"<sheetProtection"),
    ("bar and column charts with alternative text", r"<drawing "),
    ("pictures", r"<pic:|xdr:pic"),
    ("macros", r"vbaProject"),
    ("links to other files", r'TargetMode="External"'),
)


@functools.cache
def written_workbook() -> bytes:
    """The workbook of the invented plan, without computed results."""
    return collected(usual_plan(), WorkbookOptions(today=TODAY))


def formula_functions(content: bytes) -> tuple[str, ...]:
    """Every function that a formula, a condition or a check of the workbook calls."""
    found: set[str] = set()
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/sheet"):
                text = archive.read(name).decode("utf-8")
                for formula in re.findall(r"<(?:f|formula|formula1|formula2)(?: [^>]*)?>([^<]*)<", text):
                    plain = re.sub(r'"[^"]*"|\'[^\']*\'|&quot;.*?&quot;', "", formula)
                    found |= set(re.findall(r"([A-Z][A-Z0-9.]*)\(", plain))
    return tuple(sorted(found))


def _tables() -> dict[str, TableLayout]:
    every = [*vars(layout).values(), *vars(layout_plan).values()]
    return {table.sheet: table for table in every if isinstance(table, TableLayout)}


def _column_words(columns: tuple[Column, ...]) -> str:
    return ", ".join(column.heading for column in columns if not column.hidden)


def _sheet_lines(book: Any) -> list[str]:
    tables = _tables()
    lines: list[str] = []
    for sheet in book:
        if sheet.sheet_state != "visible":
            continue
        name = sheet.title
        columns = tables[name].columns if name in tables else None
        if name.startswith(f"{layout.GRADES} ") and name != layout.OVERVIEW:
            if any(line.startswith("| Grades of a course") for line in lines):
                continue
            name, columns = "Grades of a course", layout.MARKS_COLUMNS
        use = next((cell.value for cell in sheet[2] if cell.style == "note" and cell.data_type == "s"), "–")
        lines.append(f"| {name} | {use} | {_column_words(columns) if columns else '–'} |")
    return lines


def make_page() -> str:
    """The page's text."""
    content = written_workbook()
    book = openpyxl.load_workbook(io.BytesIO(content))
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        parts = "\n".join(
            archive.read(name).decode("utf-8", "replace")
            for name in archive.namelist()
            if name.endswith((".xml", ".rels"))
        )
    parts_of = [_HEAD, "\n## Sheets\n\n| sheet | how it is used | columns of its table |\n|---|---|---|\n"]
    parts_of.append("\n".join(_sheet_lines(book)) + "\n")
    hidden = ", ".join(sheet.title for sheet in book if sheet.sheet_state != "visible")
    parts_of.append(f"\nSheets that are not shown hold what formulas need: {hidden}.\n")
    parts_of.append(
        "\n## Functions\n\nFormulas use these functions and no others; all common spreadsheet programs have\nthem. "
    )
    parts_of.append("No formula uses dynamic arrays, array constants or ranges made by functions.\n\n")
    parts_of.append(f"{' '.join(formula_functions(content))}\n")
    parts_of.append("\n## Features\n\n| feature | used |\n|---|---|\n")
    parts_of += [f"| {feature} | {'yes' if re.search(mark, parts) else 'no'} |\n" for feature, mark in _FEATURES]
    parts_of.append("\n## Looks\n\n")
    parts_of += [f"- `{look.name}`: {look.about}\n" for look in LOOKS]
    return "".join(parts_of)


def write_page() -> None:
    """Writes the page."""
    PAGE.write_text(make_page(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    write_page()
