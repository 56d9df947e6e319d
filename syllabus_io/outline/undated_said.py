"""Work that sentences and headings name without a day: "due at the start of each class", "one essay and one talk"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.records import Kind, UndatedWork
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.titles import noun_phrase, singular, tidy_title
from syllabus_io.outline.work_words import Head, find_heads, is_negated, is_passed_over, mentions_due
from syllabus_io.resolve.expression import (
    DateExpression,
    Every,
    Frequency,
    FullDate,
    MonthDay,
    MonthPart,
    NumericDate,
    PartOf,
    Phrase,
    Week,
)

__all__ = ["EACH", "work_said_without_day"]

EACH = "the outline gives a rule for it and no day"

_WEEKLY = re.compile(r"^\W*(weekly\s+[A-Za-z -]{3,40}?)\s*(?::|$)", re.IGNORECASE)
_THERE_WILL_BE = re.compile(r"\bthere (?:will be|are|is)\b|\byou will (?:write|give|submit|complete)\b", re.IGNORECASE)
_ONE = re.compile(r"\b(?:one|a|an)\s+(?:[a-z-]+\s+){0,2}$", re.IGNORECASE)
_EACH = re.compile(r"\b(?:each|every)\s+(?:class|day|meeting|session|recitation|lab)\b", re.IGNORECASE)
_AFTER_EACH = re.compile(
    r"\b(?:after|following|at the end of|for|with|by the end of|before|at the (?:beginning|start) of)\s+"
    r"(?:each|every|the next)\s+(?:\w+\s+)?(?:phase|unit|module|chapter|project|lab(?:oratory)?|experiment|visit|stage|"
    r"milestone|sprint|film|field trip|concert|performance|observation)\b|"
    r"\b(?:one|a|1|two|2)\s+(?:week|day|class)s?\s+after\s+(?:the|each|every)\s+(?:lab(?:oratory)?|experiment|visit|"
    r"field trip|film|concert|observation)\b",
    re.IGNORECASE,
)
_STAGE_HEADING = re.compile(
    r"^\W*(?:phase|part|step|stage|milestone|component|task)\s+(?:\d{1,2}|[IVX]{1,4})\s*[:.–—-]\s*([A-Z][^.:;()]{3,50})",
    re.IGNORECASE,
)
_MONTH_ONLY = re.compile(
    r"\b(?:in|of|late|early|mid)[\s-]+(?:January|February|March|April|May|June|July|August|September|October|November|"
    r"December)\b(?!\s+\d)"
)
_POLICY = re.compile(
    r"\b(?:[Ii]f|[Uu]nless|[Ll]ate(?! [A-Z])|loses?|[Pp]enalt\w+|[Pp]olicy|[Ll]ast (?:updated|revised))\b"
)
LONGEST_SENTENCE = 260
MOST_WEEKS = 6


def work_said_without_day(passages: Sequence[Passage], has_calendar: bool) -> Iterator[UndatedWork]:
    """The work that running text names with a rule or a week but no day, and headings of weekly work.

    ``has_calendar`` tells that the outline dates anything at all; without any, a week number is no date.
    """
    for section in dict.fromkeys(passage.section for passage in passages):
        match = _WEEKLY.match(section)
        if match and find_heads(match[1]):
            place = next(passage.place for passage in passages if passage.section == section)
            reason = "the outline names it as weekly work and gives no day"
            yield UndatedWork(find_heads(match[1])[-1].kind, tidy_title(match[1]), reason, place, section)
    for section in dict.fromkeys((*(one.section for one in passages), *(one.text for one in passages))):
        stage = _STAGE_HEADING.match(section)
        heads = [head for head in find_heads(stage[1]) if not head.is_weak] if stage else []
        if stage is not None and heads and not dated_phrases(section):
            place = next(one.place for one in passages if section in (one.section, one.text))
            yield UndatedWork(
                heads[-1].kind, tidy_title(stage[1]), "the outline names it but gives no date", place, section
            )
    for passage in passages:
        if passage.frame.is_dated:
            continue
        for sentence in sentences_of(passage.text):
            if len(sentence.text) <= LONGEST_SENTENCE and not is_negated(sentence.text):
                yield from _in_sentence(sentence.text, passage, has_calendar)


def _in_sentence(text: str, passage: Passage, has_calendar: bool) -> Iterator[UndatedWork]:
    phrases = dated_phrases(text)
    heads = [head for head in find_heads(text) if not is_passed_over(text, head)]
    if not heads:
        return
    if _AFTER_EACH.search(text) and mentions_due(text) and not _POLICY.search(text) and not _has_day(phrases):
        yield _work(text, heads[0], passage, f"{EACH}: {text.strip()}")
    elif any(_is_each_class(phrase.expression) for phrase in phrases) or _EACH.search(text):
        if re.search(r"\bdue\b", text, re.IGNORECASE):
            yield _work(text, heads[0], passage, f"{EACH}: {text.strip()}")
    elif all(isinstance(phrase.expression, MonthPart) for phrase in phrases) and _MONTH_ONLY.search(text):
        if mentions_due(text) and not _POLICY.search(text):
            yield _work(text, heads[0], passage, f"the outline says only: {text.strip()}")
    elif not phrases and _THERE_WILL_BE.search(text):
        for head in heads:
            if not head.is_weak and head.kind is not Kind.EXAM and _ONE.search(text[: head.start]):
                yield _work(text, head, passage, "the outline names it but gives no date")
    elif not has_calendar and heads[0].kind is Kind.EXAM:
        yield from _by_week(text, phrases, heads[0], passage)


def _has_day(phrases: Sequence[Phrase]) -> bool:
    """Whether some phrase is a day of the calendar, which dates the work itself."""
    return any(isinstance(one.expression, FullDate | MonthDay | NumericDate) for one in phrases)


def _is_each_class(expression: DateExpression | None) -> bool:
    return isinstance(expression, Every) and expression.frequency in (Frequency.MEETING, Frequency.DAILY)


def _by_week(text: str, phrases: Sequence[Phrase], head: Head, passage: Passage) -> Iterator[UndatedWork]:
    """Exams in numbered weeks of an outline without a calendar: "Exams at the end of week 5, week 9 and week 12"."""
    weeks = [phrase for phrase in phrases if isinstance(phrase.expression, Week | PartOf)]
    if not 1 <= len(weeks) <= MOST_WEEKS or len(weeks) < len(phrases):
        return
    title = singular(noun_phrase(text, head))
    for number, phrase in enumerate(weeks, 1):
        name = f"{title} {number}" if len(weeks) > 1 else title
        reason = f"the outline names only “{phrase.text}” and has no calendar"
        yield UndatedWork(head.kind, name, reason, passage.place, " ".join(text.split()))


def _work(text: str, head: Head, passage: Passage, reason: str) -> UndatedWork:
    return UndatedWork(head.kind, noun_phrase(text, head), reason[:200], passage.place, " ".join(text.split()))
