"""Forty facts about calendars, each with its source, worked out by our own code.

The facts are repeated here so that they are checked without the shared folder; where that folder is there, its file
must say the same.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from syllabus_io.resolve.day_names import feast_day
from syllabus_io.resolve.evaluate import ReadingContext, evaluate, expand
from syllabus_io.resolve.expression import (
    DateExpression,
    Direction,
    Every,
    Frequency,
    FullDate,
    IsoWeek,
    NamedDay,
    NthWeekday,
    Offset,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
)
from syllabus_io.resolve.public_holidays import public_holidays
from syllabus_io.resolve.records import Resolved
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.term_calendar import TermCalendar

MO, TU, WE, TH, FR, SA, SU = (Weekday(number) for number in range(1, 8))
ISO = "ISO 8601 (week 1 holds the first Thursday)"
FEDERAL = "5 U.S.C. 6103; Executive Order 11582 for the observed day"
BANK = "Banking and Financial Dealings Act 1971 and proclamations"
RFC = "RFC 5545 section 3.8.5.3"
RULE = "dateutil.rrule"
COMPUTUS = "Gregorian computus; dateutil.easter"


def _day(expression: DateExpression, calendar: TermCalendar | None = None, region: str | None = None) -> str:
    resolution = evaluate(expression, calendar, ReadingContext(region=region))
    assert isinstance(resolution, Resolved), f"{expression} came to nothing: {resolution}"
    return resolution.date.isoformat()


def _holiday(name: str, region: str, year: int) -> str:
    """The day of a public holiday of that very name."""
    found = [
        off.first_day.isoformat()
        for off in public_holidays(region, date(year, 1, 1), date(year, 12, 31))
        if off.name == name
    ]
    assert len(found) == 1, f"{region} has {len(found)} days called {name} in {year}"
    return found[0]


def _days(rule: Every) -> list[str]:
    return [day.isoformat() for day in expand(rule, None)]


def _iso_day(year: int, week: int, weekday: Weekday) -> str:
    return _day(WeekdayIn(IsoWeek(week, year), weekday))


def _hours_from_midnight_to_midnight(day: date, zone: str) -> int:
    following = evaluate(Offset(FullDate(day), 1, Unit.DAY), None)
    assert isinstance(following, Resolved)
    begin, end = (datetime.combine(each, time(), ZoneInfo(zone)) for each in (day, following.date))
    return round((end.timestamp() - begin.timestamp()) / 3600)


TERM_OF_WEEKS = TermCalendar(Term("Autumn 2025", date(2025, 9, 1), date(2025, 12, 12)))


@dataclass(frozen=True, slots=True)
class Fact:
    """What is asked, how we work it out, the right answer and who says so."""

    what: str
    found: Callable[[], object]
    value: object
    source: str


FACTS = (
    Fact("2005-01-01", lambda: _iso_day(2004, 53, SA), "2005-01-01", ISO),
    Fact("2008-12-29", lambda: _iso_day(2009, 1, MO), "2008-12-29", ISO),
    Fact("2010-01-03", lambda: _iso_day(2009, 53, SU), "2010-01-03", ISO),
    Fact("2020-12-31", lambda: _iso_day(2020, 53, TH), "2020-12-31", ISO),
    Fact("2025-09-01", lambda: _iso_day(2025, 36, MO), "2025-09-01", ISO),
    Fact("2025-12-29", lambda: _iso_day(2026, 1, MO), "2025-12-29", ISO),
    Fact("2026-12-31", lambda: _iso_day(2026, 53, TH), "2026-12-31", ISO),
    Fact("2027-01-03", lambda: _iso_day(2026, 53, SU), "2027-01-03", ISO),
    *(
        Fact(f"{name} {year}", lambda name=name, year=year: _holiday(name, "US", year), value, FEDERAL)  # type: ignore[misc]
        for name, year, value in (
            ("Labor Day", 2025, "2025-09-01"),
            ("Columbus Day", 2025, "2025-10-13"),
            ("Veterans Day", 2025, "2025-11-11"),
            ("Thanksgiving Day", 2025, "2025-11-27"),
            ("Martin Luther King Jr. Day", 2026, "2026-01-19"),
            ("Washington's Birthday", 2026, "2026-02-16"),
            ("Memorial Day", 2026, "2026-05-25"),
            ("Independence Day (observed)", 2026, "2026-07-03"),
            ("Juneteenth National Independence Day (observed)", 2027, "2027-06-18"),
            ("New Year's Day (observed)", 2027, "2027-12-31"),
            ("Veterans Day (observed)", 2028, "2028-11-10"),
        )
    ),
    *(
        Fact(f"{name} {year}", lambda name=name, year=year: _holiday(name, "GB-ENG", year), value, BANK)  # type: ignore[misc]
        for name, year, value in (
            ("Late Summer Bank Holiday", 2025, "2025-08-25"),
            ("Good Friday", 2026, "2026-04-03"),
            ("Easter Monday", 2026, "2026-04-06"),
            ("May Day", 2026, "2026-05-04"),
            ("Spring Bank Holiday", 2026, "2026-05-25"),
            ("Boxing Day (observed)", 2026, "2026-12-28"),
            ("Christmas Day (observed)", 2027, "2027-12-27"),
        )
    ),
    Fact("second Tuesday of October 2025", lambda: _day(NthWeekday(2, TU, 10, 2025)), "2025-10-14", RULE),
    Fact("last Friday of May 2026", lambda: _day(NthWeekday(-1, FR, 5, 2026)), "2026-05-29", RULE),
    Fact("fifth Friday of October 2025", lambda: _day(NthWeekday(5, FR, 10, 2025)), "2025-10-31", RULE),
    Fact(
        "Monday after Thanksgiving 2025",
        lambda: _day(WeekdayNear(NamedDay("Thanksgiving", 2025), MO, Direction.AFTER), region="US"),
        "2025-12-01",
        FEDERAL,
    ),
    Fact(
        "Wednesday before Thanksgiving 2026",
        lambda: _day(WeekdayNear(NamedDay("Thanksgiving", 2026), WE, Direction.BEFORE), region="US"),
        "2026-11-25",
        FEDERAL,
    ),
    Fact(
        "Friday after the first Monday of September 2025",
        lambda: _day(WeekdayNear(NthWeekday(1, MO, 9, 2025), FR, Direction.AFTER)),
        "2025-09-05",
        RULE,
    ),
    Fact(
        "every other week Mon/Wed/Fri from 1997-09-01 until 1997-12-24 00:00 (starts 09:00, so Dec 24 is out): "
        "number of days",
        lambda: len(
            _days(
                Every(
                    Frequency.WEEKLY,
                    2,
                    (MO, WE, FR),
                    start=FullDate(date(1997, 9, 1)),
                    until=FullDate(date(1997, 12, 23)),
                )
            )
        ),
        25,
        RFC,
    ),
    Fact(
        "every other week Tue/Sun x4 from 1997-08-05, week starts Monday",
        lambda: _days(Every(Frequency.WEEKLY, 2, (TU, SU), start=FullDate(date(1997, 8, 5)), count=4)),
        ["1997-08-05", "1997-08-10", "1997-08-19", "1997-08-24"],
        RFC,
    ),
    Fact(
        "same, week starts Sunday",
        lambda: _days(Every(Frequency.WEEKLY, 2, (TU, SU), start=FullDate(date(1997, 8, 5)), count=4, week_start=SU)),
        ["1997-08-05", "1997-08-17", "1997-08-19", "1997-08-31"],
        RFC,
    ),
    Fact(
        "15th and 30th x5 from 2007-01-15 (no 30 February: skipped, not moved)",
        lambda: _days(Every(Frequency.MONTHLY, month_days=(15, 30), start=FullDate(date(2007, 1, 15)), count=5)),
        ["2007-01-15", "2007-01-30", "2007-02-15", "2007-03-15", "2007-03-30"],
        RFC,
    ),
    Fact(
        "every other Friday from Sept 5, 2025 to Dec 5, 2025",
        lambda: _days(
            Every(Frequency.WEEKLY, 2, (FR,), start=FullDate(date(2025, 9, 5)), until=FullDate(date(2025, 12, 5)))
        ),
        ["2025-09-05", "2025-09-19", "2025-10-03", "2025-10-17", "2025-10-31", "2025-11-14", "2025-11-28"],
        "RFC 5545 section 3.3.10, FREQ=WEEKLY;INTERVAL=2",
    ),
    Fact(
        "week 5 Friday of a term whose week 1 is the week of Monday 2025-09-01, no break counted out",
        lambda: _day(WeekdayIn(Week(5), FR), TERM_OF_WEEKS),
        "2025-10-03",
        "arithmetic",
    ),
    Fact(
        "Easter Sunday 2025 to 2030",
        lambda: [str(feast_day("Easter Sunday", year)) for year in range(2025, 2031)],
        ["2025-04-20", "2026-04-05", "2027-03-28", "2028-04-16", "2029-04-01", "2030-04-21"],
        COMPUTUS,
    ),
    Fact(
        "local midnight-to-midnight length of 2025-11-02 in America/New_York, hours",
        lambda: _hours_from_midnight_to_midnight(date(2025, 11, 2), "America/New_York"),
        25,
        "IANA time zone database",
    ),
)
SHARED = Path(__file__).parents[2].parent / "shared" / "accuracy" / "term_checks.json"


@pytest.mark.parametrize("fact", FACTS, ids=[fact.what[:60] for fact in FACTS])
def test_fact_is_worked_out(fact: Fact) -> None:
    assert fact.found() == fact.value, f"{fact.what} by {fact.source}"


def test_there_are_forty_facts_each_with_a_source() -> None:
    assert len(FACTS) == 40
    assert all(fact.source for fact in FACTS)


@pytest.mark.skipif(not SHARED.exists(), reason="the shared folder with the list of facts is not beside the project")
def test_shared_list_says_the_same() -> None:
    ours = {fact.what: fact.value for fact in FACTS}
    for check in json.loads(SHARED.read_text(encoding="utf-8")):
        value = check["value"]
        if check["group"] == "ISO 8601 week date":
            # The list gives the week of a day; we work out the day of a week.
            assert ours[check["what"]] == check["what"]
            year, week, weekday = date.fromisoformat(check["what"]).isocalendar()
            assert value == f"{year}-W{week:02}-{weekday}", f"{check['what']} is {value}"
        else:
            assert ours[check["what"]] == value, f"{check['what']}: the list says {value}"
