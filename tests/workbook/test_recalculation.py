"""The workbook computes: no error cell, and two engines that share no code agree on every cell."""

from __future__ import annotations

from datetime import date

import pytest

from syllabus_io.workbook.cached_values import CellValue, ErrorValue
from tests.workbook.plans import small_plan, usual_plan
from tests.workbook.sheets import Sheets, iron, needs_office, office


def with_entries() -> Sheets:
    """The usual plan after some weeks of use: corrections, skipped and added rows, ticks, marks of all sorts."""
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Field notes talk", "corrected", date(2026, 10, 9))
    sheets.put_review("Map test", "keep", "skip")
    sheets.put_review("Quiz 1", "done", "done")
    sheets.put_review("Reflection on the field trip", "corrected", "soon")
    sheets.add_review_row(course="MAT 131", kind="quiz", title="Pop quiz", corrected=date(2026, 10, 20))
    marks: dict[str, tuple[object, ...]] = {
        "Grades BIO 110": (88, 0, "EX", 71.5, 110, "ill"),
        "Grades MAT 131": (20, 11, None, 20),
        "Grades HIS 204": (80,),
    }
    for name, points in marks.items():
        first = first_mark_row(sheets, name)
        for offset, mark in enumerate(points):
            sheets.put(name, f"I{first + offset}", mark)
    return sheets


def first_mark_row(sheets: Sheets, name: str) -> int:
    """The first row of marks on a grades sheet."""
    for row in range(1, 80):
        if sheets.book[name][f"C{row}"].value == "Work":
            return row + 1
    raise AssertionError(f"{name} has no table of marks")


CASES = {
    "as built": lambda: Sheets.of(usual_plan()),
    "one course": lambda: Sheets.of(small_plan(), paper="a4", look="plain"),
    "after some weeks": with_entries,
}


@pytest.mark.parametrize("case", CASES)
def test_no_cell_shows_an_error(case: str) -> None:
    sheets = CASES[case]()
    wrong = [
        f"{sheet}!{cell} shows {value.code}"
        for sheet, cells in iron(sheets).items()
        for cell, value in cells.items()
        if isinstance(value, ErrorValue)
    ]
    assert not wrong, wrong[:10]


@pytest.mark.office
@needs_office
@pytest.mark.parametrize("case", CASES)
def test_every_value_equals_that_of_an_office_suite(case: str) -> None:
    """The office suite is given the file before results are put in, since it would trust them."""
    sheets = CASES[case]()
    ours, theirs = iron(sheets), office(sheets)
    assert ours.keys() == theirs.keys()
    count = 0
    for sheet, cells in ours.items():
        assert cells.keys() == theirs[sheet].keys(), f"{sheet}: formulas got lost"
        for cell, value in cells.items():
            count += 1
            other = theirs[sheet][cell]
            assert is_same(value, other), f"{sheet}!{cell}: we store {value!r}, the office suite computes {other!r}"
    assert count > 2000, "the comparison must not run empty"


def is_same(one: CellValue, other: CellValue) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= 1e-9 * max(1.0, abs(one))
    return one == other
