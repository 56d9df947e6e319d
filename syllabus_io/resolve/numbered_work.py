"""Numbered work against its own numbers: dates that should rise with them, and how many the grading scheme counts."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from syllabus_io.outline.records import GradingScheme, Kind
from syllabus_io.resolve.cross_check import Dated
from syllabus_io.resolve.records import ResolvedItem, Unresolved
from syllabus_io.resolve.row_order import RowDay, find_slips
from syllabus_io.resolve.wording import in_words, quoted

__all__ = ["count_notes", "number_order_reasons"]


def number_order_reasons(items: Iterable[Dated]) -> Mapping[str, str]:
    """A reason for each numbered item whose date breaks the rising order of its series ("Quiz 3" before "Quiz 2")."""
    series: dict[tuple[Kind, str], list[Dated]] = {}
    for item in items:
        if item.number is not None and item.exact:
            series.setdefault((item.kind, stem_of(item.title)), []).append(item)
    reasons: dict[str, str] = {}
    for group in series.values():
        numbers = [item.number for item in group]
        if len(set(numbers)) < len(numbers):
            continue
        ranked = sorted(group, key=lambda item: item.number or 0)
        rows = [RowDay(index, item.day, item.day, item.title) for index, item in enumerate(ranked)]
        for slip in find_slips(rows):
            before, item, after = ranked[slip.row - 1], ranked[slip.row], ranked[slip.row + 1]
            reasons[item.id] = (
                f"{quoted(item.title)} on {in_words(item.day)} is out of order: {quoted(before.title)} is on "
                f"{in_words(before.day)} and {quoted(after.title)} on {in_words(after.day)}"
            )
    return reasons


def count_notes(items: Sequence[ResolvedItem], scheme: GradingScheme) -> tuple[str, ...]:
    """A note for each grading category that counts another number of marks than there are dated items in it.

    Categories without any dated item say nothing: their marks may be given for attendance or on days that nobody
    writes down.
    """
    notes = []
    for category in scheme.categories:
        dated = sum(
            item.item.category == category.name and not isinstance(item.resolution, Unresolved) for item in items
        )
        if category.count is not None and dated and dated != category.count:
            notes.append(f"the outline counts {category.count} in {quoted(category.name)}; {dated} of them have a date")
    return tuple(notes)


def stem_of(title: str) -> str:
    """A title without its numbers, plural endings and what stands in brackets or behind its number.

    >>> stem_of("Problem Sets 3: Cells"), stem_of("Unit test: part 2")
    ('problem set', 'unit test part')
    """
    head = re.split(r"[:(–—]", title)[0]
    head = head if re.search(r"\d", head) else re.sub(r"\([^)]*\)", " ", title)
    return " ".join(word.rstrip("s") for word in re.findall(r"[a-z]+", head.casefold()))
