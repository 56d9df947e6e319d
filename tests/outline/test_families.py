"""Kinds that follow from the works beside: what has a proposal is a project; what goes with a talk is handed in."""

from __future__ import annotations

from .documents import document
from .reading import dated_work, work


def test_what_has_a_proposal_is_a_project() -> None:
    outline = document(
        [
            ["Date", "Topic", "Due"],
            ["Feb 2", "Clay", "Shore atlas proposal"],
            ["Feb 9", "Sand", "Shore atlas draft"],
            ["Mar 2", "Rock", "Shore atlas"],
            ["Mar 9", "Peat", "Shore walk report"],
        ]
    )
    kinds = {item.title: item.kind.value for item in work(outline)}
    assert kinds == {
        "Shore atlas proposal": "project",
        "Shore atlas draft": "project",
        "Shore atlas": "project",
        "Shore walk report": "assignment",
    }


def test_a_paper_stays_a_paper_beside_its_proposal() -> None:
    outline = document("A paper proposal is due February 2. The paper is due March 9.")
    assert "assignment: Paper" in dated_work(outline)


def test_slides_are_handed_in_and_the_talk_is_given() -> None:
    outline = document(
        [
            ["Week of", "In class", "Due"],
            ["Feb 1", "Mon: Presentations, first half\nWed: Presentations, second half", ""],
            ["Feb 8", "Mon: Presentations, group A", "Presentation slides (Mon, 9 a.m.)"],
            ["Feb 15", "Mon: Rest", "Project paper (Wed)"],
        ]
    )
    found = dated_work(outline)
    assert found["assignment: Presentation slides"] == "weekday_in(week_of(month_day(2, 8)), MO) @09:00"
    assert found["presentation: Presentations, group A"] == "weekday_in(week_of(month_day(2, 8)), MO)"
    assert found["project: Project paper"] == "weekday_in(week_of(month_day(2, 15)), WE)"


def test_the_points_of_a_row_are_those_of_its_only_work() -> None:
    outline = document(
        [
            ["When", "What", "Points"],
            ["Week 2 Thursday", "Quiz 1: lines", "20"],
            ["Week 9 Friday", "Kite project: sketch and partner", "10 pts"],
            ["Week 11 Friday", "Quiz 2 and Homework 4", "35"],
        ]
    )
    weights = {item.title: item.weight.points if item.weight else None for item in work(outline)}
    assert weights["Quiz 1: lines"] == 20
    assert weights["Kite project: sketch and partner"] == 10
    assert weights["Homework 4"] is None
