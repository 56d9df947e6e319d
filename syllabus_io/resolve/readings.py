"""What rules hand to each other while a phrase is read: times, bounds of recurring rules, dates with times."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from syllabus_io.resolve.expression import ClockTime, DateExpression, TimePoint, Weekday

__all__ = ["NO_TIME", "Bounds", "Reading", "TimeWords", "in_school_hours", "join_times"]


@dataclass(frozen=True, slots=True)
class TimeWords:
    """A time of day as written: a clock time, a stretch between two, or a named time, with its zone.

    ``loose`` tells that the words leave morning or afternoon open ("at 4", "3:30").
    """

    start: ClockTime | None = None
    end: ClockTime | None = None
    point: TimePoint | None = None
    zone: str | None = None
    loose: bool = False


NO_TIME = TimeWords()


@dataclass(frozen=True, slots=True)
class Bounds:
    """The limits of a recurring rule: from, until, how often, for how long, what is left out, at what time."""

    start: DateExpression | None = None
    until: DateExpression | None = None
    count: int | None = None
    length: DateExpression | None = None
    except_in: tuple[DateExpression, ...] = ()
    months: tuple[int, ...] = ()
    week_start: int | None = None
    without: tuple[Weekday, ...] = ()
    time: TimeWords = NO_TIME


@dataclass(frozen=True, slots=True)
class Reading:
    """A whole phrase: what day, what time. ``weak`` tells that the words alone hardly name a day."""

    expression: DateExpression | None = None
    time: TimeWords = field(default=NO_TIME)
    doubts: tuple[str, ...] = ()
    weak: bool = False

    def at(self, time: TimeWords | None) -> Reading | None:
        """This reading with a time, None when the two times cannot both hold."""
        if time is None:
            return self
        joined = join_times(self.time, time)
        return replace(self, time=joined) if joined is not None else None


def in_school_hours(time: TimeWords) -> TimeWords:
    """1:00 to 6:59 without a.m. or p.m. is the afternoon: nothing is due or taught before seven in the morning.

    11:59 alone is a minute before midnight. Common practice, no source.
    """
    if not time.loose or time.start is None:
        return time
    if time.start == ClockTime(11, 59) and time.end is None:
        return replace(time, start=ClockTime(23, 59))
    if not 1 <= time.start.hour <= 6:
        return time
    end = time.end
    if end is not None and end.hour < 12:
        end = ClockTime(end.hour + 12, end.minute)
    return replace(time, start=ClockTime(time.start.hour + 12, time.start.minute), end=end)


_AFTERNOON = (TimePoint.AFTERNOON, TimePoint.EVENING, TimePoint.NIGHT)
_PARTS_OF_DAY = (TimePoint.MORNING, *_AFTERNOON)


def join_times(first: TimeWords, second: TimeWords) -> TimeWords | None:
    """One time from two: "evening" and "at 8:30" is 20:30. None when both are clock times or name two times."""
    if first == NO_TIME:
        return second
    if second == NO_TIME:
        return first
    if first.start is not None and second.start is not None:
        return None
    if second.start is not None:
        first, second = second, first
    if first.start is None:
        return first if first.point == second.point else None
    return _in_part_of_day(first, second.point)


def _in_part_of_day(time: TimeWords, point: TimePoint | None) -> TimeWords | None:
    """A clock time within a part of the day: 8:30 in the evening is 20:30, 7 in the morning stays 7:00."""
    if point not in _PARTS_OF_DAY or time.start is None:
        return None
    if time.loose and point in _AFTERNOON and 1 <= time.start.hour < 12:
        if point is TimePoint.NIGHT and time.start.hour < 5:  # "at 2 in the night" is before morning
            return replace(time, loose=False)
        end = time.end
        if end is not None and end.hour < 12:
            end = ClockTime(end.hour + 12, end.minute)
        return replace(time, start=ClockTime(time.start.hour + 12, time.start.minute), end=end, loose=False)
    if point is TimePoint.MORNING and time.start.hour >= 12 and not time.start.from_midnight:
        return None
    return replace(time, loose=False)
