"""A text that is one date phrase, read as a whole. No calendar here: a phrase says what is written, evaluation decides
which day that is. :mod:`syllabus_io.resolve.running_text` finds phrases among other words.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from syllabus_io.resolve.expression import Phrase
from syllabus_io.resolve.foreign import RULE_NAME, has_foreign_word, in_english
from syllabus_io.resolve.language import GRAMMAR, PHRASE
from syllabus_io.resolve.matching import Match, Parse
from syllabus_io.resolve.named_base import counted_part, with_named_base
from syllabus_io.resolve.readings import Reading, in_school_hours
from syllabus_io.resolve.rules import Scope
from syllabus_io.resolve.tokens import Token, plain_text

__all__ = ["foreign_phrase", "parse_phrase", "phrase_of"]

#: A longer text is no single phrase.
_LONGEST_PHRASE_TEXT: Final = 240
_WORD = re.compile(r"[^\W\d_]+(?:-feira)?")
#: What may stand around a phrase: blanks; then quotation marks and opening brackets too; then closing ones too.
_AROUND: Final = (" \n", " \t\n\"'([{,;:!?]}*•", " \t\n\"'([{.,;:!?)]}*•")


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
    if found is not None:
        return found
    if has_foreign_word(_WORD.findall(text.lower())):
        return foreign_phrase(text)
    return _phrase_of_thing(text)


def _phrase_of_thing(text: str) -> Phrase | None:
    """The phrase that counts days from a thing no rule knows and is the whole text but for its closing signs."""
    counted = counted_part(text)
    phrase = _whole_phrase(counted) if counted is not None else None
    if phrase is None:
        return None
    found = with_named_base(phrase, text)
    return found if found != phrase and not text[found.end :].strip(_AROUND[-1]) else None


def _whole_phrase(text: str) -> Phrase | None:
    plain = plain_text(text)
    tree = GRAMMAR.tree(Scope.WHOLE)
    before = ""
    for around in _AROUND:
        inner = plain.strip(around)
        if inner == before:
            continue
        tokens = GRAMMAR.lexicon.tokens(inner)
        if not tokens:
            return None
        found = Parse(tree, tokens).matches(tree.slot(PHRASE), 0).get(len(tokens))
        if found is not None:
            return phrase_of(text, tokens, 0, found, len(plain) - len(plain.lstrip(around)))
        before = inner
    return None


def foreign_phrase(text: str, start: int = 0) -> Phrase | None:
    """A phrase in another language; ``start`` is where it stands in the text it comes from."""
    for english in in_english(text):
        found = _whole_phrase(english)
        if found is not None:
            return replace(found, text=text, start=start, end=start + len(text), rules=(RULE_NAME, *found.rules))
    return None


def phrase_of(text: str, tokens: Sequence[Token], first: int, match: Match, offset: int = 0) -> Phrase:
    """The phrase that a match of tokens from ``first`` on is; ``offset`` tells where the tokens' text begins."""
    reading = match.value
    assert isinstance(reading, Reading)
    start, end = tokens[first].start + offset, tokens[match.end - 1].end + offset
    rules = match.rules()
    doubts = (*reading.doubts, *(rule.doubt for rule in rules if rule.doubt))
    time = reading.time
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
        tuple(dict.fromkeys(rule.name for rule in rules)),
        tuple(dict.fromkeys(doubts)),
    )
