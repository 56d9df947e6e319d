"""One piece of work that stands twice: in its row by week and weekday, in the text by its date."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from syllabus_io.outline.items import STAGE_WORDS, title_numbers, title_words
from syllabus_io.resolve.records import Resolved

if TYPE_CHECKING:
    from syllabus_io.resolve.item_days import ItemDay

__all__ = ["without_doubles"]


def without_doubles(days: Sequence[ItemDay]) -> tuple[ItemDay, ...]:
    """The items without those that a row names in fewer words than the text, on the same day: the fuller one keeps the
    mentions of both. Only that day shows that they are one, so their expressions could not be compared before."""
    kept: list[ItemDay] = []
    for day in days:
        place = next((number for number, other in enumerate(kept) if _is_double(day, other)), None)
        if place is None:
            kept.append(day)
            continue
        fuller, other = sorted((kept[place], day), key=lambda one: -len(title_words(one.title)))
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
    words, others = title_words(one.title), title_words(other.title)
    numbers, their_numbers = title_numbers(one.title), title_numbers(other.title)
    if not words or not others or words & STAGE_WORDS != others & STAGE_WORDS or numbers != their_numbers:
        return False
    return words <= others or others <= words
