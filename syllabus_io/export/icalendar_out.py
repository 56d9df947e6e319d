"""A plan as an iCalendar file (RFC 5545): what is due, exams with alarms, classes as recurring events, days off.

Every event has an id that never changes and a number that rises when it changes, so that importing a later file updates
the events of an earlier one instead of doubling them. Times carry the term's time zone where it is known; else they are
local times wherever the calendar is (section 3.3.5, form 1).
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from itertools import dropwhile
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from syllabus_io.export.plain_text import plain_plan
from syllabus_io.export.time_zone import describe_zone
from syllabus_io.outline.records import Kind
from syllabus_io.plan.standing import StandingClass, StandingItem, StandingOff, StandingPlan

if TYPE_CHECKING:
    from icalendar import Event

__all__ = ["plan_to_icalendar"]

_EXAMS = frozenset({Kind.EXAM, Kind.QUIZ})
_AROUND = timedelta(days=400)  # before the first day and after the last, so that a moved date is still described
_USUAL_LENGTH = timedelta(minutes=50)  # of a class whose end is not known; common practice, no source


def plan_to_icalendar(plan: StandingPlan, stamp: datetime) -> bytes:
    """The calendar. ``stamp`` is the moment of writing, in UTC (DTSTAMP, section 3.8.7.2)."""
    from icalendar import Calendar

    plan = plain_plan(plan)
    calendar = Calendar()
    calendar.add("prodid", "-//syllabus-io//plan//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("x-wr-calname", plan.name)
    zone = ZoneInfo(plan.timezone) if plan.timezone else None
    if zone is not None:
        days = [plan.first_day, plan.last_day, *(item.day for item in plan.items if item.day)]
        calendar.add_component(describe_zone(zone, min(days) - _AROUND, max(days) + _AROUND))
    for event in _events(plan, zone):
        event.add("dtstamp", stamp)
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content


def _events(plan: StandingPlan, zone: ZoneInfo | None) -> Iterator[Event]:
    for item in plan.items:
        if item.day and not item.is_skipped:
            yield _item_event(plan, item, zone)
    for weekly in plan.classes:
        event = _class_event(plan, weekly, zone)
        if event is not None:
            yield event
    for off in plan.days_off:
        yield _off_event(plan, off)


def _event(plan: StandingPlan, own: str, summary: str, revision: int) -> Event:
    from icalendar import Event

    event = Event()
    digest = hashlib.sha256(own.encode("utf-8", "replace")).hexdigest()[:20]
    event.add("uid", f"{digest}@{plan.plan_id}.syllabus-io")
    event.add("summary", summary)
    event.add("sequence", revision)
    return event


def _item_event(plan: StandingPlan, item: StandingItem, zone: ZoneInfo | None) -> Event:
    day = item.day
    assert day is not None  # chosen by the caller
    event = _event(plan, item.id, f"{item.course}: {item.title}" if item.course else item.title, item.revision)
    _add_days(event, day, item.until, item.time, zone)
    if item.kind:
        event.add("categories", [item.kind.value])
    parts = [item.words, f"To check: {item.why}" if item.flag == "check" else "", "Done." if item.is_done else ""]
    if text := "\n".join(part for part in parts if part):
        event.add("description", text)
    event.add("transp", "OPAQUE" if item.kind in _EXAMS and item.time else "TRANSPARENT")
    if not item.is_done:
        _add_alarms(event, item, day)
    return event


def _add_days(event: Event, day: date, until: date | None, clock: time | None, zone: ZoneInfo | None) -> None:
    """A whole day, or days, where no time is known; the end of whole days is the day after (section 3.6.1)."""
    if clock is None or (until and until > day):
        event.add("dtstart", day)
        event.add("dtend", (until or day) + timedelta(days=1))
    else:
        event.add("dtstart", datetime.combine(day, clock, zone))


def _add_alarms(event: Event, item: StandingItem, day: date) -> None:
    """One on the day to begin, and one on the day before an exam or quiz."""
    from icalendar import Alarm

    alarms = []
    if item.start and item.start < day:
        verb = "Begin to study for" if item.kind in _EXAMS else "Begin"
        alarms.append((day - item.start, f"{verb} {item.title}"))
    if item.kind in _EXAMS and (not item.start or (day - item.start).days > 1):
        alarms.append((timedelta(days=1), f"Tomorrow: {item.title}"))
    for before, words in alarms:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", words)
        alarm.add("trigger", -before)
        event.add_component(alarm)


def _class_event(plan: StandingPlan, weekly: StandingClass, zone: ZoneInfo | None) -> Event | None:
    """A weekly class with its days off left out; None when its time is not known or no class is held."""
    if weekly.start is None:
        return None
    held, off = _class_days(plan, weekly)
    if not held:
        return None
    own = f"class|{weekly.course}|{weekly.kind}|{'-'.join(day.name for day in weekly.days)}|{weekly.start}"
    own += f"|{weekly.cycle_day}" if weekly.cycle_day else ""
    name = f"{weekly.course} ({weekly.kind})" if weekly.kind else weekly.course
    event = _event(plan, own, name, plan.term_revision)
    event.add("dtstart", datetime.combine(held[0], weekly.start, zone))
    end = weekly.end if weekly.end and weekly.end > weekly.start else None
    event.add("duration", _length(weekly.start, end) if end else _USUAL_LENGTH)
    if weekly.cycle_day:
        for day in held:  # the first too: some programs pass over it where further dates are named
            event.add("rdate", datetime.combine(day, weekly.start, zone))
    else:
        event.add("rrule", _weekly_rule(weekly, datetime.combine(held[-1], weekly.start, zone), zone))
    for day in off:
        event.add("exdate", datetime.combine(day, weekly.start, zone))
    if weekly.room:
        event.add("location", weekly.room)
    if weekly.teacher:
        event.add("description", weekly.teacher)
    event.add("categories", ["class"])
    return event


def _class_days(plan: StandingPlan, weekly: StandingClass) -> tuple[list[date], list[date]]:
    """The days of a class by its pattern, and those of them that are days off. They begin with the first on which there
    is a class: some programs show the first date whatever is left out."""
    span = (plan.classes_end - plan.first_day).days + 1
    days = [day for n in range(span) if weekly.is_on(day := plan.first_day + timedelta(days=n))]
    stretches = [off for off in plan.days_off if off.course in ("", weekly.course)]
    off = {day for day in days if any(one.first_day <= day <= one.last_day for one in stretches)}
    held = list(dropwhile(lambda day: day in off, days))
    return held, [day for day in held if day in off]


def _weekly_rule(weekly: StandingClass, until: datetime, zone: ZoneInfo | None) -> dict[str, Any]:
    """Every week, or every other week from the one of the first class; weeks begin on Monday (RFC 5545, 3.3.10)."""
    # Section 3.3.10: UNTIL is in UTC when the start has a time zone, and local when the start is.
    until = until.astimezone(ZoneInfo("UTC")) if zone else until
    every = {"interval": 2} if weekly.alternate_from else {}
    return {"freq": "weekly", **every, "byday": [day.name for day in weekly.days], "until": until}


def _length(start: time, end: time) -> timedelta:
    return timedelta(hours=end.hour - start.hour, minutes=end.minute - start.minute)


def _off_event(plan: StandingPlan, off: StandingOff) -> Event:
    name = f"{off.name} ({off.course})" if off.course else off.name
    event = _event(plan, f"off|{off.course}|{off.name}|{off.first_day}", name, plan.term_revision)
    _add_days(event, off.first_day, off.last_day, None, None)
    event.add("categories", ["day off"])
    event.add("transp", "TRANSPARENT")
    return event
