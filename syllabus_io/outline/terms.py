"""Names of terms in text ("Fall 2024", "Michaelmas 2026", "Semester 1 2026/27") and the years an outline names."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from syllabus_io.extract.document import Document
from syllabus_io.outline.course_code import find_codes
from syllabus_io.outline.labels import LabelKind
from syllabus_io.outline.sections import LabelledValue, is_heading, plain

__all__ = ["find_terms", "read_term", "years_named"]

_SEASON = (
    r"(?:(?:early|late|mid)[- ])?(?:fall|spring|summer|winter|autumn|michaelmas|hilary|trinity|lent|easter|"
    r"epiphany|martinmas|"
    r"candlemas|may|january|j)"
)
_PART = (
    r"(?:\s+(?:term|semester|quarter|session|trimester|intersession|block|half|mini(?:mester)?))?"
    r"(?:\s+(?:[1-4]|i{1,3}|iv|one|two|three|a|b|c)(?![A-Za-z0-9]))?"
)
_NUMBERED = r"(?:semester|term|trimester|quarter)\s+(?:[1-4]|i{1,3}|iv|one|two|three|four)"
_YEAR = r"(?:(?:19[89]|20[0-4])\d(?:\s?[/–-]\s?(?:20)?\d\d)?)"
_TERM = re.compile(
    rf"(?<![A-Za-z])(?:(?P<before>{_YEAR})\s+(?:{_SEASON}{_PART}|{_NUMBERED})|"
    rf"(?:{_SEASON}{_PART}|{_NUMBERED})(?:\s*,)?(?:\s+of)?\s+(?P<after>{_YEAR}|['’]\d\d))(?![\d-])",
    re.IGNORECASE,
)
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|"
    r"nov(?:ember)?|dec(?:ember)?)\b\.?"
)
_DATED_YEAR = re.compile(
    rf"(?:\b{_MONTH}\s*\d{{0,2}}(?:st|nd|rd|th)?\s*(?:[–-]\s*(?:{_MONTH}\s*)?\d{{1,2}}(?:st|nd|rd|th)?)?,?\s+|"
    rf"\b\d{{1,2}}[-\s]{_MONTH}[-\s,]*|"
    r"\b\d{1,2}[/.]\d{1,2}[/.])(20[0-4]\d)\b|\b(20[0-4]\d)-\d\d-\d\d\b",
    re.IGNORECASE,
)
_SCHOOL_YEAR = re.compile(r"(?<![\w/-])20[0-4]\d\s?[/–-]\s?(?:20)?\d\d(?![\w/-])")
_SECOND_HALF = re.compile(
    r"spring|summer|hilary|trinity|lent|easter|candlemas|(?:semester|term)\s+(?:2|3|ii+|two|three)", re.IGNORECASE
)
_NOT_THIS_TERM = re.compile(
    r"copyright|©|press|publish|edition|\bed\.|isbn|vol\.|journal|proceedings|last (?:compiled|updated|revised|"
    r"modified)|"
    r"revised|retrieved|accessed|born|since|effective",
    re.IGNORECASE,
)
_ANY_YEAR = re.compile(r"20[0-4]\d")
_TOP_LINES = 40


@lru_cache(maxsize=8192)
def find_terms(text: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Terms named in a text with their calendar years, the likeliest year first.

    >>> find_terms("Semester 2, 2026/27")
    (('Semester 2, 2026/27', (2027, 2026)),)
    """
    found = []
    for match in _TERM.finditer(text):
        name = " ".join(match[0].split())
        years = _years_of(match["before"] or match["after"])
        if len(years) == 2 and _SECOND_HALF.search(name):
            years = years[::-1]
        if not re.match(r"(?i)(?:may|january|j)\b(?!\s*(?:term|session|inter|block))", name):
            found.append((name, years))
    return tuple(found)


def _years_of(written: str) -> tuple[int, ...]:
    if written[0] in "'’":
        return (2000 + int(written[1:]),)
    first = int(written[:4])
    second = re.search(r"[/–-]\s?(?:20)?(\d\d)$", written)
    if second and (first + 1) % 100 == int(second[1]):
        return (first, first + 1)
    return (first,)


def read_term(document: Document, labels: Sequence[LabelledValue]) -> str | None:
    """The term the outline is for, as it writes it: labelled, else the first named at the top or in a running head."""
    for fact in labels:
        if fact.kind is LabelKind.TERM:
            named = find_terms(fact.value.split("\n")[0])
            if named:
                return named[0][0]
    first = next((name for name, _ in _terms(document)), None)
    return first or next((match[0] for match in _school_years(document)), None)


def _school_years(document: Document) -> Iterator[re.Match[str]]:
    """School years at the top ("2025-2026", "2025/26"): two years that follow each other."""
    for number, line in enumerate(document.lines()):
        if number >= 12:
            return
        for match in _SCHOOL_YEAR.finditer(plain(line.text)):
            if len(_years_of(match[0])) == 2:
                yield match


def _terms(document: Document) -> Iterator[tuple[str, tuple[int, ...]]]:
    later: list[tuple[str, tuple[int, ...]]] = []
    for number, line in enumerate(document.lines()):
        text = plain(line.text)
        named = find_terms(text)
        if number < _TOP_LINES and len(text) <= 160:
            yield from named
        elif is_heading(line):
            later.extend(named)
    for note in document.notes:
        if note.kind == "running":
            yield from find_terms(plain(note.text))
    yield from later


def years_named(document: Document, labels: Sequence[LabelledValue]) -> tuple[int, ...]:
    """The calendar years that the outline names for its term, the most telling first; years of books left out."""
    years: list[int] = []
    for fact in labels:
        if fact.kind is LabelKind.TERM:
            years.extend(year for _, named in find_terms(fact.value) for year in named)
            years.extend(int(year) for year in re.findall(r"\b(20[0-4]\d)\b", fact.value))
    for _, named in _terms(document):
        years.extend(named)
    years.extend(year for match in _school_years(document) for year in _years_of(match[0]))
    dated: dict[int, int] = {}
    headed: list[int] = []
    for number, line in enumerate(document.lines()):
        text = plain(line.text)
        if not _ANY_YEAR.search(text) or _NOT_THIS_TERM.search(text):
            continue
        for match in _DATED_YEAR.finditer(text):
            year = int(match[1] or match[2])
            dated[year] = dated.get(year, 0) + (3 if number < _TOP_LINES else 1)
        is_citation = bool(re.search(r"[a-z][.,]\s*\(?20\d\d\)?[.,]", text))
        if is_heading(line) or (number < 10 and len(text) < 100 and not is_citation):
            codes = [(found.start, found.end) for found in find_codes(text)]
            headed.extend(
                int(match[1])
                for match in re.finditer(r"(?<![\w/-])(20[0-4]\d)(?![\w/@-])", text)
                if not any(start <= match.start() < end for start, end in codes)
            )
    years.extend(sorted(dated, key=lambda year: -dated[year]))
    years.extend(headed)
    for note in document.notes:
        if note.kind == "running":
            years.extend(int(year) for year in re.findall(r"(?<!\d)(20[0-4]\d)(?!\d)", note.text))
    return tuple(dict.fromkeys(years))
