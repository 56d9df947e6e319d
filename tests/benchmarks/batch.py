"""Throughput of a batch on one and on two workers, and the memory of the program that hands out the work:
``python -m tests.benchmarks.batch [OUTLINES] [MOST_OUTLINES]``.

Records are extracted, no workbooks are made. The outlines are 36 generated ones and copies of them that differ.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
import zipfile
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path

from syllabus_io.batch.crews import LocalCrew
from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import BatchSettings
from syllabus_io.batch.run import Progress, run_batch
from syllabus_io.batch.tables import write_tables
from tests.generators.outline_factory import FAMILIES, write_outline

__all__ = ["main"]

_OF_A_STUDENT = 5


@dataclass(frozen=True, slots=True)
class Run:
    """One batch: how many outlines, seconds on the clock from the first result to the last, computing seconds of the
    workers with their reading processes and of the program that hands out the work, and its peak memory in bytes."""

    outlines: int
    failed: int
    seconds: float
    computing: float
    own: float
    peak: int

    @property
    def rate(self) -> float:
        """Outlines a second, once the workers have started."""
        return (self.outlines - 1) / self.seconds


def write_many(folder: Path, count: int) -> None:
    """That many outlines, a few for each student, no two alike."""
    with tempfile.TemporaryDirectory() as made:
        kinds = [(family, form) for family in FAMILIES for form in ("pdf", "docx")]
        first = [write_outline(Path(made), family, form, 1).read_bytes() for family, form in kinds]
        for number in range(count):
            form = kinds[number % len(kinds)][1]
            student = folder / f"student {number // _OF_A_STUDENT:04}"
            student.mkdir(parents=True, exist_ok=True)
            path = student / f"outline {number}.{form}"
            path.write_bytes(first[number % len(kinds)])
            if form == "pdf":
                with path.open("ab") as file:
                    file.write(f"\n% copy {number}\n%%EOF\n".encode())
            else:
                with zipfile.ZipFile(path, "a") as archive:
                    archive.writestr("docProps/copy.txt", str(number))


def run(folder: Path, workers: int, count: int) -> Run:
    """A batch of so many outlines in a process of its own, so that its memory is its own too."""
    students, output = folder / f"students {count}", folder / f"out {workers} {count}"
    if not students.exists():
        write_many(students, count)
    done = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.batch", "one", str(students), str(output), str(workers)],
        stdout=subprocess.PIPE,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    return Run(**json.loads(done.stdout))


def run_here(folder: Path, output: Path, workers: int) -> Run:
    """A batch in this process and its workers."""
    import resource

    settings = BatchSettings(folder, output, None, date(2026, 9, 1), extract_only=True)
    times: list[float] = []
    computing: list[float] = []

    def step(progress: Progress, _: str) -> None:
        times.append(time.monotonic())
        if progress.done == progress.total:
            computing.append(computing_below(os.getpid()))

    with Journal(output) as journal:
        with LocalCrew(settings, workers) as crew:
            progress, keys = run_batch(settings, crew, journal, step)
        write_tables(output, journal, keys)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    seconds = times[-1] - times[0]
    return Run(progress.done, progress.failed, seconds, computing[0], time.process_time(), peak)


def computing_below(process: int) -> float:
    """Computing seconds of the processes below one, while they run; 0 where the system does not list them."""
    seconds = 0.0
    for path in Path(f"/proc/{process}/task").glob("*/children"):
        for child in map(int, path.read_text(encoding="utf-8").split()):
            words = Path(f"/proc/{child}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
            seconds += (int(words[11]) + int(words[12])) / os.sysconf("SC_CLK_TCK") + computing_below(child)
    return seconds


def main() -> None:
    """Prints the rates, their ratio, and by how much memory grows from the smaller batch to the larger."""
    few = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    many = int(sys.argv[2]) if len(sys.argv) > 2 else 2_000
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        runs = [(1, run(folder, 1, few)), (2, run(folder, 2, few)), (2, run(folder, 2, many))]
    for workers, one in runs:
        print(
            f"{one.outlines:5} outlines, {workers} workers: {one.rate:6.2f} a second on the clock, "
            f"{1000 * one.computing / one.outlines:.0f} ms of computing each in the workers, "
            f"{1000 * one.own / one.outlines:.1f} ms here, peak {one.peak / 1e6:.0f} MB here, {one.failed} failed"
        )
    print(f"two workers against one: {runs[1][1].rate / runs[0][1].rate:.2f}")
    print(f"memory from {few} to {many} outlines: {(runs[2][1].peak - runs[1][1].peak) / 1e6:+.1f} MB")


if __name__ == "__main__":
    if sys.argv[1:2] == ["one"]:
        print(json.dumps(asdict(run_here(Path(sys.argv[2]), Path(sys.argv[3]), int(sys.argv[4])))))
    else:
        main()
