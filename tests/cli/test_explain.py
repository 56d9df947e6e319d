"""``extract --explain``: where everything was read, by what, and what was left out."""

from __future__ import annotations

from pathlib import Path

import pytest
from docx import Document

from syllabus_io.cli.main import main


@pytest.fixture
def outline(tmp_path: Path) -> Path:
    """An invented outline in Word with a little of everything."""
    document = Document()
    document.add_paragraph("GEOL 210: Rivers and Ice, Autumn 2026")
    document.add_paragraph("Midterm (40%) on Wednesday, October 14. Final essay (60%), due December 2 at noon.")
    document.add_paragraph("Late essays are accepted until December 4. No class on November 25.")
    document.save(str(tmp_path / "rivers.docx"))
    return tmp_path / "rivers.docx"


def explained(outline: Path, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["extract", str(outline), "--explain"]) == 0
    return capsys.readouterr().out


def test_an_item_shows_its_place_words_reading_and_certainty(outline: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = explained(outline, capsys)
    item = out[out.index("Wed 14 Oct 2026") : out.index("Wed 2 Dec 2026")]
    assert "exam: Midterm, 40 %" in item
    assert "where    page 1, paragraph 2" in item or "where    paragraph 2" in item
    assert "words    “on Wednesday, October 14”" in item or "words    “Wednesday, October 14”" in item
    assert "read as  month_day(10, 14, WE), by" in item
    assert "certain  stated: day and month are written" in item


def test_what_was_left_out_says_why(outline: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = explained(outline, capsys)
    assert "Dates that were left out (1)" in out
    left = out[out.index("Dates that were left out") :]
    assert "December 4" in left
    assert "(“Late”)" in left


def test_days_off_and_grading_show_their_places(outline: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = explained(outline, capsys)
    assert "Days off (1)" in out
    assert "Midterm: 40 %" in out


def test_a_file_that_is_no_outline_is_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "broken.pdf").write_bytes(b"no pdf at all")
    assert main(["extract", str(tmp_path / "broken.pdf"), "--explain"]) == 2
    assert capsys.readouterr().err.count("\n") == 1
