"""Times of day that are stated once, for all work or for one kind of it."""

from __future__ import annotations

import pytest

from .documents import document
from .reading import dated_work

ROWS = [
    ["Date", "Topic", "Due"],
    ["Oct 5", "Sets", "Homework 1"],
    ["Oct 12", "Maps", "Field report 1"],
    ["Oct 19", "Trees", "Midterm exam"],
]


@pytest.mark.parametrize(
    ("said", "timed"),
    [
        ("Everything except exams is handed in online by 6:00 pm on the date in the last column.", "both"),
        ("All work is due at 6 p.m. on the day shown.", "both"),
        ("Unless otherwise noted, deadlines are at 6 pm.", "both"),
        ("Assignments are due by 6 pm.", "both"),
        ("All group papers are due by the beginning of class time (6 PM) unless noted.", "both"),
        ("Each unit opens at 8 am on Monday and closes Sunday at 6 pm, but the last one.", "both"),
        ("Homework is always due at 6:00 pm, date shown.", "Homework 1"),
        ("Upload your homework by 6 pm on its due date.", "Homework 1"),
        (
            "Field report. You visit a site and describe it. It is uploaded as one file by 6 pm on the date listed.",
            "Field report 1",
        ),
        ("Late homework is collected until 6 pm the next day.", ""),
        ("Homework is handed out by 6 pm.", ""),
        ("If you miss class, submit your notes by 6 pm.", ""),
        ("Office hours end at 6 pm; submissions are read there.", ""),
        ("Reply to two posts by 6 pm.", ""),
    ],
)
def test_a_time_stated_once(said: str, timed: str) -> None:
    found = dated_work(document(ROWS, said))
    with_time = {key.split(": ")[1] for key, value in found.items() if value.endswith("@18:00")}
    expected = {"Homework 1", "Field report 1"} if timed == "both" else {timed} - {""}
    assert with_time == expected, said


def test_a_time_of_its_own_is_kept() -> None:
    rows = [["Date", "Due"], ["Oct 5", "Homework 1 (9 am)"], ["Oct 12", "Homework 2"]]
    found = dated_work(document(rows, "All assignments are due by 11:59 pm."))
    assert list(found.values()) == ["month_day(10, 5) @09:00", "month_day(10, 12) @23:59"]


def test_the_time_of_one_kind_of_work_goes_before_that_of_all() -> None:
    said = "All work is due by 5 pm. Homework is due by 9 am."
    found = dated_work(document(ROWS, said))
    assert found["assignment: Homework 1"] == "month_day(10, 5) @09:00"
    assert found["assignment: Field report 1"] == "month_day(10, 12) @17:00"


def test_kinds_of_work_that_are_named_together() -> None:
    rows = [["Date", "Due"], ["Oct 5", "Journal 1"], ["Oct 12", "Site brief: proposal"]]
    found = dated_work(document(rows, "Journals and briefs are submitted online before 11:59 p.m. local time."))
    assert [value.split(" @")[1] for value in found.values()] == ["23:59", "23:59"]


def test_an_exam_on_a_day_of_its_own_does_not_take_the_hour_of_the_homework() -> None:
    rows = [["Week of", "Topic", "Due"], ["Sep 21", "Sets", "HW 4; Exam 1 Wed 9/23"], ["Sep 28", "Maps", "HW 5"]]
    found = dated_work(document(rows, "Homework is due every Friday at 11:59 pm."))
    assert found["exam: Exam 1"] == "month_day(9, 23, WE)"
