"""A copy of a workbook to pass on: with every date and correction, without what is private."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import date
from pathlib import Path

from syllabus_io.errors import BadSetting
from syllabus_io.revise.merge import Merged, heading
from syllabus_io.revise.update import options_of, plan_of
from syllabus_io.workbook.carried import Carried
from syllabus_io.workbook.edits import Edits, RowEdit
from syllabus_io.workbook.layout import DEADLINES, GRADES, OVERVIEW, REVIEW, START, TERM
from syllabus_io.workbook.layout_store import STORE
from syllabus_io.workbook.read import read_workbook
from syllabus_io.workbook.write import remake_workbook

__all__ = ["PRIVATE", "share_workbook"]

PRIVATE = {
    "marks": "marks, what-ifs, targets, and everything else typed on the grades sheets but the scheme",
    "statuses": "what is ticked as done",
    "name": "the student's name",
    "planning": "everything typed on other sheets: commitments, week, day, projects, reading, goals, habits, notes",
    "beside": "columns of one's own, words beside tables, comments, words kept without a place",
    "sheets": "sheets of one's own",
}
"""What a shared copy leaves out, by the word that keeps it in. What is not named as shared is private, so that a new
sheet is private from the start."""

_SHARED_SHEETS = (REVIEW, TERM, DEADLINES)


def share_workbook(path: Path, content: bytes, keep: Collection[str] = (), today: date | None = None) -> bytes:
    """The copy, written anew: nothing private is in any of its parts. ``keep`` are words of :data:`PRIVATE`.

    Raises BadSetting for another word, WorkbookMismatch when the workbook cannot be read back.
    """
    unknown = sorted(set(keep) - set(PRIVATE))
    if unknown:
        raise BadSetting(f"keep {unknown[0]!r}", "is no private part", f"choose from {', '.join(PRIVATE)}")
    read = read_workbook(path, content)
    edits = _shared(read.edits, keep)
    store = replace(read.store, links={})  # folder names may tell more than is to be shared
    store = store if "name" in keep else replace(store, student="")
    plan = plan_of(store, Merged(store.resolved, store.notices, edits, ()))
    own = read.own_sheets if "sheets" in keep else ()
    carried = Carried(store, edits, read.workbook if own else None, own)
    options = options_of(replace(read, store=store), today)
    return remake_workbook(plan, options, carried, content, same=True).content


def _shared(edits: Edits, keep: Collection[str]) -> Edits:
    rows = [shared for row in edits.rows if (shared := _shared_row(row, keep)) is not None]
    if "beside" in keep:
        return replace(edits, rows=tuple(rows))
    return Edits(tuple(rows), deleted_items=edits.deleted_items)


def _shared_row(row: RowEdit, keep: Collection[str]) -> RowEdit | None:
    """The part of a row that is shared; None when nothing is."""
    if row.sheet == REVIEW and "statuses" not in keep:
        done = heading("done")
        changes = {name: content for name, content in row.changes.items() if name != done}
        whole = {name: content for name, content in row.whole.items() if name != done}
        return replace(row, changes=changes, whole=whole) if changes else None
    if row.sheet in _SHARED_SHEETS:
        return row
    if row.sheet == START:
        is_name = row.key.how == "label" and row.key.word == "Student"
        return row if "name" in keep or not is_name else None
    if row.sheet == OVERVIEW or row.sheet.startswith(f"{GRADES} "):
        return row if "marks" in keep or _is_scheme(row) else None
    return row if "planning" in keep and row.sheet != STORE else None


def _is_scheme(row: RowEdit) -> bool:
    """Whether a row belongs to the categories or the scale of a course: the outline's rules, not the marks."""
    if row.sheet == OVERVIEW or "Row id" in row.signature:
        return False
    return "Category id" in row.signature or {"Letter", "From"} <= set(row.signature)
