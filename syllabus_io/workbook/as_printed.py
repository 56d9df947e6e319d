"""As printed: pictures of the places in the outlines that are to be checked, the words framed."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, row_height
from syllabus_io.workbook.drawings import worded_anchor
from syllabus_io.workbook.layout import AS_PRINTED, AS_PRINTED_TABLE, quote_sheet
from syllabus_io.workbook.printed_places import PrintedPlace

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["picture_links", "read_pictures", "shown_places", "write_as_printed"]

_TABLE = AS_PRINTED_TABLE
_MOST_WIDTH = 560  # pixels, of a picture as it is shown
_SHOWN_SCALE = 0.8  # of a picture's own size, which is drawn larger to stay sharp on paper
_INSET = 3.0  # points between a picture and the lines of its cell
_POINTS_A_PIXEL = 0.75
_MOST_PIXELS, _MOST_BYTES = 1_500_000, 300_000  # of a picture that is taken back
_TALLEST_ROW = 400.0  # points; the file format allows 409


def shown_places(book: Book) -> tuple[PrintedPlace, ...]:
    """The places of which there is a picture."""
    return tuple(place for place in book.places if place.key in book.options.as_printed.pictures)


def picture_links(book: Book) -> dict[str, str]:
    """Where the picture of a row of Review stands, by the row's id."""
    links: dict[str, str] = {}
    for at, place in enumerate(shown_places(book), start=_TABLE.first_row):
        for row in place.rows:
            links.setdefault(row, f"{quote_sheet(AS_PRINTED)}!{_TABLE.letter('course')}{at}")
    return links


def write_as_printed(book: Book) -> None:
    """Adds the sheet, unless there is no picture to show."""
    places = shown_places(book)
    if not places:
        return
    sheet = book.add_sheet(AS_PRINTED)
    how = (
        "The places in the outlines that are to be checked, as they are printed there, the words framed. "
        "Correct dates on Review. The outline itself governs, and what the instructor announces."
    )
    first = _TABLE.number("course")
    book.put(sheet, 1, first, AS_PRINTED, "title")
    sheet.row_dimensions[1].height = 28
    book.put(sheet, 2, first, how, "note")
    sheet.merge_cells(start_row=2, start_column=first, end_row=2, end_column=_TABLE.number("picture"))
    sheet.row_dimensions[2].height = row_height([(how, sum(column.width for column in _TABLE.visible))])
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    for at, place in enumerate(places, start=_TABLE.first_row):
        _write_place(book, sheet, at, place)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], (1,))
    sheet.freeze_panes = f"A{_TABLE.first_row}"
    last = _TABLE.heading_row + len(places)
    book.set_print(
        sheet,
        f"A1:{_TABLE.letter('picture')}{last}",
        landscape=True,
        repeat_rows=f"{_TABLE.heading_row}:{_TABLE.heading_row}",
    )


def _write_place(book: Book, sheet: Worksheet, at: int, place: PrintedPlace) -> None:
    from openpyxl.drawing.image import Image

    for key, value, style in (
        ("key", place.key, "hidden"),
        ("course", place.course, "text"),
        ("title", place.titles_in_words, "text"),
        ("page", place.page, "whole_centre"),
        ("picture", None, "text"),
    ):
        book.put(sheet, at, _TABLE.number(key), value, style, typed=key in ("course", "title"))
    picture = Image(io.BytesIO(book.options.as_printed.pictures[place.key]))
    shown = min(_SHOWN_SCALE, _MOST_WIDTH / picture.width)
    wide, high = (round(pixels * shown) * _POINTS_A_PIXEL for pixels in (picture.width, picture.height))
    words = f"Page {place.page} of the outline of {place.course}, the words on {', '.join(place.titles)} framed"
    picture.anchor = worded_anchor(at, _TABLE.number("picture"), (wide, high), words, _INSET)
    sheet.add_image(picture)
    sheet.row_dimensions[at].height = min(_TALLEST_ROW, max(48.0, high + 2 * _INSET))


def read_pictures(workbook: Workbook) -> dict[str, bytes]:
    """The pictures of a workbook that comes back, by the keys of their places: only such as this program draws."""
    if AS_PRINTED not in workbook.sheetnames:
        return {}
    sheet = workbook[AS_PRINTED]
    found: dict[str, bytes] = {}
    for picture in getattr(sheet, "_images", ()):
        key = sheet.cell(picture.anchor._from.row + 1, _TABLE.number("key")).value
        data = picture._data()
        small = picture.width * picture.height <= _MOST_PIXELS and len(data) <= _MOST_BYTES
        if isinstance(key, str) and picture.format == "png" and small:
            found[key] = data
    return found
