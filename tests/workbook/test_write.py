"""The file as a whole: the same bytes for the same plan, whole or not at all, and readable by others."""

from __future__ import annotations

import io
import os
import re
import zipfile
from datetime import date
from pathlib import Path

import openpyxl
import pytest
import python_calamine

from syllabus_io.errors import BadSetting, OutputNotWritable
from syllabus_io.workbook.course_dates import CourseDates
from syllabus_io.workbook.layout import DEADLINES, DEADLINES_TABLE, REVIEW, REVIEW_TABLE
from syllabus_io.workbook.write import WorkbookOptions, collect_workbook, make_workbook, write_workbook
from tests.workbook.plans import small_plan, usual_plan

OPTIONS = WorkbookOptions(today=date(2026, 9, 28))


@pytest.fixture(scope="module")
def content() -> bytes:
    return make_workbook(usual_plan(), OPTIONS)


def test_the_same_plan_gives_the_same_bytes(content: bytes) -> None:
    assert make_workbook(usual_plan(), OPTIONS) == content


def test_a_program_that_does_not_compute_reads_deadlines_right(content: bytes) -> None:
    plan = usual_plan()
    rows = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_name(DEADLINES).to_python()
    columns = {column.heading: number for number, column in enumerate(DEADLINES_TABLE.columns)}
    body = [row for row in rows[DEADLINES_TABLE.heading_row :] if row[columns["What"]]]
    read = [
        (row[columns["Due"]], row[columns["Course"]], row[columns["What"]], row[columns["Days left"]]) for row in body
    ]
    expected = [
        (entry.item.date, entry.course, entry.item.title, (entry.item.date - date(2026, 9, 28)).days)
        for entry in plan.entries
        if entry.item.date
    ]
    assert sorted(read) == sorted(expected)
    assert [row[0] for row in read] == sorted(row[0] for row in read)


def test_every_formula_cell_holds_a_result(content: bytes) -> None:
    formulas = openpyxl.load_workbook(io.BytesIO(content))
    results = openpyxl.load_workbook(io.BytesIO(content), data_only=True)
    parts = zipfile.ZipFile(io.BytesIO(content))
    for number, sheet in enumerate(formulas.worksheets, start=1):
        xml = parts.read(f"xl/worksheets/sheet{number}.xml").decode()
        assert len(re.findall(r"<f[ />]", xml)) == len(re.findall(r"(?:</f>|<f [^>]*/>)<v", xml)), (
            f"{sheet.title} has formulas without a result"
        )
        for row in sheet.iter_rows():
            for cell in row:
                shown = results[sheet.title][cell.coordinate].value
                assert not str(shown).startswith("#"), f"{sheet.title}!{cell.coordinate} shows {shown}"


def test_results_are_put_in_and_nothing_else_changes(content: bytes) -> None:
    before = zipfile.ZipFile(io.BytesIO(collect_workbook(usual_plan(), OPTIONS)))
    after = zipfile.ZipFile(io.BytesIO(content))
    assert before.namelist() == after.namelist()
    for name in before.namelist():
        if not name.startswith("xl/worksheets/sheet"):
            assert before.read(name) == after.read(name), f"{name} changed"
    assert {entry.date_time for entry in after.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_a_formula_that_strays_is_replaced_by_the_date_that_was_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(CourseDates, "first_formula", lambda *_: "DATE(2020,1,1)")
    results = openpyxl.load_workbook(io.BytesIO(make_workbook(usual_plan(), OPTIONS)), data_only=True)[REVIEW]
    read, letter = REVIEW_TABLE.letter("read"), REVIEW_TABLE.letter("id")
    shown = {
        results[f"{letter}{row}"].value: results[f"{read}{row}"].value
        for row in range(7, results.max_row)
        if results[f"{read}{row}"].value
    }
    for entry in usual_plan().entries:
        if entry.item.date:
            assert shown[entry.item.id].date() == entry.item.date, entry.item.title


def test_writing_replaces_the_file_in_one_step(tmp_path: Path) -> None:
    path = tmp_path / "plan.xlsx"
    path.write_bytes(b"earlier")
    path.chmod(0o640)
    write_workbook(small_plan(), path, OPTIONS)
    assert zipfile.is_zipfile(path)
    assert path.stat().st_mode & 0o777 == 0o640
    assert [other.name for other in tmp_path.iterdir()] == ["plan.xlsx"], "nothing half-written is left behind"


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_folder_that_cannot_be_written_is_said_to_be_so(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(OutputNotWritable, match="cannot be written"):
            write_workbook(small_plan(), tmp_path / "plan.xlsx", OPTIONS)
    finally:
        tmp_path.chmod(0o700)


def test_a_place_that_is_no_file_keeps_what_was_there(tmp_path: Path) -> None:
    (tmp_path / "plan.xlsx").mkdir()
    with pytest.raises(OutputNotWritable, match="cannot be written"):
        write_workbook(small_plan(), tmp_path / "plan.xlsx", OPTIONS)
    assert [other.name for other in tmp_path.iterdir()] == ["plan.xlsx"]
    with pytest.raises(OutputNotWritable, match="no such file"):
        write_workbook(small_plan(), tmp_path / "missing" / "plan.xlsx", OPTIONS)


def test_a_look_that_does_not_exist_is_named_with_the_choices() -> None:
    with pytest.raises(BadSetting, match=r"clear .* or plain"):
        make_workbook(small_plan(), WorkbookOptions(look="glitter"))


@pytest.mark.parametrize(("paper", "size"), [("a4", 9), ("letter", 1)])  # ECMA-376 part 1, 18.3.1.63: paperSize
def test_every_visible_sheet_is_set_up_for_print(paper: str, size: int) -> None:
    options = WorkbookOptions(paper=paper, today=date(2026, 9, 28))  # type: ignore[arg-type]  # both are papers
    book = openpyxl.load_workbook(io.BytesIO(collect_workbook(usual_plan(), options)))
    for sheet in book:
        if sheet.sheet_state != "visible":
            continue
        assert sheet.page_setup.paperSize == size, sheet.title
        fit, footer = sheet.sheet_properties.pageSetUpPr, sheet.oddFooter
        fitted = fit and fit.fitToPage and sheet.page_setup.fitToWidth == 1
        # A page with breaks of its own has a scale instead: some programs pass over breaks under fit-to-page.
        assert fitted or 50 <= (sheet.page_setup.scale or 0) <= 400, sheet.title
        landscape = sheet.page_setup.orientation == "landscape"
        punched = sheet.page_margins.top if landscape else sheet.page_margins.left
        # Holes after ISO 838 (from memory) lie 12 mm from the edge and are 6 mm wide: they reach 0.6 in.
        assert punched >= 0.9, f"{sheet.title}: the punched side needs room"
        assert sheet.page_margins.header >= 0.5
        assert footer and (footer.left.text, footer.right.text) == ("&A", "Page &P of &N"), sheet.title
        assert sheet.print_area, sheet.title
    assert book[REVIEW].print_title_rows and book[DEADLINES].print_title_rows
