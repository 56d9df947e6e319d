"""Items dated from others, from weeks and classes, and by rules."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.outline.records import (
    Category,
    CourseFacts,
    GradingScheme,
    Kind,
    SeriesException,
    Weight,
)
from syllabus_io.resolve.expression import (
    Anchor,
    Every,
    Frequency,
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Offset,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekOf,
)
from syllabus_io.resolve.outlines import resolve_outline
from syllabus_io.resolve.records import Resolved
from tests.resolve.made_outlines import (
    AUTUMN,
    MEETS,
    OCTOBER_6,
    TUESDAYS_THURSDAYS,
    course,
    item,
    mention,
    no_class,
    only_item,
    outline,
)


def test_an_item_dated_from_another_waits_for_it() -> None:
    made = outline(
        [
            item(Kind.PROJECT, "Project report", mention(Offset(Anchor("the midterm"), 1, Unit.WEEK), "a week after")),
            item(Kind.EXAM, "Midterm exam", mention(OCTOBER_6, "Oct 6")),
        ]
    )
    assert {found.title: found.date for found in course(made).items} == {
        "Midterm exam": date(2026, 10, 6),
        "Project report": date(2026, 10, 13),
    }


def test_items_dated_from_each_other_stay_open_with_the_reason() -> None:
    made = outline(
        [
            item(Kind.PROJECT, "Draft", mention(Offset(Anchor("the report"), -1, Unit.WEEK), "a week before")),
            item(Kind.PROJECT, "Report", mention(Offset(Anchor("the draft"), 1, Unit.WEEK), "a week after")),
        ]
    )
    resolved = course(made)
    assert resolved.items == ()
    assert len(resolved.undated) == 2
    assert all("no certain date" in work.reason or "dated from this item" in work.reason for work in resolved.undated)


def test_words_that_may_be_two_items_stay_open() -> None:
    made = outline(
        [
            item(Kind.PROJECT, "Report", mention(Offset(Anchor("the midterm"), 1, Unit.WEEK), "a week after")),
            item(Kind.EXAM, "Midterm 1", mention(OCTOBER_6, "Oct 6")),
            item(Kind.EXAM, "Midterm 2", mention(MonthDay(11, 10), "Nov 10")),
        ]
    )
    (work,) = course(made).undated
    assert "may be Midterm 1 and Midterm 2" in work.reason


def test_weeks_are_numbered_as_the_outlines_own_rows_do() -> None:
    week_rows = tuple((n, MonthDay(9, 7 * n)) for n in (1, 2, 3))
    made = outline(
        [item(Kind.ASSIGNMENT, "Essay", mention(WeekdayIn(Week(5), Weekday.FR), "Fri wk 5"))], week_rows=week_rows
    )
    (found,) = course(made).items
    assert isinstance(found.resolution, Resolved)
    assert found.date == date(2026, 10, 9)
    assert found.resolution.expression == FullDate(date(2026, 10, 9)), "the term's own week 5 is another one"
    assert "week 5 as the outline numbers it" in found.resolution.how


def test_a_week_stays_a_tree_where_the_outline_agrees_with_the_term() -> None:
    week_rows = ((1, MonthDay(8, 31)), (2, MonthDay(9, 7)))
    made = outline(
        [item(Kind.ASSIGNMENT, "Essay", mention(WeekdayIn(Week(5), Weekday.FR), "Fri wk 5"))], week_rows=week_rows
    )
    (found,) = course(made).items
    assert isinstance(found.resolution, Resolved)
    assert found.resolution.expression == WeekdayIn(Week(5), Weekday.FR)


def test_an_exam_in_a_week_with_one_class_is_on_that_class() -> None:
    one_class = CourseFacts(meetings=(replace(TUESDAYS_THURSDAYS, days=(Weekday.WE,)),))
    made = outline([item(Kind.EXAM, "Exam 1", mention(Week(5), "Week 5", row=5))], course=one_class)
    assert only_item(made) == (date(2026, 9, 30), ())


def test_an_exam_in_a_week_with_two_classes_is_a_question() -> None:
    made = outline([item(Kind.EXAM, "Exam 1", mention(Week(5), "Week 5", row=5))], course=MEETS)
    day, reasons = only_item(made)
    assert day == date(2026, 9, 28)
    assert len(reasons) == 1
    assert "names only the week" in reasons[0]


def test_the_courses_own_days_off_do_not_count_as_classes() -> None:
    days_off = (no_class("Field trip", date(2026, 9, 8)),)
    made = outline([item(Kind.QUIZ, "Quiz 1", mention(MeetingNumber(4), "Class 4"))], course=MEETS, no_class=days_off)
    resolved = course(made)
    assert [(off.name, off.first_day, off.course) for off in resolved.no_class] == [
        ("Field trip", date(2026, 9, 8), "BOT 210")
    ]
    assert resolved.items[0].date == date(2026, 9, 15)


FRIDAYS = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=Week(2))


def test_a_rule_is_expanded_up_to_the_count_of_its_category() -> None:
    made = outline(
        [item(Kind.ASSIGNMENT, "Homework", mention(FRIDAYS, "every Friday from week 2"), category="Homework")],
        grading=GradingScheme((Category("Homework", weight=30, count=10),)),
        no_class=(no_class("Autumn break", date(2026, 10, 16)),),
    )
    found = course(made).items
    assert [one.title for one in found] == [f"Homework {n}" for n in range(1, 11)]
    fridays = [date(2026, 9, 11) + timedelta(weeks=n) for n in range(11)]
    fridays.remove(date(2026, 10, 16))
    assert [one.date for one in found] == fridays
    assert all(one.weight == Weight(percent=3.0) for one in found)


def test_a_count_that_the_rule_does_not_reach_is_said() -> None:
    made = outline([item(Kind.ASSIGNMENT, "Homework", mention(FRIDAYS, "every Friday from week 2"), series_count=20)])
    found = course(made).items
    assert len(found) == 14
    assert all(one.reasons == ("the rule gives 14 days in the term, but the outline counts 20",) for one in found)


def test_a_rule_does_not_repeat_what_is_dated_one_by_one() -> None:
    made = outline(
        [
            item(Kind.ASSIGNMENT, "Homework", mention(FRIDAYS, "every Friday from week 2")),
            item(Kind.ASSIGNMENT, "Homework 1", mention(MonthDay(9, 11), "Sep 11"), number=1),
            item(Kind.ASSIGNMENT, "Homework 2", mention(MonthDay(9, 25), "Sep 25"), number=2),
        ]
    )
    assert [(one.title, one.date) for one in course(made).items] == [
        ("Homework 1", date(2026, 9, 11)),
        ("Homework 2", date(2026, 9, 25)),
    ]


def test_a_series_without_bounds_is_doubted_at_the_edges_of_the_term_only() -> None:
    every_friday = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,))
    found = course(outline([item(Kind.QUIZ, "Quiz", mention(every_friday, "every Friday"))])).items
    assert [bool(one.reasons) for one in found] == [True, *([False] * 13), True]


def test_exceptions_of_a_rule_leave_days_out_and_move_them() -> None:
    every_monday = Every(Frequency.WEEKLY, weekdays=(Weekday.MO,))
    exceptions = (
        SeriesException(Week(1)),
        SeriesException(WeekOf(MonthDay(9, 7)), instead=(Weekday.WE,)),
        SeriesException(around=Kind.EXAM),
    )
    made = outline(
        [
            item(Kind.ASSIGNMENT, "Homework", mention(every_monday, "Mondays"), series_count=5, exceptions=exceptions),
            item(Kind.EXAM, "Exam 1", mention(MonthDay(9, 24), "Sep 24")),
        ]
    )
    found = [one for one in course(made).items if one.kind is Kind.ASSIGNMENT]
    assert [one.date for one in found] == [
        date(2026, 9, 9),
        date(2026, 9, 14),
        date(2026, 9, 28),
        date(2026, 10, 5),
        date(2026, 10, 12),
    ]


def test_an_exception_without_a_date_is_a_reason_on_the_series() -> None:
    rule = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,), start=Week(2), except_in=(WeekOf(Anchor("the field trip")),))
    made = outline([item(Kind.ASSIGNMENT, "Homework", mention(rule, "Fridays"), series_count=14)])
    found = course(made).items
    assert len(found) == 14
    assert all(one.reasons == ("“Fridays” has an exception whose date could not be worked out",) for one in found)


def test_the_night_before_the_first_class_is_before_the_course() -> None:
    term = replace(AUTUMN, first_day=date(2026, 9, 1))
    nights = Every(Frequency.MEETING, shift_days=-1)
    made = outline([item(Kind.ASSIGNMENT, "Notes", mention(nights, "the night before each class"))], course=MEETS)
    found = resolve_outline(made, term, "BOT 210").items
    assert (found[0].title, found[0].date) == ("Notes 1", date(2026, 9, 2))
    assert not any(one.reasons for one in found)


def test_a_series_with_a_bound_in_two_orders_carries_the_question() -> None:
    # By hand: until 9/11 is until 9 November or until 11 September 2026, and nothing else in the outline tells.
    rule = Every(Frequency.WEEKLY, weekdays=(Weekday.TU,), start=Week(1), until=NumericDate(9, 11))
    found = course(outline([item(Kind.ASSIGNMENT, "Homework", mention(rule, "Tuesdays until 9/11"))])).items
    assert [one.date for one in found] == [date(2026, 9, 1), date(2026, 9, 8)]
    for one in found:
        assert any("11 Sep 2026" in reason and "9 Nov 2026" in reason for reason in one.reasons), one.reasons
