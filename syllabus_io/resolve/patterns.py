"""Patterns of rules as rows of keys: what a token or a slot must be, step by step, with absent parts left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from syllabus_io.resolve.rules import GROUPS, Rule
from syllabus_io.resolve.tokens import TOKEN_CLASSES

__all__ = ["Ending", "Patterns", "Row"]


@dataclass(frozen=True, slots=True)
class Ending:
    """A rule at the end of one of its rows. ``rank`` is its place among all rules: of two readings of the same tokens
    the lower one is kept. ``filled`` are the numbers of the slots the row has, of all ``slots`` of the rule;
    ``is_plain`` tells that it has all and that the rule wants nothing but their values.
    """

    rank: int
    rule: Rule
    filled: tuple[int, ...]
    slots: int
    is_plain: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One way to write a rule: the keys step by step. The values of classes and slots are handed to the rule.
    ``is_bare`` tells that every part is absent that may be."""

    keys: tuple[str, ...]
    ending: Ending
    is_bare: bool


_Element = tuple[str, int]  # what is matched, and the number of its slot or -1


class Patterns:
    """The rows of some rules, in the order of the rules, with the words and groups of words in them."""

    def __init__(self, rules: Iterable[Rule]) -> None:
        self.words: Final[set[str]] = set()
        self.groups: Final[dict[str, tuple[str, ...]]] = dict(GROUPS)
        self._keys: dict[str, str] = {}
        self.rows: Final = tuple(row for rank, rule in enumerate(rules) for row in self._rows(rank, rule))
        self.slots: Final = frozenset(row.ending.rule.gives for row in self.rows)
        for key in {key for row in self.rows for key in row.keys}:
            if key.startswith("<") and len(key) > 1 and key not in TOKEN_CLASSES and key not in self.slots:
                raise LookupError(f"no rule gives {key}")

    def _rows(self, rank: int, rule: Rule) -> Iterator[Row]:
        for pattern in rule.pattern.split("||"):
            words = pattern.replace("[", " [ ").replace("]", " ] ").split()
            slots = [place for place, word in enumerate(words) if word.startswith("<") and len(word) > 1]
            numbers = {place: number for number, place in enumerate(slots)}
            for place, elements in enumerate(_sequences(words, numbers, 0)):
                filled = tuple(number for _, number in elements if number >= 0)
                is_plain = len(filled) == len(slots) and not rule.glued and not rule.words
                keys = tuple(word if number >= 0 else self._key(word) for word, number in elements)
                yield Row(keys, Ending(rank, rule, filled, len(slots), is_plain), place == 0)

    def _key(self, word: str) -> str:
        """The key of a word or of a choice of words; choices are groups of their own."""
        known = self._keys.get(word)
        if known is not None:
            return known
        key = word
        if "|" in word and len(word) > 1:
            key = "{" + word + "}"
            self.groups[key] = tuple(one for part in word.split("|") for one in GROUPS.get(part, (part,)))
        elif word not in GROUPS:
            self.words.add(word)
        self._keys[word] = key
        return key


def _sequences(words: Sequence[str], numbers: dict[int, int], offset: int) -> list[list[_Element]]:
    """Every row of elements a pattern stands for, each optional part once with and once without."""
    rows: list[list[_Element]] = [[]]
    place = 0
    while place < len(words):
        word = words[place]
        if word == "[":
            depth, end = 1, place + 1
            while depth:
                depth += {"[": 1, "]": -1}.get(words[end], 0)
                end += 1
            inner = _sequences(words[place + 1 : end - 1], numbers, offset + place + 1)
            rows = [row + more for row in rows for more in ([], *inner)]
            place = end
        else:
            number = numbers.get(offset + place, -1)
            rows = [[*row, (word, number)] for row in rows]
            place += 1
    return rows
