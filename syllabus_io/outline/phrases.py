"""Date phrases in the texts of an outline; a text that is asked for again is not parsed again."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from syllabus_io.resolve.expression import MonthDay, NumericDate, Phrase

__all__ = ["dated_phrases", "phrases_in"]

_MISPRINT = re.compile(r"(?<![\d/.])(\d{1,2})/(\d?(\d))\3(?![\d/.%])(?<=\d{3})")


def phrases_in(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The date and time phrases of a text, left to right; ``weak`` adds bare weekdays, day numbers and times."""
    return _phrases_in(text, weak)


@lru_cache(maxsize=8192)
def _phrases_in(text: str, weak: bool) -> tuple[Phrase, ...]:
    from syllabus_io.resolve.running_text import find_phrases

    found = find_phrases(text, weak=weak)
    return (
        tuple(sorted((*found, *_misprints(text)), key=lambda phrase: phrase.start)) if _MISPRINT.search(text) else found
    )


def _misprints(text: str) -> Iterator[Phrase]:
    """Numeric dates with one digit struck twice ("9/111"), read without the second and marked."""
    for match in _MISPRINT.finditer(text):
        month, day = int(match[1]), int(match[2])
        if 1 <= month <= 12 and 1 <= day <= 31:
            expression = NumericDate(month, day) if day <= 12 else MonthDay(month, day)
            doubt = f"the outline writes “{match[0]}”, read as {match[1]}/{match[2]}"
            yield Phrase(match[0], match.start(), match.end(), expression, doubts=(doubt,))


def dated_phrases(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The phrases of a text that name a day or a stretch, times alone left out."""
    return tuple(phrase for phrase in phrases_in(text, weak) if phrase.expression is not None)
