"""What looks like work and is none: reviews, topics, what is handed out, returned or denied."""

from __future__ import annotations

import pytest

from syllabus_io.outline.titles import is_name

from .documents import document
from .reading import notation, titles, work


@pytest.mark.parametrize(
    "topic",
    [
        "Quiz review",
        "Review for Exam 2",
        "Midterm review session",
        "Introduction to project management",
        "Hypothesis testing; t-tests",
        "Test of independence",
        "Tests for normality",
        "Printing, test prints",
        "Kidneys: stress test, lab tests",
        "The Okonkwo-Lindqvist test",
        "Discuss essay 1",
        "Exam 1 returned",
        "Midterm grades posted",
        "Homework 4 handed out",
        "Assignment 2 is assigned",
        "Project 1 introduced",
        "Work on term project in class",
        "Office hours for final project",
        "Project work",
        "All about oral presentations",
        "General principles of presentations",
        "Guest lecturer presentation",
        "Watch presentations",
        "Presentation guidelines",
        "Make-up labs",
        "Study for the final exam",
        "Surprise exam (the paradox)",
        "Q&A before the exam",
        "Exam covers modules 1-6",
        "Lab 3: Motion on an inclined plane",
        "Group critique of exercise 2",
        "The parts of judge and jury",
        "4.3 Second derivative test",
        "11.6 Root test",
    ],
)
def test_topics_that_are_no_work(topic: str) -> None:
    assert titles(document([["Date", "Topic"], ["Oct 14", topic], ["Oct 16", "Waves"], ["Oct 19", "Light"]])) == []


@pytest.mark.parametrize(
    "entry",
    ["None", "N/A", "No quiz today", "No homework", "Good luck on your exams!", "Be ready to present", "—", "TBA"],
)
def test_due_cells_that_are_empty_in_words(entry: str) -> None:
    assert titles(document([["Date", "Due"], ["Oct 14", entry], ["Oct 16", ""], ["Oct 19", ""]])) == []


@pytest.mark.parametrize(
    "entry", ["Reading: ch. 3", "Read Smith pp. 4-9", "Chapters 4 and 5", "Instructor at a meeting"]
)
def test_assignments_that_are_no_graded_work(entry: str) -> None:
    assert titles(document([["Date", "Assignments"], ["Oct 14", entry], ["Oct 16", ""], ["Oct 19", ""]])) == []


@pytest.mark.parametrize(
    ("topic", "title"),
    [
        ("EXAM I (all material covered to date)", "EXAM I"),
        ("No class, evening midterm", "Evening midterm"),
        ("Solutions and populations Assignment 1 is due & Assignment 2 is assigned", "Assignment 1"),
        ("In-class exam", "In-class exam"),
        ("Final project presentations", "Final project presentations"),
        ("Syllabus quiz", "Syllabus quiz"),
        ("Hands on test", "Hands on test"),
    ],
)
def test_topics_that_are_work(topic: str, title: str) -> None:
    assert titles(document([["Date", "Topic"], ["Oct 14", topic], ["Oct 16", "Waves"], ["Oct 19", "Light"]])) == [title]


def test_a_week_number_before_a_work_word_is_its_name() -> None:
    rows = [["Date", "Homework"], ["Jan 28", "Week 2 Lab (upload at 8pm)"], ["Jan 31", "Assignment 2"], ["Feb 4", ""]]
    assert titles(document(rows)) == ["Week 2 Lab", "Assignment 2"]


def test_what_goes_out_is_not_due() -> None:
    rows = [["Date", "Homework"], ["Sep 14", "HW0 out"], ["Sep 16", "HW0 due, HW1 out"], ["Oct 19", "HW1 due; HW2 out"]]
    assert titles(document(rows)) == ["HW0", "HW1"]


def test_what_an_exam_covers_is_not_its_date() -> None:
    text = (
        "Midterm Exam (100 points): The midterm covers weeks 1-7 and is scheduled for Monday, October 19 during class."
    )
    found = work(document(text))
    assert [(item.title, notation(item.mentions[0]), item.covers) for item in found] == [
        ("Midterm Exam", "month_day(10, 19, MO)", "Weeks 1-7")
    ]


def test_square_brackets_behind_a_topic() -> None:
    found = titles(
        document(
            "Lecture 1 (9/14): Overview", "Lecture 2 (9/16): Syntax [HW1 due]", "Lecture 3 (9/21): Parsing [Quiz 1]"
        )
    )
    assert found == ["HW1", "Quiz 1"]


def test_due_lines_in_a_column_of_topics_and_assignments() -> None:
    rows = [
        ["Session", "Topics and assignments"],
        ["Session 1\nSeptember 14", "Welcome"],
        ["Session 2\nSeptember 21", "Leadership styles\nDue: Leadership inventory"],
        ["Session 3\nOctober 19", "Midterm examination"],
    ]
    assert titles(document(rows)) == ["Leadership inventory", "Midterm examination"]


def test_homework_for_the_next_class_is_not_due_in_its_row() -> None:
    rows = [
        ["Class", "In class", "Homework for next class"],
        ["Sep 14", "Intro", "Sketch 1"],
        ["Sep 16", "Critique of sketch 1", "Sketch 2"],
        ["Sep 21", "Critique of sketch 2", ""],
    ]
    found = {item.title: notation(item.mentions[0]) for item in work(document(rows))}
    assert found == {
        "Sketch 1": "month_day(9, 16)",
        "Sketch 2": "month_day(9, 21)",
    }


@pytest.mark.parametrize(
    "sentence",
    [
        "Homework turned in after the due date (e.g., due Oct 5, turned in Oct 6) is not accepted.",
        "Make-up exams will be given on December 9.",
        "Regrade requests for exam 1 must be made by October 20.",
        "See the project report of May 3, 2018 for details.",
        "Smith, J. (2019). Report on testing. Journal of Exams, 12(3), 4-9. Retrieved October 3, 2020.",
    ],
)
def test_sentences_that_date_no_work(sentence: str) -> None:
    assert titles(document(sentence)) == []


def test_an_exam_period_is_marked() -> None:
    item = work(document("Final examinations: December 14-18."))[0]
    assert item.mentions[0].doubts == ("the outline gives only the period, and not the day",)


def test_a_survey_in_a_column_of_due_work_is_marked_since_it_may_carry_no_grade() -> None:
    rows = [
        ["Date", "Topic", "Due"],
        ["Nov 30", "Tides", "Opinion survey"],
        ["Dec 2", "Currents", "Tide log survey (5 pts)"],
    ]
    doubts = {item.title: item.mentions[0].doubts for item in work(document(rows))}
    assert [title for title, found in doubts.items() if found] == ["Opinion survey"]


def test_a_column_without_heading_that_mixes_topics_and_work_is_one_of_topics() -> None:
    rows = [
        ["Jan 12", "Entropy; Halvorsen's 1948 paper"],
        ["Jan 19", "Prefix codes; HW 1 out"],
        ["Jan 26", "HW 1 due; Channels"],
        ["Jan 28", "Hypothesis tests, bounds"],
        ["Feb 2", "Midterm 1"],
        ["Feb 4", "The Okonkwo-Lindqvist test"],
        ["Feb 9", "HW 2 due; Distortion"],
        ["Feb 16", "Universal tests for randomness"],
    ]
    assert titles(document("Schedule", rows)) == ["HW 1", "Midterm 1", "HW 2"]


@pytest.mark.parametrize("title", ["is due by", "Is due", "Due", "must be handed in on"])
def test_what_is_left_of_a_sentence_is_no_name(title: str) -> None:
    assert not is_name(title)


def test_short_names_are_names() -> None:
    assert all(map(is_name, ("Due diligence memo", "Beat sheet", "On liberty essay", "IS project")))
