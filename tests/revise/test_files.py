"""The workbook's file is never half written, never lost, and refused in one line when it may not be changed."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import pytest

from syllabus_io.errors import OutputNotWritable, WorkbookMismatch
from syllabus_io.revise.files import (
    KEPT_VERSIONS,
    earlier_versions,
    open_workbook_file,
    replace_file,
    restore_earlier,
)


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


@pytest.mark.slow
def test_three_hundred_kills_leave_a_whole_workbook(tmp_path: Path) -> None:
    kill_at_random(tmp_path, 300, 2)
