"""One outline and a term in, a course with every date out."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from syllabus_io.outline.records import (
    Category,
    GradingScheme,
    Kind,
    UndatedWork,
    Weight,
)
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import (
    ClockTime,
    DateExpression,
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Span,
    TimePoint,
    Week,
    Weekday,
    WeekdayIn,
)
from tests.resolve.made_outlines import (
    AUTUMN,
    MEETS,
    OCTOBER_6,
    course,
    item,
    mention,
    outline,
)


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
