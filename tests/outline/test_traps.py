"""What looks like work and is none: reviews, topics, what is handed out, returned or denied."""

from __future__ import annotations

import pytest

from .documents import document
from .reading import titles


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
