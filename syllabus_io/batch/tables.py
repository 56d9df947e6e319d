"""The result table of a batch and the list of what failed, as CSV (RFC 4180), safe to open in a spreadsheet program."""

from __future__ import annotations

import csv
import os
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from syllabus_io.batch.journal import Journal
from syllabus_io.batch.records import FileResult, WorkResult
from syllabus_io.errors import OutputNotWritable
from syllabus_io.export.plain_text import csv_field

__all__ = ["FAILURES", "RESULTS", "write_tables"]

RESULTS, FAILURES = "results.csv", "failures.csv"
_RESULT_COLUMNS = ("student", "file", "course", "items", "to check", "seconds", "state")
_FAILURE_COLUMNS = ("student", "file", "what is wrong", "what to do")


def write_tables(folder: Path, journal: Journal, keys: Sequence[str]) -> None:
    """Writes both tables of these pieces of work, in their order; each file is replaced in one step."""
    _write(folder / RESULTS, _RESULT_COLUMNS, (_result_row(*row) for row in _rows(journal, keys)))
    failed = (row for row in _rows(journal, keys) if row[1].fault)
    _write(folder / FAILURES, _FAILURE_COLUMNS, (_failure_row(*row) for row in failed))


def _rows(journal: Journal, keys: Sequence[str]) -> Iterator[tuple[WorkResult, FileResult]]:
    for result in journal.results(keys):
        for file in result.files:
            yield result, file


def _result_row(work: WorkResult, file: FileResult) -> tuple[str, ...]:
    counts = (str(file.items), str(file.to_check), f"{file.seconds:.2f}")
    return (work.student, file.file, file.course, *counts, file.state.value)


def _failure_row(work: WorkResult, file: FileResult) -> tuple[str, ...]:
    return (work.student, file.file, file.fault, file.remedy)


def _write(path: Path, columns: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> None:
    temporary: Path | None = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.stem}-", suffix=".tmp", dir=path.parent)
        temporary = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\r\n")
            writer.writerow(columns)
            writer.writerows([csv_field(text) for text in row] for row in rows)
        mask = os.umask(0)
        os.umask(mask)
        temporary.chmod(0o666 & ~mask)
        temporary.replace(path)
    except OSError as error:
        if temporary is not None:
            temporary.unlink(missing_ok=True)
        reason = (error.strerror or "unknown reason").lower()
        raise OutputNotWritable(path, f"cannot be written ({reason})", "close it, and run the batch again") from None
