"""Files that take long to make, made once for all test processes of a run."""

from __future__ import annotations

import hashlib
import os
import pickle
import tempfile
from collections.abc import Callable
from pathlib import Path

__all__ = ["FOLDER", "shared_file"]

FOLDER = "SYLLABUS_IO_TESTS_FOLDER"
"""The variable of the environment that names the folder of the run."""


def shared_file(kind: str, source: object, make: Callable[[], bytes]) -> bytes:
    """What ``make`` makes of ``source``, taken from the folder of the run when another process has made it already."""
    folder = os.environ.get(FOLDER)
    if folder is None:
        return make()
    path = Path(folder, f"{kind}-{hashlib.sha256(pickle.dumps(source)).hexdigest()[:24]}")
    if not path.exists():
        content = make()
        with tempfile.NamedTemporaryFile(dir=folder, delete=False) as file:
            file.write(content)
        Path(file.name).replace(path)
    return path.read_bytes()
