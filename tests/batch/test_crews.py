"""Processes of this machine and a cluster: the loss of a worker costs time, never a result."""

from __future__ import annotations

import json
import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from syllabus_io.batch.crews import ClusterCrew, LocalCrew
from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import BatchSettings
from syllabus_io.batch.run import Progress, run_batch
from syllabus_io.errors import BadSetting
from tests.batch.students import settings_of, write_students
from tests.isolation.test_pool import is_running

ROOT = Path(__file__).parents[2]
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="signals are sent to processes the POSIX way")


@POSIX
def test_a_process_killed_in_mid_run_costs_nothing(tmp_path: Path) -> None:
    settings = settings_of(write_students(tmp_path / "students", 8), tmp_path / "out")
    killed: list[int] = []

    def kill_one(progress: Progress, _: str) -> None:
        if progress.done == 2 and not killed:
            worker = multiprocessing.active_children()[0]
            assert worker.pid is not None
            killed.append(worker.pid)
            os.kill(worker.pid, signal.SIGKILL)

    with Journal(settings.output) as journal, LocalCrew(settings, 2) as crew:
        progress, _ = run_batch(settings, crew, journal, kill_one)
    assert killed and (progress.done, progress.failed, progress.items) == (8, 0, 8)
    assert_all_written(settings, 8)


def assert_all_written(settings: BatchSettings, count: int) -> None:
    found = sorted(settings.output.rglob("*.json"))
    assert len(found) == count
    for path in found:
        assert json.loads(path.read_text(encoding="utf-8"))["items"], f"{path} is not whole"


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only here does the system bound both")
@pytest.mark.parametrize(
    ("work", "ends"), [("while True: pass", -getattr(signal, "SIGXCPU", 0)), ("bytearray(3_000_000_000)", 1)]
)
def test_a_worker_computes_and_takes_no_more_than_it_may(work: str, ends: int) -> None:
    code = f"from syllabus_io.batch.crews import bound_process\nbound_process(1, 1_000_000_000)\n{work}"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == ends, done.stderr
    assert ends < 0 or "MemoryError" in done.stderr


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only here are the processes of a process listed")
def test_no_worker_outlives_a_batch_that_is_killed(tmp_path: Path) -> None:
    folder = write_students(tmp_path / "students", 30)
    command = [sys.executable, "-m", "syllabus_io", "batch", str(folder), "-o", str(tmp_path / "out")]
    program = subprocess.Popen(
        [*command, "--extract-only", "--workers", "1"],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        cwd=ROOT,
    )
    until = time.monotonic() + 60
    while not list((tmp_path / "out").rglob("*.json")) and time.monotonic() < until:
        time.sleep(0.05)
    below = processes_below(program.pid)
    assert len(below) >= 2, "a worker and its reading process are at work"
    program.kill()
    program.wait(timeout=20)
    until = time.monotonic() + 20
    while any(map(is_running, below)) and time.monotonic() < until:
        time.sleep(0.1)
    assert not any(map(is_running, below)), "a worker outlived the program"


def processes_below(process: int) -> list[int]:
    """The processes that a process has started, and those that these have started."""
    found = []
    for path in Path(f"/proc/{process}/task").glob("*/children"):
        for child in map(int, path.read_text(encoding="utf-8").split()):
            found += [child, *processes_below(child)]
    return found


def test_a_cluster_that_does_not_answer_is_said_in_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed", reason="the extra cluster is not installed")
    monkeypatch.setattr("syllabus_io.batch.crews._CONNECT_SECONDS", 0.5)
    settings = settings_of(tmp_path, tmp_path / "out")
    with pytest.raises(BadSetting, match="no cluster answers"):
        ClusterCrew(settings, "tcp://127.0.0.1:9")


@pytest.mark.parametrize("address", ["nonsense", "http://a:1", "tcp://a", "tcp://a:1/..", "a b:1", "", "tcp://:1"])
def test_what_is_no_address_is_not_tried(tmp_path: Path, address: str) -> None:
    pytest.importorskip("distributed", reason="the extra cluster is not installed")
    with pytest.raises(BadSetting, match="no address of a scheduler"):
        ClusterCrew(settings_of(tmp_path, tmp_path / "out"), address)


def test_the_missing_library_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(BadSetting, match="pip install"):
        ClusterCrew(settings_of(tmp_path, tmp_path / "out"), "tcp://127.0.0.1:9")


@pytest.mark.slow
def test_a_cluster_of_two_workers_one_of_which_is_killed_in_mid_run(tmp_path: Path) -> None:
    distributed = pytest.importorskip("distributed", reason="the extra cluster is not installed")
    settings = settings_of(write_students(tmp_path / "students", 24), tmp_path / "out")
    killed: list[int] = []
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50
    ) as cluster:
        address = cluster.scheduler_address

        def kill_one(progress: Progress, _: str) -> None:
            if progress.done == 3 and not killed:
                with distributed.Client(address, set_as_default=False) as client:
                    process = next(iter(client.run(os.getpid).values()))
                killed.append(process)
                os.kill(process, signal.SIGKILL)

        with Journal(settings.output) as journal, ClusterCrew(settings, address) as crew:
            assert crew.width == 2
            progress, _ = run_batch(settings, crew, journal, kill_one)
    assert killed and (progress.done, progress.failed, progress.items) == (24, 0, 24)
    assert_all_written(settings, 24)
