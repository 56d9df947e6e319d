"""A folder of invented students with small outlines, for the tests of batches."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from syllabus_io.batch.records import BatchSettings
from syllabus_io.resolve.term import TermFacts
from tests.extract.word_files import paragraph, write_word

__all__ = ["FACTS", "settings_of", "write_outline", "write_students"]

FACTS = TermFacts(source="term.toml", name="Autumn 2026", first_day=date(2026, 8, 31), last_day=date(2026, 12, 11))


def write_outline(path: Path, code: str = "KIT 120", day: int = 6) -> Path:
    """A small outline with one essay in October."""
    path.parent.mkdir(parents=True, exist_ok=True)
    return write_word(
        path,
        paragraph(f"{code} Kites and Wind, Autumn 2026") + paragraph(f"Essay 1 is due on October {day}, 2026 at 5 pm."),
    )


def write_students(folder: Path, students: int, outlines: int = 1) -> Path:
    """Students named ``student 000`` and so on, with outlines that all differ."""
    for number in range(students):
        for course in range(outlines):
            write_outline(folder / f"student {number:03}" / f"course {course}.docx", f"KIT {number}{course}")
    return folder


def settings_of(folder: Path, output: Path, **other: Any) -> BatchSettings:
    """Settings under which records are written, because that takes a fraction of the time."""
    settings = BatchSettings(folder, output, FACTS, date(2026, 9, 1), extract_only=True)
    return replace(settings, **other)
