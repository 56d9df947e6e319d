"""Facts about a course: code, title, term, people, meetings, years."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import time

import pytest

from syllabus_io.extract.document import Block, Line
from syllabus_io.outline.course import read_course, read_years
from syllabus_io.outline.terms import find_terms
from tests.outline.documents import document, heading, line, note

Part = str | Block | Sequence[Sequence[str | None]]


@pytest.mark.parametrize(
    ("parts", "code", "section"),
    [
        (["BIO 110: General Biology", "Prerequisite: CHEM 101 or BIO 100."], "BIO 110", None),
        (["Course: ENG-101-02 Composition"], "ENG-101", "02"),
        (["MATH 20101-650", "Linear Methods"], "MATH 20101", "650"),
        (["6.042 Mathematics for Computing", "Prerequisite: 18.01"], "6.042", None),
        (["FROG 3-01: Ponds", "FROG 3-01 – Spring 2025"], "FROG 3-01", None),
        (["Mathematics Department", "201-016-50", "Winter 2025"], "201-016-50", None),
        (["Intro to Robotics (ENGR 240)", "Tech 101"], "ENGR 240", None),
        (["Spring 2027 CHEM 220L Organic Laboratory, Section 3"], "CHEM 220L", "3"),
        (["ART 100/200: Drawing"], "ART 100", None),
        (["Chemistry 101 - Matter", "CHEM 101 is a course about matter."], "CHEM 101", None),
        (["Pond life", "Office: IB 335", "Put the course code (FRG201) into the subject line."], "FRG201", None),
        (["Fall 2026", "Room 105", "Week 12", "Chapter 5"], None, None),
    ],
)
def test_code_and_section(parts: list[str], code: str | None, section: str | None) -> None:
    course = read_course(document(*parts))
    assert (course.code, course.section) == (code, section)


def test_code_in_a_running_head_only() -> None:
    course = read_course(document("Welcome to ponds", notes=[note("running", "FROG 210 Pond Ecology – Autumn 2026")]))
    assert (course.code, course.term) == ("FROG 210", "Autumn 2026")


@pytest.mark.parametrize(
    ("parts", "title"),
    [
        (["BIO 110: General Biology"], "General Biology"),
        (["HIST 330W", "The Silk Roads", "Fall 2025"], "The Silk Roads"),
        (
            ["Syllabus for Ponds: History and Present of", "Frogs in the North (FROG 255)"],
            "Ponds: History and Present of Frogs in the North",
        ),
        ([[["Course", "GEOG 150"], ["Title", "World Regions"]]], "World Regions"),
        (["STAT 301 Section 2 Applied Statistics"], "Applied Statistics"),
        (["PUBP 12: Public Policy"], "Public Policy"),
        (["FROG 12 | Fall 2025", "Ada B. Quill", "Course Description"], None),
        (["AP Biology 2025-2026", "Mr. Dunn"], "AP Biology"),
    ],
)
def test_title(parts: list[Part], title: str | None) -> None:
    assert read_course(document(*parts)).title == title


# Michaelmas opens the academic year, semester 2 and spring fall into its second calendar year (common practice,
# no source).
@pytest.mark.parametrize(
    ("text", "name", "years"),
    [
        ("Fall 2024", "Fall 2024", (2024,)),
        ("Winter Quarter 2025", "Winter Quarter 2025", (2025,)),
        ("Michaelmas 2026", "Michaelmas 2026", (2026,)),
        ("Semester 1 2026/27", "Semester 1 2026/27", (2026, 2027)),
        ("Semester 2, 2026/27", "Semester 2, 2026/27", (2027, 2026)),
        ("2024 Spring", "2024 Spring", (2024,)),
        ("Fall Semester, 2025", "Fall Semester, 2025", (2025,)),
        ("2015 Fall BSTAT 53", "2015 Fall", (2015,)),
        ("Summer Session II 2023", "Summer Session II 2023", (2023,)),
    ],
)
def test_terms(text: str, name: str, years: tuple[int, ...]) -> None:
    assert find_terms(text) == ((name, years),)


def test_years_leave_books_out_and_put_the_term_first() -> None:
    outline = document(
        "FROG 2010 Ponds",
        "Spring 2027",
        "A. Quill. 2016. The Pond. Green Press.",
        "Reference: Pond Journal 4 (Oct 2011), edition 2",
        "First class: January 20, 2027",
    )
    assert read_years(outline) == (2027,)


def test_school_year() -> None:
    outline = document("AP Biology 2025-2026", "Mr. Dunn")
    assert (read_course(outline).term, read_years(outline)) == ("2025-2026", (2025, 2026))


def test_people_and_places() -> None:
    course = read_course(
        document(
            heading("BIO 110: General Biology", 1),
            "Instructor: Dr. Ada Quill",
            "Office: Dale 214, Phone: 555-0142, Email: quill@example.edu",
            "Office Hours: Mon 2-3 pm and Wed 10-11 am",
            "TA: Bo Lind",
            "Email: lind@example.edu",
            "Credits: 3",
            "Location: Pell 7",
        )
    )
    assert course.instructor == "Dr. Ada Quill"
    assert course.email == "quill@example.edu"
    assert course.phone == "555-0142"
    assert course.office == "Dale 214"
    assert course.office_hours == "Mon 2-3 pm and Wed 10-11 am"
    assert course.credits == 3
    assert course.room == "Pell 7"


def test_an_unlabelled_name_needs_support() -> None:
    named = document("FROG 12", "Pond Life", "Ada Quill", "quill@example.edu")
    assert read_course(named).instructor == "Ada Quill"
    assert read_course(document("FROG 12", "Linear Methods")).instructor is None


def test_office_hours_told_in_a_sentence() -> None:
    course = read_course(document("FROG 12: Ponds", "My office hours will be Tuesdays after class, 3:00-4:00."))
    assert course.office_hours == "Tuesdays after class, 3:00-4:00"


def codes(parts: Sequence[Part]) -> list[tuple[str, str | None]]:
    meetings = read_course(document(*parts)).meetings
    return [
        ("".join(day.name for day in one.days), one.start.strftime("%H:%M") if one.start else None) for one in meetings
    ]


@pytest.mark.parametrize(
    ("parts", "expected"),
    [
        (["FROG 1", "Class time: MWF 9:00-9:50"], [("MOWEFR", "09:00")]),
        (["FROG 1", "Meeting Days: MW", "Meeting Time: 3:30 PM - 4:45 PM"], [("MOWE", "15:30")]),
        (["FROG 1", "Lecture: Mon & Wed", "10am - 11am", "32-141"], [("MOWE", "10:00")]),
        ([[["Class", "Days & Times", "Room"], ["FROG 1", "Th 7:00PM - 9:50PM", "D 2"]]], [("TH", "19:00")]),
        ([[["Days", "Time", "Room"], ["TTh", "10:00 - 11:15", "Gray 20"]]], [("TUTH", "10:00")]),
        (["FROG 1", "TR 12.00-12.50pm", "F 1-1.50pm"], [("TUTH", "12:00"), ("FR", "13:00")]),
        (
            ["FROG 1", "Classes meet in 12 Brook Hall on Mondays and Wednesdays at 10:00 AM."],
            [("MOWE", "10:00")],
        ),
        (["FROG 1", "Office hours: Monday 2-3 pm", "On line: 8:00-9:00 p.m. Wednesdays"], []),
        (["My office hours are held in the library.", [["Days and Time"], ["Monday: 19:00-21:30"]]], []),
        (["FROG 1", "Fully online, asynchronous"], []),
        (["FROG 1", "Fall 2026, Dr. Ada Quill. Meets MW 11-12:15."], [("MOWE", "11:00")]),
        (["FROG 1", "Spring 2026 | Section 14 | TR 8:00–9:15 | Ms. Ada Quill"], [("TUTH", "08:00")]),
        (["FROG 1", "Fall 2026, online and in person (Tu 6–8:30 pm)"], [("TU", "18:00")]),
        (
            ["FROG 1", "Summer Session B, 2026: June 8 – July 16, Monday–Thursday 9:00–11:20 am"],
            [("MOTUWETH", "09:00")],
        ),
        (
            ["FROG 1", "Fall 2026. Class: Tuesday 0900–1150. Clinical: Thursday 0645–1515, assigned site."],
            [("TH", "06:45"), ("TU", "09:00")],
        ),
        (["FROG 1", [["Week", "Work", "Due"], ["1", "Sketch", "Fri"], ["2", "Plan", "Fri"], ["3", "Talk", "Sun"]]], []),
        (
            ["FROG 1", "TuTh 11:00am-12:20pm", "Discussion sections: M 3-3:50 or W 4-4:50"],
            [("TUTH", "11:00")],
        ),
        (
            ["FROG 1", "Meeting times: Section 01 MWF 10:00-10:50, Section 02 MWF 13:00-13:50"],
            [("MOWEFR", "10:00"), ("MOWEFR", "13:00")],
        ),
    ],
)
def test_meetings(parts: list[Part], expected: list[tuple[str, str | None]]) -> None:
    assert codes(parts) == expected


def test_days_of_a_schedule_with_weekday_columns_stand_without_times() -> None:
    schedule = [["Week", "Tuesday", "Thursday"], *([str(week), "ponds", "frogs"] for week in range(1, 6))]
    assert codes(["FROG 1", schedule]) == [("TUTH", None)]


def test_a_stated_time_beats_the_days_of_the_schedule() -> None:
    schedule = [["Week", "Tuesday", "Thursday"], *([str(week), "ponds", "frogs"] for week in range(1, 6))]
    meetings = read_course(document("FROG 1", "Class hours: TTh 8-9:15", schedule)).meetings
    assert [meeting.start for meeting in meetings] == [time(8)]


def test_an_empty_document_says_nothing() -> None:
    assert read_course(document()).code is None
    assert read_course(document(line("…"))).meetings == ()


def test_a_sentence_that_opens_with_a_word_and_a_number_gives_no_code() -> None:
    lines = [f"Line {number} about ponds and frogs and what lives there." for number in range(30)]
    course = read_course(document(heading("Pond Life II", 1), "Brookside Upper School", *lines, "Under 500 is an F."))
    assert (course.code, course.title) == (None, "Pond Life II")
    lines.append("Students who liked this will like MUSH 210 next year.")
    assert read_course(document(heading("Pond Life II", 1), "Brookside Upper School", *lines)).code is None


@pytest.mark.parametrize(
    ("first", "code", "title"),
    [
        ("LAW2041 Law of Ponds", "LAW2041", "Law of Ponds"),
        ("PS 101: Frogs in Power", "PS 101", "Frogs in Power"),
        ("LG2047 The Law of Ponds", "LG2047", "The Law of Ponds"),
        ("Honors Pond Life, Grade 11", None, "Honors Pond Life"),
    ],
)
def test_subjects_that_are_words_elsewhere_and_titles_with_a_grade(first: str, code: str | None, title: str) -> None:
    lines: list[str | Line] = [
        "Semester 1, 2026/27",
        heading("Marking periods"),
        "PS 3 is due in May; the room is CH 204.",
    ]
    course = read_course(document(heading(first, 1), *lines))
    assert (course.code, course.title) == (code, title)


def test_days_and_numbered_work_that_recur_are_no_course() -> None:
    rows = [["Date", "Due"], *([f"TH 9/{day}", f"MP{number}"] for number, day in enumerate((1, 8, 15, 22, 29)))]
    found = read_course(document("FROG 230 Talk among Frogs", "Autumn 2026", rows))
    assert found.code == "FROG 230"
