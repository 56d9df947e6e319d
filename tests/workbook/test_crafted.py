"""Workbooks made to exhaust or mislead: each is read back or refused with one line, in bounded time and memory."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest

from syllabus_io.cli.workbooks import find_workbooks
from syllabus_io.errors import WorkbookMismatch
from syllabus_io.workbook.read import read_workbook
from tests.fuzz.originals import workbook_original
from tests.workbook.crafted import (
    CRAFTED,
    blank_cells,
    far_cell,
    outside_entity,
    unknown_format,
    unknown_style,
    unpacks_to_far_more,
)

PATH = Path("plan.xlsx")
MOST_SECONDS = 20.0
"""Of computing; a sound workbook takes about one."""


@pytest.mark.parametrize("make", CRAFTED, ids=lambda make: make.__name__)
def test_a_crafted_workbook_is_read_or_refused_in_bounded_time(make: Callable[[bytes], bytes]) -> None:
    content = make(workbook_original())
    began = time.process_time()
    try:
        read_workbook(PATH, content)
    except WorkbookMismatch as fault:
        assert fault.remedy and "\n" not in str(fault)
    assert time.process_time() - began < MOST_SECONDS


@pytest.mark.parametrize("make", [blank_cells, unpacks_to_far_more])
def test_what_is_far_too_large_is_said(make: Callable[[bytes], bytes]) -> None:
    with pytest.raises(WorkbookMismatch, match="far too large"):
        read_workbook(PATH, make(workbook_original()))


def test_a_far_cell_makes_no_rows_up_to_it() -> None:
    read = read_workbook(PATH, far_cell(workbook_original()))
    assert read.store.resolved.courses


def test_the_words_of_another_file_are_not_read(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("the words of another file", encoding="utf-8")
    try:
        read = read_workbook(PATH, outside_entity(workbook_original(), str(secret)))
    except WorkbookMismatch:
        return
    assert "another file" not in repr(read.edits)


def test_a_style_that_names_what_is_not_there_is_said() -> None:
    with pytest.raises(WorkbookMismatch, match="cannot be read as a workbook"):
        read_workbook(PATH, unknown_format(workbook_original()))


def test_what_a_library_prints_does_not_reach_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(WorkbookMismatch, match="cannot be read as a workbook"):
        read_workbook(PATH, unknown_style(workbook_original()))
    assert capsys.readouterr() == ("", "")


def test_a_folder_with_a_bomb_among_its_workbooks_is_searched(tmp_path: Path) -> None:
    (tmp_path / "bomb.xlsx").write_bytes(b"PK\x03\x04 and nothing more")
    (tmp_path / "plan.xlsx").write_bytes(workbook_original())
    found = find_workbooks(tmp_path)
    assert found == (tmp_path / "bomb.xlsx", tmp_path / "plan.xlsx"), (
        "one that cannot be opened is named, not passed over"
    )
