"""One mention of an item under all the evidence of its outline."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.outline.records import (
    CourseFacts,
    Kind,
)
from syllabus_io.resolve.expression import (
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Weekday,
)
from syllabus_io.resolve.records import Ambiguous, Certainty, Resolved
from tests.resolve.made_outlines import (
    MEETS,
    OCTOBER_6,
    course,
    item,
    mention,
    only_item,
    outline,
    rows,
)

CLASS_DAYS = [date(2026, 9, 1) + timedelta(days=days) for week in range(8) for days in (7 * week, 7 * week + 2)]


def _weekday_in(year: int, day: date) -> Weekday:
    return Weekday(day.replace(year=year).isoweekday())


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


def test_the_reading_that_is_a_class_day_comes_first_where_the_printed_day_is_none() -> None:
    essay = item(Kind.ASSIGNMENT, "Essay", mention(MonthDay(10, 7, Weekday.TU), "Tues Oct 7"))
    (found,) = course(outline([essay], course=MEETS)).items
    assert isinstance(found.resolution, Ambiguous)
    assert [option.date for option in found.resolution.candidates] == [date(2026, 10, 6), date(2026, 10, 7)]


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


def test_a_schedule_that_misses_the_days_of_class_is_left_over_from_another_year() -> None:
    # The Tuesdays and Thursdays of autumn 2025 are Wednesdays and Fridays in 2026.
    dated = rows([day + timedelta(days=1) for day in CLASS_DAYS])
    assert {(day + timedelta(days=1)).replace(year=2025).isoweekday() for day in CLASS_DAYS} == {2, 4}
    (_, reasons) = only_item(outline([item(Kind.EXAM, "Exam 1", dated[9])], row_dates=dated, course=MEETS))
    assert any("are days of class (Tuesday and Thursday) in 2025, not in Autumn 2026" in reason for reason in reasons)
    mondays = rows([date(2026, 9, 7) + timedelta(weeks=n) for n in range(10)])
    essay = item(Kind.ASSIGNMENT, "Essay", mondays[3])
    assert only_item(outline([essay], row_dates=mondays, course=MEETS)) == (date(2026, 9, 28), ()), "a row a week"


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
