"""The columns of a table: which row is the header, and what every column holds."""

from __future__ import annotations

import re
from dataclasses import replace

from syllabus_io.outline.column_contents import are_months, with_roles_by_content
from syllabus_io.outline.grids import Column, Grid, cell_text, distinct_cells, is_month_row
from syllabus_io.outline.headings import ColumnRole, column_role
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.row_dates import month_alone, read_row_date
from syllabus_io.outline.vocabulary import WEEKDAY_NAMES
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import Phrase, Weekday, WeekdayIn

__all__ = ["clock_in", "columns_of", "header_rows", "weekday_alone", "weekday_in"]

HEADER_SEARCH_ROWS = 4
MOST_HEADING_LETTERS = 90
LONGEST_WEEKDAY = 30
LAST_DAY = 31
FEWEST_DAYS = 3

_WEEKDAY = re.compile(r"\b(mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?s?\b\.?", re.IGNORECASE)
_WEEKDAYS = ("mo", "tu", "we", "th", "fr", "sa", "su")
# Parts of longer headings, tried in this order; the first that occurs gives the role.
_PARTS: tuple[tuple[ColumnRole, str], ...] = (
    (
        ColumnRole.ASSIGNED,
        r"^(?:date )?(?:assigned|handed out|posted|released?)\b|"
        r"^(?:[a-z/]+ ){1,2}(?:assigned|handed out|posted|released)$",
    ),
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
_LAB_OF_A_DAY = re.compile(
    r"\W*(?:(?:mon|tues|wednes|thurs|fri)day\W+labs?|labs?\W+(?:on\W+)?(?:mon|tues|wednes|thurs|fri)days?)\W*"
)
_JOINED = re.compile(r"\band\b|&|\+|^topics?\s*/|^topics? assignments?$")


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
        if phrase.time is not None and (phrase.expression is None or isinstance(phrase.expression, WeekdayIn)):
            return replace(phrase, expression=None)
    return None


def header_rows(grid: Grid) -> tuple[int, int]:
    """The first header row and the first row behind the header, both from 0; equal when there is no header."""
    best, best_count = -1, 0
    for number, row in enumerate(grid[:HEADER_SEARCH_ROWS]):
        cells = distinct_cells(row)
        roles = {_role(text) for cell in cells if (text := cell_text(cell))}
        roles.discard(None)
        days = sum(1 for cell in cells if _is_weekday_heading(cell_text(cell)))
        named = sum(1 for cell in cells if _role(text := cell_text(cell)) is None and _is_work_heading(text))
        count = len(roles) + (days if days > 1 else 0) + (named if roles else 0)
        longest = max((len(cell_text(cell)) for cell in cells), default=0)
        dated = any(_is_dated(cell_text(cell)) for cell in cells)
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
    found = with_roles_by_content(tuple(columns), grid, body)
    return _with_day_numbers(found, grid[body:], month), body


def _with_day_numbers(columns: tuple[Column, ...], rows: Grid, month: int | None) -> tuple[Column, ...]:
    """The columns, one that holds the numbers of days under or beside names of months told as dates."""
    if any(column.role is ColumnRole.DATE for column in columns):
        return columns
    months = next((column.index for column in columns if are_months(rows, column)), None)
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
    named = role is ColumnRole.WORK and heading.lower().startswith("discussion")
    if (named or role in (None, ColumnRole.TOPIC, ColumnRole.NOTES)) and re.search(
        r"\(\s*due\b", heading, re.IGNORECASE
    ):
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
    if re.match(r"^labs?\s*/|^laborator", text) or _LAB_OF_A_DAY.fullmatch(text):
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


def _is_dated(text: str) -> bool:
    return bool(text) and read_row_date(text) is not None
