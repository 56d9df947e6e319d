"""The workbook's file is never half written, never lost, and refused in one line when it may not be changed."""

from __future__ import annotations

import functools
import io
import os
import random
import signal
import subprocess
import sys
import time
import zipfile
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from syllabus_io.errors import OutputNotWritable, WorkbookMismatch
from syllabus_io.revise.files import (
    KEPT_VERSIONS,
    earlier_versions,
    open_workbook_file,
    replace_file,
    restore_earlier,
)
from syllabus_io.workbook.write import WorkbookOptions, make_workbook
from tests.workbook.plans import small_plan


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.xlsx"
    path.write_bytes(b"first")
    return path


def replace(path: Path, content: bytes) -> Path:
    return replace_file(open_workbook_file(path), content)


def test_the_earlier_version_is_kept_and_comes_back(plan: Path) -> None:
    kept = replace(plan, b"second")
    assert (plan.read_bytes(), kept.read_bytes()) == (b"second", b"first")
    version, undone = restore_earlier(plan)
    assert version == kept and plan.read_bytes() == b"first" and undone.read_bytes() == b"second"
    assert not earlier_versions(plan)
    with pytest.raises(WorkbookMismatch, match="no earlier version"):
        restore_earlier(plan)


def test_only_a_few_earlier_versions_are_kept_the_newest(plan: Path) -> None:
    for number in range(KEPT_VERSIONS + 3):
        replace(plan, f"version {number}".encode())
    versions = earlier_versions(plan)
    assert len(versions) == KEPT_VERSIONS
    assert [one.read_bytes() for one in versions][:2] == [b"version 6", b"version 5"]


@pytest.mark.parametrize("lock", ["~$plan.xlsx", ".~lock.plan.xlsx#"])
def test_a_workbook_open_elsewhere_is_left_alone(plan: Path, lock: str) -> None:
    plan.with_name(lock).write_text("somebody", encoding="utf-8")
    with pytest.raises(OutputNotWritable, match="is open in another program; save and close it"):
        open_workbook_file(plan)
    assert open_workbook_file(plan, to_change=False).content == b"first"


def test_a_read_only_workbook_is_left_alone(plan: Path) -> None:
    plan.chmod(0o444)
    with pytest.raises(OutputNotWritable, match="is read-only"):
        open_workbook_file(plan)


def test_a_read_only_folder_is_named(plan: Path) -> None:
    plan.parent.chmod(0o555)
    try:
        with pytest.raises(OutputNotWritable, match="its folder is read-only"):
            open_workbook_file(plan)
    finally:
        plan.parent.chmod(0o755)


def test_a_workbook_changed_meanwhile_is_left_alone(plan: Path) -> None:
    file = open_workbook_file(plan)
    plan.write_bytes(b"saved by another program")
    with pytest.raises(OutputNotWritable, match="was changed by another program meanwhile"):
        replace_file(file, b"ours")
    assert plan.read_bytes() == b"saved by another program"


def test_a_folder_that_is_gone_is_said_in_one_line(plan: Path) -> None:
    file = open_workbook_file(plan)
    plan.unlink()
    plan.parent.rmdir()
    with pytest.raises(OutputNotWritable, match="is gone or cannot be read any more"):
        replace_file(file, b"ours")


def test_a_full_disk_leaves_the_old_file_and_no_litter(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    file = open_workbook_file(plan)
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputNotWritable, match="no space left on device"):
        replace_file(file, b"ours")
    assert [one.name for one in plan.parent.iterdir()] == ["plan.xlsx"] and plan.read_bytes() == b"first"


@pytest.mark.parametrize(("name", "words"), [("none.xlsx", "is not there"), ("plan.ods", "save it as .xlsx first")])
def test_what_is_no_workbook_is_said(tmp_path: Path, name: str, words: str) -> None:
    if name.endswith(".ods"):
        (tmp_path / name).touch()
    with pytest.raises(WorkbookMismatch, match=words):
        open_workbook_file(tmp_path / name)


@functools.cache
def with_a_note() -> bytes:
    """A small workbook with one note typed into it."""
    book = openpyxl.load_workbook(io.BytesIO(make_workbook(small_plan(), WorkbookOptions(today=date(2026, 9, 28)))))
    cells: Any = book["Notes"].iter_rows()
    (*_, last) = (
        cell for line in cells for cell in line if type(cell).__name__ == "Cell" and not cell.protection.locked
    )
    last.value = "a note of mine"
    packed = io.BytesIO()
    book.save(packed)
    return packed.getvalue()


def test_a_disk_that_is_full_from_the_start_is_said_in_one_line(tmp_path: Path) -> None:
    """No file may grow beyond a thousand bytes, temporary ones included, as on a disk without room."""
    path = tmp_path / "plan.xlsx"
    path.write_bytes(with_a_note())
    limited = (
        "import resource, sys; from syllabus_io.cli.main import main; "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000)); sys.exit(main(['update', sys.argv[1]]))"
    )
    ran = subprocess.run([sys.executable, "-c", limited, str(path)], capture_output=True, text=True, timeout=300)
    assert ran.returncode == 2, ran.stderr
    assert ran.stderr.count("\n") == 1 and "make room on the disk" in ran.stderr, ran.stderr
    assert path.read_bytes() == with_a_note() and [one.name for one in tmp_path.iterdir()] == ["plan.xlsx"]


_WRITE_FOREVER = """
import sys
from pathlib import Path
from syllabus_io.revise.files import open_workbook_file, replace_file
path, number = Path(sys.argv[1]), 0
print("ready", flush=True)
while True:
    number += 1
    content = Path(sys.argv[2 + number % 2]).read_bytes()
    replace_file(open_workbook_file(path), content)
"""


def kill_at_random(folder: Path, times: int, seed: int) -> None:
    """Two whole archives take turns under one name; the writer is killed at random moments."""
    versions = []
    for number in (1, 2):
        version = folder / f"version{number}.zip"
        with zipfile.ZipFile(version, "w") as archive:
            archive.writestr("part", os.urandom(200_000 * number))
        versions.append(version)
    path = folder / "plan.xlsx"
    path.write_bytes(versions[0].read_bytes())
    whole = {version.read_bytes() for version in versions}
    dice = random.Random(seed)
    for _ in range(times):
        writer = subprocess.Popen(
            [sys.executable, "-c", _WRITE_FOREVER, str(path), *map(str, versions)], stdout=subprocess.PIPE
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(dice.random() * 0.08)
        writer.send_signal(signal.SIGKILL)
        writer.wait()
        writer.stdout.close()
        assert path.read_bytes() in whole, "the workbook was left half written"
        for kept in earlier_versions(path):
            assert kept.read_bytes() in whole, "an earlier version was left half written"


def test_a_kill_at_any_moment_leaves_a_whole_workbook(tmp_path: Path) -> None:
    kill_at_random(tmp_path, 6, 1)


_UPDATE_UNDER_FIRE = """
import os, random, signal, sys, time
from pathlib import Path
from syllabus_io.cli.main import main
from syllabus_io.cli.reading import load_writing
load_writing()
path, times, dice = Path(sys.argv[1]), int(sys.argv[2]), random.Random(3)
old, started = path.read_bytes(), time.monotonic()
main(["update", str(path), "-q"])
new, took = path.read_bytes(), time.monotonic() - started
assert new != old
ends = {old: 0, new: 0}
for _ in range(times):
    for one in path.parent.iterdir():
        one.unlink()
    path.write_bytes(old)
    child = os.fork()
    if child == 0:
        main(["update", str(path), "-q"])
        os._exit(0)
    time.sleep(dice.random() * took * 1.2)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    ends[path.read_bytes()] += 1  # a KeyError: neither the old nor the new one
    for kept in path.parent.glob("*.before-update-*"):
        assert kept.read_bytes() == old, "an earlier version was left half written"
print("old", ends[old], "new", ends[new])
"""


@pytest.mark.slow
def test_kills_during_whole_updates_leave_the_old_or_the_new_workbook(tmp_path: Path) -> None:
    path = tmp_path / "plan.xlsx"
    path.write_bytes(with_a_note())
    ran = subprocess.run(
        [sys.executable, "-c", _UPDATE_UNDER_FIRE, str(path), "60"], capture_output=True, text=True, timeout=1800
    )
    assert ran.returncode == 0, ran.stderr[-2000:]
    counts = dict(zip(*[iter(ran.stdout.split())] * 2, strict=True))
    assert int(counts["old"]) + int(counts["new"]) == 60 and int(counts["old"]) > 0, ran.stdout


@pytest.mark.slow
def test_three_hundred_kills_leave_a_whole_workbook(tmp_path: Path) -> None:
    kill_at_random(tmp_path, 300, 2)
