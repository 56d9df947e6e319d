"""Rules to trees: the patterns of a slot are merged into one tree, so that a phrase is tried against all at once.

A tree knows which ways lead on with two tokens, and which keys every filling of a slot has somewhere, so that most of
a text is passed over without a try.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from syllabus_io.resolve.patterns import Ending, Patterns, Row
from syllabus_io.resolve.rules import Rule, Scope
from syllabus_io.resolve.tokens import NUMBER_CLASSES, TOKEN_CLASSES, Lexicon, Sort, Token
from syllabus_io.resolve.words import FUNCTION_WORDS

__all__ = ["NO_WAY", "Grammar", "Node", "Plan", "Slot", "Tree", "pair_of"]

#: The cost of a key that no row has.
_NEVER: Final = 9


class Node:
    """A place in a tree of patterns: where a word or class leads, where a slot leads, which rules end here.

    ``plans`` remembers the ways that lead on by the sorts of two tokens.
    """

    __slots__ = ("edges", "endings", "plans", "slots")

    def __init__(self) -> None:
        self.edges: dict[str, Node] = {}
        self.slots: dict[Slot, Node] = {}
        self.endings: list[Ending] = []
        self.plans: dict[int, Plan] = {}

    def goes_on(self, sort: Sort) -> bool:
        """Whether a token of this sort leads on from here."""
        keys = sort.keys
        if not self.edges.keys().isdisjoint(keys):
            return True
        return any(not slot.first.isdisjoint(keys) for slot in self.slots)


class Slot:
    """What rules of one kind fill.

    ``first`` are the keys a filling may begin with, ``single`` those that fill it alone, ``needs`` sets of keys of
    which every filling has one each.
    """

    __slots__ = ("first", "name", "needs", "root", "single")

    def __init__(self, name: str) -> None:
        self.name = name
        self.root: Final = Node()
        self.first: frozenset[str] = frozenset()
        self.single: frozenset[str] = frozenset()
        self.needs: tuple[frozenset[str], ...] = ()


#: Ways by a token: the node it leads to, the number of the token's value to take (0 for none), and whether the way
#: ends there. Then ways by a slot.
Plan = tuple[tuple[tuple[Node, int, bool], ...], tuple[tuple[Slot, Node], ...]]
NO_WAY: Final[Plan] = (), ()


def pair_of(sort: Sort, following: Sort) -> int:
    """A number for two sorts, the key of the plans of a node."""
    return sort.number << 20 | following.number


class Grammar:
    """Rules with the words they know. A tree is made when its scope is first asked for."""

    def __init__(self, rules: Iterable[Rule]) -> None:
        self._patterns: Final = Patterns(rules)
        self.lexicon: Final = Lexicon(self._patterns.groups, self._patterns.words)
        self._trees: dict[Scope, Tree] = {}

    def tree(self, scope: Scope) -> Tree:
        """The tree of the rules that may speak in a scope: those of that scope and of narrower ones."""
        if scope not in self._trees:
            rows = (row for row in self._patterns.rows if row.ending.rule.scope <= scope)
            self._trees[scope] = Tree(rows, self._patterns)
        return self._trees[scope]


class Tree:
    """The rows of some rules merged, with what can be said of each place in advance."""

    def __init__(self, rows: Iterable[Row], patterns: Patterns) -> None:
        self._slots: dict[str, Slot] = {}
        rows = tuple(rows)
        for row in rows:
            node = self.slot(row.ending.rule.gives).root
            for key in row.keys:
                if key in patterns.slots:
                    node = node.slots.setdefault(self.slot(key), Node())
                else:
                    node = node.edges.setdefault(key, Node())
            node.endings.append(row.ending)
        self._settle_first()
        common = FUNCTION_WORDS | {
            key for key, words in patterns.groups.items() if not FUNCTION_WORDS.isdisjoint(words)
        }
        self._settle_needs(rows, lambda key: 1 if key in NUMBER_CLASSES else 2 if key in common else 0)
        self._settle_needs(rows, lambda key: 2 if key in TOKEN_CLASSES else 1 if key in common else 0)
        self._begun: dict[int, frozenset[Slot]] = {}
        self._after_one: dict[int, list[tuple[Slot, list[Node]]]] = {}

    def slot(self, name: str) -> Slot:
        """The slot of a name."""
        found = self._slots.get(name)
        if found is None:
            found = self._slots[name] = Slot(name)
        return found

    def may_fill(self, name: str, tokens: Iterable[Token]) -> bool:
        """Whether some tokens have what every filling of a slot needs; a cheap look before they are read."""
        sorts = {token.sort for token in tokens}
        return all(any(not keys.isdisjoint(sort.keys) for sort in sorts) for keys in self.slot(name).needs)

    def _settle_first(self) -> None:
        """Sets with which keys a slot may begin, which single ones fill it, and with which slots it may begin."""
        slots = self._slots.values()
        first = {slot: set(slot.root.edges) for slot in slots}
        single = {slot: {key for key, child in slot.root.edges.items() if child.endings} for slot in slots}
        heads: dict[Slot, set[Slot]] = {slot: {slot} for slot in slots}
        size, before = 0, -1
        while size > before:
            before, size = size, 0
            for slot in slots:
                for inner, child in slot.root.slots.items():
                    first[slot] |= first[inner]
                    heads[slot] |= heads[inner]
                    if child.endings:
                        single[slot] |= single[inner]
                size += len(first[slot]) + len(heads[slot]) + len(single[slot])
        for slot in slots:
            slot.first, slot.single = frozenset(first[slot]), frozenset(single[slot])
        self._heads = heads

    def _settle_needs(self, rows: Iterable[Row], cost: Callable[[str], int]) -> None:
        """Adds to every slot keys of which each filling has one: of each row the key or slot that costs least.
        What is known of a slot within itself gets better with every round."""
        ways: dict[Slot, list[tuple[int, str, list[Slot]]]] = {slot: [] for slot in self._slots.values()}
        for row in rows:
            if row.is_bare:  # the other rows of a rule have the same keys and more
                least, key = min(((cost(key), key) for key in row.keys if key not in self._slots), default=(_NEVER, ""))
                inner = [self._slots[key] for key in row.keys if key in self._slots]
                ways[self._slots[row.ending.rule.gives]].append((least, key, inner))
        needs: dict[Slot, set[str]] = {}
        costs = dict.fromkeys(ways, _NEVER)
        before: dict[Slot, int] = {}
        while costs != before:
            before = dict(costs)
            for slot, rows_of in ways.items():
                found: set[str] = set()
                costs[slot] = 0
                for least, key, inner in rows_of:
                    best = min(inner, key=before.__getitem__, default=None)
                    if best is not None and before[best] < least:
                        found |= needs[best]
                        least = before[best]
                    else:
                        found.add(key)
                    costs[slot] = max(costs[slot], least)
                needs[slot] = found
        for slot, keys in needs.items():
            if costs[slot] < _NEVER:
                slot.needs = (*slot.needs, frozenset(keys))

    def plan(self, node: Node, sort: Sort, following: Sort) -> Plan:
        """The ways that lead on from a node with a token and the token after it; dead ends are left out."""
        steps: list[tuple[Node, int, bool]] = []
        for place, key in enumerate(sort.keys):
            child = node.edges.get(key)
            if child is not None:
                goes_on = child.goes_on(following)
                if goes_on or child.endings:
                    steps.append((child, place if key in TOKEN_CLASSES else 0, not goes_on))
        begun = self._slots_begun(sort, following) if node.slots else ()
        slots = tuple(
            (slot, child)
            for slot, child in node.slots.items()
            if slot in begun or (not slot.single.isdisjoint(sort.keys) and (child.endings or child.goes_on(following)))
        )
        plan = (tuple(steps), slots) if steps or slots else NO_WAY
        node.plans[pair_of(sort, following)] = plan
        return plan

    def _slots_begun(self, sort: Sort, following: Sort) -> frozenset[Slot]:
        """The slots that two tokens may begin."""
        pair = pair_of(sort, following)
        known = self._begun.get(pair)
        if known is None:
            begun = {slot for slot, nodes in self._after(sort) if any(node.goes_on(following) for node in nodes)}
            known = frozenset(slot for slot, heads in self._heads.items() if not heads.isdisjoint(begun))
            self._begun[pair] = known
        return known

    def _after(self, sort: Sort) -> list[tuple[Slot, list[Node]]]:
        """Where each slot leads after one token, read by its own rules or alone filling another slot."""
        known = self._after_one.get(sort.number)
        if known is None:
            known = self._after_one[sort.number] = []
            for slot in self._slots.values():
                if not slot.first.isdisjoint(sort.keys):
                    root = slot.root
                    nodes = [root.edges[key] for key in sort.keys if key in root.edges]
                    nodes += [child for inner, child in root.slots.items() if not inner.single.isdisjoint(sort.keys)]
                    nodes = [node for node in nodes if node.edges or node.slots]
                    if nodes:
                        known.append((slot, nodes))
        return known
