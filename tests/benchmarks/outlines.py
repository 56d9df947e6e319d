"""Real outlines from file to dates, beside plain text and tables of the same files: ``-m tests.benchmarks.outlines``.

File by file ours and the comparator run in turns in one process, so that a busy moment of the machine slows both; after
a round to warm up, the median of the rounds counts, in computing time. The comparator is pdfplumber's text and tables
of every page, and python-docx's text of paragraphs and tables. Without the folder of outlines nothing is measured.
"""

from __future__ import annotations

import logging
import statistics
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TypeVar

from syllabus_io.extract.document import Document
from syllabus_io.extract.reader import outline_files, read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import resolve_outlines
from tests.benchmarks.reading import forget, plain_pdf, plain_word
from tests.benchmarks.timing import Timing, print_table

__all__ = ["main"]

REAL = Path(__file__).parents[2].parent / "shared" / "accuracy" / "dev"
_ROUNDS = 3
T = TypeVar("T")
_EXTRACT, _OUTLINE, _RESOLVE, _PLAIN = "extract", "outline", "resolve", "pdfplumber and python-docx, text and tables"


class Round:
    """The seconds of each stage over all files, read once."""

    def __init__(self) -> None:
        self.seconds = dict.fromkeys((_EXTRACT, _OUTLINE, _RESOLVE, _PLAIN), 0.0)

    def timed(self, stage: str, work: Callable[[], T]) -> T:
        """What the work returns, its time added to that of the stage."""
        start = time.process_time()
        done = work()
        self.seconds[stage] += time.process_time() - start
        return done

    def add(self, path: Path) -> None:
        """Reads one file with ours and with the comparator."""
        document: Document = self.timed(_EXTRACT, lambda: read_document(path))
        outline: Outline = self.timed(_OUTLINE, lambda: read_outline(document))
        self.timed(_RESOLVE, lambda: resolve_outlines([outline], None, date(2026, 9, 1)))
        plain = plain_word if path.suffix.lower() == ".docx" else plain_pdf
        self.timed(_PLAIN, lambda: plain(path))


def main() -> None:
    """Prints the stages, their sum and the comparator."""
    logging.disable()
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else REAL
    if not folder.is_dir():
        print(f"left out: {folder} is no folder; name a folder of outlines")
        return
    files = outline_files([folder])
    rounds = []
    for _ in range(_ROUNDS + 1):
        forget()
        rounds.append(Round())
        for path in files:
            rounds[-1].add(path)
    medians = {name: statistics.median(one.seconds[name] for one in rounds[1:]) for name in rounds[0].seconds}
    ours = statistics.median(sum(one.seconds.values()) - one.seconds[_PLAIN] for one in rounds[1:])
    stages = [Timing(f"– {name}", medians[name]) for name in (_EXTRACT, _OUTLINE, _RESOLVE)]
    print_table(
        f"{len(files)} outlines",
        [Timing("syllabus-io, files to dates", ours), *stages, Timing(_PLAIN, medians[_PLAIN])],
    )


if __name__ == "__main__":
    main()
