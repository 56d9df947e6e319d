"""Days off from a school's calendar, CSV or iCalendar, for the table on Term dates."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path

from syllabus_io.errors import BadSetting
from syllabus_io.plan.standing import StandingOff
from syllabus_io.workbook.cached_values import serial
from syllabus_io.workbook.cell_values import Content
from syllabus_io.workbook.edits import Edits, RowEdit, RowKey
from syllabus_io.workbook.layout import TERM

__all__ = ["TakenDays", "read_days_off", "with_days_off"]

_LARGEST_BYTES = 5_000_000
_MOST = 400
_NAMES = ("name", "title", "summary", "day off", "subject", "what")
_FIRST = ("first day", "first_day", "start", "start date", "date", "from", "day")
_LAST = ("last day", "last_day", "end", "end date", "to", "until")
_HEADINGS = ("Day off", "First day", "Last day", "Course", "Who says so")


@dataclass(frozen=True, slots=True)
class TakenDays:
    """The days off of a file, and how many of its events are none because they have a time of day."""

    days: tuple[StandingOff, ...]
    timed: int = 0


def read_days_off(path: Path, course: str = "") -> TakenDays:
    """The days off in a file. Raises BadSetting, naming the line or the event, when it is neither format."""
    try:
        if path.stat().st_size > _LARGEST_BYTES:
            raise BadSetting(path, "is far too large for a calendar", "check that it is the file you meant")
        content = path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise BadSetting(path, f"cannot be read ({reason})", "check the name and the folder") from None
    if content.lstrip(b"\xef\xbb\xbf \r\n").startswith(b"BEGIN:VCALENDAR"):
        return _from_icalendar(path, content, course)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadSetting(path, "is neither CSV in UTF-8 nor iCalendar", "export it as .csv or .ics") from None
    return TakenDays(tuple(_from_csv(path, text, course)))


def _from_csv(path: Path, text: str, course: str) -> Iterator[StandingOff]:
    reader = csv.DictReader(io.StringIO(text, newline=""))
    columns = {(name or "").strip().casefold(): name for name in reader.fieldnames or ()}
    name, first, last = (
        next((columns[one] for one in known if one in columns), None) for known in (_NAMES, _FIRST, _LAST)
    )
    if name is None or first is None:
        raise BadSetting(path, "has no columns for a name and a first day", "name them name, first day, last day")
    for row in reader:
        words = (row.get(name) or "").strip()
        if not words and not (row.get(first) or "").strip():
            continue
        first_day = _iso(path, reader.line_num, row.get(first))
        last_day = _iso(path, reader.line_num, row.get(last)) if last and (row.get(last) or "").strip() else first_day
        if last_day < first_day:
            raise BadSetting(path, f"line {reader.line_num} ends before it begins", "swap the two dates")
        yield StandingOff(words or "Day off", first_day, last_day, course)


def _iso(path: Path, line: int, text: str | None) -> date:
    """Only dates that can be read in one way are taken."""
    try:
        return date.fromisoformat((text or "").strip())
    except ValueError:
        raise BadSetting(path, f"line {line} has no date: {text!r}", "write dates like 2026-10-06") from None


def _from_icalendar(path: Path, content: bytes, course: str) -> TakenDays:
    from icalendar import Calendar

    try:
        calendar = Calendar.from_ical(content)
    except ValueError as error:
        raise BadSetting(path, f"is no valid iCalendar file: {error}", "export it anew") from None
    days: list[StandingOff] = []
    timed = 0
    for event in calendar.walk("VEVENT"):
        start = event.get("dtstart")
        first = getattr(start, "dt", None)
        if not isinstance(first, date) or isinstance(first, datetime):
            timed += 1
            continue
        end = getattr(event.get("dtend"), "dt", None)
        # RFC 5545, section 3.6.1: the end of whole days is the day after the last.
        last = end - timedelta(days=1) if isinstance(end, date) and not isinstance(end, datetime) else first
        days.append(StandingOff(str(event.get("summary", "Day off")), first, max(first, last), course))
    return TakenDays(tuple(days[:_MOST]), timed)


def with_days_off(edits: Edits, days: Sequence[tuple[str, StandingOff]]) -> Edits:
    """The edits with a row more on Term dates for each day off; beside each stands the name of its file."""
    rows = []
    for number, (origin, off) in enumerate(days, start=1):
        cells: dict[str, Content] = {
            "Day off": off.name,
            "First day": float(serial(off.first_day)),
            "Last day": float(serial(off.last_day)),
            "Course": off.course or None,
            "Who says so": origin,
        }
        rows.append(RowEdit(TERM, _HEADINGS, RowKey("added", number=1_000_000 + number), cells, cells))
    return replace(edits, rows=(*edits.rows, *rows))
