"""The copy that is printed: which sheets, and how far lists reach after rows were added."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from syllabus_io.errors import BadSetting, WorkbookMismatch
from syllabus_io.workbook.language import find_language
from syllabus_io.workbook.layout import DEADLINES, EXAMS, REVIEW, REVIEW_TABLE, START
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.print_copy import PrintFacts, choose_sheets, print_copy, read_print_facts
from tests.workbook.plans import small_plan
from tests.workbook.sheets import Sheets, iron

SHEETS = ("Start here", "Deadlines", "Grades overview", "Grades BIO 110")
FACTS = PrintFacts("Autumn", "", (), SHEETS, {}, find_language("en"))


def test_sheets_are_chosen_by_name_or_first_word() -> None:
    assert choose_sheets((), FACTS) == SHEETS
    assert choose_sheets(("deadlines",), FACTS) == ("Deadlines",)
    assert choose_sheets(("Grades", "start here"), FACTS) == ("Start here", "Grades overview", "Grades BIO 110")


def test_an_unknown_sheet_is_refused_with_the_choices() -> None:
    with pytest.raises(BadSetting, match=r"'Dead'.*no such sheet.*Deadlines"):
        choose_sheets(("Dead",), FACTS)


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workbook with one item and twelve rows typed by hand, computed and saved."""
    sheets = Sheets.of(small_plan(), student="Rowan Ashby")
    for number in range(12):
        sheets.add_review_row(
            course="Drawing Studio", kind="project", title=f"Sketch {number}", corrected=date(2026, 10, 5)
        )
    path = tmp_path_factory.mktemp("saved") / "plan.xlsx"
    path.write_bytes(pack_workbook(openpyxl.load_workbook(io.BytesIO(sheets.packed())), iron(sheets)))
    return path


def test_facts_are_read_from_the_saved_file(saved: Path) -> None:
    facts = read_print_facts(saved)
    assert (facts.term, facts.student, facts.courses) == ("Autumn 2026", "Rowan Ashby", ("Drawing Studio",))
    assert facts.sheets[0] == START and "Days" not in facts.sheets
    assert facts.filled[REVIEW] == REVIEW_TABLE.heading_row + 13, "one row read and twelve typed"
    assert facts.filled[DEADLINES] > facts.filled[EXAMS] - 6, "exams are none"


def test_other_sheets_are_hidden_and_lists_reach_to_their_last_row(saved: Path) -> None:
    copied = openpyxl.load_workbook(io.BytesIO(print_copy(saved.read_bytes(), {DEADLINES, REVIEW}, {REVIEW: 400})))
    shown = [sheet.title for sheet in copied.worksheets if sheet.sheet_state == "visible"]
    assert shown == [REVIEW, DEADLINES] and copied.active is not None and copied.active.title == REVIEW
    assert copied[REVIEW].print_area.endswith("$400")
    assert copied[DEADLINES].print_area == openpyxl.load_workbook(saved)[DEADLINES].print_area
    assert not copied[START].print_area, "a hidden sheet with a print area would be printed"


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 no archive", b"plain words"], ids=["empty", "broken", "text"])
def test_what_is_no_workbook_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "plan.xlsx"
    path.write_bytes(content)
    with pytest.raises(WorkbookMismatch, match="is no workbook"):
        read_print_facts(path)


def test_another_programs_workbook_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.xlsx"
    openpyxl.Workbook().save(path)
    with pytest.raises(WorkbookMismatch, match="was not made by this program"):
        read_print_facts(path)
    with pytest.raises(WorkbookMismatch, match="does not exist"):
        read_print_facts(tmp_path / "missing.xlsx")
