"""Due rules stated once for all, also in notes far from the schedule."""

from __future__ import annotations

from .documents import document
from .reading import dated_work, work

_WEEKS = [
    ["Week", "Date", "Topic", "Modules", "Project", "Note"],
    ["1", "9/14", "Sets", "Loops", "", "1, 2"],
    ["2", "9/21", "Maps", "", "1", "3"],
    ["3", "9/28", "Rings", "Arrays", "", "2"],
]


def test_a_rule_for_all_work_of_a_kind() -> None:
    found = dated_work(
        document(
            [["Week", "Topic", "Assignment"], ["1", "Sets", "Problem Set 1"], ["2", "Maps", "Problem Set 2"]],
            "All problem sets are due on Fridays at 5 pm.",
        )
    )
    assert found == {
        "assignment: Problem Set 1": "weekday_in(week(1), FR) @17:00",
        "assignment: Problem Set 2": "weekday_in(week(2), FR) @17:00",
    }


def test_a_rule_with_an_exception_for_one_week() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Dates", "Assignments"],
                ["1", "May 24-31", "Online quiz"],
                ["2", "May 31 - Jun 7", "Exam 1"],
                ["3", "Jun 7 - 16", "Talk"],
            ],
            "³All assignments are due on Fridays @ 5pm, except for week 3's assignments, which are due Tuesday, "
            "June 15 @ 6pm.",
        )
    )
    assert found["exam: Exam 1"] == "weekday_in(span(month_day(5, 31), month_day(6, 7)), FR, -1) @17:00"
    assert found["presentation: Talk"] == "month_day(6, 15, TU) @18:00"


def test_rules_in_numbered_notes_hold_for_the_rows_that_refer_to_them() -> None:
    found = dated_work(
        document(
            _WEEKS,
            "Note 1: Monday holiday",
            "Note 2: Modules are due on Fridays at 11:59 PM",
            "Note 3: Projects are due on Tuesday at 11:59 PM",
        )
    )
    assert found == {
        "assignment: Modules: Loops": "weekday_in(week_of(month_day(9, 14)), FR) @23:59",
        "project: Project 1": "weekday_in(week_of(month_day(9, 21)), TU) @23:59",
        "assignment: Modules: Arrays": "weekday_in(week_of(month_day(9, 28)), FR) @23:59",
    }


def test_a_time_for_all_work_on_its_day() -> None:
    found = dated_work(
        document(
            "All assignments are to be turned in by 11:59 pm on the day they are due.",
            [["Date", "Due"], ["Sep 14", "Essay 1"], ["Sep 21", "Quiz 1"], ["Sep 28", "Essay 2"]],
        )
    )
    assert found == {
        "assignment: Essay 1": "month_day(9, 14) @23:59",
        "quiz: Quiz 1": "month_day(9, 21)",
        "assignment: Essay 2": "month_day(9, 28) @23:59",
    }


def test_a_rule_leaves_work_with_its_own_date_alone() -> None:
    found = work(
        document(
            [["Week", "Assignments"], ["1", "HW 1 (due Sep 16)"], ["2", "HW 2"]],
            "All homework is due Fridays at 5 pm.",
        )
    )
    assert [item.mentions[0].words for item in found] == ["Sep 16", "week 2"]


def test_a_rule_that_names_the_column_and_a_weekday_of_the_week() -> None:
    rows = [["Week", "Topic", "Work*"], ["1", "Sets", "Lab 1"], ["2", "Maps", "Lab 2; Quiz 1"]]
    for said in (
        "* All work in this column is due on Sunday of the week at 9 pm.",
        "Work in the last column is due, and tests are held, on Sunday of the week, 9 pm.",
        "All assignments are due by Sunday at 9 pm of the week in which they stand.",
    ):
        assert dated_work(document(rows, said)) == {
            "assignment: Lab 1": "weekday_in(week(1), SU) @21:00",
            "assignment: Lab 2": "weekday_in(week(2), SU) @21:00",
            "quiz: Quiz 1": "weekday_in(week(2), SU) @21:00",
        }, said


def test_one_deadline_on_a_weekday_is_no_rule() -> None:
    rows = [["Week", "Topic", "Work"], ["1", "Sets", "Lab 1"], ["2", "Maps", "Lab 2"]]
    found = dated_work(document(rows, "The signed form is due on Friday at 5 pm."))
    assert found["assignment: Lab 1"] == "week(1)"


def test_a_kind_of_work_that_a_rule_leaves_out_has_its_own_weekday() -> None:
    rows = [["Week", "Topic", "Assignments"], ["1", "Sets", "Discussion post 1; Quiz 1"], ["2", "Maps", "Case study"]]
    said = "All weekly work is due on Sunday at 11:59 p.m. except the discussion post, which is due Thursday."
    assert dated_work(document(rows, said)) == {
        "assignment: Discussion post 1": "weekday_in(week(1), TH) @23:59",
        "quiz: Quiz 1": "weekday_in(week(1), SU) @23:59",
        "assignment: Case study": "weekday_in(week(2), SU) @23:59",
    }


def test_work_due_the_night_before_its_session() -> None:
    found = dated_work(
        document(
            "Case memos are uploaded by 11:59 pm the night before the session.",
            [
                ["Session", "Date", "Topic", "Due"],
                ["1", "Jan 13", "Coal", ""],
                ["2", "Jan 20", "Rails", "Case memo A: Draft a letter"],
                ["3", "Jan 27", "Steel", "Team report"],
            ],
        )
    )
    assert [value for key, value in found.items() if "memo" in key] == ["offset(month_day(1, 20), -1, day) @23:59"]
    assert [value for key, value in found.items() if "report" in key] == ["month_day(1, 27)"]
