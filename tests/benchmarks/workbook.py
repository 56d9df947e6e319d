"""The workbook of the samples, part by part, beside openpyxl with the same cells: ``-m tests.benchmarks.workbook``."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import openpyxl

from syllabus_io.extract.reader import outline_files, read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.plan.build import make_plan
from syllabus_io.term_file import read_term_file
from syllabus_io.workbook.cached_values import evaluate
from syllabus_io.workbook.layout import START, TODAY_CELL
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.write import WorkbookOptions, collect_book, make_workbook
from tests.benchmarks.timing import Timing, median_seconds, print_table

__all__ = ["main"]

SAMPLES = Path(__file__).parents[2] / "samples"
TODAY = date(2026, 9, 1)


def copier(content: bytes) -> Callable[[], None]:
    """Writes every value and formula of a workbook into a new one, without looks and logic."""
    cells = [
        (sheet.title, [(cell.row, cell.column, cell.value) for row in sheet.iter_rows() for cell in row if cell.value])
        for sheet in openpyxl.load_workbook(io.BytesIO(content)).worksheets
    ]

    def write() -> None:
        workbook = openpyxl.Workbook()
        for title, found in cells:
            sheet = workbook.create_sheet(title)
            for row, column, value in found:
                sheet.cell(row, column, value)
        workbook.save(io.BytesIO())

    return write


def main() -> None:
    """Prints what a workbook costs."""
    outlines = [read_outline(read_document(path)) for path in outline_files([SAMPLES])]
    plan = make_plan(resolve_outlines(outlines, read_term_file(SAMPLES / "term.toml"), TODAY))
    options = WorkbookOptions(today=TODAY)
    collected = collect_book(plan, options)
    book, filled = collected.workbook, collected.filled
    values = evaluate(book, TODAY, (START, TODAY_CELL), filled)
    content = pack_workbook(book, values, filled)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        unpacked = sum(entry.file_size for entry in archive.infolist())
    print_table(
        f"Workbook of {len(outlines)} outlines, {sum(map(len, values.values())):,} formulas, "
        f"{len(content) / 1000:.0f} KB ({unpacked / 1000:.0f} KB unpacked)",
        [
            Timing("whole", median_seconds(lambda: make_workbook(plan, options))),
            Timing("– sheets", median_seconds(lambda: collect_book(plan, options))),
            Timing(
                "– computing the values shown",
                median_seconds(lambda: evaluate(book, TODAY, (START, TODAY_CELL), filled)),
            ),
            Timing("– writing the file", median_seconds(lambda: pack_workbook(book, values, filled))),
            Timing("openpyxl, the same cells without looks", median_seconds(copier(content))),
        ],
    )


if __name__ == "__main__":
    main()
