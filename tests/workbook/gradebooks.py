"""Gradebooks drawn at random, written as sheets of one workbook, to be computed by an engine."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from syllabus_io.plan.build import make_plan
from syllabus_io.plan.grades import ROUNDINGS, Gradebook, GradeMark, GradePart, GradeStepShare, MarkCategory, Typed
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.book import Book, WorkbookOptions
from syllabus_io.workbook.grades import write_course_grades, write_grade_sums
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.grades_place import Spare
from syllabus_io.workbook.grades_rows import CourseGrades
from syllabus_io.workbook.layout import START, TODAY_CELL
from syllabus_io.workbook.package import pack_workbook
from syllabus_io.workbook.styles import find_look, register_styles
from tests.workbook.plans import TERM

__all__ = ["Written", "draw_gradebook", "write_gradebooks"]

SCALE = (
    (93, "A"),
    (90, "A-"),
    (87, "B+"),
    (83, "B"),
    (80, "B-"),
    (77, "C+"),
    (73, "C"),
    (70, "C-"),
    (60, "D"),
    (0, "F"),
)
LEVELS = ((Fraction(7, 2), "Exceeds"), (Fraction(5, 2), "Meets"), (Fraction(3, 2), "Near"), (1, "Not yet"))
TIGHT = Spare(marks=1, categories=1, parts=1, letters=0)


def draw_gradebook(draw: random.Random) -> tuple[Gradebook, Fraction]:
    """A gradebook of any scheme, half way through a term, and a target."""
    weighted, levels = draw.random() < 0.65, draw.random() < 0.1
    parts = _parts(draw)
    categories = _categories(draw, weighted, parts)
    steps = _steps(levels)
    count = draw.choice((1, 2, 3, 5, 8, 12, 18, 25, 40, 60))
    sizes = {one.name: draw.choice((4,) if levels else (10, 20, 50, 100, None, None)) for one in categories}
    own_counts = {one.name for one in categories if draw.random() < 0.1}
    graded = draw.choice((0, 0.3, 0.5, 0.7, 0.9, 1))
    marks = []
    for number in range(1, count + 1):
        category = draw.choice(categories)
        size = sizes[category.name] or draw.choice((5, 10, 15, 20, 25, 40, 50, 100, 150))
        marks.append(_mark(draw, f"Work {number}", category, size, graded, category.name in own_counts, steps))
    final = draw.choice((categories[-1].name, marks[-1].work, "")) if draw.random() < 0.7 else ""
    book = Gradebook(
        weighted,
        categories,
        tuple(marks),
        steps,
        parts,
        final,
        on_top=Fraction(draw.choice((0, 0, 0, 1, 2)), 100),
        off_full_marks=draw.random() < 0.7,
        rounding=draw.choice(ROUNDINGS) if draw.random() < 0.4 else ROUNDINGS[0],
    )
    return book, Fraction(draw.choice((50, 60, 70, 75, 80, 83, 85, 90, 93, 95, 99)), 100)


def _parts(draw: random.Random) -> tuple[GradePart, ...]:
    if draw.random() < 0.8:
        return ()
    weights = draw.choice(((40, 40, 20), (25, 25, 25, 25), (50, 50), (45, 45, 10)))
    return tuple(GradePart(f"Part {number}", Fraction(weight, 100)) for number, weight in enumerate(weights, 1))


def _categories(draw: random.Random, weighted: bool, parts: Sequence[GradePart]) -> tuple[MarkCategory, ...]:
    categories = []
    flagged = draw.random() < 0.2
    for number in range(1, draw.randint(1, 6) + 1):
        rule = draw.random()
        extra = number > 1 and draw.random() < 0.12
        categories.append(
            MarkCategory(
                draw.choice(("Quizzes", "Labs", "Exams*", "Essays?", "Home ~work", "Set")) + f" {number}",
                Fraction(draw.choice((5, 10, 15, 20, 25, 30, 40)), 100) if weighted else Fraction(0),
                drop=draw.choice((1, 1, 2, 3)) if rule < 0.3 else 0,
                keep=draw.choice((1, 2, 3, 5)) if 0.3 <= rule < 0.45 else 0,
                even=draw.random() < 0.15,
                extra=extra,
                replaced=flagged and draw.random() < 0.5,
                part=draw.choice(parts).name if parts else "",
            )
        )
    return tuple(categories)


def _steps(levels: bool) -> tuple[GradeStepShare, ...]:
    if levels:
        return tuple(GradeStepShare(letter, Fraction(low) / 4, Fraction(low) / 4) for low, letter in LEVELS)
    steps = [GradeStepShare(letter, Fraction(low, 100), Fraction(low + 2, 100)) for low, letter in SCALE]
    return (*steps, GradeStepShare("P", None, Fraction(1)), GradeStepShare("NP", None, Fraction(0)))


def _mark(
    draw: random.Random,
    work: str,
    category: MarkCategory,
    size: int,
    graded: float,
    own_counts: bool,
    steps: tuple[GradeStepShare, ...],
) -> GradeMark:
    is_bonus = draw.random() < 0.04
    typed = _typed(draw, size, steps) if draw.random() < graded else None
    return GradeMark(
        work,
        category.name if draw.random() < 0.98 else "Elsewhere",
        Fraction(0 if is_bonus else size),
        Fraction(draw.randint(0, 5)) if is_bonus and typed is not None else typed,
        counts=Fraction(draw.choice((5, 10, 15, 20))) if own_counts else None,
        penalty=Fraction(draw.choice((5, 10, 20, 100)), 100) if draw.random() < 0.05 else Fraction(0),
        what_if=Fraction(draw.randint(0, size)) if draw.random() < 0.1 else None,
    )


def _typed(draw: random.Random, size: int, steps: tuple[GradeStepShare, ...]) -> Typed:
    kind = draw.random()
    if kind < 0.05:
        return Fraction(0)
    if kind < 0.1:
        return draw.choice(("EX", "ex ", "excused"))
    if kind < 0.13:
        return draw.choice(("ill", "see me", "-"))
    if kind < 0.18:
        return draw.choice(steps).letter
    if kind < 0.23:
        return Fraction(size + draw.randint(1, max(1, size // 5)))
    return Fraction(round(2 * size * min(1.0, draw.betavariate(6, 2))), 2)


@dataclass(frozen=True, slots=True)
class Written:
    """A workbook of gradebooks, and where each is computed."""

    content: bytes
    blocks: tuple[GradesBlock, ...]


def write_gradebooks(grades: Sequence[CourseGrades], spare: Spare = TIGHT) -> Written:
    """A workbook with a sheet for each gradebook."""
    from openpyxl import Workbook

    workbook = Workbook()
    workbook.worksheets[0].title = START
    workbook[START][TODAY_CELL].value = date(2026, 9, 28)
    options = WorkbookOptions(today=date(2026, 9, 28))
    register_styles(workbook, find_look(options.look), options.paper)
    book = Book(workbook, make_plan(ResolvedTerm(TERM, ())), options, find_look(options.look), date(2026, 9, 28))
    blocks: list[GradesBlock] = []
    for number, one in enumerate(grades):
        top = blocks[-1].end if blocks else 3
        blocks.append(write_course_grades(book, f"G {number:03}", f"Course {number}", one, top, spare))
    write_grade_sums(book, tuple(blocks))
    return Written(pack_workbook(workbook, filled=book.filled), tuple(blocks))
