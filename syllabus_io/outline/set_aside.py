"""The dates of an outline that became no work, day off or row, each with why: for a person who checks the reading."""

from __future__ import annotations

from collections.abc import Iterator

from syllabus_io.extract.document import Document
from syllabus_io.outline.clauses import is_fraction, is_request
from syllabus_io.outline.frames import Passage, mention_of
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.policies import rule_word
from syllabus_io.outline.read import passages_of
from syllabus_io.outline.records import Mention, Outline
from syllabus_io.outline.sentences import parts_of_sentence, sentences_of
from syllabus_io.outline.work_words import find_heads, is_announced, is_negated, is_passed_over
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import Every, Phrase

__all__ = ["read_set_aside"]

NO_WORK = "its sentence names no work"
PASSED_OVER = "its sentence speaks about work and has nothing handed in or sat then"
GIVEN_OUT = "it is the day on which work is handed out, opened, discussed or given back"
NOT_TIED = "no work in its sentence could be tied to this date"
A_RULE = "it is a rule for many days, and the work it is about is dated one by one, or not plain"
ASKS = "it says whom to ask or tell by then, and not what to hand in"
COUNTS = "it looks like a date and counts something"
HANDED_OUT_COLUMN = "it stands in a column of work that is handed out"

_Cell = tuple[int | None, int, int | None, int | None]


def read_set_aside(document: Document, outline: Outline) -> tuple[Mention, ...]:
    """The dates that were not taken, in reading order; the only doubt of each says why. Times alone are no dates."""
    taken = _Taken(outline)
    return tuple(mention for passage in passages_of(document) for mention in _left_out(passage) if mention not in taken)


class _Taken:
    """The places and words of what became work, days off or rows."""

    def __init__(self, outline: Outline) -> None:
        mentions = [one for item in outline.items for one in (*item.mentions, *([item.end] if item.end else []))]
        mentions += [off.mention for off in outline.no_class]
        mentions += outline.row_dates
        self._words: dict[_Cell, set[str]] = {}
        self._contexts: set[tuple[str, str]] = set()
        for mention in mentions:
            self._words.setdefault(_cell(mention.place), set()).add(_plain(mention.words))
            self._contexts.add((_plain(mention.context), _plain(mention.words)))

    def __contains__(self, mention: Mention) -> bool:
        words = _plain(mention.words)
        here = self._words.get(_cell(mention.place), set())
        if any(words in other or other in words for other in here if other):
            return True
        return any(words in other and context in _plain(mention.context) for context, other in self._contexts if other)


def _cell(place: Place) -> _Cell:
    return place.page, place.block, place.row, place.column


def _plain(text: str) -> str:
    return " ".join(text.lower().split())


def _left_out(passage: Passage) -> Iterator[Mention]:
    for sentence in sentences_of(passage.text):
        for start, part in parts_of_sentence(sentence.text):
            for phrase in dated_phrases(part):
                begin = sentence.start + start
                place = passage.place_of(begin + phrase.start, begin + phrase.end)
                yield mention_of(passage, phrase, sentence.text, place, (_why(part, phrase, passage),))


def _why(text: str, phrase: Phrase, passage: Passage) -> str:
    """The first plain reason for which a date was passed over."""
    word = rule_word(text)
    heads = [head for head in find_heads(text) if not head.is_weak] or find_heads(text)
    reasons = (
        (passage.role is ColumnRole.ASSIGNED, HANDED_OUT_COLUMN),
        (bool(word), f"its sentence is about rules, other people or the school, not about work due then (“{word}”)"),
        (is_request(text), ASKS),
        (is_fraction(text, phrase), COUNTS),
        (isinstance(phrase.expression, Every), A_RULE),
        (not heads, NO_WORK),
        (bool(heads) and (is_announced(text) or is_negated(text)), GIVEN_OUT),
        (all(is_passed_over(text, head) for head in heads), PASSED_OVER),
    )
    return next((reason for holds, reason in reasons if holds), NOT_TIED)
