"""Several days off in one sentence: "No class: Labor Day (Sept 7), autumn break (Oct 12-16) and Nov 26-27"."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.titles import tidy_title
from syllabus_io.resolve.expression import FullDate, MonthDay, NumericDate, Phrase, Span

__all__ = ["listed_days_off"]

_INTRODUCES = re.compile(
    r"\b(?:no (?:class(?:es)?|lectures?|school|meetings?|studio|seminar|instruction)|"
    r"days? (?:off|without (?:a )?class(?:es)?)|holidays?|breaks?|(?:class(?:es)?|we) (?:do(?:es)?|will) not meet|"
    r"(?:class(?:es)?|campus|university|college|school|offices?) (?:is|are|will be)?\s*(?:cancel(?:l)?ed|closed))\b",
    re.IGNORECASE,
)
_IS_RANGE = re.compile(
    r"[\s,]*(?:[-–—]|to|through|thru|until|till|and ends?(?: on)?|and classes resume)[\s,]*", re.IGNORECASE
)
_OPENING = re.compile(
    r"^\W*(?:(?:and|or|also|plus|on|during|for|over|the|there (?:are|is|will be)|no (?:class(?:es)?|lectures?|school|"
    r"meetings?|instruction)|days? (?:off|without (?:a )?class(?:es)?)|(?:class(?:es)?|we) (?:do(?:es)?|will) not meet|"
    r"no (?:studio|seminar)|from|at(?= [A-Z])|"
    r"(?:university |school |public |federal )?holidays?(?=\s*:)|breaks?(?=\s*:))\b\W*)+",
    re.IGNORECASE,
)
_REGISTRAR = re.compile(
    r"\b(?:(?:first|last) (?:day|class)|(?:add|drop|withdraw\w*|refund|census|registration) (?:date|day|deadline)|"
    r"exam(?:ination)?s?|midterms?|quiz(?:zes)?|deadline|class(?:es)? (?:begins?|ends?|resumes?|starts?))\b",
    re.IGNORECASE,
)
_OFF_WORD = re.compile(r"\b(?:\w*day|break|recess|vacation|holidays?|thanksgiving)\b", re.IGNORECASE)
_MOST_WORDS = 6
_SPLITS = re.compile(r";|,|\band\b|\bor\b|&", re.IGNORECASE)


def listed_days_off(text: str, section: str = "") -> tuple[tuple[str, Phrase], ...]:
    """The days off that a sentence lists, each with its name and date phrase; empty when it is no list of at least
    two. A day without a name of its own is called "No class"."""
    phrases = _runs_joined(
        text,
        [
            phrase
            for phrase in dated_phrases(text)
            if isinstance(phrase.expression, FullDate | MonthDay | NumericDate | Span)
        ],
    )
    if len(phrases) < 2 or not (_INTRODUCES.search(text) or _INTRODUCES.search(section)):
        return ()
    gaps = [text[one.end : other.start] for one, other in pairwise(phrases)]
    if any(_IS_RANGE.fullmatch(gap) for gap in gaps):
        return ()
    introduced = None if _INTRODUCES.search(section) else _INTRODUCES.search(text)
    opens = introduced.start() if introduced is not None else 0  # what stands before must be named a day off itself
    bounds = [0, *(_boundary(text, one, other) for one, other in pairwise(phrases)), len(text)]
    return tuple(
        (_name(text, bounds[index], bounds[index + 1], phrase), phrase)
        for index, phrase in enumerate(phrases)
        if _is_off(text[bounds[index] : bounds[index + 1]])
        and (bounds[index + 1] > opens or _OFF_WORD.search(text[bounds[index] : bounds[index + 1]]))
    )


def _is_off(words: str) -> bool:
    """Whether an entry of a list of dates may be a day off, and is no day of the registrar ("last day to drop")."""
    return _INTRODUCES.search(words) is not None or _REGISTRAR.search(words) is None


def _runs_joined(text: str, phrases: list[Phrase]) -> list[Phrase]:
    """The phrases, two days that follow each other ("October 15 and 16") put together as one stretch."""
    joined: list[Phrase] = []
    for phrase in phrases:
        before = joined[-1] if joined else None
        if before is not None and _is_run(before, phrase, text[before.end : phrase.start]):
            assert before.expression is not None and phrase.expression is not None
            days = Span(before.expression, phrase.expression)
            joined[-1] = replace(before, text=text[before.start : phrase.end], end=phrase.end, expression=days)
        else:
            joined.append(phrase)
    return joined


def _is_run(first: Phrase, second: Phrase, gap: str) -> bool:
    a, b = first.expression, second.expression
    return (
        isinstance(a, MonthDay)
        and isinstance(b, MonthDay)
        and a.month == b.month
        and b.day == a.day + 1
        and re.fullmatch(r"\s*(?:and|&|/|,)\s*", gap) is not None
        and not re.search(r"[A-Za-z]", second.text)
    )


def _boundary(text: str, before: Phrase, after: Phrase) -> int:
    """Where the words of one day off end and those of the next begin: at a semicolon, else at the first comma or
    "and" behind the date and what stands in brackets with it."""
    gap = text[before.end : after.start]
    semicolon = gap.find(";")
    if semicolon >= 0:
        return before.end + semicolon
    closed = re.match(r"\s*\)|\s*\([^)]*\)", gap)
    start = closed.end() if closed else 0
    split = _SPLITS.search(gap, start)
    return before.end + (split.start() if split else start)


def _name(text: str, start: int, end: int, phrase: Phrase) -> str:
    words = f"{text[start : phrase.start]} {text[phrase.end : end]}"
    words = _OPENING.sub("", re.sub(r"[;,()\[\]]", " ", words))
    name = tidy_title(" ".join(words.split()).strip(" .:–—-"))
    return name if re.search(r"[A-Za-z]{3}", name) and len(name.split()) <= _MOST_WORDS else "No class"
