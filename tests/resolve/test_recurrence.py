"""Recurring rules: the examples of RFC 5545 section 3.8.5.3 that give days, in our own words, and rules in a term.

The values are those that the standard prints; ``dateutil.rrule`` reads the same rule as a second oracle. Examples that
repeat within a day are left out: a rule here gives days.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

import pytest
from dateutil.rrule import rrulestr

from syllabus_io.resolve.evaluate import ReadingContext, evaluate, expand
from syllabus_io.resolve.expression import (
    Anchor,
    Every,
    Frequency,
    FullDate,
    NamedDay,
    NumericDate,
    Offset,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
)
from syllabus_io.resolve.records import Resolved, Unresolved
from syllabus_io.resolve.recurrence import MOST_DATES
from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS
from tests.resolve.answers import FR, MO, SA, SEMESTER, SU, TH, TU, WE

WEEKDAYS = (MO, TU, WE, TH, FR)
DAILY, WEEKLY, MONTHLY, YEARLY = Frequency.DAILY, Frequency.WEEKLY, Frequency.MONTHLY, Frequency.YEARLY


def _from(year: int, month: int, day: int) -> FullDate:
    return FullDate(date(year, month, day))


SEPT_2 = _from(1997, 9, 2)


@dataclass(frozen=True, slots=True)
class Example:
    """A rule in our words, as the tree, as the standard writes it, and the first days that the standard prints."""

    what: str
    rule: Every
    text: str
    first: str
    printed: tuple[str, ...]


EXAMPLES = (
    Example(
        "every day, ten times",
        Every(DAILY, start=SEPT_2, count=10),
        "FREQ=DAILY;COUNT=10",
        "19970902",
        tuple(f"1997-09-{day:02}" for day in range(2, 12)),
    ),
    Example(
        "every day to the day before Christmas Eve",
        Every(DAILY, start=SEPT_2, until=_from(1997, 12, 23)),
        "FREQ=DAILY;UNTIL=19971223",
        "19970902",
        ("1997-09-02", "1997-09-03"),
    ),
    Example(
        "every second day",
        Every(DAILY, 2, start=SEPT_2, count=47),
        "FREQ=DAILY;INTERVAL=2;COUNT=47",
        "19970902",
        ("1997-09-02", "1997-09-04", "1997-09-06"),
    ),
    Example(
        "every tenth day, five times",
        Every(DAILY, 10, start=SEPT_2, count=5),
        "FREQ=DAILY;INTERVAL=10;COUNT=5",
        "19970902",
        ("1997-09-02", "1997-09-12", "1997-09-22", "1997-10-02", "1997-10-12"),
    ),
    Example(
        "every day of January for three years",
        Every(YEARLY, weekdays=tuple(Weekday), months=(1,), start=_from(1998, 1, 1), until=_from(2000, 1, 31)),
        "FREQ=YEARLY;UNTIL=20000131;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA",
        "19980101",
        ("1998-01-01", "1998-01-02"),
    ),
    Example(
        "weekly, ten times",
        Every(WEEKLY, start=SEPT_2, count=10),
        "FREQ=WEEKLY;COUNT=10",
        "19970902",
        ("1997-09-02", "1997-09-09", "1997-09-16", "1997-09-23", "1997-09-30", "1997-10-07"),
    ),
    Example(
        "Tuesdays and Thursdays for five weeks",
        Every(WEEKLY, weekdays=(TU, TH), start=SEPT_2, count=10, week_start=SU),
        "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH",
        "19970902",
        ("1997-09-02", "1997-09-04", "1997-09-09", "1997-09-11", "1997-09-16"),
    ),
    Example(
        "every other week on Tuesday and Thursday, eight times",
        Every(WEEKLY, 2, (TU, TH), start=SEPT_2, count=8, week_start=SU),
        "FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH",
        "19970902",
        ("1997-09-02", "1997-09-04", "1997-09-16", "1997-09-18", "1997-09-30", "1997-10-02"),
    ),
    Example(
        "first Friday of the month, ten times",
        Every(MONTHLY, weekdays=(FR,), numbers=(1,), start=_from(1997, 9, 5), count=10),
        "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
        "19970905",
        ("1997-09-05", "1997-10-03", "1997-11-07", "1997-12-05", "1998-01-02", "1998-02-06", "1998-03-06"),
    ),
    Example(
        "first and last Sunday of every other month, ten times",
        Every(MONTHLY, 2, (SU,), (1, -1), start=_from(1997, 9, 7), count=10),
        "FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU",
        "19970907",
        ("1997-09-07", "1997-09-28", "1997-11-02", "1997-11-30", "1998-01-04", "1998-01-25"),
    ),
    Example(
        "second-to-last Monday of the month, six times",
        Every(MONTHLY, weekdays=(MO,), numbers=(-2,), start=_from(1997, 9, 22), count=6),
        "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
        "19970922",
        ("1997-09-22", "1997-10-20", "1997-11-17", "1997-12-22", "1998-01-19", "1998-02-16"),
    ),
    Example(
        "third-to-last day of the month",
        Every(MONTHLY, month_days=(-3,), start=_from(1997, 9, 28), count=6),
        "FREQ=MONTHLY;BYMONTHDAY=-3;COUNT=6",
        "19970928",
        ("1997-09-28", "1997-10-29", "1997-11-28", "1997-12-29", "1998-01-29", "1998-02-26"),
    ),
    Example(
        "2nd and 15th of the month, ten times",
        Every(MONTHLY, month_days=(2, 15), start=SEPT_2, count=10),
        "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15",
        "19970902",
        ("1997-09-02", "1997-09-15", "1997-10-02", "1997-10-15", "1997-11-02"),
    ),
    Example(
        "first and last day of the month, ten times",
        Every(MONTHLY, month_days=(1, -1), start=_from(1997, 9, 30), count=10),
        "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1",
        "19970930",
        ("1997-09-30", "1997-10-01", "1997-10-31", "1997-11-01", "1997-11-30", "1997-12-01", "1997-12-31"),
    ),
    Example(
        "10th to 15th every eighteen months, ten times",
        Every(MONTHLY, 18, month_days=(10, 11, 12, 13, 14, 15), start=_from(1997, 9, 10), count=10),
        "FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15",
        "19970910",
        ("1997-09-10", "1997-09-11", "1997-09-12", "1997-09-13", "1997-09-14", "1997-09-15", "1999-03-10"),
    ),
    Example(
        "every Tuesday of every other month",
        Every(MONTHLY, 2, (TU,), start=SEPT_2, count=18),
        "FREQ=MONTHLY;INTERVAL=2;BYDAY=TU;COUNT=18",
        "19970902",
        ("1997-09-02", "1997-09-09", "1997-09-16", "1997-09-23", "1997-09-30", "1997-11-04"),
    ),
    Example(
        "yearly in June and July, ten times",
        Every(YEARLY, months=(6, 7), start=_from(1997, 6, 10), count=10),
        "FREQ=YEARLY;COUNT=10;BYMONTH=6,7",
        "19970610",
        ("1997-06-10", "1997-07-10", "1998-06-10", "1998-07-10"),
    ),
    Example(
        "1st, 100th and 200th day of every third year, ten times",
        Every(YEARLY, 3, year_days=(1, 100, 200), start=_from(1997, 1, 1), count=10),
        "FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200",
        "19970101",
        ("1997-01-01", "1997-04-10", "1997-07-19", "2000-01-01", "2000-04-09", "2000-07-18", "2003-01-01"),
    ),
    Example(
        "20th Monday of the year",
        Every(YEARLY, weekdays=(MO,), numbers=(20,), start=_from(1997, 5, 19), count=3),
        "FREQ=YEARLY;BYDAY=20MO;COUNT=3",
        "19970519",
        ("1997-05-19", "1998-05-18", "1999-05-17"),
    ),
    Example(
        "Monday of week 20",
        Every(YEARLY, weekdays=(MO,), iso_weeks=(20,), start=_from(1997, 5, 12), count=3),
        "FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO;COUNT=3",
        "19970512",
        ("1997-05-12", "1998-05-11", "1999-05-17"),
    ),
    Example(
        "Thursdays in March",
        Every(YEARLY, weekdays=(TH,), months=(3,), start=_from(1997, 3, 13), count=11),
        "FREQ=YEARLY;BYMONTH=3;BYDAY=TH;COUNT=11",
        "19970313",
        ("1997-03-13", "1997-03-20", "1997-03-27", "1998-03-05", "1998-03-12"),
    ),
    Example(
        "every Friday the 13th",
        Every(MONTHLY, weekdays=(FR,), month_days=(13,), start=SEPT_2, count=5),
        "FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13;COUNT=5",
        "19970902",
        ("1998-02-13", "1998-03-13", "1998-11-13", "1999-08-13", "2000-10-13"),
    ),
    Example(
        "first Saturday after the first Sunday of the month",
        Every(MONTHLY, weekdays=(SA,), month_days=(7, 8, 9, 10, 11, 12, 13), start=_from(1997, 9, 13), count=10),
        "FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13;COUNT=10",
        "19970913",
        ("1997-09-13", "1997-10-11", "1997-11-08", "1997-12-13", "1998-01-10", "1998-02-07", "1998-03-07"),
    ),
    Example(
        "first Tuesday after a Monday in November, every four years",
        Every(YEARLY, 4, (TU,), month_days=(2, 3, 4, 5, 6, 7, 8), months=(11,), start=_from(1996, 11, 5), count=3),
        "FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8;COUNT=3",
        "19961105",
        ("1996-11-05", "2000-11-07", "2004-11-02"),
    ),
    Example(
        "third of all Tuesdays, Wednesdays and Thursdays of the month, three months",
        Every(MONTHLY, weekdays=(TU, WE, TH), set_positions=(3,), start=_from(1997, 9, 4), count=3),
        "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3",
        "19970904",
        ("1997-09-04", "1997-10-07", "1997-11-06"),
    ),
    Example(
        "second-to-last weekday of the month",
        Every(MONTHLY, weekdays=WEEKDAYS, set_positions=(-2,), start=_from(1997, 9, 29), count=7),
        "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2;COUNT=7",
        "19970929",
        ("1997-09-29", "1997-10-30", "1997-11-27", "1997-12-30", "1998-01-29", "1998-02-26", "1998-03-30"),
    ),
)


@pytest.mark.parametrize("example", EXAMPLES, ids=[example.what for example in EXAMPLES])
def test_example_of_the_standard(example: Example) -> None:
    days = expand(example.rule, None)
    assert tuple(map(str, days))[: len(example.printed)] == example.printed
    second = rrulestr(f"DTSTART:{example.first}T000000\nRRULE:{example.text}")
    assert days == tuple(moment.date() for moment in second), f"{example.what}: another reader of RFC 5545 differs"


def test_rule_runs_through_the_classes_of_the_term_and_skips_days_off() -> None:
    # By hand: Fridays from 4 Sep to 11 Dec 2026 are 15; 16 Oct and 27 Nov are off.
    days = expand(Every(WEEKLY, weekdays=(FR,)), SEMESTER)
    assert (days[0], days[-1], len(days)) == (date(2026, 9, 4), date(2026, 12, 11), 13)
    assert date(2026, 10, 16) not in days


def test_days_off_stay_in_when_the_rule_says_so() -> None:
    days = expand(Every(WEEKLY, weekdays=(FR,), open_days_only=False), SEMESTER)
    assert len(days) == 15


def test_the_last_school_day_of_a_month_is_no_day_off() -> None:
    # By hand: 30 September 2026 is a Wednesday; Friday 30 October is off here, so the day before; 30 November a Monday.
    off = (*SEMESTER.term.no_class, DayOff("staff day", date(2026, 10, 30), date(2026, 10, 30)))
    calendar = TermCalendar(replace(SEMESTER.term, no_class=off), SEMESTER.meetings)
    rule = Every(MONTHLY, weekdays=WEEKDAYS, set_positions=(-1,), months=(9, 10, 11))
    assert expand(rule, calendar) == (date(2026, 9, 30), date(2026, 10, 29), date(2026, 11, 30))
    first = Every(MONTHLY, weekdays=WEEKDAYS, set_positions=(1,), months=(9, 10, 11))
    assert expand(first, calendar) == (date(2026, 9, 1), date(2026, 10, 1), date(2026, 11, 2))


def test_days_of_months_named_one_by_one_stay_in_on_days_off() -> None:
    # By hand: 15 October 2026 lies in the autumn break of this term.
    rule = Every(MONTHLY, month_days=(15,), months=(9, 10, 11), open_days_only=False)
    assert expand(rule, SEMESTER) == (date(2026, 9, 15), date(2026, 10, 15), date(2026, 11, 15))


def test_count_counts_what_is_left_without_days_off() -> None:
    # By hand: Fridays 2, 9 October, then 16 October is off.
    days = expand(Every(WEEKLY, weekdays=(FR,), start=_from(2026, 10, 2), count=3), SEMESTER)
    assert days == (date(2026, 10, 2), date(2026, 10, 9), date(2026, 10, 23))


def test_exceptions_are_left_out() -> None:
    days = expand(Every(WEEKLY, weekdays=(MO,), except_in=(Week(3), NamedDay("Columbus Day"))), SEMESTER)
    assert date(2026, 9, 14) not in days and date(2026, 9, 21) in days


def test_term_expressions_bound_the_rule() -> None:
    rule = Every(WEEKLY, weekdays=(WE,), start=Week(2), until=Offset(NamedDay("autumn break"), -1, Unit.DAY))
    days = expand(rule, SEMESTER)
    assert (days[0], days[-1]) == (date(2026, 9, 9), date(2026, 10, 14))


def test_night_before_each_class() -> None:
    days = expand(Every(Frequency.MEETING, shift_days=-1), SEMESTER)
    assert days[:2] == (date(2026, 8, 31), date(2026, 9, 2))
    assert len(days) == len(SEMESTER.meetings_dates())


def test_every_second_class_of_a_kind() -> None:
    trimester = CALENDARS["trimester"]
    days = expand(Every(Frequency.MEETING, 2, kind="lab"), trimester)
    # By hand: labs on Fridays from 5 March 2027; every second one.
    assert days[:3] == (date(2027, 3, 5), date(2027, 3, 19), date(2027, 4, 2))


def test_rotating_days() -> None:
    days = expand(Every(DAILY, rotation="A", until=_from(2026, 9, 11)), CALENDARS["school-year"])
    # By hand: 24 Aug is an A day, Labor Day (7 Sep) uses no label up.
    assert [day.day for day in days] == [24, 26, 28, 1, 3, 8, 10]


def test_rule_without_an_end_stops_at_the_most_dates() -> None:
    assert len(expand(Every(DAILY, start=SEPT_2), None)) == MOST_DATES


def test_rule_without_a_start_needs_a_term_or_a_reference_day() -> None:
    rule = Every(WEEKLY, weekdays=(FR,), count=2)
    assert expand(rule, None) == ()
    resolution = evaluate(rule, None)
    assert isinstance(resolution, Unresolved) and "begins" in resolution.reason
    seen = expand(rule, None, ReadingContext(reference=date(2026, 9, 1)))
    assert seen == (date(2026, 9, 4), date(2026, 9, 11))


@pytest.mark.parametrize(
    ("rule", "missing"),
    [
        (Every(WEEKLY, weekdays=(FR,), until=Anchor("the midterm")), "midterm"),
        (Every(WEEKLY, weekdays=(FR,), start=TermPoint(TermEdge.FINALS)), "examination period"),
        (Every(DAILY, rotation="A"), "rotate"),
    ],
)
def test_rule_with_an_unknown_bound_says_what_is_missing(rule: Every, missing: str) -> None:
    calendar = TermCalendar(replace(SEMESTER.term, finals=None), SEMESTER.meetings)
    resolution = evaluate(rule, calendar)
    assert isinstance(resolution, Unresolved) and missing in resolution.reason
    assert expand(rule, calendar) == ()


def test_an_exception_that_cannot_be_placed_leaves_the_days_and_a_reason() -> None:
    plain = Every(WEEKLY, weekdays=(FR,))
    rule = Every(WEEKLY, weekdays=(FR,), except_in=(Anchor("the midterm"), Week(3)))
    without_week_3 = tuple(day for day in expand(plain, SEMESTER) if not 14 <= day.day <= 18 or day.month != 9)
    assert expand(rule, SEMESTER) == without_week_3
    resolution = evaluate(rule, SEMESTER)
    assert isinstance(resolution, Resolved)
    assert any("could not be placed" in reason and "midterm" in reason for reason in resolution.reasons)


def test_a_bound_in_two_orders_carries_the_question() -> None:
    # 10/11 is 11 October or 10 November, and both lie in the term.
    rule = Every(WEEKLY, weekdays=(FR,), until=NumericDate(10, 11))
    resolution = evaluate(rule, SEMESTER)
    assert isinstance(resolution, Resolved)
    (reason,) = [reason for reason in resolution.reasons if "last day of the series" in reason]
    assert "11 Oct 2026" in reason and "10 Nov 2026" in reason
    known = evaluate(rule, SEMESTER, ReadingContext(order="dmy"))
    assert isinstance(known, Resolved) and not known.reasons
    assert expand(rule, SEMESTER, ReadingContext(order="dmy"))[-1] == date(2026, 11, 6)


def test_series_that_starts_anywhere_says_so() -> None:
    resolution = evaluate(Every(WEEKLY, 2, (FR,)), SEMESTER)
    assert isinstance(resolution, Resolved)
    assert any("does not say when the series begins" in reason for reason in resolution.reasons)


def test_days_agree_with_the_second_oracle_on_a_term() -> None:
    second = rrulestr("DTSTART:20260831T000000\nRRULE:FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,WE;UNTIL=20261211")
    want = [moment.date() for moment in second if not SEMESTER.is_off(moment.date())]
    assert list(expand(Every(WEEKLY, 2, (MO, WE)), SEMESTER)) == want
