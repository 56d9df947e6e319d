"""When to begin: the rules, their twins in the workbook, and what research says about gaps."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from syllabus_io.outline.records import Kind
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS, MOST_SESSIONS, lead_days, start_day, study_sessions

FIRST = date(2026, 8, 31)


@pytest.mark.parametrize(
    ("kind", "weight", "days"),
    [
        (Kind.ASSIGNMENT, None, 4),
        (Kind.ASSIGNMENT, 14.9, 4),
        (Kind.ASSIGNMENT, 15.0, 6),
        (Kind.QUIZ, 2.0, 3),
        (Kind.QUIZ, 15.0, 5),  # 4.5 rounds away from zero, as spreadsheets round
        (Kind.EXAM, 10.0, 10),
        (Kind.EXAM, 25.0, 15),
        (Kind.PROJECT, 20.0, 32),
    ],
)
def test_heavier_work_begins_earlier(kind: Kind, weight: float | None, days: int) -> None:
    assert lead_days(DEFAULT_SETTINGS, kind, weight) == days


def test_nothing_begins_before_the_term() -> None:
    assert start_day(date(2026, 9, 4), 10, FIRST) == FIRST
    assert start_day(date(2026, 8, 20), 10, FIRST) == date(2026, 8, 20), "work due before the term begins at once"


def test_sessions_reach_from_the_start_to_the_day_before() -> None:
    sessions = study_sessions(date(2026, 10, 1), date(2026, 10, 11), 4, 1.5)
    assert sessions == (date(2026, 10, 1), date(2026, 10, 3), date(2026, 10, 6), date(2026, 10, 10))


@given(st.integers(0, 90), st.integers(0, 9))
def test_sessions_are_days_of_their_own_with_widening_gaps(room: int, count: int) -> None:
    start = FIRST
    day = start + timedelta(days=room)
    sessions = study_sessions(start, day, count, DEFAULT_SETTINGS.session_spread)
    assert len(sessions) == min(room, count, MOST_SESSIONS)
    assert all(start <= session < day for session in sessions)
    gaps = [(later - earlier).days for earlier, later in pairwise(sessions)]
    assert all(gap >= 1 for gap in gaps)
    assert all(later >= earlier - 1 for earlier, later in pairwise(gaps)), f"gaps narrow: {gaps}"


def test_the_first_gap_lies_where_research_puts_it() -> None:
    """Cepeda et al. 2008, Psychological Science 19(11), 1095-1102: for a test after a week the best gap is 20 to
    40 % of the delay, and a smaller share for longer delays. The delay is counted from the second session."""
    for days in (7, 10, 15):
        day = FIRST + timedelta(days=days)
        first, second = study_sessions(FIRST, day, 4, DEFAULT_SETTINGS.session_spread)[:2]
        share = (second - first).days / (day - second).days
        assert 0.15 <= share <= 0.40, f"{days} days before an exam the first gap is {share:.0%} of the delay"


def test_every_rule_of_thumb_names_its_source_or_says_it_has_none() -> None:
    for subject, source in DEFAULT_SETTINGS.sources:
        named = "no source" in source or "Cepeda" in source or "34 CFR 600.2" in source
        assert named or subject == "Widening of gaps", subject
    assert {setting.kind for setting in DEFAULT_SETTINGS.kinds} == set(Kind)
