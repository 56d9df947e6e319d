"""A long run within a time budget: ``python -m tests.fuzz.run MINUTES [FIRST_NUMBER]``.

Each input follows from its kind and number, so that a find is told by both; it is kept as a case in test_fuzz.py.
"""

from __future__ import annotations

import sys
import tempfile
import time
import traceback
from pathlib import Path
from random import Random

from tests.fuzz.targets import TARGETS

__all__ = ["main"]

SLOW_SECONDS = 20.0


def main() -> int:
    """Runs until the time is up. Prints every find; returns 1 when there was one."""
    minutes = float(sys.argv[1])
    number = first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    until = time.monotonic() + 60 * minutes
    finds = 0
    with tempfile.TemporaryDirectory() as folder:
        while time.monotonic() < until:
            for kind, target in TARGETS.items():
                began = time.process_time()
                try:
                    target(Random(f"{kind} {number}"), Path(folder))
                except Exception:
                    finds += 1
                    print(f"{kind} {number}:\n{traceback.format_exc(limit=-4)}", flush=True)
                if time.process_time() - began > SLOW_SECONDS:
                    finds += 1
                    print(f"{kind} {number}: took {time.process_time() - began:.0f} s", flush=True)
            number += 1
    print(f"{(number - first) * len(TARGETS)} inputs, numbers {first} to {number - 1}: {finds} finds")
    return 1 if finds else 0


if __name__ == "__main__":
    sys.exit(main())
