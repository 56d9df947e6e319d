"""Days counted from a thing that only the outline's own words name: "two days after the site visit".

No rule knows such words. What they mean is found among the items of the outline; without one the day stays open.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from syllabus_io.resolve.expression import Anchor, Offset, Phrase, Reference
from syllabus_io.resolve.words import FUNCTION_WORDS, MONTHS, WEEKDAYS

__all__ = ["RULE_NAME", "counted_part", "with_named_base"]

#: The name under which such a phrase is listed among the rules that read it.
RULE_NAME: Final = "<count> <unit> after the <thing>"
_ARTICLE = re.compile(r"\s+(?:the|your|our|this|that|my|their)\s+", re.IGNORECASE)
_COUNTED = re.compile(rf".*?\bafter(?={_ARTICLE.pattern})", re.IGNORECASE | re.DOTALL)
_WORD = re.compile(r"[^\W\d_][\w'’-]*")
_VERBS = "am was were be been will has have had must should can you we they he she due who which when"
_NO_NAME: Final = FUNCTION_WORDS | MONTHS.keys() | WEEKDAYS.keys() | set(_VERBS.split())
_MOST_WORDS: Final = 3


def counted_part(text: str) -> str | None:
    """The words of a text up to "after", where a thing follows; None without."""
    match = _COUNTED.match(text)
    return match[0] if match else None


def with_named_base(phrase: Phrase, text: str) -> Phrase:
    """The phrase counted from the thing that the words behind it in ``text`` name; as it is when they name none."""
    offset = phrase.expression
    if not isinstance(offset, Offset) or offset.base != Reference() or not phrase.text.lower().endswith("after"):
        return phrase
    article = _ARTICLE.match(text, phrase.end)
    if article is None:
        return phrase
    words: list[str] = []
    end = article.end()
    for match in _WORD.finditer(text, article.end()):
        if text[end : match.start()].strip(" ") or match[0].lower() in _NO_NAME or len(words) == _MOST_WORDS:
            break
        words.append(match[0].lower())
        end = match.end()
    if not words:
        return phrase
    counted = replace(offset, base=Anchor(" ".join(words)))
    rules = (RULE_NAME, *phrase.rules)
    return replace(phrase, text=text[phrase.start : end], end=end, expression=counted, rules=rules)
