"""A folder with a workbook for each student: every one is dealt with, and one table says how it went."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from syllabus_io.cli.main import main
from tests.revise.test_files import with_a_note


def with_a_row(title: str) -> bytes:
    """The same workbook with a row on Review that has no date, which is something to look at."""
    book = openpyxl.load_workbook(io.BytesIO(with_a_note()))
    sheet: Any = book["Review"]
    columns = {cell.value: cell.column for cell in sheet[6]}
    at = next(at for at in range(7, sheet.max_row) if sheet.cell(at, 1).value == "own-001")
    sheet.cell(at, columns["What"]).value = title
    sheet.cell(at, columns["Kind"]).value = "assignment"
    packed = io.BytesIO()
    book.save(packed)
    return packed.getvalue()


@pytest.fixture(scope="module")
def contents() -> dict[str, bytes]:
    return {"ada.xlsx": with_a_note(), "ben.xlsx": with_a_row("Model of a bridge"), "cy.xlsx": with_a_note()[:9000]}


@pytest.fixture
def folder(tmp_path: Path, contents: dict[str, bytes]) -> Path:
    for name, content in contents.items():
        (tmp_path / name).write_bytes(content)
    (tmp_path / "ada.before-update-1.xlsx").write_bytes(contents["ada.xlsx"])
    (tmp_path / "~$ben.xlsx").write_bytes(b"ben's computer")
    (tmp_path / "letter.docx").write_bytes(b"no workbook")
    return tmp_path


def test_update_deals_with_each_and_says_so_in_one_table(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["update", str(folder)]) == 2, "one of them is open elsewhere"
    said = capsys.readouterr()
    table = said.out.splitlines()
    assert [line.split()[0] for line in table] == ["Workbook", "ada.xlsx", "ben.xlsx", "cy.xlsx"]
    assert table[1].split()[1:] == ["1", "0", "0", "0"]
    assert "not written: is open in another program" in table[2]
    assert "not written: is no workbook in the .xlsx format" in table[3]
    assert said.err.count("\n") == 2 and "ben.xlsx" in said.err and "cy.xlsx" in said.err
    assert (folder / "ada.before-update-2.xlsx").exists() and not list(folder.glob("ben.before*"))


def test_check_counts_what_is_open_in_each(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(folder), "--json", "-"]) == 2
    said = capsys.readouterr()
    found = {Path(one["workbook"]).name: one for one in json.loads(said.out)["workbooks"]}
    assert list(found) == ["ada.xlsx", "ben.xlsx", "cy.xlsx"]
    assert any("Model of a bridge" in one["text"] for one in found["ben.xlsx"]["open"])
    assert not any("Model of a bridge" in one["text"] for one in found["ada.xlsx"]["open"])
    assert "cy.xlsx" in found["cy.xlsx"]["fault"]


def test_a_folder_without_plans_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path)]) == 2
    assert "holds no plan; name the folder that holds the workbooks" in capsys.readouterr().err
