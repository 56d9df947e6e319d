"""Labels of course facts ("Instructor:", "Class time", "Office hours"): what each of them introduces."""

from __future__ import annotations

import re
from enum import Enum
from functools import cache, lru_cache

__all__ = ["LabelKind", "find_labels", "label_kind"]


class LabelKind(Enum):
    """The fact that a label introduces. OTHER: a known label that only ends the value before it."""

    CODE = "code"
    TITLE = "title"
    SECTION = "section"
    TERM = "term"
    INSTRUCTOR = "instructor"
    ASSISTANT = "assistant"
    EMAIL = "email"
    PHONE = "phone"
    OFFICE = "office"
    OFFICE_HOURS = "office hours"
    ROOM = "room"
    CREDITS = "credits"
    MEETINGS = "meetings"
    OTHER = "other"


# Patterns of whole labels in lower case; the first kind that fits wins.
_PATTERNS: tuple[tuple[LabelKind, str], ...] = (
    (
        LabelKind.OFFICE_HOURS,
        r"(?:[a-z'’.-]+ ){0,2}(?:office|student|drop-?in|contact|consultation|consulting|help|"
        r"advising)[ -](?:hours?|hrs\.?)"
        r"(?: (?:and|&|/) (?:location|place))?(?: \([^)]*\))?|consultations?|availability|"
        r"days and times? of office hours",
    ),
    (
        LabelKind.ASSISTANT,
        r"(?:graduate |undergraduate |head )?(?:teaching|course|lab|learning) (?:assistants?|fellows?|"
        r"support)(?:\(s\))?|"
        r"(?:g?ta|ta|la|ca)s?(?:\(s\)|'s)?(?: info(?:rmation)?)?|graders?|tutors?|lab (?:instructor|support|"
        r"coordinator)s?",
    ),
    (
        LabelKind.INSTRUCTOR,
        r"(?:(?:course|primary|lead|your|lecture) )?(?:instructor|professor|prof\.?|lecturer|teacher|faculty|convenor|"
        r"convener|facilitator|module leader|course director|course coordinator|coordinator)(?:s|\(s\))?"
        r"(?:['’]s)?(?: name| information| info| details| contact information)?|taught by|name|instructor name",
    ),
    (LabelKind.EMAIL, r"(?:(?:instructor|contact|my|course|office|work|school) )?e-?mails?(?: address(?:es)?)?"),
    (
        LabelKind.PHONE,
        r"(?:(?:office|cell|work|mobile|voice|contact|home) )?(?:tele)?phone(?: number| no\.?)?|tel\.?|cell|mobile|"
        r"(?:office|cell|phone) (?:number|no\.?)|phone/voicemail|voicemail",
    ),
    (
        LabelKind.OFFICE,
        r"(?:(?:instructor(?:['’]s)?|my|faculty) )?office(?: location| room| address| building| no\.?| #)?",
    ),
    (
        LabelKind.MEETINGS,
        r"(?:(?:regular|scheduled|weekly) )?(?:course|class|lecture|lab|laboratory|seminar|section|recitation|"
        r"discussion|"
        r"tutorial|meeting)s?(?: (?:period|meeting))?[ /-](?:meets?|meetings?|hours?|times?|days?|schedule|"
        r"sessions?|period|"
        r"dates?)(?:(?: ?[/&,] ?| and | )(?:times?|days?|dates?|location|place|room|hours?|"
        r"where))*(?: of class meetings)?|"
        r"(?:time|day|date|place|location)s?(?: ?[/&,] ?| and )(?:time|day|place|location|room|date)s?"
        r"(?: of (?:the )?(?:class|course|class meetings|meetings?|lectures?))?|"
        r"classes|times?|days|when|meetings?|meets|meeting pattern|class meets|lectures?|"
        r"lectures?/labs?|labs?|laboratory|recitations?|discussion(?: section)?s?|tutorials?|seminars?|studio|"
        r"clinicals?|practicum|"
        r"hours|period|"
        r"block|sessions|schedule|when (?:and|&) where",
    ),
    (
        LabelKind.ROOM,
        r"(?:(?:class|lecture|meeting|course|lab) ?)?(?:rooms?|location|place|venue|classroom|building)(?: number|"
        r" no\.?)?|"
        r"where|room/location|location/room|classroom location",
    ),
    (
        LabelKind.CODE,
        r"course(?: (?:number|code|no\.?|num\.?|id|#|prefix (?:and|&) number))?|course/section|class|subject",
    ),
    (LabelKind.TITLE, r"(?:course|class) (?:title|name)|title"),
    (LabelKind.SECTION, r"(?:course )?section(?: number| no\.?| #|\(s\))?|sec\.?|class (?:number|no\.?|nbr)|crn"),
    (
        LabelKind.TERM,
        r"(?:academic )?(?:term|semester|quarter|session|trimester|year)(?: ?[/&] ?year| and year)?|academic year",
    ),
    (
        LabelKind.CREDITS,
        r"(?:number of |course )?(?:credits?|units|ects|credit points)(?: hours?| hrs\.?| value)?(?:\(s\))?|"
        r"(?:semester|quarter|credit|contact) (?:credit )?hours?|course credits.*",
    ),
    (
        LabelKind.OTHER,
        r"(?:course |class )?(?:web ?site|web ?page|url|web|home ?page)|texts?|(?:required )?textbooks?|"
        r"pre-?requisites?|"
        r"co-?requisites?|department|school|college|fax|mailbox|zoom(?: link)?|note|notes|final exam|exams?|"
        r"description",
    ),
)


@cache
def _whole() -> tuple[tuple[LabelKind, re.Pattern[str]], ...]:
    return tuple((kind, re.compile(pattern, re.IGNORECASE)) for kind, pattern in _PATTERNS)


@cache
def _inside() -> re.Pattern[str]:
    union = "|".join(f"(?:{pattern})" for _, pattern in _PATTERNS)
    return re.compile(rf"(?<![\w@/.-])({union})\s?:(?!//|\d\d)\s*", re.IGNORECASE)


@lru_cache(maxsize=8192)
def label_kind(label: str) -> LabelKind | None:
    """The fact that a label introduces, the whole label being a known one; None for others."""
    label = " ".join(label.split())
    if not 2 <= len(label) <= 60:
        return None
    for kind, pattern in _whole():
        if pattern.fullmatch(label):
            return kind
    return None


def find_labels(text: str) -> tuple[tuple[int, int, LabelKind | None, str], ...]:
    """The labels with a colon in a line: start, end of the colon, kind and label, the first at the line's start.

    Empty when the line does not begin with a label; an unknown label at the start has kind None.
    """
    opening = re.match(r"[^\w]{0,3}([A-Za-z][^:\n]{1,60}?)\s?:(?!//|\d)\s*", text)
    if not opening:
        return ()
    label = opening[1].strip()
    kind = label_kind(label) or label_kind(re.sub(r"\s*\([^)]*\)$", "", label))
    if kind is None and len(label.split()) > 6:
        return ()
    found: list[tuple[int, int, LabelKind | None, str]] = [(0, opening.end(), kind, label)]
    found.extend(
        (match.start(), match.end(), label_kind(match[1]), match[1])
        for match in _inside().finditer(text, opening.end())
    )
    return tuple(found)
