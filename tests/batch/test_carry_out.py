"""A bad outline costs itself, typed words are kept, and nothing is written outside the output folder."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import openpyxl
import pytest

from syllabus_io.batch import carry_out as module
from syllabus_io.batch.carry_out import carry_out
from syllabus_io.batch.records import BatchSettings, State, Work, WorkResult
from syllabus_io.batch.works import find_works, output_path
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import TermFacts
from syllabus_io.workbook.book import WorkbookOptions
from tests.batch.students import settings_of, write_outline, write_students
from tests.revise.hand import heading_column, row_of


def only_work(settings: BatchSettings) -> Work:
    (work,) = find_works(settings)
    return work


def states(result: WorkResult) -> dict[str, State]:
    return {file.file: file.state for file in result.files}


def test_records_are_those_of_the_outline(tmp_path: Path) -> None:
    settings = settings_of(write_students(tmp_path / "students", 1), tmp_path / "out")
    work = only_work(settings)
    result = carry_out(work, settings)
    (file,) = result.files
    assert (file.state, file.course, file.items, file.file) == (State.DONE, "KIT 00", 1, "course 0.docx")
    records = json.loads(output_path(work, settings).read_text(encoding="utf-8"))
    assert records["items"][0]["date"] == "2026-10-06"


def test_a_bad_outline_costs_itself_alone(tmp_path: Path, drafts: list[str]) -> None:
    folder = tmp_path / "students"
    write_outline(folder / "Ada" / "kites.docx")
    (folder / "Ada" / "damaged.docx").write_bytes(b"PK\x03\x04 and nothing more")
    (folder / "Ada" / "again.docx").write_bytes((folder / "Ada" / "kites.docx").read_bytes())
    settings = settings_of(folder, tmp_path / "out", extract_only=False, pictures=False)
    result = carry_out(only_work(settings), settings)
    assert states(result) == {
        "again.docx": State.DONE,
        "damaged.docx": State.UNREAD,
        "kites.docx": State.SAME,
        "Ada.xlsx": State.DONE,
    }
    assert "damaged" in next(file.fault for file in result.files if file.file == "damaged.docx")
    assert drafts == ["Ada"]


def test_a_student_without_outlines_and_one_with_bad_ones_alone_are_said(tmp_path: Path) -> None:
    folder = tmp_path / "students"
    (folder / "Ada").mkdir(parents=True)
    settings = settings_of(folder, tmp_path / "out", extract_only=False)
    assert carry_out(only_work(settings), settings).files[0].fault == "the folder holds no course outlines"
    (folder / "Ada" / "bad.pdf").write_bytes(b"nothing")
    result = carry_out(only_work(settings), settings)
    assert states(result) == {"bad.pdf": State.UNREAD, "Ada.xlsx": State.UNREAD}
    assert not list(settings.output.glob("*"))


def failing_on(code: str, together: bool = False) -> object:
    """The dating of outlines as if it failed on one course, or on several courses together."""

    def resolve(outlines: Sequence[Outline], facts: TermFacts | None, near: date | None) -> ResolvedTerm:
        if any(outline.course.code == code for outline in outlines) and (not together or len(outlines) > 1):
            raise IndexError("list index out of range")
        return resolve_outlines(outlines, facts, near)

    return resolve


def test_an_outline_on_which_the_program_fails_is_left_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, drafts: list[str]
) -> None:
    folder = tmp_path / "students"
    for name, code in (("a", "KIT 120"), ("b", "SEA 200"), ("c", "LAW 300")):
        write_outline(folder / "Ada" / f"{name}.docx", code)
    settings = settings_of(folder, tmp_path / "out", extract_only=False, pictures=False)
    monkeypatch.setattr(module, "resolve_outlines", failing_on("SEA 200"))
    result = carry_out(only_work(settings), settings)
    assert states(result) == {
        "a.docx": State.DONE, "b.docx": State.UNREAD, "c.docx": State.DONE, "Ada.xlsx": State.DONE,
    }  # fmt: skip
    assert "the program failed on it (IndexError" in result.files[1].fault
    monkeypatch.setattr(module, "resolve_outlines", failing_on("SEA 200", together=True))
    result = carry_out(only_work(settings), settings)
    assert states(result)["Ada.xlsx"] is State.UNWRITTEN
    assert "failed on these outlines together" in result.files[-1].fault


@pytest.fixture
def drafts(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Workbooks made as a few words, which takes a thousandth of the time; the student's name of each."""
    made: list[str] = []

    def make(_: Plan, options: WorkbookOptions) -> bytes:
        made.append(options.student)
        return f"workbook {len(made)}".encode()

    monkeypatch.setattr("syllabus_io.workbook.write.make_workbook", make)
    return made


def test_a_workbook_nobody_typed_in_is_written_anew_without_a_copy(tmp_path: Path, drafts: list[str]) -> None:
    settings = settings_of(write_students(tmp_path / "students", 1), tmp_path / "out", extract_only=False)
    work = only_work(settings)
    first = carry_out(work, settings)
    second = carry_out(replace(work, before=first.written), settings)
    (target,) = settings.output.iterdir()
    assert target.read_bytes() == b"workbook 2" and first.written != second.written
    assert drafts == ["student 000"] * 2


@pytest.mark.slow
def test_what_was_typed_into_a_workbook_is_kept_when_outlines_change(tmp_path: Path) -> None:
    settings = settings_of(
        write_students(tmp_path / "students", 1), tmp_path / "out", extract_only=False, pictures=False
    )
    work = only_work(settings)
    first = carry_out(work, settings)
    target = output_path(work, settings)
    book = openpyxl.load_workbook(target)
    sheet = book["Review"]
    sheet.cell(row_of(sheet, "Essay 1"), heading_column(sheet, "Corrected date"), datetime(2026, 10, 20))  # noqa: DTZ001
    book.save(target)
    write_outline(work.files[0], "KIT 00", day=9)
    result = carry_out(replace(work, before=first.written), settings)
    assert states(result)["student 000.xlsx"] is State.DONE
    sheet = openpyxl.load_workbook(target)["Review"]
    corrected = sheet.cell(row_of(sheet, "Essay 1"), heading_column(sheet, "Corrected date")).value
    assert str(corrected).startswith("2026-10-20")
    assert len(list(settings.output.glob("*before-update-1*"))) == 1, "the version before stays beside it"


def test_a_file_that_is_no_plan_is_left_alone(tmp_path: Path) -> None:
    settings = settings_of(write_students(tmp_path / "students", 1), tmp_path / "out", extract_only=False)
    settings.output.mkdir()
    target = settings.output / "student 000.xlsx"
    target.write_bytes(b"somebody's own")
    result = carry_out(only_work(settings), settings)
    assert states(result)["student 000.xlsx"] is State.UNWRITTEN
    assert target.read_bytes() == b"somebody's own"


@pytest.mark.parametrize("extract_only", [True, False])
def test_links_in_the_output_folder_lead_nowhere(tmp_path: Path, extract_only: bool) -> None:
    settings = settings_of(write_students(tmp_path / "students", 1), tmp_path / "out", extract_only=extract_only)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "precious.xlsx").write_bytes(b"precious")
    settings.output.mkdir()
    (settings.output / "student 000").symlink_to(elsewhere)
    (settings.output / "student 000.xlsx").symlink_to(elsewhere / "precious.xlsx")
    result = carry_out(only_work(settings), settings)
    assert result.has_failed and "leads elsewhere" in result.files[-1].fault
    assert [path.name for path in elsewhere.iterdir()] == ["precious.xlsx"]
    assert (elsewhere / "precious.xlsx").read_bytes() == b"precious"
