"""Outlines of files: from the cache where it holds them, else from a reading process."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from syllabus_io.cache import Cache
from syllabus_io.errors import SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.isolation.pool import OutlineReaders, reader_count
from syllabus_io.isolation.process import ReadingProcess
from syllabus_io.outline.records import Outline
from syllabus_io.record_json import outline_from_json

__all__ = ["read_explained", "read_files"]


def read_files(
    files: Sequence[Path],
    limits: ReadingLimits,
    processes: int | None,
    cache: Cache | None,
    meanwhile: Callable[[], object] | None = None,
) -> Iterator[tuple[Path, Outline | SyllabusError]]:
    """Each file with its outline or its fault, in their order.

    ``meanwhile`` is called once the first files are being read, if any has to be. Leaving the
    iteration early ends all reading.
    """
    count = processes or reader_count(len(files))
    known = _Kept(cache, limits)
    with OutlineReaders(count, limits, known.find) as readers:
        replies = readers.read(files)
        if meanwhile and readers.asked_count:
            meanwhile()
        for path, reply in zip(files, replies, strict=True):
            yield path, _outline(path, reply, known) if isinstance(reply, str) else reply
    known.trim()


def read_explained(path: Path, limits: ReadingLimits) -> Outline:
    """The outline of one file, read anew, with the dates that became nothing. Raises UnreadableDocument where there is
    none."""
    process = ReadingProcess(limits)
    try:
        reply = process.read(path, explained=True)
    finally:
        process.close()
    if isinstance(reply, SyllabusError):
        raise reply
    return outline_from_json(reply)


def _outline(path: Path, reply: str, known: _Kept) -> Outline | SyllabusError:
    try:
        outline = outline_from_json(reply)
    except ValueError:
        return UnreadableDocument(path, "the reading process gave no outline", "leave it out, and report this line")
    known.keep(path, outline.digest, reply)
    return outline


class _Kept:
    """The outlines in the cache, for one run under one set of limits."""

    def __init__(self, cache: Cache | None, limits: ReadingLimits) -> None:
        self._cache = cache
        self._limits = limits
        self._has_new = False

    def find(self, path: Path) -> Outline | None:
        """The outline of a file, when the very same content was read before under this name."""
        if self._cache is None:
            return None
        try:
            with path.open("rb") as file:
                digest = hashlib.file_digest(file, "sha256").hexdigest()
        except OSError:
            return None  # the reader will say what is the matter with the file
        kept = self._cache.find(self._key(path, digest))
        if kept is None:
            return None
        try:
            outline = outline_from_json(kept.decode("ascii", "replace"))
        except ValueError:
            return None  # whole, but nothing this program wrote
        return outline if outline.digest == digest else None

    def keep(self, path: Path, digest: str, text: str) -> None:
        """Keeps an outline that was read just now."""
        if self._cache is not None:
            self._cache.keep(self._key(path, digest), text.encode("ascii"))
            self._has_new = True

    def trim(self) -> None:
        """Keeps the cache within its bounds when something was added."""
        if self._cache is not None and self._has_new:
            self._cache.trim()

    def _key(self, path: Path, digest: str) -> str:
        assert self._cache is not None
        return self._cache.key("outline", digest, path.name, repr(self._limits))
