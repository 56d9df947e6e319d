"""Lays out a page's content stream within limits, so that a crafted page cannot keep the program busy for ever."""

from __future__ import annotations

from typing import Any, NamedTuple

from pdfminer.converter import PDFPageAggregator
from pdfminer.pdffont import PDFUnicodeNotDefined
from pdfminer.utils import apply_matrix_rect
from pdfplumber.utils.exceptions import PdfminerException

from syllabus_io.extract.pdf_content import ContentInterpreter
from syllabus_io.extract.pdf_fonts import Style, font_style, letter_of

__all__ = ["Letter", "bounded_layout"]

MOST_LETTERS = 60_000
MOST_PATHS = 30_000
MOST_FORMS = 3_000
"""A page that prints more letters, paths or forms (pieces of content used by name) is read up to there."""


class Letter(NamedTuple):
    """A letter as laid out, measured upwards and to the right; ``text`` is None where it has no meaning."""

    text: str | None
    style: Style
    upright: bool
    left: float
    bottom: float
    right: float
    top: float
    base: float
    size: float


class _Font:
    """A font of the file with the letters it has shown so far."""

    def __init__(self, font: Any) -> None:
        self.font = font
        self.style = font_style(font.fontname)
        self.letters: dict[int, tuple[str | None, float]] = {}
        """By code: the letter in plain form, and its width as a share of the size."""

    def letter(self, code: int) -> tuple[str | None, float]:
        """A letter and its width, worked out once."""
        font = self.font
        try:
            text = font.to_unichr(code)
        except PDFUnicodeNotDefined:
            text = f"(cid:{code})"
        if not isinstance(text, str):
            raise PdfminerException(f"a letter of the font is no text: {text!r}")
        found = letter_of(text, font.fontname), font.char_width(code)
        self.letters[code] = found
        return found


class _LimitReached(Exception):
    """The page holds more than is read."""


class _Device(PDFPageAggregator):
    """Collects a page's objects and counts them."""

    letters = 0
    paths = 0
    forms = 0

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._fonts: dict[int, _Font] = {}

    def render_char(self, *args: Any, **kwargs: Any) -> float:
        self.letters += 1
        if self.letters > MOST_LETTERS:
            raise _LimitReached
        return super().render_char(*args, **kwargs)

    def render_string_horizontal(
        self,
        seq: Any,
        matrix: Any,
        pos: Any,
        font: Any,
        fontsize: Any,
        scaling: Any,
        charspace: Any,
        wordspace: Any,
        rise: Any,
        dxscale: Any,
        ncs: Any,  # noqa: ARG002  # the library hands colours over, which letters do not need
        graphicstate: Any,  # noqa: ARG002
    ) -> Any:
        """Places the letters of a string (ISO 32000-1, 9.4.4): what the library does, without an object for each."""
        known = self._fonts.get(id(font))
        if known is None:
            known = self._fonts[id(font)] = _Font(font)
        letters, letter_of_code, style = known.letters, known.letter, known.style
        a, b, c, d, e, f = matrix
        upright = a * d * scaling > 0 and b * c <= 0
        level = b == 0 and c == 0
        low = font.get_descent() * fontsize + rise
        high = low + fontsize
        add: Any = self.cur_item.add
        x, y = pos
        behind_letter = False
        for part in seq:
            if isinstance(part, (int, float)):
                x -= part * dxscale
                behind_letter = True
                continue
            if not isinstance(part, bytes):
                continue
            for code in font.decode(part):
                if behind_letter:
                    x += charspace
                text, width = letters.get(code) or letter_of_code(code)
                advance = width * fontsize * scaling
                self.letters += 1
                if self.letters > MOST_LETTERS:
                    raise _LimitReached
                across, up = x * a + y * c + e, x * b + y * d + f
                if level:
                    left, right = across, a * advance + across
                    bottom, top = d * low + up, d * high + up
                    if right < left:
                        left, right = right, left
                    if top < bottom:
                        bottom, top = top, bottom
                else:
                    left, bottom, right, top = apply_matrix_rect((a, b, c, d, across, up), (0, low, advance, high))
                add(Letter(text, style, upright, left, bottom, right, top, up, top - bottom))
                x += advance
                if code == 32 and wordspace:
                    x += wordspace
                behind_letter = True
        return (x, y)

    def paint_path(self, *args: Any, **kwargs: Any) -> None:
        self.paths += 1
        if self.paths > MOST_PATHS:
            raise _LimitReached
        super().paint_path(*args, **kwargs)

    def begin_figure(self, *args: Any, **kwargs: Any) -> None:
        self.forms += 1
        if self.forms > MOST_FORMS:
            raise _LimitReached
        super().begin_figure(*args, **kwargs)

    def collected(self) -> list[Any]:
        """The objects laid out so far, those of unfinished figures included."""
        return [item for container in (*self._stack, self.cur_item) for item in container]


def bounded_layout(page: Any) -> tuple[list[Any], bool]:
    """The objects of a pdfplumber page in pdfminer's form, and whether a limit cut the page short.

    Raises PdfminerException when the page is damaged.
    """
    device = _Device(page.pdf.rsrcmgr, pageno=page.page_number, laparams=None)
    try:
        ContentInterpreter(page.pdf.rsrcmgr, device).process_page(page.page_obj)
    except _LimitReached:
        return device.collected(), True
    except Exception as error:
        raise PdfminerException(error) from error
    return list(device.get_result()), False
