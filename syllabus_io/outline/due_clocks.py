"""Times of day stated once for all work or for one kind of it: "everything is handed in by 6 pm on its date"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.day_keys import day_key
from syllabus_io.outline.entry_dates import with_clock
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.items import title_words
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.prose_names import lead_of
from syllabus_io.outline.records import Item, Kind
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import Phrase

__all__ = ["DueClock", "read_due_clocks", "with_due_time"]

_DUE = re.compile(
    r"\b(?:due|deadlines?|submit(?:s|ted)?|submissions?|turn(?:ed)? in|hand(?:ed)? in|upload(?:ed)?|collected|"
    r"e-?mailed|post(?:ed)? (?:by|before|no later)|must be (?:posted|received|completed|in))\b|"
    r"\bcloses? (?:at|by)\b",
    re.IGNORECASE,
)
_SUBJECTS = re.compile(
    r"^\W*(?:all |the |your )?([\w-]+) and (?:the |your )?([\w-]+) (?:are|must|should|will|have)\b", re.IGNORECASE
)
_ABOUT_OTHERS = re.compile(
    r"\blate\b|\bextension|\bgrace\b|penalt|\bafter (?:the|its|their|a) (?:due|deadline)|\bre-?grad|\bmake-?ups?\b|"
    r"\boffice hours?\b|\btutor|\blibrary\b|\bfor example\b|\be\.g\.|\bif you\b|\bstarting\b|\bopens?\b|\bexcused?\b|"
    r"\breply\b|\brespond|\breplies\b|\bresponses to\b|\bat least \w+ hours\b|\bpeers?'?\b|\bdraft(?:s)? for\b",
    re.IGNORECASE,
)
_ALL_WORK = re.compile(
    r"\b(?:all|every|each|any)\s+(?:\w+\s+){0,2}?(?:work|assignments?|coursework|submissions?|deliverables?|deadlines?|"
    r"homework|materials?|tasks?|due dates?)\b|\beverything\b|\bdeadlines? (?:are|is|fall)\b|\bdue dates? (?:are|is)\b|"
    r"\bunless (?:\w+ )?(?:otherwise|noted|stated|specified|indicated|it says|i say)|"
    r"^\W*(?:assignments?|work|coursework|due dates?|deadlines?)\b(?! \d)",
    re.IGNORECASE,
)
_BUT = re.compile(
    r"\b(?:except|other than|apart from|but not|excluding)\b[^.;]*?(?=\b(?:is|are|must)\b|[.;]|$)", re.IGNORECASE
)
_BY = re.compile(r"\b(?:by|at|before|until|no later than|latest)\b", re.IGNORECASE)
_SET_OFF = re.compile(r"[,@:(–—-]\s*$")
_MODULE_CLOSES = re.compile(
    r"\b(?:modules?|units?|lessons?|weeks?)\b[^.;]*?\b(?P<verb>closes?|ends?)\b",
    re.IGNORECASE,
)
_NOT_HANDED_IN = (Kind.EXAM, Kind.QUIZ, Kind.PRESENTATION, Kind.READING)
_GENERAL = frozenset({"assignment", "work", "submission", "task", "activity", "deliverable", "coursework", "material"})
_MOST_LETTERS = 400
_MOST_NAME_WORDS = 4
_NEAR = 14  # letters before a time in which its preposition stands


@dataclass(frozen=True, slots=True)
class DueClock:
    """A time of day for all work that is handed in, or for the work that one of the ``names`` names; ``others`` are
    words of work that it is not for. ``is_for_quizzes`` tells whether quizzes are part of all work."""

    clock: Phrase
    names: tuple[frozenset[str], ...]
    others: frozenset[str] = frozenset()
    is_for_quizzes: bool = False


def read_due_clocks(passages: Sequence[Passage]) -> tuple[DueClock, ...]:
    """The times of day that sentences without a date of their own give to work, those for one kind of work first."""
    found = [clock for passage in passages if not passage.frame.is_dated for clock in _clocks_of(passage)]
    return (*(one for one in found if one.names), *(one for one in found if not one.names))


def _clocks_of(passage: Passage) -> Iterator[DueClock]:
    for sentence in sentences_of(passage.text):
        closes = _MODULE_CLOSES.search(sentence.text)
        text = sentence.text[closes.start("verb") :] if closes else sentence.text
        if not (closes or _DUE.search(text)) or len(text) > _MOST_LETTERS or _ABOUT_OTHERS.search(text):
            continue
        phrases = phrases_in(text, weak=True)
        clocks = [phrase for phrase in phrases if phrase.time is not None and _is_end(text, phrase)]
        if len({phrase.time for phrase in clocks}) != 1 or any(map(_is_fixed, phrases)):
            continue
        clock = replace(clocks[0], expression=None)
        left_out = _BUT.search(text)
        has_own_day = left_out is not None and any(phrase.end > left_out.start() for phrase in phrases)
        others = title_words(left_out[0]) if left_out and not has_own_day else frozenset()
        said = _BUT.sub(" ", text)
        if closes or _ALL_WORK.search(said):
            yield DueClock(clock, (), others, is_for_quizzes=closes is not None)
        elif names := _named_by_lead(passage) or _named_in(said) or _named_in(passage.section):
            yield DueClock(clock, names, others)


def _is_fixed(phrase: Phrase) -> bool:
    return phrase.expression is not None and day_key(phrase.expression)[0] == "date"


def _is_end(text: str, phrase: Phrase) -> bool:
    """Whether a time is given as the latest one ("by 5 pm", "11:59 pm")."""
    before = text[: phrase.start]
    return bool(_BY.search(text[max(0, phrase.start - _NEAR) : phrase.end]) or _SET_OFF.search(before))


def _named_by_lead(passage: Passage) -> tuple[frozenset[str], ...]:
    """The name that the paragraph opens with ("Practice set. You keep …")."""
    lead = lead_of(passage.text)
    words = title_words(lead[1]) if lead else frozenset()
    return (words,) if 0 < len(words) <= _MOST_NAME_WORDS and words - _GENERAL else ()


def _named_in(text: str) -> tuple[frozenset[str], ...]:
    """The kinds of work that a text names, each by its words."""
    names = [title_words(head.word) for head in find_heads(text) if not head.number]
    if names and (subjects := _SUBJECTS.match(text)):
        names += [title_words(subject) for subject in subjects.groups()]
    return tuple(dict.fromkeys(name for name in names if name - _GENERAL))


def with_due_time(item: Item, clocks: Sequence[DueClock]) -> Item:
    """The item with the time of day stated for its kind of work, where its own mentions give none."""
    if item.kind is Kind.READING or any(mention.phrase.time or mention.phrase.time_point for mention in item.mentions):
        return item
    clock = next((one.clock for one in clocks if _is_for(one, item)), None)
    if clock is None:
        return item
    return replace(item, mentions=tuple(replace(one, phrase=with_clock(one.phrase, clock)) for one in item.mentions))


def _is_for(clock: DueClock, item: Item) -> bool:
    words = title_words(item.title) | title_words(item.category or "")
    if clock.others & words:
        return False
    if not clock.names:
        return item.kind not in _NOT_HANDED_IN or (item.kind is Kind.QUIZ and clock.is_for_quizzes)
    return item.kind is not Kind.EXAM and any(name <= words for name in clock.names)
