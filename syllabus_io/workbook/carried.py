"""What is carried from an earlier workbook into the one that is written anew."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from syllabus_io.workbook.areas import shapes_of
from syllabus_io.workbook.cell_values import FormulaText, content_of, value_of
from syllabus_io.workbook.edits import Edits, KeptNote
from syllabus_io.workbook.kept import write_kept
from syllabus_io.workbook.layout_store import KEPT, STORE
from syllabus_io.workbook.light_package import only_sheets
from syllabus_io.workbook.own_sheets import copy_sheets
from syllabus_io.workbook.place import place_edits
from syllabus_io.workbook.revisions import event_states
from syllabus_io.workbook.store import EventState, Store, plan_id, write_store

if TYPE_CHECKING:
    from openpyxl import Workbook

    from syllabus_io.workbook.book import Book
    from syllabus_io.workbook.cached_values import CellValue

__all__ = ["Carried", "add_own_sheets", "finish_book", "own_values"]


@dataclass(frozen=True, slots=True)
class Carried:
    """The store of the earlier workbook, what was typed in it, and the open workbook with the user's own sheets.
    ``moment`` is the least number that a changed row gets for calendar programs, seconds on a clock."""

    store: Store
    edits: Edits
    source: Workbook | None = None
    own_sheets: tuple[str, ...] = ()
    moment: int = 0


def finish_book(book: Book, carried: Carried | None) -> tuple[KeptNote, ...]:
    """Puts in what is carried over, then the hidden store. Returns what was typed and has no place any more.

    The shapes are taken before anything typed is put in: what was typed is told by its difference from them.
    """
    shapes = shapes_of(book.workbook, frozenset({KEPT, STORE}), book.filled)
    left: tuple[KeptNote, ...] = ()
    events: dict[str, EventState] = {}
    student = book.options.student
    identity = plan_id(book.plan, student)
    if carried:
        left = tuple(place_edits(book.workbook, shapes, carried.edits, carried.store.shapes))
        write_kept(book, tuple(dict.fromkeys([*carried.edits.kept, *left])))
        events, identity = dict(carried.store.events), carried.store.plan_id
    hidden = tuple(sheet.title for sheet in book.workbook.worksheets if sheet.sheet_state != "visible")
    store = Store(
        plan_id=identity,
        resolved=book.plan.resolved,
        settings=book.plan.settings,
        paper=book.options.paper,
        look=book.options.look,
        student=student,
        shapes=shapes,
        hidden_sheets=(*hidden, STORE),
        notices=book.plan.notices,
        deleted=book.plan.left_out,
        events=event_states(book.workbook, events, carried.moment if carried else 0),
        free_rows=book.free_rows,
        fixed=tuple(sorted(book.fixed)),
        links=book.options.as_printed.links,
        language=book.options.language,
    )
    write_store(book.workbook, store)
    return left


def add_own_sheets(book: Book, carried: Carried) -> dict[str, str]:
    """Copies the user's own sheets; returns the names they got by their old ones."""
    if carried.source is None or not carried.own_sheets:
        return {}
    return dict(copy_sheets(carried.source, carried.own_sheets, book.workbook))


def own_values(content: bytes, names: dict[str, str]) -> dict[str, dict[str, CellValue]]:
    """The results that the user's own sheets held, as the program that saved them computed them."""
    import io
    import warnings

    from openpyxl import load_workbook

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        workbook = load_workbook(io.BytesIO(only_sheets(content, names)), data_only=True)
    found: dict[str, dict[str, CellValue]] = {}
    for old, new in names.items():
        for line in workbook[old].iter_rows():
            for cell in line:
                value = content_of(value_of(cell))
                if value is not None and not isinstance(value, FormulaText):
                    found.setdefault(new, {})[cell.coordinate] = value
    return found
