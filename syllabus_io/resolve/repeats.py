"""One piece of work, once: the same item from two places, and undated work that has a date after all."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import timedelta

from syllabus_io.outline.records import Kind, Mention, UndatedWork
from syllabus_io.resolve.records import ResolvedItem, Unresolved

__all__ = ["merge_repeats", "without_dated"]

_SPELLINGS = {
    "exams": "exam",
    "test": "exam",
    "tests": "exam",
    "midterms": "midterm",
    "homeworks": "homework",
    "hw": "homework",
}
_HANDED_IN = frozenset({Kind.ASSIGNMENT, Kind.PROJECT})
_INITIALS = re.compile(r"\b[A-Z]{2,5}\b")
_ONE_OF_A_DAY = frozenset({"final", "midterm"})
_PARTS = frozenset({"lab", "laboratory", "practical", "oral", "written", "part", "listening", "theory"})
_IN_CLASS = re.compile(
    r"\s+(?:in|during)\s+(?:\w+\s+)?(?:class|lectures?|workshops?|tutorials?|labs?|seminars?|sections?)\s*$",
    re.IGNORECASE,
)
_EDGE = re.compile(r"(?:the\s+)?(?:first|last)\s+(?:\w+\s+)?\w+", re.IGNORECASE)
_SERIES = re.compile(r"\b(?:week\s+)?\d{1,2}$", re.IGNORECASE)
_STEPS = frozenset({"draft", "rough", "first", "second", "third", "revised", "peer", "partial", "preliminary", "mini"})
_SMALL_WORDS = frozenset({"the", "a", "an", "of", "on", "for", "and", "due", "in", "class", "your"})


def merge_repeats(items: Sequence[ResolvedItem]) -> tuple[ResolvedItem, ...]:
    """The items with those of the same kind, title and date as an earlier one merged into it.

    So are two pieces to hand in of which one gives a name by its initials, and two exams on one day of which one
    title has the words of the other ("Midterm", "Midterm exam") or both are the final ("Comprehensive final"). A short
    name of one work to hand in ("Report") joins the only work of that day that bears it ("Soil project report").
    """
    kept: list[ResolvedItem] = []
    for item in items:
        index = next((i for i, other in enumerate(kept) if _are_same(item, other)), None)
        if index is None:
            named = [i for i, other in enumerate(kept) if _is_named_short(item, other)]
            index = named[0] if len(named) == 1 else None
        if index is None:
            kept.append(item)
        else:
            kept[index] = _merged(kept[index], item)
    return tuple(item for item in kept if not any(_is_edge_of_series(item, other) for other in kept))


def without_dated(undated: Iterable[UndatedWork], dated: Iterable[ResolvedItem]) -> tuple[UndatedWork, ...]:
    """The undated work that no dated item stands for, each title once."""
    known = {(item.kind, _words(item.title)) for item in dated}
    kept: dict[tuple[Kind, frozenset[str]], UndatedWork] = {}
    for work in undated:
        identity = (work.kind, _words(work.title))
        if identity not in known:
            kept.setdefault(identity, work)
    return tuple(kept.values())


def _are_same(one: ResolvedItem, other: ResolvedItem) -> bool:
    if one.date != other.date or isinstance(one.resolution, Unresolved):
        return False
    if {one.kind, other.kind} <= _HANDED_IN and is_shortened(one.title, other.title):
        return True
    if one.kind is not other.kind:
        return False
    words, others = _words(one.title), _words(other.title)
    if words == others:
        return one.item.number == other.item.number or one.item.number is None or other.item.number is None
    if one.kind is not Kind.EXAM or not words or not others:
        return False
    if words <= others or others <= words:
        return True
    numbers, other_numbers = _numbers(words), _numbers(others)
    return bool(words & others & _ONE_OF_A_DAY) and not (words ^ others) & _PARTS and numbers == other_numbers


def _is_named_short(one: ResolvedItem, other: ResolvedItem) -> bool:
    """Whether two works to hand in on one day, told of in different places, are called by a name and a short form of
    it that leaves out no step of the work ("Report" and "Soil project report", not "Soil project" and its "plan").
    """
    if one.date is None or (one.date, one.end_date) != (other.date, other.end_date):
        return False
    if not {one.kind, other.kind} <= _HANDED_IN and not one.kind is other.kind is Kind.PRESENTATION:
        return False
    if any(_are_in_one_row(first, second) for first in one.item.mentions for second in other.item.mentions):
        return False
    words, others = (_singular(_words(_IN_CLASS.sub("", each.title))) for each in (one, other))
    short, long = (words, others) if len(words) < len(others) else (others, words)
    if not short or not short < long or _numbers(long) != _numbers(short) or (long - short) & _STEPS:
        return False
    return _singular({_last_word(one.title)}) == _singular({_last_word(other.title)})


def _is_edge_of_series(one: ResolvedItem, other: ResolvedItem) -> bool:
    """Whether a remark in the row of a week ("Last quiz") names a work of a series that has its day in that week."""
    match = _EDGE.fullmatch(one.title.strip())
    if match is None or one.kind is not other.kind or one.date is None or other.date is None:
        return False
    inside = one.date <= other.date <= (one.end_date or one.date) + timedelta(days=2)
    return inside and one.end_date is not None and _SERIES.search(other.title) is not None


def _singular(words: Iterable[str]) -> frozenset[str]:
    return frozenset(
        word[:-1] if len(word) > 4 and word.endswith("s") and not word.endswith("ss") else word for word in words
    )


def _last_word(title: str) -> str:
    """What a title calls the work: the last word before brackets and marks."""
    words = re.findall(r"[^\W\d_]+", _IN_CLASS.sub("", re.split(r"[(:,]", title)[0]).casefold())
    return _SPELLINGS.get(words[-1], words[-1]) if words else ""


def _are_in_one_row(first: Mention, second: Mention) -> bool:
    if first.row is not None and first.row == second.row:
        return True
    a, b = first.place, second.place
    return (a.page, a.block, a.row) == (b.page, b.block, b.row)


def _numbers(words: frozenset[str]) -> frozenset[str]:
    return frozenset(word for word in words if word.isdigit())


def is_shortened(one: str, other: str) -> bool:
    """Whether two titles are the same but for a name given by its initials, some of its words passed over.

    >>> is_shortened("CFP Plan", "Community Field Research Project: Plan")
    True
    >>> is_shortened("CFP Plan", "Community Field Project: Report")
    False
    """
    return _is_short_for(one, other) or _is_short_for(other, one)


def _is_short_for(short: str, long: str) -> bool:
    initials = _INITIALS.search(short)
    if initials is None or initials[0] in long:
        return False
    rest = [word.casefold() for word in re.findall(r"\w+", short[: initials.start()] + " " + short[initials.end() :])]
    words = [word.casefold() for word in re.findall(r"\w+", long)]
    name = words[: len(words) - len(rest)]
    if words[len(name) :] != rest or len(name) < len(initials[0]):
        return False
    letters = iter(word[0] for word in name)
    return name[0][0] == initials[0][0].casefold() and all(letter in letters for letter in initials[0].casefold())


def _merged(first: ResolvedItem, second: ResolvedItem) -> ResolvedItem:
    mentions = tuple(dict.fromkeys((*first.item.mentions, *second.item.mentions)))
    title = max(first.title, second.title, key=lambda title: len(_words(title)))
    item = replace(first.item, mentions=mentions, title=title, number=first.item.number or second.item.number)
    return replace(
        first,
        title=title,
        item=item,
        time=first.time or second.time,
        time_note=first.time_note or second.time_note,
        weight=first.weight or second.weight,
    )


def _words(title: str) -> frozenset[str]:
    text = re.sub(r"mid[\s-]term", "midterm", title.casefold())
    return frozenset(_SPELLINGS.get(word, word) for word in re.findall(r"\w+", text) if word not in _SMALL_WORDS)
