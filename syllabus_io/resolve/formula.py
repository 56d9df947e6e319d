"""From an expression to a spreadsheet formula over the term sheet: the workbook's half of the date language.

The twin of :mod:`syllabus_io.resolve.evaluate`: over a sheet that says what the term calendar says, a formula gives
the day that evaluation gives, and moves when the sheet is changed. Formulas use only functions that every common
spreadsheet program has, and none of the forms on which programs disagree (arrays made by INDEX, dynamic arrays).
"""

from __future__ import annotations

from syllabus_io.resolve import formula_relative, formula_term
from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    DateExpression,
    MeetingNumber,
    NamedDay,
    Offset,
    RotationDay,
    Span,
    TermPoint,
    Unit,
    Week,
)
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.formula_days import LONGEST, FormulaNames, stretch_formulas

__all__ = ["FormulaNames", "write_end_formula", "write_formula"]

_KINDS_WRITTEN = (formula_relative, formula_term)
"""Each registers how its kinds of expression are written."""
_MOVING = (Week, MeetingNumber, ClassNear, RotationDay, NamedDay, TermPoint, Anchor)
"""What moves with the term sheet or with another date."""


def write_formula(expression: DateExpression, names: FormulaNames) -> str | None:
    """The formula, without equals sign, for the first day of an expression as evaluation gave it back.

    None for what cannot move, which stays a constant: a fixed date, also one told from other fixed dates. None too
    for what no formula can follow: a date whose year is not settled, a recurring rule, the nearest class. The formula
    gives "" where the sheet has no such day.
    """
    if not _moves(expression.first if isinstance(expression, Span) else expression):
        return None
    stretch = stretch_formulas(expression, names)
    return _guarded(stretch.first) if stretch else None


def write_end_formula(expression: DateExpression, names: FormulaNames) -> str | None:
    """The formula for the last day of a stretch, a week shown to its Friday; None for a single day or a fixed one."""
    if not _moves(expression.last if isinstance(expression, Span) else expression):
        return None
    stretch = stretch_formulas(expression, names)
    return _guarded(stretch.end) if stretch and stretch.end != stretch.first else None


def _moves(expression: DateExpression) -> bool:
    """Whether some part of the expression hangs on the term sheet or on another date."""
    return any(
        isinstance(part, _MOVING) or (isinstance(part, Offset) and part.unit in (Unit.MEETING, Unit.SCHOOL_DAY))
        for part in parts_of(expression)
    )


def _guarded(formula: str) -> str | None:
    guarded = f'IFERROR({formula},"")'
    return guarded if len(guarded) <= LONGEST else None
