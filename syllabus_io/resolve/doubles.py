"""One piece of work that stands twice: in its row by week and weekday, in the text by its date."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from syllabus_io.resolve.records import Resolved

if TYPE_CHECKING:
    from syllabus_io.resolve.item_days import ItemDay

__all__ = ["without_doubles"]

_SMALL = frozenset(["the", "a", "an", "of", "on", "in", "for", "to", "and", "with", "your", "our", "due", "is", "are"])
_STEPS = frozenset(
    [
        "draft",
        "proposal",
        "outline",
        "progress",
        "first",
        "second",
        "rough",
        "final",
        "revised",
        "revision",
        "abstract",
        "plan",
        "slides",
        "presentation",
        "report",
        "peer",
        "review",
        "evaluation",
        "bibliography",
        "milestone",
        "part",
        "prospectus",
    ]
)
"""Words for a step: a draft of a paper is other work than the paper."""


def without_doubles(days: Sequence[ItemDay]) -> tuple[ItemDay, ...]:
    """The items without those that a row names in fewer words than the text, on the same day: the fuller one keeps the
    mentions of both. Only that day shows that they are one, so their expressions could not be compared before."""
    kept: list[ItemDay] = []
    for day in days:
        place = next((number for number, other in enumerate(kept) if _is_double(day, other)), None)
        if place is None:
            kept.append(day)
            continue
        fuller, other = sorted((kept[place], day), key=lambda one: -len(_words(one.title)))
        item = replace(fuller.item, mentions=(*fuller.item.mentions, *other.item.mentions))
        kept[place] = replace(fuller, item=item, supporting=(*fuller.supporting, *other.supporting))
    return tuple(kept)


def _is_double(one: ItemDay, other: ItemDay) -> bool:
    if not isinstance(one.resolution, Resolved) or not isinstance(other.resolution, Resolved):
        return False
    if one.resolution.date != other.resolution.date or one.item.kind is not other.item.kind:
        return False
    if one.resolution.end_date or other.resolution.end_date:
        return False
    if (one.mention.row is None) == (other.mention.row is None):
        return False
    words, others = _words(one.title), _words(other.title)
    numbers, their_numbers = re.findall(r"\d+", one.title), re.findall(r"\d+", other.title)
    if not words or not others or words & _STEPS != others & _STEPS or numbers != their_numbers:
        return False
    return words <= others or others <= words


def _words(title: str) -> frozenset[str]:
    """The telling words of a title, plurals as one."""
    return frozenset(word.removesuffix("s") for word in re.findall(r"[a-z]+", title.lower()) if word not in _SMALL)
