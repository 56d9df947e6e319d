"""Whole runs of the command line on the clock: ``python -m tests.benchmarks.start``; fair on an idle machine."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tests.benchmarks.timing import Timing, print_table

__all__ = ["main"]

SAMPLES = Path(__file__).parents[2] / "samples"


def run(*arguments: str, cache: Path) -> None:
    """Runs the command line in a process of its own."""
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache)}
    subprocess.run(
        [sys.executable, "-m", "syllabus_io", *arguments], check=True, env=environment, stdout=subprocess.DEVNULL
    )


def main() -> None:
    """Prints how long the commands take, beside the start of the interpreter."""
    with tempfile.TemporaryDirectory() as folder:
        cache, plan = Path(folder, "cache"), str(Path(folder, "plan.xlsx"))
        build = ("build", str(SAMPLES), "--term", str(SAMPLES / "term.toml"), "-o", plan, "-q", "--replace")
        extract = ("extract", str(SAMPLES / "music.pdf"), "-q")
        runs = {
            "--help": ("--help",),
            "extract, one PDF": (*extract, "--no-cache"),
            "extract, nothing changed": extract,
            "build, six outlines": (*build, "--no-cache"),
            "build, nothing changed": build,
        }
        works: dict[str, Callable[[], object]] = {name: partial(run, *call, cache=cache) for name, call in runs.items()}
        works["python -c ''"] = partial(subprocess.run, [sys.executable, "-c", ""], check=True)
        both = {name: medians(work) for name, work in works.items()}
    for number, title in enumerate(("On the clock", "Computing time of all processes")):
        print_table(title, [Timing(name, times[number]) for name, times in both.items()])


def medians(work: Callable[[], object], rounds: int = 3) -> tuple[float, float]:
    """The median seconds on the clock and of computing, after one round to warm up."""
    work()
    took: list[tuple[float, float]] = []
    for _ in range(rounds):
        clock, computing = time.perf_counter(), computing_time()
        work()
        took.append((time.perf_counter() - clock, computing_time() - computing))
    return statistics.median(one for one, _ in took), statistics.median(two for _, two in took)


def computing_time() -> float:
    """Computing seconds of all processes started so far and done."""
    times = os.times()
    return times.children_user + times.children_system


if __name__ == "__main__":
    main()
