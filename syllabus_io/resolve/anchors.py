"""Which item of an outline is meant by words such as "the midterm" or "your presentation"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from syllabus_io.outline.records import Item, Kind

__all__ = ["find_items"]

_LEAST_LIKENESS = 80
_SMALL_WORDS = frozenset(
    {"the", "a", "an", "your", "our", "their", "his", "her", "each", "in-class", "class", "day", "date"}
)
_NUMBERS = {
    "first": "1",
    "second": "2",
    "third": "3",
    "fourth": "4",
    "fifth": "5",
    "one": "1",
    "two": "2",
    "three": "3",
}
_NUMBERS |= {"i": "1", "ii": "2", "iii": "3", "iv": "4"}
_SPELLINGS = {
    "test": "exam",
    "tests": "exam",
    "exams": "exam",
    "examination": "exam",
    "midterms": "midterm",
    "essay": "paper",
}
_KINDS = {
    "exam": Kind.EXAM,
    "midterm": Kind.EXAM,
    "final": Kind.EXAM,
    "quiz": Kind.QUIZ,
    "presentation": Kind.PRESENTATION,
    "talk": Kind.PRESENTATION,
    "project": Kind.PROJECT,
    "proposal": Kind.PROJECT,
}


def find_items(words: str, items: Sequence[Item]) -> tuple[Item, ...]:
    """The items that the words fit best, usually one. Several mean that the words do not tell them apart.

    Words name an item when they agree with its title, or when they name only its kind and the outline has one item of
    that kind. Numbers must agree.
    """
    from rapidfuzz import fuzz

    wanted = _tokens(words)
    if not wanted:
        return ()
    kind = _KINDS.get(wanted[-1])
    ranked: list[tuple[float, float, Item]] = []
    for item in items:
        title = _tokens(item.title)
        if _numbers(wanted) and _numbers(wanted) != _numbers([*title, str(item.number or "")]):
            continue
        whole, own = " ".join(wanted), " ".join(title)
        likeness = fuzz.token_set_ratio(whole, own) if set(wanted) <= set(title) else fuzz.token_sort_ratio(whole, own)
        ranked.append((likeness, fuzz.ratio(whole, own), item))
    best = max((likeness for likeness, _, _ in ranked), default=0.0)
    if best >= _LEAST_LIKENESS:
        close = [(ratio, item) for likeness, ratio, item in ranked if likeness == best]
        exact = [item for ratio, item in close if ratio == 100]
        of_kind = [item for _, item in close if item.kind is kind]
        return tuple(exact or of_kind or [item for _, item in close])
    return tuple(item for item in items if kind is not None and item.kind is kind) if not _numbers(wanted) else ()


def _tokens(words: str) -> list[str]:
    text = re.sub(r"mid[\s-]term", "midterm", words.casefold())
    parts = re.findall(r"[a-z][a-z'-]*|\d+", text)
    return [_SPELLINGS.get(part, _NUMBERS.get(part, part)) for part in parts if part not in _SMALL_WORDS]


def _numbers(tokens: Sequence[str]) -> set[str]:
    return {token for token in tokens if token.isdigit()}
