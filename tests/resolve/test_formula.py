"""What formulas look like and when there is none. That they give the right day is proved in two spreadsheet engines
in tests/workbook/test_formula_agreement.py."""

from __future__ import annotations

import re
from datetime import date
from typing import get_args

import pytest

from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    DateExpression,
    DayInMonth,
    Direction,
    Every,
    Frequency,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthDay,
    MonthPart,
    NamedDay,
    NthWeekday,
    NumericDate,
    Offset,
    Part,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.formula import FormulaNames, write_end_formula, write_formula
from syllabus_io.resolve.formula_days import UNWRITTEN, written
from syllabus_io.workbook.layout import Name, class_count_name
from tests.resolve.answers import NAMES, SEMESTER

# Functions of the spreadsheet programs of 2003 and before, IFERROR (2007), and COUNTIFS (2007).
ALLOWED = {
    "AND", "COUNTIFS", "DATE", "EDATE", "IF", "IFERROR", "INDEX", "INT", "ISNUMBER", "MATCH", "MAX", "MOD", "MONTH",
    "N", "NA", "WEEKDAY", "WORKDAY", "YEAR",
}  # fmt: skip


@pytest.mark.parametrize(
    ("expression", "formula"),
    [
        (Week(5), 'IFERROR(INDEX(WeekMondays,MATCH(5,WeekNumbers,0)),"")'),
        (Week(0), 'IFERROR((WeekOne-7),"")'),
        (MeetingNumber(12), 'IFERROR(INDEX(DayDates,MATCH(12,ClassCount_1,0)),"")'),
        (MeetingNumber(-1, "Labs"), 'IFERROR(INDEX(DayDates,MATCH(MAX(ClassCount_1_lab),ClassCount_1_lab,0)),"")'),
        (NamedDay("Spring break"), 'IFERROR(INDEX(OffFirst,MATCH("Spring break",OffNames,0)),"")'),
        (NamedDay('The "Dip"'), 'IFERROR(INDEX(OffFirst,MATCH("The ""Dip""",OffNames,0)),"")'),
        (TermPoint(TermEdge.LAST_DAY), 'IFERROR(LastDay,"")'),
        (
            Offset(FullDate(date(2026, 10, 6)), 3, Unit.SCHOOL_DAY),
            'IFERROR(INDEX(DayDates,MATCH(N(INDEX(SchoolCount_1,MATCH(DATE(2026,10,6),DayDates,0)))+3,SchoolCount_1,0)),"")',
        ),
        (
            Offset(Anchor("the midterm"), 1, Unit.WEEK),
            'IFERROR((IF(ISNUMBER(Review!$L$9),Review!$L$9,NA())+7),"")',
        ),
    ],
)
def test_formula(expression: DateExpression, formula: str) -> None:
    assert write_formula(expression, NAMES) == formula


@pytest.mark.parametrize(
    "expression",
    [
        FullDate(date(2026, 10, 6)),
        MonthDay(10, 6),
        NumericDate(10, 6),
        DayInMonth(6),
        WholeMonth(10, 2026),
        MonthPart(Part.MIDDLE, 10, 2026),
        IsoWeek(41, 2026),
        Reference(),
        Every(Frequency.WEEKLY, weekdays=(Weekday.FR,)),
        Span(FullDate(date(2026, 10, 6)), FullDate(date(2026, 10, 8))),
        NthWeekday(2, Weekday.TU, 10),
        NthWeekday(2, Weekday.TU, 10, 2026),
        Offset(FullDate(date(2026, 10, 6)), 3, Unit.DAY),
        WeekdayIn(WeekOf(FullDate(date(2026, 10, 6))), Weekday.FR),
        Offset(MonthDay(10, 6), 1, Unit.DAY),
        NamedDay("Harbour Day"),
        Anchor("the essay"),
        MeetingNumber(3, "seminar"),
        ClassNear(Week(5), Direction.NEAREST),
        ClassNear(Week(5), Direction.AFTER, weekday=Weekday.MO),
        RotationDay("C"),
    ],
)
def test_what_does_not_move_or_cannot_be_followed_has_no_formula(expression: DateExpression) -> None:
    assert write_formula(expression, NAMES) is None
    assert write_end_formula(expression, NAMES) is None


def test_sheet_without_a_count_gives_no_formula() -> None:
    plain = FormulaNames()
    for expression in (MeetingNumber(3), RotationDay("A"), Offset(Week(3), 2, Unit.SCHOOL_DAY)):
        assert write_formula(expression, plain) is None


def test_only_a_stretch_has_an_end() -> None:
    assert write_end_formula(Week(5), NAMES) == 'IFERROR((INDEX(WeekMondays,MATCH(5,WeekNumbers,0))+4),"")'
    assert write_end_formula(NamedDay("Spring break"), NAMES) is not None
    assert write_end_formula(WeekdayIn(Week(5), Weekday.FR), NAMES) is None
    assert write_end_formula(MeetingNumber(3), NAMES) is None


def test_span_may_move_at_one_end_only() -> None:
    span = Span(Week(2), FullDate(date(2026, 10, 8)))
    assert write_formula(span, NAMES) is not None and write_end_formula(span, NAMES) is None


def test_formula_that_would_be_too_long_is_not_written() -> None:
    tree: DateExpression = Week(5)
    for _ in range(8):
        tree = WeekdayNear(tree, Weekday.MO, Direction.NEAREST)
    assert write_formula(tree, NAMES) is None


def test_every_kind_of_expression_is_either_written_or_declined() -> None:
    unwritten = [
        kind.__name__
        for kind in get_args(DateExpression)
        if written.dispatch(kind) is written.dispatch(object) and kind not in UNWRITTEN
    ]
    assert not unwritten


def test_only_functions_that_every_spreadsheet_program_has() -> None:
    import random

    from tests.workbook.random_expressions import draw_expression

    dice = random.Random(3)
    used: set[str] = set()
    for _ in range(2000):
        formula = write_formula(draw_expression(dice, SEMESTER), NAMES)
        used |= set(re.findall(r"\b([A-Z]+)\(", formula or ""))
    assert used <= ALLOWED, f"not everywhere known: {used - ALLOWED}"


def test_names_are_those_of_the_workbook() -> None:
    names = FormulaNames()
    assert (names.first_day, names.last_day, names.week_one) == (Name.FIRST_DAY, Name.LAST_DAY, Name.WEEK_ONE)
    assert (names.finals_first, names.finals_last) == (Name.FINALS_FIRST, Name.FINALS_LAST)
    assert (names.week_numbers, names.week_mondays) == (Name.WEEK_NUMBERS, Name.WEEK_MONDAYS)
    assert (names.off_names, names.off_first, names.off_last) == (Name.OFF_NAMES, Name.OFF_FIRST, Name.OFF_UNTIL)
    assert (names.day_dates, names.classes_end) == (Name.DAY_DATES, Name.CLASSES_END)
    assert class_count_name(1) == "ClassCount_1"
