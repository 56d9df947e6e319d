"""Lines of a week that open with weekdays: several of them ("Wed–Fri: …"), or on both sides of a heading."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.entries import DAY_LABEL
from syllabus_io.outline.frames import Frame, frame_expression
from syllabus_io.resolve.expression import Span, Weekday

__all__ = ["goes_on_behind_heading", "in_days", "labelled_days"]

_NAME = r"(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?"
_DAYS = re.compile(
    rf"^\W*(?P<first>{_NAME})\.?\s*(?P<join>[/&,–—-]|and|to|through)\s*(?P<last>{_NAME})\.?\s*(?::|\s[–—-]\s)\s*(?=\S)",
    re.IGNORECASE,
)


def labelled_days(text: str) -> tuple[Weekday, Weekday, int] | None:
    """The first and the last weekday of a label that names a run of days ("Thu/Fri: …"), and where the label ends.

    None without such a label, and for days that are no run ("Tues/Thurs: …").
    """
    match = _DAYS.match(text)
    if match is None:
        return None
    first, last = weekday_in(match["first"]), weekday_in(match["last"])
    if first is None or last is None or last <= first:
        return None
    is_run = match["join"].lower() in ("–", "—", "-", "to", "through") or last - first == 1
    return (first, last, match.end()) if is_run else None


def in_days(frame: Frame, first: Weekday, last: Weekday) -> Frame:
    """The frame of a week narrowed to the days between two of its weekdays; the same frame where it is no week."""
    opening = frame_expression(replace(frame, weekday=first), None)
    closing = frame_expression(replace(frame, weekday=last), None)
    if frame.stretch is None or opening is None or closing is None:
        return frame
    return replace(frame, day=None, days=(), weekday=None, stretch=Span(opening[0], closing[0]))


def goes_on_behind_heading(before: str, behind: str, frame: Frame) -> bool:
    """Whether the line behind a heading is a later weekday of the same week ("Tue: …", "PART B", "Thu: …")."""
    earlier, later = _first_day(before), _first_day(behind)
    return frame.stretch is not None and earlier is not None and later is not None and earlier < later


def _first_day(text: str) -> Weekday | None:
    several = labelled_days(text)
    if several is not None:
        return several[0]
    match = DAY_LABEL.match(text)
    return weekday_in(match[1]) if match is not None else None
