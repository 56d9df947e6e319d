"""One reading process, which a file may hang, exhaust or break without harm to the program that asks."""

from __future__ import annotations

import contextlib
import signal
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.errors import SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.isolation.worker import read_reply, write_request

if TYPE_CHECKING:
    from syllabus_io.provenance import PagePlace

__all__ = ["WORKER", "ReadingProcess"]

WORKER = "syllabus_io.isolation.worker"
"""The module that a reading process runs."""

_SAVE_ANEW = "save the outline anew as a PDF or Word document"


class ReadingProcess:
    """One reading process, started when it is first needed and again after it has died."""

    def __init__(self, limits: ReadingLimits = DEFAULT_LIMITS, worker: str = WORKER) -> None:
        self._limits = limits
        self._worker = worker
        self._process: subprocess.Popen[bytes] | None = None
        self._lock = threading.Lock()
        self._closed = False

    def read(self, path: Path, places: Sequence[PagePlace] = (), explained: bool = False) -> str | SyllabusError:
        """The outline of one file, or pictures of ``places`` in it, as JSON text; else why there is none. With
        ``explained`` the outline tells also of the dates that became nothing.

        Never raises for what the file does.
        """
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
                process.stdin.write(write_request(path, self._limits, places, explained))
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
