"""The term worked out from outlines alone. Weekdays of the dates are those of Python's calendar."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.outline.records import CourseFacts, Kind
from syllabus_io.resolve.expression import Every, Frequency, FullDate, MonthDay, Span, Weekday
from syllabus_io.resolve.infer_term import infer_term
from syllabus_io.resolve.outlines import resolve_outline
from tests.resolve.made_outlines import TUESDAYS_THURSDAYS, item, mention, outline, rows

MONDAYS = [date(2026, 8, 31) + timedelta(weeks=n) for n in range(15)]
WEDNESDAYS = [day + timedelta(days=9) for day in MONDAYS[:-2]]


def test_year_and_bounds_come_from_headings_and_schedule_rows() -> None:
    botany = outline(file="botany.pdf", row_dates=rows(MONDAYS), years=(2026,), course=CourseFacts(term="Autumn 2026"))
    music = outline(file="music.pdf", row_dates=rows(WEDNESDAYS, with_weekdays=True), years=(2026,))
    term = infer_term([botany, music])
    assert (term.name, term.first_day, term.last_day) == ("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11))
    assert term.assumed == (
        "the year 2026: named in botany.pdf",
        "the first day of term, Mon 31 Aug 2026: the first dated row of the schedule in botany.pdf",
        "the last day of term, Fri 11 Dec 2026: the last date in botany.pdf",
    )


def test_a_final_after_the_last_row_ends_the_term() -> None:
    final = item(Kind.EXAM, "Final exam", mention(MonthDay(12, 15), "December 15"))
    assert infer_term([outline([final], row_dates=rows(MONDAYS), years=(2026,))]).last_day == date(2026, 12, 15)


def test_weekdays_choose_between_the_years_an_outline_names() -> None:
    made = outline(row_dates=rows(MONDAYS, with_weekdays=True), years=(2025, 2026))
    term = infer_term([made])
    assert term.first_day == date(2026, 8, 31)
    assert term.assumed[0] == "the year 2026: named in made.pdf; 15 of 15 weekdays beside dates agree"


def test_weekdays_overrule_a_heading_left_from_the_year_before() -> None:
    made = outline(row_dates=rows(MONDAYS, with_weekdays=True), years=(2025,))
    term = infer_term([made])
    assert term.first_day == date(2026, 8, 31)
    assert "15 of 15 weekdays beside dates agree with it, not with 2025" in term.assumed[0]


def test_a_school_year_crosses_new_year() -> None:
    weeks = [date(2026, 9, 7) + timedelta(weeks=n) for n in range(36)]
    term = infer_term([outline(row_dates=rows(weeks), years=(2026, 2027))])
    assert (term.first_day, term.last_day) == (date(2026, 9, 7), date(2027, 5, 14))


def test_a_wrong_row_does_not_stretch_the_term() -> None:
    printed = [*MONDAYS]
    printed[4] = date(2026, 3, 28)
    term = infer_term([outline(row_dates=rows(printed), years=(2026,))])
    assert (term.first_day, term.last_day) == (MONDAYS[0], MONDAYS[-1] + timedelta(days=4))


def test_week_numbers_reach_back_before_the_first_dated_row() -> None:
    made = outline(row_dates=rows(MONDAYS[3:]), years=(2026,), week_rows=((4, MonthDay(9, 21)),))
    term = infer_term([made])
    assert term.first_day == date(2026, 8, 31)
    assert "the Monday of week 1, counted back" in term.assumed[1]


def test_an_outline_of_another_term_is_left_out_and_named() -> None:
    old = outline(file="old.pdf", row_dates=rows([day.replace(year=2024) for day in MONDAYS]), years=(2024,))
    now = [outline(file=f"{n}.pdf", row_dates=rows(MONDAYS), years=(2026,)) for n in (1, 2)]
    term = infer_term([old, *now])
    assert term.first_day.year == 2026
    assert term.assumed[-1] == "old.pdf may belong to another term"


def test_a_season_alone_gives_its_usual_bounds_and_says_so() -> None:
    term = infer_term([outline(course=CourseFacts(term="Fall 2026"), years=(2026,))])
    assert (term.first_day.month, term.first_day.isoweekday(), term.last_day) == (8, 1, date(2026, 12, 15))
    assert all("no outline dates a class" in reason for reason in term.assumed[1:])


def test_a_day_given_chooses_the_year_when_no_outline_names_one() -> None:
    made = outline(row_dates=rows(MONDAYS, with_weekdays=True))
    term = infer_term([made], near=date(2027, 1, 10))
    assert term.first_day == date(2026, 8, 31)
    assert "of the years around 2027 it is the one in which 15 of 15 weekdays beside dates agree" in term.assumed[0]
    assert not term.guessed_year


def test_days_of_class_choose_the_year_where_no_weekday_is_written() -> None:
    class_days = [day + timedelta(days=n) for day in MONDAYS for n in (1, 3)]
    made = outline(row_dates=rows(class_days), course=CourseFacts(meetings=(TUESDAYS_THURSDAYS,)))
    term = infer_term([made], near=date(2027, 1, 10))
    assert (term.first_day, term.guessed_year) == (date(2026, 9, 1), False)
    assert "30 of 30 dates on class days agree" in term.assumed[0]


def test_a_year_that_nothing_shows_is_a_guess_and_marks_every_date() -> None:
    exam = item(Kind.EXAM, "Exam", mention(MonthDay(10, 6), "Oct 6"))
    fridays = Every(Frequency.WEEKLY, weekdays=(Weekday.FR,))
    made = outline([exam, item(Kind.ASSIGNMENT, "Homework", mention(fridays, "every Friday"))])
    term = infer_term([made], near=date(2026, 1, 10))
    assert term.guessed_year
    found = resolve_outline(made, term, "BOT 210").items
    assert found
    assert all("no outline names the year; 2026 is a guess" in one.reasons for one in found)


def test_a_schedule_by_weeks_ends_with_the_last_class_of_its_last_week() -> None:
    course = CourseFacts(meetings=(TUESDAYS_THURSDAYS,))
    assert infer_term([outline(row_dates=rows(MONDAYS), years=(2026,), course=course)]).last_day == date(2026, 12, 10)


def test_rows_of_five_days_are_weeks_and_show_the_year() -> None:
    weeks = [mention(Span(MonthDay(9, day), MonthDay(9, day + 4)), "…", row=day) for day in (7, 14, 21)]
    assert infer_term([outline(row_dates=tuple(weeks))], near=date(2028, 3, 1)).first_day == date(2026, 9, 7)


@pytest.mark.parametrize(
    "made",
    [
        outline(),
        outline(row_dates=rows(MONDAYS)),
        outline([item(Kind.EXAM, "Exam", mention(MonthDay(10, 6, Weekday.TU), "Tue Oct 6"))]),
    ],
)
def test_without_any_year_a_term_file_is_asked_for(made: object) -> None:
    with pytest.raises(BadSetting, match=r"made\.pdf: no term can be worked out.*; give a term file with --term"):
        infer_term([made])  # type: ignore[list-item]  # outlines, by the parameters above


def test_a_full_date_names_its_year() -> None:
    made = outline([item(Kind.EXAM, "Exam", mention(FullDate(date(2026, 10, 6)), "Oct 6, 2026"))])
    assert infer_term([made]).first_day == date(2026, 10, 6)
