"""Steps of projects: usual ones, milestones of the outline, and days that are laid back from the day it is due."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import accumulate, pairwise

from hypothesis import given
from hypothesis import strategies as st

from syllabus_io.outline.records import CourseFacts, Kind, Weight
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.day_table import OpenDays
from syllabus_io.plan.projects import plan_projects, project_slack, step_days
from syllabus_io.resolve.records import ResolvedTerm
from tests.workbook.plans import TERM, make_course, make_item

FIRST = date(2026, 8, 3)
shares = st.lists(st.floats(0, 1), min_size=1, max_size=8).map(sorted)
closed = st.sets(st.integers(0, 199), max_size=120)


def open_days(off: set[int]) -> OpenDays:
    return OpenDays(FIRST, tuple(accumulate(int(day not in off) for day in range(200))))


@given(st.integers(30, 120), st.integers(1, 60), shares, closed)
def test_steps_are_in_order_before_the_due_day_and_on_open_days(
    begin: int, span: int, parts: list[float], off: set[int]
) -> None:
    start, due = FIRST + timedelta(days=begin), FIRST + timedelta(days=begin + span)
    table = open_days(off)
    days = step_days(start, due, [(share, None) for share in parts], table)
    assert all(day and day < due for day in days)
    assert all(one <= other for one, other in pairwise(day for day in days if day))
    opened = {FIRST + timedelta(days=day) for day in range(200)} - {FIRST + timedelta(days=day) for day in off}
    for day in days:
        assert day in opened or not any(one <= (day or due) for one in opened), f"{day} is closed"


@given(st.integers(2, 40), closed)
def test_steps_lie_between_the_milestones_around_them(fixed: int, off: set[int]) -> None:
    start, due = FIRST + timedelta(days=60), FIRST + timedelta(days=110)
    milestone = start + timedelta(days=fixed)
    steps = [(0.1, None), (0.3, milestone), (0.6, None), (0.9, None)]
    days = step_days(start, due, steps, open_days(off))
    assert days[1] == milestone
    assert days[0] and days[2] and days[3]
    assert days[0] <= milestone <= days[2] <= days[3] < due


def test_milestones_of_the_outline_are_taken_and_have_no_planner_of_their_own() -> None:
    items = [
        make_item("HIS 204", Kind.ASSIGNMENT, "Archive paper proposal", date(2026, 9, 18)),
        make_item("HIS 204", Kind.ASSIGNMENT, "Archive paper: first draft", date(2026, 10, 30)),
        make_item("HIS 204", Kind.ASSIGNMENT, "Outline of chapter 3", date(2026, 9, 25)),
        make_item("HIS 204", Kind.PROJECT, "Archive paper", date(2026, 12, 4), weight=Weight(percent=25)),
        make_item("HIS 204", Kind.ASSIGNMENT, "Weekly notes", date(2026, 10, 2), weight=Weight(percent=2)),
    ]
    plan = make_plan(ResolvedTerm(TERM, (make_course(CourseFacts(code="HIS 204"), items),)))
    (project,) = plan_projects(plan)
    assert project.title == "Archive paper"
    taken = {step.name: step.milestone for step in project.steps if step.milestone}
    assert taken == {"Proposal": items[0].id, "Draft": items[1].id}


def test_slack_is_what_is_left_of_the_open_days() -> None:
    table = open_days(set())
    today = FIRST + timedelta(days=50)
    assert project_slack(today, today + timedelta(days=10), 12, 2, table) == 4
    assert project_slack(today, today + timedelta(days=3), 12, 2, table) == -3
    assert project_slack(today, today - timedelta(days=1), 12, 2, table) is None
