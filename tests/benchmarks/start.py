"""Whole runs of the command line on the clock: ``python -m tests.benchmarks.start``; fair on an idle machine."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from functools import partial
from pathlib import Path

from tests.benchmarks.timing import Timing, median_seconds, print_table

__all__ = ["main"]

SAMPLES = Path(__file__).parents[2] / "samples"


def run(*arguments: str, cache: Path) -> object:
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
        runs_with_cache = {name: partial(run, *call, cache=cache) for name, call in runs.items()}
        runs_with_cache["python -c ''"] = partial(subprocess.run, [sys.executable, "-c", ""], check=True)
        for title, clock in (("On the clock", time.perf_counter), ("Computing time of all processes", computing_time)):
            print_table(title, [Timing(name, median_seconds(work, 3, clock)) for name, work in runs_with_cache.items()])


def computing_time() -> float:
    """Computing seconds of all processes started so far and done."""
    times = os.times()
    return times.children_user + times.children_system


if __name__ == "__main__":
    main()
