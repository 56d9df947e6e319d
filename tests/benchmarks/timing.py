"""Medians of computing time, and one table for all benchmarks."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

__all__ = ["Timing", "median_seconds", "print_table"]


@dataclass(frozen=True, slots=True)
class Timing:
    """What was timed, and its median in seconds."""

    name: str
    seconds: float


def median_seconds(
    work: Callable[[], object], rounds: int = 3, clock: Callable[[], float] = time.process_time
) -> float:
    """The median time of a piece of work after one round to warm up; computing time unless another clock is given."""
    work()
    took = []
    for _ in range(rounds):
        start = clock()
        work()
        took.append(clock() - start)
    return statistics.median(took)


def print_table(title: str, timings: Sequence[Timing]) -> None:
    """Prints a line for each timing, with its ratio to the last one, the comparator."""
    base = timings[-1]
    print(f"{title} (ratio to: {base.name})")
    for timing in timings:
        print(f"  {timing.name:44} {1000 * timing.seconds:9.1f} ms {timing.seconds / base.seconds:7.2f}")
