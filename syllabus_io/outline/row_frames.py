"""The dates of a table's rows, in order: what their own cells say, with the month that is written only now and then."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from syllabus_io.extract.document import Cell
from syllabus_io.outline.frames import Frame
from syllabus_io.outline.grids import Column, Grid, cell_text, is_month_row
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.row_dates import days_of_month, month_alone, read_row_date
from syllabus_io.outline.vocabulary import WEEKDAY_NAMES
from syllabus_io.resolve.expression import DateExpression, FullDate, MeetingNumber, MonthDay, NumericDate, Week, WeekOf

__all__ = ["DATE_ROLES", "MONTH_ROLLED", "RowFrames", "row_frames"]

DATE_ROLES = (ColumnRole.DATE, ColumnRole.WEEK, ColumnRole.WEEKDAY, ColumnRole.CLASS_NUMBER)
MONTH_ROLLED = "its month is not written; the days of the rows begin again, so the next month is taken"
FARTHEST_BACK = 20  # days by which the numbers fall where a new month begins
_LAST_DAY_HEADING = re.compile(r"\W*(?:closes?|closing|ends?|until|due|deadline)\b", re.IGNORECASE)
LAST_DAY = 31
LAST_MONTH = 12
_WEEKDAY = r"(?:m|tu?|w|th|r|f|sa|su|mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\.?"
_BARE_DAY = re.compile(
    rf"(?:(?P<month>[A-Za-z]{{3,9}})\.?\s+)?(?:(?P<before>{_WEEKDAY}),?\s+)?(?P<day>\d{{1,2}})(?:st|nd|rd|th)?"
    rf"(?:,?\s+\(?(?P<after>{_WEEKDAY})\)?)?",
    re.IGNORECASE,
)
_DOTTED = re.compile(
    rf"(?:(?P<weekday>{_WEEKDAY}),?\s+)?(?P<first>\d{{1,2}})\.\s?(?P<second>\d{{1,2}})(?P<stop>\.)?", re.IGNORECASE
)


@dataclass(slots=True)
class RowFrames:
    """The months and days that the rows of a table have named so far."""

    month: int | None = None
    day: int = 0
    is_carried: bool = False

    def next_frame(self, row: tuple[Cell | None, ...], columns: tuple[Column, ...]) -> Frame | None:
        """The frame that the row's own date cells give; None when they give none."""
        alone = is_month_row(row)
        if alone is not None:
            self.month, self.day, self.is_carried = alone, 0, False
            return None
        for column in columns:
            text = cell_text(row[column.index]) if column.role is ColumnRole.MONTH and column.index < len(row) else ""
            if (named := month_alone(text)) is not None and named != self.month:
                self.month, self.day, self.is_carried = named, 0, False
        frame = _own_frame(row, columns, None if self.is_carried else self.month) or self._bare_frame(row, columns)
        if frame is not None:
            self._keep(frame.day)
        return frame

    def _bare_frame(self, row: tuple[Cell | None, ...], columns: tuple[Column, ...]) -> Frame | None:
        """The frame of a row whose date cell holds the number of a day, the month written in it or some row above."""
        for column in columns:
            text = cell_text(row[column.index]) if column.index < len(row) else ""
            if column.role is ColumnRole.DATE and (dotted := _dotted(text)) is not None:
                return Frame(day=dotted, words=text)
            ranged = days_of_month(text, self.month) if column.role is ColumnRole.DATE and self.month else None
            if ranged is not None and ranged[1] == len(text):
                return Frame(stretch=ranged[0], words=text)
            match = _BARE_DAY.fullmatch(text) if column.role is ColumnRole.DATE else None
            named = month_alone(match["month"]) if match is not None and match["month"] else None
            if match is None or (match["month"] and named is None) or (named or self.month) is None:
                continue
            number = int(match["day"])
            month = named or self.month or 0
            weekday = WEEKDAY_NAMES.get((match["before"] or match["after"] or "").lower())
            doubts: tuple[str, ...] = ()
            if named is None and number < self.day - FARTHEST_BACK:
                month = month % 12 + 1
                doubts = () if weekday is not None else (MONTH_ROLLED,)
            if 1 <= number <= LAST_DAY:
                return Frame(day=MonthDay(month, number, weekday), words=text, doubts=doubts)
        return None

    def _keep(self, day: DateExpression | None) -> None:
        match day:
            case MonthDay(month=month, day=number):
                pass
            case FullDate(day=full):
                month, number = full.month, full.day
            case _:
                return
        self.is_carried = self.is_carried or month != self.month
        self.month, self.day = month, number


def _dotted(text: str) -> DateExpression | None:
    """The day of a cell such as "18.10.", day before month; with no full stop behind it, either may stand first."""
    match = _DOTTED.fullmatch(text)
    if match is None:
        return None
    first, second = int(match["first"]), int(match["second"])
    weekday = WEEKDAY_NAMES.get((match["weekday"] or "").lower())
    if 1 <= second <= LAST_MONTH < first <= LAST_DAY or (match["stop"] and 1 <= second <= LAST_MONTH):
        return MonthDay(second, first, weekday) if 1 <= first <= LAST_DAY else None
    return NumericDate(first, second, None, weekday) if 1 <= first <= LAST_MONTH and 1 <= second <= LAST_DAY else None


def row_frames(
    grid: Grid, columns: tuple[Column, ...], body: int, month: int | None, before: RowFrames | None = None
) -> tuple[Frame | None, ...]:
    """The frame of every row of a table, None above ``body`` and for rows that name no date.

    ``month`` is that of a heading above; ``before`` the state behind the part of the table on the page before.
    """
    state = before if before is not None else RowFrames(month)
    return tuple(None if number < body else state.next_frame(row, columns) for number, row in enumerate(grid))


def _own_frame(row: tuple[Cell | None, ...], columns: tuple[Column, ...], month: int | None) -> Frame | None:
    week: int | None = None
    number: int | None = None
    frame: Frame | None = None
    for column in columns:
        text = cell_text(row[column.index]) if column.index < len(row) else ""
        if not text or column.role not in DATE_ROLES:
            continue
        if column.role is ColumnRole.WEEK and re.fullmatch(r"(?:week|wk)?\W*\d{1,2}\W*", text, re.IGNORECASE):
            week = int(re.sub(r"\D", "", text))
            continue
        if column.role is ColumnRole.CLASS_NUMBER and re.fullmatch(r"\W*\d{1,3}\W*", text):
            number = int(re.sub(r"\D", "", text))
            continue
        if column.role is ColumnRole.WEEKDAY and not re.search(r"\d", text):
            continue
        found = read_row_date(text, month, max_lead=9 if column.role is ColumnRole.DATE else 3)
        if found is None:
            continue
        if week is None:
            week = found.frame.week
        if frame is None or (frame.day is None and not isinstance(found.frame.stretch, Week)):
            last = _LAST_DAY_HEADING.match(column.heading) is not None
            frame = replace(found.frame, week=week, is_last_day=last)
            if column.of_week and frame.day is not None:
                frame = replace(frame, stretch=WeekOf(frame.day), day=None)
    if frame is not None:
        return replace(frame, week=week)
    if week is not None:
        return Frame(stretch=Week(week), week=week, words=f"week {week}")
    if number is not None:
        return Frame(day=MeetingNumber(number), words=f"class {number}")
    return None
