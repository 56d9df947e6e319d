"""Calendars whose rows hold the number of the day under the name of the month, and names of work in them."""

from __future__ import annotations

import pytest

from .documents import document, heading
from .reading import dated_work, days_off, readings

FEBRUARY: list[list[str | None]] = [
    ["2", "Soils. Read ch. 4."],
    ["4", "Field notes"],
    ["9", "Tree map 1 due at the start of class. Roots."],
    ["11", "Garden study: outline due. Leaves."],
]
MARCH: list[list[str | None]] = [["MARCH", None], ["2", "No class: spring break"], ["4", "EXAM, in class"]]
EXPECTED = {
    "assignment: Tree map 1": "month_day(2, 9)",
    "assignment: Garden study: outline": "month_day(2, 11)",
    "exam: EXAM": "month_day(3, 4)",
}


def test_day_numbers_under_months() -> None:
    outline = document(heading("FEBRUARY", 3), [*FEBRUARY, *MARCH])
    assert dated_work(outline) == EXPECTED
    assert days_off(outline) == {"Spring break": "month_day(3, 2)"}
    assert readings(outline) == {"Ch. 4": "month_day(2, 2)"}


def test_the_first_month_may_be_a_row_too() -> None:
    assert dated_work(document([["FEBRUARY", None], *FEBRUARY, *MARCH])) == EXPECTED


@pytest.mark.parametrize(
    "rows",
    [
        [["9", "Test 1"], ["4", "Essay due"], ["2", "Talk"]],
        [["MARCH", None], ["9", "Test 1"], ["4", "Essay due"], ["2", "Talk"]],
    ],
)
def test_numbers_without_a_month_or_out_of_order_are_no_days(rows: list[list[str | None]]) -> None:
    assert dated_work(document(rows)) == {}
