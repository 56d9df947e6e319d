"""A workbook in, the same workbook written anew out: with everything typed, and with revised outlines merged in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Literal, cast

from syllabus_io.outline.records import Outline
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.revise.changes import Change
from syllabus_io.revise.merge import Merged, merge_outlines, settle_notices
from syllabus_io.workbook.carried import Carried
from syllabus_io.workbook.edits import Edits, KeptNote
from syllabus_io.workbook.printed_places import AsPrinted
from syllabus_io.workbook.read import ReadWorkbook, read_workbook
from syllabus_io.workbook.store import Store
from syllabus_io.workbook.write import WorkbookOptions, remake_workbook

if TYPE_CHECKING:
    from syllabus_io.workbook.cached_values import Values

__all__ = ["Updated", "options_of", "plan_of", "update_workbook"]


@dataclass(frozen=True, slots=True)
class Updated:
    """A workbook written anew. ``left`` are words for which there was no place any more, ``typed`` counts the cells
    that were typed, ``notes`` are sentences on what was found in the file; ``before`` is its store as it was read;
    ``plain`` is the file in English, which the ``values`` belong to."""

    content: bytes
    plain: bytes
    values: Values
    plan: Plan
    edits: Edits
    before: Store
    changes: tuple[Change, ...]
    left: tuple[KeptNote, ...]
    notes: tuple[str, ...]

    @property
    def typed(self) -> int:
        """How many cells differ from what was written."""
        return sum(len(edit.changes) for edit in self.edits.rows)


def update_workbook(
    path: Path,
    content: bytes,
    outlines: Sequence[Outline] = (),
    today: date | None = None,
    moment: int = 0,
    also: Callable[[Edits], Edits] | None = None,
    printed: Callable[[Plan], AsPrinted] | None = None,
) -> Updated:
    """The workbook in ``content`` written anew, revised ``outlines`` merged in. Nothing is written to the disk.

    ``path`` names the file in errors; ``moment`` is now, in seconds, the number that changed rows get for calendar
    programs; ``also`` adds to what was typed; ``printed`` gives links to the outlines' files and pictures of places in
    them, beside those that the workbook holds. Raises WorkbookMismatch when the workbook cannot be read back.
    """
    read = read_workbook(path, content)
    if also:
        read = replace(read, edits=also(read.edits))
    merged = _merged(read, outlines)
    plan = plan_of(read.store, merged)
    carried = Carried(read.store, merged.edits, read.workbook, read.own_sheets, moment)
    same = merged.resolved == read.store.resolved
    options = options_of(read, today, printed(plan) if printed else None)
    remade = remake_workbook(plan, options, carried, content, same)
    return Updated(
        remade.content,
        remade.plain,
        remade.values,
        plan,
        merged.edits,
        read.store,
        merged.changes,
        remade.left,
        read.edits.notes,
    )


def _merged(read: ReadWorkbook, outlines: Sequence[Outline]) -> Merged:
    store = read.store
    notices = settle_notices(store.notices, read.edits)
    if not outlines:
        return Merged(store.resolved, notices, read.edits, ())
    return merge_outlines(store.resolved, store.settings, notices, read.edits, outlines)


def plan_of(store: Store, merged: Merged) -> Plan:
    """The plan to be written: what was read, with notices, without the rows that a person removed."""
    plan = make_plan(merged.resolved, store.settings)
    removed = dict.fromkeys([*store.deleted, *merged.edits.deleted_items])
    return replace(plan, notices=merged.notices, left_out=tuple(removed))


def options_of(read: ReadWorkbook, today: date | None, more: AsPrinted | None = None) -> WorkbookOptions:
    """How the workbook looked, with what it shows of the outlines' files and ``more`` of that."""
    store, more = read.store, more or AsPrinted()
    paper = cast("Literal['a4', 'letter']", store.paper)
    as_printed = AsPrinted({**store.links, **more.links}, {**read.pictures, **more.pictures})
    return WorkbookOptions(paper, store.look, store.student, today, store.language, as_printed=as_printed)
