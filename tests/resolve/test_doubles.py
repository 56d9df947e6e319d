"""One piece of work that a row dates by week and weekday and the text by its date."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.expression import Week, Weekday, WeekdayIn
from tests.resolve.made_outlines import OCTOBER_6, course, item, mention, outline


def days_of(in_text: str, in_row: str) -> list[str]:
    """The titles read where the text has one work on the day (6 October) that the row of another gives by its week."""
    (week,) = course(outline([item(Kind.EXAM, "X", mention(WeekdayIn(Week(6), Weekday.TU), "Tuesday", row=6))])).items
    assert week.date is not None
    made = outline(
        [
            item(Kind.ASSIGNMENT, in_text, mention(OCTOBER_6, "October 6")),
            item(Kind.ASSIGNMENT, in_row, mention(WeekdayIn(Week(6), Weekday.TU), "Tuesday", row=6)),
        ]
    )
    found = course(made).items
    assert {one.date for one in found} == {week.date}, "both are on one day in this term"
    return sorted(one.title for one in found)


def test_the_fuller_name_stays() -> None:
    assert days_of("Formative problem question", "Formative") == ["Formative problem question"]


@pytest.mark.parametrize(
    ("in_text", "in_row"),
    [("Case memo", "Field notes"), ("Essay 1", "Essay 2"), ("Essay", "Essay draft")],
)
def test_other_work_of_the_day_stays(in_text: str, in_row: str) -> None:
    assert days_of(in_text, in_row) == sorted((in_text, in_row))
