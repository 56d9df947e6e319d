"""Several mentions of one item brought together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from syllabus_io.outline.records import (
    Kind,
)
from syllabus_io.resolve.expression import (
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Span,
    Week,
    Weekday,
    WeekdayIn,
)
from tests.resolve.made_outlines import (
    MEETS,
    OCTOBER_6,
    item,
    mention,
    no_class,
    only_item,
    outline,
)


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


def test_a_row_of_topics_does_not_outweigh_a_day_that_is_said_to_be_due() -> None:
    made = outline(
        [
            item(
                Kind.ASSIGNMENT,
                "Term paper",
                replace(mention(MonthDay(10, 8), "October 8", page=2), context="Term paper, due October 8, 20%"),
                mention(OCTOBER_6, "Oct 6", row=11, page=4),
            )
        ]
    )
    day, reasons = only_item(made)
    assert day == date(2026, 10, 8)
    assert len(reasons) == 1, "both days are shown"
