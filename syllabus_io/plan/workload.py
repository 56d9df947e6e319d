"""What each week holds: items, hours of work, classes and commitments; heavy weeks; hours against credits.

Twins: ``workbook.load`` and ``workbook.workload``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from syllabus_io.outline.records import Kind
from syllabus_io.plan.day_table import Block, DayTable, OpenDays, blocks_of, day_table
from syllabus_io.plan.facts import CourseFact, DatedItem, PlanningFacts
from syllabus_io.plan.records import PlanSettings
from syllabus_io.plan.start_dates import lead_days, start_day, study_sessions

__all__ = [
    "CREDIT_WEEKS",
    "CreditCheck",
    "ItemPlan",
    "WeekLoad",
    "credit_checks",
    "item_hours",
    "plan_items",
    "week_loads",
]

CREDIT_WEEKS = 15
"""Weeks of a term as the credit hour counts them (34 CFR 600.2, cited from memory: "approximately fifteen weeks")."""


@dataclass(frozen=True, slots=True)
class ItemPlan:
    """One item with its latest start, its study sessions and its hours."""

    item: DatedItem
    start: date
    sessions: tuple[date, ...]
    hours: float

    def hours_between(self, first: date, last: date) -> float:
        """The hours that fall in a stretch: on its sessions, or evenly on the days from its start to the day before it
        is due (on the one day where these are the same)."""
        if self.sessions:
            return self.hours / len(self.sessions) * sum(first <= day <= last for day in self.sessions)
        end = max(self.start, self.item.day - timedelta(days=1))
        shared = (min(end, last) - max(self.start, first)).days + 1
        return self.hours * max(0, shared) / ((end - self.start).days + 1)


@dataclass(frozen=True, slots=True)
class WeekLoad:
    """A week, Monday to Sunday. ``work_hours`` are those of the items, outside class."""

    monday: date
    items: int
    exams: int
    work_hours: float
    class_hours: float
    commitment_hours: float
    is_heavy: bool = False


@dataclass(frozen=True, slots=True)
class CreditCheck:
    """A course's hours a week against its credits: class as on the timetable, own work as planned on average."""

    course: str
    class_hours: float
    class_expected: float | None
    own_planned: float
    own_expected: float | None


def item_hours(settings: PlanSettings, kind: Kind, weight: float | None) -> float:
    """The estimated hours of an item of that kind and share of the grade."""
    heavy = weight is not None and weight >= settings.heavy_percent / 100
    return settings.of(kind).hours * (settings.heavy_factor if heavy else 1.0)


def plan_items(facts: PlanningFacts, table: DayTable | None = None) -> tuple[ItemPlan, ...]:
    """Every item with its start, sessions and hours, in the order of the facts."""
    open_days = (table or day_table(facts)).study
    return tuple(_plan_item(item, facts, open_days) for item in facts.items)


def _plan_item(item: DatedItem, facts: PlanningFacts, open_days: OpenDays) -> ItemPlan:
    settings, kind = facts.settings, Kind(item.kind)
    percent = None if item.weight is None else item.weight * 100
    start = start_day(item.day, lead_days(settings, kind, percent), facts.first_day)
    sessions: tuple[date, ...] = ()
    if kind in {Kind.EXAM, Kind.QUIZ}:
        count = settings.of(kind).sessions
        sessions = study_sessions(start, item.day, count, settings.session_spread, open_days)
    return ItemPlan(item, start, sessions, item_hours(settings, kind, item.weight))


def week_loads(
    facts: PlanningFacts, mondays: Sequence[date], plans: Sequence[ItemPlan] | None = None
) -> tuple[WeekLoad, ...]:
    """The load of each week. A week is heavy when its hours of work reach the set multiple of the average over the
    weeks that hold some work."""
    table = day_table(facts)
    chosen = plans if plans is not None else plan_items(facts, table)
    weeks = [_week_load(monday, chosen, table) for monday in mondays]
    working = [week.work_hours for week in weeks if week.work_hours > 0]
    factor = facts.settings.heavy_week_factor
    if not working or factor <= 0:
        return tuple(weeks)
    limit = round(factor * sum(working) / len(working), 6)
    return tuple(replace(week, is_heavy=round(week.work_hours, 6) >= limit) for week in weeks)


def _week_load(monday: date, plans: Sequence[ItemPlan], table: DayTable) -> WeekLoad:
    sunday = monday + timedelta(days=6)
    due = [one.item for one in plans if monday <= one.item.day <= sunday]
    first = table.place(monday)
    days = slice(max(0, first), max(0, first + 7))
    return WeekLoad(
        monday,
        len(due),
        sum(item.kind == "exam" for item in due),
        sum(one.hours_between(monday, sunday) for one in plans),
        sum(table.class_hours[days]),
        sum(table.commitment_hours[days]),
    )


def credit_checks(facts: PlanningFacts, plans: Sequence[ItemPlan], weeks: int) -> tuple[CreditCheck, ...]:
    """Each course against its credits; ``weeks`` is how many weeks of the term the planned hours are spread over."""
    blocks = [block for block in blocks_of(facts) if block]
    return tuple(
        _credit_check(number, course, facts, blocks, plans, weeks)
        for number, course in enumerate(facts.courses, start=1)
    )


def _credit_check(
    number: int,
    course: CourseFact,
    facts: PlanningFacts,
    blocks: Sequence[Block],
    plans: Sequence[ItemPlan],
    weeks: int,
) -> CreditCheck:
    in_class = sum(block.week_hours for block in blocks if block.course == number)
    own = sum(plan.hours for plan in plans if plan.item.course == course.key) / max(1, weeks)
    settings = facts.settings
    return CreditCheck(
        course.key,
        in_class,
        _expected(course.credits, settings.class_hours_per_credit),
        own,
        _expected(course.credits, settings.own_hours_per_credit),
    )


def _expected(credits_held: float | None, hours: float) -> float | None:
    return credits_held * hours if credits_held and hours > 0 else None
