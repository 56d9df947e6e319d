"""The date that opens a schedule row."""

from __future__ import annotations

import pytest

from syllabus_io.outline.row_dates import read_row_date
from syllabus_io.resolve.expression import Week, Weekday


@pytest.mark.parametrize(
    ("text", "weekday", "rest"),
    [
        ("Week 2, Friday", Weekday.FR, ""),
        ("Week 2 – Thurs: Quiz 1", Weekday.TH, "Quiz 1"),
        ("Week 2", None, ""),
        ("Week 2: Monday readings", None, "Monday readings"),
        ("Week 2, Mon-Wed", None, "Mon-Wed"),
    ],
)
def test_a_weekday_behind_the_week_number_dates_the_row(text: str, weekday: Weekday | None, rest: str) -> None:
    found = read_row_date(text)
    assert found is not None
    assert (found.frame.stretch, found.frame.weekday, found.rest.lstrip(", ")) == (Week(2), weekday, rest)
