"""The binder: cover, contents, dividers and sheets in one PDF; what is said where LibreOffice is missing or hangs."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pdfplumber
import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.workbook import office
from syllabus_io.workbook.binder import BinderOptions, make_binder
from syllabus_io.workbook.binder_pages import part_of
from syllabus_io.workbook.language import find_language
from syllabus_io.workbook.write import WorkbookOptions, write_workbook
from tests.workbook.plans import small_plan
from tests.workbook.sheets import TODAY, needs_office


def test_every_sheet_has_its_part() -> None:
    english, spanish = find_language("en"), find_language("es")
    assert part_of("Start here", english) == ""
    assert part_of("Deadlines", english) == part_of("Entregas", spanish) == "What is due"
    assert part_of("Grades BIO 110", english) == part_of("Grades overview", english) == "Grades"
    assert part_of("Calificaciones BIO 110", spanish) == "Grades"
    assert part_of("A sheet of my own", english) == "Work, weeks and days"


def test_a_missing_program_is_said_in_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(office, "find_office", lambda: None)
    with pytest.raises(BadSetting, match="needs LibreOffice, which was not found on this computer; install it"):
        office.to_pdf([tmp_path / "plan.xlsx"], tmp_path)


@pytest.mark.skipif(sys.platform == "win32", reason="the stand-in for the program is a shell script")
@pytest.mark.parametrize(
    ("script", "words"),
    [("exec sleep 30", "did not finish within 0 seconds"), ("exit 0", "made no PDF"), ("exit 3", "made no PDF")],
    ids=["hangs", "makes nothing", "fails"],
)
def test_a_program_that_fails_is_said_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, script: str, words: str
) -> None:
    program = tmp_path / "soffice"
    program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setattr(office, "find_office", lambda: str(program))
    with pytest.raises(BadSetting, match=words):
        office.to_pdf([tmp_path / "plan.xlsx"], tmp_path, time_limit=0.3)


@pytest.mark.office
@pytest.mark.slow
@needs_office
def test_a_binder_of_two_sheets(tmp_path: Path) -> None:
    path = tmp_path / "plan.xlsx"
    write_workbook(small_plan(), path, WorkbookOptions(paper="a4", student="Rowan Ashby", today=TODAY))
    chosen = ("Term dates", "Grades overview")
    with pdfplumber.open(io.BytesIO(make_binder(path, BinderOptions(chosen, two_sided=True)))) as pdf:
        texts = [page.extract_text() for page in pdf.pages]
        lefts = [min(word["x0"] - page.mediabox[0] for word in page.extract_words()) for page in pdf.pages]
        upright = [page.width < page.height for page in pdf.pages]
    assert "Autumn 2026" in texts[0] and "Rowan Ashby" in texts[0] and "Drawing Studio" in texts[0]
    assert texts[1].startswith("Contents")
    assert "Part 1" in texts[2] and "The term" in texts[2]
    first = next(number for number, text in enumerate(texts) if text.startswith("Term dates"))
    assert f"Page 1 of {len(texts) - 4}" in texts[first], "dividers and front pages are not counted"
    assert "Term dates 1" in texts[1], "the contents say the page"
    assert any("Part 2" in text and "Grades" in text for text in texts)
    assert not any("Timetable" in text.splitlines()[0] for text in texts), "only the sheets that were asked for"
    for number, (left, portrait) in enumerate(zip(lefts, upright, strict=True), start=1):
        if portrait:
            wide = number % 2 == 1
            assert (left >= 70) == wide, f"page {number}: the wide margin is on the other side, {left:.0f} points"
