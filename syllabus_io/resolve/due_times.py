"""The time of day at which an item is due, and what a named time means."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from syllabus_io.outline.records import Mention
from syllabus_io.resolve.expression import ClockTime, TimePoint
from syllabus_io.resolve.wording import listed

__all__ = ["DueTime", "read_due_time"]

_LAST_MINUTE = ClockTime(23, 59)
_NOTES = {
    TimePoint.START_OF_CLASS: "at the start of class",
    TimePoint.END_OF_CLASS: "at the end of class",
    TimePoint.IN_CLASS: "in class",
    TimePoint.END_OF_DAY: "the end of the day is read as 23:59",
    TimePoint.MORNING: "in the morning; the outline gives no hour",
    TimePoint.AFTERNOON: "in the afternoon; the outline gives no hour",
    TimePoint.EVENING: "in the evening; the outline gives no hour",
    TimePoint.NIGHT: "at night; the outline gives no hour",
}


@dataclass(frozen=True, slots=True)
class DueTime:
    """A time of day, None when the outline gives none, and a note on what its words mean."""

    time: ClockTime | None = None
    note: str = ""


def read_due_time(mentions: Iterable[Mention]) -> DueTime:
    """The time that the mentions of one date give, the first to name a clock time deciding.

    Midnight is the end of the named day, 23:59. A time tied to the class has no clock time. When mentions give
    different clock times, the note names them all.
    """
    given = tuple(mentions)
    clocks = tuple(dict.fromkeys(_deadline(each.phrase.time) for each in given if each.phrase.time))
    if clocks:
        notes = []
        if any(each.phrase.time and each.phrase.time.from_midnight for each in given):
            notes.append("midnight is read as the end of that day, 23:59")
        if len(clocks) > 1:
            notes.append(f"the outline gives different times: {listed([str(clock) for clock in clocks])}")
        zone = next((each.phrase.zone for each in given if each.phrase.time and each.phrase.zone), None)
        if zone:
            notes.append(f"time zone as written: {zone}")
        return DueTime(clocks[0], "; ".join(notes))
    point = next((each.phrase.time_point for each in given if each.phrase.time_point), None)
    if point is None:
        return DueTime()
    return DueTime(_LAST_MINUTE if point is TimePoint.END_OF_DAY else None, _NOTES[point])


def _deadline(time: ClockTime) -> ClockTime:
    return _LAST_MINUTE if time.from_midnight else time
