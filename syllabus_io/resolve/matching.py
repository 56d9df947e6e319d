"""Tokens against a tree of rules: everything that fills a slot from a token on.

Each slot at each place is read once and remembered, and the part of a text that a phrase may cover is bounded, so
the time grows with the length of the text only.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from syllabus_io.resolve.grammar import NO_WAY, Node, Plan, Slot, Tree, pair_of
from syllabus_io.resolve.patterns import Ending
from syllabus_io.resolve.rules import Rule, pass_on
from syllabus_io.resolve.tokens import UNKNOWN, Token

__all__ = ["Match", "Parse"]

#: No phrase is longer, in tokens, nor nested deeper, in slots within slots.
LONGEST_PHRASE: Final = 48
DEEPEST: Final = 24


class Match:
    """What a rule made of some tokens: the value, the end (a token number), and the matches in its slots."""

    __slots__ = ("end", "ending", "parts", "value")

    def __init__(self, value: object, end: int, ending: Ending, parts: tuple[Match, ...]) -> None:
        self.value = value
        self.end = end
        self.ending = ending
        self.parts = parts

    def rules(self) -> list[Rule]:
        """The rules used, outermost first, in the order of the words."""
        found = [self.ending.rule]
        for part in self.parts:
            found += part.rules()
        return found


class Parse:
    """One row of tokens being read with the rules of a tree."""

    __slots__ = ("_depth", "_keys", "_limit", "_memo", "_pairs", "_sorts", "_tree", "tokens")

    def __init__(self, tree: Tree, tokens: Sequence[Token]) -> None:
        self._tree = tree
        self.tokens: Final = tokens
        sorts = [token.sort for token in tokens]
        sorts.append(UNKNOWN)
        self._sorts: Final = sorts
        self._pairs: Final = [*map(pair_of, sorts, sorts[1:])]
        self._keys: Final = frozenset().union(*[sort.keys for sort in sorts])
        self._memo: Final[list[dict[Slot, dict[int, Match]]]] = [{} for _ in tokens]
        self._depth = 0
        self._limit = len(tokens)

    def matches(self, slot: Slot, start: int) -> dict[int, Match]:
        """Everything that fills a slot from a token on, by its end."""
        memo = self._memo[start]
        known = memo.get(slot)
        if known is not None:
            return known
        found: dict[int, Match] = {}
        if self._depth >= DEEPEST:
            return found
        memo[slot] = found
        for needed in slot.needs:
            if needed.isdisjoint(self._keys):
                return found
        if self._depth == 0:
            self._limit = min(len(self.tokens), start + LONGEST_PHRASE)
        plan = self._plan(slot.root, start)
        if plan is not NO_WAY:
            self._depth += 1
            self._go_on(plan, start, start, (), (), found)
            self._depth -= 1
        return found

    def _plan(self, node: Node, place: int) -> Plan:
        """The ways that lead on from a node with the token at a place."""
        if place >= self._limit:
            return NO_WAY
        plan = node.plans.get(self._pairs[place])
        return plan if plan is not None else self._tree.plan(node, self._sorts[place], self._sorts[place + 1])

    def _go_on(
        self,
        plan: Plan,
        start: int,
        place: int,
        values: tuple[object, ...],
        parts: tuple[Match, ...],
        found: dict[int, Match],
    ) -> None:
        """Adds what ends on the ways of a plan; ``values`` and ``parts`` are what was passed on the way here."""
        after = place + 1
        for child, number, is_end in plan[0]:
            more = (*values, self.tokens[place].values[number]) if number else values
            if child.endings:
                self._end(child.endings, start, after, more, parts, found)
            if not is_end:
                onward = self._plan(child, after)
                if onward is not NO_WAY:
                    self._go_on(onward, start, after, more, parts, found)
        if not plan[1]:
            return
        memo = self._memo[place]
        for slot, child in plan[1]:
            filled = memo.get(slot)
            if filled is None:
                filled = self.matches(slot, place)
            for end, match in tuple(filled.items()) if filled else ():
                onward = self._plan(child, end)
                if child.endings or onward is not NO_WAY:
                    more, with_match = (*values, match.value), (*parts, match)
                    if child.endings:
                        self._end(child.endings, start, end, more, with_match, found)
                    if onward is not NO_WAY:
                        self._go_on(onward, start, end, more, with_match, found)

    def _end(
        self,
        endings: Sequence[Ending],
        start: int,
        end: int,
        values: tuple[object, ...],
        parts: tuple[Match, ...],
        found: dict[int, Match],
    ) -> None:
        """Takes the first rule that ends here and does not decline, unless a rule before it has these tokens."""
        before = found.get(end)
        for ending in endings:
            if before is not None and ending.rank >= before.ending.rank:
                return
            if not ending.is_plain:
                value = self._build(ending, start, end, values)
            elif ending.rule.build is pass_on:
                value = values[0]
            else:
                value = ending.rule.build(*values)
            if value is not None:
                found[end] = Match(value, end, ending, parts)
                return

    def _build(self, ending: Ending, start: int, end: int, values: tuple[object, ...]) -> object:
        """The value of a rule that has an eye on its words too, or misses some of its slots."""
        rule = ending.rule
        if rule.glued and not all(token.glued for token in self.tokens[start + 1 : end]):
            return None
        spread: list[object] = [None] * ending.slots
        for number, value in zip(ending.filled, values, strict=True):
            spread[number] = value
        if rule.words:
            return rule.build(" ".join(token.word for token in self.tokens[start:end]), *spread)
        return rule.build(*spread)
