"""What a date phrase says, as a small tree. No calendar here: a tree becomes a date only with a term beside it.

Different meanings have different types, so that an incomplete date can never pass for a date. Every type is a
frozen record; :func:`write_expression` gives the compact notation used in JSON, in the workbook and in tests.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import date
from enum import Enum, IntEnum
from typing import TypeAlias

__all__ = [
    "Anchor",
    "CalendarMonth",
    "CalendarWeek",
    "ClassNear",
    "ClockTime",
    "DateExpression",
    "DayInMonth",
    "DayOf",
    "Direction",
    "Every",
    "Frequency",
    "FullDate",
    "IsoWeek",
    "MeetingNumber",
    "MonthDay",
    "MonthPart",
    "NamedDay",
    "NthWeekday",
    "NumericDate",
    "Offset",
    "Part",
    "PartOf",
    "Phrase",
    "Reference",
    "RotationDay",
    "Span",
    "TermEdge",
    "TermPoint",
    "TimePoint",
    "Unit",
    "Week",
    "WeekOf",
    "Weekday",
    "WeekdayIn",
    "WeekdayNear",
    "WholeMonth",
    "write_expression",
]


class Weekday(IntEnum):
    """Days of the week, numbered as ISO 8601 does; the names are the codes of RFC 5545."""

    MO = 1
    TU = 2
    WE = 3
    TH = 4
    FR = 5
    SA = 6
    SU = 7


class Unit(Enum):
    """What an :class:`Offset` counts. A meeting is a class of the course, a school day one on which school is open."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"
    YEAR = "year"
    MEETING = "meeting"
    SCHOOL_DAY = "school_day"
    WEEKDAY = "weekday"


class Direction(Enum):
    """Where a weekday or class lies from its base. NEAREST counts the base itself, the earlier of two equally near."""

    BEFORE = "before"
    ON_OR_BEFORE = "on_or_before"
    ON_OR_AFTER = "on_or_after"
    AFTER = "after"
    NEAREST = "nearest"


class Part(Enum):
    """A part of a month or week that is a window, not a day."""

    EARLY = "early"
    MIDDLE = "middle"
    LATE = "late"
    BEGINNING = "beginning"
    END = "end"


class TermEdge(Enum):
    """A point of the term that outlines name. FINALS is the whole examination period."""

    FIRST_DAY = "first_day"
    LAST_DAY = "last_day"
    FIRST_MEETING = "first_meeting"
    LAST_MEETING = "last_meeting"
    FINALS = "finals"


class TimePoint(Enum):
    """A time of day that is named, not written as a clock time."""

    START_OF_CLASS = "start_of_class"
    END_OF_CLASS = "end_of_class"
    IN_CLASS = "in_class"
    END_OF_DAY = "end_of_day"
    MORNING = "morning"
    AFTERNOON = "afternoon"
    EVENING = "evening"
    NIGHT = "night"


@dataclass(frozen=True, slots=True, order=True)
class ClockTime:
    """A time of day, 0:00 to 23:59. ``from_midnight`` tells that "midnight" or 24:00 was written.

    For a deadline, midnight means the end of the named day, 23:59, and the result says so.
    """

    hour: int
    minute: int = 0
    from_midnight: bool = False

    def __post_init__(self) -> None:
        if not (0 <= self.hour <= 23 and 0 <= self.minute <= 59):
            raise ValueError(f"no time of day: {self.hour}:{self.minute}")

    def __str__(self) -> str:
        return f"{self.hour:02}:{self.minute:02}"


# --- a day or a stretch of days -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FullDate:
    """Year, month and day are written. A weekday that was written beside them is kept to be checked."""

    day: date
    weekday: Weekday | None = None


@dataclass(frozen=True, slots=True)
class MonthDay:
    """Month (1-12) and day are written, the year is not."""

    month: int
    day: int
    weekday: Weekday | None = None


@dataclass(frozen=True, slots=True)
class NumericDate:
    """Two numbers of which one is the month: 10/12, 10/12/25. Which is which is decided by evidence.

    ``year`` is the full year, or None. Dates that only one order allows are not written like this: 10/25 is
    MonthDay(10, 25).
    """

    first: int
    second: int
    year: int | None = None
    weekday: Weekday | None = None


@dataclass(frozen=True, slots=True)
class DayInMonth:
    """A day number alone ("the 12th", "12" under a month heading): the month is carried in, or is the next one
    that fits after the date before it."""

    day: int
    weekday: Weekday | None = None
    month: int | None = None


@dataclass(frozen=True, slots=True)
class WholeMonth:
    """A month, with or without its year: a stretch, never its first day."""

    month: int
    year: int | None = None


@dataclass(frozen=True, slots=True)
class MonthPart:
    """A window within a month: "mid-October", "early March", "the end of May"."""

    part: Part
    month: int
    year: int | None = None


@dataclass(frozen=True, slots=True)
class Week:
    """Week ``number`` of the term, Monday to Sunday. 0 is the week before week 1; -1 is the last week of classes."""

    number: int


@dataclass(frozen=True, slots=True)
class WeekOf:
    """The week, Monday to Sunday, that holds the first day of ``base``."""

    base: DateExpression


@dataclass(frozen=True, slots=True)
class IsoWeek:
    """Week ``number`` of the calendar year by ISO 8601 (week 1 holds the year's first Thursday)."""

    number: int
    year: int | None = None


@dataclass(frozen=True, slots=True)
class CalendarWeek:
    """The week ``count`` weeks from that of ``base``: 0 this week, 1 next week, -1 last week. With ``base`` a
    stretch, a positive ``count`` starts from the week of its last day, otherwise from that of its first day."""

    base: DateExpression
    count: int


@dataclass(frozen=True, slots=True)
class CalendarMonth:
    """The month, first to last day, ``count`` months from that of the first day of ``base``: 1 is next month."""

    base: DateExpression
    count: int


@dataclass(frozen=True, slots=True)
class DayOf:
    """The ``number``-th day of a stretch, every day counted: the 10th of next month, the second day of finals
    week. -1 is the last. Nothing when the stretch is shorter."""

    stretch: DateExpression
    number: int


@dataclass(frozen=True, slots=True)
class PartOf:
    """A window within a stretch, never one day: the end of week 9, early next week, the middle of next month."""

    part: Part
    stretch: DateExpression


@dataclass(frozen=True, slots=True)
class WeekdayIn:
    """A weekday inside a stretch: Friday of week 5, Tuesday of the week of 8 September. ``number`` counts from 1
    where the stretch is longer than a week; -1 is the last."""

    stretch: DateExpression
    weekday: Weekday
    number: int = 1


@dataclass(frozen=True, slots=True)
class WeekdayNear:
    """The weekday before, after, on or nearest to ``base``: the Friday before spring break. ``count`` 2 is the
    second such day in that direction. With ``base`` a stretch, before looks from its first day, after from its last;
    on or after looks from its first day, on or before from its last."""

    base: DateExpression
    weekday: Weekday
    direction: Direction
    count: int = 1


@dataclass(frozen=True, slots=True)
class NthWeekday:
    """The n-th weekday of a month: second Tuesday of October; -1 is the last."""

    number: int
    weekday: Weekday
    month: int
    year: int | None = None


@dataclass(frozen=True, slots=True)
class MeetingNumber:
    """The n-th class of the course, days off not counted; -1 is the last. ``kind`` narrows it ("lab", "lecture",
    "recitation"), empty for any class."""

    number: int
    kind: str = ""


@dataclass(frozen=True, slots=True)
class ClassNear:
    """The class of the course next before, on or after ``base``, ``count`` classes away; ``weekday`` and ``kind``
    ("lab", "lecture") narrow it. A ``base`` that is a stretch is treated as in :class:`WeekdayNear`, so the second
    class of week 5 is ClassNear(Week(5), ON_OR_AFTER, 2) and its last class ClassNear(Week(5), ON_OR_BEFORE)."""

    base: DateExpression
    direction: Direction
    count: int = 1
    weekday: Weekday | None = None
    kind: str = ""


@dataclass(frozen=True, slots=True)
class RotationDay:
    """The n-th day called ``label`` in a rotating timetable (A/B days, a six-day cycle). ``stretch`` narrows where
    counting starts (a week, a month), None is the term."""

    label: str
    number: int = 1
    stretch: DateExpression | None = None


@dataclass(frozen=True, slots=True)
class NamedDay:
    """A holiday or day off by name ("Labor Day", "spring break"), found in the term's days off or, when the term
    names a region, among its public holidays. A break of several days is a stretch. The name "break" alone is the
    term's only break; "exam weeks" are the weeks in which the outline's exams lie, which only the outline tells."""

    name: str
    year: int | None = None


@dataclass(frozen=True, slots=True)
class TermPoint:
    """The first or last day of term or of classes, or the examination period."""

    edge: TermEdge


@dataclass(frozen=True, slots=True)
class Anchor:
    """Another item of the same outline, by its words ("the midterm", "your presentation")."""

    words: str


@dataclass(frozen=True, slots=True)
class Reference:
    """The day from which "tomorrow" or "next Friday" is read: for an outline the day of the row or of its date,
    never the machine's clock."""


@dataclass(frozen=True, slots=True)
class Offset:
    """``count`` units after (negative: before) ``base``: one week after the midterm. From a stretch, after counts
    from its last day, before from its first."""

    base: DateExpression
    count: int
    unit: Unit


@dataclass(frozen=True, slots=True)
class Span:
    """From the first day of ``first`` to the last day of ``last``, both included. A Reference within ``last`` is the
    first day of the stretch: "from next Monday to Friday" ends on the Friday after that Monday."""

    first: DateExpression
    last: DateExpression


# --- a rule that gives many days ----------------------------------------------------------------------


class Frequency(Enum):
    """The step of a recurring rule. MEETING: every class of the course."""

    DAILY = "daily"
    WEEKLY = "weekly"
    MONTHLY = "monthly"
    YEARLY = "yearly"
    MEETING = "meeting"


@dataclass(frozen=True, slots=True)
class Every:
    """A recurring rule, in the terms of RFC 5545 section 3.3.10, with term expressions as its bounds.

    ``weekdays`` with ``numbers`` gives the n-th of them in the month (``numbers`` (1, -1) and FR: first and last
    Friday). ``month_days`` are days of the month (negative from its end), ``months`` months. ``start`` and
    ``until`` bound it (None: the term), both included; ``count`` limits it. ``except_in`` are stretches left out.
    ``shift_days`` moves every date afterwards ("the night before each class" is MEETING with -1).
    ``open_days_only`` leaves days off out. ``set_positions`` picks from the days of each period (BYSETPOS),
    ``year_days`` are days of the year, ``iso_weeks`` weeks of the year by ISO 8601, ``week_start`` the day a week
    begins on (WKST). With MEETING, ``kind`` narrows the classes ("lab"). With ``rotation``, DAILY counts only days of
    that label in the rotating timetable.
    """

    frequency: Frequency
    interval: int = 1
    weekdays: tuple[Weekday, ...] = ()
    numbers: tuple[int, ...] = ()
    month_days: tuple[int, ...] = ()
    months: tuple[int, ...] = ()
    start: DateExpression | None = None
    until: DateExpression | None = None
    count: int | None = None
    except_in: tuple[DateExpression, ...] = ()
    shift_days: int = 0
    open_days_only: bool = True
    set_positions: tuple[int, ...] = ()
    year_days: tuple[int, ...] = ()
    iso_weeks: tuple[int, ...] = ()
    week_start: Weekday = Weekday.MO
    kind: str = ""
    rotation: str = ""


DateExpression: TypeAlias = (
    FullDate
    | MonthDay
    | NumericDate
    | DayInMonth
    | WholeMonth
    | MonthPart
    | Week
    | WeekOf
    | IsoWeek
    | CalendarWeek
    | CalendarMonth
    | DayOf
    | PartOf
    | WeekdayIn
    | WeekdayNear
    | NthWeekday
    | MeetingNumber
    | ClassNear
    | RotationDay
    | NamedDay
    | TermPoint
    | Anchor
    | Reference
    | Offset
    | Span
    | Every
)


@dataclass(frozen=True, slots=True)
class Phrase:
    """One date phrase as parsed: the words, what they say, and the rules that read them (outermost first).

    ``expression`` is None when only a time is written. ``start`` and ``end`` are the half-open range of characters
    in the text that was parsed. ``doubts`` are plain-words reasons to check that lie in the phrase itself.
    """

    text: str
    start: int
    end: int
    expression: DateExpression | None
    time: ClockTime | None = None
    end_time: ClockTime | None = None
    time_point: TimePoint | None = None
    zone: str | None = None
    rules: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


_SHORT = {"FullDate": "day"}


def write_expression(expression: DateExpression) -> str:
    """The expression in compact notation, names in lower case, defaults left out.

    >>> write_expression(WeekdayIn(Week(5), Weekday.FR))
    'weekday_in(week(5), FR)'
    >>> write_expression(FullDate(date(2026, 10, 6)))
    'day(2026-10-06)'
    """
    return _write(expression)


def _write(value: object) -> str:
    if isinstance(value, Weekday):
        return value.name
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return "[" + ", ".join(_write(part) for part in value) + "]"
    if isinstance(value, str):
        return '"' + value.replace('"', "'") + '"'
    if value is None or isinstance(value, int):
        return str(value).lower()
    name = type(value).__name__
    name = _SHORT.get(name) or "".join("_" + c.lower() if c.isupper() else c for c in name).lstrip("_")
    words: list[str] = []
    skipped = False
    for field in fields(value):  # type: ignore[arg-type]  # every remaining value is a record of this module
        part = getattr(value, field.name)
        if part == field.default:
            skipped = True
            continue
        words.append(f"{field.name}={_write(part)}" if skipped else _write(part))
    return f"{name}({', '.join(words)})"
