"""What changed inputs are given to: each takes the input and raises only what the program foresees."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from random import Random

from syllabus_io.errors import SyllabusError
from syllabus_io.extract.reader import read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.pipeline import resolve_outlines
from syllabus_io.record_json import outline_from_json, outline_to_json
from syllabus_io.resolve.evaluate import ReadingContext, resolve_phrase
from syllabus_io.resolve.parse import find_phrases
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.term_file import read_term_file
from tests.fuzz.mutations import mutated_bytes, mutated_text, mutated_word

__all__ = ["SEEDS", "TARGETS", "read_file", "read_phrase", "read_term"]

SAMPLES = Path(__file__).parents[2] / "samples"
SEEDS = ("music.pdf", "letters.pdf", "geology.pdf", "algebra.docx", "history.docx", "biology.docx")
_CALENDAR = TermCalendar(Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11)))
_PHRASES = (
    "the Friday of week 5", "Oct 6 at 5 pm", "every other Tuesday from September 8 to Thanksgiving",
    "two classes after the midterm", "10/12/2026, 23:59", "Mondays and Wednesdays, weeks 3-7", "the last class in May",
    "Sept 9, 16 and 23", "noon on the second Thursday of October", "one week before the final exam",
)  # fmt: skip


def read_file(content: bytes, ending: str, folder: Path) -> None:
    """Reads an outline and dates it. A date of an item lies within reach of its term, or carries a reason."""
    path = folder / f"outline{ending}"
    path.write_bytes(content)
    try:
        outline = read_outline(read_document(path))
    except SyllabusError as fault:
        assert fault.fault and fault.remedy and "\n" not in str(fault), f"no plain line: {fault}"
        return
    assert outline_from_json(outline_to_json(outline)) == outline
    try:
        resolved = resolve_outlines([outline], None, date(2026, 9, 1))
    except SyllabusError as fault:
        assert fault.fault and fault.remedy
        return
    term = resolved.term
    for item in resolved.courses[0].items:
        if item.date and not term.first_day <= item.date <= max(term.last_day, *(term.finals or (term.last_day,))):
            assert item.reasons, f"{item.title} lies outside the term, unmarked: {item.date}"


def read_phrase(text: str) -> None:
    """Looks for date phrases and reads the text as one; places lie within the text."""
    end = 0
    for phrase in find_phrases(text):
        assert end <= phrase.start < phrase.end <= len(text), f"a phrase lies outside the text: {phrase}"
        end = phrase.end
    resolve_phrase(text, _CALENDAR, ReadingContext())


def read_term(content: bytes, folder: Path) -> None:
    """Reads a term file."""
    path = folder / "term.toml"
    path.write_bytes(content)
    try:
        read_term_file(path)
    except SyllabusError as fault:
        assert fault.fault and fault.remedy and "\n" not in str(fault), f"no plain line: {fault}"


def _pdf(random: Random, folder: Path) -> bytes:
    content = mutated_bytes((SAMPLES / random.choice(SEEDS[:3])).read_bytes(), random)
    read_file(content, ".pdf", folder)
    return content


def _word(random: Random, folder: Path) -> bytes:
    content = mutated_word((SAMPLES / random.choice(SEEDS[3:])).read_bytes(), random)
    read_file(content, ".docx", folder)
    return content


def _phrase(random: Random, folder: Path) -> bytes:
    text = mutated_text(random.choice(_PHRASES), random)
    read_phrase(text)
    return text.encode("utf-8", "surrogatepass")


def _term(random: Random, folder: Path) -> bytes:
    content = mutated_bytes((SAMPLES / "term.toml").read_bytes(), random)
    read_term(content, folder)
    return content


TARGETS: dict[str, Callable[[Random, Path], bytes]] = {"pdf": _pdf, "word": _word, "phrase": _phrase, "term": _term}
