"""iCalendar files read by two independent libraries, icalendar (Python) and ical.js (JavaScript), which must agree; and
imported one after another, as a calendar program does."""

from __future__ import annotations

import functools
import json
import shutil
import subprocess
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any, cast
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import rrule, rruleset, rrulestr
from icalendar import Calendar

from syllabus_io.export.icalendar_out import plan_to_icalendar
from syllabus_io.export.time_zone import describe_zone
from syllabus_io.plan.standing import StandingClass, StandingPlan
from syllabus_io.resolve.expression import Weekday
from tests.export.standing import standing
from tests.export.test_icalendar_out import ESSAY, FINAL, MIDTERM, STAMP

SCRIPT = Path(__file__).with_name("read_calendar.cjs")
SAMPLES = Path(__file__).parents[2] / "samples"


@functools.cache
def why_not() -> str:
    """Why the JavaScript library cannot be asked; empty when it can."""
    node = shutil.which("node")
    if node is None:
        return "node is not installed"
    found = subprocess.run([node, "-e", "require('ical.js')"], capture_output=True, timeout=60)
    return "" if found.returncode == 0 else "ical.js is not among node's packages (npm install ical.js; set NODE_PATH)"


needs_javascript = pytest.mark.skipif(bool(why_not()), reason=why_not() or "ical.js is there")


@dataclass(frozen=True, slots=True)
class ReadEvent:
    """An event as a library sees it; moments are UTC where the file names a zone."""

    uid: str
    sequence: int
    summary: str
    start: str
    stamp: str
    occurrences: tuple[str, ...]
    alarms: tuple[float, ...]


def read_by_javascript(content: bytes, folder: Path) -> tuple[ReadEvent, ...]:
    path = folder / "plan.ics"
    path.write_bytes(content)
    ran = subprocess.run(["node", str(SCRIPT), str(path)], capture_output=True, timeout=120)
    assert ran.returncode == 0, ran.stderr.decode()
    return tuple(
        ReadEvent(
            one["uid"],
            one["sequence"],
            one["summary"],
            one["start"],
            one["stamp"],
            tuple(one["occurrences"]),
            tuple(float(seconds) for seconds in one["alarms"]),
        )
        for one in json.loads(ran.stdout)
    )


def read_by_python(content: bytes) -> tuple[ReadEvent, ...]:
    return tuple(_event(event) for event in Calendar.from_ical(content).walk("VEVENT"))


def _event(event: Any) -> ReadEvent:
    return ReadEvent(
        str(event["uid"]),
        int(event["sequence"]),
        str(event["summary"]),
        _written(event["dtstart"].dt),
        _written(event["dtstamp"].dt),
        tuple(_written(moment) for moment in _occurrences(event)),
        tuple(alarm["trigger"].dt.total_seconds() for alarm in event.walk("VALARM")),
    )


def _written(moment: date) -> str:
    if not isinstance(moment, datetime):
        return moment.isoformat()
    if moment.tzinfo is None:
        return moment.isoformat()
    return f"{moment.astimezone(UTC).replace(tzinfo=None).isoformat()}Z"


def _occurrences(event: Any) -> Iterator[date]:
    """The moments of an event by dateutil, in local time, with the zone put on them at the end."""
    start = event["dtstart"].dt
    if "rrule" not in event and "rdate" not in event:
        yield start
        return
    zone = start.tzinfo
    moments = rruleset()
    moments.rdate(start.replace(tzinfo=None))  # RFC 5545, section 3.8.5.3: DTSTART is the first of the set
    if "rrule" in event:
        rule = dict(event["rrule"])
        until = rule["UNTIL"][0]
        local = until.astimezone(zone).replace(tzinfo=None) if until.tzinfo else until
        parts = [f"{name}={','.join(map(str, value))}" for name, value in rule.items() if name != "UNTIL"]
        text = ";".join([*parts, f"UNTIL={local:%Y%m%dT%H%M%S}"])
        moments.rrule(cast("rrule", rrulestr(text, dtstart=start.replace(tzinfo=None))))
    for name, put in (("rdate", moments.rdate), ("exdate", moments.exdate)):
        held = event.get(name, [])
        for dates in held if isinstance(held, list) else [held]:
            for one in dates.dts:
                put(one.dt.replace(tzinfo=None))
    yield from (moment.replace(tzinfo=zone) for moment in moments)


ROTATING = StandingClass(
    3,
    "GEO 5",
    "",
    "",
    "",
    tuple(Weekday)[:5],
    time(14),
    time(15),
    cycle_day="A",
    cycle_dates=(date(2026, 9, 1), date(2026, 10, 13), date(2026, 10, 15), date(2026, 11, 3)),
)
EVERY_OTHER = StandingClass(
    4, "GEO 6", "lab", "", "", (Weekday.TU, Weekday.TH), time(14), time(16), alternate_from=date(2026, 9, 10)
)


def full_plan(timezone: str | None) -> StandingPlan:
    """Every kind of event, classes of every kind among them."""
    plan = standing(MIDTERM, ESSAY, FINAL, timezone=timezone)
    return replace(plan, classes=(*plan.classes, ROTATING, EVERY_OTHER))


@needs_javascript
@pytest.mark.parametrize("zone", ["America/New_York", "Europe/London", "Australia/Sydney", "Asia/Kolkata", None])
def test_two_libraries_read_the_same(zone: str | None, tmp_path: Path) -> None:
    content = plan_to_icalendar(full_plan(zone), STAMP)
    by_python = read_by_python(content)
    assert len(by_python) == 10
    assert read_by_javascript(content, tmp_path) == by_python


@pytest.mark.parametrize(
    "zone", ["America/New_York", "Europe/Dublin", "Australia/Lord_Howe", "America/Sao_Paulo", "Asia/Kathmandu", "UTC"]
)
def test_a_zone_is_described_as_the_time_zone_database_has_it(zone: str) -> None:
    """zoneinfo, which reads the IANA database, is held against the parts: the offset of the last onset holds."""
    info = ZoneInfo(zone)
    parts: Any = describe_zone(info, date(2025, 7, 1), date(2028, 1, 1)).subcomponents
    onsets = sorted(
        (part["dtstart"].dt.replace(tzinfo=UTC) - part["tzoffsetfrom"].td, part["tzoffsetto"].td) for part in parts
    )
    for hours in range(0, 24 * 900, 5):
        moment = datetime(2025, 7, 1, 1, 30, tzinfo=UTC) + timedelta(hours=hours)
        offset = [offset for onset, offset in onsets if onset <= moment][-1]
        assert offset == moment.astimezone(info).utcoffset(), f"{zone} at {moment}"


def imported(shelf: Mapping[str, ReadEvent], events: tuple[ReadEvent, ...]) -> dict[str, ReadEvent]:
    """The events after an import: one with a known UID takes the place of the earlier one when its SEQUENCE is higher
    (RFC 5546, section 2.1.5)."""
    held = dict(shelf)
    for event in events:
        if event.uid not in held or event.sequence > held[event.uid].sequence:
            held[event.uid] = event
    return held


@needs_javascript
def test_a_changed_date_imported_again_updates_the_same_event(tmp_path: Path) -> None:
    first = plan_to_icalendar(full_plan("America/New_York"), STAMP)
    moved = replace(ESSAY, day=date(2026, 11, 10), revision=1)
    plan = full_plan("America/New_York")
    later = replace(plan, items=tuple(moved if one.id == ESSAY.id else one for one in plan.items))
    second = plan_to_icalendar(later, STAMP + timedelta(days=3))
    shelf = imported({}, read_by_javascript(first, tmp_path))
    shelf = imported(shelf, read_by_javascript(second, tmp_path))
    assert len(shelf) == 10, "an event was doubled"
    (essay,) = (event for event in shelf.values() if "Essay 1" in event.summary)
    assert essay.start == "2026-11-10"


@pytest.mark.slow
@needs_javascript
def test_the_calendar_of_the_samples_is_read_the_same(tmp_path: Path) -> None:
    """Through the command line, before and after a date is corrected in the workbook."""
    import openpyxl

    from syllabus_io.cli.main import main
    from tests.revise.hand import heading_column, row_of

    path = tmp_path / "plan.xlsx"
    assert main(["build", str(SAMPLES), "--term", str(SAMPLES / "term.toml"), "-o", str(path), "-q"]) == 0

    def exported() -> tuple[ReadEvent, ...]:
        out = tmp_path / "out.ics"
        assert main(["export", str(path), "--to", "ics", "-o", str(out)]) == 0
        by_python = read_by_python(out.read_bytes())
        assert read_by_javascript(out.read_bytes(), tmp_path) == by_python
        return by_python

    before = exported()
    assert len(before) > 100

    def corrected(day: date) -> tuple[ReadEvent, ...]:
        book = openpyxl.load_workbook(path)
        sheet = book["Review"]
        sheet.cell(row_of(sheet, "Garden plan"), heading_column(sheet, "Corrected date")).value = day
        book.save(path)
        return exported()

    shelf = imported({}, before)
    # Twice without an update between: nothing of the first export is stored, and yet the second must count as newer.
    for day, moment in ((date(2026, 11, 30), "2026-12-01T04:59:00Z"), (date(2026, 11, 27), "2026-11-28T04:59:00Z")):
        earlier, after = shelf, corrected(day)
        shelf = imported(shelf, after)
        assert len(shelf) == len(before) == len(after), "an event was doubled or lost"
        changed = {event.summary: event.start for event in shelf.values() if earlier[event.uid] != event}
        assert changed == {"BIOL 120: Garden plan": moment}
