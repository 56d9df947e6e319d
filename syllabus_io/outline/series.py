"""Recurring rules: "a quiz every Friday", "journals are due on Sundays by noon"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.items import title_words
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import GradingScheme, Item, Kind, Mention
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.series_exceptions import read_exceptions
from syllabus_io.outline.titles import noun_phrase, singular, tidy_title
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.outline.work_words import find_heads, is_negated, is_passed_over
from syllabus_io.resolve.expression import Every, Frequency, Phrase

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
            item = _series(sentence.text, sentence.start, passage, grading)
            if item is None:
                continue
            words = title_words(item.title)
            if any(words <= title_words(one.title) for one in items) or words in taken:
                continue
            taken.append(words)
            yield item


def _series(text: str, start: int, passage: Passage, grading: GradingScheme) -> Item | None:
    phrases = [phrase for phrase in phrases_in(text) if isinstance(phrase.expression, Every)]
    if (
        not phrases
        or re.match(r"^\W*(?:foot)?note\s*\d", text, re.IGNORECASE)
        or _LOOSE.search(text)
        or _GENERAL.search(text)
        or is_negated(text)
    ):
        return None
    phrase = phrases[0]
    heads = [head for head in find_heads(text) if not head.is_weak and not is_passed_over(text, head)]
    due = re.search(r"\b(?:due|submitted|turned in|handed in|every|each|quiz(?:zes)?)\b", text, re.IGNORECASE)
    head = next((one for one in heads if one.end <= phrase.start), heads[0] if heads else None)
    if due is None:
        return None
    named = _named_above(text, phrase, passage, grading) if head is None else None
    if named is None and (
        head is None or _NOT_WORK.search(text[min(head.start, phrase.start) : max(head.end, phrase.end)])
    ):
        return None
    if (
        isinstance(phrase.expression, Every)
        and phrase.expression.frequency is Frequency.WEEKLY
        and not phrase.expression.weekdays
    ):
        return None
    title = singular(noun_phrase(text, head) if head is not None else named or "")
    mention = Mention(
        _timed(phrase, text),
        passage.place_of(start + phrase.start, start + phrase.end),
        phrase.text,
        " ".join(text.split()),
        doubts=phrase.doubts,
    )
    return Item(
        head.kind if head is not None else kind_of_work(title) or Kind.ASSIGNMENT,
        title,
        (mention,),
        category=_category(title, grading),
        series_count=_count(title, text, grading),
        exceptions=read_exceptions(passage.text, title),
    )


def _named_above(text: str, phrase: Phrase, passage: Passage, grading: GradingScheme) -> str | None:
    """The work that a sentence only points at ("this must be submitted the night before each class"): what the
    heading above calls it, where the grading scheme knows it by that name."""
    if not _POINTS_BACK.match(text[: phrase.start]) or not passage.section:
        return None
    words = title_words(passage.section)
    return passage.section if any(title_words(one.name) == words for one in grading.categories) else None


def _section_series(text: str, start: int, passage: Passage, phrase: Phrase, grading: GradingScheme) -> Item | None:
    """A rule in a section about one kind of work is about that work ("Journals": "submitted before each class")."""
    title = tidy_title(passage.section)
    heads = find_heads(title)
    if (
        not heads
        or _category(title, grading) is None
        or not re.search(r"\b(?:due|submit|turn|hand)", text, re.IGNORECASE)
    ):
        return None
    place = passage.place_of(start + phrase.start, start + phrase.end)
    mention = Mention(_timed(phrase, text), place, phrase.text, " ".join(text.split()), doubts=phrase.doubts)
    title = singular(title)
    return Item(
        heads[0].kind, title, (mention,), category=_category(title, grading), series_count=_count(title, text, grading)
    )


def _timed(phrase: Phrase, text: str) -> Phrase:
    from syllabus_io.outline.entry_dates import with_clock

    clock = next((one for one in phrases_in(text) if one.time is not None), None)
    return with_clock(phrase, clock)


def _category(title: str, grading: GradingScheme) -> str | None:
    words = title_words(title)
    return next(
        (one.name for one in grading.categories if words <= title_words(one.name) or title_words(one.name) <= words),
        None,
    )


def _count(title: str, text: str, grading: GradingScheme) -> int | None:
    from syllabus_io.outline.vocabulary import count_of

    name = _category(title, grading)
    count = next((one.count for one in grading.categories if one.name == name), None)
    if count is not None:
        return count
    match = re.search(
        r"\b(\w+)\s+(?:\w+\s+)?(?:problem sets|homeworks|quizzes|assignments|essays|papers|journals)\b",
        text,
        re.IGNORECASE,
    )
    found = count_of(match[1]) if match else None
    return found if found and found > 1 else None
