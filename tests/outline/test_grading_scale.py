"""Letter scales in the forms outlines write them."""

from __future__ import annotations

import pytest

from syllabus_io.outline.grading_scale import find_steps, read_scale
from tests.outline.documents import document, heading


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A 93-100, A- 90-92, F < 60", "A 93 A- 90 F 0"),
        ("93+ A", "A 93"),
        ("97.0% and above A+  93.0% to 96.9% A", "A+ 97 A 93"),
        ("A = 94% to 100%", "A 94"),
        ("A ≥ 93", "A 93"),
        ("B+ < 90% to 87%", "B+ 87"),
        ("A 93 ≤ x   C 73 ≤ x < 77", "A 93 C 73"),
        ("< 60% = F, ≥ 60%, < 70% = D, ≥ 70%, < 80% = C", "F 0 D 60 C 70"),
        ("A: 930–1000 points", "A 930"),
        ("90-100 = A", "A 90"),
        ("93.00 and above is an A, 90.00 to 92.99 is an A-", "A 93 A- 90"),
        ("A plus 98-100%", "A+ 98"),
        ("B minus 80-83.9%", "B- 80"),
        ("B 3.0 83-86", "B 83"),
        ("A 4.0 93", "A 93"),
        ("A- 90.0-92.9% 927-957", "A- 90"),
        ("A: 100–93; A-: 92–90", "A 93 A- 90"),
        ("A – 93-100", "A 93"),
        ("A>=90; B>=80; F<60", "A 90 B 80 F 0"),
        ("90 or above A; 80 or above B; below 60 F", "A 90 B 80 F 0"),
        ("A-B+ ≥ 90 ≥ 85", "A- 90 B+ 85"),
        ("F = 69 and below", "F 0"),
        ("No letters here, 93 frogs", ""),
    ],
)
def test_steps(text: str, expected: str) -> None:
    assert " ".join(f"{step.letter} {step.minimum:g}" for step in find_steps(text)) == expected


def letters(*parts: object) -> dict[str, float]:
    return {step.letter: step.minimum for step in read_scale(document(heading("Scale"), *parts))}  # type: ignore[arg-type]


def test_tables_with_several_pairs_a_row() -> None:
    rows = [["A", "93–100", "B+", "87–89", "F", "<60%"], ["A-", "90–92", "B", "83–86", "", ""]]
    assert letters(rows) == {"A": 93, "A-": 90, "B+": 87, "B": 83, "F": 0}


def test_percent_is_taken_where_points_stand_beside_it() -> None:
    rows = [
        ["Grade", "Percent", "Points"],
        ["A", "90-100%", "927-1030"],
        ["B", "80-89.9%", "824-926"],
        ["C", "70-79.9%", "721-823"],
    ]
    assert letters(rows) == {"A": 90, "B": 80, "C": 70}


def test_cells_cut_by_a_row_edge_are_read_down_the_column() -> None:
    rows = [["A 100% to 94%", "B+ < 90% to"], ["A- < 94% to 90%", "87%\nB < 87% to 84%"], ["", "B- < 84% to 80%"]]
    assert letters(rows) == {"A": 94, "A-": 90, "B+": 87, "B": 84, "B-": 80}


def test_letters_above_their_numbers() -> None:
    assert letters([["A", "B", "C", "D"], ["90-100", "80-89", "70-79", "60-69"]]) == {
        "A": 90,
        "B": 80,
        "C": 70,
        "D": 60,
    }


def test_a_failing_grade_told_below_a_table() -> None:
    rows = [["90.0% and above", "A", "80.0% to 89.9%", "B"], ["70.0% to 79.9%", "C", "60.0% to 69.9%", "D"]]
    assert letters(rows, "Below 60% is an F. All grades are rounded.") == {"A": 90, "B": 80, "C": 70, "D": 60, "F": 0}


def test_lines_one_letter_each() -> None:
    assert letters("A = 93 and above", "B = 85-92", "C = 77-84", "F = 76 and below") == {
        "A": 93,
        "B": 85,
        "C": 77,
        "F": 0,
    }


def test_numbers_that_do_not_fall_with_the_letters_are_no_scale() -> None:
    assert letters("Part A 4 frogs", "Part B 9 frogs", "Part C 90 frogs") == {}


@pytest.mark.parametrize(
    "text",
    [
        "A 90, B 80, C 70; below 70 is an F. These lines do not move.",
        "A is 90 and above, B is 80 to 89, C is 70 to 79, and anything below 70 is an F.",
        "A: 90 and up. B: 80–89. C: 70–79. Below 70 earns an F.",
    ],
)
def test_the_failing_letter_told_behind_its_bound(text: str) -> None:
    assert letters(text) == {"A": 90, "B": 80, "C": 70, "F": 0}


@pytest.mark.parametrize(
    "lines",
    [
        [
            "High Distinction (HD): 85 and above; Distinction (D): 75 to 84; Credit (C): 65 to 74; "
            "Pass (P): 50 to 64; Fail (N): below 50"
        ],
        ["HD 85-100, D 75-84, C 65-74, P 50-64, N below 50"],
        ["HD (High Distinction): 85–100%", "D (Distinction): 75–84%", "C: 65–74%", "P: 50–64%", "N (Fail): 0–49%"],
    ],
)
def test_named_grades_with_their_short_forms(lines: list[str]) -> None:
    # Common practice in Australian universities, no one source: HD, D, C, P and N are grades, and D no poor one.
    assert letters(*lines) == {"HD": 85, "D": 75, "C": 65, "P": 50, "N": 0}


def test_named_grades_in_a_table() -> None:
    rows = [["Grade", "Marks"], ["HD", "80–100"], ["DN", "70–79"], ["CR", "60–69"], ["PS", "50–59"], ["NN", "0–49"]]
    assert letters(rows) == {"HD": 80, "DN": 70, "CR": 60, "PS": 50, "NN": 0}
