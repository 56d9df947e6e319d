"""Lays out a page's content stream within limits, so that a crafted page cannot keep the program busy for ever."""

from __future__ import annotations

from typing import Any

from pdfminer.converter import PDFPageAggregator
from pdfminer.pdfinterp import PDFPageInterpreter
from pdfplumber.utils.exceptions import PdfminerException

__all__ = ["bounded_layout"]

MOST_LETTERS = 60_000
MOST_PATHS = 30_000
MOST_FORMS = 3_000
"""A page that prints more letters, paths or forms (pieces of content used by name) is read up to there."""


class _LimitReached(Exception):
    """The page holds more than is read."""


class _Device(PDFPageAggregator):
    """Collects a page's objects and counts them."""

    letters = 0
    paths = 0
    forms = 0

    def render_char(self, *args: Any, **kwargs: Any) -> float:
        self.letters += 1
        if self.letters > MOST_LETTERS:
            raise _LimitReached
        return super().render_char(*args, **kwargs)

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
        PDFPageInterpreter(page.pdf.rsrcmgr, device).process_page(page.page_obj)
    except _LimitReached:
        return device.collected(), True
    except Exception as error:
        raise PdfminerException(error) from error
    return list(device.get_result()), False
