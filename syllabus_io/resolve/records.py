"""What became of a date: a day, a question with its candidates, or an open matter. Each says why."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from syllabus_io.outline.records import Item, Kind, Mention, Outline, UndatedWork, Weight
from syllabus_io.resolve.expression import ClockTime, DateExpression
from syllabus_io.resolve.term import DayOff, Term

__all__ = [
    "Ambiguous",
    "Candidate",
    "Certainty",
    "Resolution",
    "Resolved",
    "ResolvedCourse",
    "ResolvedItem",
    "ResolvedTerm",
    "Unresolved",
]


class Certainty(Enum):
    """How a date is known. STATED: day and month are written. DERIVED: arithmetic on facts the outline states.
    ASSUMED: needs a fact the outline does not give; the reason names it. CONFIRMED: a person said so."""

    STATED = "stated"
    DERIVED = "derived"
    ASSUMED = "assumed"
    CONFIRMED = "confirmed"


@dataclass(frozen=True, slots=True)
class Candidate:
    """One reading of a phrase, and why it may be the right one."""

    date: datetime.date
    end_date: datetime.date | None
    reason: str


@dataclass(frozen=True, slots=True)
class Resolved:
    """A day. ``end_date`` is the last day of a stretch, included. ``expression`` is the tree with all evidence
    applied (the year chosen, the order decided): its two evaluators give this date. ``how`` explains it;
    ``reasons`` are plain-words reasons to check it, empty when there is none."""

    date: datetime.date
    end_date: datetime.date | None
    certainty: Certainty
    expression: DateExpression
    how: str = ""
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Ambiguous:
    """Two or more readings, the likeliest first, and the one question that would settle it."""

    candidates: tuple[Candidate, ...]
    question: str
    expression: DateExpression
    reasons: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if len(self.candidates) < 2:
            raise ValueError("a question needs two candidates")


@dataclass(frozen=True, slots=True)
class Unresolved:
    """No day can be given. ``reason`` is never empty; ``settle`` says what would settle it."""

    reason: str
    settle: str = ""


Resolution: TypeAlias = Resolved | Ambiguous | Unresolved


@dataclass(frozen=True, slots=True)
class ResolvedItem:
    """One item with its date. A series has been expanded: each of its items stands alone.

    ``id`` is stable under a second reading of the same outline: made from course, kind, title and number, not
    from the date. ``time`` is when it is due; ``time_note`` says what a named time means ("midnight is read as
    the end of that day"). ``mention`` is the one the date was taken from.
    """

    id: str
    kind: Kind
    title: str
    resolution: Resolution
    mention: Mention
    item: Item
    time: ClockTime | None = None
    time_note: str = ""
    weight: Weight | None = None

    @property
    def date(self) -> datetime.date | None:
        """The day to put in the plan: the date, or the likeliest candidate of a question, or None."""
        match self.resolution:
            case Resolved():
                return self.resolution.date
            case Ambiguous():
                return self.resolution.candidates[0].date
            case Unresolved():
                return None

    @property
    def end_date(self) -> datetime.date | None:
        """The last day of a stretch, None for a single day."""
        match self.resolution:
            case Resolved():
                return self.resolution.end_date
            case Ambiguous():
                return self.resolution.candidates[0].end_date
            case Unresolved():
                return None

    @property
    def reasons(self) -> tuple[str, ...]:
        """Every plain-words reason to check this item; empty when there is none."""
        match self.resolution:
            case Resolved():
                return self.resolution.reasons
            case Ambiguous():
                return (self.resolution.question, *self.resolution.reasons)
            case Unresolved():
                return (self.resolution.reason,)

    @property
    def needs_review(self) -> bool:
        """Whether a person should look at it."""
        return bool(self.reasons)


@dataclass(frozen=True, slots=True)
class ResolvedCourse:
    """One outline with its dates. ``key`` is short, unique among the courses of a plan and fit for a sheet name
    ("BIO 110"). ``undated`` holds what the outline names without a date, also items whose date stayed open."""

    key: str
    outline: Outline
    items: tuple[ResolvedItem, ...]
    no_class: tuple[DayOff, ...]
    undated: tuple[UndatedWork, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ResolvedTerm:
    """All courses of a term, with the term they were resolved in (days off of the whole school included)."""

    term: Term
    courses: tuple[ResolvedCourse, ...]
