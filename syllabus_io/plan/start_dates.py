"""When to begin: rules of thumb as settings, the latest sensible start, and study sessions with widening gaps.

Each function has a twin that the workbook computes (``workbook.formulas``), so that a start moves with its date; tests
hold the two together. The figures are rules of thumb and say so. What research says is named where it is used.
"""

from __future__ import annotations

import math
from datetime import date, timedelta

from syllabus_io.outline.records import Kind
from syllabus_io.plan.day_table import OpenDays
from syllabus_io.plan.records import KindSetting, PlanSettings

__all__ = ["DEFAULT_SETTINGS", "MOST_SESSIONS", "lead_days", "session_numbers", "start_day", "study_sessions"]

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
        (
            "Days without study sessions",
            "Sessions avoid days kept free on Commitments, days off, days with an exam, and days with many hours of "
            "classes and commitments: common practice, no source. Choose yes or no, or 0, to switch each off.",
        ),
        (
            "Hours for a credit",
            "One hour of class and two of own work a week for each credit, over about 15 weeks: the US federal "
            "definition of a credit hour (34 CFR 600.2, cited from memory). Schools elsewhere count otherwise; "
            "0 switches the comparison off.",
        ),
        ("Heavy weeks and clashes", "Rules of thumb, common practice, no source. 0 switches each off."),
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


def study_sessions(
    start: date, day: date, count: int, spread: float, open_days: OpenDays | None = None
) -> tuple[date, ...]:
    """Days to study from ``start`` to the day before ``day``, their gaps widening by the power ``spread``.

    Only open days count and are chosen; None: every day is open. At most one session a day and at most
    :data:`MOST_SESSIONS`; none when the exam is on the day study would begin, or lies outside the table of open days.

    >>> [session.day for session in study_sessions(date(2026, 10, 1), date(2026, 10, 11), 4, 1.5)]
    [1, 3, 6, 10]
    """
    if open_days is None:
        return tuple(
            start + timedelta(days=number - 1) for number in session_numbers(0, (day - start).days, count, spread)
        )
    before, until = (open_days.count_until(one - timedelta(days=1)) for one in (start, day))
    if before is None or until is None:
        return ()
    found = (open_days.nth(number) for number in session_numbers(before, until, count, spread))
    return tuple(one for one in found if one)


def session_numbers(before: int, until: int, count: int, spread: float) -> tuple[int, ...]:
    """The numbers of the open days to study on, out of those after ``before`` up to ``until``."""
    room = until - before
    number = min(count, room, MOST_SESSIONS)
    chosen: list[int] = []
    for step in range(number):
        share = step / (number - 1) if number > 1 else 0.0
        wanted = before + 1 + _round((room - 1) * share**spread)
        least = chosen[-1] + 1 if chosen else before + 1
        chosen.append(min(until - (number - 1 - step), max(least, wanted)))
    return tuple(chosen)


def _round(value: float) -> int:
    """Half away from zero, as spreadsheets round, with the noise of binary fractions taken off first."""
    return math.floor(round(value, 6) + 0.5)
