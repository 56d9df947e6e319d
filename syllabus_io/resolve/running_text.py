"""Date phrases in running text. Numbers that are no dates (:mod:`syllabus_io.resolve.rules_never`) are passed over."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Final

from syllabus_io.resolve.expression import (
    CalendarWeek,
    DateExpression,
    Direction,
    FullDate,
    MonthDay,
    Phrase,
    Reference,
    Span,
    Week,
    WeekdayIn,
    WeekdayNear,
)
from syllabus_io.resolve.foreign import foreign_stretches, has_foreign_word
from syllabus_io.resolve.grammar import Tree
from syllabus_io.resolve.language import GRAMMAR, NEVER, PHRASE
from syllabus_io.resolve.matching import Match, Parse
from syllabus_io.resolve.named_base import with_named_base
from syllabus_io.resolve.parse import foreign_phrase, phrase_of
from syllabus_io.resolve.readings import Reading
from syllabus_io.resolve.rules import Scope
from syllabus_io.resolve.rules_absolute import date_in
from syllabus_io.resolve.tokens import Token, plain_text

__all__ = ["find_phrases"]

_ADDRESS = re.compile(r"(?:https?://|www\.)\S+|[\w.+-]+@[\w-]+(?:\.[\w-]+)*\.[a-z]{2,}|\bdoi:\s?\S+", re.IGNORECASE)
_DIGIT = re.compile(r"\d")
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")
_JOINTS: Final = frozenset({",", ";", "and", "&", "/"})

_Stretch = tuple[int, int]  # a half-open range of characters


def find_phrases(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """All date and time phrases in running text, left to right, not overlapping.

    Numbers that are no dates are left out. With ``weak`` also bare day numbers, weekdays, times, months and holidays;
    a bare weekday is then that day of the week the text belongs to. Days in a list ("Sept 9, 16 and 23", "Oct 7/9") are
    a phrase each.
    """
    scope = Scope.WEAK if weak else Scope.ANY
    if not _DIGIT.search(text) and not any(is_telling(word, scope) for word in _WORD.findall(plain_text(text))):
        return ()
    tree = GRAMMAR.tree(scope)
    words = GRAMMAR.lexicon.tokens(text)
    found: list[Phrase] = []
    foreign: list[Phrase] = []
    blocked = [match.span() for match in _ADDRESS.finditer(text)] if _may_hold_address(text) else []
    if has_foreign_word(token.word for token in words):
        stretches = [foreign_phrase(text[start:end], start) for start, end in foreign_stretches(text)]
        foreign = [phrase for phrase in stretches if phrase is not None]
        blocked += [(phrase.start, phrase.end) for phrase in foreign]
    for tokens in _runs(words):
        if tree.may_fill(PHRASE, tokens):
            found.extend(_Run(tree, text, tokens, blocked).phrases())
    if foreign:  # "week 5 octobre": the number belongs to the month, not to the week
        found = [one for one in found if not any(one.start < two.end and two.start < one.end for two in foreign)]
        found += foreign
    if weak:
        found = [_in_its_week(phrase) for phrase in found]
    return _apart(found)


def _apart(found: list[Phrase]) -> tuple[Phrase, ...]:
    """The phrases in their order, without those that lie in the name of a thing days are counted from."""
    kept: list[Phrase] = []
    for phrase in sorted(found, key=lambda phrase: phrase.start):
        if not kept or kept[-1].end <= phrase.start:
            kept.append(phrase)
    return tuple(kept)


@lru_cache(maxsize=8192)
def is_telling(word: str, scope: Scope) -> bool:
    """Whether a word as written is one of those of which every phrase without digits has one."""
    telling = GRAMMAR.tree(scope).slot(PHRASE).needs[0]
    return any(not telling.isdisjoint(token.sort.keys) for token in GRAMMAR.lexicon.tokens(word))


def _may_hold_address(text: str) -> bool:
    return "://" in text or "@" in text or "www." in text or "doi" in text.lower()


def _runs(tokens: Sequence[Token]) -> Iterator[Sequence[Token]]:
    """The stretches of tokens that rules know; no phrase reaches over a word that none of them has."""
    start = 0
    for place, token in enumerate(tokens):
        if not token.sort.keys:
            if place > start:
                yield tokens[start:place]
            start = place + 1
    if start < len(tokens):
        yield tokens[start:]


class _Run:
    """A row of words that rules know, searched from left to right; phrases do not begin in what is blocked."""

    def __init__(self, tree: Tree, text: str, tokens: Sequence[Token], blocked: Sequence[_Stretch]) -> None:
        self._parse: Final = Parse(tree, tokens)
        self._phrase: Final = tree.slot(PHRASE)
        self._never: Final = tree.slot(NEVER)
        self._text: Final = text
        self._tokens: Final = tokens
        self._blocked: Final = blocked

    def phrases(self) -> Iterator[Phrase]:
        """The phrases of the run, each with the days of a list that follow it."""
        place = 0
        while (found := self._next(place)) is not None:
            start, match = found
            yield with_named_base(phrase_of(self._text, self._tokens, start, match), self._text)
            place = match.end
            for listed, after in self._listed(match):
                yield listed
                place = after

    def _next(self, place: int) -> tuple[int, Match] | None:
        """The next phrase from a token on, with the token it begins with, that is no part of a number that is no date.
        Such numbers are looked for only where a phrase follows."""
        while (found := self._first_match(place)) is not None:
            start, match = found
            while place < start:
                place = max(self._number_end(place), place + 1)
            if place == start:
                place = self._number_end(start)
                if place < match.end:
                    return found
        return None

    def _first_match(self, place: int) -> tuple[int, Match] | None:
        first = self._phrase.first
        for start in range(place, len(self._tokens)):
            if not first.isdisjoint(self._tokens[start].sort.keys) and not self._is_blocked(start):
                match = self._longest(start)
                if match is not None:
                    return start, match
        return None

    def _is_blocked(self, place: int) -> bool:
        at = self._tokens[place].start
        return any(start <= at < end for start, end in self._blocked) if self._blocked else False

    def _longest(self, place: int) -> Match | None:
        """The longest phrase from a token on that does not cut a number or word in two."""
        text, tokens = self._text, self._tokens
        matches = self._parse.matches(self._phrase, place)
        if not matches or not _starts_clean(text, tokens[place]):
            return None
        for end in sorted(matches, reverse=True):
            whole = _ends_clean(text, tokens[end - 1]) or _opens_list(tokens, end)
            if whole and not _is_number_before_date(tokens, place, end):
                return matches[end]
        return None

    def _number_end(self, place: int) -> int:
        """The end of a number that is no date and begins with a token; that token when there is none."""
        tokens = self._tokens
        if not self._is_blocked(place):
            for end in sorted(self._parse.matches(self._never, place), reverse=True):
                following = tokens[end] if end < len(tokens) else None
                if following is None or not (
                    following.glued and following.word in ("/", "-") and tokens[end - 1].word.isdigit()
                ):
                    return end
        return place

    def _listed(self, match: Match) -> Iterator[tuple[Phrase, int]]:
        """Further days of the month or weeks that follow one, with the token after each: "Sept 9, 16 and 23"."""
        text, tokens, place, day = self._text, self._tokens, match.end, _last_day(match)
        found: list[tuple[Phrase, int]] = []
        closed = False
        while day is not None and place + 1 < len(tokens) and tokens[place].word in _JOINTS:
            number = place + 1
            if tokens[number].word in ("and", "&") and number + 1 < len(tokens):
                number += 1
            closed = closed or tokens[number - 1].word not in (",", ";")
            token = tokens[number]
            value = token.value("<dd>", "<nth>")
            day = _following_day(day, value) if isinstance(value, int) else None
            whole = _ends_clean(text, token) or _goes_on(tokens, number + 1)
            if day is None or not whole or self._parse.matches(self._never, number):
                break
            place = number + 1
            phrase = Phrase(text[token.start : token.end], token.start, token.end, day, rules=("<day> in a list",))
            found.append((phrase, place))
        after = text[found[-1][0].end :].lstrip(" ")[:1] if found else ""
        if closed or len(found) > 1 or after in ("", "\n", ")", ".", ";", ":"):
            yield from found


def _starts_clean(text: str, token: Token) -> bool:
    if token.start == 0:
        return True
    before = text[token.start - 1]
    if before.isalnum() or before in "_#$€£":
        return False
    if before in "./-:–" and token.start > 1 and token.word[0].isdigit():
        return not text[token.start - 2].isalnum()
    return True


def _ends_clean(text: str, token: Token) -> bool:
    after = text[token.end : token.end + 2]
    if not after:
        return True
    if after[0].isalnum() or after[0] in "_%°":
        return False
    return not (token.word[-1].isdigit() and after[0] in "/-:–." and after[1:].isdigit())


def _opens_list(tokens: Sequence[Token], end: int) -> bool:
    """Whether a slash after a named month and a day only parts two days: "September 9/11"."""
    if end < 2 or end + 1 >= len(tokens) or tokens[end].word != "/" or tokens[end - 2].value("<month>") is None:
        return False
    return tokens[end - 1].value("<dd>") is not None and tokens[end + 1].value("<dd>") is not None


def _is_number_before_date(tokens: Sequence[Token], start: int, end: int) -> bool:
    """Whether numbers only stand before a date: in "Quiz 3 Oct 5" the day is the 5th, not the 3rd."""
    if end >= len(tokens) or not tokens[start].word.isdigit() or tokens[end - 1].value("<month>") is None:
        return False
    return tokens[end].value("<dd>", "<nth>") is not None


def _in_its_week(phrase: Phrase) -> Phrase:
    """A bare weekday found in running text belongs to the week of its row, not to the days to come."""
    match phrase.expression:
        case WeekdayNear(Reference(), weekday, Direction.AFTER, 1) if phrase.rules[0].startswith(
            ("<weekday>", "<time> on")
        ):
            return replace(phrase, expression=WeekdayIn(CalendarWeek(Reference(), 0), weekday))
    return phrase


def _last_day(match: Match) -> DateExpression | None:
    """The day or week of a phrase that a list may go on from."""
    reading = match.value
    if not isinstance(reading, Reading) or reading.time.start is not None:
        return None
    day = reading.expression.last if isinstance(reading.expression, Span) else reading.expression
    if isinstance(day, Week):
        return day if any(rule.name == "weeks <number>" for rule in match.rules()) else None
    return day if isinstance(day, MonthDay | FullDate) else None


def _goes_on(tokens: Sequence[Token], place: int) -> bool:
    """Whether the list goes on after a slash: "Nov 25/26/27"."""
    more = tokens[place + 1] if place + 1 < len(tokens) and tokens[place].word == "/" else None
    return more is not None and more.value("<dd>") is not None


def _following_day(day: DateExpression, number: int) -> DateExpression | None:
    match day:
        case MonthDay(month, before) if number > before:
            return date_in(month, number)
        case FullDate(before) if number > before.day:
            return date_in(before.month, number, before.year)
        case Week(before) if before < number <= 53:
            return Week(number)
    return None
