"""Steps of one work that are dated by themselves."""

from __future__ import annotations

from .documents import document
from .reading import dated_work


def test_steps_in_brackets_behind_their_work() -> None:
    found = dated_work(document("Essay 1 (draft: Feb 2; final: Feb 16), Essay 2 (draft: March 16; final: March 30)"))
    assert found == {
        "assignment: Essay 1 draft": "month_day(2, 2)",
        "assignment: Essay 1": "month_day(2, 16)",
        "assignment: Essay 2 draft": "month_day(3, 16)",
        "assignment: Essay 2": "month_day(3, 30)",
    }


def test_steps_behind_the_name_of_an_entry() -> None:
    found = dated_work(document("Essay #2 (5-6 pages): Thesis statement due 2/23; peer review 3/20; final draft 3/29."))
    assert found == {
        "assignment: Essay #2 thesis statement": "month_day(2, 23)",
        "assignment: Essay #2 peer review": "month_day(3, 20)",
        "assignment: Essay #2": "month_day(3, 29)",
    }


def test_steps_of_a_work_with_its_weight() -> None:
    found = dated_work(document("25% Group project (proposal Feb 20, report April 29)"))
    assert found == {
        "project: Group project proposal": "month_day(2, 20)",
        "project: Group project report": "month_day(4, 29)",
    }


def test_a_midterm_and_a_final_are_no_steps_of_each_other() -> None:
    found = dated_work(document("Midterm: Wednesday Feb 25. Final: Monday May 4, 1-4 pm."))
    assert found == {"exam: Midterm": "month_day(2, 25, WE)", "exam: Final exam": "month_day(5, 4, MO) @13:00"}


def test_a_paragraph_gives_its_name_to_all_its_dates() -> None:
    found = dated_work(
        document(
            "Two short essays, 4-5 pages each (20% each). Due February 13 and April 10.",
            "Final essay, 10 pages (30%). Due May 4 by noon.",
            "Midterm (20%). March 4.",
        )
    )
    assert found == {
        "assignment: Short essay 1": "month_day(2, 13)",
        "assignment: Short essay 2": "month_day(4, 10)",
        "assignment: Final essay": "month_day(5, 4) @12:00",
        "exam: Midterm": "month_day(3, 4)",
    }


def test_short_steps_without_a_mark_before_their_day() -> None:
    found = dated_work(
        document(
            "Project 1 – Limited Palette. Two paintings. Thumbnails (12) to class Wed Feb 4. Studio days Feb 9, 11. "
            "Crit Wednesday, February 18."
        )
    )
    assert found == {
        "project: Project 1 – Limited Palette thumbnails": "month_day(2, 4, WE)",
        "project: Project 1 – Limited Palette crit": "month_day(2, 18, WE)",
    }


def test_work_that_is_looked_at_on_several_days() -> None:
    found = dated_work(document("Sketchbook. Five pages a week. I look at it on Sept 24, Nov 5 and Dec 3."))
    assert list(found) == ["assignment: Sketchbook 1", "assignment: Sketchbook 2", "assignment: Sketchbook 3"]
