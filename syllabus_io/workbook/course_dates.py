"""What the workbook's term sheet says for one course: its calendar, and the names by which formulas find it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from syllabus_io.resolve.evaluate import ReadingContext, evaluate
from syllabus_io.resolve.expression import ClassNear, DateExpression, Every, MeetingNumber, Offset, Unit
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.formula import FormulaNames, write_end_formula, write_formula
from syllabus_io.resolve.public_holidays import ORIGIN
from syllabus_io.resolve.records import Resolved, ResolvedCourse, ResolvedTerm
from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.term_calendar import TermCalendar, class_kind
from syllabus_io.workbook.layout import Name, class_kind_count_name, school_count_name

__all__ = ["CourseDates", "OffRow", "course_dates", "kinds_counted", "needs_school_count", "off_rows"]

_NAME_LENGTH = 80  # a text that is looked up may have 255 characters; a name needs no more than this
_WILD = str.maketrans({"*": " ", "?": " ", "~": " "})
"""Characters that a look-up would read as wildcards."""


@dataclass(frozen=True, slots=True)
class OffRow:
    """A row of the table of days off. ``name`` is unique in the table; ``course`` is empty for the whole school."""

    name: str
    first_day: date
    last_day: date
    course: str
    origin: str


def off_rows(resolved: ResolvedTerm) -> tuple[OffRow, ...]:
    """The days off of the school and of the courses, each stretch once for whom it concerns, in order of day."""
    rows: dict[tuple[date, date, str], OffRow] = {}
    for off in _all_days_off(resolved):
        course = off.course or ""
        if (off.first_day, off.last_day, "") not in rows:
            row = OffRow(off.name, off.first_day, off.last_day, course, off.origin)
            rows.setdefault((off.first_day, off.last_day, course), row)
    ordered = sorted(rows.values(), key=lambda row: (row.first_day, row.last_day, row.course))
    taken: set[str] = set()
    return tuple(replace(row, name=_own_name(row.name, taken)) for row in ordered)


def _all_days_off(resolved: ResolvedTerm) -> list[DayOff]:
    """Days off of the school first, public holidays after the school's own, then those of the courses."""
    school = sorted(resolved.term.no_class, key=lambda off: (off.course is not None, off.origin == ORIGIN))
    return [*school, *(_for_course(off, course) for course in resolved.courses for off in course.no_class)]


def _for_course(off: DayOff, course: ResolvedCourse) -> DayOff:
    return replace(off, course=course.key)


def _own_name(name: str, taken: set[str]) -> str:
    clean = " ".join(name.translate(_WILD).split())[:_NAME_LENGTH].strip() or "Day off"
    own, number = clean, 1
    while own.casefold() in taken:
        number += 1
        own = f"{clean} ({number})"
    taken.add(own.casefold())
    return own


@dataclass(frozen=True, slots=True)
class CourseDates:
    """The dates of one course as the workbook's own term sheet gives them."""

    calendar: TermCalendar
    names: FormulaNames
    anchors: Mapping[str, tuple[date, date]]

    def first_formula(self, expression: DateExpression, day: date) -> str | None:
        """The formula, without equals sign, for the day that was read; None when it is a fixed date.

        None too when the term sheet would give another day than the one that was read: what cannot move rightly
        stays as it is.
        """
        resolution = evaluate(expression, self.calendar, ReadingContext(anchors=self.anchors))
        if not isinstance(resolution, Resolved) or resolution.date != day:
            return None
        return write_formula(resolution.expression, self.names)

    def last_formula(self, expression: DateExpression, day: date, last: date) -> str | None:
        """The formula for the last day of a stretch, under the same conditions; ``day`` is its first."""
        resolution = evaluate(expression, self.calendar, ReadingContext(anchors=self.anchors))
        if not isinstance(resolution, Resolved) or (resolution.date, resolution.end_date) != (day, last):
            return None
        return write_end_formula(resolution.expression, self.names)


def course_dates(
    resolved: ResolvedTerm,
    number: int,
    anchors: Mapping[str, tuple[date, date]] | None = None,
    anchor_cells: Mapping[str, str] | None = None,
) -> CourseDates:
    """The calendar and the names of course ``number``, counted from 1.

    ``anchors`` are the days of other items by their words, ``anchor_cells`` the cells that hold them.
    """
    course = resolved.courses[number - 1]
    rows = off_rows(resolved)
    own = tuple(
        DayOff(row.name, row.first_day, row.last_day, row.origin, row.course or None)
        for row in rows
        if row.course in ("", course.key)
    )
    term = replace(resolved.term, no_class=own, assumed=())
    calendar = TermCalendar(term, course.outline.course.meetings, course.key, school_weeks=True)
    names = FormulaNames(
        class_counts={kind: class_kind_count_name(number, kind) for kind in kinds_counted(course)},
        days_off=_listed_names(resolved, course, rows),
        anchors=anchor_cells or {},
        school_count=school_count_name(number) if needs_school_count(course) else "",
        rotation_count=Name.ROTATION_COUNT if resolved.term.rotation else "",
        rotation_labels=resolved.term.rotation.labels if resolved.term.rotation else (),
    )
    return CourseDates(calendar, names, anchors or {})


def _listed_names(resolved: ResolvedTerm, course: ResolvedCourse, rows: tuple[OffRow, ...]) -> dict[str, str]:
    listed = {(row.first_day, row.last_day, row.course): row.name for row in rows}
    names = {row.name: row.name for row in rows if row.course in ("", course.key)}
    for off in _all_days_off(resolved):
        if off.course in (None, course.key):
            days = (off.first_day, off.last_day)
            name = listed.get((*days, "")) or listed[(*days, course.key)]
            names.setdefault(off.name, name)
    return names


def kinds_counted(course: ResolvedCourse) -> tuple[str, ...]:
    """The kinds of class that are counted for a course: any class first, then the kinds that its dates count."""
    if not course.outline.course.meetings:
        return ()
    kinds = {
        class_kind(part.kind)
        for part in _parts_used(course)
        if isinstance(part, MeetingNumber | ClassNear | Every) and part.kind
    }
    return ("", *sorted(kinds - {""}))


def needs_school_count(course: ResolvedCourse) -> bool:
    """Whether some date of the course counts school days."""
    return any(isinstance(part, Offset) and part.unit is Unit.SCHOOL_DAY for part in _parts_used(course))


def _parts_used(course: ResolvedCourse) -> list[DateExpression]:
    expressions = [item.resolution.expression for item in course.items if isinstance(item.resolution, Resolved)]
    return [part for expression in expressions for part in parts_of(expression)]


def last_day_needed(resolved: ResolvedTerm) -> date:
    """The last day that the term sheet has to know: the end of the examination period, and some weeks more."""
    term = resolved.term
    end = max(term.last_day, term.finals[1]) if term.finals else term.last_day
    return end + timedelta(weeks=10)
