"""Text to date phrases. No calendar here: a phrase says what is written, evaluation decides which day that is.

:func:`parse_phrase` reads a text that is one phrase as a whole, :func:`find_phrases` finds them in running text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from syllabus_io.resolve import (
    rules_absolute,
    rules_bounds,
    rules_meeting,
    rules_never,
    rules_phrase,
    rules_recurring,
    rules_relative,
    rules_span,
    rules_time,
    rules_week,
)
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
from syllabus_io.resolve.foreign import RULE_NAME, foreign_stretches, has_foreign_word, in_english
from syllabus_io.resolve.grammar import Grammar, Match, Parse
from syllabus_io.resolve.readings import Reading, in_school_hours
from syllabus_io.resolve.rules import Rule, Scope
from syllabus_io.resolve.rules_absolute import date_in
from syllabus_io.resolve.tokens import Token, plain_text

__all__ = ["RULES", "find_phrases", "parse_phrase"]

#: Every rule of the date language, in the order in which they are preferred.
RULES: Final[tuple[Rule, ...]] = (
    *rules_absolute.RULES,
    *rules_week.RULES,
    *rules_meeting.RULES,
    *rules_relative.RULES,
    *rules_span.RULES,
    *rules_time.RULES,
    *rules_recurring.RULES,
    *rules_bounds.RULES,
    *rules_phrase.RULES,
    *rules_never.RULES,
)
_GRAMMAR: Final = Grammar(RULES)
_PHRASE: Final = "<phrase>"
_NEVER: Final = "<never>"
_STARTS: Final = _GRAMMAR.first(_PHRASE) | _GRAMMAR.first(_NEVER)
#: A longer text is no single phrase.
_LONGEST_PHRASE_TEXT: Final = 240
_ADDRESS = re.compile(r"(?:https?://|www\.)\S+|[\w.+-]+@[\w-]+(?:\.[\w-]+)*\.[a-z]{2,}|\bdoi:\s?\S+", re.IGNORECASE)
_JOINTS: Final = frozenset({",", ";", "and", "&", "/"})
_BARE_WEEKDAYS: Final = frozenset(rule.name for rule in RULES if rule.gives == _PHRASE and "<weekday>" in rule.name)
_WORD = re.compile(r"[^\W\d_]+(?:-feira)?")
_WRAPPING = " \t\n\"'([{.,;:!?)]}*•"


def parse_phrase(text: str) -> Phrase | None:
    """The phrase the whole text is, None when it is none or more than one.

    Quotation marks, brackets and a closing full stop around it do not count. Texts over 240 characters are declined.
    What the rules do not know is tried in other languages when it has a month or weekday word of one.

    >>> from syllabus_io.resolve.expression import write_expression
    >>> write_expression(parse_phrase("the Friday of week 5").expression)
    'weekday_in(week(5), FR)'
    """
    if len(text) > _LONGEST_PHRASE_TEXT:
        return None
    found = _whole_phrase(text)
    if found is None and has_foreign_word(_WORD.findall(text.lower())):
        return _foreign_phrase(text)
    return found


def _whole_phrase(text: str) -> Phrase | None:
    plain = plain_text(text)
    for around in (" \n", _WRAPPING.replace(".", "").replace(")", ""), _WRAPPING):
        start = len(plain) - len(plain.lstrip(around))
        tokens = _GRAMMAR.lexicon.tokens(plain[start : len(plain.rstrip(around))])
        if not tokens:
            return None
        found = Parse(_GRAMMAR, tokens, Scope.WHOLE).matches(_PHRASE, 0).get(len(tokens))
        if found is not None:
            return _phrase(text, tokens, 0, found, start)
    return None


def _foreign_phrase(text: str, start: int = 0) -> Phrase | None:
    """A phrase in another language; ``start`` is where it stands in the text it comes from."""
    for english in in_english(text):
        found = _whole_phrase(english)
        if found is not None:
            return replace(found, text=text, start=start, end=start + len(text), rules=(RULE_NAME, *found.rules))
    return None


def find_phrases(text: str, weak: bool = False) -> tuple[Phrase, ...]:
    """All date and time phrases in running text, left to right, not overlapping.

    Numbers that are no dates are left out. With ``weak`` also bare day numbers, weekdays, times, months and holidays;
    a bare weekday is then that day of the week the text belongs to. Days in a list ("Sept 9, 16 and 23", "Oct 7/9") are
    a phrase each.
    """
    blocked = [match.span() for match in _ADDRESS.finditer(text)] if _may_hold_address(text) else []
    found: list[Phrase] = []
    words = _GRAMMAR.lexicon.tokens(text)
    if has_foreign_word(token.word for token in words):
        foreign = [_foreign_phrase(text[start:end], start) for start, end in foreign_stretches(text)]
        found = [phrase for phrase in foreign if phrase is not None]
        blocked += [(phrase.start, phrase.end) for phrase in found]
    for tokens in _runs(words):
        parse = Parse(_GRAMMAR, tokens, Scope.WEAK if weak else Scope.ANY)
        place = 0
        while place < len(tokens):
            token = tokens[place]
            if _STARTS.isdisjoint(token.sort.keys) or any(start <= token.start < end for start, end in blocked):
                place += 1
                continue
            match = _longest(parse, text, place)
            passed = _passed_over(parse, place)
            if match is None or passed >= match.end:
                place = max(passed, place + 1)
                continue
            phrase = _phrase(text, tokens, place, match, 0)
            found.append(_in_its_week(phrase) if weak else phrase)
            place = match.end
            for more, end in _listed(parse, text, match):
                found.append(more)
                place = end
    return tuple(sorted(found, key=lambda phrase: phrase.start))


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


def _may_hold_address(text: str) -> bool:
    return "://" in text or "@" in text or "www." in text or "doi" in text.lower()


def _longest(parse: Parse, text: str, place: int) -> Match | None:
    """The longest phrase from a token on that does not cut a number or word in two."""
    tokens = parse.tokens
    token = tokens[place]
    if not _starts_clean(text, token):
        return None
    matches = parse.matches(_PHRASE, place)
    for end in sorted(matches, reverse=True):
        whole = _ends_clean(text, tokens[end - 1]) or _opens_list(tokens, end)
        if whole and not _is_number_before_date(tokens, place, end):
            return matches[end]
    return None


def _passed_over(parse: Parse, place: int) -> int:
    """The end of a number that is no date, or 0."""
    tokens = parse.tokens
    ends = parse.matches(_NEVER, place)
    for end in sorted(ends, reverse=True):
        following = tokens[end] if end < len(tokens) else None
        if following is None or not (
            following.glued and following.word in ("/", "-") and tokens[end - 1].word.isdigit()
        ):
            return end
    return 0


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


def _phrase(text: str, tokens: Sequence[Token], first: int, match: Match, offset: int) -> Phrase:
    reading = match.value
    assert isinstance(reading, Reading)
    start, end = tokens[first].start + offset, tokens[match.end - 1].end + offset
    time = reading.time
    doubts = (*reading.doubts, *(rule.doubt for rule in match.rules if rule.doubt))
    if time.loose and time.start is not None and time.end is None and 7 <= time.start.hour <= 8:
        doubts = (*doubts, f"the time {time.start.hour}:{time.start.minute:02} is written without a.m. or p.m.")
    time = in_school_hours(time)
    return Phrase(
        text[start:end],
        start,
        end,
        reading.expression,
        time.start,
        time.end,
        time.point,
        time.zone,
        tuple(dict.fromkeys(rule.name for rule in match.rules)),
        tuple(dict.fromkeys(doubts)),
    )


def _in_its_week(phrase: Phrase) -> Phrase:
    """A bare weekday found in running text belongs to the week of its row, not to the days to come."""
    match phrase.expression:
        case WeekdayNear(Reference(), weekday, Direction.AFTER, 1) if phrase.rules[0].startswith(
            ("<weekday>", "<time> on")
        ):
            return replace(phrase, expression=WeekdayIn(CalendarWeek(Reference(), 0), weekday))
    return phrase


def _listed(parse: Parse, text: str, match: Match) -> Iterator[tuple[Phrase, int]]:
    """Further days of the month or weeks that follow one: "Sept 9, 16 and 23", "Oct 7/9", "Weeks 3, 5 and 7"."""
    tokens, place, day = parse.tokens, match.end, _last_day(match)
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
        if day is None or not whole or parse.matches(_NEVER, number):
            break
        place = number + 1
        phrase = Phrase(text[token.start : token.end], token.start, token.end, day, rules=("<day> in a list",))
        found.append((phrase, place))
    if found and (
        closed or len(found) > 1 or text[found[-1][0].end :].lstrip(" ")[:1] in ("", "\n", ")", ".", ";", ":")
    ):
        yield from found


def _last_day(match: Match) -> DateExpression | None:
    """The day or week of a phrase that a list may go on from."""
    reading = match.value
    if not isinstance(reading, Reading) or reading.time.start is not None:
        return None
    day = reading.expression.last if isinstance(reading.expression, Span) else reading.expression
    if isinstance(day, Week):
        return day if any(rule.name == "weeks <number>" for rule in match.rules) else None
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
