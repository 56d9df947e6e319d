"""One outline and a term in, a course with every date out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from syllabus_io.outline.records import (
    Category,
    CourseFacts,
    GradingScheme,
    Kind,
    Outline,
    SeriesException,
    UndatedWork,
    Weight,
)
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import (
    Anchor,
    ClockTime,
    DateExpression,
    Every,
    Frequency,
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Offset,
    Span,
    TimePoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekOf,
)
from syllabus_io.resolve.outlines import resolve_outline
from syllabus_io.resolve.records import Ambiguous, Certainty, Resolved, ResolvedCourse
from tests.resolve.made_outlines import AUTUMN, TUESDAYS_THURSDAYS, item, mention, no_class, outline, rows

MEETS = CourseFacts(code="BOT 210", meetings=(TUESDAYS_THURSDAYS,))
CLASS_DAYS = [date(2026, 9, 1) + timedelta(days=days) for week in range(8) for days in (7 * week, 7 * week + 2)]
OCTOBER_6 = MonthDay(10, 6)


def _weekday_in(year: int, day: date) -> Weekday:
    return Weekday(day.replace(year=year).isoweekday())


def course(made: Outline) -> ResolvedCourse:
    return resolve_outline(made, AUTUMN, "BOT 210")


def only_item(made: Outline) -> tuple[date | None, tuple[str, ...]]:
    (found,) = course(made).items
    return found.date, found.reasons


# --- one mention ---------------------------------------------------------------------------------------


def test_a_plain_date_is_stated_and_asks_nothing() -> None:
    (found,) = course(outline([item(Kind.EXAM, "Exam 1", mention(OCTOBER_6, "Oct 6"))])).items
    assert isinstance(found.resolution, Resolved)
    assert (found.date, found.reasons) == (date(2026, 10, 6), ())
    assert found.resolution.certainty is Certainty.STATED
    assert found.resolution.expression == FullDate(date(2026, 10, 6))


def test_a_wrong_weekday_gives_both_days_the_printed_one_first() -> None:
    made = outline([item(Kind.ASSIGNMENT, "Essay", mention(MonthDay(10, 7, Weekday.TU), "Tues Oct 7"))])
    (found,) = course(made).items
    assert isinstance(found.resolution, Ambiguous)
    assert [option.date for option in found.resolution.candidates] == [date(2026, 10, 7), date(2026, 10, 6)]
    assert found.reasons[0] == (
        "the outline writes “Tues Oct 7”, but 7 Oct 2026 is a Wednesday, not a Tuesday: "
        "Wed 7 Oct 2026 or Tue 6 Oct 2026?"
    )


def test_two_numbers_in_doubtful_order_are_asked_about() -> None:
    made = outline([item(Kind.ASSIGNMENT, "Essay", mention(NumericDate(9, 10), "9/10"))])
    (found,) = course(made).items
    assert isinstance(found.resolution, Ambiguous)
    assert {option.date for option in found.resolution.candidates} == {date(2026, 9, 10), date(2026, 10, 9)}
    assert "month or with the day first" in found.reasons[0]


def test_one_clear_date_elsewhere_settles_the_order() -> None:
    made = outline(
        [
            item(Kind.ASSIGNMENT, "Essay", mention(NumericDate(9, 10), "9/10")),
            item(Kind.EXAM, "Exam", mention(MonthDay(10, 22), "22/10")),
        ]
    )
    assert [(found.title, found.date) for found in course(made).items] == [
        ("Essay", date(2026, 10, 9)),
        ("Exam", date(2026, 10, 22)),
    ]


def test_a_year_that_is_not_the_terms_is_asked_about() -> None:
    made = outline([item(Kind.EXAM, "Exam 1", mention(FullDate(date(2025, 10, 6)), "Oct 6, 2025"))])
    day, reasons = only_item(made)
    assert day == date(2026, 10, 6)
    assert "“Oct 6, 2025” is written with the year 2025" in reasons[0]


def test_the_29th_of_february_of_no_leap_year_is_no_day() -> None:
    made = outline([item(Kind.EXAM, "Exam 1", mention(MonthDay(2, 29), "Feb 29"))])
    (work,) = course(made).undated
    assert work.reason.startswith("“Feb 29” is not a day of the calendar in Autumn 2026")


def test_a_date_out_of_the_order_of_rows_is_asked_about_with_the_likely_day_first() -> None:
    mondays = [date(2026, 9, 7) + timedelta(weeks=n) for n in range(6)]
    printed = [*mondays]
    printed[3] = date(2026, 11, 28)
    dated = rows(printed)
    made = outline([item(Kind.QUIZ, "Quiz 3", dated[3])], row_dates=dated)
    (found,) = course(made).items
    assert isinstance(found.resolution, Ambiguous)
    assert [option.date for option in found.resolution.candidates] == [date(2026, 9, 28), date(2026, 11, 28)]
    assert "its row stands between Mon 21 Sep 2026 and Mon 5 Oct 2026" in found.reasons[0]


def test_an_outline_left_over_from_another_year_says_so_on_its_dates() -> None:
    # The weekdays of 2023: no day of autumn 2026 agrees.
    dated = tuple(
        mention(MonthDay(day.month, day.day, _weekday_in(2023, day)), f"{day:%b} {day.day}", row=n)
        for n, day in enumerate(CLASS_DAYS, start=1)
    )
    made = outline([item(Kind.EXAM, "Exam 1", dated[9])], row_dates=dated, years=(2023,))
    resolved = course(made)
    (found,) = resolved.items
    assert found.reasons == (
        "16 of the 16 weekdays beside its dates fit 2023, not Autumn 2026: "
        "the outline may be left over from another year",
    )
    assert resolved.notes == found.reasons


def test_an_outline_that_names_another_year_is_marked_also_without_weekdays() -> None:
    exam = item(Kind.EXAM, "Exam 1", mention(OCTOBER_6, "Oct 6"))
    headed = outline([exam], years=(2024,), course=CourseFacts(term="Fall 2024"))
    assert only_item(headed)[1] == ("the outline is headed “Fall 2024”, which is not Autumn 2026",)
    assert only_item(outline([exam], years=(2024,)))[1] == (), "a year elsewhere may be that of a book"


def test_a_class_counted_without_any_day_off_known_says_so() -> None:
    quiz = item(Kind.QUIZ, "Quiz 1", mention(MeetingNumber(4), "Class 4"))
    (reason,) = only_item(outline([quiz], course=MEETS))[1]
    assert reason.startswith("class 4 is counted from the first day of term with no day off known")


def test_weekdays_that_agree_outweigh_a_wrong_year_in_the_heading() -> None:
    dated = rows(CLASS_DAYS, with_weekdays=True)
    made = outline([item(Kind.EXAM, "Exam 1", dated[9])], row_dates=dated, years=(2024,))
    assert only_item(made) == (CLASS_DAYS[9], ())


# --- several mentions ----------------------------------------------------------------------------------


def test_mentions_that_agree_ask_nothing() -> None:
    made = outline(
        [
            item(
                Kind.EXAM,
                "Midterm",
                mention(OCTOBER_6, "Oct 6", row=11),
                mention(FullDate(date(2026, 10, 6)), "October 6, 2026", page=2),
            )
        ]
    )
    assert only_item(made) == (date(2026, 10, 6), ())


def test_mentions_that_differ_are_one_item_with_both_days_and_places() -> None:
    made = outline(
        [
            item(
                Kind.EXAM,
                "Midterm",
                mention(MonthDay(10, 8), "October 8", page=2),
                mention(OCTOBER_6, "Oct 6", row=11, page=4),
            )
        ]
    )
    day, reasons = only_item(made)
    assert day == date(2026, 10, 6), "the schedule is trusted over prose"
    assert reasons == (
        "the outline gives different dates: Tue 6 Oct 2026 in the schedule on page 4 (“Oct 6”), "
        "but Thu 8 Oct 2026 in the text on page 2 (“October 8”)",
    )


def test_a_weekday_that_disagrees_makes_the_schedule_less_trusted_than_prose() -> None:
    made = outline(
        [
            item(
                Kind.EXAM,
                "Midterm",
                mention(MonthDay(10, 16, Weekday.TU), "Tues Oct 16", row=11, page=4),
                mention(MonthDay(10, 6, Weekday.TU), "Tuesday, October 6", page=2),
            )
        ]
    )
    day, reasons = only_item(made)
    assert day == date(2026, 10, 6)
    assert "different dates" in reasons[0]


def test_a_doubt_of_one_mention_is_settled_by_another() -> None:
    made = outline(
        [
            item(
                Kind.ASSIGNMENT,
                "Essay",
                mention(NumericDate(9, 10), "9/10", row=3),
                mention(MonthDay(9, 10), "September 10", page=2),
            )
        ]
    )
    assert only_item(replace(made, years=())) == (date(2026, 9, 10), ())


def test_a_week_that_holds_the_day_does_not_contradict_it() -> None:
    made = outline([item(Kind.EXAM, "Midterm", mention(Week(6), "Week 6", row=6), mention(OCTOBER_6, "Oct 6", page=2))])
    assert only_item(made) == (date(2026, 10, 6), ())


def test_a_written_day_overrules_a_class_counted_without_days_off() -> None:
    midterm = item(Kind.EXAM, "Midterm", mention(MeetingNumber(5), "Class 5", row=5), mention(OCTOBER_6, "Oct 6"))
    assert only_item(outline([midterm], course=MEETS)) == (date(2026, 10, 6), ())
    off = (no_class("Field trip", date(2026, 9, 8)),)
    day, reasons = only_item(outline([midterm], course=MEETS, no_class=off))
    assert day == date(2026, 10, 6)
    assert "different dates" in reasons[0], "with the days off known the count is a witness"


def test_a_weekday_at_both_ends_of_a_row_is_its_last_day() -> None:
    row = Span(MonthDay(9, 11), MonthDay(9, 18))  # Friday to Friday
    made = outline([item(Kind.QUIZ, "Quiz", mention(WeekdayIn(row, Weekday.FR), "Sep 11-18", row=2))])
    assert only_item(made) == (date(2026, 9, 18), ())


# --- what is dated from something else -----------------------------------------------------------------


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


# --- weeks and classes ---------------------------------------------------------------------------------


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


# --- series --------------------------------------------------------------------------------------------


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


# --- times, weights, titles ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("at", "point", "time", "note"),
    [
        (ClockTime(17), None, "17:00", ""),
        (ClockTime(0, from_midnight=True), None, "23:59", "midnight is read as the end of that day, 23:59"),
        (None, TimePoint.START_OF_CLASS, "None", "at the start of class"),
        (None, None, "None", ""),
    ],
)
def test_the_time_an_item_is_due(at: ClockTime | None, point: TimePoint | None, time: str, note: str) -> None:
    made = outline([item(Kind.ASSIGNMENT, "Essay", mention(OCTOBER_6, "Oct 6", at=at, point=point))])
    (found,) = course(made).items
    assert (str(found.time), found.time_note) == (time, note)


def test_a_weight_is_derived_only_where_it_follows_plainly() -> None:
    scheme = GradingScheme(
        (
            Category("Final exam", weight=30),
            Category("Essays", weight=20, count=2),
            Category("Quizzes", weight=10, count=5, drop=1),
            Category("Labs", weight=40),
        )
    )
    made = outline(
        [
            item(Kind.EXAM, "Final exam", mention(MonthDay(12, 15), "Dec 15"), category="Final exam"),
            item(Kind.ASSIGNMENT, "Essay 1", mention(OCTOBER_6, "Oct 6"), category="Essays", number=1),
            item(Kind.QUIZ, "Quiz 1", mention(OCTOBER_6, "Oct 6"), category="Quizzes", number=1),
            item(Kind.ASSIGNMENT, "Lab 1", mention(OCTOBER_6, "Oct 6"), category="Labs", number=1),
        ],
        grading=scheme,
    )
    assert {one.title: one.weight for one in course(made).items} == {
        "Final exam": Weight(percent=30),
        "Essay 1": Weight(percent=10),
        "Quiz 1": None,
        "Lab 1": None,
    }


def test_one_exam_under_two_names_is_one_item() -> None:
    made = outline(
        [
            item(Kind.EXAM, "Midterm", mention(OCTOBER_6, "Oct 6", row=11)),
            item(Kind.EXAM, "Midterm Exam", mention(OCTOBER_6, "October 6", page=2, at=ClockTime(10))),
        ]
    )
    (found,) = course(made).items
    assert (found.title, str(found.time), len(found.item.mentions)) == ("Midterm Exam", "10:00", 2)


def test_a_lab_final_on_the_day_of_the_final_is_another_exam() -> None:
    december = MonthDay(12, 15)
    titles = ["Final exam", "Comprehensive final", "Lab final"]
    made = outline([item(Kind.EXAM, title, mention(december, "Dec 15", page=n)) for n, title in enumerate(titles, 1)])
    assert [one.title for one in course(made).items] == ["Final exam", "Lab final"]


def test_a_name_given_by_its_initials_is_the_same_work() -> None:
    made = outline(
        [
            item(Kind.ASSIGNMENT, "CFP Plan", mention(OCTOBER_6, "Oct 6", row=11)),
            item(Kind.PROJECT, "Community Field Project: Plan", mention(OCTOBER_6, "October 6", page=2)),
            item(Kind.PROJECT, "Community Field Project: Report", mention(OCTOBER_6, "October 6", page=2)),
        ]
    )
    assert [one.title for one in course(made).items] == [
        "Community Field Project: Plan",
        "Community Field Project: Report",
    ]


def test_undated_work_that_is_dated_elsewhere_is_not_listed_twice() -> None:
    work = UndatedWork(Kind.EXAM, "Final Exam", "no date beside its weight", Place("made.pdf", 1))
    other = UndatedWork(Kind.PROJECT, "Portfolio", "no date beside its weight", Place("made.pdf", 1))
    made = outline([item(Kind.EXAM, "Final exam", mention(MonthDay(12, 15), "Dec 15"))], undated=(work, other))
    assert course(made).undated == (other,)


def test_a_window_keeps_its_last_day() -> None:
    made = outline(
        [
            item(Kind.EXAM, "Take-home exam", mention(OCTOBER_6, "Oct 6"), end=mention(MonthDay(10, 9), "Oct 9")),
            item(Kind.EXAM, "Second take-home", mention(Span(MonthDay(11, 2), MonthDay(11, 4)), "Nov 2-4")),
        ]
    )
    assert [(one.date, one.end_date, one.reasons) for one in course(made).items] == [
        (date(2026, 10, 6), date(2026, 10, 9), ()),
        (date(2026, 11, 2), date(2026, 11, 4), ()),
    ]


# --- what always holds ---------------------------------------------------------------------------------

DAYS: st.SearchStrategy[DateExpression] = st.one_of(
    st.dates(date(2025, 1, 1), date(2028, 12, 31)).map(FullDate),
    st.dates(date(2025, 1, 1), date(2025, 12, 31)).map(lambda day: MonthDay(day.month, day.day)),
    st.tuples(st.integers(1, 12), st.integers(1, 12)).map(lambda pair: NumericDate(*pair)),
    st.integers(0, 30).map(Week),
    st.tuples(st.integers(1, 30), st.sampled_from(Weekday)).map(lambda pair: WeekdayIn(Week(pair[0]), pair[1])),
    st.integers(1, 60).map(MeetingNumber),
)


@given(st.lists(st.tuples(st.sampled_from(Kind), st.sampled_from(["Essay", "Quiz 1", "Exam"]), DAYS), max_size=8))
def test_a_date_outside_the_term_always_carries_a_reason(parts: list[tuple[Kind, str, DateExpression]]) -> None:
    made = outline([item(kind, title, mention(day, "words")) for kind, title, day in parts], course=MEETS)
    resolved = course(made)
    assert AUTUMN.finals is not None
    for found in resolved.items:
        assert found.date is not None
        if not AUTUMN.first_day <= found.date <= AUTUMN.finals[1]:
            assert found.needs_review, f"{found.title} on {found.date} lies outside the term without a word"
    assert all(work.reason for work in resolved.undated)


TITLES_MOVED = st.tuples(st.sampled_from(["Essay", "Essay 2", "Quiz"]), st.integers(1, 90), st.integers(1, 90))


@given(st.lists(TITLES_MOVED, max_size=8))
def test_ids_are_unique_and_stay_when_dates_move(parts: list[tuple[str, int, int]]) -> None:
    start = AUTUMN.first_day
    before = [item(Kind.QUIZ, title, mention(FullDate(start + timedelta(n)), "words")) for title, n, _ in parts]
    after = [item(Kind.QUIZ, title, mention(FullDate(start + timedelta(m)), "words")) for title, _, m in parts]
    kept_apart = [len({(part[0], part[n]) for part in parts}) == len(parts) for n in (1, 2)]
    assume(all(kept_apart))  # items alike in title and day are one item
    first, second = course(outline(before)).items, course(outline(after)).items
    assert len({one.id for one in first}) == len(parts)
    assert {one.id for one in first} == {one.id for one in second}
