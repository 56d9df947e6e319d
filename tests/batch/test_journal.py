"""The journal survives a crash at any moment and is one batch's own."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from syllabus_io.batch.journal import JOURNAL, Journal
from syllabus_io.batch.records import FileResult, State, WorkResult
from syllabus_io.errors import OutputNotWritable


def result(key: str, items: int = 1) -> WorkResult:
    return WorkResult(key, "Ada \udcff\u202e", (FileResult("a.pdf", State.DONE, "KIT 120", items, 0, 1.5),), "ab")


def test_what_was_added_is_there_in_the_next_run(tmp_path: Path) -> None:
    with Journal(tmp_path / "out") as journal:
        journal.add("m1", result("one"))
        journal.add("m2", result("two", 5))
        journal.add("m3", result("one", 9))
        assert journal.result_of("one") == result("one", 9)
    with Journal(tmp_path / "out") as journal:
        assert journal.keys() == ["one", "two"]
        assert journal.mark_of("one") == "m3" and journal.mark_of("three") is None
        assert list(journal.results(["two", "three", "one"])) == [result("two", 5), result("one", 9)]


@pytest.mark.parametrize("kept", [1, 20, -1])
def test_a_line_cut_short_is_done_again_and_spoils_no_other(tmp_path: Path, kept: int) -> None:
    with Journal(tmp_path) as journal:
        journal.add("m1", result("one"))
        journal.add("m2", result("two"))
    path = tmp_path / JOURNAL
    first, second = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(first + second[:kept] if kept > 0 else first + second.rstrip(b"\n")[:-5])
    with Journal(tmp_path) as journal:
        assert journal.keys() == ["one"]
        journal.add("m3", result("three"))
    with Journal(tmp_path) as journal:
        assert journal.keys() == ["one", "three"]


@pytest.mark.parametrize("line", [b"\xff\xfe\n", b"[]\n", b"{}\n", b'{"key": 5, "mark": 1}\n', b"null\n", b"[[[[\n"])
def test_foreign_lines_are_passed_over(tmp_path: Path, line: bytes) -> None:
    (tmp_path / JOURNAL).write_bytes(line)
    with Journal(tmp_path) as journal:
        assert journal.keys() == []


@pytest.mark.skipif(sys.platform == "win32", reason="this system has other locks")
def test_two_batches_do_not_write_to_one_folder(tmp_path: Path) -> None:
    with Journal(tmp_path), pytest.raises(OutputNotWritable, match="another batch is writing"):
        Journal(tmp_path)
    with Journal(tmp_path):
        pass


def test_a_link_in_the_journal_s_place_is_not_followed(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere.txt"
    elsewhere.write_text("mine", encoding="utf-8")
    out = tmp_path / "out"
    out.mkdir()
    (out / JOURNAL).symlink_to(elsewhere)
    with pytest.raises(OutputNotWritable, match="is a link"):
        Journal(out)
    assert elsewhere.read_text(encoding="utf-8") == "mine"


def test_a_folder_that_cannot_be_made_is_said_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(OutputNotWritable, match="cannot be written"):
        Journal(tmp_path / "file" / "out")
