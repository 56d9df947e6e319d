"""Work that sentences only count, or date from the work before."""

from __future__ import annotations

import pytest

from .documents import document, heading
from .reading import dated_work


@pytest.mark.parametrize(
    "text",
    [
        "The first essay is due on February 9, the second on March 16, and the third on April 20.",
        "Your first essay will be due February 9; the second, March 16; and the third, April 20.",
        "You will write three essays. The first is due on February 9. The second is due on March 16. The third is due "
        "on April 20.",
    ],
)
def test_ordinals_count_the_works_of_a_series(text: str) -> None:
    found = {key.replace("First essay", "Essay 1"): value for key, value in dated_work(document(text)).items()}
    assert found == {
        "assignment: Essay 1": "month_day(2, 9)",
        "assignment: Essay 2": "month_day(3, 16)",
        "assignment: Essay 3": "month_day(4, 20)",
    }


def test_numbers_alone_count_the_works_of_a_series() -> None:
    found = dated_work(document("Concert report #1 must be handed in by Feb 13, #2 by March 20, and #3 by April 24."))
    assert list(found.values()) == ["month_day(2, 13)", "month_day(3, 20)", "month_day(4, 24)"]


@pytest.mark.parametrize(
    "parts",
    [
        (heading("Exams"), "There are three: Friday, Feb 20; Friday, March 27; and Friday, April 24."),
        ("Exams. There are three: Friday, Feb 20; Friday, March 27; and Friday, April 24.",),
        (heading("Exams"), "They are held on Friday, Feb 20, Friday, March 27, and Friday, April 24."),
    ],
)
def test_the_heading_names_what_a_sentence_counts(parts: tuple[str, ...]) -> None:
    assert dated_work(document(*parts)) == {
        "exam: Exam 1": "month_day(2, 20, FR)",
        "exam: Exam 2": "month_day(3, 27, FR)",
        "exam: Exam 3": "month_day(4, 24, FR)",
    }


def test_a_step_dated_from_the_work_before() -> None:
    found = dated_work(document("Paper 1 is due Monday, February 16. Drafts are due the Monday before."))
    assert found == {
        "assignment: Paper 1": "month_day(2, 16, MO)",
        "assignment: Paper 1 draft": "weekday_near(month_day(2, 16, MO), MO, before)",
    }


def test_work_due_one_week_later() -> None:
    found = dated_work(document("Your rough draft is due Tuesday, March 3. The revised essay is due one week later."))
    assert found["assignment: Revised essay"] == "offset(month_day(3, 3, TU), 1, week)"


def test_one_week_later_than_several_works_is_no_day() -> None:
    found = dated_work(document("Essay 1 is due May 3 and essay 2 is due May 17. The portfolio is due one week later."))
    assert list(found.values()) == ["month_day(5, 3)", "month_day(5, 17)"]


def test_the_choice_of_a_topic_and_what_it_refers_to() -> None:
    found = dated_work(
        document(
            "Term paper: Choose a topic by February 6 and write a one-page proposal. It has to be handed in by "
            "February 20."
        )
    )
    assert found == {
        "assignment: Term paper topic": "month_day(2, 6)",
        "project: Term paper proposal": "month_day(2, 20)",
    }
