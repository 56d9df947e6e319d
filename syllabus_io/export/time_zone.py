"""The description of a time zone that an iCalendar file carries (RFC 5545, section 3.6.5)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

if TYPE_CHECKING:
    from icalendar import Component, Timezone

__all__ = ["describe_zone"]

_STEP = timedelta(days=1)
_EXACT = timedelta(minutes=1)


def describe_zone(zone: ZoneInfo, first_day: date, last_day: date) -> Timezone:
    """The zone's offsets from the first day to the last: one part for each stretch, which begins where its offset does.

    Every onset stands in a part of its own, without recurrence: some programs pass over the start of a part that names
    further dates. An onset is local time by the offset before it (section 3.6.5, TZOFFSETFROM).
    """
    from icalendar import Timezone

    component = Timezone()
    component.add("tzid", zone.key)
    begin = datetime.combine(first_day, time(), UTC)
    offset = _offset(zone, begin)
    component.add_component(_part(zone, begin, offset))
    for moment in _changes(zone, begin, datetime.combine(last_day, time(), UTC)):
        component.add_component(_part(zone, moment, offset))
        offset = _offset(zone, moment)
    return component


def _part(zone: ZoneInfo, moment: datetime, before: timedelta) -> Component:
    from icalendar import TimezoneDaylight, TimezoneStandard

    local = moment.astimezone(zone)
    part = TimezoneDaylight() if local.dst() else TimezoneStandard()
    part.add("dtstart", (moment + before).replace(tzinfo=None))
    part.add("tzoffsetfrom", before)
    part.add("tzoffsetto", _offset(zone, moment))
    part.add("tzname", local.tzname() or zone.key)
    return part


def _changes(zone: ZoneInfo, begin: datetime, end: datetime) -> Iterator[datetime]:
    """The moments, in UTC and to the minute, from which another offset holds."""
    while begin < end:
        after = begin + _STEP
        if _offset(zone, after) != _offset(zone, begin):
            low, high = begin, after
            while high - low > _EXACT:
                middle = low + (high - low) // 2 // _EXACT * _EXACT
                low, high = (middle, high) if _offset(zone, middle) == _offset(zone, begin) else (low, middle)
            yield high
        begin = after


def _offset(zone: ZoneInfo, moment: datetime) -> timedelta:
    return moment.astimezone(zone).utcoffset() or timedelta()
