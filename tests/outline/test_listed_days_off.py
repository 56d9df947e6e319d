"""Several days off in one sentence. The sentences are invented."""

from __future__ import annotations

import pytest

from syllabus_io.outline.listed_days_off import listed_days_off
from syllabus_io.resolve.expression import MonthDay, Span

LABOR_DAY = ("Labor Day", MonthDay(9, 6))
THANKSGIVING = Span(MonthDay(11, 24), MonthDay(11, 26))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("No class: Labor Day (Sept 6), Thanksgiving (Nov 24-26).", [LABOR_DAY, ("Thanksgiving", THANKSGIVING)]),
        (
            "Days without class: Labor Day (Sept 6); Harvest break (Nov 24–26).",
            [LABOR_DAY, ("Harvest break", THANKSGIVING)],
        ),
        ("There are no classes on Sept 6 (Labor Day) and Nov 24-26 (Recess).", [LABOR_DAY, ("Recess", THANKSGIVING)]),
        ("Holidays: September 6, Labor Day; November 24-26, Recess", [LABOR_DAY, ("Recess", THANKSGIVING)]),
        ("Days off: Sept 6, Nov 24-26", [("No class", MonthDay(9, 6)), ("No class", THANKSGIVING)]),
        (
            "No class on Labor Day, Sept 6; during harvest break, October 4 and 5; and at Thanksgiving, Nov 24-26.",
            [LABOR_DAY, ("Harvest break", Span(MonthDay(10, 4), MonthDay(10, 5))), ("Thanksgiving", THANKSGIVING)],
        ),
        ("No class from March 9 through March 13", []),
        ("No class on Labor Day (Sept 6)", []),
        ("The essay is due on Sept 6 and the report on Nov 24.", []),
    ],
)
def test_each_day_off_of_a_list_has_its_name_and_date(text: str, expected: list[object]) -> None:
    assert [(name, phrase.expression) for name, phrase in listed_days_off(text)] == expected


def test_the_heading_above_may_say_that_they_are_days_off() -> None:
    text = "Labor Day (Sept 6) and the harvest recess (Nov 24-26)."
    assert listed_days_off(text) == ()
    found = listed_days_off(text, "Are there days without class?")
    assert [(name, phrase.expression) for name, phrase in found] == [LABOR_DAY, ("Harvest recess", THANKSGIVING)]
