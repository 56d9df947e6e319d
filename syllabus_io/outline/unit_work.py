"""Work of every chapter or unit that is due when it is begun: "each chapter's worksheet is due the day we start it"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.frames import Passage, is_single_day
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.titles import singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import Phrase

__all__ = ["read_unit_work"]

NOT_IN_A_ROW = "it is due with each part of the course in turn, and the schedule leaves numbers out"
FEWEST_UNITS = 3
MOST_NAME_WORDS = 4
_UNIT = r"(?:chapter|unit|module|lesson)"
_RULE = re.compile(
    rf"^(?P<front>[^.;]{{3,60}}?)\s+(?:(?:is|are)\s+due|must be (?:done|completed|submitted|handed in))\s+"
    r"(?P<middle>[^;]{0,60}?)"
    r"\b(?:the\s+)?(?:day|date|class)\s+(?:(?:on|in|at)\s+which\s+|that\s+|when\s+)?"
    rf"(?:we\s+|the\s+class\s+|(?:it|the\s+{_UNIT}|that\s+{_UNIT})\s+(?:is\s+)?)(?:first\s+)?"
    r"(?:start|beg[iu]n|open|introduc|list|take up|taken up|schedul)\w*",
    re.IGNORECASE,
)
_OF_UNIT = re.compile(
    rf"\b(?:for|of|on|to)\s+(?:each|every|the|an?)\s+{_UNIT}s?\b|\b(?:each|every|the|an?|all)\b|\b{_UNIT}(?:[’']s|s[’']?)?(?=\W|$)",
    re.IGNORECASE,
)
_NAMED_UNIT = re.compile(rf"\b{_UNIT}", re.IGNORECASE)
_LATER = re.compile(r"\b(?:after|before|next|following|week|once)\b", re.IGNORECASE)
_ROLES = (ColumnRole.TOPIC, ColumnRole.READING, ColumnRole.NOTES, None)


@dataclass(frozen=True, slots=True)
class _Rule:
    """The name of a work, the unit of the course that it goes with, the time of day, and the words that say so.

    ``is_of_unit`` tells "chapter quizzes" from a work with a name of its own.
    """

    name: str
    unit: str
    clock: Phrase | None
    words: str
    is_of_unit: bool


def read_unit_work(passages: Sequence[Passage]) -> Iterator[Draft]:
    """The works that a rule ties to the day on which each chapter or unit first stands in the schedule."""
    for rule in dict.fromkeys(rule for passage in passages if not passage.frame.is_dated for rule in _rules(passage)):
        first = _first_days(rule.unit, passages)
        if len(first) < FEWEST_UNITS:
            continue
        doubts = () if sorted(first) == list(range(1, len(first) + 1)) else (NOT_IN_A_ROW,)
        for number, passage in sorted(first.items()):
            yield _draft(rule, number, passage, doubts)


def _rules(passage: Passage) -> Iterator[_Rule]:
    for sentence in sentences_of(passage.text):
        match = _RULE.match(sentence.text.strip())
        if match is None or _LATER.search(match["middle"]):
            continue
        named = _NAMED_UNIT.search(sentence.text)
        name = tidy_title(" ".join(_OF_UNIT.sub(" ", match["front"]).split()))
        if named is None or not name or len(name.split()) > MOST_NAME_WORDS:
            continue
        clock = next((phrase for phrase in phrases_in(sentence.text, weak=True) if phrase.time is not None), None)
        clock = replace(clock, expression=None) if clock is not None else None
        is_of_unit = re.match(rf"\W*(?:all\s+|the\s+)?{_UNIT}\s+\w", match["front"], re.IGNORECASE) is not None
        yield _Rule(singular(name), named[0].lower(), clock, " ".join(sentence.text.split()), is_of_unit)


def _first_days(unit: str, passages: Sequence[Passage]) -> dict[int, Passage]:
    """The first dated row of the schedule that names each chapter or unit; exams only name what they cover."""
    short = r"ch(?:apters?|aps?|s)?" if unit == "chapter" else rf"{unit}s?"
    pattern = re.compile(rf"\b{short}\.?\s*(\d{{1,2}})(?:\s*[-–]\s*(\d{{1,2}}))?(?![\d.:])", re.IGNORECASE)
    found: dict[int, Passage] = {}
    for passage in passages:
        day = passage.frame.day
        if day is None or not is_single_day(day) or passage.role not in _ROLES or not passage.group:
            continue
        if any(head.kind in (Kind.EXAM, Kind.QUIZ) for head in find_heads(passage.text)):
            continue
        for match in pattern.finditer(passage.text):
            for number in range(int(match[1]), int(match[2] or match[1]) + 1):
                found.setdefault(number, passage)
    return found


def _draft(rule: _Rule, number: int, passage: Passage, doubts: tuple[str, ...]) -> Draft:
    from syllabus_io.outline.entry_dates import with_clock

    frame = passage.frame
    phrase = with_clock(Phrase(frame.words, 0, len(frame.words), frame.day), rule.clock)
    context = f"{' '.join((passage.written or passage.text).split())} – {rule.words}"
    mention = Mention(phrase, passage.place, frame.words, context, frame.row, (*frame.doubts, *doubts))
    title = f"{rule.name} {rule.unit} {number}"
    if rule.is_of_unit:
        title = f"{rule.unit.capitalize()} {number} {rule.name[:1].lower()}{rule.name[1:]}"
    kind = kind_of_work(rule.name) or Kind.ASSIGNMENT
    kind = Kind.ASSIGNMENT if kind is Kind.READING else kind  # "Reading checks": they are handed in
    item = Item(kind, title, (mention,), number=number)
    return Draft(item, passage.group, passage.role, passage.section)
