"""Phrases in running text: what is passed over unread would have given nothing, and things named by their own words."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from syllabus_io.resolve.expression import Anchor, Offset, Unit
from syllabus_io.resolve.language import GRAMMAR, RULES
from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.rules import Scope
from syllabus_io.resolve.running_text import find_phrases, is_telling

WORDS = sorted({word for rule in RULES for example in rule.examples for word in example.split() if word.isalpha()})
#: Digits that no rule knows and an empty line: the text behind them is read word by word in any case.
UNREAD = "123456789\n\n"


@given(st.lists(st.sampled_from(WORDS), max_size=12), st.booleans())
@settings(max_examples=300, deadline=None)
def test_a_text_without_figures_that_is_passed_over_holds_no_phrase(words: list[str], weak: bool) -> None:
    text = " ".join(words)
    found = [(one.text, one.expression) for one in find_phrases(text, weak)]
    assert found == [(one.text, one.expression) for one in find_phrases(UNREAD + text, weak)]


@pytest.mark.parametrize("word", ["Friday", "MWF", "Thanksgiving", "week", "noon", "twelfth"])
def test_words_that_phrases_need_are_telling(word: str) -> None:
    assert is_telling(word, Scope.ANY)


@pytest.mark.parametrize("word", ["the", "of", "and", "photosynthesis", "Ada"])
def test_words_that_stand_everywhere_tell_nothing(word: str) -> None:
    assert not is_telling(word, Scope.ANY)


@pytest.mark.parametrize("scope", list(Scope))
def test_every_filling_of_a_slot_has_what_the_slot_needs(scope: Scope) -> None:
    tree = GRAMMAR.tree(scope)
    for rule in RULES:
        for example in rule.examples if rule.scope <= scope else ():
            keys = {key for token in GRAMMAR.lexicon.tokens(example) for key in token.sort.keys}
            for needed in tree.slot(rule.gives).needs:
                assert not needed.isdisjoint(keys), f"{example!r} lacks what {rule.gives} is said to need"


def test_days_are_counted_from_a_thing_that_only_the_outline_names() -> None:
    (found,) = find_phrases("Notes are due two days after your harbour walk, in ink.")
    assert found.text == "two days after your harbour walk"
    assert found.expression == Offset(Anchor("harbour walk"), 2, Unit.DAY)


def test_a_day_behind_such_a_thing_is_a_phrase_of_its_own() -> None:
    found = find_phrases("Due two days after the harbour walk on Oct 5")
    assert [one.text for one in found] == ["two days after the harbour walk", "Oct 5"]
    assert [one.text for one in find_phrases("two days after the walk Friday", weak=True)][-1] == "Friday"


def test_without_a_name_the_days_are_counted_from_the_text() -> None:
    phrase = parse_phrase("two days after")
    assert phrase is not None
    assert find_phrases("two days after the")[0].expression == phrase.expression
