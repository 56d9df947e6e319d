"""Meeting patterns. How bare hours are read (1 to 6 after noon, 8 to 12 before) is common practice, no source."""

from __future__ import annotations

import pytest

from syllabus_io.outline.meeting_times import find_days, find_meetings
from syllabus_io.outline.read import read_outline
from syllabus_io.resolve.term import Meeting

from .documents import document


def written(meeting: Meeting) -> str:
    days = "".join(day.name for day in meeting.days)
    start = meeting.start.strftime("%H:%M") if meeting.start else "?"
    end = meeting.end.strftime("%H:%M") if meeting.end else "?"
    return f"{days} {start}-{end}"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("TTh 10:00-11:15", "TUTH 10:00-11:15"),
        ("Tues/Thurs 9:30am–10:45am in Hall 3", "TUTH 09:30-10:45"),
        ("Mondays 2–4 pm", "MO 14:00-16:00"),
        ("M W F 9:00–9:50", "MOWEFR 09:00-09:50"),
        ("Mo, Tu, We, Th 1-3 pm", "MOTUWETH 13:00-15:00"),
        ("TR 12.00-12.50pm", "TUTH 12:00-12:50"),
        ("F 1-1.50pm", "FR 13:00-13:50"),
        ("TR 1:15-5:05", "TUTH 13:15-17:05"),
        ("MWF 12:20-1:10pm Dale 135", "MOWEFR 12:20-13:10"),
        ("6:40 p.m. - 10:05 p.m. Mondays", "MO 18:40-22:05"),
        ("Thursdays from 06:50 to 09:50 PM", "TH 18:50-21:50"),
        ("11:00–1:00 pm Wednesdays", "WE 11:00-13:00"),
        ("MW 14:00-15:15", "MOWE 14:00-15:15"),
        ("Monday through Thursday 1330-1445", "MOTUWETH 13:30-14:45"),
        ("M-F 8:00-8:50", "MOTUWETHFR 08:00-08:50"),
        ("Tue-Thu 11:30-12:45", "TUTH 11:30-12:45"),
        ("Thursdays, noon to 1:15", "TH 12:00-13:15"),
        ("MWF 7:30-8:20", "MOWEFR 07:30-08:20"),
        ("W 7-9:45", "WE 19:00-21:45"),
        ("Tuesdays and Thursdays, 8 July–14 August, 10:00 am–1:00 pm", "TUTH 10:00-13:00"),
    ],
)
def test_one_pattern(text: str, expected: str) -> None:
    assert [written(meeting) for meeting in find_meetings(text)] == [expected], f"{text!r} was read otherwise"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lecture MWF 10-10:50; Lab T 2-4:50 Room 12", ["MOWEFR 10:00-10:50", "TU 14:00-16:50"]),
        ("Mon 10-11 am, Wed 11 am-12 pm", ["MO 10:00-11:00", "WE 11:00-12:00"]),
        ("Tu/Thu 2:30-3:30pm Gray 1\n3:30-5:30pm Gray 2", ["TUTH 14:30-15:30", "TUTH 15:30-17:30"]),
        ("on most Mondays and Wednesdays at 10:00 AM and 11:00 AM", ["MOWE 10:00-?", "MOWE 11:00-?"]),
    ],
)
def test_several_patterns(text: str, expected: list[str]) -> None:
    assert [written(meeting) for meeting in find_meetings(text)] == expected


@pytest.mark.parametrize(
    "text",
    [
        "A/B days 8:15-9:00",
        "Read chapters 10-12 by Monday",
        "My office hours are Tuesdays 2-3 pm",
        "The final exam is on Monday, 10:30 am - 12:30 pm",
    ],
)
def test_what_is_no_class(text: str) -> None:
    assert find_meetings(text) == (), f"{text!r} states no class"


def test_office_hours_behind_a_class_are_left_out() -> None:
    text = "This class meets Tuesdays, 7:30 a.m.-8:45 a.m. My office hours are Tuesdays after class, 8:45-9:45."
    assert [written(meeting) for meeting in find_meetings(text)] == ["TU 07:30-08:45"]


def test_room_and_kind_come_along() -> None:
    lecture, lab = find_meetings("Lectures: MWF 9:00-9:50 in Dale Hall 7; Lab: Friday 2-5 pm in Room B12")
    assert (lecture.room, lecture.kind) == ("Dale Hall 7", "lecture")
    assert (lab.room, lab.kind) == ("Room B12", "lab")


def test_words_that_only_begin_like_days_are_no_days() -> None:
    assert find_days("The monkey sat with friends at the month's end") == ()


def test_short_names_with_a_full_stop() -> None:
    for name in ("Mo", "Tu", "We", "Th", "Fr", "Mon", "Tue", "Tues", "Weds", "Thu", "Thurs", "Sat", "Sun"):
        assert len(find_meetings(f"{name}. 10:00-11:15")) == 1, name
    assert [day.name for meeting in find_meetings("Tu. & Th. 9-10:15 am") for day in meeting.days] == ["TU", "TH"]


def test_the_day_of_a_final_in_a_column_headed_when_is_no_weekly_class() -> None:
    outline = document(
        "Autumn 2026",
        "MWF 9-9:50",
        [["Requirement", "When"], ["Map quiz", "Sept. 9"], ["Final exam", "Mon., Dec. 14, 8-10 am"]],
    )
    assert [written(one) for one in read_outline(outline).course.meetings] == ["MOWEFR 09:00-09:50"]
