"""A plan as it stands in a workbook: its dates as a person corrected them, classes and days off as they are now."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.expression import Weekday

__all__ = ["StandingClass", "StandingItem", "StandingOff", "StandingPlan"]


@dataclass(frozen=True, slots=True)
class StandingItem:
    """One row of Review. ``id`` is its row id; ``day`` the date used, None when there is none; ``start`` the day to
    begin. ``flag`` is what the row says ("check", "checked", "no date", "not a date", "skipped", or nothing), ``why``
    the reasons. ``kind`` is None where a person wrote another word. ``weight`` is a share from 0 to 1. ``revision``
    rises when it changes."""

    id: str
    course: str
    kind: Kind | None
    title: str
    day: datetime.date | None
    until: datetime.date | None
    time: datetime.time | None
    weight: float | None
    start: datetime.date | None
    is_done: bool
    is_skipped: bool
    flag: str
    why: str
    words: str
    revision: int = 0


@dataclass(frozen=True, slots=True)
class StandingClass:
    """A weekly class as Term dates has it. ``number`` counts the rows of its table from 1. ``alternate_from`` is a day
    of the first week of one that meets every other week; ``cycle_day`` is the day of a rotating timetable on which one
    meets, and ``cycle_dates`` the dates of that day."""

    number: int
    course: str
    kind: str
    room: str
    teacher: str
    days: tuple[Weekday, ...]
    start: datetime.time | None
    end: datetime.time | None
    alternate_from: datetime.date | None = None
    cycle_day: str = ""
    cycle_dates: tuple[datetime.date, ...] = ()

    def is_on(self, day: datetime.date) -> bool:
        """Whether it meets on the day, the term's ends and days off aside."""
        if day.isoweekday() not in self.days or (self.cycle_day and day not in self.cycle_dates):
            return False
        first = self.alternate_from
        if first is None:
            return True
        monday = first - datetime.timedelta(days=first.weekday())
        return day >= monday and (day - monday).days // 7 % 2 == 0


@dataclass(frozen=True, slots=True)
class StandingOff:
    """A day or stretch off as Term dates has it; ``course`` is empty for the whole school."""

    name: str
    first_day: datetime.date
    last_day: datetime.date
    course: str


@dataclass(frozen=True, slots=True)
class StandingPlan:
    """Everything of a plan that other programs can use. ``classes_end`` is the last day on which there can be a class;
    ``term_revision`` rises when anything on Term dates changes."""

    plan_id: str
    name: str
    student: str
    first_day: datetime.date
    last_day: datetime.date
    classes_end: datetime.date
    timezone: str | None
    courses: tuple[str, ...]
    items: tuple[StandingItem, ...]
    classes: tuple[StandingClass, ...]
    days_off: tuple[StandingOff, ...]
    term_revision: int = 0
