"""Rules to matcher: patterns are merged into one tree a slot, so that a phrase is tried against all rules at once.

Each slot at each place is read once and remembered, and the part of a text that a phrase may cover is bounded, so
the time grows with the length of the text only.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

from syllabus_io.resolve.rules import GROUPS, Rule, Scope, pass_on
from syllabus_io.resolve.tokens import TOKEN_CLASSES, UNKNOWN, Lexicon, Sort, Token

__all__ = ["Grammar", "Match", "Parse"]

#: No phrase is longer, in tokens, nor nested deeper, in slots within slots.
LONGEST_PHRASE: Final = 48
DEEPEST: Final = 24


class Match:
    """What rules made of some tokens: the value, the end (a token number), and the rule with the matches in its slots.

    ``rank`` is the place of the rule among all rules; of two readings of the same tokens the lower one is kept.
    """

    __slots__ = ("end", "parts", "rank", "rule", "value")

    def __init__(self, value: object, end: int, rule: Rule, parts: tuple[object, ...], rank: int) -> None:
        self.value = value
        self.end = end
        self.rule = rule
        self.parts = parts
        self.rank = rank

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The rules used, outermost first, in the order of the words."""
        return (self.rule, *(rule for part in self.parts if isinstance(part, Match) for rule in part.rules))


@dataclass(frozen=True, slots=True)
class _Accept:
    """A rule that ends at a node: its rank, which of its slots were filled on the way, and how many it has.
    ``is_plain`` tells that all were filled and nothing but their values is needed."""

    rank: int
    scope: int
    rule: Rule
    filled: tuple[int, ...]
    slots: int
    is_plain: bool


@dataclass(slots=True)
class _Node:
    """A place in the tree of patterns: where a word or class leads, where a slot leads, which rules end here.

    ``plans`` remembers for each sort of token and of the token after it which ways lead on: to a node with the number
    of the value to take (0 for none) and whether the way ends there, and to a slot.
    """

    edges: dict[str, _Node] = field(default_factory=dict)
    slots: dict[str, _Node] = field(default_factory=dict)
    accepts: list[_Accept] = field(default_factory=list)
    plans: dict[tuple[int, int], _Plan] = field(default_factory=dict)


_Plan = tuple[tuple[tuple[_Node, int, bool], ...], tuple[tuple[str, _Node], ...]]
_Element = tuple[str, int]  # what is matched, and the number of its slot or -1


def _split(pattern: str) -> list[str]:
    return pattern.replace("[", " [ ").replace("]", " ] ").split()


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


class Grammar:
    """All rules, ready to be matched."""

    def __init__(self, rules: Iterable[Rule]) -> None:
        self.rules: Final = tuple(rules)
        self._roots: dict[str, _Node] = {}
        self._words: set[str] = set()
        groups: dict[str, tuple[str, ...]] = dict(GROUPS)
        for rank, rule in enumerate(self.rules):
            self._add(rank, rule, groups)
        self.lexicon: Final = Lexicon(groups, self._words)
        self._first: dict[str, frozenset[str]] = {}
        self._filled: dict[tuple[str, int, int], bool] = {}
        self._single: dict[tuple[str, int], bool] = {}
        for name in self._roots:
            self.first(name)
        #: For each slot words and classes of which every filling has one; None when nothing is sure.
        self.needs: Final = {name: self._needed_in(self._roots[name], frozenset({name})) for name in self._roots}

    def _add(self, rank: int, rule: Rule, groups: dict[str, tuple[str, ...]]) -> None:
        for pattern in rule.pattern.split("||"):
            words = _split(pattern)
            slots = [place for place, word in enumerate(words) if word.startswith("<") and len(word) > 1]
            numbers = {place: number for number, place in enumerate(slots)}
            for row in _sequences(words, numbers, 0):
                node = self._roots.setdefault(rule.gives, _Node())
                for word, number in row:
                    node = self._step(node, word, number, groups)
                caught = tuple(number for _, number in row if number >= 0)
                plain = len(caught) == len(slots) and not rule.glued and not rule.words
                node.accepts.append(_Accept(rank, int(rule.scope), rule, caught, len(slots), plain))

    def _step(self, node: _Node, word: str, number: int, groups: dict[str, tuple[str, ...]]) -> _Node:
        """The node that an element of a pattern leads to, made where it is new."""
        if number >= 0:
            branch = node.edges if word in TOKEN_CLASSES else node.slots
            return branch.setdefault(word, _Node())
        key = word
        if "|" in word and len(word) > 1:
            key = "{" + word + "}"
            groups[key] = tuple(one for part in word.split("|") for one in GROUPS.get(part, (part,)))
        elif word not in GROUPS:
            self._words.add(word)
        return node.edges.setdefault(key, _Node())

    def _needed_in(self, node: _Node, within: frozenset[str]) -> frozenset[str] | None:
        """Keys of which every way from a node to a rule's end has one, None when there is a way without."""
        if node.accepts:
            return None
        found: set[str] = set()
        for key, child in node.edges.items():
            if key in TOKEN_CLASSES:  # numbers and names are everywhere; what follows tells more
                further = self._needed_in(child, within)
                found |= further if further is not None else {key}
            else:
                found.add(key)
        for name, child in node.slots.items():
            further = self._needed_in(child, within)
            if further is None and name not in within:
                further = self._needed_in(self._roots[name], within | {name})
            if further is None:
                return None
            found |= further
        return frozenset(found)

    def first(self, slot: str) -> frozenset[str]:
        """The words and classes with which a slot may begin."""
        known = self._first.get(slot)
        if known is not None:
            return known
        self._first[slot] = frozenset()
        root = self._roots.get(slot)
        if root is None:
            raise LookupError(f"no rule gives {slot}")
        found = set(root.edges)
        for inner in root.slots:
            found |= self.first(inner)
        self._first[slot] = frozenset(found)
        return self._first[slot]

    def root(self, slot: str) -> _Node:
        """The tree of patterns of a slot."""
        return self._roots[slot]

    def plan(self, node: _Node, sort: Sort, following: Sort) -> _Plan:
        """The ways that lead on from a node with a token and the token after it; dead ends are left out."""
        steps = tuple(
            (child, place if key in TOKEN_CLASSES else 0, not self._goes_on(child, following))
            for place, key in enumerate(sort.keys)
            if (child := node.edges.get(key)) is not None and (child.accepts or self._goes_on(child, following))
        )
        slots = tuple(
            (name, child)
            for name, child in node.slots.items()
            if not self._first[name].isdisjoint(sort.keys) and self._may_fill(name, sort, following)
        )
        node.plans[sort.number, following.number] = steps, slots
        return steps, slots

    def _goes_on(self, node: _Node, sort: Sort) -> bool:
        if any(key in node.edges for key in sort.keys):
            return True
        return any(not self._first[name].isdisjoint(sort.keys) for name in node.slots)

    def _may_fill(self, slot: str, sort: Sort, following: Sort) -> bool:
        """Whether a slot may begin with these two tokens, or be the first of them alone."""
        key = (slot, sort.number, following.number)
        known = self._filled.get(key)
        if known is None:
            self._filled[key] = False  # a slot within itself adds nothing
            known = self._is_one(slot, sort) or self._begins(slot, sort, following)
            self._filled[key] = known
        return known

    def _is_one(self, slot: str, sort: Sort) -> bool:
        """Whether a single token may fill a slot."""
        key = (slot, sort.number)
        known = self._single.get(key)
        if known is None:
            self._single[key] = False
            root = self._roots[slot]
            known = any(key in root.edges and root.edges[key].accepts for key in sort.keys) or any(
                child.accepts and not self._first[name].isdisjoint(sort.keys) and self._is_one(name, sort)
                for name, child in root.slots.items()
            )
            self._single[key] = known
        return known

    def _begins(self, slot: str, sort: Sort, following: Sort) -> bool:
        """Whether two tokens may be the beginning of a slot."""
        root = self._roots[slot]
        if any(key in root.edges and self._goes_on(root.edges[key], following) for key in sort.keys):
            return True
        for name, child in root.slots.items():
            if self._first[name].isdisjoint(sort.keys):
                continue
            if self._goes_on(child, following) and self._is_one(name, sort):
                return True
            if self._may_fill(name, sort, following):  # at worst the first token alone, and a dead end
                return True
        return False


class Parse:
    """One text being read. ``scope`` is the widest scope of rule that may speak."""

    def __init__(self, grammar: Grammar, tokens: Sequence[Token], scope: Scope) -> None:
        self._grammar = grammar
        self.tokens: Final = tokens
        self._scope = int(scope)
        self._sorts: Final = [*(token.sort for token in tokens), UNKNOWN]
        self._keys: Final = frozenset(key for sort in self._sorts for key in sort.keys)
        self._needs: Final = grammar.needs
        self._memo: dict[tuple[str, int], dict[int, Match]] = {}
        self._depth = 0
        self._limit = len(tokens)

    def matches(self, slot: str, start: int) -> dict[int, Match]:
        """Everything that fills a slot from a token on, by its end."""
        key = (slot, start)
        known = self._memo.get(key)
        if known is not None:
            return known
        found: dict[int, Match] = {}
        if self._depth >= DEEPEST:
            return found
        self._memo[key] = found
        needed = self._needs[slot]
        if needed is not None and needed.isdisjoint(self._keys):
            return found
        if self._depth == 0:
            self._limit = min(len(self.tokens), start + LONGEST_PHRASE)
        self._depth += 1
        self._walk(self._grammar.root(slot), start, start, (), found)
        self._depth -= 1
        return found

    def _walk(self, node: _Node, start: int, place: int, caught: tuple[object, ...], found: dict[int, Match]) -> None:
        if node.accepts:
            self._accept(node.accepts, start, place, caught, found)
        if place >= self._limit:
            return
        sort, following = self._sorts[place], self._sorts[place + 1]
        steps, slots = node.plans.get((sort.number, following.number)) or self._grammar.plan(node, sort, following)
        for child, number, is_end in steps:
            more = (*caught, self.tokens[place].values[number]) if number else caught
            if is_end:
                self._accept(child.accepts, start, place + 1, more, found)
            else:
                self._walk(child, start, place + 1, more, found)
        for name, child in slots:
            filled = self._memo.get((name, place))
            if filled is None:
                filled = self.matches(name, place)
            if filled:
                for match in tuple(filled.values()):
                    self._walk(child, start, match.end, (*caught, match), found)

    def _accept(
        self, accepts: list[_Accept], start: int, end: int, caught: tuple[object, ...], found: dict[int, Match]
    ) -> None:
        before = found.get(end)
        best = before.rank if before is not None else len(self._grammar.rules)
        for accept in accepts:
            if accept.rank >= best or accept.scope > self._scope:
                continue
            rule = accept.rule
            values = [part.value if isinstance(part, Match) else part for part in caught]
            if not accept.is_plain:
                if rule.glued and not all(token.glued for token in self.tokens[start + 1 : end]):
                    continue
                values = self._spread(accept, values, start, end)
            value = values[0] if rule.build is pass_on else rule.build(*values)
            if value is not None:
                best = accept.rank
                found[end] = Match(value, end, rule, caught, best)

    def _spread(self, accept: _Accept, values: list[object], start: int, end: int) -> list[object]:
        """The values in the places of their slots, None for absent ones, after the words where a rule wants them."""
        spread: list[object] = [None] * accept.slots
        for number, value in zip(accept.filled, values, strict=True):
            spread[number] = value
        if accept.rule.words:
            spread.insert(0, " ".join(token.word for token in self.tokens[start:end]))
        return spread
