"""The term as it stands in a workbook: as first read, with what was typed on Term dates since."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from syllabus_io.resolve.term import DayOff, Term
from syllabus_io.workbook.cached_values import serial
from syllabus_io.workbook.cell_values import Content, date_of, shown
from syllabus_io.workbook.edits import Edits, RowEdit
from syllabus_io.workbook.layout import TERM

__all__ = ["standing_term"]

_OFF = "Day off"
_TYPED = "the workbook"


def standing_term(term: Term, edits: Edits) -> Term:
    """The term by which the workbook's dates are now computed. A last day before the first is not taken.

    Days off that an outline names for its own course stay as the outline has them.
    """
    facts = dict(_facts(edits))
    first, last = _day(facts, "First day", term.first_day), _day(facts, "Last day", term.last_day)
    if first is None or last is None or last < first:
        first, last = term.first_day, term.last_day
    finals_first, finals_last = term.finals or (None, None)
    finals_first = _day(facts, "Examinations from", finals_first)
    finals_last = _day(facts, "Examinations to", finals_last)
    counts = facts.get("Do weeks off count?")
    return replace(
        term,
        first_day=first,
        last_day=last,
        finals=(finals_first, finals_last) if finals_first and finals_last and finals_first <= finals_last else None,
        week_one=_day(facts, "Week 1 from", term.week_one),
        break_weeks_count=shown(counts).strip().lower() == "yes" if counts is not None else term.break_weeks_count,
        no_class=tuple(_days_off(term, edits)),
    )


def _facts(edits: Edits) -> Iterator[tuple[str, Content]]:
    for edit in edits.of_sheet(TERM):
        if edit.key.how == "label" and edit.changes:
            yield edit.key.word, next(iter(edit.changes.values()))


def _day(facts: Mapping[str, Content], label: str, known: date | None) -> date | None:
    return date_of(facts[label]) if label in facts else known


def _days_off(term: Term, edits: Edits) -> Iterator[DayOff]:
    """The days off as first read, those that were typed over as they now are, then those that were added."""
    rows = [edit for edit in edits.of_sheet(TERM) if _OFF in edit.signature]
    changed = {_was(edit): edit for edit in rows if edit.key.how == "was"}
    for off in term.no_class:
        edit = changed.get((float(serial(off.first_day)), float(serial(off.last_day))))
        now = off if edit is None else _off_of(edit)
        if now is not None:
            yield now if edit is None else replace(now, origin=off.origin)
    for edit in rows:
        if edit.key.how != "was" and (off_added := _off_of(edit)) is not None:
            yield off_added


def _was(edit: RowEdit) -> tuple[object, object]:
    """The first and last day that a row held when it was written."""
    held = dict(edit.key.cells)
    return held.get("First day"), held.get("Last day")


def _off_of(edit: RowEdit) -> DayOff | None:
    """The day off that a row now holds; None when it holds none."""
    first = date_of(edit.whole.get("First day"))
    if edit.deleted or first is None:
        return None
    last = date_of(edit.whole.get("Last day")) or first
    course = edit.whole.get("Course")
    return DayOff(
        shown(edit.whole.get(_OFF)) or _OFF, first, max(first, last), _TYPED, shown(course) if course else None
    )
