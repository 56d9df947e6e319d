"""One piece of work, once."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import Phrase, Week
from syllabus_io.resolve.records import Certainty, Resolved, ResolvedItem
from syllabus_io.resolve.repeats import merge_repeats


def work(title: str, block: int, row: int | None = None, day: str = "2026-10-05") -> ResolvedItem:
    from datetime import date

    phrase = Phrase("week 3", 0, 6, Week(3))
    mention = Mention(phrase, Place("outline.pdf", block=block, row=row), "week 3", title, row)
    resolution = Resolved(date.fromisoformat(day), None, Certainty.STATED, Week(3))
    item = Item(Kind.ASSIGNMENT, title, (mention,))
    return ResolvedItem(title, Kind.ASSIGNMENT, title, resolution, mention, item)


@pytest.mark.parametrize(
    ("titles", "merged"),
    [
        (("Report", "Soil project report"), ["Soil project report"]),
        (("Memo", "Policy memo"), ["Policy memo"]),
        (("Soil project", "Soil project plan"), ["Soil project", "Soil project plan"]),
        (("Report", "Draft report"), ["Report", "Draft report"]),
        (("Essay 2", "Field essay"), ["Essay 2", "Field essay"]),
    ],
)
def test_a_short_name_joins_the_only_work_that_bears_it(titles: tuple[str, str], merged: list[str]) -> None:
    items = [work(title, number) for number, title in enumerate(titles, 1)]
    assert [item.title for item in merge_repeats(items)] == merged


def test_a_short_name_that_two_works_bear_joins_neither() -> None:
    items = [work("Lab report", 1), work("Trip report", 2), work("Report", 3)]
    assert len(merge_repeats(items)) == 3


def test_entries_of_one_row_are_two_works() -> None:
    assert len(merge_repeats([work("Report", 1, row=4), work("Lab report", 1, row=4)])) == 2
