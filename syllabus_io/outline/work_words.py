"""Work named in a text: the head words, their numbers, and what stands beside them that makes them no work."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from syllabus_io.outline.records import Kind
from syllabus_io.outline.vocabulary import find_work_words

__all__ = [
    "Head",
    "find_heads",
    "is_announced",
    "is_negated",
    "is_passed_over",
    "mentions_due",
    "number_of",
    "roman",
    "word_set",
]

_COMPOUND = re.compile(r"(?<![A-Za-z])([A-Za-z]{2,}(?:exam|quiz|test)(?:s|es|zes)?)(?![A-Za-z])", re.IGNORECASE)
_SHORT_QUIZ = re.compile(r"(?<![A-Za-z0-9])(Q)(?=\s?\d{1,2}(?!\d))")
_SHORT_NAME = re.compile(r"(?<![A-Za-z0-9])([A-Z]{2,5})(?=\s?#\s?\d)")  # "LEQ #1"
_NUMBER = re.compile(
    r"\s*[-–]?\s*(?:#|nos?\.?(?=\s*\d)|numbers?(?=\s*\d))?\s*"
    r"(\d{1,3}[A-Za-z]?(?![\w%/]|:\d|\.\d|\s*(?:%|points?\b|pts?\b|percent\b|pages?\b|words?\b|minutes?\b|hours?\b|am\b|pm\b))"
    r"|[IVX]{1,4}(?![\w'’])|[A-HJ-Z]\d{0,2}(?![\w'’]|\.\w|-\d))"
)
_BEFORE_NUMBER = re.compile(
    r"(?:^|[\s(])(\d{1,2})(?:st|nd|rd|th)\s+(?:[a-z]+\s+)?$|(first|second|third|fourth|fifth)\s+(?:[a-z]+\s+)?$",
    re.IGNORECASE,
)
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
_ROMAN = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "X": 10}

_DUE = re.compile(
    r"\b(?:due|deadline|submit(?:ted)?|turn(?:ed)?[\s-]+(?:it\s+|them\s+)?in|hand(?:ed)?[\s-]+(?:it\s+|them\s+)?in|"
    r"upload(?:ed)?|post by|complete[d]? by|finish by|no later than|closes|collected|must be (?:received|completed))\b",
    re.IGNORECASE,
)
_ANNOUNCED = re.compile(
    r"\b(?:(?:is|are|will be)?\s*(?:assigned|handed out|given out|distributed|released|introduced|announced|returned|"
    r"handed back|passed back|graded|posted|available|discussed|reviewed|explained)|handout|hand out|opens?|"
    r"goes out|(?<=[\w#])\s+out(?=\W*$)|"
    r"sign[\s-]?ups?|assign)\b",
    re.IGNORECASE,
)
_FIXED_ELSEWHERE = re.compile(
    r"\b(?:scheduled|set|fixed|determined|announced|assigned|posted) by (?:the )?"
    r"(?:registrar|university|college|school|department|office)\b"
    r"|\bto be (?:announced|determined|arranged|scheduled)\b",
    re.IGNORECASE,
)
_NEGATED = re.compile(
    r"\b(?:no|not|without|instead of)\s+(?:(?:more|new|weekly|reading|written|lab|class|in-class|video|online|"
    r"final|midterm)\s+){0,2}"
    r"(?:quiz(?:zes)?|exams?|tests?|homework|hw|assignments?|labs?|papers?|problem sets?|presentations?|"
    r"projects?|essays?|"
    r"discussions?|posts?|readings?|midterms?|finals?|journal|weekly|due|work)\b"
    r"|\b(?:cancel(?:l)?ed|postponed|nothing (?:due|to turn in))\b|^\W*(?:none|n/?a|tba|tbd)\W*$|:\s*none\b",
    re.IGNORECASE,
)
_PASSED_BEFORE = re.compile(
    r"(?:\b(?:review(?:ing)?(?:\s+session)?\s+(?:for|of|and\s+prep\w*\s+for)|review(?:ing)?|prep(?:are|aring|aration)?\s+(?:for|of)|"
    r"study(?:ing)?\s+(?:for|guide)|work(?:ing|s)?\s+(?:in\s+\w+\s+)?on|introduc(?:e|ing|tion)\s+(?:and\s+\w+\s+)?(?:of|to)|intro\s+to|"
    r"discuss(?:ion|ing)?(?:\s+of|\s+about)?|go(?:ing)?\s+over|begin(?:ning)?|start(?:ing|ed)?|continu(?:e|ing)|"
    r"overview\s+of|explain(?:ing)?|explanation\s+of|return(?:ing)?|hand(?:ing)?\s+(?:back|out)|watch(?:ing)?|describe|assign|"
    r"remind(?:er)?(?:\s+of)?|questions?\s+(?:about|on|for)|practice|mock|sample|example|after|before|since|until|"
    r"(?:all\s+)?about|guest\s+(?:lecturer?|speaker)?|lecturer|office\s+hours\s+for|help\s+(?:with|on)|choose|select|plan(?:ning)?\s+(?:for)?|"
    r"hypothesis|diagnostic|make[\s-]?up|makeup|missed|topics?\s+for|ideas?\s+for|feedback\s+on|critique\s+of|results?\s+of))"
    r"\s+(?:and\s+explain\s+)?(?:the\s+|a\s+|an\s+|your\s+|our\s+|of\s+|for\s+|on\s+|\w+['’]s\s+|first\s+|final\s+|"
    r"mid-?term\s+|next\s+|in\s+class\s+|group\s+|guest\s+)*$",
    re.IGNORECASE,
)
_PASSED_AFTER = re.compile(
    r"^s?\s*(?:#?\s*(?:\d{1,2}|[IVX]+|[A-H])\s*)?[-–—:&,/]?\s*(?:and\s+)?(?:exam\s+|course\s+)?\(?"
    r"(?:review|reviews|covers?|covering|prep|preparation|solutions?|answer key|key|debrief|guidelines?|overview|"
    r"workshop|"
    r"work\s*(?:day|time|session)?|"
    r"instructions?|returned|results?|feedback|help|q\s*&\s*a|statistics?|management|policy|information|info|introduction|intro|"
    r"handout|explanation|demo|discussion|planning|brainstorm\w*|kick-?off|consult\w*|conferences?|meetings?|mtg|"
    r"design principles|theory|methods?|skills|strategies|study guide|window|sign[\s-]?up|groups? formed|"
    r"assigned|catch[\s-]?up|"
    r"averages?(?=\s+(?:last|of|was|were|is)\b)|"
    r"begins?|continued|ongoing|selection process|format|of hypotheses|of linear|for normality|questions)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Head:
    """A work word in a text, with the number that goes with it. ``end`` lies behind the number."""

    start: int
    word_end: int
    end: int
    kind: Kind
    is_weak: bool
    word: str
    number: str = ""


def word_set(*rows: str) -> frozenset[str]:
    """The words of some rows of text, as a set."""
    return frozenset(word for row in rows for word in row.split())


def roman(number: str) -> int | None:
    """A number written in figures or Roman numerals as an integer; None for letters."""
    match = re.match(r"\d+", number)
    return int(match[0]) if match else _ROMAN.get(number)


def number_of(head: Head) -> int | None:
    """The place of the work in its series, None when it has none."""
    return roman(head.number)


@lru_cache(maxsize=4096)
def find_heads(text: str) -> tuple[Head, ...]:
    """The work words of a text with their numbers, left to right, readings left out."""
    spans: list[tuple[int, int, Kind, bool]] = []
    for start, end, word in find_work_words(text):
        if word.kind is not Kind.READING:
            spans.append((start, end, word.kind, word.is_weak))
    taken = [(s, e) for s, e, _, _ in spans]
    for match in _COMPOUND.finditer(text):
        if not any(s < match.end(1) and match.start(1) < e for s, e in taken) and _is_compound(match[1].lower()):
            kind = Kind.QUIZ if "quiz" in match[1].lower() else Kind.EXAM
            spans.append((match.start(1), match.end(1), kind, False))
    spans += [(match.start(1), match.end(1), Kind.QUIZ, False) for match in _SHORT_QUIZ.finditer(text)]
    for match in _SHORT_NAME.finditer(text):
        if not any(s < match.end(1) and match.start(1) < e for s, e, _, _ in spans):
            spans.append((match.start(1), match.end(1), Kind.ASSIGNMENT, False))
    return tuple(_head(text, span) for span in sorted(spans))


def _is_compound(word: str) -> bool:
    """Whether a word is one with "exam", "quiz" or "test" at its end; few words with "test" are."""
    return not word.endswith(("test", "tests")) or word.startswith(("pre", "post"))


def _head(text: str, span: tuple[int, int, Kind, bool]) -> Head:
    start, end, kind, weak = span
    match = _NUMBER.match(text, end)
    number, stop = (match[1], match.end()) if match else ("", end)
    if not number:
        before = _BEFORE_NUMBER.search(text[:start])
        if before:
            number = before[1] or str(_ORDINALS[before[2].lower()])
    return Head(start, end, stop, kind, weak, text[start:end], number)


def mentions_due(text: str) -> bool:
    """Whether a text says that something is to be handed in."""
    return bool(_DUE.search(text))


def is_announced(text: str) -> bool:
    """Whether a text says that work is given out, opened, discussed or returned, and not that it is due."""
    return bool(_ANNOUNCED.search(text)) and not re.search(r"\b(?:due|deadline)\b", text, re.IGNORECASE)


def is_negated(text: str) -> bool:
    """Whether a text says that there is no work ("no quiz today"), or that its date is fixed elsewhere: what only
    follows a dated line then has nothing to do with that date."""
    return bool(_NEGATED.search(text)) or (bool(_FIXED_ELSEWHERE.search(text)) and not re.search(r"\d", text))


def is_passed_over(text: str, head: Head) -> bool:
    """Whether the words beside a work word make it no work to hand in or sit ("exam review", "work on essay 2")."""
    return bool(_PASSED_BEFORE.search(text[: head.start]) or _PASSED_AFTER.match(text[head.word_end :]))
