"""The formulas of the grades sheets against exact fractions, over random gradebooks of every scheme, in two engines."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import pytest

from syllabus_io.plan.grades import (
    Gradebook,
    current_grade,
    highest_grade,
    letter_of,
    lowest_grade,
    minimum_share,
    running_grades,
    what_if_grade,
)
from syllabus_io.plan.grades_needed import Needed, grade_with_final, grade_with_open, needed_for, needed_on_final
from syllabus_io.workbook.cached_values import CellValue
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.grades_rows import CourseGrades
from tests.workbook.grade_figures import GRADE_ENGINES, iron_figures
from tests.workbook.gradebooks import draw_gradebook, write_gradebooks

SEED = 20260831
FEW, MANY, PACK = 12, 1000, 50
FOUND = (807,)  # drawn gradebooks in which a fault was found once
CLOSE = 1e-6
Engine = Callable[[bytes, Sequence[str]], dict[str, CellValue]]
WORDS = {"nothing to count": "nothing to count yet"}


@dataclass(frozen=True, slots=True)
class Case:
    """A gradebook, its target, and what an engine made of it."""

    number: int
    book: Gradebook
    target: Fraction
    block: GradesBlock
    cells: dict[str, CellValue]

    def value(self, cell: str) -> CellValue:
        return self.cells[cell.replace("$", "")]

    def figures(self) -> dict[str, tuple[str, Fraction | str | None]]:
        """The cell of each figure, and what it is in exact fractions."""
        book, block = self.book, self.block
        figures: dict[str, tuple[str, Fraction | str | None]] = {
            "current grade": (block.one("grade_now"), current_grade(book)),
            "lowest possible": (block.one("grade_low"), lowest_grade(book)),
            "highest possible": (block.one("grade_high"), highest_grade(book)),
            "grade with what-if marks": (block.one("grade_try"), what_if_grade(book)),
            "letter": (block.one("letter"), letter_of(book, current_grade(book))),
            "letter with what-if marks": (block.one("letter_try"), letter_of(book, what_if_grade(book))),
        }
        for row, grade in enumerate(running_grades(book)):
            figures[f"running grade after row {row + 1}"] = (block.mark("running", block.first_mark + row), grade)
        return figures

    def asked(self) -> Iterator[str]:
        """The cells that are looked at."""
        yield from (cell for cell, _ in self.figures().values())
        for row, _ in self.targets():
            yield self.block.target("answer", row)
            yield self.block.target("alone_answer", row)

    def has_drops_and_replacement(self) -> bool:
        """Whether a category both leaves marks out and may be replaced by the final."""
        return any(one.replaced and (one.drop or one.keep) for one in self.book.categories)

    def targets(self) -> Iterator[tuple[int, Fraction]]:
        """The rows of the target and of each letter, with the grade each needs."""
        yield self.block.own_target, minimum_share(self.target, self.book.rounding)
        for offset, step in enumerate(self.book.steps):
            if step.minimum is not None:
                yield (
                    self.block.first_target + offset,
                    max(Fraction(0), minimum_share(step.minimum, self.book.rounding)),
                )


def computed(engine: Engine, first: int, count: int) -> list[Case]:
    """Gradebooks numbered from ``first`` on, each drawn by its number, written into one workbook and computed."""
    drawn = [draw_gradebook(random.Random(SEED + number)) for number in range(first, first + count)]
    written = write_gradebooks([CourseGrades(book, target=target) for book, target in drawn])
    cases = [
        Case(first + offset, book, target, block, {})
        for offset, ((book, target), block) in enumerate(zip(drawn, written.blocks, strict=True))
    ]
    cells = [cell.replace("$", "") for case in cases for cell in case.asked()]
    results = engine(written.content, cells)
    return [replace(case, cells=results) for case in cases]


def is_same(value: CellValue, expected: Fraction | str | None) -> bool:
    if expected is None:
        return value == ""
    if isinstance(expected, str):
        return value == expected
    return isinstance(value, float) and abs(value - float(expected)) < CLOSE


def check_grades(case: Case) -> None:
    for name, (cell, expected) in case.figures().items():
        value = case.value(cell)
        assert is_same(value, expected), f"{name} {value!r} is not {expected}, gradebook {case.number}: {case.book}"


def check_needed(case: Case, tally: Counter[str]) -> None:
    """What is enough for each letter and the target: never too low; how often exact is counted."""
    for row, target in case.targets():
        value, exact = case.value(case.block.target("answer", row)), needed_for(case.book, target)
        where = f"{value!r} for {target}, exact {exact}, gradebook {case.number}: {case.book}"
        if isinstance(value, float):
            reached = grade_with_open(case.book, Fraction(value) + Fraction(1, 10**8))
            assert reached is not None and reached >= target - Fraction(1, 10**8), f"too low: {where}"
            assert exact.status in ("needed", "secured"), where
            tally["exact" if exact.share is not None and abs(value - float(exact.share)) < CLOSE else "safe"] += 1
        else:
            assert value == WORDS.get(exact.status, exact.status), where
            tally["words"] += 1


def check_alone(case: Case, tally: Counter[str]) -> None:
    """What is enough on the final alone: never too low; exact where the final's category leaves nothing out."""
    finals = {case.book.final, *(mark.category for mark in case.book.marks if mark.work == case.book.final)}
    is_plain = not any(one.drop or one.keep for one in case.book.categories if one.name in finals)
    for row, target in case.targets():
        value = case.value(case.block.target("alone_answer", row))
        if value == "–":
            continue
        exact = needed_on_final(case.book, target)
        where = f"{value!r} on the final for {target}, exact {exact}, gradebook {case.number}: {case.book}"
        if isinstance(value, float):
            reached = grade_with_final(case.book, Fraction(value) + Fraction(1, 10**8))
            assert reached is not None and reached >= target - Fraction(1, 10**8), f"too low: {where}"
            tally["exact" if is_exact(value, exact) else "safe"] += 1
            assert not is_plain or is_exact(value, exact) or case.has_drops_and_replacement(), f"not exact: {where}"
        elif value == "depends on what is left out":
            assert not is_plain, where
            tally["unclear"] += 1
        else:
            assert value == exact.status or (value, exact.status) == ("out of reach", "only with extra credit"), where
            tally["words"] += 1


def is_exact(value: float, exact: Needed) -> bool:
    return exact.share is not None and abs(value - float(exact.share)) < CLOSE


def check(cases: list[Case]) -> tuple[Counter[str], Counter[str]]:
    needed: Counter[str] = Counter()
    alone: Counter[str] = Counter()
    for case in cases:
        check_grades(case)
        check_needed(case, needed)
        check_alone(case, alone)
    return needed, alone


def test_some_random_gradebooks_equal_exact_fractions() -> None:
    needed, _ = check(computed(iron_figures, 0, FEW))
    for number in FOUND:
        check(computed(iron_figures, number, 1))
    assert needed["exact"] > 10, "the comparison must not run empty"
    assert needed["exact"] >= 0.95 * (needed["exact"] + needed["safe"])


@pytest.mark.slow
@pytest.mark.parametrize("engine", GRADE_ENGINES)
def test_a_thousand_random_gradebooks_equal_exact_fractions(engine: Engine) -> None:
    needed: Counter[str] = Counter()
    alone: Counter[str] = Counter()
    for first in range(0, MANY, PACK):
        for total, part in zip((needed, alone), check(computed(engine, first, PACK)), strict=True):
            total.update(part)
    print(f"needed {dict(needed)}, on the final alone {dict(alone)}")
    assert needed["exact"] >= 0.95 * (needed["exact"] + needed["safe"]), f"what is needed is too seldom exact: {needed}"
    assert alone["exact"] > alone["safe"] + alone["unclear"], f"too seldom exact on the final: {alone}"
