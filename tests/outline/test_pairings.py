"""Which work of a sentence its dates belong to, whichever of the two comes first."""

from __future__ import annotations

import pytest

from .documents import document, heading
from .reading import dated_work


@pytest.mark.parametrize(
    "sentence",
    [
        "Exam dates: February 9 (Exam 1), March 16 (Exam 2), May 4 (Final).",
        "Exams: on February 9 – Exam 1, on March 16 – Exam 2, on May 4 – Final.",
        "Exam 1 (February 9), Exam 2 (March 16), Final (May 4)",
        "Exam 1 is on February 9, Exam 2 on March 16, and the final on May 4.",
        "Exam #1 – Mon. Feb. 9; Exam #2 – Mon. Mar. 16; Final – Mon. May 4",
    ],
)
def test_names_before_and_behind_their_dates(sentence: str) -> None:
    found = {key.replace("#", ""): value for key, value in dated_work(document(sentence)).items()}
    days = {key: value.replace(", MO", "") for key, value in found.items()}
    assert days == {
        "exam: Exam 1": "month_day(2, 9)",
        "exam: Exam 2": "month_day(3, 16)",
        "exam: Final exam": "month_day(5, 4)",
    }


def test_notes_in_brackets_behind_dates_part_no_list() -> None:
    found = dated_work(
        document("Tests will be on February 9 (chapters 1-4), March 16 (chapters 5-8) and April 20 (chapters 9-12).")
    )
    assert found == {
        "exam: Test 1": "month_day(2, 9)",
        "exam: Test 2": "month_day(3, 16)",
        "exam: Test 3": "month_day(4, 20)",
    }


def test_weights_in_brackets_make_no_fractions_of_numeric_dates() -> None:
    found = dated_work(document("We have two exams on 2/11 and 3/25 (15% each) and a take-home final due 5/6 (20%)."))
    assert set(found.values()) == {"numeric_date(2, 11)", "month_day(3, 25)", "numeric_date(5, 6)"}


@pytest.mark.parametrize(
    ("sentence", "title", "date"),
    [
        ("Homework 3 (assigned Feb 2) is due Feb 9.", "Homework 3", "month_day(2, 9)"),
        ("Homework 4 will be handed out Feb 9 and collected Feb 16.", "Homework 4", "month_day(2, 16)"),
        (
            "The take-home final will be posted on April 27 and must be returned by May 1.",
            "Take-home final",
            "month_day(5, 1)",
        ),
        (
            "There is a final exam during the scheduled final exam period (May 6).",
            "Final exam",
            "month_day(5, 6)",
        ),
        ("Visit the mill on March 19 and hand in a summary essay by March 26.", "Summary essay", "month_day(3, 26)"),
    ],
)
def test_the_day_of_handing_out_is_not_the_day_it_is_due(sentence: str, title: str, date: str) -> None:
    found = dated_work(document(sentence))
    assert {key.split(": ", 1)[1]: value for key, value in found.items()} == {title: date}


def test_a_list_goes_on_with_what_is_due() -> None:
    found = dated_work(
        document(
            "The annotated bibliography is due on February 27, a full draft April 3, and the final paper on May 1."
        )
    )
    assert found == {
        "assignment: Annotated bibliography": "month_day(2, 27)",
        "assignment: Draft": "month_day(4, 3)",
        "assignment: Final paper": "month_day(5, 1)",
    }


def test_days_that_a_rule_only_introduces() -> None:
    found = dated_work(document("Problem sets are due in class on the following Tuesdays: 1/27, 2/17 and 2/24."))
    assert found == {
        "assignment: Problem set 1": "month_day(1, 27)",
        "assignment: Problem set 2": "month_day(2, 17)",
        "assignment: Problem set 3": "month_day(2, 24)",
    }


def test_the_heading_names_the_exam_of_a_line_that_is_all_date() -> None:
    found = dated_work(document(heading("Final exam"), "Tuesday, May 5, 8:00–10:00 a.m., in the usual room"))
    assert found == {"exam: Final exam": "month_day(5, 5, TU) @08:00"}
