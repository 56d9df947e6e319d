"""The term: its first and last day, days off, examination period and how weeks are numbered. Facts only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

from syllabus_io.resolve.expression import Weekday

__all__ = ["DayOff", "Meeting", "Rotation", "Term", "TermFacts"]


@dataclass(frozen=True, slots=True)
class DayOff:
    """A stretch without classes, first and last day included. ``origin`` says who says so: "term file",
    "public holiday", or the name of an outline. ``course`` limits it to one course; None is the whole school."""

    name: str
    first_day: date
    last_day: date
    origin: str = "term file"
    course: str | None = None

    def __post_init__(self) -> None:
        if self.last_day < self.first_day:
            raise ValueError(f"day off {self.name!r} ends before it begins")


@dataclass(frozen=True, slots=True)
class Meeting:
    """A weekly class: its days, start and end (None when the outline does not say), room, and what it is
    ("lecture", "lab", "recitation", "office hours"; empty for a plain class).

    One that meets every other week has ``alternate_from``, a day of the first week in which it meets; weeks are counted
    by the calendar, weeks off included. One that meets on a day of a rotating timetable has its ``cycle_day`` ("A");
    its ``days`` then narrow that, and no days are Monday to Friday."""

    days: tuple[Weekday, ...]
    start: time | None = None
    end: time | None = None
    room: str | None = None
    kind: str = ""
    alternate_from: date | None = None
    cycle_day: str = ""


@dataclass(frozen=True, slots=True)
class Rotation:
    """A rotating timetable: ``labels`` in their order, the first of them on ``first_day``; days off are skipped."""

    labels: tuple[str, ...]
    first_day: date


@dataclass(frozen=True, slots=True)
class Term:
    """A term as its file, the options or the outlines give it. ``assumed`` are plain-words reasons to check facts
    that were inferred; empty when all of them were given. ``guessed_year`` tells that nothing shows even its year, so
    that every date without one is to be checked.

    ``week_one`` is the Monday of week 1, None when it follows from ``first_day``. ``break_weeks_count`` tells
    whether a week off takes a number; None when unknown. ``holidays`` is an ISO 3166 country ("US") or
    subdivision ("US-OH"); its public holidays are then in ``no_class`` too, with origin "public holiday".
    """

    name: str
    first_day: date
    last_day: date
    finals: tuple[date, date] | None = None
    holidays: str | None = None
    break_weeks_count: bool | None = None
    week_one: date | None = None
    timezone: str | None = None
    no_class: tuple[DayOff, ...] = ()
    rotation: Rotation | None = None
    assumed: tuple[str, ...] = ()
    guessed_year: bool = False

    def __post_init__(self) -> None:
        if self.last_day < self.first_day:
            raise ValueError("the term's last day is before its first day")


@dataclass(frozen=True, slots=True)
class TermFacts:
    """What a term file states of a term; None or empty where it is silent. The fields are those of :class:`Term`."""

    source: str
    name: str | None = None
    first_day: date | None = None
    last_day: date | None = None
    finals: tuple[date, date] | None = None
    holidays: str | None = None
    break_weeks_count: bool | None = None
    week_one: date | None = None
    timezone: str | None = None
    no_class: tuple[DayOff, ...] = ()
    rotation: tuple[str, ...] = ()
    rotation_first_day: date | None = None
