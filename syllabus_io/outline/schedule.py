"""Schedule tables: rows with dates, and what stands in their cells."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.extract.document import Cell, Document, Line, Table
from syllabus_io.outline.columns import clock_in, columns_of, weekday_alone
from syllabus_io.outline.dated_columns import is_dated_column
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.grids import Column, Grid, cell_text, is_month_row
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.records import UndatedWork, Weight
from syllabus_io.outline.requirements import is_no_work
from syllabus_io.outline.row_dates import SHORT_LEAD, month_alone, read_row_date
from syllabus_io.outline.row_frames import DATE_ROLES, RowFrames, row_frames
from syllabus_io.outline.row_labels import label_of
from syllabus_io.outline.rows import Rows, TableState
from syllabus_io.outline.table_forms import (
    as_requirements,
    is_block_table,
    read_block_table,
    read_class_days,
    read_titled_dates,
    row_text,
)
from syllabus_io.outline.week_starts import ClassWeek, opens_weeks
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import (
    CalendarWeek,
    ClassNear,
    DateExpression,
    Direction,
    MeetingNumber,
)

__all__ = ["LOOSE_ROWS", "read_tables"]

_SILENT_ROLES = (
    *DATE_ROLES,
    ColumnRole.MONTH,
    ColumnRole.TIME,
    ColumnRole.ROOM,
    ColumnRole.PERSON,
    ColumnRole.WEIGHT,
    ColumnRole.POINTS,
    ColumnRole.COUNT,
    ColumnRole.LETTER,
    ColumnRole.DUE_DATE,
)
_WEIGHT_CELL = re.compile(r"(\d{1,4}(?:\.\d+)?)\s*(%|points?|pts?\.?|marks?)?", re.IGNORECASE)
_CLASS = re.compile(r"(?:class|lecture|lec\.?|session|meeting)?\W*(\d{1,3})\W*", re.IGNORECASE)
_WEEKDAY_ROLES = (ColumnRole.WEEKDAY, ColumnRole.DUE, ColumnRole.DUE_DATE)
_LABELLED_ROLES = (ColumnRole.TOPIC, ColumnRole.NOTES, ColumnRole.WORK, None)
_NEXT_CLASS = re.compile(r"\b(?:for|by|before|due)\s+(?:the\s+)?next\s+(?:class|time|session|meeting)\b", re.IGNORECASE)
_BREAK = re.compile(r"\b(?:break|recess|vacation|holidays?|reading week|half[- ]term)\b", re.IGNORECASE)
_DAY_OFF_ROW = re.compile(
    r"\bno (?:class|lecture|seminar|meeting)\b(?!.*\b(?:break|recess|vacation|week)\b)", re.IGNORECASE
)
LEAST_DATED_ROWS = 2
LOOSE_ROWS = "the lines of its table stand so close that it may belong to the row above or below"
STRUCK_DATE = "the date of its row is struck through"
LONGEST_NAME = 50


def read_tables(document: Document, rows: Rows) -> None:
    """Add to ``rows`` what the tables of the document hold."""
    section = ""
    month: int | None = None
    fresh_month: int | None = None
    rows.loose.update(note.place.box for note in document.notes if note.kind == "loose")
    for note in document.notes:
        if note.kind == "struck" and note.place.box is not None:
            rows.struck[note.place.page, round(note.place.box.left), round(note.place.box.top)] = note.text
    for block in document.blocks:
        if isinstance(block, Line):
            if block.level or block.bold:
                section = block.text
            if len(block.text) > 60:
                rows.last_columns = ()
            fresh_month = month_alone(block.text) or fresh_month
            month = month_alone(block.text) or (month if not block.level else None)
        else:
            if fresh_month is not None and rows.last_state is not None:
                rows.last_state.months = RowFrames(fresh_month)
            fresh_month = None
            _read_table(block, rows, section, month)
            for cell in block.cells:
                for nested in cell.tables:
                    _read_table(nested, rows, section, month)


def _read_table(table: Table, rows: Rows, section: str, month: int | None) -> None:
    from syllabus_io.outline.month_grid import read_month_grid

    grid = table.grid()
    if table.row_count < 2 or table.column_count < 2:
        _plain_cells(table.cells, rows, section)
        return
    if read_month_grid(table, rows, section, month):
        return
    columns, body = columns_of(grid, month)
    goes_on = (
        bool(rows.last_columns)
        and len(rows.last_columns) == len(columns)
        and (body == 0 or [column.heading for column in columns] == [column.heading for column in rows.last_columns])
    )
    if goes_on:
        columns = rows.last_columns
    roles = {column.role for column in columns}
    if read_class_days(grid, rows):
        return
    columns = as_requirements(columns, grid, body)
    roles = {column.role for column in columns}
    if read_titled_dates(grid, rows):
        return
    if any(is_dated_column(grid, column, body) for column in columns):
        rows.groups += 1
        rows.dated_columns.append((grid, columns, body))
        columns = tuple(
            replace(column, role=ColumnRole.ASSIGNED) if is_dated_column(grid, column, body) else column
            for column in columns
        )
        roles = {column.role for column in columns}
    if ColumnRole.DUE_DATE in roles and not roles & {ColumnRole.DATE, ColumnRole.WEEK}:
        rows.groups += 1
        _keep_days_off(grid[body:], rows, section)
        rows.requirement_tables.append((table, columns, body))
        return
    if is_block_table(grid):
        read_block_table(grid, rows, section)
        return
    if not _is_schedule(row_frames(grid, columns, body, month), grid, columns, body):
        _plain_cells(table.cells, rows, section)
        return
    if not goes_on or rows.last_state is None:
        rows.groups += 1
        rows.last_state = TableState(RowFrames(month))
    columns = _week_columns(grid, columns, body, rows.course)
    rows.last_columns = columns
    frames = row_frames(grid, columns, body, month, rows.last_state.months)
    if table.place.box in rows.loose:
        frames = tuple(None if one is None else replace(one, doubts=(*one.doubts, LOOSE_ROWS)) for one in frames)
    for number in range(body, len(grid)):
        _read_row(grid, number, frames, columns, rows, section)


def _keep_days_off(body: Grid, rows: Rows, section: str) -> None:
    """Add as running text what a table of works and dates says of days off ("Spring break | March 10-14")."""
    for row in body:
        first = row[0]
        if first is not None and is_no_work(cell_text(first)):
            text = ": ".join(dict.fromkeys(text for cell in row if (text := cell_text(cell))))
            rows.passages.append(Passage(text, first.place, (), None, "", section))


def _week_columns(grid: Grid, columns: tuple[Column, ...], body: int, course: ClassWeek) -> tuple[Column, ...]:
    """The columns, those with the dates marked as weeks where each date opens the week of its row."""
    frames = [frame for frame in row_frames(grid, columns, body, None) if frame is not None]
    days = [frame.day for frame in frames if frame.day is not None and not isinstance(frame.day, MeetingNumber)]
    heading = " ".join(column.heading for column in columns if column.role is ColumnRole.DATE)
    has_topics = any(column.role in (ColumnRole.TOPIC, ColumnRole.READING) for column in columns)
    if not course.days and any(_DAY_OFF_ROW.search(row_text(row)) for row in grid[body:]):
        return columns  # "Sep 7 | No class (Labor Day)": the rows are the days of a class held once a week
    if 2 * len(days) < len(frames) or not opens_weeks(days, heading, has_topics, course):
        return columns
    return tuple(replace(column, of_week=True) if column.role in DATE_ROLES else column for column in columns)


def _is_schedule(frames: Sequence[Frame | None], grid: Grid, columns: tuple[Column, ...], body: int) -> bool:
    dated = sum(frame is not None and frame.is_dated for frame in frames)
    if dated < LEAST_DATED_ROWS:
        return False
    has_date_column = any(
        column.role in (ColumnRole.DATE, ColumnRole.WEEK, ColumnRole.CLASS_NUMBER) for column in columns
    )
    return has_date_column and dated >= 0.3 * (len(grid) - body)


def _plain_cells(cells: Sequence[Cell], rows: Rows, section: str) -> None:
    """Cells as running text, under the name in the first cell of their row when that names work."""
    names = {cell.row: cell_text(cell) for cell in cells if cell.column == 1 and len(cell_text(cell)) < LONGEST_NAME}
    for cell in cells:
        if cell.text.strip():
            name = names.get(cell.row, "")
            own = name if cell.column > 1 and find_heads(name) else section
            rows.passages.append(Passage(cell.text, cell.place, cell.lines, None, "", own))


def _read_row(
    grid: Grid,
    number: int,
    frames: Sequence[Frame | None],
    columns: tuple[Column, ...],
    rows: Rows,
    section: str,
) -> None:
    row = grid[number]
    state = rows.last_state or TableState()
    if is_month_row(row) is not None:
        return
    own = [cell for cell in dict.fromkeys(cell for cell in row if cell is not None) if cell.row == number + 1]
    if not own:
        return
    texts = {cell_text(cell) for cell in row if cell is not None and cell_text(cell)}
    if len(texts) == 1 and len(columns) > 2 and own[0].column_span >= len(columns) - 1:
        _read_wide_row(own[0], rows, section, state)
        return
    frame = frames[number] or _struck_frame(row, columns, rows, state.months.month)
    context = " | ".join(dict.fromkeys(cell_text(cell) for cell in row if cell is not None and cell_text(cell)))
    if frame is None:
        _keep_undated(row, columns, rows)
        frame = _carried(row, columns, state, context)
    elif frame.is_dated:
        first = next(cell for cell in row if cell is not None and cell_text(cell))
        frame = rows.add_row(frame, first, context)
        rows.add_class(_class_number(row, columns), frame.day)
        state.frame = frame
        state.ranged += 1 if frame.stretch is not None else -1
        state.last_day = frame.day or (frame.days[0] if frame.days else None) or state.last_day
    said = _weekday_cell(row, columns) if frame.day is None or frame.week is not None else None
    if said is not None and (alone := weekday_alone(cell_text(said))) is not None:
        frame = replace(frame, weekday=alone[0], clock=alone[1] or frame.clock)
    of_class = any(c.weekday is not None and c.role is ColumnRole.TOPIC for c in columns)
    frame = replace(frame, weight=_row_weight(row, columns), is_any_day=of_class and frame.weekday is None)
    clock = next((clock_in(cell_text(row[c.index])) for c in columns if c.role is ColumnRole.TIME), None)
    below = frames[number + 1] if number + 1 < len(grid) else None
    following = below.day if below is not None else None
    for column in columns:
        if clock is not None and column.role in (ColumnRole.TOPIC, ColumnRole.EXAM) and column.clock is None:
            column = replace(column, clock=clock)  # the hours of an event, not of work to hand in
        cell = row[column.index]
        if cell is None or cell not in own or cell.column - 1 != column.index or cell is said:
            continue
        if frame.day is not None and state.ranged > 0:
            column = replace(column, weekday=None)  # among ranges a single day is that day, not the week's first
        _read_cell(cell, column, frame, rows, section, following)


def _class_number(row: tuple[Cell | None, ...], columns: tuple[Column, ...]) -> int | None:
    """The number of the class that a row is about, from a column of such numbers."""
    texts = (cell_text(row[column.index]) for column in columns if column.role is ColumnRole.CLASS_NUMBER)
    return next((int(match[1]) for text in texts if (match := _CLASS.fullmatch(text))), None)


def _row_weight(row: tuple[Cell | None, ...], columns: tuple[Column, ...]) -> Weight | None:
    """What the row says its work counts, in a column of points or percent; None where two cells may name work."""
    named = [c for c in columns if c.role not in (*_SILENT_ROLES, ColumnRole.READING) and cell_text(row[c.index])]
    for column in columns:
        match = _WEIGHT_CELL.fullmatch(cell_text(row[column.index]))
        if len(named) == 1 and match and column.role in (ColumnRole.POINTS, ColumnRole.WEIGHT):
            is_percent = match[2] == "%" or (not match[2] and column.role is ColumnRole.WEIGHT)
            return Weight(percent=float(match[1])) if is_percent else Weight(points=float(match[1]))
    return None


def _weekday_cell(row: tuple[Cell | None, ...], columns: tuple[Column, ...]) -> Cell | None:
    """The cell of a row that says nothing but the weekday of its work, in a column of days or of due dates."""
    for column in columns:
        cell = row[column.index] if column.index < len(row) else None
        if cell is not None and column.role in _WEEKDAY_ROLES and weekday_alone(cell_text(cell)) is not None:
            return cell
    return None


def _read_wide_row(cell: Cell, rows: Rows, section: str, state: TableState) -> None:
    found = read_row_date(cell.text, max_lead=0)
    frame = found.frame if found else Frame()
    if found is not None:
        frame = rows.add_row(frame, cell, cell.text)
        state.frame = frame
    role = ColumnRole.NOTES if found else None
    rows.passages.append(Passage(cell.text, cell.place, cell.lines, role, "", section, frame, rows.groups))


def _read_dated_lines(cell: Cell, column: Column, frame: Frame, rows: Rows, section: str) -> bool:
    """Whether lines of a cell open with a day of their own; when they do, each is read under its day.

    Where the row has a day too, several must: "9/14 deadline moved" is a remark.
    """
    is_days_cell = column.role is ColumnRole.TOPIC and (column.weekday is not None or frame.day is None)
    texts = cell.text.split("\n")
    found = [read_row_date(text, max_lead=SHORT_LEAD) for text in texts]
    days = [one for one in found if one is not None and one.frame.day is not None and one.rest]
    headed = is_days_cell and len(texts) > 1  # the day on a line of its own, over what happens on it
    if (len(days) < (1 if is_days_cell else 2) and not headed) or found[0] is None or found[0].frame.day is None:
        return False
    own = frame
    for text, one in zip(texts, found, strict=True):
        if one is not None and one.frame.day is not None:
            own = replace(one.frame, row=frame.row, week=None)
        said = one.rest if one is not None and one.frame.day is not None else text
        if said.strip():
            rows.passages.append(Passage(said, cell.place, (), ColumnRole.TOPIC, "", section, own, rows.groups))
    return True


def _read_cell(
    cell: Cell, column: Column, frame: Frame, rows: Rows, section: str, following: DateExpression | None = None
) -> None:
    """Add what a cell holds; ``following`` is the day of the row below, which is the next class."""
    role = column.role
    dated_lines = role in (*DATE_ROLES, ColumnRole.TOPIC, ColumnRole.NOTES, None)
    if dated_lines and _read_dated_lines(cell, column, frame, rows, section):
        return
    if role in DATE_ROLES:
        found = read_row_date(cell.text)
        rest = found.rest if found else ""
        if found is None and frame.is_dated and re.search(r"[A-Za-z]{4}", cell.text):
            rest = cell.text
        if len(re.sub(r"[\W\d_]", "", rest)) > 2:
            start = max(0, len(" ".join(cell.text.split())) - len(rest))
            place = cell.place.narrowed(start, start + len(rest))
            rows.passages.append(Passage(rest, place, (), ColumnRole.TOPIC, "", section, frame, rows.groups))
        return
    if role in _SILENT_ROLES or not cell.text.strip():
        return
    own = replace(
        frame,
        weekday=column.weekday if column.weekday is not None else frame.weekday,
        clock=column.clock or frame.clock,
        is_any_day=frame.is_any_day and column.weekday is None and column.role is not ColumnRole.READING,
    )
    if own.day is not None and _NEXT_CLASS.search(column.heading):
        own = replace(own, day=following or ClassNear(own.day, Direction.AFTER))
    passage = Passage(cell.text, cell.place, cell.lines, role, column.heading, section, own, rows.groups)
    rows.passages.extend(_labelled_parts(passage) if role in _LABELLED_ROLES else [passage])


def _labelled_parts(passage: Passage) -> list[Passage]:
    """A cell cut where its lines open with labels ("Due: …", "Read. …"); the cell itself when none do."""
    texts = passage.text.split("\n")
    found = [label_of(text) for text in texts]
    if passage.role is ColumnRole.WORK and not any(role is ColumnRole.DUE for role, _, _ in found):
        return [passage]
    if not any(role for role, _, _ in found):
        return [passage]
    lines = passage.lines if len(passage.lines) == len(texts) else (None,) * len(texts)
    parts: list[Passage] = []
    for text, line, (role, heading, rest) in zip(texts, lines, found, strict=True):
        place = line.place if line is not None else passage.place
        if role is not None or not parts:
            start = replace(passage, text=rest if role else text, place=place, lines=())
            parts.append(replace(start, role=role or passage.role, heading=heading if role else passage.heading))
        else:
            parts[-1] = replace(parts[-1], text=f"{parts[-1].text}\n{text}")
    return [part for part in parts if part.text.strip()]


def _keep_undated(row: tuple[Cell | None, ...], columns: tuple[Column, ...], rows: Rows) -> None:
    """Keep, once, the work that stands where the date of a row should ("Lab" in the column of weekdays)."""
    for column in columns:
        cell = row[column.index] if column.index < len(row) else None
        text = cell_text(cell)
        heads = find_heads(text) if column.role in DATE_ROLES and len(text.split()) <= 2 else ()
        if cell is not None and heads and all(work.title != f"{text}s" for work in rows.undated):
            reason = "its rows in the schedule carry no date"
            rows.undated.append(UndatedWork(heads[0].kind, f"{text}s", reason, cell.place, text))


def _struck_frame(
    row: tuple[Cell | None, ...], columns: tuple[Column, ...], rows: Rows, month: int | None
) -> Frame | None:
    """The frame of a row whose date is struck through: it still says which day the row is about, to be checked."""
    for column in columns:
        cell = row[column.index] if column.index < len(row) else None
        if cell is None or cell.text.strip() or cell.place.box is None or column.role not in DATE_ROLES:
            continue
        text = rows.struck.get((cell.place.page, round(cell.place.box.left), round(cell.place.box.top)))
        found = read_row_date(text, month) if text else None
        if found is not None and found.frame.is_dated:
            return replace(found.frame, doubts=(STRUCK_DATE,))
    return None


def _carried(row: tuple[Cell | None, ...], columns: tuple[Column, ...], state: TableState, context: str) -> Frame:
    """The frame of a row without a date: that of the row above when its date cells are blank, else none."""
    cells = [cell_text(row[column.index]) for column in columns if column.role in DATE_ROLES]
    cells = [text for text in cells if weekday_alone(text) is None]
    if not any(re.search(r"\w", text) for text in cells):
        if _BREAK.search(context) and len(context) < 60 and state.last_day is not None:
            return Frame(stretch=CalendarWeek(state.last_day, 1), words="")
        return state.frame
    return Frame()
