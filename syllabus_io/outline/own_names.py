"""Names of work that only this course uses, as its grading scheme lists them ("Sketchbook", "Windshield survey")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.records import Category, Kind
from syllabus_io.outline.titles import singular
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import Head, find_heads, word_set

__all__ = ["names_due_where_listed", "own_heads", "own_names", "says_own_name"]

FEWEST_LETTERS = 5
MOST_WORDS = 5
# What a grade counts without its being handed in, and what a schedule names when nothing is due.
_NO_NAMES = word_set(
    "participation attendance engagement involvement contribution contributions effort conduct professionalism",
    "citizenship preparation preparedness class classes lecture lectures lab labs laboratory discussion discussions",
    "reading readings activity activities seminar workshop workshops tutorial tutorials clinical studio rehearsal",
    "practice practicum field trip trips service orientation introduction conference conferences meeting meetings",
    "work weekly daily online in and or of the for extra credit bonus other total points grade grades course",
    "coursework component components unit units module modules chapter chapters topic topics review reviews",
)
_FRONT = re.compile(r"^\W*(?:(?:the|your|first|second|third|final|1st|2nd|3rd)\s+)?", re.IGNORECASE)
_STEP = (
    r"\b(?:is\s+)?due\b|\b(?:first |second |final |rough )?"
    r"(?:draft|check|version|outline|proposal|topic|plan|part|revision)\b"
)
_NUMBERED = re.compile(rf"^\s*(?:(?:(?:no\.?|#)\s*)?(?:\d{{1,2}}|[IVX]{{1,4}}|[A-D])(?![\w/%])|{_STEP})", re.IGNORECASE)
_OWN_NUMBER = re.compile(r"\s+(?:(?:no\.?|#)\s*)?(\d{1,2})(?![\w/%:.]\d|\w|\s*(?:%|points|pts|pages|minutes))")
_DUE_WHERE_LISTED = re.compile(
    r"(?:^|[.;]\s+)(?P<name>[A-Z][\w’'-]*(?:\s[a-z]+)??)(?:\s+(?:pages|problems|exercises|assignments|questions|items))?\s+are\s+"
    r"(?:always\s+)?(?:to\s+be\s+)?(?:due|handed\s+in|turned\s+in|collected|submitted)\b[^.;]{0,60}"
    r"\b(?:day|date|class|session)s?\b[^.;]{0,20}\b(?:appear|are\s+listed|are\s+shown|stand)\b"
)
_ENDS = re.compile(rf"^\s*(?:$|[:;,.(–—-]|{_STEP})", re.IGNORECASE)


def own_names(categories: Sequence[Category]) -> frozenset[str]:
    """The names of categories that are names of work and hold no common word for work, in small letters and as one."""
    names: set[str] = set()
    for category in categories:
        name = re.sub(r"\s*\(.*|\s*[#\d].*|\s*[:–—].*", "", category.name).strip(" .,;").lower()
        words = re.findall(r"[a-z’'-]+", name)
        if not 0 < len(words) <= MOST_WORDS or all(word in _NO_NAMES for word in words):
            continue
        if (len(words) == 1 and len(name) < FEWEST_LETTERS) or any(not head.is_weak for head in find_heads(name)):
            continue
        names |= {name, singular(name)}
    return frozenset(names)


def names_due_where_listed(passages: Sequence[Passage]) -> frozenset[str]:
    """What running text says is due on the day it stands by ("WB pages are handed in on the day they appear": wb)."""
    found = (_DUE_WHERE_LISTED.search(passage.text) for passage in passages if not passage.frame.is_dated)
    return frozenset(match["name"].lower() for match in found if match is not None)


def says_own_name(text: str, names: frozenset[str]) -> bool:
    """Whether a text is such a name with its number or step, or a longer name alone ("Sketchbook check 2")."""
    plain = _FRONT.sub("", text, count=1).lower()
    for name in names:
        behind = plain[len(name) :]
        if plain.startswith(name) and (_NUMBERED.match(behind) or (" " in name and _ENDS.match(behind))):
            return True
    return False


def own_heads(text: str, names: frozenset[str]) -> tuple[Head, ...]:
    """The places where running text names such work, with its number; one word alone counts as a weak work word."""
    found: list[Head] = []
    for name in sorted(names, key=len, reverse=True):
        for match in re.finditer(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text, re.IGNORECASE):
            if any(head.start < match.end() and match.start() < head.end for head in found):
                continue
            number = _OWN_NUMBER.match(text, match.end())
            end = number.end() if number else match.end()
            is_weak = " " not in name and number is None
            kind = kind_of_work(name) or Kind.ASSIGNMENT
            found.append(Head(match.start(), match.end(), end, kind, is_weak, match[0], number[1] if number else ""))
    return tuple(sorted(found, key=lambda head: head.start))
