"""A long run of changed inputs: ``python -m tests.fuzz.run --minutes 60``, or ``--count pdf=3500 phrase=7000``.

Each input follows from its kind and number, so that a find is told by both; it is kept as a case in test_fuzz.py.
"""

from __future__ import annotations

import argparse
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from tests.fuzz.targets import KINDS, TARGETS, Target

__all__ = ["main"]

LONGEST_SECONDS = 60.0
"""Of computing in this process, for one input: a find. Reading processes have limits of their own."""
MOST_BYTES = 4_000_000_000
"""The address space of this process: what is read here and not in a reading process may take no more."""


class TooLongError(Exception):
    """An input took longer than anything may."""


@dataclass(slots=True)
class Tally:
    """What became of the inputs of one kind."""

    outcomes: Counter[str] = field(default_factory=Counter)
    finds: int = 0
    seconds: float = 0.0
    longest: float = 0.0

    @property
    def inputs(self) -> int:
        """How many inputs there were."""
        return self.outcomes.total() + self.finds


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs until the time is up or the counts are reached. Prints every find; returns 1 when there was one."""
    parser = argparse.ArgumentParser(prog="tests.fuzz.run")
    parser.add_argument("--minutes", type=float, default=600.0, help="time on the clock")
    parser.add_argument("--first", type=int, default=0, help="the number of the first input of each kind")
    parser.add_argument("--count", nargs="+", default=[], metavar="KIND=N", help="only these kinds, so many of each")
    options = parser.parse_args(arguments)
    counts = {kind: int(count) for kind, _, count in (text.partition("=") for text in options.count)}
    left = counts or dict.fromkeys(KINDS, sys.maxsize)
    if __name__ == "__main__":
        _bound_memory()  # not in tests, which share their process with others
    tallies = {kind: Tally() for kind in left}
    until = time.monotonic() + 60 * options.minutes
    with tempfile.TemporaryDirectory() as folder:
        for kind, number in _turns(left, options.first):
            if time.monotonic() > until:
                break
            _run_one(TARGETS[kind], kind, number, Path(folder), tallies[kind])
    _print_table(tallies)
    return 1 if any(tally.finds for tally in tallies.values()) else 0


def _turns(left: dict[str, int], first: int) -> Iterator[tuple[str, int]]:
    """Kinds and numbers, so mixed that every kind ends at the same time."""
    most = max(left.values())
    done = dict.fromkeys(left, 0)
    for turn in range(1, most + 1):
        for kind, count in left.items():
            while done[kind] < turn * count // most:
                yield kind, first + done[kind]
                done[kind] += 1


def _run_one(target: Target, kind: str, number: int, folder: Path, tally: Tally) -> None:
    began = time.monotonic()
    try:
        with _no_longer_than(LONGEST_SECONDS):
            tally.outcomes[target.run(kind, number, folder)] += 1
    except (Exception, MemoryError):
        tally.finds += 1
        print(f"{kind} {number}:\n{traceback.format_exc(limit=-4)}", flush=True)
    took = time.monotonic() - began
    tally.seconds += took
    tally.longest = max(tally.longest, took)


@contextmanager
def _no_longer_than(seconds: float) -> Iterator[None]:
    if not hasattr(signal, "setitimer"):
        yield
        return

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooLongError(f"an input took more than {seconds:g} seconds")

    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def _bound_memory() -> None:
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, resource.getrlimit(resource.RLIMIT_AS)[1]))


def _print_table(tallies: dict[str, Tally]) -> None:
    for kind, tally in tallies.items():
        became = ", ".join(f"{count} {outcome}" for outcome, count in sorted(tally.outcomes.items()))
        mean = 1000 * tally.seconds / max(1, tally.inputs)
        print(
            f"{kind:8} {tally.inputs:6} inputs: {became}; {tally.finds} finds; "
            f"{mean:.0f} ms each, the longest {tally.longest:.1f} s"
        )
    print(f"{sum(tally.inputs for tally in tallies.values())} inputs, {sum(t.finds for t in tallies.values())} finds")


if __name__ == "__main__":
    sys.exit(main())
