"""A workbook that LibreOffice has saved, as .xlsx and by way of .ods, comes back with everything typed in it."""

from __future__ import annotations

import json
import random
import subprocess
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from syllabus_io.cli.main import main
from tests.revise.hand import Hand, heading_column, row_of
from tests.revise.test_update import check_kept, first_made, updated
from tests.workbook.term_workbook import soffice

pytestmark = [pytest.mark.office, pytest.mark.skipif(soffice() is None, reason="LibreOffice is not installed")]


def saved_by_office(content: bytes, folder: Path, *formats: str) -> bytes:
    """The file after LibreOffice has saved it in each format in turn."""
    path = folder / "plan.xlsx"
    path.write_bytes(content)
    for number, name in enumerate(formats):
        out = folder / f"step{number}"
        subprocess.run(
            [
                str(soffice()),
                "--headless",
                f"-env:UserInstallation=file://{folder}/profile",
                "--convert-to",
                name,
                "--outdir",
                str(out),
                str(path),
            ],
            check=True,
            capture_output=True,
            timeout=240,
        )
        path = out / f"plan.{name}"
    return path.read_bytes()


@pytest.mark.parametrize("formats", [("xlsx",), ("ods", "xlsx")], ids=["xlsx", "through ods"])
def test_everything_typed_survives_the_other_program(tmp_path: Path, formats: tuple[str, ...]) -> None:
    hand = Hand(first_made(), random.Random(11))
    hand.fill_cells(40)
    hand.add_column()
    hand.add_words_beside()
    hand.add_sheet()
    saved = saved_by_office(hand.saved(), tmp_path, *formats)
    result = updated(saved)
    check_kept(hand, result)
    direct = updated(hand.saved())
    assert len(result.left) == len(direct.left) and len(result.edits.kept) == len(direct.edits.kept)
    assert updated(result.content).content == result.content


def test_exports_agree_with_what_the_sheet_shows_after_the_term_was_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """First day and a week off are typed on Term dates; the workbook recalculated there is held against the export."""
    hand = Hand(first_made(), random.Random(1))
    sheet = hand.book["Term dates"]
    rows = {sheet.cell(at, 1).value: at for at in range(1, 40)}
    sheet.cell(rows["First day"], 2).value = date(2026, 9, 7)
    free = next(at for at in range(rows["Day off"] + 1, 40) if sheet.cell(at, 1).value is None)
    for column, value in enumerate(("Storm week", date(2026, 9, 21), date(2026, 9, 25)), start=1):
        sheet.cell(free, column).value = value
    path = tmp_path / "edited.xlsx"
    path.write_bytes(saved_by_office(hand.saved(), tmp_path, "xlsx"))
    shown: Any = openpyxl.load_workbook(path, data_only=True)["Review"]
    assert main(["export", str(path), "--to", "json"]) == 0
    exported = {item["title"]: item["date"] for item in json.loads(capsys.readouterr().out)["items"]}
    used = heading_column(shown, "Date used")
    for title in ("Essay 1", "Essay 2", "Archive paper", "Midterm"):
        assert shown.cell(row_of(shown, title), used).value.date().isoformat() == exported[title], title
    # By hand: weeks count from 7 September and the week off has no number, so Friday of week 5 is 16 October.
    assert exported["Essay 1"] == "2026-10-16" and exported["Midterm"] == "2026-10-06"


@pytest.mark.parametrize("formats", [("xlsx",), ("ods", "xlsx")], ids=["xlsx", "through ods"])
def test_saving_alone_changes_nothing(tmp_path: Path, formats: tuple[str, ...]) -> None:
    result = updated(saved_by_office(first_made(), tmp_path, *formats))
    found = [(edit.sheet, edit.key, dict(edit.changes)) for edit in result.edits.rows]
    assert not found and not result.edits.kept and not result.edits.loose, (found[:5], result.edits.kept[:5])
