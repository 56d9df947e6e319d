"""Random but consistent plans of a course: the truth from which outlines are written."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

__all__ = ["CoursePlan", "OffDays", "Part", "Work", "class_days", "make_plan", "school_days", "week_number"]

SUBJECTS = (
    ("ANTH", "Gifts, Debts and Neighbors"),
    ("ASTR", "The Sky Without a Telescope"),
    ("BUS", "Small Firms and Their Books"),
    ("CHEM", "Everyday Chemistry"),
    ("CMPT", "Programs and Proofs"),
    ("ECN", "Prices and Places"),
    ("GEOG", "Maps and What They Hide"),
    ("HLTH", "Sleep, Food and Work"),
    ("LING", "How Languages Change"),
    ("MATH", "Counting and Chance"),
    ("PHIL", "Reasons and Excuses"),
    ("PSY", "Memory"),
    ("THTR", "Scenes and Silences"),
)
TOPICS = (
    "Introductions and first questions",
    "Where the idea came from",
    "Tools we will use",
    "A simple case",
    "The same case, made harder",
    "What the numbers leave out",
    "Two views of one problem",
    "Looking back: what held up",
    "Field methods",
    "Reading closely",
    "Models and their limits",
    "An old quarrel",
    "Working in pairs",
    "Guest from the city archive",
    "Causes and correlations",
    "Scale and size",
    "Networks",
    "Small groups, large effects",
    "Arguments from silence",
    "Practice day",
)
SERIES = (
    ("assignment", "Homework", "Homework"),
    ("assignment", "Problem Set", "Problem sets"),
    ("assignment", "Lab Report", "Lab reports"),
    ("assignment", "Reflection", "Reflections"),
    ("assignment", "Case Study", "Case studies"),
    ("assignment", "Essay", "Essays"),
    ("quiz", "Quiz", "Quizzes"),
    ("assignment", "Worksheet", "Worksheets"),
)
EXAMS = (("Midterm Exam",), ("Midterm 1", "Midterm 2"), ("Exam 1", "Exam 2", "Exam 3"), ("Test 1", "Test 2"))
PROJECT_STEPS = ("Project Proposal", "Annotated Bibliography", "Project Draft", "Final Project Report")
FAMILY_NAMES = (
    "Ashgrove",
    "Bellweather",
    "Corrander",
    "Delacourt-Finn",
    "Emberly",
    "Fallowmere",
    "Greaves",
    "Holloway",
)
GIVEN_NAMES = ("Ada", "Bram", "Celia", "Dorian", "Esme", "Felix", "Greta", "Hugo")


@dataclass(frozen=True, slots=True)
class Work:
    """One piece of dated work. ``weight`` is in percent when the outline gives one for it alone."""

    kind: str
    title: str
    date: datetime.date
    time: str | None = None
    weight: float | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the grade, in percent."""

    name: str
    weight: float
    count: int | None = None


@dataclass(frozen=True, slots=True)
class OffDays:
    """A stretch without classes."""

    name: str
    first: date
    last: date


@dataclass(frozen=True, slots=True)
class CoursePlan:
    """A course and everything its outline will say. ``days`` are weekdays from 0, Monday."""

    code: str
    title: str
    term: str
    first: date
    last: date
    finals: tuple[date, date]
    days: tuple[int, ...]
    start: str
    end: str
    instructor: str
    off: tuple[OffDays, ...]
    parts: tuple[Part, ...]
    works: tuple[Work, ...]
    topics: tuple[str, ...]
    final_is_dated: bool


def school_days(plan: CoursePlan) -> list[date]:
    """Monday to Friday of the term without days off."""
    return _open_days(plan.first, plan.last, range(5), plan.off)


def class_days(plan: CoursePlan) -> list[date]:
    """The days of class."""
    return _open_days(plan.first, plan.last, plan.days, plan.off)


def week_number(plan: CoursePlan, day: date) -> int:
    """The week of the term, from 1, Monday to Sunday, weeks off counted."""
    monday = plan.first - timedelta(days=plan.first.weekday())
    return (day - monday).days // 7 + 1


def _open_days(first: date, last: date, days: Sequence[int], off: Sequence[OffDays]) -> list[date]:
    span = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    return [day for day in span if day.weekday() in days and not any(part.first <= day <= part.last for part in off)]


def make_plan(rng: Random, *, on_class_days: bool, whole_week_off: bool = True) -> CoursePlan:
    """A random plan. ``on_class_days`` puts all work on days of class; ``whole_week_off`` allows a week off."""
    term, first, last, finals, off = _term(rng, whole_week_off)
    days = rng.choice(((0, 2, 4), (1, 3), (0, 2), (1, 3), (2,)))
    classes = _open_days(first, last, days, off)
    free = classes if on_class_days else _open_days(first, last, range(5), off)
    works, parts, final_is_dated = _works(rng, classes, free, finals)
    code, title = rng.choice(SUBJECTS)
    hour = rng.choice((8, 9, 10, 11, 13, 14, 15))
    return CoursePlan(
        code=f"{code} {rng.randrange(100, 500)}",
        title=title,
        term=term,
        first=first,
        last=last,
        finals=finals,
        days=days,
        start=f"{hour:02}:00",
        end=f"{hour + 1:02}:15",
        instructor=f"Dr. {rng.choice(GIVEN_NAMES)} {rng.choice(FAMILY_NAMES)}",
        off=off,
        parts=parts,
        works=tuple(sorted(works, key=lambda work: (work.date, work.title))),
        topics=tuple(rng.choice(TOPICS) for _ in classes),
        final_is_dated=final_is_dated,
    )


def _term(rng: Random, whole_week_off: bool) -> tuple[str, date, date, tuple[date, date], tuple[OffDays, ...]]:
    """A term's name, bounds, examination week and days off."""
    year = rng.randrange(2021, 2030)
    spring = whole_week_off and rng.random() < 0.4
    first = date(year, 1, 10) if spring else date(year, 8, 24)
    first += timedelta(days=(7 - first.weekday()) % 7)
    last = first + timedelta(days=14 * 7 + 4)
    finals = (last + timedelta(days=3), last + timedelta(days=7))
    if spring:
        monday = first + timedelta(days=7 * rng.randrange(7, 9))
        return f"Spring {year}", first, last, finals, (OffDays("Spring break", monday, monday + timedelta(days=4)),)
    labor = date(year, 9, 1) + timedelta(days=(7 - date(year, 9, 1).weekday()) % 7)
    break_first = first + timedelta(days=7 * 6 + 3)
    fourth_thursday = date(year, 11, 1) + timedelta(days=(3 - date(year, 11, 1).weekday()) % 7 + 21)
    off = (
        OffDays("Labor Day", labor, labor),
        OffDays("Fall break", break_first, break_first + timedelta(days=1)),
        OffDays("Thanksgiving break", fourth_thursday - timedelta(days=1), fourth_thursday + timedelta(days=1)),
    )
    return f"Fall {year}", first, last, finals, off


def _works(
    rng: Random, classes: list[date], free: list[date], finals: tuple[date, date]
) -> tuple[list[Work], tuple[Part, ...], bool]:
    """The work of the course, the parts of its grade, and whether the final has a date."""
    works: list[Work] = []
    parts: list[Part] = []
    left = 100
    for kind, name, part in rng.sample(SERIES, rng.choice((1, 2, 2))):
        count = rng.randrange(3, 9)
        days = sorted(rng.sample(free[3:-2], min(count, len(free[3:-2]))))
        time = rng.choice((None, None, "23:59", "17:00")) if kind == "assignment" else None
        works += [Work(kind, f"{name} {number}", day, time) for number, day in enumerate(days, 1)]
        weight = rng.choice((10, 15, 20))
        parts.append(Part(part, weight, len(days)))
        left -= weight
    exams = rng.choice(
        (("Midterm Exam",), ("Midterm 1", "Midterm 2"), ("Exam 1", "Exam 2", "Exam 3"), ("Test 1", "Test 2"))
    )
    for number, name in enumerate(exams, 1):
        around = len(classes) * number // (len(exams) + 1)
        weight = rng.choice((10, 15)) if len(exams) > 1 else 20
        works.append(Work("exam", name, classes[min(around, len(classes) - 1)], None, weight))
        parts.append(Part(name, weight))
        left -= weight
    if rng.random() < 0.5 and left >= 25:
        steps = PROJECT_STEPS if rng.random() < 0.5 else (PROJECT_STEPS[0], PROJECT_STEPS[-1])
        days = sorted(rng.sample(free[len(free) // 4 :], len(steps)))
        works += [
            Work("assignment" if "Bibliography" in step else "project", step, day)
            for step, day in zip(steps, days, strict=True)
        ]
        parts.append(Part("Project", 15))
        left -= 15
    dated = rng.random() < 0.5
    if dated:
        day = finals[0] + timedelta(days=rng.randrange(5))
        works.append(Work("exam", "Final Exam", day, rng.choice(("08:00", "10:30", "13:00")), left))
    parts.append(Part("Final Exam", left))
    return works, tuple(parts), dated
