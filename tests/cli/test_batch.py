"""``batch`` from the command line: what it prints, its exit status, and going on after a stop."""

from __future__ import annotations

import csv
import io
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from syllabus_io.batch.journal import JOURNAL
from syllabus_io.batch.run import Progress
from syllabus_io.cli.batch import progress_of
from syllabus_io.cli.main import main
from tests.batch.students import write_students

ROOT = Path(__file__).parents[2]
TERM = '[term]\nname = "Autumn 2026"\nfirst_day = 2026-08-31\nlast_day = 2026-12-11\n'


def states(out: Path) -> list[str]:
    with (out / "results.csv").open(encoding="utf-8", newline="") as file:
        return [row["state"] for row in csv.DictReader(file)]


def test_records_of_all_outlines_and_then_nothing_left_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, out = write_students(tmp_path / "students", 3), tmp_path / "out"
    (folder / "student 001" / "bad.pdf").write_bytes(b"nothing")
    (tmp_path / "term.toml").write_text(TERM, encoding="utf-8")
    arguments = ["batch", str(folder), "-o", str(out), "--term", str(tmp_path / "term.toml"), "--extract-only"]
    assert main([*arguments, "--workers", "1"]) == 2
    said = capsys.readouterr()
    assert "4 outlines done: 3 items, 0 to check" in said.out and "1 outline with failures" in said.out
    assert said.err.splitlines()[-1] == "4 of 4 done, 1 with failures"
    assert states(out) == ["done", "not read", "done", "done"]
    assert "bad.pdf" in (out / "failures.csv").read_text(encoding="utf-8")
    before = {path: path.stat().st_mtime_ns for path in out.rglob("*.json")}
    assert len(before) == 3
    (folder / "student 001" / "bad.pdf").unlink()
    assert main([*arguments, "--quiet"]) == 0, "no worker is needed any more, and nothing fails"
    assert capsys.readouterr() == ("", "")
    assert states(out) == ["done"] * 3
    assert {path: path.stat().st_mtime_ns for path in out.rglob("*.json")} == before


def one_line(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(arguments) == 2
    error = capsys.readouterr().err
    assert error.count("\n") == 1, f"{error!r} is not one line"
    return error


def test_bad_use_is_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = str(write_students(tmp_path / "students", 1))
    out = str(tmp_path / "out")
    assert "no such folder" in one_line(["batch", str(tmp_path / "none"), "-o", out], capsys)
    assert "not a folder" in one_line(["batch", f"{folder}/student 000/course 0.docx", "-o", out], capsys)
    assert "of the outlines itself" in one_line(["batch", folder, "-o", folder], capsys)
    assert "is a file" in one_line(["batch", folder, "-o", f"{folder}/student 000/course 0.docx"], capsys)
    assert "no meaning" in one_line(["batch", folder, "-o", out, "--workers", "2", "--cluster", "tcp://a:1"], capsys)
    assert "look" in one_line(["batch", folder, "-o", out, "--look", "none"], capsys)
    assert "languages" in one_line(["batch", folder, "-o", out, "--language", "xx"], capsys)
    assert not Path(out).exists()
    with pytest.raises(SystemExit):
        main(["batch", folder, "-o", out, "--workers", "0"])


class Terminal(io.StringIO):
    """Takes what is printed, as a terminal does."""

    def isatty(self) -> bool:
        return True


def test_a_terminal_gets_a_bar_that_no_name_can_steer(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setenv("TERM", "xterm")
    with progress_of(quiet=False) as step:
        step(Progress(total=40, done=18, kept=2), "Ada [bold]\x1b]0;title\x07\u202e")
    assert "20/40" in terminal.getvalue() and "Ada [bold]]0;title" in terminal.getvalue()
    assert "\x1b]0;" not in terminal.getvalue() and "\u202e" not in terminal.getvalue()
    with progress_of(quiet=True) as step:
        step(Progress(total=40, done=19), "Ben")
    assert "Ben" not in terminal.getvalue()


@pytest.mark.skipif(sys.platform == "win32", reason="signals are sent to processes the POSIX way")
@pytest.mark.parametrize("stop", ["SIGINT", "SIGKILL"])
def test_a_stopped_batch_goes_on_where_it_was(tmp_path: Path, stop: str) -> None:
    folder, out = write_students(tmp_path / "students", 40), tmp_path / "out"
    command = [sys.executable, "-m", "syllabus_io", "batch", str(folder), "-o", str(out), "--extract-only"]
    command += ["--workers", "1"]
    program = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT)
    until = time.monotonic() + 60
    while finished(out) < 3 and time.monotonic() < until:
        time.sleep(0.02)
    os.kill(program.pid, getattr(signal, stop))
    _, error = program.communicate(timeout=30)
    done = finished(out)
    assert 3 <= done < 40, "it was to be stopped in mid run"
    if stop == "SIGINT":
        assert program.returncode == 130 and "the same command goes on from here" in error
        assert "Traceback" not in error
        assert states(out) == ["done"] * done
    again = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)
    assert f"40 outlines done, {done} of them by an earlier run" in again.stdout
    assert finished(out) == 40 and states(out) == ["done"] * 40


def finished(out: Path) -> int:
    """How many lines the journal has."""
    try:
        return (out / JOURNAL).read_bytes().count(b"\n")
    except OSError:
        return 0
