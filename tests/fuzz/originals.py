"""Sound inputs of each kind, which are then changed: small ones of our own first, because most of a run reads them."""

from __future__ import annotations

import functools
import tempfile
from datetime import date
from pathlib import Path

from reportlab.lib.pagesizes import LETTER
from reportlab.pdfgen.canvas import Canvas

from syllabus_io.extract.reader import read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.plan.build import make_plan
from syllabus_io.workbook.write import WorkbookOptions, collect_workbook
from tests.extract.pdf_files import Sheet
from tests.extract.word_files import cell, level, listed, numbering, paragraph, row, table, write_word

__all__ = ["PHRASES", "TODAY", "pdf_originals", "term_originals", "word_originals", "workbook_original"]

SAMPLES = Path(__file__).parents[2] / "samples"
TODAY = date(2026, 9, 1)
PHRASES = (
    "the Friday of week 5", "Oct 6 at 5 pm", "every other Tuesday from September 8 to Thanksgiving",
    "two classes after the midterm", "10/12/2026, 23:59", "Mondays and Wednesdays, weeks 3-7", "the last class in May",
    "Sept 9, 16 and 23", "noon on the second Thursday of October", "one week before the final exam",
    "by the end of the week after the break", "le 6 octobre 2026", "2026-W41-2", "beginning of class 12",
)  # fmt: skip
_ROWS = (
    ("Week", "Date", "Topic", "Due"),
    ("1", "Sep 1", "Kites and lift", ""),
    ("2", "Sep 8", "Wind over a ridge", "Quiz 1"),
    ("3", "Sep 15", "Knots under load", "Essay 1 (10%)"),
    ("4", "Sep 22", "No class", ""),
)
_FACTS = ("KIT 120 Kites and Wind, Autumn 2026", "Tuesday and Thursday, 10:00 - 11:15", "Homework 40%, Exam 60%")
_ENDING = ("Essay 2 is due October 6 at 5 pm.", "The final exam is on December 15, 2026.")


@functools.cache
def pdf_originals() -> tuple[bytes, ...]:
    """Pages with a ruled table, with columns that no rule divides and with prose, and a sample."""
    ruled, open_columns = _drawn(True), _drawn(False)
    return (ruled, open_columns, ruled, open_columns, (SAMPLES / "letters.pdf").read_bytes())


def _drawn(with_rules: bool) -> bytes:
    lefts = (72.0, 120.0, 190.0, 330.0)
    with tempfile.TemporaryDirectory() as folder:
        sheet = Sheet(Path(folder, "outline.pdf"))
        # no date of making, so that a number gives the same input on every day
        sheet.canvas = Canvas(str(sheet.path), pagesize=LETTER, invariant=True, pageCompression=int(with_rules))
        sheet.lines(72, 72, _FACTS)
        if with_rules:
            sheet.grid((*lefts, 460.0), [130.0 + 20 * number for number in range(6)], _ROWS)
        else:
            sheet.columns(lefts, 140, _ROWS)
        sheet.lines(72, 270, _ENDING)
        return sheet.save().read_bytes()


@functools.cache
def word_originals() -> tuple[bytes, ...]:
    """A file with facts, a list, a table and prose, and a sample."""
    rows = [row(*(text or cell() for text in one)) for one in _ROWS]
    heading = '<w:pStyle w:val="Heading1"/>'
    body = (
        paragraph(_FACTS[0], properties=heading)
        + "".join(paragraph(text) for text in _FACTS[1:])
        + listed("Quiz 2 on October 1")
        + listed("Reading: chapter 3 by Friday", 1)
        + table(*rows, grid=(900, 1200, 3000, 2000))
        + "".join(paragraph(text) for text in _ENDING)
    )
    levels = level(0, "decimal", "%1.") + level(1, "bullet", "-")
    with tempfile.TemporaryDirectory() as folder:
        own = write_word(Path(folder, "outline.docx"), body, {"numbering": numbering(levels)}).read_bytes()
    return (own, own, own, own, (SAMPLES / "algebra.docx").read_bytes())


@functools.cache
def workbook_original() -> bytes:
    """The workbook of the small Word file, without computed results, which reading back does not need."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "outline.docx")
        path.write_bytes(word_originals()[0])
        outline = read_outline(read_document(path))
    return collect_workbook(make_plan(resolve_outlines([outline], None, TODAY)), WorkbookOptions(today=TODAY))


@functools.cache
def term_originals() -> tuple[bytes, ...]:
    """The samples' term file and one with every setting."""
    every = """
[term]
name = "Autumn 2026"
first_day = 2026-08-31
last_day = 2026-12-11
finals = [2026-12-14, 2026-12-18]
holidays = "US-OH"
break_weeks_count = false
week_one = 2026-08-31
timezone = "America/New_York"
rotation = ["A", "B"]
rotation_first_day = 2026-08-31
[[no_class]]
name = "Autumn break"
first_day = 2026-10-15
last_day = 2026-10-16
"""
    return ((SAMPLES / "term.toml").read_bytes(), every.encode())
