"""Parts of one work with a day each. Inputs are invented."""

from __future__ import annotations

import pytest

from syllabus_io.outline.entries import Entry
from syllabus_io.outline.named_parts import named_parts

from .documents import document
from .reading import dated_work


def parts(text: str) -> list[str]:
    return [entry.text for entry in named_parts(Entry(text, 0, len(text)))]


def test_each_part_comes_under_the_name_of_the_whole() -> None:
    assert parts("DB 1: post Wed 6/11, replies Sun 6/15") == ["DB 1: post Wed 6/11", "DB 1: replies Sun 6/15"]
    assert parts("Bridge model: plan due 9/30; load test on 10/28 and report 12/2") == [
        "Bridge model: plan due 9/30",
        "Bridge model: load test on 10/28",
        "Bridge model: report 12/2",
    ]


@pytest.mark.parametrize(
    "text", ["Essay: first draft Oct 6", "Ropes: knots, splices", "Dates: Oct 6, Oct 9", "Quiz 1 Oct 6, Quiz 2 Oct 9"]
)
def test_other_entries_stay_whole(text: str) -> None:
    assert parts(text) == [text]


def test_parts_on_weekdays_of_a_week() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Gym"],
                ["12/1-12/5", "Lockers"],
                ["12/8-12/12", "Fitness pre-test: mile on Tues, push up Wed"],
                ["12/15-12/19", "Volleyball"],
            ]
        )
    )
    assert list(found) == ["exam: Fitness pre-test: mile", "exam: Fitness pre-test: push up"]
    assert [day[-3:] for day in found.values()] == ["TU)", "WE)"]
