"""Names of grading categories: what a sentence calls a part of the grade, without its verb and its date."""

from __future__ import annotations

import re

from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.titles import tidy_title

__all__ = ["category_name"]

_VERB = re.compile(
    r"^(?:(?:you|students|we)\s+(?:will\s+|must\s+)?(?:write|give|take|sit|submit|complete|have|do|make)|"
    r"(?:(?:it|the (?:module|course|unit|class)) is\s+)?assessed (?:by|through|on)|"
    r"(?:it\s+)?consists? of|there (?:is|are|will be))\s+"
    r"(?:(?:an?|the|your|\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)\s+)?(?:pieces? of\s+)?",
    re.IGNORECASE,
)
_SPECIFICATION = re.compile(
    r",\s*(?:(?:about\s+|up to\s+)?\d[\d,–-]*\s*(?:pages?|pp?\b|words?|minutes?|hours?|h\b)|"
    r"(?:in|out of) class\b|in-class\b|closed[- ]book|open[- ]book|take-home\b).*$",
    re.IGNORECASE,
)
_OTHER_CLAUSE = re.compile(r"^(?:is|are|will|due|on|by)\b[^;]*;\s*", re.IGNORECASE)
_BEFORE_DATE = re.compile(
    r"[\s,;:(–—-]*\b(?:is\s+|are\s+)?(?:due|held|given|scheduled)?\s*(?:on|by|from|at)?\s*$", re.IGNORECASE
)


def category_name(name: str) -> str:
    """The name without the words of the sentence around it; the name itself where nothing would be left.

    >>> category_name("Assessed by one piece of coursework")
    'Coursework'
    """
    plain = _SPECIFICATION.sub("", _OTHER_CLAUSE.sub("", _VERB.sub("", name)))
    days = [phrase for phrase in dated_phrases(plain) if re.search(r"\d", phrase.text) and phrase.start > 3]
    if days:
        plain = _BEFORE_DATE.sub("", plain[: days[0].start])
    plain = tidy_title(plain) if plain != name else name
    return plain if re.search(r"[A-Za-z]{3}", plain) else name
