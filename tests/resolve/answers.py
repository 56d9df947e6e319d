"""What evaluation answers in a test: the day, the question or the open point that an expression must come to."""

from __future__ import annotations

from syllabus_io.resolve.evaluate import ReadingContext, evaluate
from syllabus_io.resolve.expression import DateExpression, Weekday
from syllabus_io.resolve.formula import FormulaNames
from syllabus_io.resolve.records import Ambiguous, Resolved, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from tests.dates.calendars import CALENDARS

__all__ = [
    "FR",
    "MO",
    "NAMES",
    "SA",
    "SEMESTER",
    "SU",
    "TH",
    "TU",
    "WE",
    "ambiguous",
    "resolved",
    "unresolved",
]

MO, TU, WE, TH, FR, SA, SU = (Weekday(number) for number in range(1, 8))
SEMESTER = CALENDARS["semester"]
#: The names a sheet could give to what formulas look up.
NAMES = FormulaNames(
    class_counts={"": "ClassCount_1", "lab": "ClassCount_1_lab"},
    days_off={"Spring break": "Spring break", 'The "Dip"': 'The "Dip"'},
    anchors={"midterm": "Review!$L$9"},
    school_count="SchoolCount_1",
    rotation_count="RotationCount",
    rotation_labels=("A", "B"),
)


def resolved(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Resolved:
    """The day that an expression comes to; fails when it raises a question or stays open."""
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Resolved), f"{expression} was not resolved: {resolution}"
    return resolution


def ambiguous(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Ambiguous:
    """The question that an expression raises; fails when there is none."""
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Ambiguous), f"{expression} raised no question: {resolution}"
    return resolution


def unresolved(
    expression: DateExpression, calendar: TermCalendar | None = SEMESTER, context: ReadingContext | None = None
) -> Unresolved:
    """The open point of an expression, with its reason and what would settle it; fails when a day is found."""
    resolution = evaluate(expression, calendar, context)
    assert isinstance(resolution, Unresolved), f"{expression} was resolved: {resolution}"
    assert resolution.reason and resolution.settle
    return resolution
