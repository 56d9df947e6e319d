"""One tree, two evaluators: Python, IronCalc and LibreOffice must give the same day for the same term.

Expressions are drawn at random (seeded) for each invented term; then the first day of term, a day off and a meeting
pattern are changed in the sheet, and all must agree again. The spreadsheet engines are the independent oracles.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

import pytest

from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.provenance import Place
from syllabus_io.resolve.evaluate import ReadingContext, evaluate
from syllabus_io.resolve.expression import (
    DateExpression,
    FullDate,
    Offset,
    Phrase,
    Unit,
    Weekday,
    write_expression,
)
from syllabus_io.resolve.formula import write_end_formula, write_formula
from syllabus_io.resolve.records import Certainty, Resolution, Resolved, ResolvedItem
from syllabus_io.resolve.term import DayOff, Meeting, Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.workbook.course_dates import CourseDates, course_dates
from syllabus_io.workbook.layout import Name
from tests.dates.calendars import CALENDARS
from tests.workbook.random_expressions import ANCHOR, draw_expression
from tests.workbook.term_workbook import PROBE, TermBook, as_day, iron_values, office_values, soffice

COURSE = "BIO 110"
PAIRS_IN_A_TERM = 75
ANCHOR_CELL = f"{PROBE}!$E$1"
TERMS_BY_NAME = {calendar.term.name: calendar.term for calendar in CALENDARS.values()}


@dataclass(frozen=True, slots=True)
class _Probe:
    """An expression under test, the cells of its two formulas, and what Python says in each state of the sheet."""

    expression: DateExpression
    row: int
    has_end: bool


@dataclass(frozen=True, slots=True)
class _State:
    """The sheet in one state: the file, and the calendar that says the same in Python."""

    what: str
    content: bytes
    calendar: TermCalendar


def _item_counting_school_days() -> ResolvedItem:
    """An item whose date counts school days, so that the day table gets that count."""
    tree = Offset(FullDate(date(2026, 9, 1)), 1, Unit.SCHOOL_DAY)
    mention = Mention(Phrase("x", 0, 1, tree), Place("outline.pdf"), "x", "x")
    resolution = Resolved(date(2026, 9, 2), None, Certainty.DERIVED, tree)
    return ResolvedItem("one", Kind.QUIZ, "Quiz", resolution, mention, Item(Kind.QUIZ, "Quiz", (mention,)))


def _anchors(term: Term) -> dict[str, tuple[date, date]]:
    day = term.first_day + timedelta(days=38)
    return {ANCHOR: (day, day)}


def _course_dates(book: TermBook) -> CourseDates:
    resolved = book.book.plan.resolved
    return course_dates(resolved, 1, _anchors(resolved.term), {ANCHOR: ANCHOR_CELL})


def _read(expression: DateExpression, calendar: TermCalendar) -> Resolution:
    return evaluate(expression, calendar, ReadingContext(anchors=_anchors(TERMS_BY_NAME[calendar.term.name])))


def _probes(book: TermBook, dates: CourseDates, dice: random.Random) -> list[_Probe]:
    probes: list[_Probe] = []
    seen: set[str] = set()
    while len(probes) < PAIRS_IN_A_TERM:
        resolution = _read(draw_expression(dice, dates.calendar), dates.calendar)
        if not isinstance(resolution, Resolved) or write_expression(resolution.expression) in seen:
            continue
        formula = write_formula(resolution.expression, dates.names)
        if formula is None or not _is_in_day_table(resolution.date, dates.calendar):
            continue
        seen.add(write_expression(resolution.expression))
        row = 2 * len(probes) + 1
        book.probe(row, formula)
        end = write_end_formula(resolution.expression, dates.names)
        if end is not None:
            book.probe(row + 1, end)
        probes.append(_Probe(resolution.expression, row, end is not None))
    return probes


def _is_in_day_table(day: date, calendar: TermCalendar) -> bool:
    start, end = calendar.bounds
    return start - timedelta(weeks=3) <= day <= end + timedelta(weeks=8)


def _states(name: str, seed: int, thorough: bool) -> tuple[list[_Probe], list[_State]]:
    """The probes of a term, and the sheet as written and after each change; only first and last unless thorough."""
    calendar = CALENDARS[name]
    book = TermBook.of(calendar.term, {COURSE: calendar.meetings, "ART 5": ()}, [_item_counting_school_days()])
    dates = _course_dates(book)
    book.book.workbook[PROBE]["E1"].value = _anchors(calendar.term)[ANCHOR][0]
    probes = _probes(book, dates, random.Random(f"{name} {seed}"))
    states = [_State("as written", book.content(), dates.calendar)]
    for what, calendar in _changed(book, dates.calendar):
        if thorough or what == LAST_CHANGE:
            states.append(_State(what, book.content(), calendar))
    return probes, states


LAST_CHANGE = "weeks off counted the other way"


def _changed(book: TermBook, calendar: TermCalendar) -> Iterator[tuple[str, TermCalendar]]:
    """Changes the sheet step by step, as a person would; after each, the calendar that says the same in Python."""
    meetings = calendar.meetings
    term = replace(calendar.term, first_day=calendar.first_day + timedelta(days=8))
    book.change(book.cell_of(Name.FIRST_DAY), term.first_day)
    yield "first day of term moved by 8 days", _calendar(term, meetings)

    storm = (calendar.first_day + timedelta(days=21), calendar.first_day + timedelta(days=27))
    term = replace(term, no_class=(*term.no_class, DayOff("Storm days", *storm)))
    row = book.free_row_of(Name.OFF_NAMES)
    for column, value in zip("ABC", ("Storm days", *storm), strict=True):
        book.change(f"{column}{row}", value)
    yield "a break of a week added", _calendar(term, meetings)

    row = int(book.cell_of(Name.CLASS_COURSES)[1:])
    for number in range(len(meetings)):
        for column in "EFGHIJK":
            book.change(f"{column}{row + number}", None)
    for column in "EJ":
        book.change(f"{column}{row}", "x")
    meetings = (Meeting((Weekday.MO, Weekday.SA)),)
    yield "classes moved to Monday and Saturday", _calendar(term, meetings)

    term = replace(term, break_weeks_count=not term.break_weeks_count)
    book.change(book.cell_of(Name.BREAKS_COUNT), "yes" if term.break_weeks_count else "no")
    yield LAST_CHANGE, _calendar(term, meetings)


def _calendar(term: Term, meetings: tuple[Meeting, ...]) -> TermCalendar:
    return TermCalendar(term, meetings, COURSE, school_weeks=True)


def _cells(probes: Iterable[_Probe]) -> dict[str, list[str]]:
    return {PROBE: [f"A{row}" for probe in probes for row in (probe.row, probe.row + 1)]}


def _faults(probes: list[_Probe], state: _State, found: dict[tuple[str, str], object]) -> list[str]:
    faults: list[str] = []
    for probe in probes:
        resolution = _read(probe.expression, state.calendar)
        first: date | str | None = ""
        end: date | str | None = ""
        if isinstance(resolution, Resolved):
            first, end = resolution.date, resolution.end_date or resolution.date
        got = as_day(found[PROBE, f"A{probe.row}"])
        if got != first:
            faults.append(f"{state.what}: {write_expression(probe.expression)}: Python {first}, sheet {got}")
        if probe.has_end and (got := as_day(found[PROBE, f"A{probe.row + 1}"])) != end:
            faults.append(f"{state.what}: end of {write_expression(probe.expression)}: Python {end}, sheet {got}")
    return faults


@pytest.mark.parametrize("name", list(CALENDARS))
def test_python_and_ironcalc_agree_before_and_after_the_sheet_is_changed(name: str) -> None:
    probes, states = _states(name, seed=1, thorough=False)
    faults = [fault for state in states for fault in _faults(probes, state, iron_values(state.content, _cells(probes)))]
    assert not faults, "\n".join(faults[:12])


@pytest.mark.slow
@pytest.mark.office
@pytest.mark.skipif(soffice() is None, reason="LibreOffice is not installed on this machine")
def test_python_ironcalc_and_libreoffice_agree_on_more_than_500_pairs() -> None:
    drawn = [_states(name, seed=2, thorough=True) for name in CALENDARS]
    contents = [state.content for _, states in drawn for state in states]
    cells = {PROBE: [f"A{row}" for row in range(1, 2 * PAIRS_IN_A_TERM + 1)]}
    office = iter(office_values(contents, cells))
    faults: list[str] = []
    for probes, states in drawn:
        for state in states:
            faults += [f"LibreOffice, {fault}" for fault in _faults(probes, state, next(office))]
            faults += [f"IronCalc, {fault}" for fault in _faults(probes, state, iron_values(state.content, cells))]
    assert sum(len(probes) for probes, _ in drawn) >= 500
    assert not faults, "\n".join(faults[:20])
