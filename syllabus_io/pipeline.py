"""Joins the stages: files -> outlines -> resolved term -> plan -> workbook.

Everything the command line does is a call of this module, so that a program can do it too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from syllabus_io.errors import SyllabusError
from syllabus_io.outline.records import Outline
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Term

__all__ = ["ReadFiles", "Step", "read_outline_file", "read_outlines", "resolve_outlines"]

Step = Callable[[str], None]
"""Called with the name of each file once it has been dealt with."""

_KEY_LENGTH = 20
_NOT_IN_SHEET_NAMES = re.compile(r"[\[\]:*?/\\'\x00-\x1f]+")


@dataclass(frozen=True, slots=True)
class ReadFiles:
    """The outlines that could be read, and the faults of the files that could not."""

    outlines: tuple[Outline, ...]
    faults: tuple[SyllabusError, ...] = ()


def read_outline_file(path: Path) -> Outline:
    """The outline in one file. Raises UnreadableDocument with the remedy when it cannot be read."""
    from syllabus_io.extract.reader import read_document
    from syllabus_io.outline.read import read_outline

    return read_outline(read_document(path))


def read_outlines(files: Iterable[Path], step: Step | None = None) -> ReadFiles:
    """Every outline in the files, in their order. A file that cannot be read costs that file alone."""
    outlines: list[Outline] = []
    faults: list[SyllabusError] = []
    digests: dict[str, str] = {}
    for path in files:
        try:
            outline = read_outline_file(path)
        except SyllabusError as fault:
            faults.append(fault)
        else:
            if outline.digest not in digests:
                digests[outline.digest] = outline.file
                outlines.append(outline)
        if step:
            step(path.name)
    return ReadFiles(tuple(outlines), tuple(faults))


def resolve_outlines(outlines: Sequence[Outline], term: Term | None = None) -> ResolvedTerm:
    """The outlines with their dates. Without a term, it is inferred from the outlines and marked as assumed.

    Raises BadSetting when there is no term and none can be inferred.
    """
    from syllabus_io.resolve.infer_term import infer_term
    from syllabus_io.resolve.outlines import resolve_outline

    settled = term or infer_term(outlines)
    keys = course_keys(outlines)
    courses = tuple(resolve_outline(outline, settled, key) for outline, key in zip(outlines, keys, strict=True))
    return ResolvedTerm(settled, courses)


def course_keys(outlines: Sequence[Outline]) -> tuple[str, ...]:
    """A short name for each course, unique among them and fit for a sheet name: its code, else title, else file."""
    keys: list[str] = []
    for outline in outlines:
        name = outline.course.code or outline.course.title or Path(outline.file).stem
        name = " ".join(_NOT_IN_SHEET_NAMES.sub(" ", name).split())[:_KEY_LENGTH].strip() or "Course"
        key, number = name, 1
        while key.casefold() in {taken.casefold() for taken in keys}:
            number += 1
            key = f"{name[: _KEY_LENGTH - 4].strip()} ({number})"
        keys.append(key)
    return tuple(keys)
