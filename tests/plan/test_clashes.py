"""What gets in each other's way is said in plain words."""

from __future__ import annotations

from datetime import date, time

from syllabus_io.outline.records import CourseFacts, Kind, Weight
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.records import ResolvedItem, ResolvedTerm
from syllabus_io.resolve.term import DayOff, Meeting
from tests.workbook.plans import TERM, make_course, make_item, usual_plan


def plan_of(*items: ResolvedItem, meetings: tuple[Meeting, ...] = (), no_class: tuple[DayOff, ...] = ()) -> Plan:
    course = make_course(CourseFacts(code="C 1", meetings=meetings), items, no_class=no_class)
    other = make_course(CourseFacts(code="C 2", meetings=(Meeting((Weekday.MO,), time(9), time(9, 50)),)))
    return make_plan(ResolvedTerm(TERM, (course, other)))


def reasons(plan: Plan) -> list[str]:
    return [clash.reason for clash in plan.clashes]


def test_two_exams_on_one_day() -> None:
    clash = next(one for one in usual_plan().clashes if "6 Oct" in one.reason)
    assert clash.reason == "2 exams on Tue 6 Oct 2026: BIO 110 Midterm exam and HIS 204 Midterm"
    assert len(clash.items) == 2


def test_an_exam_on_a_day_off_of_the_school_or_the_course() -> None:
    exam = make_item("C 1", Kind.EXAM, "Test", date(2026, 9, 7))
    assert any("day off, Mon 7 Sep 2026 (Harbour Day)" in reason for reason in reasons(plan_of(exam)))
    own = DayOff("Instructor away", date(2026, 9, 9), date(2026, 9, 9), course="C 1")
    quiz = make_item("C 1", Kind.QUIZ, "Quiz", date(2026, 9, 9))
    assert any("Instructor away" in reason for reason in reasons(plan_of(quiz, no_class=(own,))))
    homework = make_item("C 1", Kind.ASSIGNMENT, "Homework", date(2026, 9, 7))
    assert not reasons(plan_of(homework)), "homework may be due on a day off"


def test_three_heavy_things_within_two_days_but_not_weekly_homework() -> None:
    heavy = [
        make_item("C 1", Kind.ASSIGNMENT, f"Essay {number}", date(2026, 10, 19 + number), weight=Weight(percent=20))
        for number in range(3)
    ]
    assert any("3 things that count much within 48 hours" in reason for reason in reasons(plan_of(*heavy)))
    light = [make_item("C 1", Kind.ASSIGNMENT, f"Sheet {number}", date(2026, 10, 20)) for number in range(5)]
    assert not reasons(plan_of(*light))


def test_classes_that_overlap() -> None:
    overlapping = plan_of(meetings=(Meeting((Weekday.MO, Weekday.WE), time(9, 30), time(10, 20)),))
    assert reasons(overlapping) == ["C 1 and C 2 meet at the same time on Monday"]
    one_after_the_other = plan_of(meetings=(Meeting((Weekday.MO,), time(9, 50), time(10, 40)),))
    assert not reasons(one_after_the_other)


def test_classes_of_different_weeks_or_rotating_days_do_not_overlap() -> None:
    """9:00 to 9:50 on Monday is taken by the other course."""
    every_week = Meeting((Weekday.MO,), time(9, 30), time(10, 20))
    assert any("meet at the same time on Monday" in reason for reason in reasons(plan_of(meetings=(every_week,))))
    labs = [Meeting((Weekday.MO,), time(9), time(11), alternate_from=date(2026, 9, day)) for day in (7, 14, 21)]
    courses = [make_course(CourseFacts(code=f"L {number}", meetings=(lab,))) for number, lab in enumerate(labs, 1)]
    assert reasons(make_plan(ResolvedTerm(TERM, tuple(courses[:2])))) == []
    assert len(reasons(make_plan(ResolvedTerm(TERM, (courses[0], courses[2]))))) == 1
    on = [Meeting((Weekday.MO,), time(9), time(11), cycle_day=day) for day in ("A", "B", "a")]
    courses = [make_course(CourseFacts(code=f"R {number}", meetings=(one,))) for number, one in enumerate(on, 1)]
    assert reasons(make_plan(ResolvedTerm(TERM, tuple(courses[:2])))) == []
    assert len(reasons(make_plan(ResolvedTerm(TERM, (courses[0], courses[2]))))) == 1


def test_office_hours_are_in_nobodys_way() -> None:
    hours = Meeting((Weekday.MO,), time(9), time(10), kind="office hours")
    assert reasons(plan_of(meetings=(hours,))) == []
