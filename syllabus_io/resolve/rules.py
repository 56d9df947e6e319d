"""The record of a rule: a readable name, a pattern of words and slots, and a function that may decline.

A pattern is a row of elements with blanks between them: a word or sign stands for itself, ``a|b`` is one of several
words, ``{to}`` a named group of words (:data:`GROUPS`), ``<month>`` a slot filled by a token of that class or by any
rule that gives ``<month>``, ``[ ... ]`` may be absent. Slots are handed to ``build`` in the order of the pattern, None
for an absent one. ``||`` parts two patterns with the same slots. ``build`` returns the value of the rule's own slot,
or None to decline.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

__all__ = ["GROUPS", "Rule", "Scope", "pass_on"]


class Scope(IntEnum):
    """Where a rule may speak. ANY: everywhere. WEAK: where weak readings were asked for. WHOLE: only when the whole
    text is the phrase, because the same words in running text are rarely a date."""

    ANY = 0
    WEAK = 1
    WHOLE = 2


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule. ``gives`` names the slot it fills; ``examples`` are whole phrases it reads, alone or as a part.

    ``glued`` forbids blanks inside what the rule matched; ``words`` hands the words matched to ``build``, before the
    slots. ``doubt`` is a plain-words reason to check any phrase the rule has a part in.
    """

    name: str
    pattern: str
    build: Callable[..., object]
    gives: str
    examples: tuple[str, ...] = ()
    scope: Scope = Scope.ANY
    glued: bool = False
    words: bool = False
    doubt: str = ""


GROUPS: Final[Mapping[str, tuple[str, ...]]] = {
    "{to}": ("-", "to", "through", "thru", "until", "untill", "till", "til"),
    "{of}": ("of", "in", "during", "within", "for"),
    "{at}": ("at", "@", "by", "around", "about", "before", "from", "on", "starting", "beginning", "approx", "ca"),
    "{article}": ("the", "your", "our", "this", "that", "my", "their"),
    "{before}": ("before", "preceding", "prior"),
    "{after}": ("after", "following", "past"),
    "{from}": ("from", "starting", "beginning", "commencing", "start", "starts", "begins"),
    "{except}": ("except", "excluding", "excepting", "skipping", "but"),
    "{each}": ("each", "every"),
    "{term}": ("term", "semester", "quarter", "trimester", "course", "session", "year"),
    "{classes}": ("class", "classes", "instruction", "lectures", "teaching", "school"),
}


def pass_on(slot: object) -> object:
    """A builder that hands its only slot on."""
    return slot
