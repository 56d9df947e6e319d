"""Names that running text gives work: the lead of a paragraph, the name of a list entry, the steps of a project."""

from __future__ import annotations

import re

from syllabus_io.outline.clauses import is_lead, weight_in_brackets
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.items import title_words
from syllabus_io.outline.records import Kind
from syllabus_io.outline.titles import singular, tidy_title
from syllabus_io.outline.work_words import Head, find_heads, word_set
from syllabus_io.resolve.expression import Phrase

__all__ = [
    "counted_due",
    "full_title",
    "is_step",
    "kind_by_last_word",
    "lead_of",
    "name_before_due_date",
    "name_in_list",
    "name_of_lead",
    "unnumbered",
    "within_entry",
    "without_count",
]

_LEAD = re.compile(
    r"^\s*([A-Z][^.:;()]{2,45})(?<!\bMon)(?<!\bTues)(?<!\bTue)(?<!\bWed)(?<!\bThurs)(?<!\bThur)(?<!\bThu)(?<!\bFri)"
    r"(?<!\bSat)(?<!\bSun)(?:\s*\([^()]{2,40}\))?(?::(?!\d)|\.\s+(?=[A-Z]))"
)
_LEAD_WITH_LENGTH = re.compile(
    r"^\s*(?:\([a-z\d]{1,2}\)\s*)?([A-Z][^.:;(),]{2,45})(?:\s*\([^()]{2,40}\))?,\s*(?:about\s+|up to\s+)?\d[\d,–-]*\s*"
    r"(?:words?|pages?|pp|minutes?|hours?)\b"
)
_NUMBERED_NAME = re.compile(
    r"^\s*(?:Assessment(?: [Tt]ask| [Ii]tem)?|Task|Item|Component|Requirement)\s+"
    r"(?:\d{1,2}[a-c]?|[IVX]{1,4}|[A-D])\s*[:.–—-]\s+"
    r"(?=[A-Z][^.:;()]{2,45}(?:\s*\([^()]{2,40}\))?(?::(?!\d)|\.\s+(?=[A-Z])))"
)
_LENGTH = re.compile(r",\s*(?:about\s+)?\d[\d,–-]*\s*(?:pages?|pp|words?|minutes?)\b.*$", re.IGNORECASE)
_ENTRY_NAME = re.compile(r"^\W*([A-Z][^(–—:;.]{3,50}?)\s*(?:\([^)]*(?:%|points?|pts)[^)]*\)|\s[–—-]\s|:(?!\d))")
_COUNT = re.compile(r"^\W*(?:two|three|four|five|six|seven|eight|nine|ten|\d{1,2})\s+(?=[A-Za-z])", re.IGNORECASE)
MOST_NAME_WORDS = 6
_COUNTED_DUE = re.compile(
    r"^\W*(?:two|three|four|five|six|seven|eight|nine|ten|\d{1,2})\s+"
    r"([A-Za-z][\w'’ -]{2,40}?),?\s+(?:(?:is|are)\s+)?due\b[^.;]{0,30}$",
    re.IGNORECASE,
)
_LISTED = re.compile(r"^\W*([A-Z][^.:;()\[\]]{3,60}?)\s*(?:[(\[:]|,|\s[–—-])\s*(?:due\s*)?(?:by|on|:)?\s*$")
_LISTED_PLAIN = re.compile(r"^\W*([A-Z][^.:;()\[\]]{3,60}?)\s+(?:(?:due\s*)?(?:by|on)\s+)?$")
_CALENDAR = re.compile(
    r"\b(?:class(?:es)?|begins?|ends?|starts?|(?:first|last|final) (?:day|meeting|week)|break|recess|holidays?|no|"
    r"day|term|semester|quarter|commencement|graduation|convocation|registration|advising|orientation|open house|"
    r"finals|exam(?:ination)? (?:period|week)|thanksgiving|easter|reading week|review|visit|trip|guest|lectures?|"
    r"meetings?|grades?|deadline|drop|add|withdraw\w*|census|petition|closed|closure|session|revised|updated)\b",
    re.IGNORECASE,
)
_DUE_NAME = re.compile(
    r"^\W*(?:(?:The|Your|An?|Our)\s+)?([A-Za-z][^.:;,()]{3,60}?)\s+(?:(?:is|are)\s+)?due\b[^.;:]{0,6}$"
)
_NO_WORK = re.compile(
    r"\b(?:all|every\w*|work|they|it|these|those|this|that|nothing|none|assignments?|some|most|payments?|tuition|"
    r"fees?|deposits?|applications?|registration|grades?|first|second|third|last|next|other)\s*$|"
    r"\b(?:payments?|tuition|fees?|no|not)\b",
    re.IGNORECASE,
)
_STAGES = word_set("proposal draft outline bibliography abstract revision presentation report prospectus")


def name_in_list(text: str, phrase: Phrase, section: str) -> str | None:
    """The name that stands before the date of an entry in a list of key dates ("Care journal (Sept. 18)") or of one
    that says what it counts ("Care journal: Sept. 18 (10%)"); None where it names a day of the calendar."""
    is_graded = weight_in_brackets(text, phrase.end) is not None
    if not is_graded and section_kind(section) not in (SectionKind.KEY_DATES, SectionKind.WORK):
        return None
    match = _LISTED.match(text[: phrase.start])
    if match is None and section_kind(section) is SectionKind.KEY_DATES:
        match = _LISTED_PLAIN.match(text[: phrase.start])
    if match is None or _CALENDAR.search(match[1]) or not is_lead(match[1]):
        return None
    return match[1] if len(match[1].split()) <= MOST_NAME_WORDS else None


def kind_by_last_word(name: str) -> Kind:
    """The kind of work that the last word of a name says ("Jazz recital"), an assignment where it says none."""
    strong = [head for head in find_heads(name) if not head.is_weak and head.end == len(name.rstrip())]
    return strong[-1].kind if strong else Kind.ASSIGNMENT


def name_before_due_date(text: str) -> str | None:
    """What opens a sentence and is due at its end ("The first ten pages are due", "Map sheet due"), None without."""
    match = _DUE_NAME.match(text)
    if match is None or _NO_WORK.search(match[1]) or len(match[1].split()) > MOST_NAME_WORDS:
        return None
    return match[1] if is_lead(match[1]) else None


def lead_of(text: str) -> re.Match[str] | None:
    """The name a paragraph opens with, also before its length ("Essay, 1,000 words, …"); None where it opens with a
    sentence."""
    match = _LEAD.match(text) or _LEAD_WITH_LENGTH.match(text)
    return match if match is not None and is_lead(match[1]) else None


def name_of_lead(lead: re.Match[str]) -> str:
    """The title that a lead gives, without its length ("Final essay, 10 pages (30%).": Final essay)."""
    return tidy_title(_LENGTH.sub("", lead[1]))


def counted_due(front: str, paragraph: str) -> str | None:
    """The name of works that a sentence counts before their dates ("Three short maps, due in …"): that of the lead of
    its paragraph where this ends in the same word ("Field maps, 10%."), else its own; None for other sentences."""
    match = _COUNTED_DUE.match(front)
    if match is None:
        return None
    name = tidy_title(match[1])
    lead = lead_of(paragraph)
    called = (
        tidy_title(re.sub(r",?\s*\d[\d.]*\s*(?:%|points?|pts)\s*$", "", name_of_lead(lead))) if lead is not None else ""
    )
    return called if called.lower().split()[-1:] == name.lower().split()[-1:] else name


def unnumbered(text: str) -> str:
    """The text of a paragraph with blanks for the number before the name it opens with: "Task 2: Field notebook. …"."""
    match = _NUMBERED_NAME.match(text)
    return " " * match.end() + text[match.end() :] if match is not None else text


def without_count(title: str) -> str:
    """A title without the number of works it opens with ("Two essays": essays)."""
    return _COUNT.sub("", title)


def is_step(title: str, head: Head) -> bool:
    """Whether a title is that of a step of a project: its name, then the step ("Data project report")."""
    return head.kind is Kind.ASSIGNMENT and any(one.kind is Kind.PROJECT for one in find_heads(title)[:1])


def within_entry(title: str, text: str) -> str:
    """A bare title with the name of its list entry ("Term paper (35%) – proposal due …": Term paper proposal)."""
    entry = _ENTRY_NAME.match(text)
    if entry is None or len(title.split()) > 1 or not find_heads(entry[1]) or not is_lead(entry[1]):
        return title
    name = tidy_title(without_count(tidy_title(entry[1])))
    words = title_words(title)
    if words <= title_words(name):
        return name
    return f"{name} {singular(title.lower())}" if words <= _STAGES else title


def full_title(title: str) -> str:
    return "Final exam" if title.lower() in ("final", "the final") else title
