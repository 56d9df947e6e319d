"""Date phrases in the texts of an outline; a text that is asked for again is not parsed again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import MeetingNumber, MonthDay, NumericDate, Phrase, Span

__all__ = ["dated_phrases", "phrases_in"]

_NUMBER_AND_DASH = re.compile(r"\d{1,2}\s+[–—-]\s*")
_MISPRINT = re.compile(r"(?<![\d/.])(\d{1,2})/(\d?(\d))\3(?![\d/.%])(?<=\d{3})")
_LISTED_CLASSES = re.compile(
    r"\b(?:(?:at|by|before)\s+)?(?:the\s+(?:beginning|start)\s+of\s+)?"
    r"(?P<what>classes|sessions|lectures|meetings|seminars|class|session|lecture|meeting|seminar)\s+"
    r"(?P<numbers>\d{1,2}(?:\s*,\s*\d{1,2})*\s*,?\s*(?:and|&)\s*\d{1,2})\b(?![:/%])",
    re.IGNORECASE,
)


def phrases_in(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The date and time phrases of a text, left to right; ``weak`` adds bare weekdays, day numbers and times."""
    return _phrases_in(text, weak)


@lru_cache(maxsize=8192)
def _phrases_in(text: str, weak: bool) -> tuple[Phrase, ...]:
    from syllabus_io.resolve.running_text import find_phrases

    found = tuple(_without_work_number(text, one) for one in _with_listed_classes(find_phrases(text, weak=weak), text))
    return (
        tuple(sorted((*found, *_misprints(text)), key=lambda phrase: phrase.start)) if _MISPRINT.search(text) else found
    )


def _without_work_number(text: str, phrase: Phrase) -> Phrase:
    """A phrase without the number of the work before it: "Essay 1 — 7 Feb" is due on the 7th, not from the 1st on."""
    number = _NUMBER_AND_DASH.match(phrase.text) if isinstance(phrase.expression, Span) else None
    if number is None or not any(head.word_end <= phrase.start < head.end for head in find_heads(text)):
        return phrase
    rest = phrases_in(phrase.text[number.end() :])
    if not rest or rest[0].start:
        return phrase
    return replace(rest[0], start=phrase.start + number.end(), end=phrase.start + number.end() + rest[0].end)


def _misprints(text: str) -> Iterator[Phrase]:
    """Numeric dates with one digit struck twice ("9/111"), read without the second and marked."""
    for match in _MISPRINT.finditer(text):
        month, day = int(match[1]), int(match[2])
        if 1 <= month <= 12 and 1 <= day <= 31:
            expression = NumericDate(month, day) if day <= 12 else MonthDay(month, day)
            doubt = f"the outline writes “{match[0]}”, read as {match[1]}/{match[2]}"
            yield Phrase(match[0], match.start(), match.end(), expression, doubts=(doubt,))


def _with_listed_classes(found: tuple[Phrase, ...], text: str) -> tuple[Phrase, ...]:
    """The phrases with each class of a list as one of its own ("due in Classes 4, 12 and 18")."""
    for match in _LISTED_CLASSES.finditer(text):
        kind = "lecture" if match["what"].lower().startswith("lec") else ""
        numbers = list(re.finditer(r"\d{1,2}", text[: match.end()][match.start("numbers") :]))
        start = match.start("numbers")
        places = [(start + one.start(), start + one.end()) for one in numbers]
        places[0] = (match.start(), places[0][1])
        listed = tuple(
            Phrase(text[a:b], a, b, MeetingNumber(int(one[0]), kind))
            for one, (a, b) in zip(numbers, places, strict=True)
        )
        rest = (one for one in found if one.end <= match.start() or match.end() <= one.start)
        found = tuple(sorted((*rest, *listed), key=lambda phrase: phrase.start))
    return found


def dated_phrases(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The phrases of a text that name a day or a stretch, times alone left out."""
    return tuple(phrase for phrase in phrases_in(text, weak) if phrase.expression is not None)
