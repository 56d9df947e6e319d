"""Due rules stated once for all: "all work is due Fridays at 5 pm", also in notes far from the schedule."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.entries import split_entries
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.items import title_words
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.work_words import find_heads, word_set
from syllabus_io.resolve.expression import CalendarWeek, Every, Frequency, Offset, Phrase, Unit, Weekday, WeekdayIn

__all__ = ["DueRule", "apply_due_rules", "note_numbers", "read_due_rules"]

_NOTE = re.compile(r"^\W*(?:note|footnote)?\s*\[?\(?(\d{1,2})\)?\]?[\s:.)]+", re.IGNORECASE)
_NOTE_WORD = re.compile(r"^\W*(?:foot)?note\s*#?(\d{1,2})\W", re.IGNORECASE)
_DUE = re.compile(r"\b(?:due|submitted|turned in|handed in|deadline)\b", re.IGNORECASE)
_ALL = re.compile(r"\b(?:all|every|each|everything|assignments?|work|coursework|deliverables)\b", re.IGNORECASE)
_EXCEPT = re.compile(r"\b(?:except(?:ion)?|unless|apart from|other than)\b", re.IGNORECASE)
_ON_THE_DAY = re.compile(
    r"\bon (?:the (?:day|date)|their|its|the due date|each due date)\b|\bday (?:it is|they are|of)\b|\bdue dates?\b",
    re.IGNORECASE,
)
_OF_ITS_WEEK = re.compile(
    r"\b(?:of|in) (?:the|that|its|their|each|every) (?:\w+ )?week\b(?! (?:of|before|after)\b)|"
    r"\bof the week (?:listed|shown|"
    r"in which|they|it)\b",
    re.IGNORECASE,
)
_DAY_BEFORE = re.compile(
    r"\b(?:night|evening|day|afternoon)\s+before\s+(?:(?:the|each|every|its|our|that)\s+)?"
    r"(?:session|class|meeting|lecture|seminar|lab|discussion|case|it is|they are)",
    re.IGNORECASE,
)
_SENT = re.compile(r"\b(?:upload(?:ed)?|post(?:ed)?|sent|e-?mailed|submit)\b", re.IGNORECASE)
_EVERY = re.compile(r"\b(?:all|every|each|everything)\b", re.IGNORECASE)
_SENTENCES = re.compile(
    r"(?<=[.!?])\s+(?=[A-Z])|\n|;\s+(?!(?i:except|unless|but)\b)(?=[^.;]*\b(?i:due|submitted|turned in|handed in)\b)"
)
_GENERAL = word_set(
    "assignment assignments work homework task tasks coursework deliverable deliverables activity activities"
)


@dataclass(frozen=True, slots=True)
class DueRule:
    """A due rule: what it is about, its weekday and time, and the weeks it does not hold for.

    ``subject`` holds the words it is about, empty for all work; ``note`` the number of the note it stands in, when
    rows refer to notes by number. ``shift_days`` moves the day of the row: -1 for "the night before the session".
    ``exceptions`` pairs week numbers with the phrase that holds there instead.
    """

    text: str
    subject: frozenset[str]
    is_general: bool
    weekday: Weekday | None
    clock: Phrase | None
    exceptions: tuple[tuple[int, Phrase], ...] = ()
    note: int | None = None
    shift_days: int = 0


def note_numbers(text: str) -> frozenset[int]:
    """The note numbers a notes cell refers to ("1, 3"); empty when it holds words."""
    if not re.fullmatch(r"[\s\d,;&*†]+", text):
        return frozenset()
    return frozenset(int(number) for number in re.findall(r"\d+", text))


def read_due_rules(passages: Sequence[Passage]) -> tuple[DueRule, ...]:
    """The due rules that running text states, in reading order."""
    rules: list[DueRule] = []
    for passage in passages:
        if passage.frame.is_dated:
            continue
        for sentence in _SENTENCES.split(passage.text):
            rule = _rule(sentence)
            if rule is not None:
                rules.extend(_own_rules(sentence))
                rules.append(rule)
    return tuple(rules)


def _rule(sentence: str) -> DueRule | None:
    before = _DAY_BEFORE.search(sentence)
    match = _DUE.search(sentence) or (_SENT.search(sentence) if before else None)
    if match is None or len(sentence) > 400:
        return None
    cut = _EXCEPT.search(sentence)
    main = sentence[: cut.start()] if cut else sentence
    subject_text = main[: match.start()]
    note = _NOTE_WORD.match(sentence)
    phrases = phrases_in(main, weak=True)
    is_rule = note is not None or bool(_OF_ITS_WEEK.search(main) or _EVERY.search(subject_text))
    weekday = next((day for phrase in phrases if (day := _rule_weekday(phrase, is_rule)) is not None), None)
    clock = next((_clock_of(phrase) for phrase in phrases if phrase.time is not None), None)
    heads = find_heads(subject_text)
    if not heads and note is None and not _ALL.search(subject_text):
        return None
    if any(phrase.expression is not None and _is_fixed(phrase) for phrase in phrases):
        return None
    if before is not None and heads and weekday is None and match.start() < before.start():
        words = frozenset(word for head in heads for word in re.findall(r"[a-z]+", head.word.lower()))
        return DueRule(sentence.strip(), words, False, None, clock, shift_days=-1)
    if weekday is None and not (
        clock is not None and (_ON_THE_DAY.search(main) or re.match(r"^\W*all\b", main, re.IGNORECASE))
    ):
        return None
    words = frozenset(re.findall(r"[a-z]+", _NOTE.sub("", subject_text).lower()))
    general = (
        not note
        and bool(words & _GENERAL)
        and bool(
            re.search(r"\b(?:all|every|each|any)\b|^\W*(?:assignments|homework|work)\b", subject_text, re.IGNORECASE)
        )
    )
    exceptions = _exceptions(sentence[cut.start() :]) if cut else ()
    return DueRule(sentence.strip(), words, general, weekday, clock, exceptions, int(note[1]) if note else None)


def _own_rules(sentence: str) -> list[DueRule]:
    """The rule of the kind of work that a rule for all leaves out: "… except the discussion post, due Thursday"."""
    cut = _EXCEPT.search(sentence)
    if cut is None or re.search(r"\b(?:week|wk)\.?\s*\d", sentence[cut.start() :], re.IGNORECASE):
        return []
    rest = sentence[cut.end() :]
    heads = [head for head in find_heads(rest) if not head.number]
    phrases = phrases_in(rest, weak=True)
    weekday = next((day for phrase in phrases if (day := _rule_weekday(phrase, True)) is not None), None)
    if not heads or weekday is None:
        return []
    words = frozenset(word for head in heads for word in re.findall(r"[a-z]+", head.word.lower()))
    clock = next((_clock_of(phrase) for phrase in phrases if phrase.time is not None), None)
    return [DueRule(rest.strip(), words, False, weekday, clock)]


def _rule_weekday(phrase: Phrase, is_rule: bool) -> Weekday | None:
    """The weekday of a rule; where the sentence plainly is a rule, a weekday alone is that of each week."""
    match phrase.expression:
        case Every(frequency=Frequency.WEEKLY, weekdays=(day,), interval=1):
            return day if isinstance(day, Weekday) else None
        case WeekdayIn(stretch=CalendarWeek(), weekday=day) if is_rule:
            return day
        case _:
            return None


def _is_fixed(phrase: Phrase) -> bool:
    from syllabus_io.outline.day_keys import day_key

    assert phrase.expression is not None
    return day_key(phrase.expression)[0] == "date"


def _clock_of(phrase: Phrase) -> Phrase:
    return replace(phrase, expression=None)


def _exceptions(text: str) -> tuple[tuple[int, Phrase], ...]:
    week = re.search(r"\b(?:week|wk)\.?\s*(\d{1,2})", text, re.IGNORECASE)
    dated = [phrase for phrase in phrases_in(text) if phrase.expression is not None and _is_fixed(phrase)]
    return ((int(week[1]), dated[0]),) if week and dated else ()


def apply_due_rules(passages: Sequence[Passage], rules: Sequence[DueRule]) -> tuple[Passage, ...]:
    """The passages with the weekday and time of the rules that hold for them put into their frames."""
    if not rules:
        return tuple(passages)
    notes = _row_notes(passages)
    apart = any(not rule.is_general and rule.note is None and rule.weekday is not None for rule in rules)
    parts = [part for passage in passages for part in (_entries(passage) if apart else (passage,))]
    return tuple(_ruled(part, rules, notes.get((part.group, part.frame.row), frozenset())) for part in parts)


def _entries(passage: Passage) -> Iterator[Passage]:
    """The works of a cell, each as a passage of its own, where rules for one kind of work do not hold for the next."""
    is_work = passage.role in (ColumnRole.DUE, ColumnRole.WORK, ColumnRole.EXAM)
    entries = split_entries(passage) if is_work and passage.frame.is_dated else ()
    if len(entries) < 2:
        yield passage
        return
    for entry in entries:
        yield replace(
            passage, text=entry.text, place=passage.place_of(entry.start, entry.end), lines=(), grown=(), written=""
        )


def _row_notes(passages: Sequence[Passage]) -> dict[tuple[int, int | None], frozenset[int]]:
    notes: dict[tuple[int, int | None], frozenset[int]] = {}
    for passage in passages:
        if passage.role is ColumnRole.NOTES and passage.frame.row is not None:
            key = (passage.group, passage.frame.row)
            notes[key] = notes.get(key, frozenset()) | note_numbers(passage.text)
    return notes


def _ruled(passage: Passage, rules: Sequence[DueRule], notes: frozenset[int]) -> Passage:
    if passage.role in (ColumnRole.ASSIGNED, ColumnRole.READING, ColumnRole.NOTES) or not passage.frame.is_dated:
        return passage
    is_work = passage.role in (ColumnRole.DUE, ColumnRole.WORK, ColumnRole.EXAM)
    for rule in rules:
        if not _holds(rule, passage, notes) or (not is_work and not _is_about(rule, passage)):
            continue
        frame = _apply(rule, passage.frame)
        if frame is not None:
            return replace(passage, frame=frame, role=passage.role if is_work else ColumnRole.DUE)
    return passage


def _is_about(rule: DueRule, passage: Passage) -> bool:
    """Whether a rule names the column, which makes it a column of work ("Modules are due Fridays", column "Module")."""
    heading = re.findall(r"[a-z]+", passage.heading.lower())
    return bool(heading) and len(heading) <= 3 and bool(_subject_of(heading) & rule.subject)


def _subject_of(words: list[str]) -> frozenset[str]:
    """The words of a heading with their plurals, small and general words left out."""
    telling = [word for word in words if len(word) > 3 and word not in ("week", "date", "topic", "topics", "class")]
    return frozenset([*telling, *(f"{word}s" for word in telling)])


def _holds(rule: DueRule, passage: Passage, notes: frozenset[int]) -> bool:
    related = bool(rule.subject & _subject_of(re.findall(r"[a-z]+", passage.heading.lower())))
    if not related and rule.note is None:
        named = find_heads(passage.text.split(":")[0]) or find_heads(passage.text)
        heads = [title_words(head.word) for head in named]
        related = bool(heads) and all(words and words <= title_words(rule.text) for words in heads)
    if rule.note is not None:
        return rule.note in notes and related
    return rule.is_general or related


def _apply(rule: DueRule, frame: Frame) -> Frame | None:
    for week, phrase in rule.exceptions:
        if frame.week == week:
            return replace(frame, day=phrase.expression, stretch=None, weekday=None, clock=phrase, words=phrase.text)
    on_its_day = frame.is_last_day or (frame.day is not None and frame.week is None)
    if rule.shift_days and frame.day is not None and frame.weekday is None and not frame.days:
        day = Offset(frame.day, rule.shift_days, Unit.DAY)
        return replace(frame, day=day, stretch=None, clock=frame.clock or rule.clock)
    if rule.weekday is None or frame.weekday is not None or on_its_day:
        return None
    return replace(frame, weekday=rule.weekday, clock=frame.clock or rule.clock)
