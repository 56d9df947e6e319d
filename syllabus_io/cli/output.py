"""Writes text results: to standard output, or to a file that is replaced in one step."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path

from syllabus_io.errors import OutputNotWritable

__all__ = ["write_text"]

_STANDARD_OUTPUT = Path("-")


def write_text(path: Path, text: str) -> None:
    """Writes the text, "-" being standard output. Raises OutputNotWritable; a half-written file is never left."""
    if path == _STANDARD_OUTPUT:
        sys.stdout.write(text)
        return
    if path.is_dir():
        raise OutputNotWritable(path, "is a folder", "give the name of a file in it")
    temporary: str | None = None
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        mask = os.umask(0)
        os.umask(mask)
        Path(temporary).chmod(0o666 & ~mask)
        Path(temporary).replace(path)
    except OSError as error:
        if temporary:
            Path(temporary).unlink(missing_ok=True)
        raise OutputNotWritable(
            path, f"cannot be written ({error.strerror})", "check that the folder exists and that you may write there"
        ) from None
