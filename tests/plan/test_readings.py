"""Pages of readings, pace and streak."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from syllabus_io.plan.readings import count_pages, pages_behind, reading_streak

TODAY = date(2026, 9, 28)


@pytest.mark.parametrize(
    ("title", "pages"),
    [
        ("Harbour tales, pp. 12-34", 23),
        ("Harbour tales, p. 7", 1),
        ("Letters, pp. 1–10, 15–20", 16),
        ("Tides, pages 40 to 45", 6),
        ("Tides, pp. 112-18", 7),
        ("Chapter 3", None),
        ("Backwards, pp. 30-12a", None),
        ("Section 4.2, exercises 1-20", None),
    ],
)
def test_pages_are_counted_where_the_title_names_them(title: str, pages: int | None) -> None:
    assert count_pages(title) == pages


@given(st.text(max_size=60))
def test_any_title_gives_a_sensible_number_or_none(title: str) -> None:
    pages = count_pages(title)
    assert pages is None or 0 < pages <= 2000


def test_pace_counts_what_is_late_less_what_was_read_ahead() -> None:
    before, after = TODAY - timedelta(days=1), TODAY + timedelta(days=3)
    planned = [(before, 20, False), (before, 10, True), (after, 8, True), (after, 30, False), (None, 99, False)]
    assert pages_behind(planned, TODAY) == 12


def test_a_streak_goes_on_until_a_whole_day_was_missed() -> None:
    days = [TODAY - timedelta(days=back) for back in (1, 2, 3, 5)]
    assert reading_streak(days, TODAY) == 3
    assert reading_streak([*days, TODAY], TODAY) == 4
    assert reading_streak(days[1:], TODAY) == 0
