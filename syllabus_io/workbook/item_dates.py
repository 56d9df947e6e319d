"""The dates of items as formulas over Term dates, where they hang on the term or on another item; else constants."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.resolve.anchors import find_items
from syllabus_io.resolve.expression import Anchor, DateExpression
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.records import Resolved, ResolvedCourse, ResolvedItem, ResolvedTerm
from syllabus_io.workbook.book import Formula
from syllabus_io.workbook.course_dates import CourseDates, course_dates
from syllabus_io.workbook.layout import REVIEW_TABLE
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["DateFormulas", "date_formulas"]


@dataclass(frozen=True, slots=True)
class DateFormulas:
    """The formulas of one row's first and last day; None where the day is a constant."""

    first: Formula | None
    last: Formula | None


def date_formulas(
    resolved: ResolvedTerm, rows: Sequence[ReviewRow], fixed: frozenset[str] = frozenset()
) -> tuple[DateFormulas, ...]:
    """The formulas of every row of Review, in the order of the rows; rows whose id is in ``fixed`` have none."""
    places = {row.id: number for number, row in enumerate(rows, start=REVIEW_TABLE.first_row)}
    courses = [
        _dates_of(resolved, number, [row for row in rows if row.course_number == number], places)
        for number in range(1, len(resolved.courses) + 1)
    ]
    return tuple(
        DateFormulas(None, None) if row.id in fixed else _formulas(row, courses[row.course_number - 1]) for row in rows
    )


def _formulas(row: ReviewRow, dates: CourseDates) -> DateFormulas:
    if row.expression is None or row.read is None:
        return DateFormulas(None, None)
    first = dates.first_formula(row.expression, row.read)
    last = dates.last_formula(row.expression, row.read, row.until) if first and row.until else None
    return DateFormulas(Formula(first) if first else None, Formula(last) if last else None)


def _dates_of(resolved: ResolvedTerm, number: int, rows: Sequence[ReviewRow], places: dict[str, int]) -> CourseDates:
    """The dates of a course, with the items that other items of it are dated from."""
    course = resolved.courses[number - 1]
    days: dict[str, tuple[date, date]] = {}
    cells: dict[str, str] = {}
    for words in _anchor_words(course):
        row = _anchor_row(words, course, rows)
        if row is not None and row.read is not None:
            days[words] = (row.read, row.until or row.read)
            cells[words] = _cell_of(row, places[row.id])
    return course_dates(resolved, number, days, cells)


def _cell_of(row: ReviewRow, at: int) -> str:
    """The date of a row, and nothing once another row stands there because Review was sorted."""
    own = row.id.replace('"', '""')
    return f'IF(${REVIEW_TABLE.letter("id")}${at}="{own}",${REVIEW_TABLE.letter("used")}${at},"")'


def _anchor_words(course: ResolvedCourse) -> tuple[str, ...]:
    words: dict[str, None] = {}
    for item in course.items:
        if isinstance(item.resolution, Resolved):
            words |= {part.words: None for part in _anchors(item.resolution.expression)}
    return tuple(words)


def _anchors(expression: DateExpression) -> list[Anchor]:
    return [part for part in parts_of(expression) if isinstance(part, Anchor)]


def _anchor_row(words: str, course: ResolvedCourse, rows: Sequence[ReviewRow]) -> ReviewRow | None:
    """The row of the one item that is meant; None when none or several are, or when it hangs on another item itself."""
    meant = find_items(words, [item.item for item in course.items])
    if len(meant) != 1:
        return None
    found = [item for item in course.items if item.item is meant[0]]
    if len(found) != 1 or _hangs_on_another(found[0]):
        return None
    return next((row for row in rows if (row.kind, row.title) == (found[0].kind, found[0].title)), None)


def _hangs_on_another(item: ResolvedItem) -> bool:
    return isinstance(item.resolution, Resolved) and bool(_anchors(item.resolution.expression))
