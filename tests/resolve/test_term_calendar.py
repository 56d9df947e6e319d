"""Weeks, classes, days off and rotating days of invented terms. Expected days are counted by hand on a calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, time

import pytest
from dateutil import rrule

from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.term import DayOff, Meeting, Rotation, Term
from syllabus_io.resolve.term_calendar import TermCalendar, class_kind, is_class, monday_of
from tests.dates.calendars import CALENDARS, TERMS

MO, TU, WE, TH, FR, SA, SU = (Weekday(number) for number in range(1, 8))
SEMESTER = CALENDARS["semester"]


class TestWeeks:
    """Week numbers and their Mondays."""

    def test_week_one_holds_the_first_day(self) -> None:
        assert SEMESTER.week(1) == (date(2026, 8, 31), date(2026, 9, 6))

    def test_term_that_starts_in_mid_week(self) -> None:
        assert CALENDARS["quarter"].week(1) == (date(2027, 1, 4), date(2027, 1, 10))

    def test_term_that_starts_on_a_weekend_has_its_first_week_after_it(self) -> None:
        calendar = TermCalendar(Term("t", date(2026, 8, 29), date(2026, 12, 11)))
        assert calendar.week(1) == (date(2026, 8, 31), date(2026, 9, 6))

    def test_given_monday_of_week_one_wins(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], week_one=date(2026, 9, 7)))
        assert calendar.week(1) == (date(2026, 9, 7), date(2026, 9, 13))
        assert calendar.week_number(date(2026, 9, 1)) == 0

    def test_week_off_takes_no_number(self) -> None:
        # The week of 23 November is off: week 12 begins on the 16th, week 13 on the 30th.
        assert SEMESTER.week(12) == (date(2026, 11, 16), date(2026, 11, 22))
        assert SEMESTER.week(13) == (date(2026, 11, 30), date(2026, 12, 6))
        assert SEMESTER.week_number(date(2026, 11, 25)) is None

    def test_week_off_takes_a_number_when_breaks_count(self) -> None:
        calendar = TermCalendar(replace(TERMS["semester"], break_weeks_count=True))
        assert calendar.week(13) == (date(2026, 11, 23), date(2026, 11, 29))
        assert calendar.week_number(date(2026, 11, 25)) == 13

    def test_week_with_one_open_day_keeps_its_number(self) -> None:
        off = DayOff("Long weekend", date(2026, 10, 13), date(2026, 10, 16))
        calendar = TermCalendar(Term("t", date(2026, 8, 31), date(2026, 12, 11), no_class=(off,)))
        assert calendar.week_number(date(2026, 10, 14)) == 7

    def test_week_off_made_of_several_days_off(self) -> None:
        offs = (
            DayOff("Storm", date(2026, 10, 12), date(2026, 10, 13)),
            DayOff("Break", date(2026, 10, 14), date(2026, 10, 16)),
        )
        calendar = TermCalendar(Term("t", date(2026, 8, 31), date(2026, 12, 11), no_class=offs))
        assert calendar.week_number(date(2026, 10, 14)) is None
        assert calendar.week(7) == (date(2026, 10, 19), date(2026, 10, 25))

    def test_weeks_before_and_from_the_end(self) -> None:
        assert SEMESTER.week(0) == (date(2026, 8, 24), date(2026, 8, 30))
        assert SEMESTER.week(-1) == (date(2026, 12, 7), date(2026, 12, 13))
        assert SEMESTER.week(-3) == (date(2026, 11, 16), date(2026, 11, 22))
        assert SEMESTER.week(-40) is None

    def test_two_weeks_off_over_new_year(self) -> None:
        # UK term: weeks of 21 and 28 December are off; week 6 begins on 14 December, week 7 on 4 January.
        calendar = CALENDARS["uk"]
        assert calendar.week(6) == (date(2026, 12, 14), date(2026, 12, 20))
        assert calendar.week(7) == (date(2027, 1, 4), date(2027, 1, 10))

    def test_number_and_week_are_inverse(self) -> None:
        for calendar in CALENDARS.values():
            for number, monday in calendar.weeks:
                if number is not None:
                    assert calendar.week(number) == (monday, date.fromordinal(monday.toordinal() + 6))
                    assert calendar.week_number(monday) == number

    def test_day_off_of_another_course_does_not_count(self) -> None:
        off = DayOff("Field trip", date(2026, 10, 12), date(2026, 10, 16), course="GEO 5")
        term = Term("t", date(2026, 8, 31), date(2026, 12, 11), no_class=(off,))
        assert TermCalendar(term, course="BIO 1").week_number(date(2026, 10, 14)) == 7
        assert TermCalendar(term, course="GEO 5").week_number(date(2026, 10, 14)) is None
        assert TermCalendar(term, course="GEO 5", school_weeks=True).week_number(date(2026, 10, 14)) == 7

    def test_a_number_that_hangs_on_how_breaks_count(self) -> None:
        assert SEMESTER.passes_unnumbered_week(13)
        assert not SEMESTER.passes_unnumbered_week(12)


class TestClasses:
    """Days of class."""

    def test_classes_skip_days_off(self) -> None:
        # Tuesdays and Thursdays from 1 September; 15 October and the week of 23 November are off.
        assert SEMESTER.meeting(1) == date(2026, 9, 1)
        assert SEMESTER.meeting(13) == date(2026, 10, 13)
        assert SEMESTER.meeting(14) == date(2026, 10, 20)
        assert SEMESTER.meeting(-1) == date(2026, 12, 10)

    @pytest.mark.parametrize("name", list(CALENDARS))
    def test_classes_agree_with_a_recurrence_rule(self, name: str) -> None:
        calendar = CALENDARS[name]
        weekdays = {int(day) - 1 for meeting in calendar.meetings for day in meeting.days}
        rule = rrule.rrule(rrule.WEEKLY, byweekday=sorted(weekdays), dtstart=_midnight(calendar.first_day), count=400)
        days = [moment.date() for moment in rule if moment.date() <= calendar.teaching_end]
        assert list(calendar.meetings_dates()) == [day for day in days if not calendar.is_off(day)]

    def test_no_class_beyond_the_last(self) -> None:
        assert SEMESTER.meeting(28) is None and SEMESTER.meeting(0) is None and SEMESTER.meeting(-28) is None

    def test_examinations_inside_the_term_end_the_classes(self) -> None:
        term = replace(TERMS["semester"], last_day=date(2026, 12, 18))
        assert TermCalendar(term, SEMESTER.meetings).teaching_end == date(2026, 12, 13)

    def test_kinds_of_class(self) -> None:
        calendar = CALENDARS["trimester"]
        assert calendar.meeting(1, "lab") == date(2027, 3, 5)
        assert calendar.meeting(2, "Labs") == date(2027, 3, 12)
        assert calendar.meeting(2, "lecture") == date(2027, 3, 3)
        assert calendar.meeting(3) == date(2027, 3, 5)
        assert calendar.kinds == ("lecture", "lab")
        assert calendar.meetings_dates("seminar") == ()

    def test_plain_classes_are_lectures(self) -> None:
        assert SEMESTER.meetings_dates("lecture") == SEMESTER.meetings_dates("session") == SEMESTER.meetings_dates()
        assert SEMESTER.meetings_dates("lab") == ()

    def test_office_hours_are_no_class(self) -> None:
        calendar = TermCalendar(TERMS["semester"], (Meeting((MO,), time(14), kind="office hours"), Meeting((TU,))))
        assert calendar.meeting(1) == date(2026, 9, 1)
        assert not is_class("Office hours") and is_class("lab")

    def test_two_classes_on_a_day_are_one_day_of_class(self) -> None:
        calendar = TermCalendar(TERMS["semester"], (Meeting((TU,), kind="lecture"), Meeting((TU,), kind="lab")))
        assert calendar.meeting(2) == date(2026, 9, 8)

    def test_class_before_and_after_a_day(self) -> None:
        assert SEMESTER.class_before(date(2026, 10, 20)) == date(2026, 10, 13)
        assert SEMESTER.class_after(date(2026, 10, 13)) == date(2026, 10, 20)
        assert SEMESTER.class_after(date(2026, 10, 14), 2) == date(2026, 10, 22)
        assert SEMESTER.class_before(date(2026, 9, 1)) is None
        assert SEMESTER.class_after(date(2026, 12, 10)) is None

    @pytest.mark.parametrize(
        ("kind", "compared"),
        [("Lab", "lab"), ("LABS", "lab"), ("class", ""), ("Classes", ""), ("Session", ""), ("", "")],
    )
    def test_kinds_are_compared_without_case_and_plural(self, kind: str, compared: str) -> None:
        assert class_kind(kind) == compared


class TestDaysOff:
    """Days off by name."""

    def test_weekends_are_no_days_off_and_no_school_days(self) -> None:
        assert not SEMESTER.is_off(date(2026, 9, 5)) and not SEMESTER.is_school_day(date(2026, 9, 5))

    def test_school_s_own_break_comes_before_the_holiday_for_a_break(self) -> None:
        found = SEMESTER.named("thanksgiving recess")
        assert found is not None and found[:2] == (date(2026, 11, 23), date(2026, 11, 27))

    def test_the_holiday_itself_is_the_day(self) -> None:
        found = SEMESTER.named("Thanksgiving")
        assert found is not None and found[:2] == (date(2026, 11, 26), date(2026, 11, 26))

    def test_own_day_of_the_same_name_wins_over_the_public_holiday(self) -> None:
        own = DayOff("Columbus Day", date(2026, 10, 9), date(2026, 10, 9))
        calendar = TermCalendar(replace(TERMS["semester"], no_class=(*TERMS["semester"].no_class, own)))
        found = calendar.named("Columbus Day")
        assert found is not None and found[2].first_day == date(2026, 10, 9)

    def test_the_break_of_a_term_with_one(self) -> None:
        found = CALENDARS["trimester"].named("the break")
        assert found is not None and found[2].name == "Spring break"

    def test_the_break_of_a_term_with_two_is_a_question(self) -> None:
        assert SEMESTER.named("break") is None
        assert [off.name for off in SEMESTER.all_named("break")] == ["Autumn break", "Thanksgiving break"]

    def test_nothing_fits(self) -> None:
        assert SEMESTER.named("Spring break") is None


class TestRotation:
    """Rotating timetables."""

    def test_labels_skip_weekends_and_days_off(self) -> None:
        # 24 Aug is A. Monday 7 September (Labor Day) takes no label: Friday 4 is B, Tuesday 8 is A.
        days = list(CALENDARS["school-year"].rotation_dates("A"))
        assert days[:3] == [date(2026, 8, 24), date(2026, 8, 26), date(2026, 8, 28)]
        assert date(2026, 9, 8) in days and date(2026, 9, 7) not in days

    def test_six_day_cycle_runs_on_over_weeks(self) -> None:
        # 2 Sep (WE) is day 1, then TH 2, FR 3, MO 4, TU 5, WE 6, and TH 10 Sep is day 1 again.
        days = list(CALENDARS["six-day"].rotation_dates("1"))
        assert days[:2] == [date(2026, 9, 2), date(2026, 9, 10)]

    def test_every_school_day_has_one_label(self) -> None:
        calendar = CALENDARS["six-day"]
        labelled = sorted(day for label in calendar.rotation_labels for day in calendar.rotation_dates(label))
        first, last = calendar.first_day.toordinal(), calendar.last_day.toordinal()
        open_days = [day for day in map(date.fromordinal, range(first, last + 1)) if calendar.is_school_day(day)]
        assert labelled == open_days

    def test_day_off_of_one_course_does_not_shift_the_school(self) -> None:
        off = DayOff("Trip", date(2026, 8, 25), date(2026, 8, 25), course="GEO 5")
        term = Term(
            "t",
            date(2026, 8, 24),
            date(2026, 12, 18),
            no_class=(off,),
            rotation=Rotation(("A", "B"), date(2026, 8, 24)),
        )
        assert next(TermCalendar(term, course="GEO 5").rotation_dates("B")) == date(2026, 8, 25)

    def test_term_without_rotation(self) -> None:
        assert list(SEMESTER.rotation_dates("A")) == [] and SEMESTER.rotation_labels == ()


def test_a_class_of_every_other_week_is_counted_every_other_week() -> None:
    """The days are those of a rule of dateutil with an interval of two weeks; a week off does not shift them."""
    off = DayOff("Field week", date(2026, 9, 28), date(2026, 10, 2))
    term = Term("t", date(2026, 8, 31), date(2026, 12, 11), no_class=(off,))
    lab = Meeting((Weekday.WE,), kind="lab", alternate_from=date(2026, 9, 18))
    weekly = Meeting((Weekday.MO,))
    calendar = TermCalendar(term, (lab, weekly))
    dates = rrule.rrule(rrule.WEEKLY, interval=2, dtstart=datetime(2026, 9, 16), until=datetime(2026, 12, 11))  # noqa: DTZ001
    assert calendar.meetings_dates("lab") == tuple(
        one.date() for one in dates if not off.first_day <= one.date() <= off.last_day
    )
    assert set(calendar.meetings_dates()) > set(calendar.meetings_dates("lab"))


def test_a_class_of_a_rotating_day_is_counted_on_that_day() -> None:
    term = Term("t", date(2026, 8, 24), date(2026, 12, 18), rotation=Rotation(("A", "B"), date(2026, 8, 24)))
    on_a = TermCalendar(term, (Meeting((), cycle_day="A"),))
    assert on_a.meetings_dates() == tuple(on_a.rotation_dates("A"))
    mondays = TermCalendar(term, (Meeting((Weekday.MO,), cycle_day="A"),))
    assert mondays.meetings_dates() == tuple(day for day in on_a.rotation_dates("A") if day.isoweekday() == 1)


def test_bounds_hold_the_examinations() -> None:
    assert SEMESTER.bounds == (date(2026, 8, 31), date(2026, 12, 18))
    assert SEMESTER.holds(date(2026, 12, 18)) and not SEMESTER.holds(date(2026, 12, 19))
    assert SEMESTER.distance(date(2026, 12, 20), date(2026, 12, 20)) == 2


def test_monday_of_a_week() -> None:
    assert monday_of(date(2026, 9, 6)) == monday_of(date(2026, 8, 31)) == date(2026, 8, 31)


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time())
