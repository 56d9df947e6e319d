"""The calendar of one course in one term: weeks, classes, days off, rotating days. Built from facts, never changed."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from syllabus_io.resolve.day_names import NameFit, compare_names, is_break, names_nothing
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.public_holidays import ORIGIN
from syllabus_io.resolve.term import DayOff, Meeting, Term

__all__ = ["MOST_WEEKS", "TermCalendar", "class_kind", "is_class", "monday_of"]

MOST_WEEKS = 80
"""How many weeks from week 1 are counted; a school year has about 45."""
_DAY = timedelta(days=1)
_WEEK = timedelta(days=7)
_NO_CLASS = frozenset({"office hour"})
_ANY_CLASS = frozenset({"", "class", "classe", "session", "meeting", "day", "lesson", "period"})
"""Words for any class, without the s of the plural."""


def monday_of(day: date) -> date:
    """The Monday of the week that holds the day."""
    return day - timedelta(days=day.isoweekday() - 1)


class TermCalendar:
    """A term as one course lives it.

    ``meetings`` are the weekly classes of the course; ``course`` names it, so that days off of other courses do
    not count. Classes are held from the first day of term to its last, or to the day before the examination period
    when that begins earlier, days off left out.

    Week 1 begins on the Monday ``term.week_one``, else on the Monday of the week that holds the first day of term
    (the next Monday when that day is a Saturday or Sunday). A week whose Monday to Friday are all off takes no
    number unless ``term.break_weeks_count``. Week 0 is the week before week 1; week -1 is the last numbered week
    that begins before classes end. ``school_weeks`` lets only days off of the whole school leave a week without
    a number, as the week table of the workbook does.
    """

    def __init__(
        self,
        term: Term,
        meetings: tuple[Meeting, ...] = (),
        course: str | None = None,
        school_weeks: bool = False,
    ) -> None:
        self.term = term
        self.meetings = meetings
        self.course = course
        self.first_day = term.first_day
        self.last_day = term.last_day
        own = [off for off in term.no_class if off.course in (None, course)]
        self.days_off: tuple[DayOff, ...] = tuple(sorted(own, key=lambda off: off.origin == ORIGIN))
        """Days off of the school and of this course, the public holidays last."""
        self._off = frozenset(day for off in self.days_off for day in _days(off.first_day, off.last_day))
        self._school_off = frozenset(
            day for off in self.days_off if off.course is None for day in _days(off.first_day, off.last_day)
        )
        self.teaching_end = _teaching_end(term)
        self.week_one = term.week_one or _default_week_one(term.first_day)
        self._weeks = self._number_weeks(self._school_off if school_weeks else self._off)
        self._class_days: dict[str, tuple[date, ...]] = {}

    # --- the term as a whole ------------------------------------------------------------------------------

    @property
    def bounds(self) -> tuple[date, date]:
        """First and last day of the term, examination period included."""
        finals = self.term.finals
        last = max(self.last_day, finals[1]) if finals else self.last_day
        return min(self.first_day, self.week_one), last

    def holds(self, first: date, last: date | None = None) -> bool:
        """Whether a day, or some day of a stretch, lies in the term or its examination period."""
        start, end = self.bounds
        return first <= end and (last or first) >= start

    def distance(self, first: date, last: date) -> int:
        """Days between a stretch and the term, 0 when they touch."""
        start, end = self.bounds
        return max(0, (start - last).days, (first - end).days)

    # --- days off -----------------------------------------------------------------------------------------

    def is_off(self, day: date) -> bool:
        """Whether a day off of the school or of this course names the day. Weekends are not days off."""
        return day in self._off

    def is_school_day(self, day: date) -> bool:
        """Whether the day is a Monday to Friday that no day off names."""
        return day.isoweekday() <= 5 and day not in self._off

    def named(self, name: str) -> tuple[date, date, DayOff] | None:
        """The day off that fits a name best: the school's own before public holidays. None when nothing fits or
        when several fit equally well (see :meth:`all_named`)."""
        found = self.all_named(name)
        return (found[0].first_day, found[0].last_day, found[0]) if len(found) == 1 else None

    def all_named(self, name: str) -> tuple[DayOff, ...]:
        """Every day off that fits a name equally well, best fit only, in order of day.

        A name that says only "break" or "holiday" fits every break of several days.
        """
        if names_nothing(name):
            found = [off for off in self.days_off if is_break(off.name) or off.last_day > off.first_day]
        else:
            ranked = [
                ((fit, off.origin != ORIGIN), off) for off in self.days_off if (fit := compare_names(name, off.name))
            ]
            best = max((rank for rank, _ in ranked), default=(NameFit.NONE, False))
            found = [off for rank, off in ranked if rank == best]
        once: dict[tuple[date, date], DayOff] = {}
        for off in found:
            once.setdefault((off.first_day, off.last_day), off)
        return tuple(sorted(once.values(), key=lambda off: off.first_day))

    # --- weeks --------------------------------------------------------------------------------------------

    def _number_weeks(self, off_days: frozenset[date]) -> tuple[tuple[int | None, date], ...]:
        weeks: list[tuple[int | None, date]] = []
        number = 0
        for monday in (self.week_one + n * _WEEK for n in range(MOST_WEEKS)):
            off = all(monday + n * _DAY in off_days for n in range(5))
            counts = not off or bool(self.term.break_weeks_count)
            number += counts
            weeks.append((number if counts else None, monday))
        return tuple(weeks)

    @property
    def weeks(self) -> tuple[tuple[int | None, date], ...]:
        """Week numbers with their Mondays from week 1 on; None is a week off that takes no number."""
        return self._weeks

    def week(self, number: int) -> tuple[date, date] | None:
        """Monday and Sunday of a numbered week, None when the term has no such week.

        0 is the week before week 1, -1 the last numbered week of classes. Weeks go on after the last day of term.
        """
        monday: date | None = None
        if number == 0:
            monday = self.week_one - _WEEK
        elif number > 0:
            monday = next((start for n, start in self._weeks if n == number), None)
        else:
            taught = [start for n, start in self._weeks if n is not None and start <= self.teaching_end]
            monday = taught[number] if -number <= len(taught) else None
        return (monday, monday + 6 * _DAY) if monday else None

    def week_number(self, day: date) -> int | None:
        """The number of the week that holds the day; None in a week off without a number or before week 0."""
        monday = monday_of(day)
        if monday == self.week_one - _WEEK:
            return 0
        return next((number for number, start in self._weeks if start == monday), None)

    def passes_unnumbered_week(self, number: int) -> bool:
        """Whether a week off lies before the week of this number, so that its number depends on how breaks count."""
        week = self.week(number)
        return week is not None and any(
            start < week[0] and all(start + n * _DAY in self._off for n in range(5)) for _, start in self._weeks
        )

    # --- classes ------------------------------------------------------------------------------------------

    def meetings_dates(self, kind: str = "") -> tuple[date, ...]:
        """The days with a class, in order, each once. ``kind`` narrows them ("lab").

        Empty, "class" or "session" is any class; "lecture" also stands for classes of no stated kind. Office hours
        are no class.
        """
        if kind not in self._class_days:
            self._class_days[kind] = self._find_class_days(kind)
        return self._class_days[kind]

    def _find_class_days(self, kind: str) -> tuple[date, ...]:
        asked = [meeting for meeting in self.meetings if _is_asked(meeting, kind)]
        weekdays = {day for one in asked if not one.alternate_from and not one.cycle_day for day in one.days}
        others = [one for one in asked if one.alternate_from or one.cycle_day]
        cycle = {one.cycle_day: frozenset(self.rotation_dates(one.cycle_day)) for one in others if one.cycle_day}
        return tuple(
            day
            for day in _days(self.first_day, self.teaching_end)
            if day not in self._off
            and (Weekday(day.isoweekday()) in weekdays or any(_meets_on(one, day, cycle) for one in others))
        )

    def meeting(self, number: int, kind: str = "") -> date | None:
        """The day of the n-th class from 1, or from the end for a negative number; None when there is none."""
        dates = self.meetings_dates(kind)
        index = number - 1 if number > 0 else len(dates) + number
        return dates[index] if number and 0 <= index < len(dates) else None

    def class_before(self, day: date, count: int = 1, kind: str = "") -> date | None:
        """The ``count``-th class strictly before the day."""
        dates = self.meetings_dates(kind)
        index = bisect_left(dates, day) - count
        return dates[index] if 0 <= index < len(dates) else None

    def class_after(self, day: date, count: int = 1, kind: str = "") -> date | None:
        """The ``count``-th class strictly after the day."""
        dates = self.meetings_dates(kind)
        index = bisect_right(dates, day) + count - 1
        return dates[index] if 0 <= index < len(dates) else None

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of class that the course has, in order, each once."""
        return tuple(dict.fromkeys(meeting.kind for meeting in self.meetings if is_class(meeting.kind)))

    # --- rotating days ------------------------------------------------------------------------------------

    def rotation_dates(self, label: str) -> Iterator[date]:
        """The days called ``label`` in the rotating timetable, in order, through the term.

        Weekends and days off of the school are skipped and do not use a label up.
        """
        rotation = self.term.rotation
        if rotation is None:
            return
        wanted = label.strip().casefold()
        count = 0
        for day in _days(rotation.first_day, self.bounds[1]):
            if day.isoweekday() > 5 or day in self._school_off:
                continue
            if rotation.labels[count % len(rotation.labels)].casefold() == wanted:
                yield day
            count += 1

    @property
    def rotation_labels(self) -> tuple[str, ...]:
        """The labels of the rotating timetable in their order; empty when the term has none."""
        return self.term.rotation.labels if self.term.rotation else ()


def _days(first: date, last: date) -> Iterator[date]:
    return (first + n * _DAY for n in range((last - first).days + 1))


def _meets_on(meeting: Meeting, day: date, cycle: Mapping[str, frozenset[date]]) -> bool:
    """Whether a class of alternate weeks or of a rotating day meets on a day, days off aside."""
    if day.isoweekday() not in (meeting.days or (range(1, 6) if meeting.cycle_day else ())):
        return False
    if meeting.cycle_day and day not in cycle[meeting.cycle_day]:
        return False
    first = meeting.alternate_from
    return first is None or (day >= monday_of(first) and (monday_of(day) - monday_of(first)).days % 14 == 0)


def _teaching_end(term: Term) -> date:
    if term.finals and term.first_day < term.finals[0] <= term.last_day:
        return term.finals[0] - _DAY
    return term.last_day


def _default_week_one(first_day: date) -> date:
    monday = monday_of(first_day)
    return monday + _WEEK if first_day.isoweekday() > 5 else monday


def class_kind(kind: str) -> str:
    """A kind of class in the form in which kinds are compared; "" for any class ("session", "meeting").

    >>> class_kind("Labs"), class_kind("class")
    ('lab', '')
    """
    known = kind.strip().casefold()
    single = known if known.endswith("ss") else known.removesuffix("s")
    return "" if single in _ANY_CLASS else single


def is_class(kind: str) -> bool:
    """Whether a meeting of this kind is a class; office hours are none."""
    return class_kind(kind) not in _NO_CLASS


def _is_asked(meeting: Meeting, kind: str) -> bool:
    own, asked = class_kind(meeting.kind), class_kind(kind)
    return own not in _NO_CLASS and (not asked or own == asked or (not own and asked == "lecture"))
