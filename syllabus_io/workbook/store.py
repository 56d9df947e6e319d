"""What the workbook holds for itself, on a sheet that no program shows: what was read from the outlines, how the file
was made, and the shape of every sheet as it was written.

The visible cells stay the truth for what people type: nothing typed is stored here. The sheet is a table of three
columns (part, number, text). Each part is JSON text cut into pieces that fit a cell; the first row names the format and
its version, and each part's first row holds a digest, so that a damaged store is told from a whole one.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from syllabus_io.errors import WorkbookMismatch
from syllabus_io.plan.records import Notice, Plan, PlanSettings
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.areas import SheetShape
from syllabus_io.workbook.language import ENGLISH, LANGUAGES
from syllabus_io.workbook.layout_store import STORE
from syllabus_io.workbook.printed_places import is_file_link
from syllabus_io.workbook.record_text import read_records, write_records

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FORMAT", "VERSION", "EventState", "Store", "plan_id", "read_store", "write_store"]

FORMAT = "syllabus-io/workbook"
VERSION = 2
_PIECE = 30_000  # a cell holds 32,767 characters (ECMA-376; the limit programs set)


@dataclass(frozen=True, slots=True)
class EventState:
    """How a dated row stood when the workbook was last written: ``revision`` rises with its changes, ``state`` is what
    it said, in one line."""

    revision: int
    state: str


@dataclass(frozen=True, slots=True)
class Store:
    """What a workbook holds for itself. ``plan_id`` never changes; ``events`` are by row id; ``deleted`` are ids of
    rows of Review that a person removed; ``hidden_sheets`` are ours too; ``fixed`` are rows whose date was written as a
    constant though it hangs on the term; ``links`` lead to the outlines' files, by the digests of these."""

    plan_id: str
    resolved: ResolvedTerm
    settings: PlanSettings
    paper: str
    look: str
    student: str
    shapes: Mapping[str, SheetShape] = field(default_factory=dict)
    hidden_sheets: tuple[str, ...] = ()
    notices: tuple[Notice, ...] = ()
    deleted: tuple[str, ...] = ()
    events: Mapping[str, EventState] = field(default_factory=dict)
    free_rows: int = 0
    fixed: tuple[str, ...] = ()
    links: Mapping[str, str] = field(default_factory=dict)
    language: str = ENGLISH


def plan_id(plan: Plan, student: str) -> str:
    """The name of a plan that no other has: made from its outlines, its term and its student, the same for the same."""
    parts = [plan.resolved.term.name, student, *(course.outline.digest for course in plan.resolved.courses)]
    return hashlib.sha256("\n".join(parts).encode("utf-8", "replace")).hexdigest()[:16]


def write_store(workbook: Workbook, store: Store) -> None:
    """Adds the hidden sheet."""
    sheet: Worksheet = workbook.create_sheet(STORE)
    sheet.sheet_state = "veryHidden"
    rows: list[tuple[str, int, str]] = [(FORMAT, VERSION, "Made and read by the program. Do not change this sheet.")]
    for name, text in _parts(store):
        rows.append((name, 0, hashlib.sha256(text.encode()).hexdigest()))
        rows += [(name, number, piece) for number, piece in enumerate(_pieces(text), start=1)]
    for at, values in enumerate(rows, start=1):
        name, number, text = values
        sheet.cell(at, 1).value, sheet.cell(at, 2).value, sheet.cell(at, 3).value = name, number, text
        for column in (1, 3):
            sheet.cell(at, column).data_type = "s"


def _parts(store: Store) -> Iterator[tuple[str, str]]:
    yield "records", _safe(write_records((store.resolved, store.settings, store.notices)))
    about = {
        "plan_id": store.plan_id,
        "paper": store.paper,
        "look": store.look,
        "student": store.student,
        "hidden": store.hidden_sheets,
        "deleted": store.deleted,
        "free_rows": store.free_rows,
        "fixed": store.fixed,
        "links": dict(store.links),
        "language": store.language,
        "events": {own: [event.revision, event.state] for own, event in store.events.items()},
    }
    yield "about", _safe(json.dumps(about, separators=(",", ":")))
    shapes = {title: shape.to_json() for title, shape in store.shapes.items()}
    yield "shapes", _safe(json.dumps(shapes, separators=(",", ":")))


def _safe(text: str) -> str:
    """JSON without what the file format takes for an escape (``_x0041_``)."""
    return text.replace("_x", "_\\u0078")


def _pieces(text: str) -> Iterator[str]:
    """Pieces that neither begin nor end with a blank, which some programs drop."""
    start = 0
    while start < len(text):
        end = min(start + _PIECE, len(text))
        while end < len(text) and (text[end - 1] == " " or text[end] == " "):
            end -= 1
        yield text[start:end]
        start = end


def read_store(path: Path, workbook: Workbook) -> Store:
    """The store of a workbook. Raises WorkbookMismatch when it is missing, damaged or of a newer version."""
    if STORE not in workbook.sheetnames:
        raise WorkbookMismatch(
            path,
            "was not made by this program, or has lost its hidden sheet",
            "build it anew, or use a copy in which no sheet was removed",
        )
    rows = [tuple(row[:3]) for row in workbook[STORE].iter_rows(values_only=True) if len(row) >= 3]
    if not rows or rows[0][0] != FORMAT or not isinstance(rows[0][1], int | float):
        raise _damaged(path)
    if rows[0][1] > VERSION:
        raise WorkbookMismatch(path, "was made by a newer version of this program", "update the program first")
    if rows[0][1] < VERSION:
        raise WorkbookMismatch(
            path,
            "was made by an earlier version of this program, whose record this one does not read",
            "build it anew from the outlines and type in again what you had corrected; the file is left as it is",
        )
    texts = _texts(path, rows[1:])
    try:
        resolved, settings, notices = read_records(texts["records"])
        about = json.loads(texts["about"])
        shapes = {title: SheetShape.from_json(shape) for title, shape in json.loads(texts["shapes"]).items()}
        return _store(resolved, settings, notices, about, shapes)
    except (KeyError, ValueError, TypeError) as error:
        raise _damaged(path) from error


def _store(
    resolved: ResolvedTerm, settings: PlanSettings, notices: Any, about: dict[str, Any], shapes: dict[str, SheetShape]
) -> Store:
    events = {own: EventState(int(revision), str(state)) for own, (revision, state) in about["events"].items()}
    return Store(
        plan_id=about["plan_id"],
        resolved=resolved,
        settings=settings,
        paper=about["paper"],
        look=about["look"],
        student=about["student"],
        shapes=shapes,
        hidden_sheets=tuple(about["hidden"]),
        notices=tuple(notices),
        deleted=tuple(about["deleted"]),
        events=events,
        free_rows=int(about["free_rows"]),
        fixed=tuple(about["fixed"]),
        links={digest: link for digest, link in about.get("links", {}).items() if is_file_link(link)},
        language=_known_language(about.get("language", ENGLISH)),
    )


def _known_language(code: str) -> str:
    if code not in LANGUAGES:
        raise ValueError(f"no language: {code}")
    return code


def _texts(path: Path, rows: list[tuple[Any, ...]]) -> dict[str, str]:
    """The text of every part, put together and held against its digest."""
    digests = {str(name): str(text) for name, number, text in rows if number == 0}
    pieces: dict[str, dict[int, str]] = {}
    for name, number, text in rows:
        if isinstance(number, int | float) and number:
            pieces.setdefault(str(name), {})[int(number)] = str(text)
    texts = {name: "".join(parts[number] for number in sorted(parts)) for name, parts in pieces.items()}
    for name, digest in digests.items():
        if hashlib.sha256(texts.get(name, "").encode("utf-8", "replace")).hexdigest() != digest:
            raise _damaged(path)
    return texts


def _damaged(path: Path) -> WorkbookMismatch:
    return WorkbookMismatch(
        path, "holds a damaged record of what was read", "use an earlier copy; undo brings the last one back"
    )
