"""Reads outlines in a few processes of their own, within limits; results come in the order of the files."""

from __future__ import annotations

import os
import queue
import stat
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from types import TracebackType
from typing import TypeAlias

from syllabus_io.errors import SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.isolation.process import WORKER, ReadingProcess
from syllabus_io.outline.records import Outline

__all__ = ["OutlineReaders", "Reply", "reader_count"]

Reply: TypeAlias = Outline | str | SyllabusError
"""An outline already known, one as JSON text from a reading process, or why there is none."""

_ASKED_AHEAD = 4
"""Files handed out ahead of the one whose result is awaited, for each process: enough to keep all of them busy."""
_FILES_A_PROCESS = 2
"""Starting a process costs about as much as reading two short outlines."""


def reader_count(files: int) -> int:
    """How many processes serve so many files: one for each processor, fewer when there is little to read."""
    affinity = getattr(os, "sched_getaffinity", None)
    processors = len(affinity(0)) if affinity else os.cpu_count() or 1
    return max(1, min(processors, -(-files // _FILES_A_PROCESS)))


@dataclass(slots=True)
class _Task:
    path: Path
    done: threading.Event = field(default_factory=threading.Event)
    reply: Reply | None = None


class OutlineReaders:
    """A few reading processes. Use as a context manager: leaving it ends all of them, whatever they are doing.

    ``known`` gives the outline of a file that need not be read again; ``worker`` is the module a process runs.
    ``asked_count`` is how many files were given to the processes so far.
    """

    def __init__(
        self,
        count: int = 1,
        limits: ReadingLimits = DEFAULT_LIMITS,
        known: Callable[[Path], Outline | None] | None = None,
        worker: str = WORKER,
    ) -> None:
        self._limits = limits
        self._known = known
        self.asked_count = 0
        self._tasks: queue.SimpleQueue[_Task | None] = queue.SimpleQueue()
        self._readers = [ReadingProcess(limits, worker) for _ in range(count)]
        self._threads = [
            threading.Thread(target=self._serve, args=(reader,), daemon=True, name="outline reader")
            for reader in self._readers
        ]
        for thread in self._threads:
            thread.start()

    def __enter__(self) -> OutlineReaders:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        for _ in self._threads:
            self._tasks.put(None)
        for reader in self._readers:
            reader.close()

    def read(self, paths: Iterable[Path]) -> Iterator[Reply]:
        """The reply for each file, in the order of the files. Reading begins with this call, not with the first reply.

        Only a few files are handed out ahead, so that thousands of them take no more memory than a handful.
        """
        rest = iter(paths)
        asked = deque(self._ask(path) for path in islice(rest, _ASKED_AHEAD * len(self._readers)))
        return self._replies(asked, rest)

    def _replies(self, asked: deque[_Task], rest: Iterator[Path]) -> Iterator[Reply]:
        while asked:
            task = asked.popleft()
            task.done.wait()
            asked.extend(self._ask(path) for path in islice(rest, 1))
            if task.reply is None:
                raise RuntimeError("the reading of outlines was stopped")
            yield task.reply

    def _ask(self, path: Path) -> _Task:
        task = _Task(path)
        reply = _refusal(path, self._limits) or (self._known(path) if self._known else None)
        if reply is not None:
            task.reply = reply
            task.done.set()
        else:
            self.asked_count += 1
            self._tasks.put(task)
        return task

    def _serve(self, reader: ReadingProcess) -> None:
        while (task := self._tasks.get()) is not None:
            try:
                task.reply = reader.read(task.path)
            finally:
                task.done.set()


def _refusal(path: Path, limits: ReadingLimits) -> SyllabusError | None:
    """Why a file is not even opened; None when it may be. A missing file is left to the reader, which has the words."""
    try:
        status = path.stat()
    except (OSError, ValueError):
        return None
    if not (stat.S_ISREG(status.st_mode) or stat.S_ISDIR(status.st_mode)):
        return UnreadableDocument(path, "this is no ordinary file", "copy the outline into a file of its own")
    if status.st_size > limits.file_bytes:
        fault = f"the file is larger than {limits.file_bytes // 1_000_000} MB, far more than an outline takes"
        return UnreadableDocument(path, fault, "save only the outline's own pages")
    return None
