"""What changed inputs are given to. A target raises only for a fault of the program; it returns what became of it."""

from __future__ import annotations

import atexit
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from enum import StrEnum
from pathlib import Path
from random import Random

from syllabus_io.errors import SyllabusError
from syllabus_io.export.csv_out import plan_to_csv
from syllabus_io.export.icalendar_out import plan_to_icalendar
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.extract.reader import read_document
from syllabus_io.isolation.process import ReadingProcess
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.record_json import outline_from_json, outline_to_json
from syllabus_io.resolve.evaluate import ReadingContext, resolve_phrase
from syllabus_io.resolve.running_text import find_phrases
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.revise.standing import standing_plan
from syllabus_io.revise.update import update_workbook
from syllabus_io.term_file import read_term_file
from syllabus_io.workbook.read import read_workbook
from tests.fuzz import originals
from tests.fuzz.mutations import mutated_bytes, mutated_package, mutated_pdf, mutated_term, mutated_text

__all__ = ["KINDS", "TARGETS", "Outcome", "Target", "check_file", "check_phrase", "check_term", "check_workbook"]

LIMITS = ReadingLimits(seconds=30, cpu_seconds=20)
_CALENDAR = TermCalendar(Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11)))
_WRITTEN_ANEW = 50
"""One workbook in so many is also computed anew and exported, which takes many times as long."""


class Outcome(StrEnum):
    """What became of an input."""

    READ = "read"
    REFUSED = "refused"
    LATE = "stopped by a limit of time"
    LARGE = "stopped by the limit of memory"


@dataclass(frozen=True, slots=True)
class Target:
    """A kind of input: how one is made from dice, and what it is given to. ``check`` gets a file's path."""

    ending: str
    make: Callable[[Random], bytes]
    check: Callable[[Path], Outcome]

    def run(self, kind: str, number: int, folder: Path) -> Outcome:
        """Makes the input of a number and gives it to what reads it; the file must stay as it is, and stay alone."""
        random = Random(f"{kind} {number}")
        path = folder / f"input{self.ending}"
        content = self.make(random)
        path.write_bytes(content)
        try:
            outcome = self.check(path)
            assert path.read_bytes() == content, "the input was changed"
            assert list(folder.iterdir()) == [path], "something was left beside the input"
        finally:
            path.unlink()
        return outcome


def check_file(path: Path) -> Outcome:
    """Reads an outline in this process and dates it."""
    try:
        outline = read_outline(read_document(path))
    except SyllabusError as fault:
        return _refused(fault)
    assert outline_from_json(outline_to_json(outline)) == outline
    return check_dates(outline)


def check_dates(outline: Outline) -> Outcome:
    """Dates an outline. A date of an item lies within reach of its term, or carries a reason."""
    try:
        resolved = resolve_outlines([outline], None, originals.TODAY)
    except SyllabusError as fault:
        return _refused(fault)
    term = resolved.term
    for item in resolved.courses[0].items:
        if item.date and not term.first_day <= item.date <= max(term.last_day, *(term.finals or (term.last_day,))):
            assert item.reasons, f"{item.title} lies outside the term, unmarked: {item.date}"
    return Outcome.READ


class _Isolated:
    """Reads outlines as the program does, in a reading process of its own, which is kept from one to the next."""

    def __init__(self) -> None:
        self._process = ReadingProcess(LIMITS)
        atexit.register(self._process.close)

    def check(self, path: Path) -> Outcome:
        """Reads an outline there and dates it here."""
        reply = self._process.read(path)
        if isinstance(reply, str):
            return check_dates(outline_from_json(reply))
        assert "the program failed" not in reply.fault and "broke down" not in reply.fault, reply.fault
        if "and was stopped" in reply.fault:
            return Outcome.LATE
        return Outcome.LARGE if "of memory" in reply.fault else _refused(reply)


def check_phrase(text: str) -> Outcome:
    """Looks for date phrases and reads the text as one; places lie within the text."""
    end = 0
    for phrase in find_phrases(text):
        assert end <= phrase.start < phrase.end <= len(text), f"a phrase lies outside the text: {phrase}"
        end = phrase.end
    resolve_phrase(text, _CALENDAR, ReadingContext())
    return Outcome.READ if end else Outcome.REFUSED


def check_term(path: Path) -> Outcome:
    """Reads a term file, and settles its term with public holidays and days off."""
    try:
        facts = read_term_file(path)
        resolve_outlines([Outline("outline.pdf", "00", 1)], facts, originals.TODAY)
    except SyllabusError as fault:
        return _refused(fault)
    return Outcome.READ


def check_workbook(path: Path, whole: bool = False) -> Outcome:
    """Reads a workbook back; a ``whole`` check writes it anew in memory and exports it too."""
    content = path.read_bytes()
    try:
        if not whole:
            read_workbook(path, content)
            return Outcome.READ
        updated = update_workbook(path, content, (), originals.TODAY)
        plan = standing_plan(path, updated)
    except SyllabusError as fault:
        return _refused(fault)
    plan_to_csv(plan)
    plan_to_icalendar(plan, datetime(2026, 9, 1, tzinfo=UTC))
    return Outcome.READ


def _refused(fault: SyllabusError) -> Outcome:
    assert fault.fault and fault.remedy and "\n" not in f"{fault.fault}{fault.remedy}", f"no plain line: {fault}"
    return Outcome.REFUSED


def _pdf(random: Random) -> bytes:
    return mutated_pdf(random.choice(originals.pdf_originals()), random)


def _word(random: Random) -> bytes:
    return mutated_package(random.choice(originals.word_originals()), random)


def _workbook(random: Random) -> bytes:
    return mutated_package(originals.workbook_original(), random)


def _phrase(random: Random) -> bytes:
    return mutated_text(random.choice(originals.PHRASES), random).encode("utf-8", "surrogatepass")


def _term(random: Random) -> bytes:
    content = random.choice(originals.term_originals())
    return mutated_term(content, random) if random.random() < 0.7 else mutated_bytes(content, random)


def _check_some_wholly(path: Path) -> Outcome:
    return check_workbook(path, whole=zlib.crc32(path.read_bytes()) % _WRITTEN_ANEW == 0)


def _read_text(path: Path) -> Outcome:
    return check_phrase(path.read_bytes().decode("utf-8", "surrogatepass"))


_ISOLATED = _Isolated()
TARGETS: dict[str, Target] = {
    "pdf": Target(".pdf", _pdf, _ISOLATED.check),
    "word": Target(".docx", _word, _ISOLATED.check),
    "workbook": Target(".xlsx", _workbook, _check_some_wholly),
    "term": Target(".toml", _term, check_term),
    "phrase": Target(".txt", _phrase, _read_text),
}
KINDS = tuple(TARGETS)
