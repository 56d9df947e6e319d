"""Whole runs of the command line on the clock: ``python -m tests.benchmarks.start``; fair on an idle machine."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.timing import Timing, median_seconds, print_table

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
        sys.stdout.flush()
        timings = [
            Timing(name, median_seconds(lambda call=call: run(*call, cache=cache), clock=time.perf_counter))  # type: ignore[misc]
            for name, call in runs.items()
        ]
        start = lambda: subprocess.run([sys.executable, "-c", ""], check=True)  # noqa: E731
        print_table("Runs", [*timings, Timing("python -c ''", median_seconds(start, clock=time.perf_counter))])


if __name__ == "__main__":
    main()
