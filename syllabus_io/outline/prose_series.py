"""Work that sentences only count or point back to: "the second on May 4", "There are three: …", "one week later"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.prose_names import full_title, lead_of, without_count
from syllabus_io.outline.records import Kind
from syllabus_io.outline.titles import noun_phrase, singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import Head, find_heads, mentions_due, number_of, word_set
from syllabus_io.resolve.expression import (
    DateExpression,
    Direction,
    Phrase,
    Reference,
    Weekday,
    WeekdayNear,
)
from syllabus_io.resolve.expression_parts import parts_of, with_parts

__all__ = ["Counted", "counted_in", "days_after_last", "named_above", "ordinal_before", "section_to_hand_in"]

MOST_BEHIND = 10  # words of a sentence that opens with its date
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}
_ORDINAL = re.compile(
    r"(?:^\W*|[,;.:]\s*|\band\s+|\bbut\s+|\bwith\s+)(?:and\s+)?(?:again|(?:(?:the|your|our|my|a)\s+)?"
    r"(?P<ordinal>first|second|third|fourth|fifth|sixth|last|other|final)(?:\s+one)?)\b"
    r"[^.;\w]*(?:(?:is|are|was|will be|will|falls?|on|due|by|held|given|at|in class|in|class|for|scheduled|to|be|"
    r"takes? place|handed in|collected|the|evening|of)\b[\s,]*)*$",
    re.IGNORECASE,
)
_NUMBERED = re.compile(
    r"(?:^\W*|[,;]\s*|\band\s+)(?:and\s+)?#\s?(\d{1,2})\s*(?:is\s+)?(?:due\s+)?(?:by|on|[–—:,-])?\s*$", re.IGNORECASE
)
_COUNTED = re.compile(r"\b(?:two|three|four|five|six|[2-6])\s+(?:[\w-]+\s+){0,3}$", re.IGNORECASE)
_OPTIONAL = re.compile(r"\b(?:optional|early|if you)\b", re.IGNORECASE)
_NO_WORK = re.compile(
    r"\b(?:late|make-?up|missed|attendance|participation|policy|policies|general|schedule)\b", re.IGNORECASE
)
MOST_HEADING_WORDS = 5
_COUNTS_ONLY = re.compile(
    r"^\W*(?:"
    r"there (?:are|will be)(?: only| exactly)?(?: (?:\w+))?(?: of (?:them|these))?"
    r"(?: this (?:term|semester|quarter|year))?|"
    r"(?:on\s+)?(?:(?:these|they|both|all|(?:\w+\s+)?dates?|due(?: dates?)?|"
    r"(?:mon|tues|wednes|thurs|fri|satur|sun)days?)\s*:?\s*)?(?:(?:are|is|will be|take place|fall)\s*)?"
    r"(?:due|held|given|scheduled)?(?: in class)?"
    r")\W*(?:on|by|for)?(?: the following (?:dates?|days?))?\W*$",
    re.IGNORECASE,
)
_DAY_BESIDE = re.compile(
    r"\bthe\s+(?P<day>mon|tues|wednes|thurs|fri|satur|sun)day\s+(?P<side>before|after|following)(?:hand|wards?)?\s*(?=[.,;)]|$)",
    re.IGNORECASE,
)
_WEEKDAYS = {
    name: Weekday(number) for number, name in enumerate(("mon", "tues", "wednes", "thurs", "fri", "satur", "sun"), 1)
}
_STAGES = word_set(
    "draft drafts outline outlines proposal proposals bibliography abstract plan plans revision revisions rewrite "
    "rewrites"
)


@dataclass(frozen=True, slots=True)
class Counted:
    """The work of a series that sentences go on to count: its name without a number, its kind, the last number."""

    stem: str
    kind: Kind
    number: int

    @classmethod
    def of(cls, text: str, head: Head) -> Counted:
        """What a work word begins to count."""
        title = without_count(tidy_title(singular(noun_phrase(text, head))))
        title = re.sub(r"^(?:the )?(?:first|1st)\s+", "", title, flags=re.IGNORECASE)
        title = re.sub(r"\s*#?(?:1|one|I)$", "", title)
        return cls(title[:1].upper() + title[1:], head.kind, number_of(head) or 1)

    def title(self, number: int) -> str:
        """The title of one work of the series."""
        return f"{self.stem} {number}"


def counted_in(text: str) -> Counted | None:
    """The series that a sentence announces by its number ("You will write two essays"), none counted yet."""
    for head in find_heads(text):
        if not head.is_weak and head.word.lower().endswith("s") and _COUNTED.search(text[: head.start]):
            return replace(Counted.of(text, head), number=0)
    return None


def ordinal_before(text: str, counted: Counted) -> int | None:
    """The number of the work that words right before a date count ("and the second is due on"); None without."""
    match = _ORDINAL.search(text)
    if match is None:
        numbered = _NUMBERED.search(text)
        return int(numbered[1]) if numbered and int(numbered[1]) > counted.number else None
    word = (match["ordinal"] or "").lower()
    number = _ORDINALS.get(word, counted.number + 1)
    return number if number > counted.number and word != "final" else None


def named_above(text: str, group: Sequence[Phrase], passage: Passage) -> tuple[str, Kind] | None:
    """The work of the lead or heading above a sentence that only says how many there are, or that they are held."""
    front, behind = text[: group[0].start], text[group[-1].end :]
    alone = len(group) == 1 and not re.search(r"\w", front)
    if _COUNTS_ONLY.match(front) is None or (len(group) == 1 and re.match(r"\W*due\b", front, re.IGNORECASE)):
        return None
    if alone and len(re.split(r"[.;]", behind)[0].split()) > MOST_BEHIND:
        return None
    lead = lead_of(passage.text)
    for name in (lead[1] if lead else "", passage.section):
        heads = [head for head in find_heads(name) if not head.is_weak]
        if len(heads) == 1 and (len(group) > 1) == heads[0].word.lower().endswith("s"):
            return full_title(tidy_title(without_count(noun_phrase(name, heads[0])))), heads[0].kind
    return None


def section_to_hand_in(front: str, passage: Passage, names: frozenset[str]) -> tuple[str, Kind] | None:
    """The one work a section is headed with, where a sentence that names none says by when it is handed in
    ("Museum visit": "The sheet is handed in by …")."""
    title = tidy_title(re.sub(r"^\W*[\d.]+\s+", "", passage.section))
    if not mentions_due(front) or _OPTIONAL.search(front) or not 0 < len(title.split()) <= MOST_HEADING_WORDS:
        return None
    heads = find_heads(title)
    is_named = bool(heads) and heads[-1].end == len(title) and len(title.split()) > 1
    if title.lower().endswith("s") or _NO_WORK.search(title) or not (is_named or title.lower() in names):
        return None
    return title, kind_of_work(title) or Kind.ASSIGNMENT


def days_after_last(text: str, phrases: Sequence[Phrase], last: Sequence[Draft]) -> Iterator[tuple[str, Kind, Phrase]]:
    """Title, kind and phrase of work that a sentence dates from the works before it: one week later, the Monday before.
    A step ("Drafts") is that of each of these works, other work follows one work alone."""
    heads = [head for head in find_heads(text) if not head.number]
    if len(heads) != 1 or not mentions_due(text) or not last:
        return
    head = heads[0]
    is_step = head.word.lower() in _STAGES
    if len(last) > 1 and not (is_step and head.word.lower().endswith("s")):
        return
    for draft in last:
        phrase = _beside(text, phrases, draft)
        if phrase is not None and phrase.start > head.start:
            step = singular(head.word.lower())
            title = f"{draft.item.title} {step}" if is_step else tidy_title(noun_phrase(text, head))
            yield title, draft.item.kind if is_step else head.kind, phrase


def _beside(text: str, phrases: Sequence[Phrase], draft: Draft) -> Phrase | None:
    base = draft.mention.phrase.expression
    if base is None:
        return None
    match = _DAY_BESIDE.search(text)
    if match is not None:
        direction = Direction.BEFORE if match["side"].lower() == "before" else Direction.AFTER
        day = WeekdayNear(base, _WEEKDAYS[match["day"].lower()], direction)
        return Phrase(match[0], match.start(), match.end(), day)
    relative = [phrase for phrase in phrases if phrase.expression is not None]
    if len(relative) != 1 or not any(isinstance(part, Reference) for part in _parts(relative[0])):
        return None
    return replace(
        relative[0],
        expression=with_parts(_said(relative[0]), lambda part: base if isinstance(part, Reference) else part),
    )


def _said(phrase: Phrase) -> DateExpression:
    assert phrase.expression is not None  # chosen by the caller
    return phrase.expression


def _parts(phrase: Phrase) -> Iterator[DateExpression]:
    return iter(parts_of(_said(phrase)))
