"""What a student's time is planned from: the facts of the term, dated items, classes, commitments and days kept free.

These are the facts as they stand in the workbook at a given moment, so that everything computed from them there has a
twin in Python, whatever a person has changed.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field

from syllabus_io.plan.class_rows import class_rows
from syllabus_io.plan.records import Plan, PlanSettings

__all__ = [
    "MOST_DAYS",
    "WEEKS_BEFORE",
    "Commitment",
    "CourseFact",
    "DatedItem",
    "FactOff",
    "OwnTask",
    "PlanningFacts",
    "Stretch",
    "WeeklyClass",
    "day_count",
    "planning_facts",
]

MOST_DAYS = 560
"""The most days in the table of days: a school year with room on both sides."""
WEEKS_BEFORE = 4
"""How many weeks before the term the table begins."""
_WEEKS_AFTER = 10
MINUTES_WITHOUT_END = 60
"""What a class or commitment without an end is shown as."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Days in a row, both ends included."""

    first_day: datetime.date
    last_day: datetime.date

    def holds(self, day: datetime.date) -> bool:
        """Whether the day is one of them."""
        return self.first_day <= day <= self.last_day


@dataclass(frozen=True, slots=True)
class FactOff:
    """A stretch off; ``course`` is the number of the only course it concerns, 0 for the whole school."""

    days: Stretch
    course: int = 0


@dataclass(frozen=True, slots=True)
class CourseFact:
    """A course with its credits, None when nobody has said."""

    key: str
    credits: float | None = None


@dataclass(frozen=True, slots=True)
class WeeklyClass:
    """A row of the weekly classes; ``days`` are ISO weekdays, 1 to 7. ``alternate_from`` is a day of the first week of
    a class that meets every other week, ``cycle_day`` the day of a rotating timetable on which it meets; see
    :class:`syllabus_io.resolve.term.Meeting`."""

    course: str
    kind: str
    room: str
    days: frozenset[int]
    start: datetime.time | None
    end: datetime.time | None
    alternate_from: datetime.date | None = None
    cycle_day: str = ""


@dataclass(frozen=True, slots=True)
class Commitment:
    """Something fixed besides classes: on a weekday ("Monday", "weekdays", "every day") from ``first`` until ``last``
    where these are given; or, with ``weekday`` empty, on the days from ``first`` to ``last``."""

    name: str
    weekday: str = ""
    first: datetime.date | None = None
    last: datetime.date | None = None
    start: datetime.time | None = None
    end: datetime.time | None = None


@dataclass(frozen=True, slots=True)
class DatedItem:
    """A row of Review with a day. ``weight`` is a share from 0 to 1; ``row`` its place on Review, from 1."""

    id: str
    row: int
    course: str
    kind: str
    title: str
    day: datetime.date
    until: datetime.date | None = None
    time: datetime.time | None = None
    weight: float | None = None
    done: bool = False


@dataclass(frozen=True, slots=True)
class OwnTask:
    """A row of To do: a task, a call, a message, an aim of the week or a note; ``matters`` is 1, 2 or 3."""

    row: int
    day: datetime.date
    sort: str
    what: str
    who: str = ""
    matters: int | None = None
    done: bool = False


@dataclass(frozen=True, slots=True)
class PlanningFacts:
    """Everything that planning rests on. ``items`` stand in the order of Review; ``day_count`` is how many days the
    table of days holds."""

    first_day: datetime.date
    classes_end: datetime.date
    week_one: datetime.date
    today: datetime.date
    settings: PlanSettings
    courses: tuple[CourseFact, ...] = ()
    items: tuple[DatedItem, ...] = ()
    days_off: tuple[FactOff, ...] = ()
    classes: tuple[WeeklyClass, ...] = ()
    commitments: tuple[Commitment, ...] = ()
    kept_free: tuple[Stretch, ...] = ()
    kept_weekdays: frozenset[int] = field(default_factory=frozenset)
    tasks: tuple[OwnTask, ...] = ()
    rotation_first: datetime.date | None = None
    rotation_labels: tuple[str, ...] = ()
    day_count: int = MOST_DAYS

    def off_for(self, day: datetime.date, course: int) -> bool:
        """Whether the day is off for the school, or for the course of that number."""
        return any(off.course in (0, course) and off.days.holds(day) for off in self.days_off)


def planning_facts(plan: Plan, today: datetime.date | None = None) -> PlanningFacts:
    """The facts of a plan as they are before a person adds anything. ``today`` None: the first day of term."""
    term = plan.resolved.term
    numbers = {course.key: number for number, course in enumerate(plan.resolved.courses, start=1)}
    own_offs = [(off, course.key) for course in plan.resolved.courses for off in course.no_class]
    offs = [(off, off.course) for off in term.no_class] + own_offs
    return PlanningFacts(
        first_day=term.first_day,
        classes_end=_classes_end(plan),
        week_one=_week_one(plan),
        today=today or term.first_day,
        settings=plan.settings,
        courses=tuple(CourseFact(one.key, one.outline.course.credits) for one in plan.resolved.courses),
        items=_items(plan),
        days_off=tuple(
            FactOff(Stretch(off.first_day, off.last_day), numbers.get(key, -1) if key else 0) for off, key in offs
        ),
        classes=tuple(
            WeeklyClass(
                course.key,
                meeting.kind,
                meeting.room or "",
                frozenset(int(day) for day in meeting.days),
                meeting.start,
                meeting.end,
                meeting.alternate_from,
                meeting.cycle_day,
            )
            for course, meeting in class_rows(plan.resolved)
        ),
        rotation_first=term.rotation.first_day if term.rotation else None,
        rotation_labels=term.rotation.labels if term.rotation else (),
        day_count=day_count(plan),
    )


def day_count(plan: Plan) -> int:
    """How many days the table of days holds: from some weeks before the term to ten weeks after its last day or
    examination."""
    term = plan.resolved.term
    starts = [_week_one(plan), term.first_day, *([term.rotation.first_day] if term.rotation else [])]
    end = max(term.last_day, term.finals[1]) if term.finals else term.last_day
    return max(1, min(MOST_DAYS, (end - min(starts)).days + 7 * (WEEKS_BEFORE + 1 + _WEEKS_AFTER)))


def _classes_end(plan: Plan) -> datetime.date:
    term = plan.resolved.term
    if term.finals and term.first_day < term.finals[0] <= term.last_day:
        return term.finals[0] - datetime.timedelta(days=1)
    return term.last_day


def _week_one(plan: Plan) -> datetime.date:
    term = plan.resolved.term
    first = term.week_one or term.first_day
    monday = first - datetime.timedelta(days=first.weekday())
    return monday + datetime.timedelta(days=7 if term.week_one is None and first.weekday() > 4 else 0)


def _items(plan: Plan) -> tuple[DatedItem, ...]:
    found = []
    for row, entry in enumerate(plan.entries, start=1):
        item = entry.item
        if item.date is None:
            continue
        clock = datetime.time(item.time.hour, item.time.minute) if item.time else None
        share = entry.weight_percent / 100 if entry.weight_percent is not None else None
        found.append(
            DatedItem(item.id, row, entry.course, item.kind.value, item.title, item.date, item.end_date, clock, share)
        )
    return tuple(found)
