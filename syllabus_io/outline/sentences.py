"""Running text cut into sentences, and these into parts that each speak of work and days of their own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.work_words import find_heads

__all__ = ["Sentence", "parts_of_sentence", "sentences_of"]

_SENTENCE_END = re.compile(r"(?:(?<=[a-z0-9)%”\"'’])|(?<=[A-Z]{2}))[.!?]\s+(?=[A-Z“(])|\n")
_IN_DATE = re.compile(r"\b(?:mon|tues?|weds?|thur?s?|fri|sat|sun)\.\s+$", re.IGNORECASE)
_MONTH_NEXT = re.compile(r"(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)", re.IGNORECASE)
_NEXT_COUNTED = re.compile(
    r"\s*(?:and\s+)?(?:(?:the|your|our)\s+)?(?:second|third|fourth|fifth|last|other)\b", re.IGNORECASE
)
_ONLY_A_DAY = re.compile(r"(?:\W|\b(?:and|or|on|by|at|the|in|class|for|both|all|sections?|again)\b|\d)*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of running text or a part of one, and where it stands in its passage.

    ``whole`` is the sentence that a part belongs to and ``offset`` where the part stands in it, ``before`` the sentence
    before it.
    """

    text: str
    start: int
    whole: str = ""
    before: str = ""
    offset: int = 0


@lru_cache(maxsize=4096)
def sentences_of(text: str) -> tuple[Sentence, ...]:
    """The sentences of a text; lines end sentences too."""
    found: list[Sentence] = []
    begin = 0
    for match in _SENTENCE_END.finditer(text):
        if _MONTH_NEXT.match(text, match.end()) and _IN_DATE.search(text[: match.end()]):
            continue  # "Final exam: Tues. May 4"
        end = match.start() + (0 if match[0].startswith("\n") else 1)
        if text[begin:end].strip():
            found.append(Sentence(text[begin:end], begin))
        begin = match.end()
    if text[begin:].strip():
        found.append(Sentence(text[begin:], begin))
    return tuple(found)


def parts_of_sentence(text: str) -> Iterator[tuple[int, str]]:
    """The parts of a sentence at its semicolons, each with its start. What stands in brackets, a further day of the
    same work ("three: Friday, May 1; Friday, May 29") and a work that is only counted ("; the second …") stay."""
    start = 0
    for cut in [match.start() for match in re.finditer(";", text)]:
        before, behind = text[start:cut], text[cut + 1 :]
        following = behind.split(";")[0]
        if before.count("(") > before.count(")") or _NEXT_COUNTED.match(behind) or _is_day_alone(following):
            continue
        yield start, before
        start = cut + 1
    yield start, text[start:]


def _is_day_alone(text: str) -> bool:
    phrases = phrases_in(text)
    if not phrases or find_heads(text):
        return False
    for phrase in reversed(phrases):
        text = text[: phrase.start] + text[phrase.end :]
    return _ONLY_A_DAY.fullmatch(re.sub(r"\([^()]*\)", "", text)) is not None
