"""What the cells of a column tell of it where its heading does not: dates, numbers of weeks, shares, work."""

from __future__ import annotations

import itertools
import re

from syllabus_io.outline.grids import Column, Grid, cell_text
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.phrases import dated_phrases, phrases_in
from syllabus_io.outline.row_dates import RowDate, month_alone, read_row_date
from syllabus_io.outline.work_words import find_heads, is_passed_over
from syllabus_io.resolve.expression import WeekdayIn

__all__ = ["are_months", "cell_texts", "with_roles_by_content"]

LEAST_WORKS = 3
LONGEST_NAME = 8  # words
MOST_WORDS_BEFORE = 2  # the name of the work that its work word closes
LEAST_DATED = 0.3  # of the cells of a column of due dates among weights

_DATE = (ColumnRole.DATE, ColumnRole.WEEK)
_MAYBE_DATE = (*_DATE, None, ColumnRole.TOPIC, ColumnRole.CLASS_NUMBER, ColumnRole.WEEKDAY)
_DATES_HEADING = re.compile(r"\bdates?\b|\bdeadlines?\b|\bwhen\b", re.IGNORECASE)


def _row_date(text: str) -> RowDate | None:
    return read_row_date(text) if text else None


def are_months(rows: Grid, column: Column) -> bool:
    """Whether a column holds names of months alone, in the rows where they begin or in all."""
    if column.role not in (ColumnRole.MONTH, None):
        return False
    texts = cell_texts(rows, column.index)
    return bool(texts) and all(month_alone(text) is not None for text in texts)


def with_roles_by_content(columns: tuple[Column, ...], grid: Grid, body: int) -> tuple[Column, ...]:
    """Columns whose role the header does not tell, told by what they hold; the date column must hold dates."""
    rows = grid[body:]
    changed: list[Column] = []
    has_date = any(
        column.role in (ColumnRole.DATE, ColumnRole.DUE_DATE) and _share_dated(rows, column.index) >= 0.3
        for column in columns
    )
    calendar = any(
        column.role in _MAYBE_DATE and _share_dated(rows, column.index) >= (0.3 if column.role in _DATE else 0.5)
        for column in columns
    )
    weeks = any(column.role is ColumnRole.WEEK for column in columns)  # then a weekday's cells hold days of their own
    graded = any(column.role in (ColumnRole.WEIGHT, ColumnRole.POINTS) for column in columns)
    is_calendar = has_date or any(column.role in _DATE for column in columns)
    names_work = any(column.role in (ColumnRole.WORK, ColumnRole.DUE, ColumnRole.EXAM) for column in columns)
    for column in columns:
        role = column.role
        share = _share_dated(rows, column.index)
        if role in (ColumnRole.DUE, ColumnRole.DUE_DATE):
            by_date = _mostly_dates_alone(rows, column.index) or (
                not calendar and (_DATES_HEADING.search(column.heading) or (graded and _hold_dates(rows, column.index)))
            )
            role = ColumnRole.DUE_DATE if by_date else ColumnRole.DUE
        elif (
            role in _MAYBE_DATE
            and role not in _DATE
            and not has_date
            and share >= 0.5
            and not (weeks and column.weekday)
        ):
            role, has_date = ColumnRole.DATE, True
        elif role is ColumnRole.CLASS_NUMBER and _are_counts(rows, column.index):
            role = ColumnRole.COUNT
        elif role is ColumnRole.CLASS_NUMBER and is_calendar and not _are_numbered(rows, column.index):
            role = ColumnRole.TOPIC  # "Lecture" over what each of them is about
        elif role is None and not column.heading and _are_weeks(rows, column.index):
            role = ColumnRole.WEEK
        elif role is None and (counted := _counted(rows, column.index)) is not None:
            role = counted
        elif role is None and not names_work and _mostly_work(rows, column.index):
            role = ColumnRole.WORK
        changed.append(Column(column.index, role, column.heading, column.weekday, column.clock, column.of_week))
    return tuple(changed)


def cell_texts(rows: Grid, index: int) -> list[str]:
    seen: set[int] = set()
    texts: list[str] = []
    for row in rows:
        cell = row[index] if index < len(row) else None
        if cell is not None and id(cell) not in seen and cell.column_span < len(row):
            seen.add(id(cell))
            if text := cell_text(cell):
                texts.append(text)
    return texts


def _share_dated(rows: Grid, index: int) -> float:
    texts = cell_texts(rows, index)
    dated = sum(1 for text in texts if (found := _row_date(text)) is not None and found.frame.is_dated)
    return dated / len(texts) if len(texts) >= 2 else 0.0


def _mostly_dates_alone(rows: Grid, index: int) -> bool:
    texts = cell_texts(rows, index)
    alone = 0
    for text in texts:
        found = _row_date(text)
        if found is not None:
            rest = _without_times(found.rest.lower())
            words = re.sub(
                r"\b(?:at|noon|midnight|class|in|by|tutorials?|lectures?|seminars?|labs?|end of|start of)\b|\W",
                "",
                rest,
            )
            alone += len(words) <= 6
        elif re.match(
            r"^(?:tba|tbd|varies|weekly|ongoing|n/?a|see\b|in class|throughout|(?:during |in |formal |final )*"
            r"exam(?:ination)?s? (?:period|week)|finals week)",
            text,
            re.IGNORECASE,
        ):
            alone += 1
    return bool(texts) and alone / len(texts) >= 0.6 and any(_row_date(text) is not None for text in texts)


def _hold_dates(rows: Grid, index: int) -> bool:
    """Whether enough cells of a column hold dates, be it among other words ("Draft Nov 7, final Nov 21")."""
    texts = cell_texts(rows, index)
    return sum(1 for text in texts if dated_phrases(text)) >= max(2, LEAST_DATED * len(texts))


def _mostly_work(rows: Grid, index: int) -> bool:
    """Whether the cells of a column without a telling heading mostly name work, and do not mix it with topics."""
    texts = cell_texts(rows, index)
    named = sum(1 for text in texts if len(text.split()) <= LONGEST_NAME and ";" not in text and _names_work(text))
    return len(texts) >= LEAST_WORKS and 2 * named >= len(texts)


def _names_work(text: str) -> bool:
    """Whether a cell names work near its beginning, and is not about it ("The sign test", "Rivera's 1990 paper")."""
    return any(
        (head.number or (not head.is_weak and len(text[: head.start].split()) <= MOST_WORDS_BEFORE))
        and not is_passed_over(text, head)
        for head in find_heads(text)
    )


def _without_times(text: str) -> str:
    for phrase in reversed(phrases_in(text, weak=True)):
        if phrase.expression is None or isinstance(phrase.expression, WeekdayIn):
            text = text[: phrase.start] + text[phrase.end :]
    return re.sub(r"\b[ap]\.?m\b", "", text)


def _are_weeks(rows: Grid, index: int) -> bool:
    texts = cell_texts(rows, index)
    numbers = [int(text) for text in texts if re.fullmatch(r"\d{1,2}", text)]
    return (
        len(numbers) >= 3 and len(numbers) >= 0.6 * len(texts) and all(a <= b for a, b in itertools.pairwise(numbers))
    )


def _are_numbered(rows: Grid, index: int) -> bool:
    """Whether at least a third of a column's cells hold a number."""
    texts = cell_texts(rows, index)
    return 3 * sum(1 for text in texts if re.search(r"\d", text)) >= len(texts)


def _are_counts(rows: Grid, index: int) -> bool:
    """Whether the numbers of a column ("No.") say how many, as they fall or all are one, and do not count classes."""
    numbers = [int(match[0]) for text in cell_texts(rows, index) if (match := re.match(r"\d{1,3}\b", text))]
    return len(numbers) > 1 and (len(set(numbers)) == 1 or any(a > b for a, b in itertools.pairwise(numbers)))


def _counted(rows: Grid, index: int) -> ColumnRole | None:
    """The role of a column of which every filled cell is a share in percent or a number of points ("25 points")."""
    texts = cell_texts(rows, index)
    if len(texts) < LEAST_WORKS:
        return None
    if all(re.fullmatch(r"\d{1,3}(?:\.\d+)?\s*%", text) for text in texts):
        return ColumnRole.WEIGHT
    counted = all(re.fullmatch(r"\(?\d{1,4}\s*(?:points?|pts?\.?|marks)\)?", text, re.IGNORECASE) for text in texts)
    return ColumnRole.POINTS if counted else None
