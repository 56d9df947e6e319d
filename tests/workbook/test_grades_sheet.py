"""The grades sheets as a person meets them: what is listed, what is said, published examples, and the overview."""

from __future__ import annotations

import functools
import io
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction as F  # noqa: N817  # fractions are the language of this file

import pytest

from syllabus_io.outline.records import Category, CourseFacts, GradeStep, GradingScheme, Kind
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.grades import Gradebook, GradeMark, GradePart, GradeStepShare, MarkCategory, Typed
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.cached_values import CellValue, serial
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.grades_place import Spare
from syllabus_io.workbook.grades_rows import CourseGrades
from syllabus_io.workbook.layout import OVERVIEW, OVERVIEW_TABLE
from tests.workbook.gradebooks import write_gradebooks
from tests.workbook.plans import SCALE, TERM, biology, make_course, make_item, usual_plan
from tests.workbook.sheets import Sheets, iron
from tests.workbook.test_grades_edits import closing_row, marks_table

STEPS = tuple(
    GradeStepShare(letter, F(low, 100), F(low, 100) + F(2, 100))
    for letter, low in (("A", 90), ("B", 80), ("C", 70), ("D", 60))
)


@dataclass(frozen=True, slots=True)
class Shown:
    """One course's sheet as computed."""

    block: GradesBlock
    cells: dict[str, CellValue]

    def figure(self, key: str) -> CellValue:
        return self.cells[self.block.place.setting(key).replace("$", "")]

    def column(self, key: str) -> list[CellValue]:
        marks = self.block.place.marks
        rows = range(marks.first_row, self.block.place.marks_closing)
        return [self.cells.get(marks.cell(key, row).replace("$", ""), "") for row in rows]

    def said(self) -> str:
        return " ".join(str(value) for cell, value in self.cells.items() if cell.startswith("B"))


def shown(*books: CourseGrades) -> list[Shown]:
    written = write_gradebooks(books, Spare(marks=2, categories=1, parts=3, letters=1))
    results = iron(Sheets(written.content))
    return [Shown(block, dict(results[block.place.sheet])) for block in written.blocks]


def grades(
    weights: Mapping[str, float], marks: Sequence[tuple[str, Typed | float, float]], target: F = F(80, 100)
) -> CourseGrades:
    """Categories by weight in percent, none by points; marks as category, what is typed, points possible."""
    categories = tuple(MarkCategory(name, F(str(weight)) / 100) for name, weight in weights.items())
    rows = tuple(
        GradeMark(f"Work {n}", category, F(str(possible)), F(str(typed)) if isinstance(typed, int | float) else typed)
        for n, (category, typed, possible) in enumerate(marks, 1)
    )
    return CourseGrades(Gradebook(any(weights.values()), categories, rows, STEPS, final="Final"), target=target)


# --- published examples ----------------------------------------------------------------------------------


def test_published_examples_of_weighted_grades() -> None:
    hampton = {"Homework": 30, "Tests": 50, "Final": 20}
    found = shown(
        # Hampton University, School of Nursing, "Calculating a Weighted Average": 93, 88 and 91 make 90.1
        grades(hampton, [("Homework", 93, 100), ("Tests", 88, 100), ("Final", 91, 100)]),
        # the same page: with 95 and 86, an exam of 92.5 % ends at 90
        grades(hampton, [("Homework", 95, 100), ("Tests", 86, 100), ("Final", None, 100)], F(90, 100)),
        # "Engineering Statics" (open textbook), example 7.1.1: 40, 80 and homework of 90; 77.5 on the final ends at 70
        grades(
            {"Exam 1": 25, "Exam 2": 25, "Homework": 10, "Final": 40},
            [("Exam 1", 40, 100), ("Exam 2", 80, 100), ("Homework", 90, 100), ("Final", None, 100)],
            F(70, 100),
        ),
        # a class handout, "Figuring a Weighted Average Grade": 52/60, 20/30 and 82/100 at 25, 25 and 50 %; it rounds
        # on the way and gives 79.34 %, exactly it is 79.333… %
        grades(
            {"Homework": 25, "Quizzes": 25, "Tests": 50},
            [
                *(("Homework", points, 15) for points in (15, 12, 10, 15)),
                *(("Quizzes", points, 10) for points in (9, 4, 7)),
                ("Tests", 82, 100),
            ],
        ),
    )
    assert found[0].figure("current") == pytest.approx(0.901)
    assert found[1].figure("enough") == found[1].figure("alone") == pytest.approx(0.925)
    assert found[2].figure("enough") == pytest.approx(0.775)
    assert found[3].figure("current") == pytest.approx(0.7934, abs=1e-4)


def test_planning_facts_of_weighted_means() -> None:
    """Arithmetic, computed by hand: 77; 84 so far; 76 needed; out of reach; 70 by points, 75 by equal weight."""
    thirds = {"One": 20.0, "Two": 30.0, "Three": 50.0}
    two = grades({"Work": 0}, [("Work", 45, 50), ("Work", 60, 100)])
    even = CourseGrades(Gradebook(False, (MarkCategory("Work", even=True),), two.book.marks, STEPS), target=F(80, 100))
    found = shown(
        grades(thirds, [("One", 90, 100), ("Two", 80, 100), ("Three", 70, 100)]),
        grades(thirds, [("One", 90, 100), ("Two", 80, 100), ("Three", None, 100)]),
        grades(thirds, [("One", 90, 100), ("Two", 80, 100), ("Three", None, 100)], F(93, 100)),
        two,
        even,
    )
    assert [one.figure("current") for one in found] == pytest.approx([0.77, 0.84, 0.84, 0.7, 0.75])
    assert found[1].figure("enough") == pytest.approx(0.76)
    assert found[2].figure("enough") == "out of reach"


def test_a_semester_of_two_marking_periods_and_an_exam() -> None:
    """Common practice, no source: 0.4 * 85 + 0.4 * 91 + 0.2 * 78 = 86."""
    parts = tuple(GradePart(name, F(w, 100)) for name, w in (("Q1", 40), ("Q2", 40), ("Exam", 20)))
    categories = tuple(MarkCategory(f"{part.name} work", F(1), part=part.name) for part in parts)
    marks = tuple(
        GradeMark(f"M {n}", f"{n} work", F(100), F(points)) for n, points in (("Q1", 85), ("Q2", 91), ("Exam", 78))
    )
    (one,) = shown(CourseGrades(Gradebook(True, categories, marks, STEPS, parts)))
    assert one.figure("current") == pytest.approx(0.86)
    assert one.column("running")[:3] == pytest.approx([0.85, 0.88, 0.86])


def test_levels_from_one_to_four() -> None:
    steps = tuple(GradeStepShare(letter, F(low) / 4) for letter, low in (("Exceeds", 3.5), ("Meets", 2.5)))
    book = Gradebook(
        False, (MarkCategory("All"),), tuple(GradeMark(f"M{n}", "All", F(4), F(n)) for n in (2, 3, 4)), steps
    )
    (one,) = shown(CourseGrades(book, full=F(4)))
    assert one.figure("letter") == "Meets"
    assert one.cells["B4"] == "3 of 4", "the mean level is shown on the course's own scale"


# --- what marks mean -------------------------------------------------------------------------------------


def test_notes_point_out_what_does_not_count_as_it_stands() -> None:
    marks: list[tuple[str, Typed | float, float]] = [
        ("All", 80, 100),
        ("All", None, 100),
        ("All", "EX", 100),
        ("All", "about 70", 100),
        ("All", 120, 100),
        ("All", 0.85, 100),
        ("None such", 70, 100),
        ("All", 5, 0),
        ("All", 0, 100),
        ("All", "b", 100),
    ]
    (one,) = shown(grades({"All": 100}, marks))
    notes = [
        "",
        "",
        "excused",
        "no mark?",
        "above full marks",
        "points or percent?",
        "category?",
        "extra points",
        "",
        "",
    ]
    assert one.column("note")[:10] == notes
    assert one.figure("current") == pytest.approx((80 + 120 + 0.85 + 5 + 0 + 82) / 500)
    assert "rows of marks that do not count as they stand: 3" in one.said()


def test_what_if_marks_never_enter_the_record() -> None:
    base = grades({"All": 100}, [("All", 80, 100), ("All", None, 100)])
    row = GradeMark("Work 2", "All", F(100), what_if=F(100))
    book = Gradebook(True, base.book.categories, (base.book.marks[0], row), STEPS)
    (one,) = shown(CourseGrades(book))
    assert one.figure("current") == pytest.approx(0.8)
    assert one.figure("try") == pytest.approx(0.9) and one.figure("letter_try") == "A"


def test_what_is_enough_is_never_shown_rounded_down() -> None:
    (one,) = shown(grades({"All": 100}, [("All", 80, 100), ("All", None, 30)], F(8301, 10000)))
    exact = (0.8301 * 130 - 80) / 30
    value = one.figure("enough")
    assert isinstance(value, float) and exact <= value <= exact + 0.001


# --- courses of every sort -------------------------------------------------------------------------------


def course_sheet(
    grading: GradingScheme, items: Sequence[tuple[str, str | None]]
) -> tuple[Sheets, dict[str, CellValue]]:
    course = make_course(
        CourseFacts(code="C 1"),
        [make_item("C 1", Kind.ASSIGNMENT, title, date(2026, 9, 8), category=category) for title, category in items],
        grading=grading,
    )
    sheets = Sheets.of(make_plan(ResolvedTerm(TERM, (course,))))
    table = marks_table(sheets, "Grades C 1")
    sheets.put("Grades C 1", f"I{table.first_row}", 90)
    return sheets, dict(iron(sheets)["Grades C 1"])


def said(sheets: Sheets, cells: dict[str, CellValue]) -> str:
    written = [str(row[0].value) for row in sheets.book["Grades C 1"]["B1:B40"]]
    return " ".join([*written, *(str(value) for cell, value in cells.items() if cell.startswith("B"))])


def test_a_course_without_a_scheme_says_so_and_still_counts() -> None:
    sheets, cells = course_sheet(GradingScheme(), [("Essay 1", None), ("Essay 2", None)])
    words = said(sheets, cells)
    assert "no grading scheme" in words and "no scale of letters" in words
    assert cells["B3"] == pytest.approx(0.9) and cells["E3"] == pytest.approx(0.95)


def test_weights_that_add_up_to_110_are_shown_and_marked() -> None:
    scheme = GradingScheme(tuple(Category(name, weight=55) for name in ("Essays", "Talks")), SCALE)
    sheets, cells = course_sheet(scheme, [("Essay 1", "Essays"), ("Talk 1", "Talks")])
    assert "the weights add up to 110 %, not 100 %" in said(sheets, cells)
    assert cells["B3"] == pytest.approx(0.9)


def test_a_course_of_eighty_items() -> None:
    scheme = GradingScheme((Category("Problems", weight=100),), SCALE)
    sheets, cells = course_sheet(scheme, [(f"Problem {n}", "Problems") for n in range(1, 81)])
    assert cells["B3"] == pytest.approx(0.9)
    assert cells["D3"] == pytest.approx(0.9 / 80) and cells["E3"] == pytest.approx((0.9 + 79) / 80)
    table = marks_table(sheets, "Grades C 1")
    assert closing_row(sheets, table) - table.first_row > 80


def test_a_course_with_a_single_final() -> None:
    scheme = GradingScheme((Category("Final exam", weight=100),), SCALE)
    course = make_course(CourseFacts(code="C 1"), grading=scheme)
    cells = dict(iron(Sheets.of(make_plan(ResolvedTerm(TERM, (course,)))))["Grades C 1"])
    assert cells["C3"] == "no marks yet"
    assert cells["I3"] == cells["L3"] == pytest.approx(0.9), "the target is what the final must bring"


def test_every_graded_item_is_listed_with_the_date_that_review_uses() -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Midterm exam", "corrected", date(2026, 10, 8))
    cells, table = iron(sheets)["Grades BIO 110"], marks_table(sheets, "Grades BIO 110")
    rows = range(table.first_row, closing_row(sheets, table))
    listed = {cells.get(f"C{row}"): cells.get(f"B{row}") for row in rows if cells.get(f"C{row}")}
    assert listed.keys() >= {item.title for item in biology().items if item.kind is not Kind.READING}
    assert listed["Midterm exam"] == serial(date(2026, 10, 8)), "the due date follows Review"


def test_points_of_a_category_are_shared_among_its_marks() -> None:
    scheme = GradingScheme((Category("Project", points=100, count=1), Category("Tests", points=200, count=2)), SCALE)
    sheets, cells = course_sheet(scheme, [("Project: plan", "Project"), ("Project: model", "Project")])
    table = marks_table(sheets, "Grades C 1")
    assert [sheets.book["Grades C 1"][f"E{table.first_row + n}"].value for n in range(2)] == [50, 50]
    assert "shared among its 2 marks" in said(sheets, cells)


# --- charts and overview ---------------------------------------------------------------------------------


def test_charts_have_words_for_those_who_cannot_see_them() -> None:
    content = write_gradebooks([grades({"All": 100}, [("All", 80, 100)])]).content
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        drawing = archive.read("xl/drawings/drawing1.xml").decode()
    assert drawing.count("descr=") == 2
    assert "Column chart of G 000: the running grade" in drawing


@functools.cache
def overview() -> Sheets:
    """Three courses with marks that earn B+, A and F by the usual scale, of 4, 3 and 1 credits."""
    courses = [
        make_course(
            CourseFacts(code=f"C {n}", credits=hours),
            grading=GradingScheme((Category("All", weight=100),), SCALE),
        )
        for n, hours in ((1, 4.0), (2, 3.0), (3, 1.0))
    ]
    sheets = Sheets.of(make_plan(ResolvedTerm(TERM, tuple(courses))))
    for number, points in ((1, 88), (2, 95), (3, 40)):
        name = f"Grades C {number}"
        sheets.put(name, f"I{marks_table(sheets, name).first_row}", points)
    return sheets


def averages(**typed: object) -> tuple[list[CellValue], dict[str, CellValue]]:
    """Grade points of the courses and the sheet's cells, after typing into cells of the overview."""
    sheets = Sheets(overview().content, dict(overview().typed))
    for cell, value in typed.items():
        sheets.put(OVERVIEW, cell, value)
    cells = dict(iron(sheets)[OVERVIEW])
    first = OVERVIEW_TABLE.first_row
    return [cells[f"{OVERVIEW_TABLE.letter('points')}{first + n}"] for n in range(3)], cells


def test_the_average_of_a_term_and_of_all_terms() -> None:
    """The common 4.0 scale (from memory, no standard): (4 * 3.3 + 3 * 4 + 1 * 0) / 8 = 3.15; with 24 earlier credits
    at 3.55 it is (25.2 + 85.2) / 32 = 3.45."""
    heading = scale_heading()
    points, cells = averages(**{f"C{heading + 4}": 3.55, f"C{heading + 5}": 24})
    assert points == pytest.approx([3.3, 4, 0])
    assert cells[f"C{heading + 3}"] == pytest.approx(3.15)
    assert cells[f"C{heading + 6}"] == pytest.approx(3.45)


def test_the_scale_may_be_changed() -> None:
    heading, advanced = scale_heading(), OVERVIEW_TABLE.letter("advanced")
    first = OVERVIEW_TABLE.first_row
    weighted, _ = averages(
        **{f"C{heading}": "5.0 weighted", f"{advanced}{first}": "yes", f"{advanced}{first + 2}": "yes"}
    )
    assert weighted == pytest.approx([4.3, 4, 0]), "an advanced class adds a point, but nothing to a failed one"
    hundred, _ = averages(**{f"C{heading}": "100 points"})
    assert hundred == pytest.approx([88, 95, 40])
    letters = {str(overview().book[OVERVIEW][f"F{row}"].value): row for row in range(heading + 1, heading + 20)}
    own, _ = averages(**{f"H{letters['B+']}": 3.33})
    assert own[0] == pytest.approx(3.33), "what the school counts wins"
    ten, _ = averages(**{f"C{heading}": "10 points by letter"})
    assert ten == pytest.approx([7, 8, 0])


def scale_heading() -> int:
    """The row in which the scale of grade points begins."""
    sheet = overview().book[OVERVIEW]
    for row in range(1, 40):
        if sheet[f"A{row}"].value == "Scale of grade points":
            return row
    raise AssertionError("the overview has no scale of grade points")


def test_published_example_of_a_grade_point_average() -> None:
    """Southern Polytechnic State University, registrar: A 4, A 2, C 3, F 3, B 2 credit hours are 36 / 14 = 2.57."""
    letters = (("A", 4, 95), ("A", 2, 95), ("C", 3, 74), ("F", 3, 10), ("B", 2, 84))
    courses = [
        make_course(
            CourseFacts(code=f"C {n}", credits=float(hours)),
            grading=GradingScheme((Category("All", weight=100),), (*SCALE, GradeStep("A+", 99.9))),
        )
        for n, (_, hours, _) in enumerate(letters, 1)
    ]
    sheets = Sheets.of(make_plan(ResolvedTerm(TERM, tuple(courses))))
    for n, (_, _, points) in enumerate(letters, 1):
        sheets.put(f"Grades C {n}", f"I{marks_table(sheets, f'Grades C {n}').first_row}", points)
    cells = dict(iron(sheets)[OVERVIEW])
    heading = next(row for row in range(1, 40) if sheets.book[OVERVIEW][f"A{row}"].value == "Scale of grade points")
    assert cells[f"C{heading + 3}"] == pytest.approx(36 / 14)
