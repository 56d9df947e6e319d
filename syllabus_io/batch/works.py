"""Finding the pieces of work in a folder, and telling whether one is as it was."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterator
from pathlib import Path

from syllabus_io import __version__
from syllabus_io.batch.records import BatchSettings, Work
from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.reader import ENDINGS, outline_files

__all__ = ["find_works", "mark_of", "output_path"]

_TOP = "."
"""The key of the outlines that lie in the batch's folder itself and so belong to no student."""


def find_works(settings: BatchSettings) -> Iterator[Work]:
    """Every piece of work in the order of the folders' names; those of one student follow each other.

    A student is a folder in the batch's folder; hidden folders and the output folder are none. Outlines that lie in
    the batch's folder itself count as those of one student who has the folder's name.
    """
    if loose := _beside(settings.folder):
        yield from _works(_TOP, settings.folder.resolve().name, settings.folder, loose, settings)
    for folder in _students(settings):
        yield from _works(folder.name, folder.name, folder, _inside(folder), settings)


def _students(settings: BatchSettings) -> list[Path]:
    output = settings.output.resolve()
    with os.scandir(settings.folder) as entries:
        found = [Path(entry.path) for entry in entries if entry.is_dir() and not entry.name.startswith(".")]
    return sorted(folder for folder in found if folder.resolve() != output)


def _inside(folder: Path) -> tuple[Path, ...]:
    """The outlines of a folder and of the folders in it."""
    try:
        return outline_files([folder])
    except UnreadableDocument:
        return ()


def _beside(folder: Path) -> tuple[Path, ...]:
    """The outlines that lie in a folder itself."""
    with os.scandir(folder) as entries:
        names = [entry.name for entry in entries if not entry.name.startswith((".", "~$")) and entry.is_file()]
    return tuple(folder / name for name in sorted(names) if name.lower().endswith(ENDINGS))


def _works(key: str, student: str, folder: Path, files: tuple[Path, ...], settings: BatchSettings) -> Iterator[Work]:
    if not settings.extract_only or not files:
        yield Work(key, student, folder, files)
        return
    for file in files:
        yield Work(file.relative_to(settings.folder).as_posix(), student, folder, (file,))


def output_path(work: Work, settings: BatchSettings) -> Path:
    """The file that is written for a piece of work. It lies below the output folder whatever names the work has."""
    if settings.extract_only:
        return settings.output / f"{work.key}.json"
    name = work.student or "plan"
    if work.key == _TOP and (settings.folder / name).is_dir():
        name += " (outlines of no folder)"
    return settings.output / f"{name}.xlsx"


def mark_of(work: Work, settings: BatchSettings) -> str:
    """A digest of the outlines by name and content, of the settings, and of the program's version.

    The same mark means that doing the work again would give the same, but for the day.
    """
    looks = (settings.paper, settings.look, settings.pictures, settings.language)
    kind = (settings.extract_only, looks, settings.limits, settings.facts)
    digest = hashlib.sha256(f"{__version__} {kind!r} {work.key!r}".encode("utf-8", "replace"))
    for file in work.files:
        name = os.fsencode(file.relative_to(work.folder))
        digest.update(len(name).to_bytes(4, "big") + name + _content(file, settings.limits.file_bytes))
    return digest.hexdigest()


def _content(file: Path, most_bytes: int) -> bytes:
    """What stands for the content: its digest; of a file that will not be read whole, its size and time."""
    try:
        status = file.stat()
        if not stat.S_ISREG(status.st_mode) or status.st_size > most_bytes:
            return f"{status.st_size} {status.st_mtime_ns}".encode()
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").digest()
    except OSError:
        return b"unreadable"
