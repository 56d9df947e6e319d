"""The reading process with a reader that misbehaves as a broken or captured parser might; the file's name says how."""

from __future__ import annotations

import os
import pickle
import socket
import subprocess
import sys
import time
from pathlib import Path

from syllabus_io.extract import reader
from syllabus_io.extract.document import Document, Line, Note
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.isolation import worker
from syllabus_io.provenance import Place

__all__ = ["main"]


def read_document(path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> Document:
    """A document of one line, unless the name asks for something else."""
    match path.stem:
        case "abort":
            os.abort()
        case "leave":
            os._exit(7)
        case "sleep":
            time.sleep(60)
        case "spin":
            while True:
                pass
        case "grow":
            held = []
            while True:
                held.append(bytearray(50_000_000))
        case "recurse":
            return read_document(path, limits)
        case "bug":
            raise IndexError("list index out of range")
        case "print":
            print("this is no answer", flush=True)
            os.write(1, b"neither is this\n")
        case "connect":
            socket.create_connection(("127.0.0.1", 9), timeout=1)
        case "write":
            path.with_suffix(".written").write_text("written")
        case "program":
            subprocess.run([sys.executable, "-c", "pass"], check=False)
        case "shell":
            os.system("exit 0")
        case "unpickle":
            pickle.loads(b"cos\nsystem\n(S'exit 0'\ntR.")
        case "long":
            return _document(path, "a remark that goes on and on " * 100_000)
    return _document(path)


def _document(path: Path, remark: str = "") -> Document:
    place = Place(path.name, 1, 1)
    notes = (Note("unread", remark, place),) if remark else ()
    return Document(path.name, path.stem * 8, 1, (Line("Soil Science 101", place),), notes)


def main() -> None:
    """Runs the reading process with that reader."""
    reader.read_document = read_document
    worker.main()
