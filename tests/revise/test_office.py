"""A workbook that LibreOffice has saved, as .xlsx and by way of .ods, comes back with everything typed in it."""

from __future__ import annotations

import random
import subprocess
from pathlib import Path

import pytest

from tests.revise.hand import Hand
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


@pytest.mark.parametrize("formats", [("xlsx",), ("ods", "xlsx")], ids=["xlsx", "through ods"])
def test_saving_alone_changes_nothing(tmp_path: Path, formats: tuple[str, ...]) -> None:
    result = updated(saved_by_office(first_made(), tmp_path, *formats))
    found = [(edit.sheet, edit.key, dict(edit.changes)) for edit in result.edits.rows]
    assert not found and not result.edits.kept and not result.edits.loose, (found[:5], result.edits.kept[:5])
