"""Parts of a grade in tables: a name and its percent or points in a row, in any columns, one pair a row or more."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from syllabus_io.extract.document import Cell, Table
from syllabus_io.outline.grading_shares import EXTRA, Share, clean_name, count_in, line_shares, points_in, weight_in
from syllabus_io.outline.headings import ColumnRole, column_role
from syllabus_io.outline.sections import plain
from syllabus_io.outline.vocabulary import count_of, find_work_words

__all__ = ["table_shares"]

_LETTER = re.compile(r"[A-DF][+-]?")
_SCHEDULE_ROLES = {ColumnRole.WEEK, ColumnRole.TOPIC, ColumnRole.READING, ColumnRole.CLASS_NUMBER}
_VALUE_ROLES = {ColumnRole.WEIGHT, ColumnRole.POINTS}
# "Garden plan – written part (900 words)": a part of a work, called after both
_OF_WHOLE = re.compile(r"(?P<whole>[A-Z][^\d%(:–—-]{2,30})\s[–—-]\s(?P<part>[a-z][^\d%(:]{2,40})(?=\(|$)")
_ROW_NUMBER = re.compile(r"\W*(?:\d{1,2}[a-z]?|[ivx]{1,4}|[a-z])\W*", re.IGNORECASE)
_TOTAL = re.compile(r"^\W*(?:grand |course |maximum |overall )?(?:total|sum)\b[\w ]{0,24}:?\W*$", re.IGNORECASE)


def table_shares(table: Table, order: int) -> tuple[Share, ...]:
    """The parts of the grade that a table lists, the sum's row marked; empty when it is no table of them."""
    grid = table.grid()
    header, roles = _header(grid)
    has_value_column = any(role in _VALUE_ROLES for role in roles.values())
    if not has_value_column and any(role in _SCHEDULE_ROLES for role in roles.values()):
        return ()
    rows = grid[header:]
    letters = [row for row in rows if row and row[0] is not None and _LETTER.fullmatch(plain(row[0].text))]
    if 2 * len(letters) > len(rows) or len(letters) >= 4:
        return ()
    in_percent = ColumnRole.WEIGHT in roles.values()
    numbers_count = not in_percent and (has_value_column or _has_plain_points(rows))
    shares: list[Share] = []
    for row in rows:
        shares.extend(_row_shares(row, roles, order, numbers_count))
    return tuple(shares)


def _header(grid: Sequence[Sequence[Cell | None]]) -> tuple[int, dict[int, ColumnRole]]:
    """How many rows the header takes, and the roles of its columns."""
    for number, row in enumerate(grid[:2]):
        roles: dict[int, ColumnRole] = {}
        for column, cell in enumerate(row):
            text = plain(cell.text).replace("\n", " ") if cell else ""
            role = column_role(text) or _loose_role(text)
            if role:
                roles[column] = role
        roles = _one_points_column(row, roles)
        filled = len({cell for cell in row if cell is not None and cell.text.strip()})
        if roles and 2 * len(set(roles)) >= filled and not any(re.search(r"\d\s*%", plain(c.text)) for c in row if c):
            return number + 1, roles
    return 0, {}


def _one_points_column(row: Sequence[Cell | None], roles: dict[int, ColumnRole]) -> dict[int, ColumnRole]:
    """The roles with one column of points: the total, where points of one mark have a column of their own."""
    points = [column for column, role in roles.items() if role is ColumnRole.POINTS]
    headings = {column: plain(cell.text).lower() if (cell := row[column]) else "" for column in points}
    whole = [column for column in points if "total" in headings[column]]
    if len(points) < 2 or not whole:
        return roles
    return {
        column: ColumnRole.NOTES if column in points and column != whole[0] else role for column, role in roles.items()
    }


def _loose_role(text: str) -> ColumnRole | None:
    """The role of a longer heading that names a weight ("Percentage of final grade")."""
    if len(text) > 45:
        return None
    if re.search(r"\d", text):
        return None
    if re.search(r"(?i)\b(?:weight|percent|percentage)|%", text):
        return ColumnRole.WEIGHT
    if re.search(r"(?i)\b(?:points|pts|marks)\b|^(?:sub)?totals?$", text):
        return ColumnRole.POINTS
    return (
        ColumnRole.WORK
        if re.search(r"(?i)\b(?:assignment|assessment|component|category|requirement|task)s?\b", text)
        else None
    )


def _has_plain_points(rows: Sequence[Sequence[Cell | None]]) -> bool:
    """Whether plain numbers behind names are points: the last row is their sum."""
    values: list[float] = []
    for row in rows:
        cells = _cells(row)
        number = points_in(plain(cells[-1].text)) if len(cells) >= 2 else None
        if number is None:
            continue
        if _TOTAL.match(plain(cells[0].text)) and values:
            return abs(sum(values) - number) < 0.01
        values.append(number)
    return False


def _cells(row: Sequence[Cell | None]) -> list[Cell]:
    return list(dict.fromkeys(cell for cell in row if cell is not None and cell.text.strip()))


def _row_shares(
    row: Sequence[Cell | None], roles: dict[int, ColumnRole], order: int, numbers_count: bool
) -> Iterator[Share]:
    named: Cell | None = None
    waiting: tuple[float | None, float | None, int | None, bool, Cell] | None = None
    last: Share | None = None
    about = " ".join(plain(cell.text) for cell in _cells(row))
    for column, cell in enumerate(row):
        if cell is None or not cell.text.strip() or (column and cell is row[column - 1]):
            continue
        value = _value(cell, roles.get(column), numbers_count and (named is not None or column > 0))
        if value is None:
            if named is None and _ROW_NUMBER.fullmatch(plain(cell.text)) and column + 1 < len(row):
                continue
            if roles.get(column) is ColumnRole.COUNT and last is None and named is not None:
                continue
            named = named or cell
            if waiting is not None:
                last = _share(cell, waiting, about, order, _count_of_row(row, roles))
                waiting = None
                named = None
                yield from [last] if last else []
            continue
        if named is not None:
            share = _share(named, (*value, cell), about, order, _count_of_row(row, roles))
            named = None
            if share:
                last = share
                yield share
        elif last is not None and last.percent is None != (value[0] is None):
            continue
        elif last is None:
            waiting = (*value, cell)
    if named is not None and last is None and len(_cells(row)) <= 2:
        # "Homework (20%)" in the name's own cell
        text = plain(named.text).split("\n")[0]
        yield from line_shares(text, named.place, order, _depth(named))


def _value(
    cell: Cell, role: ColumnRole | None, numbers_count: bool
) -> tuple[float | None, float | None, int | None, bool] | None:
    text = plain(cell.text)
    found = weight_in(text.replace("\n", " "))
    if found:
        return found
    number = points_in(text)
    if number is None:
        return None
    marks = len([part for part in text.split("\n") if part.strip()])
    if role is ColumnRole.WEIGHT:
        return (number * 100 if 0 < number < 1 else number), None, None, False
    if role is ColumnRole.POINTS or (numbers_count and role is None):
        return None, number, (marks if marks > 1 else None), False
    return None


def _count_of_row(row: Sequence[Cell | None], roles: dict[int, ColumnRole]) -> int | None:
    for column, role in roles.items():
        cell = row[column] if column < len(row) else None
        if role is ColumnRole.COUNT and cell is not None:
            return count_of(plain(cell.text))
    return None


def _depth(cell: Cell) -> int:
    first = cell.lines[0] if cell.lines else None
    return 1 if first is not None and (first.marker or first.depth or plain(cell.text)[:1] in "·•–-") else 0


def _share(
    name_cell: Cell,
    value: tuple[float | None, float | None, int | None, bool, Cell],
    about: str,
    order: int,
    count: int | None,
) -> Share | None:
    percent, points, times, is_each, _ = value
    lines = plain(name_cell.text).split("\n")
    text = " ".join(lines) if len(" ".join(lines)) <= 60 else lines[0]
    if _TOTAL.match(text):
        return Share("Total", percent, points, name_cell.place, order, is_total=True)
    inner = line_shares(text, name_cell.place, order)
    if inner and inner[0].percent is not None and percent is None:
        return replace(inner[0], points=points, depth=_depth(name_cell), about=about)
    name, lead = clean_name(text)
    if not re.search(r"[A-Za-z]{2}", name) or len(name) > 80:
        return None
    if (whole := _OF_WHOLE.match(text)) is not None:
        name = f"{whole['whole']} – {whole['part'].strip()}"
    detail, drop = count_in(text) if "(" in text or not drop_words(about) else count_in(about.replace(text, "", 1))
    is_extra = bool(EXTRA.search(f"{text} {about[:100]}")) or text.startswith("*")
    counted = count or times or lead or (detail if drop or "(" in text else None)
    return Share(
        name, percent, points, name_cell.place, order, _depth(name_cell), counted, drop, is_each, is_extra, about=about
    )


def drop_words(text: str) -> bool:
    """Whether a text speaks of marks that are left out, or of the best ones."""
    return bool(re.search(r"\b(?:drop(?:ped|s)?|lowest|best|highest|top)\b", text, re.IGNORECASE))


def names_work(shares: Sequence[Share]) -> bool:
    """Whether at least a third of the names hold a word for work, so that a table without a heading is believed."""
    named = [share for share in shares if find_work_words(share.name)]
    return 3 * len(named) >= len(shares)
