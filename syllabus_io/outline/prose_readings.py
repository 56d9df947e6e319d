"""Readings that running text dates: "For Monday, May 4, read Lowe, pp. 3-20", "Read chapter 2 by May 6"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from syllabus_io.outline.frames import Passage, is_single_day
from syllabus_io.outline.phrases import dated_phrases, phrases_in
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.titles import tidy_title
from syllabus_io.resolve.expression import Phrase, Reference
from syllabus_io.resolve.expression_parts import parts_of

__all__ = ["read_prose_readings"]

_FOR_DAY = re.compile(
    r"(?:^|[,;:(]\s*|\b(?:and|then)\s+)(?:for|by|before|on|until)\s+"
    r"(?:(?:the|our|your)\s+(?:class|tutorial|seminar|lecture|session|meeting|discussion)\s+(?:on|of)\s+)?$",
    re.IGNORECASE,
)
_THEN_READ = re.compile(
    r"[\s,:]*(?:please\s+|you\s+(?:should\s+|will\s+|must\s+)?|we\s+(?:will\s+)?)*read\s+", re.IGNORECASE
)
_READ_WHAT = re.compile(
    r"(?:^|[.;,:]\s*|\b(?:and|please|must|should|will|to)\s+)(?:read|finish reading|have read)\s+"
    r"(?P<what>[^;]{3,120}?)\s*,?\s+(?:for|by|before)\s+(?:class\s+on\s+)?$",
    re.IGNORECASE,
)
_FOR_THAT_DAY = re.compile(r"\bfor (?:that|this) (?:day|class|date)\b,?\s*(?:please\s+|you\s+)?read\s+", re.IGNORECASE)
_OTHER_WORK = re.compile(r"\b(?:due|if|unless|late|submit|hand in|turn in)\b", re.IGNORECASE)
_ENDS = re.compile(r"[.;]\s|[.;]$|\band\s+(?:for|by)\s+(?=[A-Z\d])|$")
_ABBREVIATED = re.compile(r"\b(?:pp?|chs?|secs?|vol|nos?|ed|eds|fol|figs?)\.$", re.IGNORECASE)


def read_prose_readings(passage: Passage) -> Iterator[Item]:
    """The readings that sentences of a passage give for one day each."""
    for sentence in sentences_of(passage.text):
        text = sentence.text
        if not re.search(r"\bread", text, re.IGNORECASE) or _OTHER_WORK.search(text):
            continue
        days = [phrase for phrase in dated_phrases(text) if _is_day(phrase)]
        for phrase, what in _pairs(text, days):
            title = _title(what)
            if not re.search(r"\w{2}", title):
                continue
            place = passage.place_of(sentence.start + phrase.start, sentence.start + phrase.end)
            mention = Mention(phrase, place, phrase.text, " ".join(text.split()), passage.frame.row, phrase.doubts)
            yield Item(Kind.READING, title, (mention,))


def _is_day(phrase: Phrase) -> bool:
    expression = phrase.expression
    return (
        expression is not None
        and is_single_day(expression)
        and not any(isinstance(part, Reference) for part in parts_of(expression))
    )


def _pairs(text: str, days: list[Phrase]) -> Iterator[tuple[Phrase, str]]:
    """Each day of a sentence with the words of what is to be read for it."""
    begin = 0
    for phrase in days:
        opened = _THEN_READ.match(text, phrase.end)
        asked = _READ_WHAT.search(text[begin : phrase.start])
        if opened and _FOR_DAY.search(text[: phrase.start]):
            yield phrase, _up_to_end(text, opened.end())
        elif asked:
            yield phrase, asked["what"]
        begin = phrase.end
    that_day = _FOR_THAT_DAY.search(text)
    before = [phrase for phrase in days if that_day and phrase.end <= that_day.start()]
    if that_day and before:
        yield before[-1], _up_to_end(text, that_day.end())


def _up_to_end(text: str, start: int) -> str:
    for match in _ENDS.finditer(text, start):
        if not _ABBREVIATED.search(text[start : match.start() + 1]):
            return text[start : match.start()]
    return text[start:]


def _title(what: str) -> str:
    for phrase in reversed(phrases_in(what)):
        if phrase.expression is not None:
            what = what[: phrase.start]
    return tidy_title(re.sub(r"^(?:the|your|our)\s+", "", what.strip(), flags=re.IGNORECASE))
