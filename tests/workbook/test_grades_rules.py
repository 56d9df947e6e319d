"""What sentences about grading set on the sheet, and what they leave to the reader. All sentences are invented."""

from __future__ import annotations

from fractions import Fraction

import pytest

from syllabus_io.outline.records import GradeStep, GradingScheme
from syllabus_io.plan.grades import MarkCategory
from syllabus_io.workbook.grades_rules import find_final, is_replaced, parts_of
from syllabus_io.workbook.grades_scale import read_steps, whole_of_scale


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        ("If it is higher, the final exam will replace your midterm score.", True),
        ("The midterm grade is replaced by the final if that is better.", True),
        ("The final may replace the lowest midterm if it is higher.", False),
        ("A missed midterm is replaced by the final if it is higher.", False),
        ("The final replaces the midterm.", False),
        ("You must pass the final to pass the course.", False),
        ("If it is higher, the final exam will replace your quiz average.", False),
    ],
)
def test_only_a_plain_rule_about_the_whole_category_is_set(rule: str, expected: bool) -> None:
    assert is_replaced("Midterm", "Final exam", (rule,)) is expected


def test_the_final_is_found_where_only_one_thing_can_be_meant() -> None:
    assert find_final(["Quizzes", "Final exam"], []) == "Final exam"
    assert find_final(["Exams", "Final paper"], ["Exam 1", "Final examination"]) == "Final examination"
    assert find_final(["Final exam, part 1", "Final exam, part 2"], []) == ""
    assert find_final(["Final project"], []) == ""


def test_marking_periods_become_parts() -> None:
    weights = (("Quarter 1", 40), ("Quarter 2", 40), ("Semester exam", 20))
    parts, categories = parts_of([MarkCategory(name, Fraction(weight, 100)) for name, weight in weights])
    assert [(part.name, part.weight) for part in parts] == [(name, Fraction(weight, 100)) for name, weight in weights]
    assert [one.part for one in categories] == [name for name, _ in weights]
    assert all(one.weight == 1 for one in categories)
    plain = [MarkCategory("Homework", Fraction(1, 2)), MarkCategory("Quarter project", Fraction(1, 2))]
    assert parts_of(plain) == ((), plain)


def test_scales_in_percent_points_and_levels() -> None:
    def scheme(*minima: float, total: float | None = None) -> GradingScheme:
        return GradingScheme(scale=tuple(GradeStep(f"S{n}", low) for n, low in enumerate(minima)), total_points=total)

    assert whole_of_scale(scheme(93, 83)) == 100
    assert whole_of_scale(scheme(900, 800, total=1000)) == 1000
    assert whole_of_scale(scheme(3.5, 2.5, 1.5)) == 4
    first, second, *words = read_steps(scheme(90, 80))
    assert (first.minimum, first.counts_as) == (Fraction(9, 10), Fraction(95, 100))
    assert (second.minimum, second.counts_as) == (Fraction(8, 10), Fraction(85, 100))
    assert [(word.letter, word.minimum, float(word.counts_as or 0)) for word in words] == [
        ("P", None, 1.0),
        ("NP", None, 0.0),
    ]
