"""Tables with a column for each kind of work that holds nothing but its dates: "Quiz | Essay" over "Sep 9 | Sep 14"."""

from __future__ import annotations

import re
from collections.abc import Iterator

from syllabus_io.extract.document import Cell
from syllabus_io.outline.day_keys import day_key
from syllabus_io.outline.grids import Column, Grid, cell_text
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.verdicts import heading_noun
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.resolve.expression import Phrase

__all__ = ["is_dated_column", "read_dated_columns"]

LEAST_SHARE = 0.7  # of the filled cells of such a column
LEAST_DATES = 2
_ROW_NUMBER = re.compile(
    r"^\W*(?:unit|module|chapter|part|week|no\.?|#)?\s*#?(\d{1,2})(?!\s*[/.:–-]\s*\d|\d)", re.IGNORECASE
)


def is_dated_column(grid: Grid, column: Column, body: int) -> bool:
    """Whether a column is headed with a kind of work and holds its dates alone."""
    if (
        column.role in (ColumnRole.ASSIGNED, ColumnRole.READING, ColumnRole.NOTES)
        or heading_noun(column.heading) is None
    ):
        return False
    texts = [text for row in grid[body:] if (text := cell_text(row[column.index]))]
    dated = [text for text in texts if _date_alone(text) is not None]
    return len(dated) >= LEAST_DATES and len(dated) >= LEAST_SHARE * len(texts)


def read_dated_columns(grid: Grid, columns: tuple[Column, ...], body: int, group: int) -> Iterator[Draft]:
    """The work of such columns, each with the number of its row, or its place in the column where rows have none."""
    for column in columns:
        if not is_dated_column(grid, column, body):
            continue
        noun = heading_noun(column.heading) or column.heading
        kind = kind_of_work(noun) or Kind.ASSIGNMENT
        place_in_column = 0
        for row in grid[body:]:
            cell = row[column.index]
            phrase = _date_alone(cell_text(cell))
            if cell is None or phrase is None:
                continue
            place_in_column += 1
            number = _row_number(row, column) or place_in_column
            context = " | ".join(dict.fromkeys(text for one in row if (text := cell_text(one))))
            mention = Mention(phrase, cell.place, phrase.text, context, None, phrase.doubts)
            yield Draft(Item(kind, f"{noun} {number}", (mention,), number=number), group, ColumnRole.DUE_DATE)


def _date_alone(text: str) -> Phrase | None:
    """The date of a cell that holds one, perhaps with a time, and no other words."""
    dated = [
        phrase
        for phrase in phrases_in(text)
        if phrase.expression is not None and day_key(phrase.expression)[0] == "date"
    ]
    if len(dated) != 1:
        return None
    rest = text[: dated[0].start] + text[dated[0].end :]
    return dated[0] if len(re.sub(r"\W|\b(?:at|by|due|in class|noon|am|pm)\b", "", rest)) <= 4 else None


def _row_number(row: tuple[Cell | None, ...], column: Column) -> int | None:
    first = row[0]
    match = _ROW_NUMBER.match(cell_text(first)) if first is not None and column.index > 0 else None
    return int(match[1]) if match else None
