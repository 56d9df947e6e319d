"""One piece of work, once."""

from __future__ import annotations

from datetime import date

import pytest

from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import Phrase, Week
from syllabus_io.resolve.records import Certainty, Resolved, ResolvedItem
from syllabus_io.resolve.repeats import merge_repeats


def work(
    title: str,
    block: int,
    row: int | None = None,
    *,
    first: str = "2026-10-05",
    last: str = "",
    kind: Kind = Kind.ASSIGNMENT,
) -> ResolvedItem:
    phrase = Phrase("week 3", 0, 6, Week(3))
    mention = Mention(phrase, Place("outline.pdf", block=block, row=row), "week 3", title, row)
    resolution = Resolved(
        date.fromisoformat(first), date.fromisoformat(last) if last else None, Certainty.STATED, Week(3)
    )
    item = Item(kind, title, (mention,))
    return ResolvedItem(title, kind, title, resolution, mention, item)


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


def test_a_talk_in_class_and_its_whole_name_are_one() -> None:
    names = ("Group presentations in tutorials", "Garden plan – group presentation")
    talks = [work(name, number, last="2026-10-09", kind=Kind.PRESENTATION) for number, name in enumerate(names, 1)]
    assert [item.title for item in merge_repeats(talks)] == ["Garden plan – group presentation"]


def test_the_last_of_a_series_is_one_of_its_works() -> None:
    quiz = work("Online quiz, week 6", 1, kind=Kind.QUIZ, first="2026-10-11")
    remark = work("Last quiz", 2, kind=Kind.QUIZ, first="2026-10-05", last="2026-10-09")
    assert merge_repeats([remark, quiz]) == merge_repeats([quiz, remark]) == (quiz,)
    elsewhere = work("Last quiz", 2, kind=Kind.QUIZ, first="2026-11-02", last="2026-11-06")
    assert len(merge_repeats([quiz, elsewhere])) == 2
