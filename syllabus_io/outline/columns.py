"""The columns of a table: which row is the header, and what every column holds."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, replace

from syllabus_io.extract.document import Cell
from syllabus_io.outline.headings import ColumnRole, column_role
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.row_dates import RowDate, month_alone, read_row_date
from syllabus_io.outline.vocabulary import WEEKDAY_NAMES
from syllabus_io.outline.work_words import find_heads, is_passed_over
from syllabus_io.resolve.expression import Phrase, Weekday, WeekdayIn

__all__ = ["Column", "Grid", "cell_text", "clock_in", "columns_of", "header_rows", "weekday_alone", "weekday_in"]

Grid = tuple[tuple[Cell | None, ...], ...]

HEADER_SEARCH_ROWS = 4
MOST_HEADING_LETTERS = 90
LONGEST_WEEKDAY = 30
LAST_DAY = 31
FEWEST_DAYS = 3
LEAST_WORKS = 3
LONGEST_NAME = 8  # words
MOST_WORDS_BEFORE = 2  # the name of the work that its work word closes

_WEEKDAY = re.compile(r"\b(mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?s?\b\.?", re.IGNORECASE)
_WEEKDAYS = ("mo", "tu", "we", "th", "fr", "sa", "su")
# Parts of longer headings, tried in this order; the first that occurs gives the role.
_PARTS: tuple[tuple[ColumnRole, str], ...] = (
    (ColumnRole.ASSIGNED, r"^(?:date )?(?:assigned|handed out|posted|released?)\b"),
    (ColumnRole.READING, r"\bread(?:ings?)?\b|\btext\b|\bchapters?\b|\bch\.$|\bpages?\b|\bsections?\b"),
    (ColumnRole.DUE, r"\bdue\b|\bdeliverables?\b|\bsubmi(?:t|ssions?)\b|\bhand[- ]?in\b|\bturn[- ]?in\b"),
    (
        ColumnRole.TOPIC,
        r"\bin[- ]class\b|\bcompleted in class\b|\btopics?\b|\bcontent\b|\blectures?\b|\bsubjects?\b|\bthemes?\b",
    ),
    (ColumnRole.TOPIC, r"^(?:labs?|laborator(?:y|ies))(?:\s*/\s*\w+)?$"),
    (ColumnRole.EXAM, r"\bexams?\b|\btests?\b|\bquiz(?:zes)?\b"),
    (
        ColumnRole.WORK,
        r"\bassignments?\b|\bhome ?works?\b|\bhw\b|\bprojects?\b|\bproblem sets?\b|\blabs?\b|\btasks?\b|"
        r"\bto do\b|\bassessments?\b",
    ),
    (ColumnRole.WEEK, r"^(?:week|wk)\b"),
    (ColumnRole.DATE, r"\bdates?\b"),
    (ColumnRole.WEEKDAY, r"^(?:week)?days?$"),
    (ColumnRole.TOPIC, r"\bactivit(?:y|ies)\b|\bplan\b|\bagenda\b|\bdescription\b|\bevents?\b"),
    (ColumnRole.NOTES, r"\bnotes?\b|\bcomments?\b|\bremarks\b|\bother\b"),
)


_DATE = (ColumnRole.DATE, ColumnRole.WEEK)
_MAYBE_DATE = (*_DATE, None, ColumnRole.TOPIC, ColumnRole.CLASS_NUMBER, ColumnRole.WEEKDAY)
_JOINED = re.compile(r"\band\b|&|\+|^topics?\s*/|^topics? assignments?$")
_DATES_HEADING = re.compile(r"\bdates?\b|\bdeadlines?\b|\bwhen\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its number from 0, role, heading words, and the weekday or clock time of its heading."""

    index: int
    role: ColumnRole | None
    heading: str = ""
    weekday: Weekday | None = None
    clock: Phrase | None = None
    of_week: bool = False


def cell_text(cell: Cell | None) -> str:
    """The words of a cell on one line, empty for a hole."""
    return " ".join(cell.text.split()) if cell is not None else ""


def weekday_in(text: str) -> Weekday | None:
    """The one weekday a heading names, in full or short; None for none or several."""
    found = {_WEEKDAYS.index(match[1].lower()[:2]) for match in _WEEKDAY.finditer(text)}
    if len(found) == 1:
        return Weekday(found.pop() + 1)
    bare = text.strip().lower()
    return WEEKDAY_NAMES.get(bare) if len(bare) <= 2 else None


def weekday_alone(text: str) -> tuple[Weekday, Phrase | None] | None:
    """The weekday, and the time of day if there is one, of a cell with nothing else: "Fri", "Sunday, 11:59 pm"."""
    found = weekday_in(text) if len(text) <= LONGEST_WEEKDAY else None
    if found is None:
        return None
    rest = text
    clock: Phrase | None = None
    for phrase in reversed(phrases_in(text, weak=True)):
        if phrase.expression is not None and not isinstance(phrase.expression, WeekdayIn):
            return None
        if phrase.time is not None or phrase.time_point is not None:
            clock = replace(phrase, expression=None)
        rest = rest[: phrase.start] + rest[phrase.end :]
    rest = re.sub(r"\b(?:due|by|on|at)\b", "", rest, flags=re.IGNORECASE)
    return None if re.search(r"\d|[A-Za-z]{3}", _WEEKDAY.sub("", rest)) else (found, clock)


def clock_in(text: str) -> Phrase | None:
    """The clock time a heading gives ("Due @ 5 pm"), as a phrase without a day; None without any."""
    for phrase in phrases_in(text, weak=True):
        if phrase.time is not None and phrase.expression is None:
            return phrase
    return None


def header_rows(grid: Grid) -> tuple[int, int]:
    """The first header row and the first row behind the header, both from 0; equal when there is no header."""
    best, best_count = -1, 0
    for number, row in enumerate(grid[:HEADER_SEARCH_ROWS]):
        cells = _distinct(row)
        roles = {_role(text) for cell in cells if (text := cell_text(cell))}
        roles.discard(None)
        days = sum(1 for cell in cells if _is_weekday_heading(cell_text(cell)))
        named = sum(1 for cell in cells if _role(text := cell_text(cell)) is None and _is_work_heading(text))
        count = len(roles) + (days if days > 1 else 0) + (named if roles else 0)
        longest = max((len(cell_text(cell)) for cell in cells), default=0)
        dated = any(_row_date(cell_text(cell)) for cell in cells)
        if count > best_count and longest <= 2 * MOST_HEADING_LETTERS and not dated:
            best, best_count = number, count
    if best_count >= 2:
        return best, best + 1
    return 0, 0


def _is_work_heading(text: str) -> bool:
    """Whether a cell is a kind of work alone, as a column for its dates is headed ("Essay", "Reflection due")."""
    heads = find_heads(text)
    return len(heads) == 1 and not heads[0].number and len(text.split()) <= 3 and not re.search(r"\d", text)


def columns_of(grid: Grid, month: int | None = None) -> tuple[tuple[Column, ...], int]:
    """The columns of a table and its first row behind the header (from 0); ``month`` is that of a heading above."""
    head, body = header_rows(grid)
    width = len(grid[0]) if grid else 0
    columns: list[Column] = []
    for index in range(width):
        heading = cell_text(grid[head][index]) if body > head else ""
        columns.append(_column(index, heading))
    found = _by_content(tuple(columns), grid, body)
    return _with_day_numbers(found, grid[body:], month), body


def _with_day_numbers(columns: tuple[Column, ...], rows: Grid, month: int | None) -> tuple[Column, ...]:
    """The columns, one that holds the numbers of days under or beside names of months told as dates."""
    if any(column.role is ColumnRole.DATE for column in columns):
        return columns
    months = next((column.index for column in columns if _are_months(rows, column)), None)
    for column in columns:
        unnamed = not column.heading and column.role in (None, ColumnRole.WEEK)
        beside = months is not None and column.role in (None, ColumnRole.WEEKDAY)
        if (unnamed or beside) and column.index != months and _are_days(rows, column.index, month, months):
            return tuple(
                replace(one, role=ColumnRole.DATE)
                if one is column
                else replace(one, role=ColumnRole.MONTH)
                if one.index == months
                else one
                for one in columns
            )
    return columns


def _are_months(rows: Grid, column: Column) -> bool:
    """Whether a column holds names of months alone, in the rows where they begin or in all."""
    if column.role not in (ColumnRole.MONTH, None):
        return False
    texts = _texts(rows, column.index)
    return bool(texts) and all(month_alone(text) is not None for text in texts)


def _are_days(rows: Grid, index: int, month: int | None, months: int | None = None) -> bool:
    """Whether a column holds day numbers that rise under each month, which stands in rows of its own, in the heading
    above or in the column ``months``."""
    before, count, texts = 0, 0, 0
    for row in rows:
        beside = month_alone(cell_text(row[months])) if months is not None else None
        if (alone := is_month_row(row)) is not None or (beside is not None and beside != month):
            month, before = alone or beside, 0
            if alone is not None:
                continue
        text = cell_text(row[index]) if index < len(row) else ""
        texts += bool(text)
        if month is None or not re.fullmatch(r"\d{1,2}", text):
            continue
        if not before <= int(text) <= LAST_DAY:
            return False
        before, count = int(text), count + 1
    return count >= FEWEST_DAYS and count >= 0.6 * texts


def _column(index: int, heading: str) -> Column:
    if _is_weekday_heading(heading):
        return Column(index, ColumnRole.TOPIC, heading, weekday_in(heading))
    role = _role(heading)
    if role in (ColumnRole.CLASS_NUMBER, ColumnRole.TOPIC, None) and weekday_in(heading) is not None:
        return Column(index, ColumnRole.TOPIC, heading, weekday_in(heading))  # "Class (Tue)", "Lab (Thursday)"
    weekday = (
        weekday_in(heading) if role in (ColumnRole.DUE, ColumnRole.WORK, ColumnRole.EXAM, ColumnRole.READING) else None
    )
    clock = clock_in(heading) if role in (ColumnRole.DUE, ColumnRole.WORK, ColumnRole.EXAM) and heading else None
    of_week = bool(re.search(r"\bweek (?:of|beginning|starting)\b", heading, re.IGNORECASE))
    if of_week:
        role = ColumnRole.DATE
    return Column(index, role, heading, weekday, clock, of_week)


def _role(heading: str) -> ColumnRole | None:
    role = _plain_role(heading)
    if role in (None, ColumnRole.TOPIC, ColumnRole.NOTES) and re.search(r"\(\s*due\b", heading, re.IGNORECASE):
        return ColumnRole.DUE  # "Discussion (due Thu)"
    return role


def _plain_role(heading: str) -> ColumnRole | None:
    plain = re.sub(r"\([^)]*\)", " ", heading)
    if not plain.strip() or len(plain) > MOST_HEADING_LETTERS:
        return None
    text = " ".join(plain.lower().split())
    whole = column_role(plain) or column_role(re.sub(r"[*†‡\d]+$", "", plain.strip()))
    if whole is not None and not re.match(r"^labs?$", text):
        return whole
    if re.match(r"^labs?\s*/|^laborator", text):
        return ColumnRole.TOPIC
    found = [role for role, pattern in _PARTS if re.search(pattern, text)]
    if ColumnRole.WORK in found and _JOINED.search(text) and found[0] in (ColumnRole.TOPIC, ColumnRole.READING):
        return ColumnRole.WORK if "class" not in text else found[0]
    return found[0] if found else None


def _is_weekday_heading(text: str) -> bool:
    plain = re.sub(r"\([^)]*\)|[\d/.:,-]", " ", text).strip()
    return (
        len(plain.split()) <= 2
        and weekday_in(plain) is not None
        and not find_heads(plain)
        and "due" not in plain.lower()
    )


def _row_date(text: str) -> RowDate | None:
    return read_row_date(text) if text else None


def _by_content(columns: tuple[Column, ...], grid: Grid, body: int) -> tuple[Column, ...]:
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
    is_calendar = has_date or any(column.role in _DATE for column in columns)
    names_work = any(column.role in (ColumnRole.WORK, ColumnRole.DUE, ColumnRole.EXAM) for column in columns)
    for column in columns:
        role = column.role
        share = _share_dated(rows, column.index)
        if role in (ColumnRole.DUE, ColumnRole.DUE_DATE):
            by_date = _mostly_dates_alone(rows, column.index) or (
                not calendar and _DATES_HEADING.search(column.heading)
            )
            role = ColumnRole.DUE_DATE if by_date else ColumnRole.DUE
        elif role in _MAYBE_DATE and role not in _DATE and not has_date and share >= 0.5:
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


def _texts(rows: Grid, index: int) -> list[str]:
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
    texts = _texts(rows, index)
    dated = sum(1 for text in texts if (found := _row_date(text)) is not None and found.frame.is_dated)
    return dated / len(texts) if len(texts) >= 2 else 0.0


def _mostly_dates_alone(rows: Grid, index: int) -> bool:
    texts = _texts(rows, index)
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


def _mostly_work(rows: Grid, index: int) -> bool:
    """Whether the cells of a column without a telling heading mostly name work, and do not mix it with topics."""
    texts = _texts(rows, index)
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
    texts = _texts(rows, index)
    numbers = [int(text) for text in texts if re.fullmatch(r"\d{1,2}", text)]
    return (
        len(numbers) >= 3 and len(numbers) >= 0.6 * len(texts) and all(a <= b for a, b in itertools.pairwise(numbers))
    )


def _are_numbered(rows: Grid, index: int) -> bool:
    """Whether at least a third of a column's cells hold a number."""
    texts = _texts(rows, index)
    return 3 * sum(1 for text in texts if re.search(r"\d", text)) >= len(texts)


def _are_counts(rows: Grid, index: int) -> bool:
    """Whether the numbers of a column ("No.") say how many, as they fall or all are one, and do not count classes."""
    numbers = [int(match[0]) for text in _texts(rows, index) if (match := re.match(r"\d{1,3}\b", text))]
    return len(numbers) > 1 and (len(set(numbers)) == 1 or any(a > b for a, b in itertools.pairwise(numbers)))


def _counted(rows: Grid, index: int) -> ColumnRole | None:
    """The role of a column of which every filled cell is a share in percent or a number of points ("25 points")."""
    texts = _texts(rows, index)
    if len(texts) < LEAST_WORKS:
        return None
    if all(re.fullmatch(r"\d{1,3}(?:\.\d+)?\s*%", text) for text in texts):
        return ColumnRole.WEIGHT
    counted = all(re.fullmatch(r"\(?\d{1,4}\s*(?:points?|pts?\.?|marks)\)?", text, re.IGNORECASE) for text in texts)
    return ColumnRole.POINTS if counted else None


def _distinct(row: tuple[Cell | None, ...]) -> list[Cell]:
    cells: list[Cell] = []
    for cell in row:
        if cell is not None and cell not in cells:
            cells.append(cell)
    return cells


def is_month_row(row: tuple[Cell | None, ...]) -> int | None:
    """The month when a row of a table says nothing but a month; None otherwise."""
    texts = {text for cell in row if (text := cell_text(cell))}
    return month_alone(texts.pop()) if len(texts) == 1 else None
