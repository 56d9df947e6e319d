"""Doing one piece of work: outlines read in a reading process, dated, planned, and written.

Whatever an outline does costs that outline alone. What is done here runs in a process of a batch's own, or on another
machine; the reading process is kept from one piece of work to the next, because starting it costs as much as reading.
"""

from __future__ import annotations

import hashlib
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.batch.records import BatchSettings, FileResult, State, Work, WorkResult
from syllabus_io.batch.works import output_path
from syllabus_io.errors import OutputNotWritable, SyllabusError, UnreadableDocument
from syllabus_io.extract.limits import ReadingLimits
from syllabus_io.isolation.process import ReadingProcess
from syllabus_io.isolation.worker import fault_spot
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import course_keys, outlines_as_printed, resolve_outlines
from syllabus_io.record_json import outline_from_json
from syllabus_io.resolve.records import ResolvedCourse, ResolvedTerm

if TYPE_CHECKING:
    from syllabus_io.plan.records import Plan
    from syllabus_io.workbook.printed_places import AsPrinted

__all__ = ["carry_out"]

_REPORT = "leave it out, and report this line"
_SEE_TO = "see to the outlines and run the batch again"
_NO_OUTLINES = ("the folder holds no course outlines", "put .pdf or .docx files into it")
_OWN = threading.local()


def carry_out(work: Work, settings: BatchSettings) -> WorkResult:
    """Does a piece of work and tells what became of it. Raises nothing for what an outline does."""
    if not work.files:
        nothing = FileResult("", State.UNREAD, fault=_NO_OUTLINES[0], remedy=_NO_OUTLINES[1])
        return WorkResult(work.key, work.student, (nothing,))
    return (_write_records if settings.extract_only else _write_plan)(work, settings)


# --- reading ----------------------------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Student:
    """The outlines of a piece of work by their digests, and what became of each file so far."""

    work: Work
    outlines: dict[str, Outline] = field(default_factory=dict)
    paths: dict[str, Path] = field(default_factory=dict)
    results: dict[Path, FileResult] = field(default_factory=dict)

    def fail(self, path: Path, state: State, fault: SyllabusError) -> None:
        """Notes that a file is lost."""
        was = self.results[path]
        self.results[path] = replace(was, state=state, fault=fault.fault, remedy=fault.remedy)

    def leave_out(self, digest: str, fault: SyllabusError) -> None:
        """Goes on without an outline."""
        del self.outlines[digest]
        self.fail(self.paths[digest], State.UNREAD, fault)

    def result(self, *more: FileResult, written: str = "") -> WorkResult:
        """What became of the piece of work."""
        return WorkResult(self.work.key, self.work.student, (*self.results.values(), *more), written)


def _read(work: Work, limits: ReadingLimits) -> _Student:
    student = _Student(work)
    process = _reading_process(limits)
    for path in work.files:
        began = time.monotonic()
        reply = process.read(path)
        outline = _outline(path, reply) if isinstance(reply, str) else reply
        name = path.relative_to(work.folder).as_posix()
        student.results[path] = FileResult(name, State.DONE, seconds=time.monotonic() - began)
        if isinstance(outline, SyllabusError):
            student.fail(path, State.UNREAD, outline)
        elif outline.digest in student.outlines:
            student.results[path] = replace(student.results[path], state=State.SAME)
        else:
            student.outlines[outline.digest] = outline
            student.paths[outline.digest] = path
    return student


def _outline(path: Path, reply: str) -> Outline | SyllabusError:
    try:
        return outline_from_json(reply)
    except ValueError:
        return UnreadableDocument(path, "the reading process gave no outline", _REPORT)


def _reading_process(limits: ReadingLimits) -> ReadingProcess:
    """This thread's reading process, kept as long as the thread: a cluster may do several pieces of work at once."""
    kept: tuple[ReadingLimits, ReadingProcess] | None = getattr(_OWN, "process", None)
    if kept is not None and kept[0] == limits:
        return kept[1]
    if kept is not None:
        kept[1].close()
    process = ReadingProcess(limits)
    _OWN.process = (limits, process)
    return process


# --- dating -----------------------------------------------------------------------------------------------------------


def _dated(student: _Student, settings: BatchSettings) -> ResolvedTerm | None:
    """The outlines with their dates. One on which the program fails is left out; None when none is left."""
    while student.outlines:
        try:
            return resolve_outlines(tuple(student.outlines.values()), settings.facts, settings.today)
        except SyllabusError:
            raise
        except Exception as error:
            if not _leave_out_failing(student, settings):
                fault = f"the program failed on these outlines together ({fault_spot(error)})"
                raise UnreadableDocument(student.work.student, fault, "report this line") from error
    return None


def _leave_out_failing(student: _Student, settings: BatchSettings) -> bool:
    """Leaves out every outline that fails by itself; tells whether there was one."""
    before = len(student.outlines)
    for digest, outline in tuple(student.outlines.items()):
        try:
            resolve_outlines((outline,), settings.facts, settings.today)
        except SyllabusError as fault:
            student.leave_out(digest, fault)
        except Exception as error:
            words = f"the program failed on it ({fault_spot(error)})"
            student.leave_out(digest, UnreadableDocument(student.paths[digest], words, _REPORT))
    return len(student.outlines) < before


def _note_courses(student: _Student, resolved: ResolvedTerm) -> None:
    keys = course_keys(tuple(student.outlines.values()))
    for digest, key, course in zip(student.outlines, keys, resolved.courses, strict=True):
        path = student.paths[digest]
        student.results[path] = replace(
            student.results[path], course=key, items=len(course.items), to_check=_to_check(course)
        )


def _to_check(course: ResolvedCourse) -> int:
    return sum(item.needs_review for item in course.items)


# --- writing ----------------------------------------------------------------------------------------------------------


def _write_records(work: Work, settings: BatchSettings) -> WorkResult:
    """The records of the one outline of a piece of work, as ``extract`` writes them."""
    from syllabus_io.export.json_out import outline_to_json

    began = time.monotonic()
    student = _read(work, settings.limits)
    written = ""
    (path,) = work.files
    try:
        resolved = _dated(student, settings)
        if resolved is not None:
            _note_courses(student, resolved)
            content = outline_to_json(resolved.courses[0]).encode("utf-8", "replace")
            written = _put(output_path(work, settings), content, settings)
    except SyllabusError as fault:
        student.fail(path, State.UNWRITTEN, fault)
    student.results[path] = replace(student.results[path], seconds=time.monotonic() - began)
    return student.result(written=written)


def _write_plan(work: Work, settings: BatchSettings) -> WorkResult:
    """The workbook of a student. One that was typed in since is written anew with everything typed, not replaced."""
    student = _read(work, settings.limits)
    target = output_path(work, settings)
    row = FileResult(target.name, State.DONE, is_workbook=True)
    began = time.monotonic()
    written = ""
    try:
        resolved = _dated(student, settings)
        if resolved is None:
            row = replace(row, state=State.UNREAD, fault="no outline of the folder could be read", remedy=_SEE_TO)
            return student.result(row)
        _note_courses(student, resolved)
        items, to_check = sum(len(course.items) for course in resolved.courses), sum(map(_to_check, resolved.courses))
        row = replace(row, items=items, to_check=to_check)
        written = _write_workbook(student, resolved, target, settings)
    except SyllabusError as fault:
        row = replace(row, state=State.UNWRITTEN, fault=fault.fault, remedy=fault.remedy)
    except Exception as error:
        fault_words = f"the program failed on it ({fault_spot(error)})"
        row = replace(row, state=State.UNWRITTEN, fault=fault_words, remedy="report this line")
    return student.result(replace(row, seconds=time.monotonic() - began), written=written)


def _write_workbook(student: _Student, resolved: ResolvedTerm, target: Path, settings: BatchSettings) -> str:
    from syllabus_io.plan.build import make_plan
    from syllabus_io.workbook.book import WorkbookOptions
    from syllabus_io.workbook.write import make_workbook

    _check_place(target, settings)

    def printed(plan: Plan) -> AsPrinted:
        return outlines_as_printed(plan, student.paths, target, settings.pictures)

    if target.exists() and _digest(target.read_bytes()) != student.work.before:
        return _update(target, tuple(student.outlines.values()), settings, printed)
    plan = make_plan(resolved)
    options = WorkbookOptions(
        paper=settings.paper,
        look=settings.look,
        student=student.work.student,
        today=settings.today,
        pictures=settings.pictures,
        as_printed=printed(plan),
        language=settings.language,
    )
    return _put(target, make_workbook(plan, options), settings)


def _update(
    target: Path, outlines: Sequence[Outline], settings: BatchSettings, printed: Callable[[Plan], AsPrinted]
) -> str:
    """The workbook written anew with what was typed in it; the version before stays beside it."""
    from syllabus_io.revise.files import open_workbook_file, replace_file
    from syllabus_io.revise.update import update_workbook

    file = open_workbook_file(target)
    updated = update_workbook(target, file.content, outlines, settings.today, printed=printed)
    if updated.content != file.content:
        replace_file(file, updated.content)
    return _digest(updated.content)


def _check_place(target: Path, settings: BatchSettings) -> None:
    """Makes sure that what is written lies in the output folder, even where that holds links."""
    if target.is_symlink() or not target.parent.resolve().is_relative_to(settings.output.resolve()):
        raise OutputNotWritable(target, "is or lies in a link that leads elsewhere", "delete the link")


def _put(target: Path, content: bytes, settings: BatchSettings) -> str:
    """Puts a file in its place in one step; returns its digest."""
    from syllabus_io.workbook.write import write_file

    _check_place(target, settings)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise OutputNotWritable(target.parent, f"cannot be made ({reason})", "choose another folder with -o") from None
    write_file(target, content)
    return _digest(content)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
