"""Which grading category a piece of work belongs to, by the words of both."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.outline.records import Category, GradingScheme, Item, Kind
from syllabus_io.outline.vocabulary import kind_of_work

__all__ = ["find_category", "with_categories"]

_SMALL_WORDS = frozenset({"a", "an", "and", "each", "for", "in", "of", "on", "or", "the", "to", "your", "class"})
# A step on the way to a larger work: it is not the work that the category counts, though it bears its name.
_STEPS = frozenset(
    {"abstract", "bibliography", "check", "draft", "idea", "outline", "plan", "proposal", "sketch", "topic"}
)
_NUMBER = re.compile(r"\d+|\b(?:i{1,3}|iv|vi{0,3})\b")


def with_categories(items: Sequence[Item], scheme: GradingScheme) -> tuple[Item, ...]:
    """The items, each with the name of its grading category where the words of both leave one choice."""
    return tuple(_with_category(item, scheme) for item in items)


def _with_category(item: Item, scheme: GradingScheme) -> Item:
    if item.category is not None or item.kind is Kind.READING:
        return item
    found = find_category(item.title, item.kind, scheme.categories)
    return item if found is None else replace(item, category=found.name)


def find_category(title: str, kind: Kind, categories: Sequence[Category]) -> Category | None:
    """The category of a piece of work: the one that shares most words with its title, else the only one of its kind.

    A category with a number holds work of that number alone. A step on the way ("Essay 2 outline") belongs to a
    category only when the category names that step. None where two fit equally well, or none does.
    """
    words, numbers = _stems(title), _numbers(title)
    steps = words & _STEPS
    fits: list[tuple[int, Category]] = []
    for category in categories:
        named, counted = _stems(category.name), _numbers(category.name)
        if named and named <= words and steps <= named and (not counted or counted & numbers):
            fits.append((len(named) + bool(counted), category))
    if fits:
        most = max(length for length, _ in fits)
        best = [category for length, category in fits if length == most]
        return best[0] if len(best) == 1 else None
    if steps:
        return None
    alike = [category for category in categories if kind_of_work(category.name) is kind and not _numbers(category.name)]
    if len(alike) != 1 or _names_another(alike[0].name, words):
        return None
    return alike[0] if _holds_several(alike[0]) or _stems(alike[0].name) & words else None


def _holds_several(category: Category) -> bool:
    """Whether a category is one for many works ("Essays", "Homework"), not the name of one ("Portfolio")."""
    words = re.findall(r"[a-z]+", _plain(category.name))
    return category.count not in (None, 1) or any(
        word in ("homework", "coursework", "work", "writing") or (word.endswith("s") and not word.endswith("ss"))
        for word in words
    )


def _names_another(name: str, words: frozenset[str]) -> bool:
    """Whether a category of the right kind is a final that the work is not, or the other way round."""
    return ("final" in _stems(name)) != ("final" in words)


def _stems(text: str) -> frozenset[str]:
    """The words without numbers, small words, endings and brackets: "Unit tests (4)" fits "Unit 3 test"."""
    return frozenset(_stem(word) for word in re.findall(r"[^\W\d_]{2,}", _plain(text)) if word not in _SMALL_WORDS)


def _numbers(text: str) -> frozenset[str]:
    return frozenset(_NUMBER.findall(_plain(text)))


def _plain(text: str) -> str:
    return re.sub(r"\([^)]*\)", " ", text.casefold())


def _stem(word: str) -> str:
    for ending, rest in (("zzes", "z"), ("ies", "y"), ("sses", "ss")):
        if word.endswith(ending):
            return word[: -len(ending)] + rest
    for short, whole in (("exam", "examination"), ("midterm", "midterms")):
        if word.startswith(short) and whole.startswith(word):
            return short
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word
