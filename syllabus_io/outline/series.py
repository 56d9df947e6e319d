"""Recurring rules: "a quiz every Friday", "journals are due on Sundays by noon"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.items import title_words
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import GradingScheme, Item, Kind, Mention
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.series_exceptions import read_exceptions
from syllabus_io.outline.titles import noun_phrase, singular
from syllabus_io.outline.vocabulary import count_of, kind_of_work
from syllabus_io.outline.work_words import Head, find_heads, is_negated, is_passed_over
from syllabus_io.resolve.expression import (
    CalendarWeek,
    Every,
    Frequency,
    FullDate,
    MonthDay,
    NumericDate,
    Phrase,
    Reference,
    WeekdayIn,
    WeekdayNear,
)

__all__ = ["read_series"]

_LOOSE = re.compile(
    r"\b(?:roughly|approximately|about every|nearly|almost|most|usually|typically|generally|often|or so|may|"
    r"might|if|some)\b",
    re.IGNORECASE,
)
_NOT_WORK = re.compile(
    r"\b(?:office hours?|meet(?:s|ings?)?|lectures?|recitations?|attend|review session|discussion section|posted|"
    r"available|read)\b",
    re.IGNORECASE,
)
_DUE = re.compile(
    r"\b(?:due|submitted|turned in|handed in|collected|every|each|quiz(?:zes)?|closes?|given)\b", re.IGNORECASE
)
_CLOSES = re.compile(r"\bcloses?\b", re.IGNORECASE)
_LONGER_STEP = re.compile(
    r"\b(?:every (?:other|second|two|three|2|3)(?: weeks?)?|(?:two|three) weeks|alternate weeks|bi-?weekly|"
    r"fortnight\w*|each month|monthly)\b",
    re.IGNORECASE,
)
_WEEKLY = re.compile(r"\b(?:weekly|each week|every week)\b", re.IGNORECASE)
_THEN_DUE = re.compile(r"\b(?:due|closes?|submitted|turned in|handed in|and|replies)\b[^.;,]{0,40}$", re.IGNORECASE)
_OPENS = re.compile(r"\b(?:opens?|posted|available|released|assigned|handed out)\b[^.;]{0,20}$", re.IGNORECASE)
_OPENED = re.compile(r"\b(?:posted|available|released|assigned)\b[^.;]*?\band\b", re.IGNORECASE)
_ENDS = re.compile(
    r"\s*,?\s*(?:and\s+)?(?:ending|ends|through|until|the last)\s+(?:is\s+)?(?:(?:in|on|with|at)\s+)?", re.IGNORECASE
)
_HOW_MANY = re.compile(
    r"\b(?:there (?:will be|are)|a total of|you will (?:have|take|write|complete))\s+(?:about\s+)?([a-z]+|\d{1,2})\b"
    r"(?!\s*(?:%|points|percent))\s*(?:of (?:them|these))?(?P<rest>[^.;]{0,40})",
    re.IGNORECASE,
)
_GENERAL = re.compile(r"(?<![a-z])(?:all|any)\s+(?:\w+\s+)?(?:assignments?|work|homework|coursework)\b", re.IGNORECASE)

_POINTS_BACK = re.compile(
    r"^\W*(?:this|these|it|they|each|all|both)\b.{0,60}\b(?:due|submitted|turned in|handed in|uploaded|posted)\b",
    re.IGNORECASE,
)


def read_series(passages: Sequence[Passage], items: Sequence[Item], grading: GradingScheme) -> Iterator[Item]:
    """The works that running text fixes by a weekly rule and that nothing else dates."""
    taken: list[frozenset[str]] = []
    for passage in passages:
        if passage.frame.is_dated:
            continue
        for sentence in sentences_of(passage.text):
            for item in _in_sentence(sentence.text, sentence.start, passage, grading):
                words = title_words(item.title)
                if any(words <= title_words(one.title) for one in items) or words in taken:
                    continue
                taken.append(words)
                yield item


def _in_sentence(text: str, start: int, passage: Passage, grading: GradingScheme) -> Iterator[Item]:
    if (
        re.match(r"^\W*(?:foot)?note\s*\d", text, re.IGNORECASE)
        or _LOOSE.search(text)
        or _GENERAL.search(text)
        or is_negated(text)
        or _DUE.search(text) is None
        or (_CLOSES.search(text) and not _WEEKLY.search(text) and not re.search(r"\bdue\b", text, re.IGNORECASE))
    ):
        return
    rules = _rules(text)
    for number, phrase in enumerate(rules):
        assert isinstance(phrase.expression, Every)
        before = rules[number - 1].end if number else 0
        if phrase.expression.interval == 1 and _LONGER_STEP.search(text[: phrase.start]):
            continue  # "a problem set every two weeks, due Fridays" does not say which Fridays
        head = _head_of(text, phrase, before, is_only=len(rules) == 1)
        named = _named_above(text, phrase, passage, grading) if head is None and len(rules) == 1 else None
        if head is not None:
            yield _item(text, start, passage, phrase, grading, singular(noun_phrase(text, head)), head.kind)
        elif named is not None:
            yield _item(text, start, passage, phrase, grading, singular(named), kind_of_work(named) or Kind.ASSIGNMENT)


def _rules(text: str) -> list[Phrase]:
    """The rules of a sentence: what recurs by itself, and the weekdays on which weekly work is due. A day on which work
    only opens, and a rule that the sentence's own dates spell out, is left out."""
    phrases = phrases_in(text)
    every = [_ended(phrase, phrases, text) for phrase in phrases if isinstance(phrase.expression, Every)]
    dates = FullDate | MonthDay | NumericDate
    if every and sum(isinstance(phrase.expression, dates) and phrase.start > every[0].end for phrase in phrases) > 1:
        return []
    next_one = [
        phrase
        for phrase in phrases
        if isinstance(phrase.expression, WeekdayNear) and isinstance(phrase.expression.base, Reference)
    ]
    if every and next_one and _OPENS.search(text[: every[0].start]) and _THEN_DUE.search(text[: next_one[0].start]):
        return [_weekly(next_one[0])]
    if _WEEKLY.search(text):
        every = [one for one in every if not _is_bare_week(one)]
        for phrase in phrases_in(text, weak=True):
            is_day = isinstance(phrase.expression, WeekdayIn) and isinstance(phrase.expression.stretch, CalendarWeek)
            apart = all(phrase.end <= one.start or one.end <= phrase.start for one in every)
            if is_day and apart and _THEN_DUE.search(text[: phrase.start]):
                every.append(_weekly(phrase))
    rules = sorted(every, key=lambda phrase: phrase.start)
    due = [one for one in rules if not _OPENS.search(text[: one.start])]
    return [one for one in due or rules if not _is_bare_week(one)]


def _ended(phrase: Phrase, phrases: Sequence[Phrase], text: str) -> Phrase:
    """A rule with the last day that words behind it give ("…, starting in week 2 and ending in week 13")."""
    rule = phrase.expression
    if not isinstance(rule, Every) or rule.until is not None:
        return phrase
    for other in phrases:
        if other.start > phrase.end and other.expression and _ENDS.fullmatch(text[phrase.end : other.start]):
            return replace(phrase, expression=replace(rule, until=other.expression))
    return phrase


def _is_bare_week(phrase: Phrase) -> bool:
    rule = phrase.expression
    return isinstance(rule, Every) and rule.frequency is Frequency.WEEKLY and not rule.weekdays


def _weekly(phrase: Phrase) -> Phrase:
    """A weekday as the rule of each week."""
    match phrase.expression:
        case WeekdayIn(weekday=day) | WeekdayNear(weekday=day):
            return replace(phrase, expression=Every(Frequency.WEEKLY, weekdays=(day,)))
        case _:
            return phrase


def _head_of(text: str, phrase: Phrase, before: int, *, is_only: bool) -> Head | None:
    """The work a rule is about: the first before it since the rule before, else the only one behind it. What only a due
    word makes work ("a response is due each Monday") needs that word between."""
    heads = [head for head in find_heads(text) if not is_passed_over(text, head)]
    strong = [head for head in heads if not head.is_weak]
    front = [head for head in strong if before <= head.start and head.end <= phrase.start]
    weak = [
        head
        for head in heads
        if head.is_weak and before <= head.start < phrase.start and _is_due(text[head.end : phrase.start], before)
    ]
    rule = phrase.expression
    by_class = isinstance(rule, Every) and rule.frequency in (Frequency.MEETING, Frequency.DAILY)
    found = front or ([] if by_class else weak) or (strong if is_only else [])
    if not found:
        return None
    between = text[min(found[0].start, phrase.start) : max(found[0].end, phrase.end)]
    return None if _NOT_WORK.search(_OPENED.sub("", between)) else found[0]


def _is_due(between: str, before: int) -> bool:
    """Whether a due word stands between; in a further rule of the sentence it may be left out ("replies by Sunday")."""
    due = re.search(r"\b(?:due|submitted|turned in|handed in|collected)\b", between, re.IGNORECASE)
    return due is not None or (before > 0 and re.search(r"\b(?:by|on)?\s*$", between, re.IGNORECASE) is not None)


def _item(
    text: str, start: int, passage: Passage, phrase: Phrase, grading: GradingScheme, title: str, kind: Kind
) -> Item:
    mention = Mention(
        _timed(phrase, text),
        passage.place_of(start + phrase.start, start + phrase.end),
        phrase.text,
        " ".join(text.split()),
        doubts=phrase.doubts,
    )
    return Item(
        kind,
        title,
        (mention,),
        category=_category(title, grading),
        series_count=_count(title, kind, text, passage, grading),
        exceptions=read_exceptions(passage.text, title),
    )


def _named_above(text: str, phrase: Phrase, passage: Passage, grading: GradingScheme) -> str | None:
    """The work that a sentence only points at ("this must be submitted the night before each class"): what the
    heading above calls it, where the grading scheme knows it by that name."""
    if not _POINTS_BACK.match(text[: phrase.start]) or not passage.section:
        return None
    words = title_words(passage.section)
    return passage.section if any(title_words(one.name) == words for one in grading.categories) else None


def _timed(phrase: Phrase, text: str) -> Phrase:
    from syllabus_io.outline.entry_dates import with_clock

    if phrase.time is not None:
        return phrase
    clock = next((one for one in phrases_in(text) if one.time is not None and one.expression is None), None)
    if clock is None:
        clock = next((one for one in phrases_in(text) if one.time is not None), None)
    return with_clock(phrase, clock)


def _category(title: str, grading: GradingScheme) -> str | None:
    words = title_words(title)
    return next(
        (one.name for one in grading.categories if words <= title_words(one.name) or title_words(one.name) <= words),
        None,
    )


def _count(title: str, kind: Kind, text: str, passage: Passage, grading: GradingScheme) -> int | None:
    """How many works the outline counts: in its grading scheme, in the sentence of the rule, or in its paragraph."""
    name = _category(title, grading)
    count = next((one.count for one in grading.categories if one.name == name), None)
    if count is not None and count > 1:
        return count
    for match in _HOW_MANY.finditer(passage.text):
        found = count_of(match[1])
        named = find_heads(match["rest"])
        if found and found > 1 and (any(head.kind is kind for head in named) or not named):
            return found
    counted = re.search(
        r"\b(\w+)\s+(?:\w+\s+)?(?:problem sets|homeworks|quizzes|assignments|essays|papers|journals)\b",
        text,
        re.IGNORECASE,
    )
    found = count_of(counted[1]) if counted else None
    return found if found and found > 1 else count
