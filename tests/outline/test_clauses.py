"""Clauses of running text: requests, sentences that open a paragraph, runs of dates, work that hangs on other work."""

from __future__ import annotations

import pytest

from .documents import document
from .reading import dated_work, notation, titles, work


@pytest.mark.parametrize(
    "sentence",
    [
        "Anyone who needs extra time in the tests must contact the learning centre by October 9.",
        "Athletes who travel on a quiz day have to tell me by September 22.",
        "If you want the exam in large print, please ask the office before November 3.",
        "You should register for the oral exam with the department by May 2.",
        "Please see me about a topic for the essay by March 3.",
    ],
)
def test_a_day_to_speak_to_somebody_dates_no_work(sentence: str) -> None:
    assert titles(document(sentence)) == []


def test_a_sentence_at_the_head_of_a_paragraph_names_no_work() -> None:
    found = dated_work(
        document(
            "There are three essays and one talk in this course. Essay 1 is due on Tuesday, February 9. Essay 2 is due "
            "on Tuesday, March 16."
        )
    )
    assert found == {
        "assignment: Essay 1": "month_day(2, 9, TU)",
        "assignment: Essay 2": "month_day(3, 16, TU)",
    }


def test_dates_joined_by_and_on() -> None:
    found = dated_work(document("The log is handed in twice, on Monday, March 1, and on Monday, April 12."))
    assert found == {"assignment: Log 1": "month_day(3, 1, MO)", "assignment: Log 2": "month_day(4, 12, MO)"}


def test_and_on_may_begin_with_other_work() -> None:
    found = dated_work(document("The lab report is due on May 3, and on May 10 the final exam is held."))
    assert found["assignment: Lab report"] == "month_day(5, 3)"
    assert "assignment: Lab report 2" not in found


def test_work_that_is_due_some_time_after_other_work() -> None:
    found = dated_work(
        document("The field test is on Thursday, April 8. Two weeks after the field test you hand in a reflection.")
    )
    assert found["assignment: Reflection"] == 'offset(anchor("field test"), 2, week)'


@pytest.mark.parametrize(
    "sentence",
    [
        "Corrections must be handed in one week after the exam is returned.",
        "One week after each test you may submit corrections.",
    ],
)
def test_what_hangs_on_the_day_something_is_given_back_has_no_date(sentence: str) -> None:
    assert titles(document("The exam is on May 4.", sentence)) == ["Exam"]


def test_a_label_before_a_date_that_counts_from_other_work() -> None:
    found = dated_work(
        document("Essay 1 is due on May 3. Partner summary: one week after Essay 1, hand in a page on another essay.")
    )
    assert found["assignment: Partner summary"] == 'offset(anchor("essay 1"), 1, week)'


def test_a_day_on_which_you_hand_something_in() -> None:
    found = dated_work(document("On Friday, May 7, you hand in your journal. By May 21, the second draft is due."))
    assert found == {"assignment: Journal": "month_day(5, 7, FR)", "assignment: Second draft": "month_day(5, 21)"}


def test_a_step_on_the_way_to_other_work() -> None:
    found = dated_work(
        document("An outline of Essay 2 is due on March 3, and Essay 2 itself (1,500 words) on March 24, at noon.")
    )
    assert found == {
        "assignment: Outline for Essay 2": "month_day(3, 3)",
        "assignment: Essay 2": "month_day(3, 24) @12:00",
    }


def test_the_weight_in_brackets_is_that_of_the_work() -> None:
    items = work(
        document(
            "Essay 1 (900 words, 15 percent of the grade) is due on March 3. Essay 2 (25%) is due on April 7. "
            "Essay 3 (5 pages, 10% each) is due on May 5. The two tests (40 points) are on May 10 and May 17."
        )
    )
    weights = {item.title: item.weight.percent if item.weight else None for item in items}
    assert weights == {"Essay 1": 15.0, "Essay 2": 25.0, "Essay 3": None, "Test 1": None, "Test 2": None}


def test_a_stretch_with_weekdays_and_commas_is_a_window() -> None:
    (item,) = work(document("The take-home exam may be written at any time from Monday, May 10, to Wednesday, May 12."))
    assert notation(item.mentions[0]) == "span(month_day(5, 10, MO), month_day(5, 12, WE))"


def test_each_sentence_behind_a_plural_lead_names_its_own_work() -> None:
    found = dated_work(
        document(
            "Tests. Test 1 (unit 1) is given on Monday, May 3; Test 2 on Monday, May 17. The final exam is on June 1."
        )
    )
    assert found == {
        "exam: Test 1": "month_day(5, 3, MO)",
        "exam: Test 2": "month_day(5, 17, MO)",
        "exam: Final exam": "month_day(6, 1)",
    }


def test_labels_in_brackets_behind_the_dates_of_a_series() -> None:
    found = dated_work(document("The tests are on May 3 (weather), May 17 (soil) and June 1 (water)."))
    assert found == {
        "exam: Test 1: weather": "month_day(5, 3)",
        "exam: Test 2: soil": "month_day(5, 17)",
        "exam: Test 3: water": "month_day(6, 1)",
    }


def test_a_day_without_its_month_takes_that_of_its_paragraph() -> None:
    found = dated_work(document("May. The first quiz is on Friday the 14th, and the exam is on May 27."))
    assert found == {"quiz: First quiz": "month_day(5, 14, FR)", "exam: Exam": "month_day(5, 27)"}


def test_a_day_without_any_month_parts_the_works_beside_it() -> None:
    found = dated_work(document("The quiz is on Friday the 14th, and the meeting takes place on May 27."))
    assert found == {}


def test_they_and_it_stand_for_the_work_of_the_sentence_before() -> None:
    found = dated_work(
        document(
            "Three lab reports will be written. They are due at noon on May 3, May 10 and May 17.",
            "There is one essay. It must be handed in by June 1.",
            "The essays are long. It is due to the weather that we stay in on June 7.",
        )
    )
    assert found == {
        "assignment: Lab report 1": "month_day(5, 3) @12:00",
        "assignment: Lab report 2": "month_day(5, 10) @12:00",
        "assignment: Lab report 3": "month_day(5, 17) @12:00",
        "assignment: Essay": "month_day(6, 1)",
    }


def test_steps_behind_the_label_of_their_sentence() -> None:
    found = dated_work(
        document(
            "Quiz 1 is on May 4. Water project: proposals are due May 6; reports are due May 20, by 5 pm; and groups "
            "present on May 27 and 28."
        )
    )
    assert found == {
        "quiz: Quiz 1": "month_day(5, 4)",
        "project: Water project proposal": "month_day(5, 6)",
        "project: Water project report": "month_day(5, 20) @17:00",
        "presentation: Water project presentation 1": "month_day(5, 27)",
        "presentation: Water project presentation 2": "month_day(5, 28)",
    }


@pytest.mark.parametrize(
    ("sentence", "title"),
    [
        ("The listening test is on May 3.", "Listening test"),
        ("Your river-bank report is due on May 3.", "River-bank report"),
        ("The next quiz is on May 3.", "Quiz"),
        ("A two-hour exam is held on May 3.", "Exam"),
        ("The three essays are due on May 3.", "Essays"),
    ],
)
def test_the_name_between_an_article_and_the_work_word(sentence: str, title: str) -> None:
    assert titles(document(sentence)) == [title]


def test_what_is_collected_under_a_name_that_opens_the_paragraph() -> None:
    found = dated_work(document("Shore sheets: I collect three of them, on May 3, May 10 and May 17."))
    assert found == {
        "assignment: Shore sheet 1": "month_day(5, 3)",
        "assignment: Shore sheet 2": "month_day(5, 10)",
        "assignment: Shore sheet 3": "month_day(5, 17)",
    }


def test_a_step_that_somebody_wants_by_a_day() -> None:
    found = dated_work(
        document("I want to see a full draft of it by November 12, and the finished essay by December 3.")
    )
    assert list(found.values()) == ["month_day(11, 12)", "month_day(12, 3)"]


def test_what_a_sentence_says_its_work_is_worth() -> None:
    items = work(document("The midterm is on May 3, worth 20 percent, and the final exam on June 1, worth 30 percent."))
    assert [item.weight.percent if item.weight else None for item in items] == [20.0, 30.0]
