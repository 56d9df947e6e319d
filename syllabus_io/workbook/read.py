"""Reads a workbook back: what was read from the outlines (from its hidden store), and everything typed into it since.

What can be put back in its place comes as row edits, columns of the user's own, and sheets of the user's own; what
cannot is kept word for word. Works on files that another program has saved, with styles, names and results gone.
"""

from __future__ import annotations

import contextlib
import io
import struct
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from syllabus_io.errors import WorkbookMismatch
from syllabus_io.workbook.areas import SheetShape
from syllabus_io.workbook.as_printed import read_pictures
from syllabus_io.workbook.cell_values import Content, FormulaText, content_of, date_of, shown, value_of
from syllabus_io.workbook.edits import Edits, Extra, KeptNote, LooseEdit, RowEdit, RowKey
from syllabus_io.workbook.language import find_language, restore_workbook
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE, column_letter
from syllabus_io.workbook.layout_store import KEPT, KEPT_TABLE, STORE
from syllabus_io.workbook.light_package import lightened, only_sheets
from syllabus_io.workbook.locate import FoundArea, Grid, grid_of, held_cells, likeness, locate, unknown_cells
from syllabus_io.workbook.read_rows import AreaReading, read_area
from syllabus_io.workbook.store import Store, read_store

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["ReadWorkbook", "read_workbook"]

_MOST_BYTES = 200_000_000  # unpacked; a plan of ten courses has about ten million
_MOST_TAGS = 2_000_000  # a plan of ten courses has about 700,000
_CHUNK_BYTES = 1_000_000
_NOT_UNPACKED = (zipfile.BadZipFile, RuntimeError, EOFError, ValueError, struct.error, zlib.error, OSError)
_SAME_SHEET = 0.6
_BESIDE = 3  # columns beyond a table in which words beside its headings are the heading of a column
_CORRECTED = tuple(REVIEW_TABLE.columns[REVIEW_TABLE.number(key) - 1].heading for key in ("read", "used"))


@dataclass(frozen=True, slots=True)
class ReadWorkbook:
    """A workbook read back: its store, what was typed, the open workbook with the sheets of the user's own, None
    where there are none, and its pictures of places in the outlines by their keys."""

    store: Store
    edits: Edits
    workbook: Workbook | None
    own_sheets: tuple[str, ...]
    pictures: Mapping[str, bytes] = field(default_factory=dict)


def read_workbook(path: Path, content: bytes) -> ReadWorkbook:
    """Everything in a workbook. ``path`` names it in errors.

    Raises WorkbookMismatch for a file that is no workbook, that this program did not make, that lost what it needs to
    be read back, or that a newer version made.
    """
    workbook = _opened(path, content, light=True)
    store = read_store(path, workbook)
    restore_workbook(workbook, find_language(store.language), (*store.shapes, *store.hidden_sheets, KEPT))
    if REVIEW not in workbook.sheetnames and not _renamed(REVIEW, store, workbook):
        raise WorkbookMismatch(path, f"has lost its sheet {REVIEW}", "use an earlier copy; undo brings one back")
    collector = _Collector()
    taken = {STORE, KEPT, *store.hidden_sheets}
    for title, shape in store.shapes.items():
        sheet = workbook[title] if title in workbook.sheetnames else _renamed(title, store, workbook)
        if sheet is None:
            collector.notes.append(f"The sheet {title} was gone and has been made anew.")
            continue
        if sheet.title != title:
            collector.notes.append(f"The sheet {sheet.title} is {title} under another name; it has its own name again.")
        taken.add(sheet.title)
        collector.read_sheet(title, shape, sheet)
    collector.kept += _kept_before(workbook)
    own = tuple(
        sheet.title for sheet in workbook.worksheets if sheet.title not in taken and sheet.sheet_state != "veryHidden"
    )
    with_own_sheets = _opened(path, only_sheets(content, own)) if own else None
    return ReadWorkbook(store, collector.edits(), with_own_sheets, own, read_pictures(workbook))


def _opened(path: Path, content: bytes, light: bool = False) -> Workbook:
    """The workbook; a ``light`` one has neither joined cells nor the contents of hidden sheets but the store's, which
    takes a fraction of the time."""
    import warnings

    from openpyxl import load_workbook

    remedy = "choose a workbook that syllabus-io build has made"
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            if sum(entry.file_size for entry in archive.infolist()) > _MOST_BYTES or _holds_too_many_tags(archive):
                raise WorkbookMismatch(path, "is far too large for a plan", remedy)
    except _NOT_UNPACKED:
        raise WorkbookMismatch(path, "is no workbook in the .xlsx format", remedy) from None
    # What the library cannot keep of other programs' files is of no concern here; some of it it prints.
    with warnings.catch_warnings(), contextlib.redirect_stdout(io.StringIO()):
        warnings.simplefilter("ignore")
        try:
            workbook = load_workbook(io.BytesIO(lightened(content, STORE) if light else content), rich_text=False)
            _check_styles(workbook)
            return workbook
        except Exception as error:  # the library raises whatever a damaged part leads it into
            raise WorkbookMismatch(
                path, f"cannot be read as a workbook ({type(error).__name__})", "use an earlier copy of it"
            ) from error


def _check_styles(workbook: Any) -> None:
    """Raises IndexError when a style names a font, format or frame that the file does not hold; the library would only
    raise it once a cell is asked for its looks."""
    from openpyxl.styles.numbers import BUILTIN_FORMATS_MAX_SIZE

    formats = BUILTIN_FORMATS_MAX_SIZE + len(workbook._number_formats)
    for style in workbook._cell_styles:
        for number, most in (
            (style.numFmtId, formats),
            (style.fontId, len(workbook._fonts)),
            (style.fillId, len(workbook._fills)),
            (style.borderId, len(workbook._borders)),
            (style.alignmentId, len(workbook._alignments)),
            (style.protectionId, len(workbook._protections)),
        ):
            if not 0 <= number < most:
                raise IndexError("a style names what the file does not hold")


def _holds_too_many_tags(archive: zipfile.ZipFile) -> bool:
    """Whether the parts hold more elements than any plan: millions of blank cells pack into a few kilobytes."""
    tags = 0
    for entry in archive.infolist():
        with archive.open(entry) as part:
            while chunk := part.read(_CHUNK_BYTES):
                tags += chunk.count(b"<")
                if tags > _MOST_TAGS:
                    return True
    return False


def _renamed(title: str, store: Store, workbook: Workbook) -> Worksheet | None:
    """The sheet that was ``title`` before it got another name, told by the words on it."""
    others = [sheet for sheet in workbook.worksheets if sheet.title not in store.shapes and sheet.title != STORE]
    best = max(others, key=lambda sheet: likeness(store.shapes[title], grid_of(sheet)), default=None)
    return best if best is not None and likeness(store.shapes[title], grid_of(best)) >= _SAME_SHEET else None


def _kept_before(workbook: Workbook) -> list[KeptNote]:
    """What an earlier update kept; rows that were deleted since are gone."""
    if KEPT not in workbook.sheetnames:
        return []
    sheet = workbook[KEPT]
    found = []
    # only rows that are held: one cell at the very end must not make a million
    for row in sorted({row for row, _ in sheet._cells if row >= KEPT_TABLE.first_row}):
        words = [shown(content_of(value_of(sheet.cell(row, KEPT_TABLE.number(key))))) for key in _KEPT_KEYS]
        if any(words):
            found.append(KeptNote(*words))
    return found


_KEPT_KEYS = ("sheet", "where", "words", "why")


class _Collector:
    """Gathers what every sheet gives."""

    def __init__(self) -> None:
        self.rows: list[RowEdit] = []
        self.extras: list[Extra] = []
        self.loose: list[LooseEdit] = []
        self.kept: list[KeptNote] = []
        self.deleted: list[str] = []
        self.notes: list[str] = []

    def edits(self) -> Edits:
        return Edits(
            tuple(self.rows),
            tuple(self.extras),
            tuple(self.loose),
            tuple(dict.fromkeys(self.kept)),
            tuple(self.deleted),
            tuple(self.notes),
        )

    def read_sheet(self, title: str, shape: SheetShape, sheet: Worksheet) -> None:
        """Everything typed on one of our sheets."""
        grid = grid_of(sheet)
        found, missing = locate(shape, grid)
        words = frozenset(mark for mark in shape.loose.values() if isinstance(mark, str))
        readings = [(one, read_area(title, one, grid, words)) for one in found]
        for area in missing:
            if area.rows:
                self.notes.append(f"On the sheet {title} a table was not found by its headings and was made anew.")
        consumed = {place for _, reading in readings for place in reading.consumed}
        unknown, lost = unknown_cells(shape, grid, consumed)
        lost += sum(reading.formulas_lost for _, reading in readings)
        all_formulas = len(shape.formulas) + sum(
            reading.formulas_lost + reading.formulas_found for _, reading in readings
        )
        values_only = all_formulas > 0 and lost * 2 > all_formulas
        if values_only:
            self.notes.append(f"The formulas of the sheet {title} were gone; they have been put back.")
            unknown = {place: content for place, content in unknown.items() if not shape.has_formula(*place)}
        unknown |= _own_formulas(shape, grid, consumed, found)
        for one, reading in readings:
            self._take_reading(title, one, reading, values_only)
            self._take_extras(title, one, reading, unknown)
        self.loose += [LooseEdit(title, row, column, content) for (row, column), content in sorted(unknown.items())]
        self._take_comments(title, sheet)

    def _take_reading(self, title: str, found: FoundArea, reading: AreaReading, values_only: bool) -> None:
        self.notes += [
            f"On the sheet {title} the heading {words} had been typed over; it is back." for words in found.renamed
        ]
        is_items = title == REVIEW and found.area.id_column == REVIEW_TABLE.number("id")
        edits = reading.edits
        if not values_only:
            edits = self._take_typed_over(reading, is_items)
        if is_items:
            gone = [edit.key.word for edit in edits if edit.deleted and not edit.key.word.startswith("own-")]
            self.deleted += gone
            edits = [edit for edit in edits if not (edit.deleted and edit.key.word in gone)]
        self.rows += edits

    def _take_typed_over(self, reading: AreaReading, is_items: bool) -> list[RowEdit]:
        """A date typed over the date as read is meant as its correction; anything else typed over a formula is kept."""
        edits = {edit.key: edit for edit in reading.edits}
        corrected = REVIEW_TABLE.columns[REVIEW_TABLE.number("corrected") - 1].heading
        for key, heading, note in reading.over_formulas:
            edit = edits.get(key)
            taken = edit is not None and edit.whole.get(corrected) is not None
            number = _as_day(note.words)
            if is_items and heading in _CORRECTED and number is not None and not taken and key.how == "id":
                base = edit or RowEdit(REVIEW, (), key, {}, {})
                signature = edit.signature if edit else next(iter(edits.values())).signature if edits else ()
                edits[key] = replace(
                    base,
                    signature=signature or _review_signature(),
                    changes={**base.changes, corrected: number},
                    whole={**base.whole, corrected: number},
                )
                self.notes.append("A date typed over a computed one on Review was taken as its corrected date.")
            else:
                self.kept.append(note)
        return list(edits.values())

    def _take_extras(
        self,
        title: str,
        found: FoundArea,
        reading: AreaReading,
        unknown: dict[tuple[int, int], Content],
    ) -> None:
        """Columns of the user's own beside the rows of a table: their cells leave ``unknown``."""
        keys = reading.keys | (reading.blank if found.heading_row else {})
        by_column: dict[int, list[tuple[RowKey, Content]]] = {}
        reach = max(found.columns.values(), default=0) + _BESIDE
        for (row, column), content in sorted(unknown.items()):
            if row in keys:
                by_column.setdefault(column, []).append((keys[row], content))
            elif row == found.heading_row and column <= reach:
                by_column.setdefault(column, [])
        for column, cells in by_column.items():
            heading = unknown.get((found.heading_row, column)) if found.heading_row else None
            self.extras.append(Extra(title, found.area.signature, column, heading, tuple(cells)))
            for place in [place for place in unknown if place[1] == column and place[0] in keys]:
                del unknown[place]
            unknown.pop((found.heading_row, column), None)

    def _take_comments(self, title: str, sheet: Worksheet) -> None:
        for _, cell in held_cells(sheet):
            if (comment := getattr(cell, "comment", None)) is not None:
                where = f"comment on cell {cell.coordinate}"
                self.kept.append(KeptNote(title, where, comment.text, "comments are kept here"))


def _review_signature() -> tuple[str, ...]:
    return tuple(column.heading for column in REVIEW_TABLE.columns)


def _as_day(words: str) -> float | None:
    """The number of the day that words name: as ISO 8601 has it, or as a spreadsheet stores it."""
    from syllabus_io.workbook.cached_values import serial

    try:
        return float(serial(date.fromisoformat(words)))
    except ValueError:
        pass
    try:
        return float(words) if date_of(float(words)) else None
    except ValueError:
        return None


def _own_formulas(
    shape: SheetShape, grid: Grid, consumed: set[tuple[int, int]], found: tuple[FoundArea, ...]
) -> dict[tuple[int, int], Content]:
    """Formulas that a person wrote beside our tables: outside what was written, or, where nothing has moved, in cells
    that were blank."""
    moved = any(
        one.heading_row != one.area.heading_row or any(old != new for old, new in one.columns.items()) for one in found
    )
    moved = moved or any(reading_row > shape.size[0] for reading_row in grid.rows)
    right = shape.size[1] + max((new - old for one in found for old, new in one.columns.items()), default=0)
    return {
        (row, column): content
        for row, cells in grid.rows.items()
        for column, content in cells.items()
        if isinstance(content, FormulaText)
        and (row, column) not in consumed
        and (column > right or (not moved and not shape.has_formula(row, column)))
    }


def describe_place(edit: LooseEdit) -> str:
    """Where something stood, in words."""
    return f"cell {column_letter(edit.column)}{edit.row}"
