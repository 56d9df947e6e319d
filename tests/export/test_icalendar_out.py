"""iCalendar files, read by the icalendar library and held against RFC 5545 and dateutil's reading of recurrences."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import WEEKLY, rrule, rrulestr
from icalendar import Calendar

from syllabus_io.export.icalendar_out import plan_to_icalendar
from syllabus_io.outline.records import Kind
from syllabus_io.plan.standing import StandingClass, StandingPlan
from syllabus_io.resolve.expression import Weekday
from tests.export.standing import standing, work

STAMP = datetime(2026, 9, 1, 12, tzinfo=UTC)
MIDTERM = work("m", date(2026, 10, 6), "Midterm", kind=Kind.EXAM, time=time(10), start=date(2026, 9, 26), revision=2)
ESSAY = work("e", date(2026, 11, 3), "Essay 1; with, commas\nand lines", start=date(2026, 10, 30))
FINAL = work("f", date(2026, 12, 14), "Final", kind=Kind.EXAM, until=date(2026, 12, 18), time=time(8))


def read(plan: StandingPlan) -> Any:
    return Calendar.from_ical(plan_to_icalendar(plan, STAMP))


def events(plan: StandingPlan) -> dict[str, Any]:
    return {str(event["summary"]): event for event in read(plan).walk("VEVENT")}


def test_every_event_has_what_the_standard_asks_for() -> None:
    """RFC 5545, sections 3.6 and 3.6.1: PRODID and VERSION once; UID, DTSTAMP and DTSTART in every event."""
    calendar = read(standing(MIDTERM, ESSAY, FINAL))
    assert calendar["version"] == "2.0" and calendar["prodid"]
    ids = [str(event["uid"]) for event in calendar.walk("VEVENT")]
    assert len(ids) == len(set(ids)) == 8
    for event in calendar.walk("VEVENT"):
        assert event["dtstamp"].dt == STAMP
        assert "dtstart" in event
        assert not event.errors


def test_lines_are_folded_and_end_as_the_standard_says() -> None:
    """RFC 5545, section 3.1: lines end in CR LF and are no longer than 75 octets."""
    content = plan_to_icalendar(standing(work("e", date(2026, 11, 3), "Ein Aufsatz über Häfen " * 9)), STAMP)
    lines = content.split(b"\r\n")
    assert lines[-1] == b"" and not any(b"\n" in line for line in lines)
    assert max(map(len, lines)) <= 75


def test_a_due_day_without_time_is_a_whole_day_and_its_end_is_the_day_after() -> None:
    event = events(standing(ESSAY))["HIS 204: Essay 1; with, commas\nand lines"]
    assert (event["dtstart"].dt, event["dtend"].dt) == (date(2026, 11, 3), date(2026, 11, 4))
    window = events(standing(FINAL))["HIS 204: Final"]
    assert (window["dtstart"].dt, window["dtend"].dt) == (date(2026, 12, 14), date(2026, 12, 19))


def test_a_time_stands_in_the_terms_zone_which_the_file_describes() -> None:
    calendar = read(standing(MIDTERM))
    event = events(standing(MIDTERM))["HIS 204: Midterm"]
    assert event["dtstart"].dt.astimezone(UTC) == datetime(2026, 10, 6, 14, tzinfo=UTC)
    assert event["dtstart"].params["TZID"] == "America/New_York"
    assert [str(zone["tzid"]) for zone in calendar.walk("VTIMEZONE")] == ["America/New_York"]


def test_without_a_zone_times_are_local() -> None:
    calendar = read(standing(MIDTERM, timezone=None))
    event = next(event for event in calendar.walk("VEVENT") if event["summary"] == "HIS 204: Midterm")
    assert event["dtstart"].dt == datetime(2026, 10, 6, 10) and "TZID" not in event["dtstart"].params  # noqa: DTZ001
    assert not calendar.walk("VTIMEZONE")


@pytest.mark.parametrize("zone", ["America/New_York", None])
def test_classes_recur_on_their_days_without_the_days_off(zone: str | None) -> None:
    """dateutil is the second reader of RRULE and EXDATE; the days themselves are counted by hand."""
    plan = standing(timezone=zone)
    event = events(plan)["HIS 204"]
    block = "\n".join(
        line for line in event.to_ical().decode().splitlines() if line.startswith(("DTSTART", "RRULE", "EXDATE"))
    )
    read_days = [moment.date() for moment in rrulestr(block, tzids=ZoneInfo)]
    days = [plan.first_day + timedelta(days=n) for n in range(103)]
    off = [(date(2026, 9, 7),) * 2, (date(2026, 10, 15), date(2026, 10, 16)), (date(2026, 11, 9), date(2026, 11, 13))]
    expected = [
        day for day in days if day.isoweekday() in (1, 3, 5) and not any(first <= day <= last for first, last in off)
    ]
    assert read_days == expected
    assert event["duration"].dt == timedelta(minutes=50)
    assert event["location"] == "Chart Room"


def read_class_days(plan: StandingPlan, weekly: StandingClass) -> list[date]:
    """The days of the one class of a plan, as dateutil reads them; RFC 5545 counts DTSTART as the first."""
    event = events(replace(plan, classes=(weekly,)))["GEO 5 (lab)"]
    parts = ("DTSTART", "RRULE", "RDATE", "EXDATE")
    lines = event.to_ical().decode().replace("\r\n ", "").splitlines()  # section 3.1: long lines are folded
    block = "\n".join(line for line in lines if line.startswith(parts))
    return [moment.date() for moment in rrulestr(block, tzids=ZoneInfo, compatible=True)]


def test_a_class_of_every_other_week_recurs_every_other_week() -> None:
    """The days are those of a rule of dateutil with an interval of two weeks."""
    lab = StandingClass(
        1, "GEO 5", "lab", "", "", (Weekday.TU, Weekday.TH), time(14), time(16), alternate_from=date(2026, 9, 10)
    )
    plan = standing()
    days = rrule(
        WEEKLY,
        interval=2,
        byweekday=(1, 3),
        dtstart=datetime(2026, 9, 7),  # noqa: DTZ001
        until=datetime(2026, 12, 11),  # noqa: DTZ001
    )
    off = (date(2026, 10, 15), date(2026, 10, 16))
    assert read_class_days(plan, lab) == [one.date() for one in days if one.date() not in off]


def test_a_class_of_a_rotating_day_is_on_the_dates_of_that_day() -> None:
    dates = (date(2026, 9, 1), date(2026, 9, 3), date(2026, 9, 8), date(2026, 9, 10))
    lab = StandingClass(
        1, "GEO 5", "lab", "", "", tuple(Weekday)[:5], time(14), time(16), cycle_day="A", cycle_dates=dates
    )
    assert read_class_days(standing(timezone=None), lab) == list(dates), "dateutil reads no zones here"


def test_exams_and_starts_have_alarms_but_nothing_that_is_done() -> None:
    alarms = [alarm["trigger"].dt for alarm in events(standing(MIDTERM))["HIS 204: Midterm"].walk("VALARM")]
    assert alarms == [timedelta(days=-10), timedelta(days=-1)]
    done = events(standing(replace(MIDTERM, is_done=True)))["HIS 204: Midterm"]
    assert not done.walk("VALARM")


def test_a_moved_date_is_the_same_event_with_a_higher_number() -> None:
    """Section 3.8.4.7 and 3.8.7.4: UID stays, SEQUENCE rises."""
    before = events(standing(MIDTERM))["HIS 204: Midterm"]
    after = events(standing(replace(MIDTERM, day=date(2026, 10, 8), revision=3)))["HIS 204: Midterm"]
    assert before["uid"] == after["uid"]
    assert after["sequence"] > before["sequence"]


def test_skipped_and_undated_work_is_left_out() -> None:
    plan = standing(replace(MIDTERM, is_skipped=True), work("u", None, "Reflection"))
    assert not {"HIS 204: Midterm", "HIS 204: Reflection"} & set(events(plan))
