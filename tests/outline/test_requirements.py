"""Tables of graded work with due dates."""

from __future__ import annotations

from syllabus_io.outline.requirements import CHOICE

from .documents import document
from .reading import dated_work, days_off, notation, titles, work


def test_a_row_a_piece_of_work() -> None:
    found = dated_work(
        document(
            [
                ["Assignment", "Weight", "Due date"],
                ["Essay 1", "10%", "Sept 18"],
                ["Essay 2", "15%", "Oct 30 at 5 pm"],
                ["Midterm", "25%", "October 14"],
                ["Final exam", "30%", "TBA"],
                ["Participation", "20%", "ongoing"],
            ]
        )
    )
    assert found == {
        "assignment: Essay 1": "month_day(9, 18)",
        "assignment: Essay 2": "month_day(10, 30) @17:00",
        "exam: Midterm": "month_day(10, 14)",
    }


def test_assigned_and_due_side_by_side() -> None:
    found = dated_work(
        document(
            [
                ["Homework", "Assigned", "Due"],
                ["HW 1", "Sep 14", "Sep 21"],
                ["HW 2", "Sep 21", "Sep 28"],
            ]
        )
    )
    assert found == {"assignment: HW 1": "month_day(9, 21)", "assignment: HW 2": "month_day(9, 28)"}


def test_several_dates_in_a_row_are_a_series() -> None:
    found = dated_work(
        document(
            [
                ["Component", "Points", "When"],
                ["3 Quizzes", "30", "Sep 14, Oct 14, Nov 16"],
                ["Term paper", "40", "Dec 1"],
            ]
        )
    )
    assert found == {
        "quiz: Quiz 1": "month_day(9, 14)",
        "quiz: Quiz 2": "month_day(10, 14)",
        "quiz: Quiz 3": "month_day(11, 16)",
        "assignment: Term paper": "month_day(12, 1)",
    }


def test_labelled_dates_in_a_row() -> None:
    found = titles(
        document(
            [
                ["Assignment", "Points", "Due dates"],
                ["Field project", "60", "Plan: 9/14\nReport: 10/19"],
                ["Essay", "40", "11/16"],
            ]
        )
    )
    assert found == ["Field project: Plan", "Field project: Report", "Essay"]


def test_quizzes_listed_by_number_topic_and_date() -> None:
    found = dated_work(
        document([["Quiz", "Topic", "Date"], ["1", "Maps", "February 15"], ["2", "Scales", "February 22"]])
    )
    assert found == {"quiz: Quiz 1": "month_day(2, 15)", "quiz: Quiz 2": "month_day(2, 22)"}


def test_only_a_week_is_named() -> None:
    item = work(
        document([["Component", "Weight", "Due date"], ["Essay", "50%", "Oct 19"], ["Talk", "50%", "Week 12"]])
    )[1]
    assert item.title == "Talk"
    assert item.mentions[0].doubts == ("the outline names only the week, and not the day",)


def test_weekdays_of_weeks_and_reading_words_in_a_requirements_table() -> None:
    rows = [
        ["Task", "Weight", "Due"],
        ["Online quiz 1", "10%", "Week 3, Sunday 11:59 pm"],
        ["Short report", "20%", "Friday of week 6, noon"],
        ["Reading autobiography", "20%", "Week 9, Tuesday"],
        ["Final examination", "50%", "Formal examination period"],
    ]
    assert dated_work(document(rows)) == {
        "quiz: Online quiz 1": "weekday_in(week(3), SU) @23:59",
        "assignment: Short report": "weekday_in(week(6), FR) @12:00",
        "assignment: Reading autobiography": "weekday_in(week(9), TU)",
    }


def test_headings_in_plain_words_and_work_named_by_other_words() -> None:
    found = dated_work(
        document(
            [
                ["What", "How much", "When"],
                ["Participation", "20%", "Weekly"],
                ["Listening record #1", "20%", "Feb. 3"],
                ["Listening record #2", "20%", "2/24"],
                ["Portrait of a town", "20%", "Part A: March 24; Part B: April 14"],
                ["Final (take-home)", "20%", "handed out April 21st, due April 28, 11:59 PM"],
            ]
        )
    )
    assert found == {
        "assignment: Listening record #1": "month_day(2, 3)",
        "assignment: Listening record #2": "month_day(2, 24)",
        "assignment: Portrait of a town: Part A": "month_day(3, 24)",
        "assignment: Portrait of a town: Part B": "month_day(4, 14)",
        "exam: Final (take-home)": "month_day(4, 28) @23:59",
    }


def test_points_beside_names_and_dates_need_no_header() -> None:
    rows = [
        ["Bridge visit", "25 points", "September 15"],
        ["Model", "50 points", "October 13"],
        ["Load tables (2 @ 20 points)", "40 points", "October 6 and October 27"],
    ]
    assert list(dated_work(document(rows)).values()) == [
        "month_day(9, 15)",
        "month_day(10, 13)",
        "month_day(10, 6)",
        "month_day(10, 27)",
    ]


def test_due_cells_with_other_words_among_points() -> None:
    outline = document(
        [
            ["Assignment", "Pts", "Due", "Standard"],
            ["Reading autobiography", "25", "Sept 12", "1, 9"],
            ["Case study of one reader", "100", "Draft Nov 7, final Nov 21", "6"],
            ["Observed lesson", "75", "Schedule between Oct 21 and Nov 15", "7"],
            ["Field log", "50", "Fridays, by midnight, every week you are in the school", "9"],
        ],
        [
            ["Date", "Topic", "Due"],
            ["Nov 7", "Writing", "Case study DRAFT, 2 copies"],
            ["Nov 14", "Families", ""],
            ["Nov 21", "Share-out", "Case study FINAL"],
        ],
    )
    found = work(outline)
    assert [notation(item.mentions[0]) for item in found if "draft" in item.title.lower()] == ["month_day(11, 7)"]
    assert [item.mentions[0].doubts for item in found if "lesson" in item.title.lower()] == [(CHOICE,)]


def test_days_off_among_exams_are_no_work() -> None:
    rows = [
        ["Midterm 1", "Friday, September 27, in class"],
        ["Midterm 2", "Friday, November 1, in class"],
        ["Thanksgiving break", "November 27-29"],
        ["Last class", "Friday, December 6"],
        ["Final exam", "Thursday, December 12, 1:30-3:30 pm"],
    ]
    outline = document(rows)
    assert titles(outline) == ["Midterm 1", "Midterm 2", "Final exam"]
    assert days_off(outline) == {"Thanksgiving break": "span(month_day(11, 27), month_day(11, 29))"}


def test_work_due_at_numbered_classes() -> None:
    rows = [
        ["Deliverable", "Weight", "Due"],
        ["Distress screen", "10%", "Session 6, start of class"],
        ["Case memo B", "10%", "Session 8"],
        ["Final paper", "25%", "Wed., Dec 10, 5:00 pm"],
    ]
    assert [notation(item.mentions[0]) for item in work(document(rows))] == [
        "meeting_number(6)",
        "meeting_number(8)",
        "month_day(12, 10, WE) @17:00",
    ]


def test_works_and_dates_in_pairs_side_by_side() -> None:
    rows = [
        ["Quiz 1", "Friday, Sept. 8", "Paper topic", "Monday, Oct. 2"],
        ["Midterm", "Friday, Oct. 13", "Final paper", "Monday, Nov. 27"],
        ["Quiz 2", "Friday, Nov. 3", "Final exam", "Tuesday, Dec. 12, 1-3 pm"],
    ]
    found = dated_work(document(rows))
    assert (
        found["quiz: Quiz 2"] == "month_day(11, 3, FR)" and found["assignment: Final paper"] == "month_day(11, 27, MO)"
    )
    assert len(found) == 6
