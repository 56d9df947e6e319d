"""Phrases in other languages, turned into English words by ``dateparser`` and then read by the same rules.

Spanish, French, German, Portuguese and Italian are tested. The library only translates: no year is guessed and no
clock is asked. It is imported when a text has a month or weekday word of another language, and not before.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Final

from syllabus_io.resolve.words import FOREIGN_JOINTS, FOREIGN_MONTHS, FOREIGN_WEEKDAYS

__all__ = ["RULE_NAME", "foreign_stretches", "has_foreign_word", "in_english"]

#: The name under which a translated phrase is listed among the rules that read it.
RULE_NAME: Final = "<phrase in another language>"

_LANGUAGES_OF: Final[dict[str, frozenset[str]]] = {}
for _table in (FOREIGN_MONTHS, FOREIGN_WEEKDAYS):
    for _language, _words in _table.items():
        for _word in _words.split():
            _LANGUAGES_OF[_word] = _LANGUAGES_OF.get(_word, frozenset()) | {_language}
_WORDS: Final = frozenset(_LANGUAGES_OF)
#: Words that English has too; alone they show no other language.
_ENGLISH_TOO: Final = frozenset({"mars", "mayo", "mai", "domingo", "marzo"})
_WORD = re.compile(r"[^\W\d_]+(?:-feira)?")


def _pattern(words: Iterable[str]) -> str:
    return "|".join(sorted(map(re.escape, words), key=len, reverse=True))


_MONTH = _pattern(word for line in FOREIGN_MONTHS.values() for word in line.split())
_WEEKDAY = _pattern(word for line in FOREIGN_WEEKDAYS.values() for word in line.split())
_DAY = r"\d{1,2}(?:er|[.ºª°])?"
#: How many characters of a phrase may stand on either side of its month or weekday.
_REACH: Final = 40
_TIME = r"(?:a las?|à|um|alle ore|alle|às)\s+(\d{1,2})(?:[:h.](\d{2}))?(?:\s*(?:h|uhr|horas)\b)?"
_CLOCK = re.compile(_TIME, re.IGNORECASE)
_STRETCH = re.compile(
    rf"(?:\b(?:{_WEEKDAY})\b[.,]?\s+(?:(?:den|der|dem|le|el|il|dia|día)\s+)?)?"
    rf"(?<![\w./-]){_DAY}(?:\s*(?:-|–|al|bis|au|ao|a|zum)\s*{_DAY})?\s+(?:de\s+|d['’])?(?:{_MONTH})\b\.?"
    r"(?:,?\s+(?:(?:de|del)\s+)?\d{4}\b)?"
    rf"(?:,?\s+{_TIME})?",
    re.IGNORECASE,
)


def has_foreign_word(words: Iterable[str]) -> bool:
    """Whether one of some lower-case words is a month or weekday of another language."""
    return not _WORDS.isdisjoint(words)


def in_english(text: str) -> Iterator[str]:
    """The text with its date words in English, once for each language that has all of its month and weekday words."""
    words = [word for word in _WORD.findall(text.lower()) if word in _WORDS]
    if not words:
        return
    languages = frozenset.intersection(*(_LANGUAGES_OF[word] for word in words))
    for language in sorted(languages):
        yield _translated(text, language)


@lru_cache(maxsize=512)
def _translated(text: str, language: str) -> str:
    from dateparser.conf import settings
    from dateparser.languages.loader import default_loader

    clocked = _CLOCK.sub(lambda time: f"{time[1]}:{time[2] or '00'}", text)
    joined = re.sub(r"[^\W\d_]+", lambda word: FOREIGN_JOINTS.get(word.group().lower(), word.group()), clocked)
    joined = re.sub(r"(\d)\s*(?:er|º|ª|°)(?!\w)", r"\1", joined)
    locale = default_loader.get_locale(language)
    translated: str = locale.translate(joined, keep_formatting=True, settings=settings)
    return re.sub(r"(?<=[a-z])\.(?=\s|$)", "", translated)


def foreign_stretches(text: str) -> tuple[tuple[int, int], ...]:
    """Where days with a month of another language stand in running text, as half-open ranges of characters."""
    # not over text.lower(), in which some letters of other languages become two
    places = [match.span() for match in _WORD.finditer(text) if match.group().lower() in _WORDS]
    if {text[start:end].lower() for start, end in places} <= _ENGLISH_TOO:
        return ()
    found: list[tuple[int, int]] = []
    for start, end in places:
        match = _STRETCH.search(text, max(found[-1][1] if found else 0, start - _REACH), end + _REACH)
        if match is not None:
            found.append(match.span())
    return tuple(found)
