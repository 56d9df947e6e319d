"""``update``: a workbook written anew with everything typed in it, revised outlines merged in."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.cli.clock import local_day, moment
from syllabus_io.cli.reading import load_writing, read_with_progress, reading_settings
from syllabus_io.cli.report import count, fault_lines, plain
from syllabus_io.cli.workbook_options import UpdateOptions
from syllabus_io.cli.workbooks import find_workbooks
from syllabus_io.errors import SyllabusError
from syllabus_io.pipeline import ReadFiles, outlines_as_printed
from syllabus_io.plan.records import Plan
from syllabus_io.revise.changes import Changed
from syllabus_io.revise.files import open_workbook_file, replace_file
from syllabus_io.revise.update import Updated, update_workbook

if TYPE_CHECKING:
    from syllabus_io.workbook.printed_places import AsPrinted

__all__ = ["update"]

_MOST_LINES = 15  # of one sort of change
_TO_LOOK_AT = frozenset({Changed.QUESTION, Changed.KEPT})


@dataclass(frozen=True, slots=True)
class _Done:
    """What became of one workbook: None and a fault when it could not be written."""

    path: Path
    updated: Updated | None
    kept: Path | None = None
    fault: SyllabusError | None = None


def update(options: UpdateOptions) -> int:
    """Writes each workbook anew. Returns 0, 1 when something is to be decided, 2 when a file could not be used."""
    paths = find_workbooks(options.workbook)
    read = _read_outlines(options)
    for line in fault_lines(read.faults):
        print(line, file=sys.stderr)
    if options.outlines and not read.outlines:
        return 2
    done = [_update_one(path, read, alone=len(paths) == 1) for path in paths]
    for one in done:
        if one.fault:
            print(f"syllabus-io: {plain(str(one.fault))}", file=sys.stderr)
    if not options.quiet:
        lines = describe(done[0]) if len(done) == 1 else _table(done)
        print("\n".join(lines))
    if read.faults or any(one.fault for one in done):
        return 2
    return 1 if any(one.updated and _needs_attention(one.updated) for one in done) else 0


def _read_outlines(options: UpdateOptions) -> ReadFiles:
    if not options.outlines:
        return ReadFiles(())
    from syllabus_io.extract.reader import outline_files

    settings = reading_settings(options.no_cache, meanwhile=load_writing)
    return read_with_progress(outline_files(options.outlines), settings, options.quiet)


def _update_one(path: Path, read: ReadFiles, alone: bool) -> _Done:
    def printed(plan: Plan) -> AsPrinted:
        return outlines_as_printed(plan, read.paths, path)

    try:
        file = open_workbook_file(path)
        updated = update_workbook(path, file.content, read.outlines, local_day(), moment(), printed=printed)
        kept = replace_file(file, updated.content) if updated.content != file.content else None
    except SyllabusError as fault:
        if alone:
            raise
        return _Done(path, None, fault=fault)
    return _Done(path, updated, kept)


def _needs_attention(updated: Updated) -> bool:
    return bool(updated.left) or any(change.what in _TO_LOOK_AT for change in updated.changes)


def describe(done: _Done) -> list[str]:
    """What an update did, in plain sentences."""
    updated = done.updated
    if updated is None:
        return []
    added = sum(edit.key.how == "added" for edit in updated.edits.rows)
    lines = [f"{count(updated.typed, 'typed cell')} kept" + (f", {count(added, 'added row')} put in" if added else "")]
    lines += [plain(note) for note in dict.fromkeys(updated.notes)]
    for what in Changed:
        changes = [change for change in updated.changes if change.what is what]
        if changes:
            lines.append(f"{what.value[:1].upper()}{what.value[1:]}:")
            lines += [f"  {plain(change.course)}: {plain(change.text)}" for change in changes[:_MOST_LINES]]
        if len(changes) > _MOST_LINES:
            lines.append(f"  … and {len(changes) - _MOST_LINES} more")
    if updated.left:
        lines.append("No place was found for these words; they stand on the sheet Kept words:")
        lines += [f"  {plain(note.sheet)}, {plain(note.where)}: {plain(note.words)}" for note in updated.left]
    if any(change.what in _TO_LOOK_AT for change in updated.changes):
        lines.append("Look at the rows marked “check” on Review.")
    if done.kept:
        lines.append(f"Written: {done.path}; the earlier version is kept as {done.kept.name}")
    else:
        lines.append(f"Nothing to change: {done.path}")
    return lines


def _table(done: Sequence[_Done]) -> list[str]:
    """A line for each workbook."""
    width = max(len(one.path.name) for one in done)
    lines = [f"{'Workbook':<{width}}  typed  changed  to decide  no place"]
    for one in done:
        if one.updated is None:
            lines.append(f"{one.path.name:<{width}}  not written: {plain(one.fault.fault) if one.fault else ''}")
            continue
        decide = sum(change.what in _TO_LOOK_AT for change in one.updated.changes)
        figures = (one.updated.typed, len(one.updated.changes), decide, len(one.updated.left))
        lines.append(f"{one.path.name:<{width}}  {figures[0]:>5}  {figures[1]:>7}  {figures[2]:>9}  {figures[3]:>8}")
    return lines
