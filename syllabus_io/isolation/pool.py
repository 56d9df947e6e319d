"""Reads outlines in a few processes of their own, within limits; results come in the order of the files."""

from __future__ import annotations

import contextlib
import os
import queue
import signal
import stat
import subprocess
import sys
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
from syllabus_io.isolation.worker import read_reply, write_request
from syllabus_io.outline.records import Outline

__all__ = ["OutlineReaders", "Reply", "reader_count"]

Reply: TypeAlias = Outline | str | SyllabusError
"""An outline already known, one as JSON text from a reading process, or why there is none."""

_ASKED_AHEAD = 4
"""Files handed out ahead of the one whose result is awaited, for each process: enough to keep all of them busy."""
_FILES_A_PROCESS = 2
"""Starting a process costs about as much as reading two short outlines."""
_SAVE_ANEW = "save the outline anew as a PDF or Word document"


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
        worker: str = "syllabus_io.isolation.worker",
    ) -> None:
        self._limits = limits
        self._known = known
        self.asked_count = 0
        self._tasks: queue.SimpleQueue[_Task | None] = queue.SimpleQueue()
        self._readers = [_Reader(limits, worker) for _ in range(count)]
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

    def _serve(self, reader: _Reader) -> None:
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


class _Reader:
    """One reading process, started when it is first needed and again after it has died."""

    def __init__(self, limits: ReadingLimits, worker: str) -> None:
        self._limits = limits
        self._worker = worker
        self._process: subprocess.Popen[bytes] | None = None
        self._lock = threading.Lock()
        self._closed = False

    def read(self, path: Path) -> Reply:
        """The reply for one file. Never raises for what the file does."""
        try:
            process = self._running()
        except OSError as error:
            return UnreadableDocument(
                path, f"no reading process could be started ({error.strerror})", "close other programs and try again"
            )
        late = threading.Event()
        timer = threading.Timer(self._limits.seconds, _end, (process, late))
        timer.daemon = True
        timer.start()
        line = b""
        try:
            if process.stdin and process.stdout:
                process.stdin.write(write_request(path, self._limits))
                process.stdin.flush()
                line = process.stdout.readline(self._limits.reply_bytes)
        except (OSError, ValueError):
            line = b""  # the process died or was ended; what it died of is asked below
        finally:
            timer.cancel()
        if line.endswith(b"\n"):
            try:
                reply, last = read_reply(path, line)
            except (ValueError, KeyError, TypeError):
                self._drop()
                return UnreadableDocument(path, "the reading process gave no sensible answer", _SAVE_ANEW)
            if last:
                self._drop()
            return reply
        too_long = len(line) >= self._limits.reply_bytes
        return UnreadableDocument(path, self._cause(late.is_set(), too_long), _SAVE_ANEW)

    def close(self) -> None:
        """Ends the process."""
        with self._lock:
            self._closed = True
        self._drop()

    def _running(self) -> subprocess.Popen[bytes]:
        with self._lock:
            if self._closed:
                raise OSError(0, "the program is stopping")
            if self._process is None or self._process.poll() is not None:
                self._process = _start(self._worker)
            return self._process

    def _drop(self) -> int | None:
        """Ends the process, if there is one, and tells with which status it went."""
        with self._lock:
            process, self._process = self._process, None
        if process is None:
            return None
        process.kill()
        status = process.wait()
        for pipe in (process.stdin, process.stdout):
            if pipe:
                try:
                    pipe.close()
                except OSError:
                    continue  # unsent words for a process that is gone
        return status

    def _cause(self, late: bool, too_long: bool) -> str:
        process = self._process
        if process is not None and not late and not too_long:
            with contextlib.suppress(subprocess.TimeoutExpired):
                process.wait(timeout=5)  # its pipe is closed: it is about to be gone, and then says why
        status = self._drop()
        if too_long:
            return "it holds far more than an outline does"
        if late:
            return f"reading it took longer than {self._limits.seconds:g} seconds and was stopped"
        if status is not None and status < 0 and -status == getattr(signal, "SIGXCPU", 0):
            return f"reading it took more than {self._limits.cpu_seconds} seconds of computing and was stopped"
        return f"the reading process broke down over it ({_status_name(status)})"


def _end(process: subprocess.Popen[bytes], late: threading.Event) -> None:
    late.set()
    process.kill()


def _status_name(status: int | None) -> str:
    if status is None:
        return "for an unknown reason"
    if status < 0:
        try:
            return signal.Signals(-status).name
        except ValueError:
            return f"signal {-status}"
    return f"status {status}"


def _start(worker: str) -> subprocess.Popen[bytes]:
    """A fresh reading process that finds modules where this process does, and nowhere else."""
    if not sys.executable:
        raise OSError(0, "the interpreter's own name is unknown")
    package = str(Path(__file__).parents[2])
    folders = [folder for folder in sys.path if folder]
    code = (
        f"import sys; sys.path[:] = {[*folders, *([] if package in folders else [package])]!r}; "
        f"from {worker} import main; main()"
    )
    # -S and -E: the folders are given, so nothing is searched; -P: a file beside the outlines is never taken for code
    return subprocess.Popen(
        [sys.executable, "-S", "-E", "-P", "-c", code],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        close_fds=True,
    )
