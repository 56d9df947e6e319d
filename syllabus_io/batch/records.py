"""What a batch passes around: the pieces of work, what became of them, and what holds for all of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import Literal

from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.resolve.term import TermFacts

__all__ = ["BatchSettings", "FileResult", "State", "Work", "WorkResult"]


class State(StrEnum):
    """What became of a file: an outline, or the workbook made from a student's outlines."""

    DONE = "done"
    SAME = "same as another"
    UNREAD = "not read"
    UNWRITTEN = "not written"


@dataclass(frozen=True, slots=True)
class Work:
    """One piece of work: a student with all outlines, or one outline. ``key`` is its path below the batch's folder;
    ``before`` is the digest of the file that an earlier run wrote for it, empty when there is none."""

    key: str
    student: str
    folder: Path
    files: tuple[Path, ...]
    before: str = ""


@dataclass(frozen=True, slots=True)
class FileResult:
    """What became of a file: its path below the student's folder, the course, how many items, how many of them to
    check; for one that failed, what is wrong and what to do."""

    file: str
    state: State
    course: str = ""
    items: int = 0
    to_check: int = 0
    seconds: float = 0.0
    fault: str = ""
    remedy: str = ""
    is_workbook: bool = False


@dataclass(frozen=True, slots=True)
class WorkResult:
    """What became of a piece of work. ``written`` is the digest of the file written for it, empty when none was."""

    key: str
    student: str
    files: tuple[FileResult, ...]
    written: str = ""

    @property
    def has_failed(self) -> bool:
        """Whether something of it was lost."""
        return any(file.fault for file in self.files)


@dataclass(frozen=True, slots=True)
class BatchSettings:
    """What holds for a whole batch. Under ``extract_only`` each outline's records are written and no workbook is."""

    folder: Path
    output: Path
    facts: TermFacts | None
    today: date
    extract_only: bool = False
    paper: Literal["a4", "letter"] = "letter"
    look: str = "clear"
    pictures: bool = True
    language: str = "en"
    limits: ReadingLimits = DEFAULT_LIMITS
