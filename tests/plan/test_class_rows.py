"""Office hours are read out of the words of an outline where these give days and times; nothing is made up."""

from __future__ import annotations

from datetime import time

import pytest

from syllabus_io.outline.records import CourseFacts
from syllabus_io.plan.class_rows import class_rows, office_hours
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Meeting
from tests.workbook.plans import TERM, make_course

MO, TU, WE, TH = Weekday.MO, Weekday.TU, Weekday.WE, Weekday.TH


@pytest.mark.parametrize(
    ("words", "days", "start", "end", "room"),
    [
        ("Mondays 1:30-2:30 pm", (MO,), time(13, 30), time(14, 30), "Loft 4"),
        ("Office hours: TTh 2-3, Annex 12", (TU, TH), time(14), time(15), "Annex 12"),
        ("Tues. & Thurs. from 11 AM to 1 PM and by appointment", (TU, TH), time(11), time(13), "Loft 4"),
        ("3:00 – 4:30 p.m. Wednesdays", (WE,), time(15), time(16, 30), "Loft 4"),
        ("Wednesdays 10-11:30 am, online", (WE,), time(10), time(11, 30), None),
    ],
)
def test_days_and_times_are_read(
    words: str, days: tuple[Weekday, ...], start: time, end: time, room: str | None
) -> None:
    assert office_hours(words, "Loft 4") == (Meeting(days, start, end, room, "office hours"),)


def test_each_of_several_stretches_is_read() -> None:
    first, second = office_hours("M 1:30-2:30pm, W 10-12pm")
    assert (first.days, first.start) == ((MO,), time(13, 30))
    assert (second.days, second.start, second.end) == ((WE,), time(10), time(12))


@pytest.mark.parametrize("words", ["By appointment", "TBA", "after class", "Mondays, ask for the time", "write to me"])
def test_words_without_days_and_times_give_nothing(words: str) -> None:
    assert office_hours(words, "Loft 4") == ()


def test_a_telephone_number_is_no_room() -> None:
    (hours,) = office_hours("Mon 2-3 pm", "Old Mill 31, 555-0151")
    assert hours.room == "Old Mill 31"


def test_office_hours_stand_after_the_classes_of_their_course_and_only_once() -> None:
    lecture = Meeting((MO,), time(9), time(9, 50))
    own = Meeting((TU,), time(9), time(10), kind="office hours")
    told = make_course(CourseFacts(code="AAA", meetings=(lecture,), office_hours="Tue 1-2 pm"))
    listed = make_course(CourseFacts(code="BBB", meetings=(lecture, own), office_hours="Tue 9-10"))
    rows = [(course.key, meeting.kind) for course, meeting in class_rows(ResolvedTerm(TERM, (told, listed)))]
    assert rows == [("AAA", ""), ("AAA", "office hours"), ("BBB", ""), ("BBB", "office hours")]
