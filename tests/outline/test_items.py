"""One deliverable, once: what is merged and what is kept apart."""

from __future__ import annotations

import pytest

from syllabus_io.outline.items import title_numbers, title_words

from .documents import document, heading
from .reading import dated_work, notation, titles, work


def test_schedule_grading_table_and_prose_name_one_exam() -> None:
    found = work(
        document(
            [
                ["Date", "Topic"],
                ["Sep 30", "Midterm 1"],
                ["Oct 28", "Midterm 2"],
                ["Dec 15", "Final exam, 9:00-11:00 am"],
            ],
            heading("Grading"),
            "Midterm 1 (September 30): 20%",
            "Midterm 2 (October 28): 20%",
            "Final exam (December 15): 40%",
        )
    )
    assert [(item.title, len(item.mentions)) for item in found] == [
        ("Midterm 1", 2),
        ("Midterm 2", 2),
        ("Final exam", 2),
    ]


def test_two_dates_for_one_exam_are_one_item_with_both() -> None:
    found = work(
        document(
            [["Date", "Topic"], ["Sep 30", "Midterm"], ["Oct 28", "Groups"], ["Dec 15", "Final exam"]],
            heading("Exams"),
            "The midterm exam will be held on October 2.",
        )
    )
    assert [notation(mention) for mention in found[0].mentions] == ["month_day(9, 30)", "numeric_date(10, 2)"] or [
        notation(mention) for mention in found[0].mentions
    ] == ["month_day(9, 30)", "month_day(10, 2)"]
    assert [item.title for item in found][1:] == ["Final exam"]


def test_a_draft_and_a_final_are_two() -> None:
    found = titles(
        document(
            [["Date", "Due"], ["Sep 14", "Essay 1 draft"], ["Sep 28", "Essay 1"], ["Oct 15", "Essay 1 peer review"]]
        )
    )
    assert found == ["Essay 1 draft", "Essay 1", "Essay 1 peer review"]


def test_a_short_form_and_its_words_are_one_work() -> None:
    found = work(
        document(
            [["Date", "Due"], ["Sep 14", "CFP Plan"], ["Sep 21", "Quiz 1"]],
            [["Assignment", "Points", "Due dates"], ["Community Field Project", "60", "Plan: 9/14\nReport: 10/19"]],
        )
    )
    assert [(item.title, len(item.mentions)) for item in found if "lan" in item.title] == [
        ("Community Field Project: Plan", 2)
    ]


def test_a_requirements_table_is_trusted_before_a_topic_cell() -> None:
    item = work(
        document(
            [["Date", "Topic", "Other"], ["Nov 18", "Tides", "Assignment 5"], ["Nov 23", "Winds", ""]],
            [["Work", "Points", "Due date"], ["Assignment 5", "10", "11/16"], ["Assignment 6", "10", "11/30"]],
        )
    )[0]
    assert [notation(mention) for mention in item.mentions] == ["month_day(11, 16)", "month_day(11, 18)"]


@pytest.mark.parametrize(
    ("cell", "expected"),
    [
        ("HW 1, Quiz 1, Lab 1", ["HW 1", "Quiz 1", "Lab 1"]),
        ("HW 2 & 3", ["HW 2", "HW 3"]),
        ("Homeworks 4-6", ["Homework 4", "Homework 5", "Homework 6"]),
        ("HW A1/A2", ["HW A1", "HW A2"]),
        ("Quizzes 1 and 2", ["Quiz 1", "Quiz 2"]),
        ("Quiz: Chapters 13 & 14", ["Quiz: Chapters 13 & 14"]),
        ("Quiz Ch4 (10-13); Ch12 (39-42)", ["Quiz Ch4 (10-13); Ch12 (39-42)"]),
        ("Essay 1 draft; Essay 1 peer review", ["Essay 1 draft", "Essay 1 peer review"]),
        ("Poster presentation and final paper", ["Poster presentation", "Final paper"]),
        ("Written report and presentation", ["Written report and presentation"]),
        ("1. Video quiz\n2. Online quiz\n3. Exam 1", ["Video quiz", "Online quiz", "Exam 1"]),
        ("Lab 3 due Friday at 8pm (upload)", ["Lab 3"]),
    ],
)
def test_what_a_due_cell_holds(cell: str, expected: list[str]) -> None:
    assert titles(document([["Date", "Due"], ["Sep 14", cell], ["Sep 21", ""], ["Sep 28", ""]])) == expected


def test_a_run_of_due_dates_in_one_cell() -> None:
    cell = "Board 1 due Jan 29th (5 pm) Map quiz due Jan 30th (5 pm) Reply to classmates by February 8th, (5pm)"
    found = work(
        document([["Week", "Dates", "Assignments"], ["1", "Jan 27 - Feb 9", cell], ["2", "Feb 10 - 12", "Essay 1"]])
    )
    assert [(item.title, notation(item.mentions[0])) for item in found[:3]] == [
        ("Board 1", "month_day(1, 29) @17:00"),
        ("Map quiz", "month_day(1, 30) @17:00"),
        ("Reply to classmates", "numeric_date(2, 8) @17:00"),
    ] or [item.title for item in found[:3]] == ["Board 1", "Map quiz", "Reply to classmates"]


@pytest.mark.parametrize(
    ("title", "numbers"),
    [
        ("Homework 03", {"3"}),
        ("Midterm II", {"2"}),
        ("HW A1", {"A1"}),
        ("Homework B", {"B"}),
        ("PS4", {"4"}),
        ("Final exam", set()),
    ],
)
def test_numbers_of_titles(title: str, numbers: set[str]) -> None:
    assert title_numbers(title) == numbers


def test_words_of_titles_are_compared_in_one_spelling() -> None:
    assert title_words("Mid-Term Exams") == title_words("Midterm exam")
    assert title_words("Problem Set 3") == title_words("PS3")


def test_works_with_one_number_and_no_work_word_are_not_the_same() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Topic", "Due"],
                ["Oct 22", "Water", "Study 3"],
                ["Nov 12", "Metal", "Sketchbook 3"],
                ["Nov 19", "Glass", ""],
            ]
        )
    )
    assert found == {"assignment: Study 3": "month_day(10, 22)", "assignment: Sketchbook 3": "month_day(11, 12)"}


def test_a_third_naming_joins_two_that_could_not_be_joined_alone() -> None:
    found = work(
        document(
            [["Date", "Topic"], ["Oct 27", "Evening midterm"], ["Nov 16", "Waves"], ["Nov 18", "Light"]],
            [["Work", "Points", "Due date"], ["Midterm 2", "20", "10/27"], ["Final exam", "30", "12/14"]],
            "Two midterms take place on September 18th and October 23rd.",
        )
    )
    assert [(item.title, len(item.mentions)) for item in found if item.number == 2] == [("Midterm 2", 3)]


def test_two_series_that_agree_on_no_day_stay_apart() -> None:
    outline = document(
        "Dictation quizzes come on Mondays: Jan 26, Feb 9, and Feb 23.",
        [["Date", "Due"], ["1/27", "Quiz 1"], ["2/12", "Quiz 2"], ["3/24", "Quiz 3"]],
    )
    assert sorted(titles(outline)) == [
        "Dictation quiz 1",
        "Dictation quiz 2",
        "Dictation quiz 3",
        "Quiz 1",
        "Quiz 2",
        "Quiz 3",
    ]


def test_one_series_by_two_names_keeps_its_contradictions() -> None:
    outline = document(
        "Homework assignments are due Jan 26 and Feb 9.",
        [["Date", "Due"], ["1/27", "Homework 1"], ["2/12", "Homework 2"], ["3/24", "Homework 3"]],
    )
    assert len(titles(outline)) == 3


def test_the_first_of_two_things_due_together() -> None:
    outline = document(
        "Research paper. It comes in stages: a proposal with a working bibliography (Oct. 1) and the paper (Dec. 10).",
        [["Date", "Due"], ["Oct 1", "Proposal + working bibliography"], ["Dec 3", "Talks"], ["Dec 10", "Paper"]],
    )
    assert sum("roposal" in title for title in titles(outline)) == 1
