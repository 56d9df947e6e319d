"""The program's own texts in a workbook, wherever they stand: what a translation changes, and nothing else does.

Texts from outlines and people are marked as typed when they are written, and are no texts of the program. A text within
a formula is a literal; the same words as a cell and as a literal are one text, so that a formula that compares a cell
with a word goes on to do so in any language.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from syllabus_io.workbook.layout_store import STORE

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["change_references", "change_texts", "is_words", "own_texts"]

Change = Callable[[str], str]

_LITERAL = re.compile(r'"((?:[^"]|"")*)"')
_WORDS = re.compile(r"[^\W\d_]{2}")
_DIGEST = re.compile(r"[0-9a-f]{10,}")
_HIDDEN_STYLES = ("hidden", "hidden_date")


def own_texts(workbook: Workbook) -> Iterator[str]:
    """Every text of the program in a workbook that has just been written, as often as it stands there."""
    found: list[str] = []

    def note(text: str) -> str:
        found.append(text)
        return text

    for sheet in (sheet for sheet in workbook.worksheets if sheet.title != STORE):
        found.append(sheet.title)
        change_texts(sheet, note, str)
    yield from (text for text in found if is_words(text))


def is_words(text: str) -> bool:
    """Whether a text holds words at all: codes and signs are the same in every language."""
    return _WORDS.search(text) is not None and not _DIGEST.fullmatch(text)


def change_texts(sheet: Worksheet, own: Change, chosen: Change) -> None:
    """Changes every text of the program on a sheet by ``own``. Cells with typed text, and cells that no person sees,
    are changed by ``chosen``: what people choose from lists stands in both."""

    def formula(text: str) -> str:
        return _LITERAL.sub(lambda literal: f'"{own(literal[1].replace(_TWO, _ONE)).replace(_ONE, _TWO)}"', text)

    for cell in sheet._cells.values():
        _change_cell(cell, own, chosen, formula)
    foot = sheet.oddFooter.right if sheet.oddFooter else None
    if foot is not None and foot.text:
        foot.text = own(foot.text)
    for check in sheet.data_validations.dataValidation:
        if check.type == "list" and str(check.formula1).startswith('"'):
            words = str(check.formula1).strip('"').split(",")
            check.formula1 = '"' + ",".join(own(word) for word in words) + '"'
        for part in ("prompt", "promptTitle", "error", "errorTitle"):
            if text := getattr(check, part):
                setattr(check, part, own(text))
    for rules in sheet.conditional_formatting:
        for rule in rules.rules:
            rule.formula = [formula(text) for text in rule.formula]
    for chart in getattr(sheet, "_charts", ()):
        for run in _runs(chart.title):
            run.t = own(run.t)


def change_references(sheet: Worksheet, moved: Change) -> None:
    """Changes the references to sheets in every formula, link, check and chart of a sheet."""
    for cell in sheet._cells.values():
        if cell.data_type == "f" and isinstance(cell.value, str):
            cell.value = moved(cell.value)
        if cell.hyperlink and cell.hyperlink.location:
            cell.hyperlink.location = moved(cell.hyperlink.location)
    for check in sheet.data_validations.dataValidation:
        for part in ("formula1", "formula2"):
            if text := getattr(check, part):
                setattr(check, part, moved(str(text)))
    for rules in sheet.conditional_formatting:
        for rule in rules.rules:
            rule.formula = [moved(text) for text in rule.formula]
    for chart in getattr(sheet, "_charts", ()):
        for series in chart.series:
            for source in (series.val.numRef, series.cat.strRef if series.cat else None):
                if source is not None:
                    source.f = moved(source.f)


_ONE, _TWO = '"', '""'


def _change_cell(cell: Any, own: Change, chosen: Change, formula: Change) -> None:
    value = cell.value
    if not isinstance(value, str) or not value:
        return
    if cell.data_type == "f":
        cell.value = formula(value)
        return
    is_own = not cell.quotePrefix and cell.style not in _HIDDEN_STYLES
    changed = own(value) if is_own else chosen(value)
    if changed != value:
        cell.value = changed
        cell.data_type = "s"


def _runs(title: Any) -> Iterator[Any]:
    text = getattr(getattr(title, "tx", None), "rich", None)
    for paragraph in text.p if text else ():
        yield from paragraph.r or ()
