"""Steps of a project, laid back from its day: which work gets a planner, which milestones its outline gives, and the
days of the steps between them. Twin: ``workbook.projects``.

The usual steps and their shares of the time are a rule of thumb: common practice, no source.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from syllabus_io.outline.records import Kind
from syllabus_io.plan.day_table import OpenDays
from syllabus_io.plan.records import Plan, PlanEntry

__all__ = ["MOST_STEPS", "ProjectPlan", "ProjectStep", "plan_projects", "project_slack", "step_days"]

MOST_STEPS = 8
"""Rows for the steps of one project."""

_PAPER = (
    ("Proposal", 0.12),
    ("Sources", 0.3),
    ("Outline", 0.42),
    ("Draft", 0.65),
    ("Feedback", 0.78),
    ("Revision", 0.92),
)
_TALK = (("Topic and aim", 0.12), ("Sources", 0.3), ("Outline", 0.45), ("Slides", 0.65), ("Trial run", 0.88))
_OTHER = (("Plan", 0.12), ("Materials", 0.25), ("First version", 0.55), ("Feedback", 0.75), ("Final version", 0.92))
_TALK_WORDS = re.compile(r"\b(?:talk|presentation|speech|poster|debate|recital)\b", re.IGNORECASE)
_PAPER_WORDS = re.compile(
    r"\b(?:paper|essay|report|thesis|article|review|proposal|portfolio of texts)\b", re.IGNORECASE
)
_MILESTONES = {
    "Proposal": "proposal|topic|prospectus|abstract",
    "Topic and aim": "proposal|topic|abstract",
    "Plan": "proposal|plan|topic|design",
    "Sources": "sources?|bibliography|literature|references",
    "Materials": "materials?|data|parts list",
    "Outline": "outline|storyboard",
    "Draft": "(?:rough |first )?draft",
    "First version": "draft|prototype|first version|progress",
    "Slides": "slides?|draft",
    "Feedback": "peer|feedback|conference|critique",
    "Trial run": "rehearsal|trial|practice",
    "Revision": "revis\\w+|second draft",
    "Final version": "revis\\w+|second draft",
}
_GENERIC = re.compile(r"\b(?:project|paper|essay|report|presentation|talk)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ProjectStep:
    """A step, the share of the time after which it is done, and the item of the outline that dates it, if any."""

    name: str
    share: float
    milestone: str = ""


@dataclass(frozen=True, slots=True)
class ProjectPlan:
    """The planner of one item: what its outline says of it, and its steps."""

    item: str
    course: str
    title: str
    asked: str
    steps: tuple[ProjectStep, ...]


def plan_projects(plan: Plan) -> tuple[ProjectPlan, ...]:
    """A planner for each project, and for assignments and presentations that count as heavy, in order of day. What is a
    milestone of another has none of its own."""
    heavy = plan.settings.heavy_percent
    large = [entry for entry in plan.entries if _is_large(entry, heavy)]
    taken: dict[str, str] = {}
    projects = []
    for entry in large:
        if entry.item.id in taken:
            continue
        steps = _with_milestones(entry, plan, taken)
        asked = " ".join(entry.item.mention.context.split())
        projects.append(ProjectPlan(entry.item.id, entry.course, entry.item.title, asked, steps))
    return tuple(one for one in projects if one.item not in taken)


def _is_large(entry: PlanEntry, heavy: float) -> bool:
    kind = entry.item.kind
    if kind is Kind.PROJECT:
        return True
    return kind in {Kind.ASSIGNMENT, Kind.PRESENTATION} and (entry.weight_percent or 0.0) >= heavy


def _usual_steps(entry: PlanEntry) -> tuple[tuple[str, float], ...]:
    if entry.item.kind is Kind.PRESENTATION or _TALK_WORDS.search(entry.item.title):
        return _TALK
    return _PAPER if _PAPER_WORDS.search(entry.item.title) else _OTHER


def _with_milestones(entry: PlanEntry, plan: Plan, taken: dict[str, str]) -> tuple[ProjectStep, ...]:
    steps = [ProjectStep(name, share) for name, share in _usual_steps(entry)]
    for other in plan.entries:
        if other.item.id in taken or not _may_belong(other, entry):
            continue
        for place, step in enumerate(steps):
            words = rf"\b(?:{_MILESTONES[step.name]})\b"
            if not step.milestone and re.search(words, other.item.title, re.IGNORECASE):
                steps[place] = replace(step, milestone=other.item.id)
                taken[other.item.id] = entry.item.id
                break
    return tuple(steps)


def _may_belong(other: PlanEntry, entry: PlanEntry) -> bool:
    """Whether an item can be a milestone of another: same course, earlier, and named after it."""
    if other.item.id == entry.item.id or other.course != entry.course or not (other.item.date and entry.item.date):
        return False
    if other.item.kind in {Kind.EXAM, Kind.QUIZ, Kind.READING} or other.item.date >= entry.item.date:
        return False
    shared = _own_words(other.item.title) & _own_words(entry.item.title)
    generic = _generic_words(other.item.title)
    return bool(shared) or (bool(generic) and generic <= _generic_words(entry.item.title))


def _generic_words(title: str) -> set[str]:
    return {word.lower() for word in _GENERIC.findall(title)}


def _own_words(title: str) -> set[str]:
    words = re.findall(r"[A-Za-z]{4,}", title.lower())
    return {word for word in words if not _GENERIC.fullmatch(word) and word not in {"final", "draft", "with", "your"}}


def step_days(
    start: date, due: date, steps: Sequence[tuple[float | None, date | None]], open_days: OpenDays
) -> tuple[date | None, ...]:
    """The day of each step, given as its share of the time and, where it is fixed, its day.

    Steps lie between the fixed ones around them (before the first: the start; after the last: the day it is due) by
    their shares, before the due day, and move earlier to an open day; never before a fixed step. None where neither a
    share nor a day is given.
    """
    found: list[date | None] = []
    for place, (share, fixed) in enumerate(steps):
        if fixed is not None or share is None:
            found.append(fixed)
            continue
        before = [(s or 0.0, day) for s, day in steps[:place] if day is not None]
        after = [(1.0 if s is None else s, day) for s, day in steps[place + 1 :] if day is not None]
        from_share, from_day = before[-1] if before else (0.0, start)
        to_share, to_day = after[0] if after else (1.0, due)
        laid = _laid(share, (from_share, from_day), (to_share, max(from_day, to_day)))
        moved = _open_day(min(laid, due - timedelta(days=1)), open_days)
        found.append(max(moved, from_day) if before else moved)
    return tuple(found)


def _laid(share: float, begin: tuple[float, date], end: tuple[float, date]) -> date:
    span, days = end[0] - begin[0], (end[1] - begin[1]).days
    part = min(1.0, max(0.0, (share - begin[0]) / span)) if span > 0 else 1.0
    return begin[1] + timedelta(days=math.floor(round(days * part, 6) + 0.5))


def _open_day(day: date, open_days: OpenDays) -> date:
    """The day, or the last open day before it; the day itself where there is none or the table does not hold it."""
    count = open_days.count_until(day)
    return (open_days.nth(count) if count else None) or day


def project_slack(today: date, due: date, hours_left: float, hours_per_day: float, open_days: OpenDays) -> int | None:
    """Open days from today to the day before it is due that the hours left do not need; negative when they do not
    suffice. None once it is past, or where the table of days does not hold it."""
    if due < today:
        return None
    before, until = (open_days.count_until(day - timedelta(days=1)) for day in (today, due))
    if before is None or until is None:
        return None
    return until - before - math.ceil(round(hours_left / hours_per_day, 6))
