"""The result table as RFC 4180 has it, read by Python's csv module, with nothing in it that could run."""

from __future__ import annotations

import csv
from pathlib import Path

from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import FileResult, State, WorkResult
from syllabus_io.batch.tables import FAILURES, RESULTS, write_tables


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_file_has_a_row_and_every_failure_its_reason(tmp_path: Path) -> None:
    good = FileResult("a.pdf", State.DONE, "KIT 120", 12, 3, 1.254)
    bad = FileResult("b.pdf", State.UNREAD, fault="the file is empty", remedy="fetch or save the outline again")
    with Journal(tmp_path) as journal:
        journal.add("m", WorkResult("Ben", "Ben", (bad,)))
        journal.add("m", WorkResult("Ada", "Ada", (good, FileResult("Ada.xlsx", State.DONE, "", 12, 3, 9.0))))
        write_tables(tmp_path, journal, ["Ada", "Ben"])
    assert [tuple(row.values()) for row in rows(tmp_path / RESULTS)] == [
        ("Ada", "a.pdf", "KIT 120", "12", "3", "1.25", "done"),
        ("Ada", "Ada.xlsx", "", "12", "3", "9.00", "done"),
        ("Ben", "b.pdf", "", "0", "0", "0.00", "not read"),
    ]
    assert list(rows(tmp_path / RESULTS)[0]) == ["student", "file", "course", "items", "to check", "seconds", "state"]
    (failure,) = rows(tmp_path / FAILURES)
    assert failure["student"] == "Ben" and failure["what is wrong"] == "the file is empty" and failure["what to do"]


def test_names_become_neither_formulas_nor_orders_to_a_terminal(tmp_path: Path) -> None:
    name = '=cmd|" /C calc"!A0\n\x1b[31m\u202e\udcff,"'
    with Journal(tmp_path) as journal:
        journal.add("m", WorkResult(name, name, (FileResult(name, State.UNREAD, name, fault=name, remedy="-1"),)))
        write_tables(tmp_path, journal, [name])
    (result,), (failure,) = rows(tmp_path / RESULTS), rows(tmp_path / FAILURES)
    for cell in (*result.values(), *failure.values()):
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
        assert not {"\x1b", "\u202e", "\udcff"} & set(cell), ascii(cell)
    assert result["student"].startswith("'=cmd")
