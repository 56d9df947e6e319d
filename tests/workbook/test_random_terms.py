"""Two hundred random terms: twenty plans of random courses, classes, items and days off, each in ten states, as a
person leaves it who moves dates, adds days off, commitments, classes and tasks, and changes settings.

In each of them every derived date and figure is what the Python twins compute; in one state of each plan also in the
office suite, and there both engines give the same in every cell."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

import pytest

from syllabus_io.plan.records import Plan
from syllabus_io.workbook.cached_values import CellValue, ErrorValue
from tests.workbook.planned import Planned, change_at_random
from tests.workbook.random_terms import random_plan
from tests.workbook.sheets import Results, Sheets, iron, needs_office, office
from tests.workbook.test_planning import check_all

PLANS, STATES = 20, 10


@lru_cache(maxsize=1)
def plan_of(number: int) -> Plan:
    return random_plan(number)


def states_of(number: int) -> Iterator[Sheets]:
    """The workbook of a plan as it was written, then after random changes; the states of all plans differ."""
    yield Sheets.of(plan_of(number))
    for state in range(1, STATES):
        sheets = Sheets.of(plan_of(number))
        change_at_random(sheets, plan_of(number), 1000 * number + state)
        yield sheets


def differences(one: Results, other: Results) -> list[str]:
    """Cells with a formula in which two engines do not agree; errors are left out, which no cell that is seen has."""
    return [
        f"{sheet}!{cell}: {value!r} and {other.get(sheet, {}).get(cell)!r}"
        for sheet, cells in one.items()
        for cell, value in cells.items()
        if not _is_same(value, other.get(sheet, {}).get(cell, ""))
    ]


def _is_same(one: CellValue, other: CellValue) -> bool:
    if isinstance(one, ErrorValue):
        return True
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return math.isclose(float(one), float(other), rel_tol=1e-12, abs_tol=1e-9)  # type: ignore[arg-type]  # numbers


def test_a_random_term() -> None:
    _, sheets, *_ = states_of(3)
    check_all(Planned(sheets, plan_of(3), iron(sheets)))


@pytest.mark.slow
@pytest.mark.parametrize("number", range(PLANS))
def test_random_terms(number: int) -> None:
    for sheets in states_of(number):
        check_all(Planned(sheets, plan_of(number), iron(sheets)))


@pytest.mark.slow
@pytest.mark.office
@needs_office
@pytest.mark.parametrize("number", range(PLANS))
def test_the_last_state_of_each_in_the_office_suite(number: int) -> None:
    *_, sheets = states_of(number)
    computed = office(sheets)
    check_all(Planned(sheets, plan_of(number), computed))
    assert differences(iron(sheets), computed) == []
