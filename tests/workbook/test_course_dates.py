"""The days off that the term sheet lists, and the formulas of a course over it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from syllabus_io.outline.records import CourseFacts, Outline
from syllabus_io.resolve.expression import FullDate, MeetingNumber, NamedDay, Span, Week, Weekday, WeekdayIn
from syllabus_io.resolve.records import ResolvedCourse, ResolvedTerm
from syllabus_io.resolve.term import DayOff, Meeting, Term
from syllabus_io.workbook.course_dates import OffRow, course_dates, off_rows

MO, TH = Weekday.MO, Weekday.TH
BREAK = DayOff("Autumn break", date(2026, 10, 12), date(2026, 10, 16))
TERM = Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11), no_class=(BREAK,))


def _resolved(days_off: Mapping[str, tuple[DayOff, ...]], term: Term = TERM) -> ResolvedTerm:
    courses = tuple(
        ResolvedCourse(
            key, Outline(f"{key}.pdf", "0" * 64, 1, CourseFacts(code=key, meetings=(Meeting((MO, TH)),))), (), offs, ()
        )
        for key, offs in days_off.items()
    )
    return ResolvedTerm(term, courses)


def test_days_off_stand_in_order_of_day_with_their_course() -> None:
    visit = DayOff("Museum visit", date(2026, 9, 17), date(2026, 9, 17), "art.pdf")
    rows = off_rows(_resolved({"ART 5": (visit,), "BIO 1": ()}))
    assert rows == (
        OffRow("Museum visit", date(2026, 9, 17), date(2026, 9, 17), "ART 5", "art.pdf"),
        OffRow("Autumn break", date(2026, 10, 12), date(2026, 10, 16), "", "term file"),
    )


def test_a_day_off_of_the_school_is_not_listed_again_for_a_course() -> None:
    same = DayOff("Fall recess", BREAK.first_day, BREAK.last_day, "art.pdf")
    resolved = _resolved({"ART 5": (same,)})
    assert [row.name for row in off_rows(resolved)] == ["Autumn break"]
    dates = course_dates(resolved, 1)
    assert dates.names.days_off["Fall recess"] == "Autumn break"


def test_names_are_unique_and_hold_no_wildcards() -> None:
    offs = (
        DayOff("No class*", date(2026, 9, 17), date(2026, 9, 17), "art.pdf"),
        DayOff("no class", date(2026, 9, 24), date(2026, 9, 24), "art.pdf"),
        DayOff("?", date(2026, 9, 28), date(2026, 9, 28), "art.pdf"),
    )
    names = [row.name for row in off_rows(_resolved({"ART 5": offs}))]
    assert names == ["No class", "no class (2)", "Day off", "Autumn break"]


def test_very_long_name_is_cut_to_what_can_be_looked_up() -> None:
    long = DayOff("Day " * 100, date(2026, 9, 17), date(2026, 9, 17))
    assert all(len(row.name) <= 90 for row in off_rows(_resolved({"ART 5": (long,)})))


def test_formula_of_a_day_that_the_sheet_gives() -> None:
    dates = course_dates(_resolved({"ART 5": ()}), 1)
    assert dates.first_formula(WeekdayIn(Week(3), MO), date(2026, 9, 14)) is not None
    assert dates.first_formula(NamedDay("Autumn break"), date(2026, 10, 12)) is not None
    # By hand: Mondays and Thursdays from 31 August; the tenth is 1 October.
    assert dates.first_formula(MeetingNumber(10), date(2026, 10, 1)) is not None


def test_no_formula_where_the_sheet_would_give_another_day() -> None:
    dates = course_dates(_resolved({"ART 5": ()}), 1)
    assert dates.first_formula(WeekdayIn(Week(3), MO), date(2026, 9, 21)) is None
    assert dates.last_formula(Week(3), date(2026, 9, 14), date(2026, 9, 20)) is None
    assert dates.last_formula(Week(3), date(2026, 9, 14), date(2026, 9, 18)) is not None
    assert dates.first_formula(FullDate(date(2026, 9, 14)), date(2026, 9, 14)) is None


def test_week_off_of_one_course_leaves_the_week_table_alone() -> None:
    own = DayOff("Field week", date(2026, 9, 21), date(2026, 9, 25), "art.pdf")
    dates = course_dates(_resolved({"ART 5": (own,)}), 1)
    # The school's week 5 begins on 28 September, whatever one course leaves out; its classes follow the course.
    assert dates.first_formula(Week(5), date(2026, 9, 28)) is not None
    assert dates.calendar.meeting(7) == date(2026, 9, 28)


def test_course_without_days_of_class_counts_none() -> None:
    resolved = _resolved({"ART 5": ()})
    course = resolved.courses[0]
    empty = replace(course, outline=replace(course.outline, course=CourseFacts(code="ART 5")))
    dates = course_dates(ResolvedTerm(TERM, (empty,)), 1)
    assert dates.names.class_counts == {}


def test_stretch_between_two_moving_days() -> None:
    dates = course_dates(_resolved({"ART 5": ()}), 1)
    weeks = Span(Week(2), Week(3))
    assert dates.first_formula(weeks, date(2026, 9, 7)) is not None
    assert dates.last_formula(weeks, date(2026, 9, 7), date(2026, 9, 18)) is not None
