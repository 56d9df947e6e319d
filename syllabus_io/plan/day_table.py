"""A row a day: what fills it, and whether it is open for study or for work. Twin: ``workbook.planning_days``."""

from __future__ import annotations

import bisect
from dataclasses import dataclass
from datetime import date, time, timedelta
from itertools import accumulate

from syllabus_io.plan.class_rows import OFFICE_HOURS
from syllabus_io.plan.facts import (
    MINUTES_WITHOUT_END,
    WEEKS_BEFORE,
    Commitment,
    PlanningFacts,
    WeeklyClass,
)

__all__ = [
    "Block",
    "DayTable",
    "OpenDays",
    "blocks_of",
    "cycle_words",
    "day_table",
    "first_table_day",
    "minutes_of",
    "week_phase",
]

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_FIRST_MONDAY = date(1900, 1, 1)
_FAR = date(4637, 11, 25)  # day one million of a spreadsheet: no end is given


@dataclass(frozen=True, slots=True)
class Block:
    """A class or commitment with its hours, in minutes of the day. ``course`` is the course's number, 0 for one that
    is not in the plan, -1 for a commitment. ``hours`` is 0 where no end is known. ``phase`` is 0 or 1 for a class of
    alternate weeks (see :func:`week_phase`), -1 for one of every week; ``cycle_day`` is the day of the rotation on
    which it takes place, ``cycle_dates`` the dates of that day, and ``share`` its share of all weeks or days."""

    name: str
    room: str
    start: int
    end: int
    weekdays: frozenset[int]
    first: date
    last: date
    course: int
    hours: float
    phase: int = -1
    cycle_day: str = ""
    cycle_dates: frozenset[date] = frozenset()
    share: float = 1.0

    @property
    def week_hours(self) -> float:
        """Its hours in a week, on average."""
        return self.hours * len(self.weekdays) * self.share

    def is_on(self, day: date, facts: PlanningFacts) -> bool:
        """Whether it takes place on the day."""
        if day.isoweekday() not in self.weekdays or not self.first <= day <= self.last:
            return False
        if self.phase not in (-1, week_phase(day)) or (self.cycle_day and day not in self.cycle_dates):
            return False
        return self.course < 0 or not facts.off_for(day, self.course)

    def overlaps(self, other: Block) -> bool:
        """Whether both can fall on one day and share some minutes there."""
        return bool(
            self.weekdays & other.weekdays
            and (min(self.phase, other.phase) < 0 or self.phase == other.phase)
            and (not self.cycle_day or not other.cycle_day or self.cycle_day.lower() == other.cycle_day.lower())
            and max(self.first, other.first) <= min(self.last, other.last)
            and self.start < other.end
            and other.start < self.end
        )


def week_phase(day: date) -> int:
    """0 and 1 by turns, from Monday to Monday.

    >>> [week_phase(date(2026, 9, day)) for day in (6, 7, 13, 14)]
    [1, 0, 0, 1]
    """
    return (day - _FIRST_MONDAY).days // 7 % 2


def cycle_words(facts: PlanningFacts) -> dict[date, str]:
    """The day of the rotating timetable that each school day of the table of days is, from the day it begins. Weekends
    and days off of the school use no day up."""
    if not facts.rotation_first or not facts.rotation_labels:
        return {}
    end = first_table_day(facts) + timedelta(days=facts.day_count)
    days = (facts.rotation_first + timedelta(days=step) for step in range((end - facts.rotation_first).days))
    school = [day for day in days if day.isoweekday() < 6 and not facts.off_for(day, 0)]
    return {day: facts.rotation_labels[place % len(facts.rotation_labels)] for place, day in enumerate(school)}


def minutes_of(clock: time) -> int:
    """Minutes since midnight."""
    return clock.hour * 60 + clock.minute


def blocks_of(facts: PlanningFacts) -> tuple[Block | None, ...]:
    """A block for each weekly class, then for each commitment, in their order; None for a row without a start."""
    numbers = {course.key: number for number, course in enumerate(facts.courses, start=1)}
    cycle = cycle_words(facts) if any(one.cycle_day for one in facts.classes) else {}
    classes = [_class_block(one, numbers.get(one.course, 0), facts, cycle) for one in facts.classes]
    return (*classes, *(_commitment_block(one) for one in facts.commitments))


def _class_block(one: WeeklyClass, number: int, facts: PlanningFacts, cycle: dict[date, str]) -> Block | None:
    if one.start is None or one.kind in OFFICE_HOURS:
        return None
    start, end, hours = _minutes(one.start, one.end)
    first, phase, share = facts.first_day, -1, 1.0
    if one.alternate_from:
        first, phase, share = max(first, _monday(one.alternate_from)), week_phase(one.alternate_from), 0.5
    dates: frozenset[date] = frozenset()
    if one.cycle_day:
        dates = frozenset(day for day, word in cycle.items() if word.lower() == one.cycle_day.lower())
        share /= max(1, len(facts.rotation_labels))
    return Block(
        name=" ".join(f"{one.course} {one.kind}".split()),
        room=one.room,
        start=start,
        end=end,
        weekdays=one.days or (frozenset(range(1, 6)) if one.cycle_day else frozenset()),
        first=first,
        last=facts.classes_end,
        course=number,
        hours=hours,
        phase=phase,
        cycle_day=one.cycle_day,
        cycle_dates=dates,
        share=share,
    )


def _minutes(start: time, end: time | None) -> tuple[int, int, float]:
    first, last = minutes_of(start), minutes_of(end) if end else 0
    return (first, last, (last - first) / 60) if last > first else (first, first + MINUTES_WITHOUT_END, 0.0)


def _commitment_block(one: Commitment) -> Block | None:
    if one.start is None:
        return None
    days = _commitment_days(one)
    if days is None:
        return None
    weekdays, first, last = days
    start, end, hours = _minutes(one.start, one.end)
    return Block(one.name, "", start, end, weekdays, first, last, -1, hours)


def _commitment_days(one: Commitment) -> tuple[frozenset[int], date, date] | None:
    if one.weekday:
        days = {"weekdays": range(1, 6), "every day": range(1, 8)}.get(one.weekday)
        chosen = frozenset(days) if days else frozenset({_WEEKDAYS.index(one.weekday) + 1})
        return chosen, one.first or date(1899, 12, 31), one.last or _FAR
    if one.first is None:
        return None
    last = max(one.first, one.last or one.first)
    span = (last - one.first).days
    return frozenset((one.first.weekday() + step) % 7 + 1 for step in range(min(span, 6) + 1)), one.first, last


@dataclass(frozen=True, slots=True)
class OpenDays:
    """Which days of a stretch are open, with a running count."""

    first: date
    counts: tuple[int, ...]

    def count_until(self, day: date) -> int | None:
        """How many open days there are up to and including the day; None outside the table."""
        place = (day - self.first).days
        return self.counts[place] if 0 <= place < len(self.counts) else None

    def nth(self, number: int) -> date | None:
        """The open day of that number, from 1; None where there is none."""
        if number < 1 or not self.counts or number > self.counts[-1]:
            return None
        return self.first + timedelta(days=bisect.bisect_left(self.counts, number))


@dataclass(frozen=True, slots=True)
class DayTable:
    """What each day holds. Hours are those of classes and commitments."""

    first: date
    exams: tuple[int, ...]
    class_hours: tuple[float, ...]
    commitment_hours: tuple[float, ...]
    work: OpenDays
    study: OpenDays

    def place(self, day: date) -> int:
        """The row of a day, from 0; may lie outside the table."""
        return (day - self.first).days


def first_table_day(facts: PlanningFacts) -> date:
    """The day on which the table begins."""
    starts = [facts.week_one, _monday(facts.first_day)]
    if facts.rotation_first:
        starts.append(_monday(facts.rotation_first))
    return min(starts) - timedelta(weeks=WEEKS_BEFORE)


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def day_table(facts: PlanningFacts) -> DayTable:
    """The table of the facts. A day is open for work unless it is kept free or, by the setting, off; it is open for
    study when besides no exam is on it and classes and commitments leave room."""
    first = first_table_day(facts)
    days = [first + timedelta(days=step) for step in range(facts.day_count)]
    blocks = [block for block in blocks_of(facts) if block]
    exam_days = [one.day for one in facts.items if one.kind == "exam" and one.until is None]
    exams = tuple(exam_days.count(day) for day in days)
    class_hours = tuple(sum(b.hours for b in blocks if b.course >= 1 and b.is_on(day, facts)) for day in days)
    other_hours = tuple(sum(b.hours for b in blocks if b.course < 0 and b.is_on(day, facts)) for day in days)
    settings = facts.settings
    work = [_is_open(day, facts) for day in days]
    full = settings.full_hours
    study = [
        open_day
        and not (settings.avoid_exam_days and exams[place])
        and not (full > 0 and round(class_hours[place] + other_hours[place], 6) >= full)
        for place, open_day in enumerate(work)
    ]
    return DayTable(
        first,
        exams,
        class_hours,
        other_hours,
        OpenDays(first, tuple(accumulate(int(one) for one in work))),
        OpenDays(first, tuple(accumulate(int(one) for one in study))),
    )


def _is_open(day: date, facts: PlanningFacts) -> bool:
    kept = day.isoweekday() in facts.kept_weekdays or any(one.holds(day) for one in facts.kept_free)
    return not kept and (facts.settings.study_on_days_off or not facts.off_for(day, 0))
