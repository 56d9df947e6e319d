"""Short names that an outline gives its books: "Voices: A Reader (“Voi.”)", "HCM = Hall and Moss", then "HCM 3–14"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.work_words import find_heads

__all__ = ["read_text_names", "texts_cited"]

_QUOTED = re.compile(r"\(\s*(?:abbreviated\s+)?[“\"](?P<name>[A-Z][A-Za-z]{0,7}\.?)[”\"]\s*\)")
_BARE = re.compile(r"\((?P<name>[A-Z]{1,5})\)")
_EQUALS = re.compile(r"(?<![\w-])(?P<name>[A-Z]{2,5})\s*=\s*(?=[A-Z][a-z]+(?:,|\s+(?:and|&|[A-Z])))")


def read_text_names(passages: Iterable[Passage]) -> frozenset[str]:
    """The short names of books, as running text explains them; names of work are none."""
    found: set[str] = set()
    for passage in passages:
        if passage.frame.is_dated:
            continue
        patterns = (_QUOTED, _BARE, _EQUALS) if section_kind(passage.section) is SectionKind.MATERIALS else (_EQUALS,)
        for pattern in patterns:
            found |= {match["name"] for match in pattern.finditer(passage.text)}
    return frozenset(name for name in found if not find_heads(f"{name} 1"))


def texts_cited(text: str, names: frozenset[str]) -> Sequence[tuple[int, int]]:
    """The places where a text cites pages or chapters of such a book ("Rivers. HCM ch. 4"): start and end."""
    if not names:
        return ()
    short = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    short = short.replace(r"\.", r"\.?")
    cited = re.compile(
        rf"(?:^|(?<=[.;,:?!]\s)|(?<=\bRead\s)|(?<=\bread\s))(?:{short})\s+"
        r"(?:(?:chs?|pp?|secs?|chapters?|pages?|sections?)\.?\s*)?\d{1,4}(?:\s*[-–,&]\s*\d{1,4})*(?![\w:/])(?:\s*\([^()]{2,30}\))?"
    )
    return [match.span() for match in cited.finditer(text)]
