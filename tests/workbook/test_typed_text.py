"""Text from outlines stays text: it never becomes a formula, and no text breaks the file."""

from __future__ import annotations

import functools
import io
from datetime import date

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from syllabus_io.outline.records import Category, CourseFacts, GradingScheme, Kind, UndatedWork
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.provenance import Place
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.book import clean_text
from syllabus_io.workbook.cached_values import ErrorValue
from syllabus_io.workbook.layout import REVIEW_TABLE
from syllabus_io.workbook.write import WorkbookOptions, make_workbook
from tests.workbook.plans import TERM, make_course, make_item
from tests.workbook.sheets import Results, Sheets, deadlines, iron

HOSTILE = (
    "=1+1",
    '=HYPERLINK("http://example.invalid","x")',
    "=cmd|' /C calc'!A0",
    "=\n1",
    "@SUM(A1)",
    "+1",
    "-1",
    "\t=1",
    "#N/A",
    "12/5",
    "TRUE",
    "a\x00b\x0bc\x1fd",
    "\ud800 half a pair",
    "_x0041_",
    "\ufffe\uffff",
    "]]>&lt;<b>\"'",
    "x" * 40_000,
    "é\u0301\u202eright to left\u2066",
)


def plan_of(*texts: str) -> Plan:
    """A plan in which the texts stand wherever an outline's words can stand."""
    exams = [
        make_item("C 1", Kind.EXAM, text, date(2026, 10, 6), words=text, context=text, covers=text, reasons=(text,))
        for text in texts
    ]
    plain = [make_item("C 1", Kind.ASSIGNMENT, "Plain", date(2026, 10, 7), category=text) for text in texts]
    undated = tuple(UndatedWork(Kind.QUIZ, text, text, Place("c.pdf", 1), text) for text in texts)
    grading = GradingScheme(categories=tuple(Category(text, 5) for text in texts), rules=texts, doubts=texts)
    course = make_course(CourseFacts(code="C 1"), [*exams, *plain], grading=grading, undated=undated)
    others = [
        make_course(
            CourseFacts(code=f"D {number}", title=text, instructor=text, email=text, office_hours=text, room=text),
            grading=GradingScheme(late_policy=text),
        )
        for number, text in enumerate(texts)
        if number % 6 == 0
    ]
    return make_plan(ResolvedTerm(TERM, (course, *others)))


@functools.cache
def hostile_sheets() -> tuple[Sheets, Results]:
    sheets = Sheets.of(plan_of(*HOSTILE))
    return sheets, iron(sheets)


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: ascii(text[:14]))
def test_hostile_text_stays_text(text: str) -> None:
    sheets, results = hostile_sheets()
    letter = REVIEW_TABLE.letter("title")
    review = sheets.book["Review"]
    cells = [review[f"{letter}{row}"] for row in range(REVIEW_TABLE.first_row, review.max_row + 1)]
    own = [cell for cell in cells if (cell.value or "") == clean_text(text)]
    assert len(own) >= 2, "the exam and the undated work are listed under their title"
    assert all(cell.data_type != "f" for cell in own), "typed text became a formula"
    assert clean_text(text) in [row.title for row in deadlines(results)], "the exam is in the list whatever its title"


def test_hostile_text_makes_no_error_anywhere() -> None:
    _, results = hostile_sheets()
    wrong = [(s, c) for s, cells in results.items() for c, value in cells.items() if isinstance(value, ErrorValue)]
    assert not wrong, wrong


def test_formulas_are_only_our_own() -> None:
    """The same plan with harmless and with hostile text has formulas in the same cells."""

    def formula_cells(text: str) -> set[tuple[str, str]]:
        book = openpyxl.load_workbook(io.BytesIO(make_workbook(plan_of(text), WorkbookOptions(today=date(2026, 9, 1)))))
        return {
            (sheet.title, c.coordinate) for sheet in book for r in sheet.iter_rows() for c in r if c.data_type == "f"
        }

    assert formula_cells("=1+1") == formula_cells("harmless")


def test_text_is_marked_so_that_editing_does_not_turn_it_into_a_formula() -> None:
    cell = Sheets.of(plan_of("=1+1")).book["Review"][f"{REVIEW_TABLE.letter('title')}{REVIEW_TABLE.first_row}"]
    assert cell.quotePrefix


@given(st.text(max_size=300))
@settings(max_examples=200, deadline=None)
def test_any_text_fits_a_cell_and_is_stable(text: str) -> None:
    clean = clean_text(text)
    assert len(clean) <= 32_767
    clean.encode("utf-8")
    assert all(ord(character) >= 32 or character in "\t\n" for character in clean)
    assert all(c in clean or c == "\r" for c in text if c.isalnum()), "no letter or digit is lost"


def test_a_text_longer_than_a_cell_says_that_it_was_cut() -> None:
    """A cell holds 32,767 characters (specifications and limits of the format's commonest program)."""
    clean = clean_text("y" * 40_000)
    assert len(clean) == 32_767 and clean.endswith("(cut: too long for a cell)")
