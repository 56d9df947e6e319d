"""A binder as one PDF: cover, contents, a divider before each part, then the sheets of a workbook, page by page."""

from __future__ import annotations

import io
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

from syllabus_io.workbook.binder_pages import Contents, part_of, write_binder_pages
from syllabus_io.workbook.language import Language
from syllabus_io.workbook.office import to_pdf
from syllabus_io.workbook.pages import MARGINS
from syllabus_io.workbook.print_copy import choose_sheets, print_copy, read_print_facts

if TYPE_CHECKING:
    import pypdfium2

__all__ = ["BinderOptions", "make_binder"]

_FOOTER_HEIGHT = 45.0  # points from the edge of the page in which the footer stands
_POINTS = 72.0


@dataclass(frozen=True, slots=True)
class BinderOptions:
    """What goes in: ``sheets`` by name (none: all), ``front`` for cover, contents and dividers, ``two_sided`` for pages
    that are punched left and right in turn."""

    sheets: tuple[str, ...] = ()
    front: bool = True
    two_sided: bool = False


def make_binder(workbook: Path, options: BinderOptions) -> bytes:
    """The PDF. Raises BadSetting where LibreOffice is missing or a sheet is unknown, WorkbookMismatch for a file that
    is no workbook of this program."""
    facts = read_print_facts(workbook)
    chosen = choose_sheets(options.sheets, facts)
    with tempfile.TemporaryDirectory(prefix="syllabus-io-") as name:
        folder = Path(name)
        copy = folder / "sheets.xlsx"
        copy.write_bytes(print_copy(workbook.read_bytes(), chosen, facts.filled))
        (sheets,) = to_pdf([copy], folder)
        pages = sheets_of_pages(sheets.read_bytes(), chosen)
        if not options.front:
            return _joined(sheets.read_bytes(), None, [(1, number) for number in range(len(pages))], options.two_sided)
        front = folder / "front.xlsx"
        contents = Contents(facts, _first_pages(pages), _parts(pages, facts.language), paper_of(sheets.read_bytes()))
        front.write_bytes(write_binder_pages(contents))
        (made,) = to_pdf([front], folder)
        return _joined(sheets.read_bytes(), made.read_bytes(), _order(pages, facts.language), options.two_sided)


def sheets_of_pages(pdf: bytes, sheets: Sequence[str]) -> list[str]:
    """The sheet of each page, told from its footer; a page without one belongs to the sheet before it."""
    import pypdfium2

    found: list[str] = []
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            text = page.get_textpage()
            words = " ".join(text.get_text_bounded(0, 0, page.get_width(), _FOOTER_HEIGHT).split())
            named = [sheet for sheet in sheets if words.startswith(" ".join(sheet.split()))]
            found.append(max(named, key=len) if named else (found or [*sheets])[-1 if found else 0])
    return found


def paper_of(pdf: bytes) -> str:
    """The paper of the first page: "a4" or "letter"."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        return "a4" if max(document[0].get_width(), document[0].get_height()) > 800 else "letter"


def _first_pages(pages: Sequence[str]) -> dict[str, int]:
    first: dict[str, int] = {}
    for number, sheet in enumerate(pages, start=1):
        first.setdefault(sheet, number)
    return first


def _parts(pages: Sequence[str], language: Language) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part for sheet in pages if (part := part_of(sheet, language))))


def _order(pages: Sequence[str], language: Language) -> list[tuple[int, int]]:
    """Which page of which file comes when: file 0 holds cover, contents and dividers, file 1 the sheets."""
    order = [(0, 0), (0, 1)]
    begun: list[str] = []
    for number, sheet in enumerate(pages):
        part = part_of(sheet, language)
        if part and part not in begun:
            begun.append(part)
            order.append((0, 1 + len(begun)))
        order.append((1, number))
    return order


def _joined(sheets: bytes, front: bytes | None, order: Sequence[tuple[int, int]], two_sided: bool) -> bytes:
    import pypdfium2

    files: list[Any] = [pypdfium2.PdfDocument(front) if front else None, pypdfium2.PdfDocument(sheets)]
    joined = pypdfium2.PdfDocument.new()
    try:
        for file, run in groupby(order, key=lambda one: one[0]):
            # In one go: each import brings its own copy of the fonts.
            joined.import_pages(files[file], [number for _, number in run])
        if two_sided:
            for number in range(1, len(order), 2):
                _shift(joined[number])
        packed = io.BytesIO()
        joined.save(packed)
        return packed.getvalue()
    finally:
        joined.close()
        for document in files:
            if document is not None:
                document.close()


def _shift(page: pypdfium2.PdfPage) -> None:
    """Moves what is printed on the back of a sheet, so that the wide margin lies on the punched side there too: what
    was left or on top is then right or at the foot."""
    landscape = page.get_width() > page.get_height()
    margins = MARGINS[landscape]
    left, bottom, right, top = page.get_mediabox()
    across = 0.0 if landscape else (margins.left - margins.right) * _POINTS
    down = (margins.top - margins.bottom) * _POINTS if landscape else 0.0
    box = (left + across, bottom + down, right + across, top + down)
    page.set_mediabox(*box)
    page.set_cropbox(*box)
