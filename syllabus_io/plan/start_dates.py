"""When to begin: rules of thumb as settings, the latest sensible start, and study sessions with widening gaps.

Each function has a twin that the workbook computes (``workbook.formulas``), so that a start moves with its date; tests
hold the two together. The figures are rules of thumb and say so. What research says is named where it is used.
"""

from __future__ import annotations

import math
from datetime import date, timedelta

from syllabus_io.outline.records import Kind
from syllabus_io.plan.records import KindSetting, PlanSettings

__all__ = ["DEFAULT_SETTINGS", "MOST_SESSIONS", "lead_days", "start_day", "study_sessions"]

MOST_SESSIONS = 4
"""The most study sessions that are laid out before one exam."""

DEFAULT_SETTINGS = PlanSettings(
    kinds=(
        KindSetting(Kind.ASSIGNMENT, lead_days=4, hours=4, sessions=0),
        KindSetting(Kind.QUIZ, lead_days=3, hours=2, sessions=2),
        KindSetting(Kind.EXAM, lead_days=10, hours=10, sessions=4),
        KindSetting(Kind.PROJECT, lead_days=21, hours=20, sessions=0),
        KindSetting(Kind.PRESENTATION, lead_days=10, hours=6, sessions=0),
        KindSetting(Kind.READING, lead_days=2, hours=2, sessions=0),
    ),
    hours_per_day=2,
    sources=(
        ("Days ahead", "Rule of thumb, common practice, no source. Change it to what suits the student."),
        ("Hours", "Rule of thumb, common practice, no source. The larger of days ahead and hours decides."),
        (
            "Study sessions",
            "Rule of thumb. Spaced study lasts longer than massed study; the best gap is a smaller share of the time "
            "to the test the longer that time is: about 20 to 40 % at one week (Cepeda et al. 2008, Psychological "
            "Science 19(11), 1095-1102, on one review of facts). Sessions and their number are our reading of it.",
        ),
        ("Widening of gaps", "1 is even; 1.5 puts the first gap at about a fifth of the time with four sessions."),
        ("Heavy work", "Rule of thumb, common practice, no source."),
    ),
)


def lead_days(settings: PlanSettings, kind: Kind, weight_percent: float | None) -> int:
    """How many days before its date work on an item begins at the latest: the days set for its kind, or what its
    hours take, whichever is more; both times the factor for heavy work."""
    setting = settings.of(kind)
    heavy = weight_percent is not None and weight_percent >= settings.heavy_percent
    factor = settings.heavy_factor if heavy else 1.0
    days = _round(setting.lead_days * factor)
    return max(days, math.ceil(round(setting.hours * factor / settings.hours_per_day, 6)))


def start_day(day: date, lead: int, first_day: date) -> date:
    """The day to begin: ``lead`` days before, but not before the term begins."""
    return min(day, max(day - timedelta(days=lead), first_day))


def study_sessions(start: date, day: date, count: int, spread: float) -> tuple[date, ...]:
    """Days to study from ``start`` to the day before ``day``, their gaps widening by the power ``spread``.

    At most one a day and at most :data:`MOST_SESSIONS`; none when the exam is on the day study would begin.

    >>> [session.day for session in study_sessions(date(2026, 10, 1), date(2026, 10, 11), 4, 1.5)]
    [1, 3, 6, 10]
    """
    room = (day - start).days
    number = min(count, room, MOST_SESSIONS)
    sessions: list[date] = []
    for step in range(number):
        share = step / (number - 1) if number > 1 else 0.0
        after = _round((room - 1) * share**spread)
        session = start + timedelta(days=after)
        sessions.append(max(session, sessions[-1] + timedelta(days=1)) if sessions else session)
    return tuple(sessions)


def _round(value: float) -> int:
    """Half away from zero, as spreadsheets round, with the noise of binary fractions taken off first."""
    return math.floor(round(value, 6) + 0.5)
