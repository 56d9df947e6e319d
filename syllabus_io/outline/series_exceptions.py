"""Where a recurring rule does not hold: "except the week of the break", "no homework is due in exam weeks"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from syllabus_io.outline.frames import is_single_day
from syllabus_io.outline.items import title_words
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import Kind, SeriesException
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import CalendarWeek, Every, NamedDay, Phrase, Weekday, WeekdayIn

__all__ = ["read_exceptions"]

_EXCEPT = re.compile(r"\b(?:except(?:ion|ions|ing)?|excluding|other than|apart from|but not)\b", re.IGNORECASE)
_NONE_DUE = re.compile(
    r"\b(?:no|not|none|nothing|without)\b(?:\W+\w+){0,5}?\W+(?:due|assigned|given|submitted|collected|held)\b"
    r"|\b(?:not|never|n[o']t) (?:be )?(?:due|given|assigned|held|collected)\b|\bno (?:\w+ ){0,2}",
    re.IGNORECASE,
)
_EXAM_WEEKS = re.compile(
    r"\b(?:exam|examination|test|mid-?term)s?\s+weeks?\b"
    r"|\bweeks?\s+(?:when|in which|during which|where|with|that (?:has|have|contains?)|of)\s+(?:\w+\s+){0,4}?"
    r"(?:exam|examination|test|mid-?term)s?\b",
    re.IGNORECASE,
)
_EXAM_DAYS = re.compile(
    r"\b(?:exam|examination|test|mid-?term)s?\s+(?:days?|(?:mon|tues|wednes|thurs|fri)days?)\b"
    r"|\bdays?\s+(?:of|with|when there (?:is|are)|that ha(?:s|ve))"
    r"\s+(?:an?\s+|the\s+)?(?:exam|examination|test|mid-?term)s?\b",
    re.IGNORECASE,
)
_THAT_WEEK = re.compile(r"\b(?:that|this|these|those)\s+weeks?\b", re.IGNORECASE)


def read_exceptions(text: str, title: str) -> tuple[SeriesException, ...]:
    """The exceptions that a passage states for the recurring work called ``title``.

    A sentence counts when it makes an exception to the rule itself, or says that there is none of this work.
    """
    found: dict[SeriesException, None] = {}
    for sentence in sentences_of(text):
        cut = _EXCEPT.search(sentence.text)
        phrases = phrases_in(sentence.text, weak=True)
        if cut is not None and any(isinstance(phrase.expression, Every) for phrase in phrases):
            for exception in _after(sentence.text, cut.end(), phrases):
                found.setdefault(exception)
        elif _says_none(sentence.text, title):
            for exception in _of_sentence(sentence.text, phrases):
                found.setdefault(exception)
    return tuple(found)


def _says_none(text: str, title: str) -> bool:
    """Whether a sentence says that there is none of the work at some time."""
    if not _NONE_DUE.search(text):
        return False
    words = title_words(title)
    return any(title_words(head.word) & words for head in find_heads(text)) or bool(
        re.search(r"\b(?:none|nothing) (?:is |are |will be )?due\b", text, re.IGNORECASE)
    )


def _after(text: str, start: int, phrases: tuple[Phrase, ...]) -> Iterator[SeriesException]:
    """What follows the word "except": stretches left out, and the weekdays that stand in for them there."""
    if _EXAM_WEEKS.search(text, start):
        yield SeriesException(around=Kind.EXAM)
    elif _EXAM_DAYS.search(text, start):
        yield SeriesException(around=Kind.EXAM, same_day=True)
    instead = _stand_ins(text, start, phrases)
    within = [
        part for phrase in phrases if isinstance(phrase.expression, Every) for part in phrase.expression.except_in
    ]
    behind = [phrase.expression for phrase in phrases if phrase.start >= start and _is_stretch(phrase)]
    for stretch in [*within, *behind]:
        if stretch is not None and not (isinstance(stretch, NamedDay) and _EXAM_WEEKS.search(stretch.name)):
            yield SeriesException(stretch, instead=instead)
            instead = ()


def _of_sentence(text: str, phrases: tuple[Phrase, ...]) -> Iterator[SeriesException]:
    """What a sentence leaves out that says when there is no work."""
    weekdays = tuple(dict.fromkeys(day for phrase in phrases for day in _weekdays(phrase)))
    if _EXAM_WEEKS.search(text):
        yield SeriesException(around=Kind.EXAM, weekdays=weekdays)
        return
    for phrase in phrases:
        if _is_stretch(phrase):
            yield SeriesException(phrase.expression, weekdays=weekdays)


def _stand_ins(text: str, start: int, phrases: tuple[Phrase, ...]) -> tuple[Weekday, ...]:
    """The weekdays named behind the exception for the same stretch ("due on Tuesday and Thursday that week")."""
    if not _THAT_WEEK.search(text, start):
        return ()
    return tuple(dict.fromkeys(day for phrase in phrases if phrase.start >= start for day in _weekdays(phrase)))


def _weekdays(phrase: Phrase) -> tuple[Weekday, ...]:
    match phrase.expression:
        case Every(weekdays=days):
            return days
        case WeekdayIn(stretch=CalendarWeek(), weekday=day):
            return (day,)
        case _:
            return ()


def _is_stretch(phrase: Phrase) -> bool:
    """Whether a phrase names a time to leave out: a stretch, or a day that is more than a weekday."""
    expression = phrase.expression
    if expression is None or isinstance(expression, Every | CalendarWeek):
        return False
    return not is_single_day(expression) or not (
        isinstance(expression, WeekdayIn) and isinstance(expression.stretch, CalendarWeek)
    )
