"""Small pictures of places on the pages of a PDF, the words framed: what a person compares a date with."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from syllabus_io.errors import UnreadableDocument
from syllabus_io.provenance import Box, PagePlace

if TYPE_CHECKING:
    from PIL.Image import Image
    from pypdfium2 import PdfPage

__all__ = ["PICTURE_SCALE", "draw_places"]

PICTURE_SCALE = 1.5
"""Pixels to a point: small print stays readable when the picture is shown at its natural size."""

_AROUND = 30.0  # points of the page shown above and below the words
_TALLEST = 170.0  # points; a box over half a page is shown from its top
_WIDEST = 900.0  # points; the widest page that is drawn whole
_FRAME = 3.0  # points between the words and the frame
_GREYS = 8
_BLANK, _MARGIN = 20, 10  # how dark blank paper may be, of 255; pixels left beside what is printed


def draw_places(path: Path, places: Sequence[PagePlace]) -> tuple[bytes, ...]:
    """A PNG picture for each place, in a few greys, without blank margins; empty for a place on no page.

    Raises UnreadableDocument for a file whose pages cannot be drawn.
    """
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(path)
    except pypdfium2.PdfiumError as error:
        raise UnreadableDocument(path, "its pages cannot be drawn", "save the outline anew as a PDF") from error
    with document:
        count = len(document)
        pages = {page: document[page - 1] for page, _ in places if 1 <= page <= count}
        return tuple(_draw(pages[page], box) if page in pages else b"" for page, box in places)


def _draw(page: PdfPage, box: Box) -> bytes:
    width, height = page.get_size()
    top = max(0.0, min(box.top, height) - _AROUND)
    bottom = min(height, max(box.bottom, box.top) + _AROUND, top + _TALLEST)
    if width > _WIDEST or bottom - top < 1:
        return b""
    strip = page.render(scale=PICTURE_SCALE, crop=(0, height - bottom, 0, top), grayscale=True).to_pil()
    return _png(_without_margins(_framed(strip, box, top)))


def _framed(strip: Image, box: Box, top: float) -> Image:
    from PIL import ImageDraw

    framed = strip.convert("L")
    corners = (box.left - _FRAME, box.top - _FRAME - top, box.right + _FRAME, box.bottom + _FRAME - top)
    left, upper, right, lower = (round(corner * PICTURE_SCALE) for corner in corners)
    if right > left and lower > upper:
        ImageDraw.Draw(framed).rectangle((left, upper, right, lower), outline=0, width=2)
    return framed


def _without_margins(strip: Image) -> Image:
    """The strip without the blank paper left and right of what is printed."""
    from PIL import ImageOps

    printed = ImageOps.invert(strip).point(lambda grey: 255 if grey > _BLANK else 0).getbbox()
    if printed is None:
        return strip
    return strip.crop((max(0, printed[0] - _MARGIN), 0, min(strip.width, printed[2] + _MARGIN), strip.height))


def _png(picture: Image) -> bytes:
    packed = io.BytesIO()
    picture.quantize(_GREYS).save(packed, "PNG", optimize=True)
    return packed.getvalue()
