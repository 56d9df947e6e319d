"""The bench on which one outline is read: its evidence, its own calendar, the days it has off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from syllabus_io.outline.records import Outline
from syllabus_io.resolve.days_off import resolve_days_off
from syllabus_io.resolve.evidence import read_evidence
from syllabus_io.resolve.expression import FullDate, Week
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.mention_days import Bench
from syllabus_io.resolve.term import DayOff, Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.week_numbers import WeekEvidence, read_week_numbers
from syllabus_io.resolve.written_days import DayOrder, distance, settled

__all__ = ["MadeBench", "make_bench"]

_FARTHEST_ROW = 21  # days outside the term; a number and a date farther away are no numbered week of it


@dataclass(frozen=True, slots=True)
class MadeBench:
    """A bench with the days off of its outline, and what a person should know about them."""

    bench: Bench
    days_off: tuple[DayOff, ...]
    notes: tuple[str, ...]


def make_bench(outline: Outline, term: Term, key: str) -> MadeBench:
    """The evidence and the calendar of one course in a term.

    Days off tell how weeks are numbered, and week numbers may date days off, so the days off are read twice.
    """
    evidence = read_evidence(outline, term)
    meetings = outline.course.meetings
    school = TermCalendar(term, meetings, key)
    bench = Bench(school, school, evidence, WeekEvidence())
    off, _ = resolve_days_off(outline.no_class, bench, outline.file, key)
    weeks = read_week_numbers(_week_rows(outline, evidence.order.order or "mdy", term), (*term.no_class, *off))
    if weeks.break_weeks_count is None and _numbers_a_week_off(outline):
        weeks = replace(weeks, break_weeks_count=True)
    own = weeks.adjusted(term)
    own = own if weeks.break_weeks_count is None else replace(own, break_weeks_count=weeks.break_weeks_count)
    calendar = TermCalendar(replace(own, no_class=(*own.no_class, *off)), meetings, key)
    off, notes = resolve_days_off(outline.no_class, replace(bench, calendar=calendar, weeks=weeks), outline.file, key)
    calendar = TermCalendar(replace(own, no_class=(*own.no_class, *off)), meetings, key)
    leftover = (evidence.year.leftover,) if evidence.year.leftover else ()
    return MadeBench(Bench(calendar, school, evidence, weeks), off, (*leftover, *weeks.contradictions, *notes))


def _numbers_a_week_off(outline: Outline) -> bool:
    """Whether the outline gives a week off by its number ("week 6 is reading week"): such weeks then take a number."""
    expressions = [off.mention.phrase.expression for off in outline.no_class]
    return any(isinstance(part, Week) for expression in expressions if expression for part in parts_of(expression))


def _week_rows(outline: Outline, order: DayOrder, term: Term) -> Iterable[tuple[int, date, date]]:
    """The numbered rows with their days, those left out whose date cannot be of this term."""
    for number, expression in outline.week_rows:
        tree = settled(expression, order, term)
        days = [part.day for part in parts_of(tree) if isinstance(part, FullDate)] if tree else []
        if days and distance(min(days), term) <= _FARTHEST_ROW:
            yield number, min(days), max(days)
