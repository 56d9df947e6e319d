"""Grades in exact fractions: worked examples with their sources, the meaning of blanks, and what is needed by trial."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F  # noqa: N817  # fractions are the language of this file

import pytest

from syllabus_io.plan.grades import (
    ROUNDINGS,
    Gradebook,
    GradeMark,
    GradePart,
    GradeStepShare,
    MarkCategory,
    Typed,
    current_grade,
    highest_grade,
    letter_of,
    lowest_grade,
    minimum_share,
    running_grades,
    what_if_grade,
)
from syllabus_io.plan.grades_needed import Needed, grade_with_open, needed_for, needed_on_final
from syllabus_io.plan.grades_points import PRESETS, CoursePoints, average, cumulative_average, points_for
from tests.workbook.gradebooks import draw_gradebook

SCALE = tuple(GradeStepShare(letter, F(low, 100)) for letter, low in (("A", 90), ("B", 80), ("C", 70), ("D", 60)))


def book_of(
    weights: dict[str, int], marks: list[tuple[str, Typed | int]], possible: int = 100, **rules: object
) -> Gradebook:
    """Categories by weight in percent (none: by points), and marks out of ``possible``; rules hold for all of them."""
    by_weight = any(weights.values())
    categories = tuple(MarkCategory(name, F(weight, 100), **rules) for name, weight in weights.items())  # type: ignore[arg-type]
    rows = tuple(
        GradeMark(f"Work {number}", category, F(possible), F(typed) if isinstance(typed, int) else typed)
        for number, (category, typed) in enumerate(marks, 1)
    )
    return Gradebook(by_weight, categories, rows, SCALE)


# --- worked examples: plain arithmetic that anyone can do again ------------------------------------------

WEIGHTED = {"First": 20, "Second": 30, "Third": 50}


def test_a_weighted_mean() -> None:
    """Computed by hand: 0.2 * 90 + 0.3 * 80 + 0.5 * 70 = 77."""
    assert current_grade(book_of(WEIGHTED, [("First", 90), ("Second", 80), ("Third", 70)])) == F(77, 100)


def test_a_weighted_mean_of_what_is_graded_so_far() -> None:
    """Computed by hand: (0.2 * 90 + 0.3 * 80) / 0.5 = 84; 76 % on the other half ends at 80; 93 would need 102 %."""
    book = book_of(WEIGHTED, [("First", 90), ("Second", 80), ("Third", None)])
    assert current_grade(book) == F(84, 100)
    assert needed_for(book, F(80, 100)) == Needed("needed", F(76, 100))
    assert needed_for(book, F(93, 100)) == Needed("out of reach")


def test_the_lowest_is_left_out() -> None:
    """Computed by hand: the mean of 60, 80, 90, 100 is 82.5; without the lowest it is 90."""
    marks: list[tuple[str, Typed | int]] = [("Quizzes", 60), ("Quizzes", 80), ("Quizzes", 90), ("Quizzes", 100)]
    assert current_grade(book_of({"Quizzes": 100}, marks)) == F(825, 1000)
    assert current_grade(book_of({"Quizzes": 100}, marks, drop=1)) == F(90, 100)
    assert current_grade(book_of({"Quizzes": 100}, marks, keep=3)) == F(90, 100), "keeping the best three is the same"
    assert current_grade(book_of({"Quizzes": 100}, marks, drop=9)) == F(100, 100), "one mark always stays"


def test_what_is_needed_where_the_open_mark_may_be_left_out() -> None:
    """Computed by hand: quizzes of 90 and 60 and one open, the lowest left out. Up to 60 the open one goes, the grade
    is 75; above, it is the mean of 90 and the open one: 70 ends at 80."""
    book = book_of({"Quizzes": 100}, [("Quizzes", 90), ("Quizzes", 60), ("Quizzes", None)], drop=1)
    assert needed_for(book, F(75, 100)) == Needed("secured")
    assert needed_for(book, F(80, 100)) == Needed("needed", F(70, 100))


def test_points_and_equal_weights_differ() -> None:
    """Computed by hand: 45/50 and 60/100 are 105/150 = 70 % by points, and (90 % + 60 %) / 2 = 75 % by equal weight."""
    rows = (GradeMark("One", "Work", F(50), F(45)), GradeMark("Two", "Work", F(100), F(60)))
    by_points = Gradebook(False, (MarkCategory("Work"),), rows)
    assert current_grade(by_points) == F(70, 100)
    assert current_grade(replace(by_points, categories=(MarkCategory("Work", even=True),))) == F(75, 100)


def test_a_semester_grade_of_two_marking_periods_and_an_exam() -> None:
    """The 40/40/20 rule of many secondary schools (common practice, no source): 0.4 * 85 + 0.4 * 91 + 0.2 * 78 = 86."""
    parts = (GradePart("Quarter 1", F(40, 100)), GradePart("Quarter 2", F(40, 100)), GradePart("Exam", F(20, 100)))
    categories = tuple(MarkCategory(f"Work {part.name}", F(1), part=part.name) for part in parts)
    marks = tuple(
        GradeMark(name, f"Work {name}", F(100), F(points))
        for name, points in (("Quarter 1", 85), ("Quarter 2", 91), ("Exam", 78))
    )
    book = Gradebook(True, categories, marks, parts=parts)
    assert current_grade(book) == F(86, 100)
    assert current_grade(replace(book, marks=marks[:2])) == F(88, 100), "until the exam the two quarters decide"


# --- grade points ----------------------------------------------------------------------------------------

FOUR, FOUR_THREE, WEIGHTED_FIVE, HUNDRED, TEN, TEN_PERCENT = PRESETS


@pytest.mark.parametrize(
    ("letters", "expected"),
    [
        # The common 4.0 scale (from memory, no standard), computed by hand: (3*4 + 4*3.3 + 3*2) / 10
        ((("A", 3), ("B+", 4), ("C", 3)), F(312, 100)),
        # the same scale: (4*3.7 + 3*3 + 1*0) / 8
        ((("A-", 4), ("B", 3), ("F", 1)), F(2975, 1000)),
    ],
)
def test_a_grade_point_average(letters: tuple[tuple[str, int], ...], expected: F) -> None:
    courses = []
    for letter, hours in letters:
        points = points_for(FOUR, letter, F(1, 2))
        assert points is not None
        courses.append(CoursePoints(F(hours), points))
    assert average(courses) == expected


def test_an_average_with_earlier_terms() -> None:
    """Computed by hand: 30 credits at 3.2 and 10 at 3.12 are (96 + 31.2) / 40 = 3.18."""
    assert cumulative_average([CoursePoints(F(10), F(312, 100))], F(32, 10), F(30)) == F(318, 100)
    assert average([]) is None


def test_scales_differ_where_they_should() -> None:
    assert points_for(FOUR, "A+", None) == 4 and points_for(FOUR_THREE, "a+", None) == F(43, 10)
    assert points_for(WEIGHTED_FIVE, "A", None, is_advanced=True) == 5
    assert points_for(WEIGHTED_FIVE, "F", None, is_advanced=True) == 0, "a failed course gets nothing on top"
    assert points_for(HUNDRED, "", F(873, 1000)) == F(873, 10)
    assert points_for(TEN, "O", None) == 10 and points_for(TEN_PERCENT, "", F(3, 4)) == F(15, 2)
    assert points_for(FOUR, "Meets", None) is None, "a letter that the scale does not know has no points"


# --- what marks mean -------------------------------------------------------------------------------------


def test_blank_zero_excused_and_words() -> None:
    def grades(second: Typed | int) -> tuple[F | None, F | None]:
        book = book_of({"All": 100}, [("All", 80), ("All", second)])
        return current_grade(book), lowest_grade(book)

    assert grades(None) == (F(80, 100), F(40, 100)), "a blank is not a zero, but may become one"
    assert grades(0) == (F(40, 100), F(40, 100)), "a zero is a mark"
    assert grades("ex ") == (F(80, 100), F(80, 100)), "excused work counts neither way"
    assert grades("ill") == (F(80, 100), F(80, 100)), "words that are no mark are not counted"
    assert grades("B") == (F(80, 100), F(80, 100)), "a letter counts only where the scale says how much"
    assert grades(120) == (F(100, 100), F(100, 100)), "above full marks is extra credit"


def test_letters_may_be_typed() -> None:
    steps = (GradeStepShare("A", F(90, 100), F(95, 100)), GradeStepShare("P", None, F(1)))
    book = book_of({"All": 100}, [("All", "a"), ("All", "P")], possible=20)
    assert current_grade(replace(book, steps=steps)) == F(975, 1000)


def test_extra_credit_of_each_sort() -> None:
    base = book_of({"Work": 80, "Bonus": 5}, [("Work", 75), ("Bonus", 60)])
    extra = replace(base, categories=(base.categories[0], replace(base.categories[1], extra=True)))
    assert current_grade(extra) == F(75, 100) + F(5, 100) * F(60, 100), "a category that only adds"
    assert current_grade(replace(extra, on_top=F(1, 100))) == F(79, 100), "points on the whole grade"
    inside = replace(base, marks=(*base.marks[:1], GradeMark("Puzzle", "Work", F(0), F(5))))
    assert current_grade(inside) == F(80, 100), "points inside a category, of no full mark: 75 + 5 of 100"


def test_a_late_mark() -> None:
    book = book_of({"Work": 100}, [("Work", 80)])
    late = replace(book, marks=(replace(book.marks[0], penalty=F(10, 100)),))
    assert current_grade(late) == F(70, 100), "a tenth of full marks"
    assert current_grade(replace(late, off_full_marks=False)) == F(72, 100), "a tenth of the mark"


def test_the_final_stands_in_when_higher() -> None:
    book = book_of({"Midterm": 40, "Final": 60}, [("Midterm", 50), ("Final", 90)])
    categories = (replace(book.categories[0], replaced=True), book.categories[1])
    flagged = replace(book, categories=categories, final="Final")
    assert current_grade(book) == F(74, 100)
    assert current_grade(flagged) == F(90, 100)
    waiting = replace(flagged, marks=(book.marks[0], replace(book.marks[1], typed=None)))
    assert needed_on_final(waiting, F(70, 100)) == Needed("needed", F(70, 100)), "70 on both, since it stands in"


def test_running_what_if_and_possible_grades() -> None:
    book = book_of({"All": 100}, [("All", 90), ("All", None), ("All", 60), ("All", None)])
    assert running_grades(book) == (F(90, 100), None, F(75, 100), None)
    assert (lowest_grade(book), highest_grade(book)) == (F(150, 400), F(350, 400))
    tried = replace(book, marks=(*book.marks[:3], replace(book.marks[3], what_if=F(100))))
    assert what_if_grade(tried) == F(250, 300)
    assert current_grade(tried) == F(75, 100), "what is tried out never enters the record"


@pytest.mark.parametrize(
    ("rounding", "grade", "letter"),
    [
        (ROUNDINGS[0], F(8999, 10000), "B"),
        (ROUNDINGS[1], F(8995, 10000), "A"),
        (ROUNDINGS[1], F(89949, 100000), "B"),
        (ROUNDINGS[2], F(895, 1000), "A"),
        (ROUNDINGS[2], F(8949, 10000), "B"),
        (ROUNDINGS[3], F(8999, 10000), "B"),
        (ROUNDINGS[0], F(59, 100), "below D"),
    ],
)
def test_rounding_before_the_letter_is_looked_up(rounding: str, grade: F, letter: str) -> None:
    assert letter_of(Gradebook(True, (), (), SCALE, rounding=rounding), grade) == letter


def test_the_grade_that_rounds_up_to_a_minimum() -> None:
    assert [minimum_share(F(90, 100), rounding) for rounding in ROUNDINGS] == [
        F(90, 100),
        F(8995, 10000),
        F(895, 1000),
        F(90, 100),
    ]


# --- what is needed, by trial ----------------------------------------------------------------------------


@pytest.mark.parametrize("number", range(40))
def test_what_is_needed_is_the_least_that_is_enough(number: int) -> None:
    """Held against a search over a hundred percentages: enough from there on, not enough just below."""
    book, target = draw_gradebook(random.Random(number))
    found = needed_for(book, target)
    grades = [grade_with_open(book, F(step, 100)) for step in range(101)]
    if grades[0] is None:
        assert found.status == "nothing to count"
        return
    below = [step for step, grade in enumerate(grades) if grade is not None and grade < target]
    match found.status:
        case "needed":
            assert found.share is not None
            assert not below or F(below[-1], 100) <= found.share
            just_above = grade_with_open(book, found.share + F(1, 10**9))
            just_below = grade_with_open(book, max(F(0), found.share - F(1, 10**9)))
            assert just_above is not None and just_below is not None
            assert just_above >= target, f"{found} is too low"
            assert just_below < target or found.share == 0, f"{found} is more than enough"
        case "secured":
            assert not below
        case _:
            assert below and below[-1] == 100, f"{found.status}, yet full marks are enough"
