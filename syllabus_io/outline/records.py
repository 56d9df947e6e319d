"""What an outline says about a course, as written. Dates are expressions here; none is computed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import DateExpression, Phrase, Weekday
from syllabus_io.resolve.term import Meeting

__all__ = [
    "DAY_NOT_THE_CLASS",
    "Category",
    "CourseFacts",
    "GradeStep",
    "GradingScheme",
    "Item",
    "Kind",
    "Mention",
    "NoClass",
    "Outline",
    "SeriesException",
    "UndatedWork",
    "Weight",
]


DAY_NOT_THE_CLASS = "it stands in the row of a week beside the day of the class, and its own day is not written"
"""The doubt of work that is not narrowed down to the day of the class."""


class Kind(Enum):
    """What a dated item is. A test, midterm or final is an exam; homework, lab report or essay an assignment."""

    ASSIGNMENT = "assignment"
    QUIZ = "quiz"
    EXAM = "exam"
    PROJECT = "project"
    PRESENTATION = "presentation"
    READING = "reading"


@dataclass(frozen=True, slots=True)
class Weight:
    """What one item or category counts: percent of the course grade, or points. One of the two is given."""

    percent: float | None = None
    points: float | None = None


@dataclass(frozen=True, slots=True)
class Mention:
    """One place where the outline gives an item a date.

    ``phrase`` holds the complete expression: what the row, column or heading adds (the month, the week, the
    weekday) is already in it. ``words`` are the date's words as written ("Tues Oct 6"); ``context`` is the
    sentence, row or cell around them, for a person to read. ``doubts`` are plain-words reasons to check that
    lie in the way it was read ("the due weekday comes from a note on page 6").
    ``row`` numbers, from 1, the dated row of a schedule it stands in, so that the order of rows can be checked;
    None outside schedules.
    """

    phrase: Phrase
    place: Place
    words: str
    context: str
    row: int | None = None
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SeriesException:
    """Days on which a recurring rule does not hold ("no homework in exam weeks").

    ``stretch`` is the week or stretch it is about; None: every week that holds an item of the kind ``around``, or with
    ``same_day`` only the days of these items.
    ``weekdays`` are the days left out, empty for all of them; ``instead`` are weekdays of the stretch on which the
    work is due in their place.
    """

    stretch: DateExpression | None = None
    around: Kind | None = None
    weekdays: tuple[Weekday, ...] = ()
    instead: tuple[Weekday, ...] = ()
    same_day: bool = False


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of work, with every place that dates it; the first mention is the one to trust most.

    ``title`` is what a student would write. ``number`` is its place in a series ("Homework 3": 3) and
    ``category`` the name of the grading category it belongs to, as that category is named. ``covers`` is what an
    exam is about. ``end`` is a mention of the last day of a window (a take-home, finals week); a window written
    as one phrase is a Span in the mention instead. A mention whose expression is ``Every`` stands for a series:
    it is expanded later, up to ``series_count`` items, titled ``title`` and a running number; ``exceptions`` are days
    on which the rule does not hold.
    """

    kind: Kind
    title: str
    mentions: tuple[Mention, ...]
    number: int | None = None
    category: str | None = None
    weight: Weight | None = None
    covers: str | None = None
    end: Mention | None = None
    series_count: int | None = None
    exceptions: tuple[SeriesException, ...] = ()
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class UndatedWork:
    """Graded work that the outline names without a date that can be worked out; ``reason`` says what it does say."""

    kind: Kind
    title: str
    reason: str
    place: Place
    context: str = ""
    weight: Weight | None = None
    category: str | None = None


@dataclass(frozen=True, slots=True)
class NoClass:
    """A day or stretch off as the outline names it."""

    name: str
    mention: Mention


@dataclass(frozen=True, slots=True)
class CourseFacts:
    """What identifies a course and says how to reach its people. None or empty: the outline does not say."""

    code: str | None = None
    title: str | None = None
    section: str | None = None
    term: str | None = None
    instructor: str | None = None
    email: str | None = None
    phone: str | None = None
    office: str | None = None
    office_hours: str | None = None
    room: str | None = None
    credits: float | None = None
    meetings: tuple[Meeting, ...] = ()


@dataclass(frozen=True, slots=True)
class Category:
    """A part of the grade. ``weight`` is in percent of the course grade; ``points`` where the scheme counts points.

    ``count`` is how many marks it holds, ``drop`` how many of the lowest are left out. ``extra_credit`` marks a
    category that only adds.
    """

    name: str
    weight: float | None = None
    points: float | None = None
    count: int | None = None
    drop: int = 0
    extra_credit: bool = False
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class GradeStep:
    """A letter and the lowest mark that earns it, in percent (or in points where the scale is written so)."""

    letter: str
    minimum: float


@dataclass(frozen=True, slots=True)
class GradingScheme:
    """How the grade is built. ``late_policy`` and ``rules`` (minimum rules, replacement rules) are kept as text."""

    categories: tuple[Category, ...] = ()
    scale: tuple[GradeStep, ...] = ()
    total_points: float | None = None
    late_policy: str | None = None
    rules: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outline:
    """One course outline, read.

    ``row_dates`` are the dates of all schedule rows in order, also of rows without work: the evidence for the
    order of day and month, the year, and the term's bounds. ``week_rows`` pairs week numbers with the date
    expressions that stand in the same row: the evidence for how weeks are numbered. ``years`` are the calendar
    years that the outline itself names for its term ("Fall 2024"), the most telling first. ``set_aside`` are dates that
    became nothing, with the reason as their doubt; they are only gathered for a reading that is to be explained.
    """

    file: str
    digest: str
    pages: int
    course: CourseFacts = CourseFacts()
    items: tuple[Item, ...] = ()
    no_class: tuple[NoClass, ...] = ()
    grading: GradingScheme = GradingScheme()
    undated: tuple[UndatedWork, ...] = ()
    row_dates: tuple[Mention, ...] = ()
    week_rows: tuple[tuple[int, DateExpression], ...] = ()
    years: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()
    set_aside: tuple[Mention, ...] = ()
