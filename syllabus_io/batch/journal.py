"""What a batch has finished, kept in the output folder, so that a stopped batch goes on where it was.

A text file with one line for each finished piece of work, added as soon as it is finished. A line that a crash has cut
short is passed over: its work is done again. Later lines replace earlier ones of the same work.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import asdict
from pathlib import Path
from types import TracebackType
from typing import IO, Any

from syllabus_io.batch.records import FileResult, State, WorkResult
from syllabus_io.errors import OutputNotWritable

__all__ = ["JOURNAL", "Journal"]

JOURNAL = "batch.journal"


class Journal:
    """The journal of an output folder. Use as a context manager; two batches cannot write to one folder at a time.

    Of the lines themselves only their places are held, so that memory hardly grows with their number.
    """

    def __init__(self, folder: Path) -> None:
        self._path = folder / JOURNAL
        self._places: dict[str, tuple[int, str]] = {}
        try:
            folder.mkdir(parents=True, exist_ok=True)
            if self._path.is_symlink():
                raise OutputNotWritable(self._path, "is a link to another file", "delete it, or choose another folder")
            self._file: IO[bytes] = self._path.open("a+b")
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise OutputNotWritable(folder, f"cannot be written ({reason})", "choose another folder with -o") from None
        try:
            self._lock()
            self._read()
        except BaseException:
            self._file.close()
            raise

    def __enter__(self) -> Journal:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._file.close()

    def mark_of(self, key: str) -> str | None:
        """The mark under which a piece of work was finished; None when it was not."""
        place = self._places.get(key)
        return place[1] if place else None

    def result_of(self, key: str) -> WorkResult | None:
        """What became of a piece of work in this run or an earlier one."""
        place = self._places.get(key)
        if place is None:
            return None
        self._file.seek(place[0])
        return _result(json.loads(self._file.readline()))

    def results(self, keys: Iterable[str]) -> Iterator[WorkResult]:
        """The results of these pieces of work, as far as there are any; one at a time is held."""
        for key in keys:
            result = self.result_of(key)
            if result is not None:
                yield result

    def keys(self) -> list[str]:
        """The pieces of work that are finished, in the order of their names."""
        return sorted(self._places)

    def add(self, mark: str, result: WorkResult) -> None:
        """Adds what became of a piece of work. The line is with the system when this returns."""
        self._file.seek(0, 2)
        place = self._file.tell()
        self._file.write(json.dumps({"mark": mark, **asdict(result)}, ensure_ascii=True).encode() + b"\n")
        self._file.flush()
        self._places[result.key] = (place, mark)

    def _lock(self) -> None:
        try:
            import fcntl
        except ImportError:
            return  # this system has other locks; two batches at once only do some work twice there
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise OutputNotWritable(
                self._path.parent, "another batch is writing to this folder", "wait for it, or choose another folder"
            ) from None
        except OSError:
            return  # a file system without locks

    def _read(self) -> None:
        self._file.seek(0)
        place = 0
        whole = True
        for line in self._file:
            with contextlib.suppress(ValueError, KeyError, TypeError):
                record = json.loads(line)
                _result(record)
                self._places[record["key"]] = (place, str(record["mark"]))
            place += len(line)
            whole = line.endswith(b"\n")
        if not whole:
            self._file.write(b"\n")


def _result(record: dict[str, Any]) -> WorkResult:
    files = tuple(FileResult(**{**file, "state": State(file["state"])}) for file in record["files"])
    return WorkResult(str(record["key"]), str(record["student"]), files, str(record["written"]))
