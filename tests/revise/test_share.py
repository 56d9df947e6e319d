"""A shared copy holds nothing private in any of its parts; check and import do what they say."""

from __future__ import annotations

import functools
import io
import json
import random
import zipfile
from datetime import date, datetime
from pathlib import Path

import openpyxl
import pytest

from syllabus_io.cli.main import main
from syllabus_io.errors import BadSetting
from syllabus_io.export.icalendar_out import plan_to_icalendar
from syllabus_io.revise.share import share_workbook
from syllabus_io.revise.take_days_off import read_days_off
from tests.export.standing import standing
from tests.export.test_icalendar_out import STAMP
from tests.revise.hand import Hand, heading_column, row_of
from tests.revise.test_update import first_made

TODAY = date(2026, 9, 28)
PATH = Path("plan.xlsx")


@functools.cache
def typed_in() -> tuple[bytes, tuple[str, ...]]:
    """A workbook in which private words stand everywhere, and the words."""
    hand = Hand(first_made(), random.Random(3))
    words: list[str] = []
    for sheet in hand.book.worksheets:
        if sheet.sheet_state != "visible" or sheet.title in ("Review", "Term dates", "Deadlines", "Start here"):
            continue
        cells = [
            cell
            for line in sheet.iter_rows()
            for cell in line
            if getattr(cell, "protection", None) and cell.protection.locked is False
        ]
        for cell in cells[-12:]:
            if type(cell).__name__ == "Cell":
                words.append(f"private{len(words)}x")
                cell.value = words[-1]
    review = hand.book["Review"]
    review.cell(row_of(review, "Essay 2"), heading_column(review, "Corrected date")).value = date(2026, 11, 9)
    review.cell(row_of(review, "Essay 2"), heading_column(review, "Done")).value = "privatedone"
    review.cell(9, review.max_column + 2).value = "privatebeside"
    own = hand.book.create_sheet("privatesheet")
    own["A1"] = "privateown"
    hand.book.properties.creator = hand.book.properties.lastModifiedBy = "privateauthor"
    words += ["privatedone", "privatebeside", "privatesheet", "privateown", "privateauthor", "Ines Quill"]
    return hand.saved(), tuple(words)


@functools.cache
def shared_copy() -> bytes:
    return share_workbook(PATH, typed_in()[0], today=TODAY)


def every_part(content: bytes) -> str:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return "\n".join(archive.read(name).decode("utf-8", "replace") for name in archive.namelist())


def test_a_shared_copy_holds_nothing_private_in_any_part_of_the_file() -> None:
    content, words = typed_in()
    before, after = every_part(content), every_part(shared_copy())
    for word in words:
        assert word in before, f"the test typed {word} nowhere"
        assert word not in after, f"{word} is in the shared copy"


def test_a_shared_copy_keeps_corrections_and_its_formulas_are_computed() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(shared_copy()), data_only=True)["Review"]
    at = row_of(sheet, "Essay 2")
    used = sheet.cell(at, heading_column(sheet, "Date used")).value
    assert isinstance(used, datetime) and used.date() == date(2026, 11, 9)


@pytest.mark.slow
def test_what_is_private_can_be_chosen() -> None:
    content, _ = typed_in()
    assert "Ines Quill" in every_part(share_workbook(PATH, content, keep=("name",), today=TODAY))
    with pytest.raises(BadSetting, match="is no private part; choose from marks"):
        share_workbook(PATH, content, keep=("grades",))


def test_check_lists_what_is_open_and_says_so_by_its_status(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.xlsx"
    hand = Hand(first_made(), random.Random(1))
    review = hand.book["Review"]
    review.cell(row_of(review, "Essay 1"), heading_column(review, "Corrected date")).value = "after the break"
    path.write_bytes(hand.saved())
    assert main(["check", str(path), "--json", "-"]) == 1
    (workbook,) = json.loads(capsys.readouterr().out)["workbooks"]
    texts = [one["text"] for one in workbook["open"]]
    assert any("Map test" in text and "day off" in text for text in texts)
    assert any("Letters of a harbour pilot" in text for text in texts)
    assert any("Essay 1" in text and "“after the break” was typed as its corrected date" in text for text in texts)


def test_days_off_are_taken_from_a_calendar_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, days = tmp_path / "plan.xlsx", tmp_path / "school.csv"
    path.write_bytes(first_made())
    days.write_text("Name,First day,Last day\nFair,2026-10-01,2026-10-02\nOld fair,2025-10-01,\n", encoding="utf-8")
    assert main(["import", str(path), str(days)]) == 0
    assert "1 day off added" in capsys.readouterr().out
    held = {
        cell.value
        for line in openpyxl.load_workbook(path)["Term dates"].iter_rows()
        for cell in line
        if isinstance(cell.value, str)
    }
    assert {"Fair", "school.csv"} <= held and "Old fair" not in held


def test_days_off_are_read_from_icalendar_with_their_last_day(tmp_path: Path) -> None:
    """RFC 5545, section 3.6.1: DTEND of whole days is the day after the last."""
    path = tmp_path / "school.ics"
    path.write_bytes(plan_to_icalendar(standing(), STAMP))
    taken = read_days_off(path)
    assert [(off.name, off.first_day, off.last_day) for off in taken.days][1] == (
        "Autumn break",
        date(2026, 10, 15),
        date(2026, 10, 16),
    )
    assert taken.timed == 2


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a,b\n1,2\n", "has no columns for a name and a first day"),
        ("name,date\nFair,10/12/2026\n", "line 2 has no date: '10/12/2026'; write dates like 2026-10-06"),
        ("name,from,to\nFair,2026-10-02,2026-10-01\n", "line 2 ends before it begins"),
    ],
)
def test_a_calendar_that_cannot_be_read_is_said_in_one_line(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "school.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadSetting, match=words.replace("(", r"\(")):
        read_days_off(path)
