"""Date phrases in the texts of an outline; a text that is asked for again is not parsed again."""

from __future__ import annotations

from functools import lru_cache

from syllabus_io.resolve.expression import Phrase

__all__ = ["dated_phrases", "phrases_in"]


@lru_cache(maxsize=8192)
def phrases_in(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The date and time phrases of a text, left to right; ``weak`` adds bare weekdays, day numbers and times."""
    from syllabus_io.resolve.parse import find_phrases

    return find_phrases(text, weak=weak)


def dated_phrases(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """The phrases of a text that name a day or a stretch, times alone left out."""
    return tuple(phrase for phrase in phrases_in(text, weak) if phrase.expression is not None)
