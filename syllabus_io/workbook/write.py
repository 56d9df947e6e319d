"""A plan in, a workbook file out: sheets are collected, results computed, and the file put in place in one step."""

from __future__ import annotations

import contextlib
import os
import tempfile
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.errors import OutputNotWritable
from syllabus_io.plan.records import Plan
from syllabus_io.workbook.book import Book, WorkbookOptions
from syllabus_io.workbook.language import ENGLISH
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE, START, TODAY_CELL
from syllabus_io.workbook.review_rows import review_rows
from syllabus_io.workbook.styles import find_look, register_styles

if TYPE_CHECKING:
    from syllabus_io.workbook.cached_values import Values
    from syllabus_io.workbook.carried import Carried
    from syllabus_io.workbook.edits import KeptNote

__all__ = [
    "Remade",
    "WorkbookOptions",
    "collect_book",
    "collect_workbook",
    "make_workbook",
    "remake_workbook",
    "write_file",
    "write_workbook",
]

_WRITTEN = datetime(2000, 1, 1)  # noqa: DTZ001  # the file format's time of creation has no zone; the same for all


def write_workbook(plan: Plan, path: Path, options: WorkbookOptions) -> None:
    """Writes the workbook of a plan. The file is replaced in one step: at any moment the old or the new one is whole.

    Raises OutputNotWritable when the place cannot be written, BadSetting for an unknown look.
    """
    write_file(path, make_workbook(plan, options))


def make_workbook(plan: Plan, options: WorkbookOptions) -> bytes:
    """The workbook as bytes, the same for the same plan, options and day."""
    book, values = _computed(collect_book(plan, options))
    if strayed := _strayed_rows(plan, values):
        book, values = _computed(collect_book(plan, options, strayed))
    return _finished(book, values, {})


@dataclass(frozen=True, slots=True)
class Remade:
    """A workbook written anew with what was typed in the earlier one: the file, its results, and what was typed but
    has no place in it any more (it stands on a sheet of its own). ``plain`` is the file in English, as the results
    are."""

    content: bytes
    plain: bytes
    values: Values
    left: tuple[KeptNote, ...]


def remake_workbook(plan: Plan, options: WorkbookOptions, carried: Carried, source: bytes, same: bool) -> Remade:
    """The workbook of a plan with everything carried over from ``source``, the earlier file. ``same`` tells that the
    plan is the one that was written there, so that what is known of its formulas still holds."""
    from syllabus_io.workbook.carried import add_own_sheets, finish_book, own_values
    from syllabus_io.workbook.place import free_rows_needed

    fixed = frozenset(carried.store.fixed)
    if not same:
        fixed = _strayed_rows(plan, _computed(collect_book(plan, options))[1])
    book = _new_book(plan, options, fixed, max(carried.store.free_rows, free_rows_needed(carried.edits)))
    left = finish_book(book, carried)
    values = _computed(book)[1]
    names = add_own_sheets(book, carried)
    own = own_values(source, names) if names else {}
    plain = _packed(book, {**values, **own})
    content = plain if options.language == ENGLISH else _finished(book, values, own)
    return Remade(content, plain, values, left)


def _strayed_rows(plan: Plan, values: Values) -> frozenset[str]:
    """Rows of Review whose formula does not give the date that was read: better a date that cannot move than a wrong
    one, so they are written as constants."""
    from syllabus_io.workbook.cached_values import serial

    computed = values[REVIEW]

    def strays(key: str, at: int, day: date | None) -> bool:
        shown = computed.get(f"{REVIEW_TABLE.letter(key)}{at}")
        return day is not None and shown is not None and shown != serial(day)

    rows = enumerate(review_rows(plan), start=REVIEW_TABLE.first_row)
    return frozenset(row.id for at, row in rows if strays("read", at, row.read) or strays("until", at, row.until))


def collect_workbook(plan: Plan, options: WorkbookOptions, fixed: frozenset[str] = frozenset()) -> bytes:
    """The workbook without computed results: what a spreadsheet program is given to calculate itself.

    ``fixed`` are ids of rows of Review whose dates are written as constants, whatever they hang on.
    """
    return _packed(collect_book(plan, options, fixed))


def collect_book(plan: Plan, options: WorkbookOptions, fixed: frozenset[str] = frozenset()) -> Book:
    """The book of a plan as it is first written."""
    from syllabus_io.workbook.carried import finish_book

    book = _new_book(plan, options, fixed)
    finish_book(book, None)
    return book


def _computed(book: Book) -> tuple[Book, Values]:
    """The book with the results of its formulas."""
    return book, _evaluated(book, START)


def _evaluated(book: Book, start: str) -> Values:
    from syllabus_io.workbook.cached_values import evaluate

    return evaluate(book.workbook, book.today, (start, TODAY_CELL), book.filled)


def _finished(book: Book, values: Values, own: Values) -> bytes:
    """The book as a file in its language. ``values`` are the results of its formulas in English, ``own`` those of the
    user's own sheets."""
    if book.options.language == ENGLISH:
        return _packed(book, {**values, **own})
    from syllabus_io.workbook.language import find_language, translate_workbook

    language = find_language(book.options.language)
    translate_workbook(book.workbook, language, frozenset(own))
    return _packed(book, {**_evaluated(book, language.sheet(START)), **own})


def _new_book(plan: Plan, options: WorkbookOptions, fixed: frozenset[str], free_rows: int = 0) -> Book:
    """A book with every sheet of the plan, not yet saved."""
    from openpyxl import Workbook

    workbook = Workbook()
    for sheet in workbook.worksheets:
        workbook.remove(sheet)
    look = find_look(options.look)
    register_styles(workbook, look, options.paper)
    book = Book(workbook, plan, options, look, _today(options), fixed=fixed, free_rows=free_rows)
    _write_sheets(book)
    return book


def _packed(book: Book, values: Values | None = None) -> bytes:
    """The book as a file, with results where they are given."""
    from syllabus_io.workbook.package import pack_workbook

    workbook, plan = book.workbook, book.plan
    workbook.properties.creator = "syllabus-io"
    workbook.properties.title = f"Plan for {plan.resolved.term.name}"
    workbook.properties.created = workbook.properties.modified = _WRITTEN
    return pack_workbook(workbook, values, book.filled)


def _today(options: WorkbookOptions) -> date:
    return options.today or date.today()  # noqa: DTZ011  # the user's own day, as the spreadsheet program has it


def _write_sheets(book: Book) -> None:
    """Every sheet in the order in which it stands."""
    from syllabus_io.workbook.as_printed import write_as_printed
    from syllabus_io.workbook.days import write_days
    from syllabus_io.workbook.deadlines import write_deadlines
    from syllabus_io.workbook.exams import write_exams
    from syllabus_io.workbook.finish import finish_sheets
    from syllabus_io.workbook.grades import write_grade_sums, write_grades
    from syllabus_io.workbook.grades_overview import fill_grades_overview, write_grades_overview, write_point_scales
    from syllabus_io.workbook.lists import write_lists
    from syllabus_io.workbook.planning import write_planning, write_planning_hidden
    from syllabus_io.workbook.review import write_review
    from syllabus_io.workbook.settings import write_settings
    from syllabus_io.workbook.start_here import finish_start_here, write_start_here
    from syllabus_io.workbook.term_dates import write_term_dates
    from syllabus_io.workbook.timetable import write_timetable

    write_start_here(book)
    write_settings(book, write_term_dates(book) + 1)
    write_timetable(book)
    write_review(book)
    write_as_printed(book)
    write_deadlines(book)
    write_exams(book)
    write_planning(book)
    write_grades_overview(book)
    grades = write_grades(book)
    fill_grades_overview(book, grades)
    write_days(book)
    write_lists(book)
    write_planning_hidden(book)
    write_grade_sums(book, grades)
    write_point_scales(book)
    finish_start_here(book, grades)
    finish_sheets(book)


def write_file(path: Path, content: bytes) -> None:
    """Puts the content in place: a temporary file in the same folder, on the disk, then one rename."""
    temporary: Path | None = None
    try:
        descriptor, name = tempfile.mkstemp(prefix=f".{path.stem}-", suffix=".tmp", dir=path.parent)
        temporary = Path(name)
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(_usual_mode(path))
        temporary.replace(path)
    except OSError as error:
        if temporary is not None:
            with contextlib.suppress(OSError):
                temporary.unlink(missing_ok=True)
        reason = (error.strerror or "unknown reason").lower()
        raise OutputNotWritable(
            path, f"cannot be written ({reason})", "choose another folder, or close the file"
        ) from error


def _usual_mode(path: Path) -> int:
    """The rights of the file that is replaced, or those a new file gets."""
    with contextlib.suppress(OSError):
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
