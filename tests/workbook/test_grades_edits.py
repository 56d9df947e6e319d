"""Marks typed into the sheets of the sample courses, and what stands after rows are inserted, deleted and sorted."""

from __future__ import annotations

import functools
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.pipeline import read_outlines, resolve_outlines
from syllabus_io.plan.build import make_plan
from syllabus_io.term_file import read_term_file
from syllabus_io.workbook.layout import MARKS_COLUMNS, TableLayout, grades_sheet_names
from tests.workbook.office_edits import run_basic
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import Sheets, needs_office

SAMPLES = Path(__file__).parents[2] / "samples"

# The grades are computed by hand from the weights and drops that the sample outlines state.
HAND: dict[str, tuple[dict[str, float], Fraction, str]] = {
    # points: (12 + 15 + 88) of (15 + 20 + 100)
    "Algebra II": (
        {"Homework, week 2": 12, "Quiz 1: linear equations": 15, "Unit 1 test": 88},
        Fraction(115, 135),
        "B",
    ),
    # quizzes 10 % at 100 (the two lowest of three are left out), herbarium 10 % at 90, exams 45 % at 70
    "BIOL 120": (
        {"Quiz 1": 80, "Quiz 2": 60, "Quiz 3": 100, "Herbarium sheet 1": 90, "Exam 1": 70},
        Fraction(505, 650),
        "C",
    ),
    # labs 30 % at 90 (the lower of two is left out), reading quizzes 10 % at 100, first midterm 15 % at 80
    "GEOL 110": (
        {"Lab report 1": 70, "Lab report 2": 90, "Reading quiz 1": 100, "Midterm 1": 80},
        Fraction(49, 55),
        "B+",
    ),
    # source notes 15 % at 80, map quiz 5 % at 100, first essay 15 % at 88
    "HIST 233": ({"Source note 1": 80, "Map quiz": 100, "Essay 1": 88}, Fraction(302, 350), "B"),
    # papers 45 % at 85, journal 15 % at 95
    "ENGL 214": ({"Paper 1": 85, "Journal 1": 95}, Fraction(525, 600), "B"),
    # quizzes 15 % at 90 (the lower of two is left out), concert reports 20 % at 88, midterm 20 % at 94
    "MUSC 150": (
        {"Listening quiz 1": 70, "Listening quiz 2": 90, "Concert report 1": 88, "MIDTERM EXAM": 94},
        Fraction(499, 550),
        "B",
    ),
}


@functools.cache
def sample_sheets() -> Sheets:
    """The workbook of the samples with the marks typed in."""
    files = sorted(path for path in SAMPLES.iterdir() if path.suffix in (".docx", ".pdf"))
    read = read_outlines(files)
    assert not read.faults, [str(fault) for fault in read.faults]
    plan = make_plan(resolve_outlines(read.outlines, read_term_file(SAMPLES / "term.toml")))
    sheets = Sheets.of(plan)
    keys = [course.key for course in plan.resolved.courses]
    titles = {item.id: item.title for course in plan.resolved.courses for item in course.items}
    assert set(keys) == set(HAND), "every sample course has marks computed by hand"
    for key, name in zip(keys, grades_sheet_names(keys), strict=True):
        table = marks_table(sheets, name)
        typed = dict(HAND[key][0])
        for row in range(table.first_row, closing_row(sheets, table)):
            title = titles.get(str(sheets.book[name][f"A{row}"].value))
            if title in typed:
                sheets.put(name, f"I{row}", typed.pop(title))
        assert not typed, f"{name} does not list {sorted(typed)}"
    return sheets


def marks_table(sheets: Sheets, name: str) -> TableLayout:
    """The table of marks of a course's sheet, by its heading."""
    for row in range(1, sheets.book[name].max_row + 1):
        if sheets.book[name][f"C{row}"].value == "Work":
            return TableLayout(name, row, MARKS_COLUMNS)
    raise AssertionError(f"{name} has no table of marks")


def closing_row(sheets: Sheets, table: TableLayout) -> int:
    """The row under the last mark."""
    for row in range(table.first_row, sheets.book[table.sheet].max_row + 1):
        if str(sheets.book[table.sheet][f"B{row}"].value).startswith("Insert further rows"):
            return row
    raise AssertionError(f"{table.sheet} does not close its table of marks")


def category_row(sheets: Sheets, name: str) -> int:
    """The row of the first category."""
    for row in range(1, sheets.book[name].max_row + 1):
        if sheets.book[name][f"C{row}"].value == "Category":
            return row + 1
    raise AssertionError(f"{name} has no table of categories")


def edits(sheets: Sheets, key: str, name: str) -> str:
    """Basic that notes the grade as typed and after each edit: a row inserted, a category renamed, an open row
    deleted, the marks sorted by the name of the work, downwards."""
    table = marks_table(sheets, name)
    first, last = table.first_row, closing_row(sheets, table) - 1
    open_row = max(row for row in range(first, last) if sheets.book[name][f"D{row}"].value is not None)
    return f"""
  sheet = book.Sheets.getByName("{name}")
  sheet.unprotect("")
  Note("{key}|typed|" & sheet.getCellRangeByName("B3").Value & "|" & sheet.getCellRangeByName("C3").String)
  sheet.Rows.insertByIndex({first}, 1)
  Note("{key}|inserted|" & sheet.getCellRangeByName("B3").Value & "|" & sheet.getCellRangeByName("C3").String)
  sheet.getCellRangeByName("C{category_row(sheets, name)}").String = "Renamed *?"
  Note("{key}|renamed|" & sheet.getCellRangeByName("B3").Value & "|" & sheet.getCellRangeByName("C3").String)
  sheet.Rows.removeByIndex({open_row}, 1)
  Note("{key}|deleted|" & sheet.getCellRangeByName("B3").Value & "|" & sheet.getCellRangeByName("C3").String)
  SortDown(sheet.getCellRangeByName("A{first}:O{last}"), 2)
  Note("{key}|sorted|" & sheet.getCellRangeByName("B3").Value & "|" & sheet.getCellRangeByName("C3").String)
"""


@pytest.mark.slow
@pytest.mark.office
@needs_office
def test_marks_of_the_samples_give_the_grades_computed_by_hand_whatever_is_edited() -> None:
    sheets = sample_sheets()
    names = dict(zip(HAND, grades_sheet_names(HAND), strict=True))
    noted = run_basic(sheets.packed(), "\n".join(edits(sheets, key, name) for key, name in names.items()))
    lines = [line.split("|") for line in noted]
    steps = ("typed", "inserted", "renamed", "deleted", "sorted")
    assert [(key, step) for key, step, *_ in lines] == [(key, step) for key in HAND for step in steps]
    for key, step, value, letter in lines:
        _, expected, expected_letter = HAND[key]
        shown = float(value.replace(",", "."))
        assert abs(shown - float(expected)) < 1e-6, f"{key}, {step}: {shown} is not {expected}"
        assert letter == expected_letter, f"{key}, {step}: the letter is {letter}"


def edited(sheets: Sheets) -> Any:
    """A workbook in an engine that can insert and delete rows, with what was typed."""
    from tests.workbook.iron_model import open_model

    return open_model(sheets)


def test_rows_inserted_deleted_and_renamed_are_followed() -> None:
    """Exams 45 % with marks of 20 and 25, quizzes 15 % with the lowest left out, lab reports 20 %, by hand."""
    sheets = Sheets.of(usual_plan())
    name = "Grades BIO 110"
    table = marks_table(sheets, name)
    first = table.first_row
    for offset, points in enumerate((80, 90, 70)):  # Quiz 1, Quiz 2, Lab report 1
        sheets.put(name, f"I{first + offset}", points)
    model = edited(sheets)
    number = [sheet["name"] for sheet in model.get_worksheets_properties()].index(name)

    def current() -> float:
        model.evaluate()
        return float(model.get_cell_value(number, *coordinate_to_tuple("B3")))

    def type_in(cell: str, text: str) -> None:
        model.set_user_input(number, *coordinate_to_tuple(cell), text)

    assert current() == pytest.approx((0.15 * 0.9 + 0.2 * 0.7) / 0.35, abs=1e-9)
    model.insert_rows(number, first + 1, 1)
    assert current() == pytest.approx((0.15 * 0.9 + 0.2 * 0.7) / 0.35, abs=1e-9), "an empty row changes nothing"
    type_in(f"D{first + 1}", "Lab reports")
    type_in(f"E{first + 1}", "50")
    type_in(f"I{first + 1}", "50")
    assert current() == pytest.approx((0.15 * 0.9 + 0.2 * 120 / 150) / 0.35, abs=1e-9), "a row between counts"
    categories = category_row(sheets, name)
    assert sheets.book[name][f"C{categories + 2}"].value == "Lab reports"
    type_in(f"C{categories + 2}", "Reports from the shore")
    assert current() == pytest.approx((0.15 * 0.9 + 0.2 * 0.7) / 0.35, abs=1e-9), "rows of the outline follow the name"
    model.delete_rows(number, first + 3, 1)
    assert current() == pytest.approx(0.9, abs=1e-9), "the lab report's row is gone"
