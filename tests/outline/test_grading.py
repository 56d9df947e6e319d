"""Grading schemes: categories in every form, counts and drops, totals, late policy, rules."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from syllabus_io.extract.document import Block
from syllabus_io.outline.grading import read_grading
from syllabus_io.outline.records import GradingScheme
from tests.outline.documents import document, heading, line

Part = str | Block | Sequence[Sequence[str | None]]


def weights(scheme: GradingScheme) -> dict[str, float | None]:
    return {one.name: one.weight if one.weight is not None else one.points for one in scheme.categories}


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            ["Problem Sets 30%", "Midterm Exams 20% each", "Final Exam 30%", "There are two midterm exams."],
            (30, 40, 30),
        ),
        (["Test I (24 July): 20%", "Test II (7 August): 30%", "Final Exam: 50%"], (20, 30, 50)),
        (["20% : Video quizzes", "30%: Presentation", "25% Exam 1", "25% Exam 2"], (20, 30, 25, 25)),
        (["6 quizzes ~ 18%", "3 homeworks ~ 32 %", "Final project ~ 50 %"], (18, 32, 50)),
        (["Final Grade = 40% Problem Sets + 30% Midterm + 30% Final"], (40, 30, 30)),
        (["Homework 20%, quizzes 10%, midterm 30% and final 40%."], (20, 10, 30, 40)),
        (["Your course grade is composed of 30% homework, 30% midterm, and 40% final exam."], (30, 30, 40)),
        (["Attendance is worth 5%, homework 25%, project 30% and the final exam 40% of the grade."], (5, 25, 30, 40)),
        (["Labs (8) ........ 40%", "Midterm ......... 20%", "Final ........... 40%"], (40, 20, 40)),
        (["Boards 5 x 5% each = 25%", "Group projects 3 x 10% each = 30%", "Exams 45%"], (25, 30, 45)),
        (["20% Problem sets (4/5 at %5 each)", "80% Exams"], (20, 80)),
        (["Participation (20%): Come to class.", "Poster presentation (30%): A poster.", "Paper (50%)"], (20, 30, 50)),
        (["3 exams (20% each), 10 quizzes (2% each; the two lowest are dropped), and a paper (20%)"], (60, 20, 20)),
    ],
)
def test_weights_in_lines(lines: list[str], expected: tuple[float, ...]) -> None:
    scheme = read_grading(document(heading("Grading"), *lines))
    assert tuple(weights(scheme).values()) == expected
    assert scheme.doubts == ()


def test_weights_told_in_sentences() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "There will be two midterms. Each midterm is worth 20% of the final grade. There will be one 10-page "
            "essay, worth 20% of the final grade. Journals will be kept all term, and will be worth 15% of the grade. "
            "Finally, in-class participation in debates will be worth 25% of the final grade.",
        )
    )
    assert weights(scheme) == {
        "Midterm": 40,
        "10-page essay": 20,
        "Journals": 15,
        "In-class participation": 25,
    }


def test_a_plural_told_with_one_weight_is_each_where_the_whole_says_so() -> None:
    scheme = read_grading(
        document(
            heading("Grades"),
            "The homework counts 20% of your grade. There are two exams plus a final exam. The exams count 80% of "
            "your grade. The exams during the term are worth 25% of your grade and the final exam "
            "is worth 30% of the grade.",
        )
    )
    assert weights(scheme) == {"Homework": 20, "Exams": 50, "Final exam": 30}


def test_ranked_weights_in_brackets_and_extra_credit() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "Checks (2 × 20% + 2 × 15% + 2 × 10% + 1 × 0% = 90%) are short exams. Your lowest check will be dropped.",
            "Drills and homework together make up the remaining 10% of the grade. Three will be automatically dropped.",
            "Attendance is taken daily and counts for an extra 1% of your grade (grades add up to 101%).",
        )
    )
    found = [(one.name, one.weight, one.count, one.drop, one.extra_credit) for one in scheme.categories]
    assert found == [
        ("Checks", 90, 7, 1, False),
        ("Drills and homework", 10, None, 3, False),
        ("Attendance", 1, None, 0, True),
    ]
    assert scheme.doubts == ()


@pytest.mark.parametrize(
    ("rows", "expected", "total"),
    [
        ([["Component", "Weight"], ["Participation", "20%"], ["Final project", "80%"]], (20, 80), None),
        ([["Mid Term", "100"], ["Final Paper", "150"], ["Total", "250"]], (100, 150), 250),
        (
            [
                ["Assignment", "Description", "Due", "Points"],
                ["Essay", "50 words", "9/7\n11/23", "50\n50"],
                ["Exam", "hard", "12/1", "100"],
                ["Total points", "", "", "200"],
            ],
            (100, 100),
            200,
        ),
        (
            [
                ["Item", "Number", "Points each", "Total"],
                ["Problem sets", "8", "10", "80"],
                ["Final", "1", "120", "120"],
                ["Total", "", "", "200"],
            ],
            (80, 120),
            200,
        ),
        ([["20%", "Quizzes"], ["80%", "Exams"]], (20, 80), None),
        ([["Homework", "20%", "Quizzes", "30%"], ["Midterm", "20%", "Final", "30%"]], (20, 30, 20, 30), None),
        ([["Component", "% of grade"], ["Homework", "40"], ["Final", "60"]], (40, 60), None),
    ],
)
def test_weights_in_tables(rows: list[list[str]], expected: tuple[float, ...], total: float | None) -> None:
    scheme = read_grading(document(heading("Evaluation"), rows))
    assert tuple(weights(scheme).values()) == expected
    assert scheme.total_points == total


def test_a_row_that_fell_out_of_its_table_is_taken_in() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            [
                ["Homework (20%)", "72 points"],
                ["· Homework 1", "36 points"],
                ["· Homework 2", "36 points"],
                ["Midterm (30%)", "108 points"],
                ["Final (45%)", "162 points"],
            ],
            "Participation (5%) 18 points",
        )
    )
    assert weights(scheme) == {"Homework": 20, "Midterm": 30, "Final": 45, "Participation": 5}
    assert scheme.categories[0].count == 2


def test_sub_parts_are_not_counted_beside_their_whole() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "Field reports (40%)",
            line("Report 1: 20%", marker="-"),
            line("Report 2: 20%", marker="-"),
            "Exams (60%)",
            line("Midterm: 25%", marker="-"),
            line("Final: 35%", marker="-"),
        )
    )
    assert weights(scheme) == {"Field reports": 40, "Midterm": 25, "Final": 35}
    assert scheme.categories[0].count == 2


def test_shares_of_a_part_are_multiplied_out() -> None:
    scheme = read_grading(
        document(
            [["Evaluation", "Fraction of term work grade"], ["Quizzes", "25%"], ["3 Exams", "75%"]],
            heading("Grading Policy"),
            "Term work = 60% of final grade. Final Exam = 40% of final grade.",
        )
    )
    assert weights(scheme) == {"Quizzes": 15, "Exams": 45, "Final Exam": 40}


def test_points_with_a_total_and_extra_credit() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "Homework 100 points",
            "Two midterms, 100 points each",
            "Final 200 points",
            "Extra credit: up to 20 points",
            "Total 500 points",
        )
    )
    assert weights(scheme) == {"Homework": 100, "Midterms": 200, "Final": 200, "Extra credit": 20}
    assert scheme.total_points == 500
    assert [one.name for one in scheme.categories if one.extra_credit] == ["Extra credit"]


@pytest.mark.parametrize(
    ("sentence", "count", "drop"),
    [
        ("I will drop your two lowest quizzes.", None, 2),
        ("The lowest two quizzes will be dropped.", None, 2),
        ("The quiz with the minimum grade will be dropped.", None, 1),
        ("The two quizzes with the lowest grades do not count towards the grade.", None, 2),
        ("Only the best 5 of 6 quizzes count.", 6, 1),
        ("There will be eight quizzes. Your lowest quiz score is not counted.", 8, 1),
        ("The best preparation for a quiz is to read.", None, 0),
        ("To drop the course after a quiz, see the registrar.", None, 0),
    ],
)
def test_counts_and_drops(sentence: str, count: int | None, drop: int) -> None:
    scheme = read_grading(document(heading("Grading"), "Quizzes 40%", "Essays 60%", sentence))
    quizzes = scheme.categories[0]
    assert (quizzes.count, quizzes.drop) == (count, drop)


def test_drops_in_the_part_itself_and_for_two_parts_in_one_sentence() -> None:
    scheme = read_grading(document(heading("Grading"), "Homework (6, lowest dropped) 40%", "Tests (3): 60%"))
    assert [(one.count, one.drop) for one in scheme.categories] == [(6, 1), (3, 0)]
    scheme = read_grading(document(heading("Grading"), "Quizzes (6, best 5 count) 40%", "Tests (3): 60%"))
    assert [(one.count, one.drop) for one in scheme.categories] == [(6, 1), (3, 0)]
    scheme = read_grading(
        document(
            heading("Grading"),
            "20%: Video quizzes",
            "20%: Online quizzes",
            "60%: Essays",
            "Two (2) video quizzes and one (1) online quiz with the lowest score will be dropped.",
        )
    )
    assert [one.drop for one in scheme.categories] == [2, 1, 0]


def test_a_drop_under_other_work_is_not_given_to_the_wrong_part() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "Midterm 30%",
            "Final 40%",
            "Essays 30%",
            "There are ten worksheets for practice. I drop your lowest score.",
        )
    )
    assert all(one.drop == 0 for one in scheme.categories if one.name in {"Midterm", "Final"})


@pytest.mark.parametrize(
    "text",
    [
        "Turning in after the first five minutes will lose 5%.",
        "A late essay loses 10% per day and a late project loses 20% per day.",
        "Cheating on an exam that counts for 20% of the grade earns a zero.",
        "Students with attendance below 50% fail; 30% of students got an A on the exam.",
    ],
)
def test_percent_that_is_no_weight(text: str) -> None:
    assert read_grading(document(heading("Grading"), text)).categories == ()


def test_weights_that_do_not_add_up_are_doubted() -> None:
    scheme = read_grading(document(heading("Grading"), "Homework 30%", "Midterm 30%", "Final exam 30%"))
    assert scheme.doubts == ("the weights of the grade add up to 90 %, not to 100 %",)


def test_late_policy_and_rules_are_kept_as_written() -> None:
    scheme = read_grading(
        document(
            heading("Grading"),
            "Tests 50%",
            "Final exam 50%",
            "The final exam replaces your lowest test score. You must score 50% on the final exam to pass the course.",
            heading("Late work"),
            "Late essays lose 10% per day. Nothing is accepted after a week.",
            heading("Honesty"),
            "Do not copy.",
        )
    )
    assert scheme.late_policy == "Late essays lose 10% per day. Nothing is accepted after a week."
    assert scheme.rules == (
        "The final exam replaces your lowest test score.",
        "You must score 50% on the final exam to pass the course.",
    )


def test_a_schedule_is_no_grading() -> None:
    rows = [["Week", "Topic", "Due"], ["1", "Ponds 50%", "Homework 1"], ["2", "Frogs 50%", "Homework 2"]]
    assert read_grading(document(heading("Schedule"), rows)).categories == ()


def test_an_empty_document_has_no_grading() -> None:
    assert read_grading(document()) == GradingScheme()


def test_lengths_are_no_counts() -> None:
    outline = document(
        heading("Grading"),
        "Source analysis (10%). Four pages on one document.",
        "Research paper (40%). 18–22 pages from primary sources.",
        "Final essay, 10 pages (30%).",
        "Quizzes (4) 20%",
    )
    counts = {part.name.split(",")[0]: part.count for part in read_grading(outline).categories}
    assert counts == {"Source analysis": None, "Research paper": None, "Final essay": 1, "Quizzes": 4}


def test_a_table_with_numbers_before_the_names_and_parts_of_one_work() -> None:
    rows = [
        ["No.", "Task", "Weight", "Due", "Aim"],
        ["1", "Quizzes (best 4 of 5)", "20%", "Fridays", "1, 2"],
        ["2a", "Garden plan – group talk", "30%", "Week 9", "3"],
        ["2b", "Garden plan – written part (900 words)", "50%", "Mon 20 Oct", "3"],
    ]
    scheme = read_grading(document(heading("Assessment"), rows))
    assert weights(scheme) == {"Quizzes": 20, "Garden plan – group talk": 30, "Garden plan – written part": 50}
