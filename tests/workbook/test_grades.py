"""Grades: what the sheets compute against exact arithmetic, worked examples, and the meaning of blanks and zeros."""

from __future__ import annotations

import functools
import random
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from syllabus_io.outline.records import Category, CourseFacts, GradingScheme
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.cached_values import CellValue
from syllabus_io.workbook.layout import GRADES_COLUMNS, TableLayout
from tests.workbook.gradebooks import Gradebook, Mark, Part, draw_gradebook
from tests.workbook.plans import SCALE, TERM, biology, make_course, usual_plan
from tests.workbook.sheets import ENGINES, Results, Sheets, iron

BOOKS = 40
Compute = Callable[[Sheets], Results]


def plan_of(books: list[Gradebook]) -> Plan:
    """A course for each gradebook, with a place for each of its marks."""
    courses = []
    for number, book in enumerate(books):
        categories = tuple(
            Category(
                part.name,
                part.weight,
                None if book.weighted else 100.0,
                count=max(1, sum(mark.part == index for mark in book.marks)),
                drop=part.drop,
                extra_credit=part.extra,
            )
            for index, part in enumerate(book.parts)
        )
        courses.append(
            make_course(CourseFacts(code=f"C {number:02}"), grading=GradingScheme(categories=categories, scale=SCALE))
        )
    return make_plan(ResolvedTerm(TERM, tuple(courses)))


def marks_table(sheets: Sheets, name: str) -> TableLayout:
    for row in range(1, 60):
        if sheets.book[name][f"C{row}"].value == "Work":
            return TableLayout(name, row, GRADES_COLUMNS)
    raise AssertionError(f"{name} has no table of marks")


def type_marks(sheets: Sheets, number: int, book: Gradebook) -> TableLayout:
    """Types the marks of a gradebook, in its order, over whatever places the sheet has."""
    name = f"Grades C {number:02}"
    table = marks_table(sheets, name)
    places = sheets.book[name].max_row - table.heading_row
    for offset in range(places):
        row = table.first_row + offset
        mark = book.marks[offset] if offset < len(book.marks) else None
        values: dict[str, Any] = dict.fromkeys(("category", "possible", "counts", "points"))
        if mark:
            points = float(mark.points) if isinstance(mark.points, Fraction) else mark.points
            values = {
                "category": book.parts[mark.part].name,
                "possible": mark.possible,
                "counts": mark.counts,
                "points": points,
            }
        for key, value in values.items():
            sheets.put(name, table.cell(key, row).replace("$", ""), value)
    sheets.put(name, "G6", book.target / 100)
    return table


@functools.cache
def random_books() -> tuple[list[Gradebook], Sheets, list[TableLayout]]:
    draw = random.Random(20260831)
    books = [draw_gradebook(draw) for _ in range(BOOKS)]
    sheets = Sheets.of(plan_of(books))
    tables = [type_marks(sheets, number, book) for number, book in enumerate(books)]
    return books, sheets, tables


def same(value: CellValue, expected: Fraction | None) -> bool:
    if expected is None:
        return value == ""
    return isinstance(value, float) and abs(value - float(expected)) < 1e-6


@pytest.mark.parametrize("compute", ENGINES)
def test_random_gradebooks_equal_exact_arithmetic(compute: Compute) -> None:
    books, sheets, tables = random_books()
    results = compute(sheets)
    for number, (book, table) in enumerate(zip(books, tables, strict=True)):
        cells = results[f"Grades C {number:02}"]
        where = f"gradebook {number}: {book}"
        assert same(cells["B6"], book.current()), f"current grade {cells['B6']} is not {book.current()}, {where}"
        assert same(cells["D6"], book.lowest()), f"lowest {cells['D6']} is not {book.lowest()}, {where}"
        assert same(cells["E6"], book.highest()), f"highest {cells['E6']} is not {book.highest()}, {where}"
        for row, mark in enumerate(book.marks, start=1):
            shown = cells[table.cell("running", table.heading_row + row).replace("$", "")]
            expected = book.current(row) if isinstance(mark.points, Fraction) else None
            assert same(shown, expected), f"running grade {shown} after row {row} is not {expected}, {where}"


@pytest.mark.parametrize("compute", ENGINES)
def test_what_is_enough_is_never_too_low(compute: Compute) -> None:
    books, sheets, _ = random_books()
    results = compute(sheets)
    exact = figures = 0
    for number, book in enumerate(books):
        enough, target = results[f"Grades C {number:02}"]["I6"], Fraction(book.target, 100)
        lowest, highest = book.lowest(), book.highest()
        if lowest is None or highest is None:
            assert enough == "nothing to count yet"
        elif enough == "secured":
            assert lowest >= target - Fraction(1, 10**8), book
        elif enough == "out of reach":
            assert highest < target or not book.has_open(), book
        elif isinstance(enough, float):
            figures += 1
            reached = book.with_open_at(Fraction(enough))
            assert reached is not None and reached >= target - Fraction(1, 10**8), f"{enough} is too low for {book}"
            less = book.with_open_at(Fraction(enough) - Fraction(1, 10**5))
            exact += less is not None and less < target
        else:
            assert enough == "only with extra credit", enough
    assert figures > BOOKS / 4 and exact > figures / 2, "the comparison must not run empty"


def results_of(book: Gradebook) -> tuple[dict[str, CellValue], TableLayout]:
    sheets = Sheets.of(plan_of([book]))
    table = type_marks(sheets, 0, book)
    return dict(iron(sheets)["Grades C 00"]), table


def simple(weights: list[int], *marks: tuple[int, float | str | None], target: int = 80, drop: int = 0) -> Gradebook:
    """Categories by weight, and marks out of 100 as (category from 1, points)."""
    parts = tuple(Part(f"Part {n}", weight, drop, False) for n, weight in enumerate(weights, 1))
    rows = tuple(
        Mark(part - 1, 100, None, Fraction(points) if isinstance(points, int | float) else points)
        for part, points in marks
    )
    return Gradebook(True, parts, rows, target)


def test_worked_examples_of_weighted_means() -> None:
    """Plain weighted means, computed by hand: 0.2*90 + 0.3*80 + 0.5*70 = 77; (0.2*90 + 0.3*80)/0.5 = 84."""
    all_graded, _ = results_of(simple([20, 30, 50], (1, 90), (2, 80), (3, 70)))
    assert same(all_graded["B6"], Fraction(77, 100))
    first_two, _ = results_of(simple([20, 30, 50], (1, 90), (2, 80), (3, None)))
    assert same(first_two["B6"], Fraction(84, 100))
    assert same(first_two["I6"], Fraction(76, 100)), "76 % on the half that is left ends at 80"
    too_far, _ = results_of(simple([20, 30, 50], (1, 90), (2, 80), (3, None), target=93))
    assert too_far["I6"] == "out of reach", "102 % would be needed"
    dropped, _ = results_of(simple([100], (1, 60), (1, 80), (1, 90), (1, 100), drop=1))
    assert same(dropped["B6"], Fraction(90, 100))


def test_points_weigh_by_points_and_weights_do_not() -> None:
    """45 of 50 and 60 of 100: 105/150 = 70 % by points, the mean of 90 % and 60 % = 75 % by equal weight."""
    rows = (Mark(0, 50, None, Fraction(45)), Mark(1, 100, None, Fraction(60)))
    by_points = Gradebook(False, (Part("One", None, 0, False), Part("Two", None, 0, False)), rows, 80)
    by_weight = Gradebook(True, (Part("One", 50, 0, False), Part("Two", 50, 0, False)), rows, 80)
    assert same(results_of(by_points)[0]["B6"], Fraction(70, 100))
    assert same(results_of(by_weight)[0]["B6"], Fraction(75, 100))


def test_a_blank_is_no_zero_and_a_zero_is_a_mark() -> None:
    blank, _ = results_of(simple([100], (1, 80), (1, None)))
    zero, _ = results_of(simple([100], (1, 80), (1, 0)))
    excused, table = results_of(simple([100], (1, 80), (1, "EX")))
    wrong, _ = results_of(simple([100], (1, 80), (1, "about 70")))
    assert same(blank["B6"], Fraction(80, 100)) and same(blank["D6"], Fraction(40, 100))
    assert same(zero["B6"], Fraction(40, 100))
    assert same(excused["B6"], Fraction(80, 100)) and same(excused["D6"], Fraction(80, 100))
    second = table.cell("percent", table.first_row + 1).replace("$", "")
    assert excused[second] == "excused"
    assert wrong[second] == "no mark", "text that is no mark is pointed out"


@pytest.mark.parametrize(
    ("points", "letter"), [(93, "A"), (92.9999, "A-"), (89.99996, "B+"), (90, "A-"), (60, "D"), (59, "F"), (0, "F")]
)
def test_the_letter_follows_the_scale(points: float, letter: str) -> None:
    assert results_of(simple([100], (1, points)))[0]["C6"] == letter


def test_without_marks_nothing_is_pretended() -> None:
    cells, _ = results_of(simple([40, 60], (1, None), (2, None)))
    assert cells["B6"] == "" and cells["C6"] == "no marks yet"
    assert same(cells["D6"], Fraction(0)) and same(cells["E6"], Fraction(1))


def test_every_graded_item_is_listed_with_its_date() -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Midterm exam", "corrected", date(2026, 10, 8))
    cells, table = iron(sheets)["Grades BIO 110"], marks_table(sheets, "Grades BIO 110")
    rows = range(table.first_row, sheets.book["Grades BIO 110"].max_row + 1)
    shown = {cells.get(f"C{row}"): cells.get(f"B{row}") for row in rows if cells.get(f"C{row}")}
    graded = [item for item in biology().items if item.kind.value != "reading"]
    assert shown.keys() >= {item.title for item in graded}
    assert shown["Midterm exam"] == (date(2026, 10, 8) - date(1899, 12, 30)).days, "the due date follows Review"


def test_weights_that_do_not_add_up_are_said() -> None:
    cells, _ = results_of(simple([40, 30], (1, None), (2, None)))
    said = [value for value in cells.values() if isinstance(value, str) and "add up" in value]
    assert said and "70 %" in said[0]
