"""Resolved items and settings in, a plan out: every item with its weight, the day to begin and study sessions."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from syllabus_io.outline.records import Kind
from syllabus_io.plan.clashes import find_clashes
from syllabus_io.plan.day_table import OpenDays, day_table
from syllabus_io.plan.facts import planning_facts
from syllabus_io.plan.records import Plan, PlanEntry, PlanSettings
from syllabus_io.plan.start_dates import DEFAULT_SETTINGS, lead_days, start_day, study_sessions
from syllabus_io.plan.weights import weight_percent
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm

__all__ = ["make_plan"]


def make_plan(resolved: ResolvedTerm, settings: PlanSettings | None = None) -> Plan:
    """The plan of a term, entries in date order, those without a date last. ``settings`` None: the usual ones."""
    chosen = settings or DEFAULT_SETTINGS
    entries = [
        _plan_entry(course, item, chosen, resolved.term.first_day)
        for course in resolved.courses
        for item in course.items
    ]
    entries.sort(key=_date_order)
    plan = Plan(resolved, tuple(entries), chosen, find_clashes(resolved, entries, chosen))
    open_days = day_table(planning_facts(plan)).study
    return replace(plan, entries=tuple(_with_sessions(entry, chosen, open_days) for entry in entries))


def _with_sessions(entry: PlanEntry, settings: PlanSettings, open_days: OpenDays) -> PlanEntry:
    day, start = entry.item.date, entry.start
    if day is None or start is None:
        return entry
    count = settings.of(entry.item.kind).sessions
    return replace(entry, sessions=study_sessions(start, day, count, settings.session_spread, open_days))


def _date_order(entry: PlanEntry) -> tuple[date, tuple[int, int], str, str]:
    clock = entry.item.time
    moment = (clock.hour, clock.minute) if clock else (24, 0)
    return (entry.item.date or date.max, moment, entry.course, entry.item.title)


def _plan_entry(course: ResolvedCourse, item: ResolvedItem, settings: PlanSettings, first_day: date) -> PlanEntry:
    percent = weight_percent(item.weight or item.item.weight, item.item.category, course.outline.grading)
    setting = settings.of(item.kind)
    day = item.date
    if day is None:
        return PlanEntry(course.key, item, None, "no date yet", hours=setting.hours, weight_percent=percent)
    lead = lead_days(settings, item.kind, percent)
    start = start_day(day, lead, first_day)
    why = _why(item.kind, (day - start).days, lead)
    return PlanEntry(course.key, item, start, why, hours=setting.hours, weight_percent=percent)


def _why(kind: Kind, days: int, lead: int) -> str:
    if days < lead:
        return "from the first day of term on"
    return f"{days} days before: a rule of thumb for this kind of work ({kind.value})"
