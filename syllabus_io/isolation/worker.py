"""The reading process: takes the names of files on its standard input, answers with outlines, changes nothing.

It starts with little, reads one file after another, and ends when its parent does. Before the first file it gives up
what a reader of files never needs: the network, other programs, writing files, and the loading of stored objects.
"""

from __future__ import annotations

import base64
import json
import os
import signal
import sys
import threading
from collections.abc import Callable, Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

from syllabus_io.errors import SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import ReadingLimits

if TYPE_CHECKING:
    from syllabus_io.provenance import PagePlace

__all__ = ["ANSWER", "FAULT", "LAST", "fault_spot", "main", "read_reply", "write_request"]

ANSWER, FAULT, LAST = "answer", "fault", "last"
_LARGEST_REQUEST = 1_000_000
_REFUSED = ("socket.", "subprocess.", "os.exec", "os.fork", "os.spawn", "os.posix_spawn", "os.system", "os.startfile")
_REFUSED_EVENTS = frozenset({"pickle.find_class", "webbrowser.open", "urllib.Request"})
_WRITING_FLAGS = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND


def write_request(
    path: Path, limits: ReadingLimits, places: Sequence[PagePlace] = (), explained: bool = False
) -> bytes:
    """The line that asks a reading process for the outline in one file, with the dates that became nothing where it is
    to be ``explained``, or for pictures of ``places`` in it."""
    request = {"path": str(path), "limits": asdict(limits), "places": list(places), "explained": explained}
    return json.dumps(request).encode() + b"\n"


def read_reply(path: Path, line: bytes) -> tuple[str | SyllabusError, bool]:
    """What a reading process answered: what was asked for as JSON text (an outline, or a list of pictures in base64),
    or the fault; and whether the process ends with it."""
    reply = json.loads(line)
    last = bool(reply.get(LAST))
    if ANSWER in reply:
        return str(reply[ANSWER]), last
    fault, remedy = (str(part) for part in reply[FAULT])
    return UnreadableDocument(path, fault, remedy), last


def main() -> None:
    """Answers requests until the parent closes the pipe, is gone, or a file has left too much behind."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent is told to stop, and tells us
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # a library that prints must not spoil the answers
    requests = _requests()
    guarded = False
    while True:
        request = requests()
        limits = ReadingLimits(**request["limits"])
        path = Path(request["path"])
        places = request["places"]
        _load_drawing() if places else _load_reader(path)
        if not guarded:
            guarded = True
            _give_up_memory(limits)
            sys.addaudithook(_refuse)
        _set_computing_time(limits)
        reply = _answer(path, limits, places, bool(request["explained"]))
        if reply.get(LAST) or _has_grown(limits):
            reply[LAST] = True
        answers.write(json.dumps(reply, ensure_ascii=True).encode() + b"\n")
        answers.flush()
        if reply.get(LAST):
            os._exit(0)


def _requests() -> Callable[[], dict[str, Any]]:
    """Gives the next request; a thread listens meanwhile, so that a busy process notices that its parent is gone."""
    import queue

    waiting: queue.SimpleQueue[dict[str, Any]] = queue.SimpleQueue()

    def listen(source: IO[bytes]) -> None:
        while line := source.readline(_LARGEST_REQUEST):
            waiting.put(json.loads(line))
        os._exit(0)

    threading.Thread(target=listen, args=(os.fdopen(0, "rb"),), daemon=True).start()
    return waiting.get


def _load_reader(path: Path) -> None:
    """Loads what reading this form of file takes, before limits apply that would get in the way."""
    import syllabus_io.outline.read
    import syllabus_io.record_json

    if path.suffix.lower() == ".pdf":
        import syllabus_io.extract.pdf
    else:
        import syllabus_io.extract.word  # noqa: F401


def _load_drawing() -> None:
    import PIL.ImageDraw
    import PIL.PngImagePlugin  # noqa: F401
    import pypdfium2  # noqa: F401

    import syllabus_io.extract.pdf_pictures  # noqa: F401


def _answer(path: Path, limits: ReadingLimits, places: list[Any], explained: bool) -> dict[str, Any]:
    try:
        return {ANSWER: _drawn(path, places) if places else _read(path, limits, explained)}
    except SyllabusError as error:
        return {FAULT: (error.fault, error.remedy)}
    except MemoryError:
        pass
    except RecursionError:
        return {FAULT: ("it is nested too deeply to be read", "save the outline anew as a PDF or Word document")}
    except Exception as error:
        # The parent goes on with the other files; the line names the spot so that the fault can be mended.
        return {
            FAULT: (f"the program failed on it ({fault_spot(error)})", "leave it out, and report this line"),
            LAST: True,
        }
    fault = f"reading it takes more than {limits.memory_bytes // 1_000_000} MB of memory"
    return {FAULT: (fault, "save only the outline's own pages, anew"), LAST: True}


def _read(path: Path, limits: ReadingLimits, explained: bool) -> str:
    from syllabus_io.extract.reader import read_document
    from syllabus_io.outline.read import read_outline
    from syllabus_io.record_json import outline_to_json

    document = read_document(path, limits)
    outline = read_outline(document)
    if explained:
        from syllabus_io.outline.set_aside import read_set_aside

        outline = replace(outline, set_aside=read_set_aside(document, outline))
    return outline_to_json(outline)


def _drawn(path: Path, places: list[Any]) -> str:
    from syllabus_io.extract.pdf_pictures import draw_places
    from syllabus_io.provenance import Box

    pictures = draw_places(path, [(page, Box(*box)) for page, box in places])
    return json.dumps([base64.b64encode(picture).decode() for picture in pictures])


def fault_spot(error: BaseException) -> str:
    """The kind of an exception and the place in this program where it arose."""
    spot = ""
    trace = error.__traceback__
    while trace is not None:
        source = Path(trace.tb_frame.f_code.co_filename)
        if "syllabus_io" in source.parts:
            spot = f" in {source.parent.name}/{source.name}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return f"{type(error).__name__}{spot}"


# --- what the process gives up ----------------------------------------------------------------------------------------


def _give_up_memory(limits: ReadingLimits) -> None:
    try:
        import resource
    except ImportError:
        return  # this system bounds no process; time on the clock still does
    for kind, amount in (("RLIMIT_AS", limits.memory_bytes), ("RLIMIT_FSIZE", 0), ("RLIMIT_CORE", 0)):
        if (number := getattr(resource, kind, None)) is not None:
            _lower(resource, number, amount)


def _set_computing_time(limits: ReadingLimits) -> None:
    """Bounds the computing time of the next file; what earlier files took is added, the system counts it in."""
    try:
        import resource
    except ImportError:
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    allowed = int(used.ru_utime + used.ru_stime) + 1 + limits.cpu_seconds
    hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
    if hard == resource.RLIM_INFINITY or allowed <= hard:
        resource.setrlimit(resource.RLIMIT_CPU, (allowed, hard))


def _lower(resource: Any, number: int, amount: int) -> None:
    hard = resource.getrlimit(number)[1]
    if hard != resource.RLIM_INFINITY:
        amount = min(amount, hard)
    try:
        resource.setrlimit(number, (amount, amount))
    except (OSError, ValueError):
        return  # some systems know a limit by name and do not take it


def _has_grown(limits: ReadingLimits) -> bool:
    """Whether this process once held so much that a fresh one serves the next file better."""
    try:
        import resource
    except ImportError:
        return False
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit > limits.memory_bytes // 3


def _refuse(event: str, arguments: tuple[Any, ...]) -> None:
    """Refuses what a reader of files never does. It stands behind the other limits; it does not replace them."""
    if event == "open":
        _, mode, flags = arguments
        if (isinstance(mode, str) and set(mode) & set("wax+")) or (isinstance(flags, int) and flags & _WRITING_FLAGS):
            raise PermissionError(f"a reading process opens no file for writing: {arguments[0]!r}")
    elif event in _REFUSED_EVENTS or event.startswith(_REFUSED):
        raise PermissionError(f"a reading process does not do this: {event}")
