"""A plan of a student's time: every dated item with the day to begin, and what clashes."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.records import ResolvedItem, ResolvedTerm

__all__ = ["Clash", "KindSetting", "Notice", "Plan", "PlanEntry", "PlanSettings"]


@dataclass(frozen=True, slots=True)
class KindSetting:
    """What is assumed about one kind of work: a rule of thumb that the user can change in the workbook.

    ``lead_days`` is how long before an exam or quiz study begins, or how long before a due date work begins at the
    latest when no hours are known; ``hours`` is the estimated work in hours; ``sessions`` how many study sessions.
    """

    kind: Kind
    lead_days: int
    hours: float
    sessions: int


@dataclass(frozen=True, slots=True)
class PlanSettings:
    """The rules of thumb behind a plan, each with its source as the workbook shows it.

    ``hours_per_day`` is what one piece of work gets on a day. Work that counts ``heavy_percent`` of the grade or more
    gets ``heavy_factor`` times the days and hours. ``session_spread`` is the power by which the gaps between study
    sessions widen (1: even). ``days_ahead`` is how far the first sheet looks.

    No study session is put on a day off unless ``study_on_days_off``, on the day of an exam if ``avoid_exam_days``,
    or on a day with ``full_hours`` of classes and commitments or more (0: no day is too full). ``study_hour`` is the
    hour from which sessions are shown in a day. ``class_hours_per_credit`` and ``own_hours_per_credit`` are the hours
    a week that a credit stands for (0: no check). A week is heavy from ``heavy_week_factor`` times the average (0:
    never). ``ease_days`` is how much earlier to begin where things clash (0: no suggestion).
    """

    kinds: tuple[KindSetting, ...]
    hours_per_day: float
    sources: tuple[tuple[str, str], ...] = ()
    heavy_percent: float = 15.0
    heavy_factor: float = 1.5
    session_spread: float = 1.5
    days_ahead: int = 14
    study_on_days_off: bool = False
    avoid_exam_days: bool = True
    full_hours: float = 9.0
    study_hour: int = 16
    class_hours_per_credit: float = 1.0
    own_hours_per_credit: float = 2.0
    heavy_week_factor: float = 1.5
    ease_days: int = 2

    def of(self, kind: Kind) -> KindSetting:
        """The setting of one kind; KeyError when it is missing."""
        for setting in self.kinds:
            if setting.kind is kind:
                return setting
        raise KeyError(kind)


@dataclass(frozen=True, slots=True)
class PlanEntry:
    """One item in the plan: the day to begin, why that day, its study sessions, and estimated hours.

    ``weight_percent`` is its share of the course grade, where the outline lets it be known.
    """

    course: str
    item: ResolvedItem
    start: datetime.date | None
    why: str
    sessions: tuple[datetime.date, ...] = ()
    hours: float = 0.0
    weight_percent: float | None = None


@dataclass(frozen=True, slots=True)
class Clash:
    """Things that get in each other's way, in plain words, with the ids of the items concerned."""

    reason: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Notice:
    """What a revised outline brought about for one row of Review, in plain words. ``asks`` tells that it is a question
    that stays open until a person answers it, also when a date was typed; ``was`` is what it then was about."""

    row: str
    text: str
    asks: bool = False
    was: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything the workbook shows: courses as resolved, entries in date order, settings and clashes.

    ``notices`` say what revised outlines changed; ``left_out`` are ids of rows of Review that a person removed.
    """

    resolved: ResolvedTerm
    entries: tuple[PlanEntry, ...]
    settings: PlanSettings
    clashes: tuple[Clash, ...] = ()
    notices: tuple[Notice, ...] = ()
    left_out: tuple[str, ...] = ()
