"""A number for each dated row that rises when the row changes, so that a calendar program can tell a newer event from
an older one."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from syllabus_io.workbook.cell_values import FormulaText, content_of, shown, value_of
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE, TERM
from syllabus_io.workbook.store import EventState

if TYPE_CHECKING:
    from openpyxl import Workbook

__all__ = ["TERM_EVENTS", "event_states"]

TERM_EVENTS = "term"
"""The key under which everything on Term dates is counted: classes, days off, the ends of the term."""

_KEYS = ("course", "kind", "title", "read", "corrected", "pick", "keep", "until", "time", "expression", "done")


def event_states(workbook: Workbook, before: Mapping[str, EventState], moment: int = 0) -> dict[str, EventState]:
    """The state of every row of Review, and of the term. A row's number rises when anything in it that could move its
    date has changed, or anything on Term dates: rather once too often than once too seldom. It is then at least
    ``moment``, seconds on a clock: a workbook that was exported twice between two updates gives a higher number the
    second time, though nothing of the first time is stored."""
    term = _digest(
        shown(content)
        for line in workbook[TERM].iter_rows()
        for cell in line
        if (content := content_of(value_of(cell))) is not None and not isinstance(content, FormulaText)
    )
    found = {TERM_EVENTS: term}
    sheet = workbook[REVIEW]
    for at in range(REVIEW_TABLE.first_row, sheet.max_row + 1):
        own = sheet.cell(at, REVIEW_TABLE.number("id")).value
        if not isinstance(own, str):
            continue
        contents = [content_of(value_of(sheet.cell(at, REVIEW_TABLE.number(key)))) for key in _KEYS]
        words = ["=" if isinstance(content, FormulaText) else shown(content) for content in contents]
        if any(words[:6]):
            found[own] = _digest([*words, term if "=" in words else ""])
    return {own: _next(state, before.get(own), moment) for own, state in found.items()}


def _next(state: str, before: EventState | None, moment: int) -> EventState:
    if before is None:
        return EventState(0, state)
    return before if before.state == state else EventState(max(before.revision + 1, moment), state)


def _digest(words: Iterable[str]) -> str:
    joined = "\x1f".join(words)
    return hashlib.sha256(joined.encode("utf-8", "replace")).hexdigest()[:16]
