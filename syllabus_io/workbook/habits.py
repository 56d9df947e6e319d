"""Habits: what is done by part of the day and weekday, and a row to tick for each habit in each week. The weeks are
written with their dates, so that ticks stay with their days."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from syllabus_io.plan.facts import planning_facts
from syllabus_io.workbook.book import Book, Formula, Value
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.layout_plan import HABITS
from syllabus_io.workbook.pages import Sheaf, rows_scale
from syllabus_io.workbook.term_weeks import shown_week_count

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_HABIT", "HABIT_ROWS", "first_week_row", "write_habits"]

HABIT_ROWS = 8
FIRST_HABIT = 6
_PARTS = ("morning", "midday", "afternoon", "evening")
_SHORT = ("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su")
_HEADINGS = ("Row id", "Week from", "Habit", "Part of the day", *_SHORT, "Kept")
_WIDTHS = (10.0, 16.5, 46.0, 18.0, *[8.0] * 7, 12.0)  # wide, since its rows set the scale on paper
_FIRST_DAY = 5
_LAST = len(_HEADINGS)
_WEEKS_TO_A_PAGE, _WEEKS_ABOVE = 10, 2
_WEEK_HEIGHT, _TICK_HEIGHT = 17.0, 14.0


def first_week_row(number: int) -> int:
    """The first row to tick of a week, counted from 0."""
    return FIRST_HABIT + HABIT_ROWS + 3 + number * HABIT_ROWS


def write_habits(book: Book) -> None:
    """Adds the sheet: the habits, then a row for each in each week."""
    sheet = book.add_sheet(HABITS)
    book.set_widths(sheet, list(_WIDTHS), (1,))
    book.put(sheet, 1, 2, HABITS, "title")
    sheet.row_dimensions[1].height = 28
    how = (
        "Name a habit, its part of the day, and mark its weekdays with x; then tick below on the days it was kept. "
        "Add new habits at the end: ticks belong to the row of their habit."
    )
    book.put(sheet, 2, 2, how, "note")
    sheet.merge_cells(start_row=2, start_column=2, end_row=3, end_column=_LAST)
    _write_habits(book, sheet)
    weeks = shown_week_count(book)
    for number in range(weeks):
        _write_week(book, sheet, number)
    _set_print(book, sheet, weeks)
    sheet.freeze_panes = f"A{FIRST_HABIT}"


def _set_print(book: Book, sheet: Worksheet, weeks: int) -> None:
    """A page for each half of a term, and more for a longer one: pages end with a week, all at the same scale."""
    pages = -(-weeks // _WEEKS_TO_A_PAGE)
    above = _WEEKS_ABOVE if pages > 1 else 0  # the habits themselves take the room of some weeks
    ends = [first_week_row(max(1, (weeks + above) * page // pages - above)) - 1 for page in range(1, pages + 1)]
    sheaf = Sheaf(book.options.paper, False)
    tops = [1, *(end + 1 for end in ends)]
    scale = min(rows_scale(sheet, sheaf, top, end) for top, end in zip(tops, ends, strict=False))
    area = f"A1:{column_letter(_LAST)}{ends[-1]}"
    book.set_print(sheet, area, breaks=tuple(ends), scale=scale)


def _write_habits(book: Book, sheet: Worksheet) -> None:
    for column, heading in enumerate(_HEADINGS, start=1):
        shown = {2: "Number", _LAST: "In all"}.get(column, heading)
        book.put(sheet, FIRST_HABIT - 1, column, shown, "heading")
    last = FIRST_HABIT + HABIT_ROWS - 1
    for at in range(FIRST_HABIT, last + 1):
        number = at - FIRST_HABIT + 1
        book.put(sheet, at, 1, f"habit-{number}", "hidden")
        book.put(sheet, at, 2, number, "whole_centre")
        book.put(sheet, at, 3, None, "entry_text")
        book.put(sheet, at, 4, None, "entry_centre")
        for column in range(_FIRST_DAY, _FIRST_DAY + 7):
            book.put(sheet, at, column, None, "entry_centre")
        book.put(sheet, at, _LAST, Formula(_in_all(book, number)), "whole_centre")
        sheet.row_dimensions[at].height = 18
    book.offer(sheet, f"D{FIRST_HABIT}:D{last}", _PARTS)
    days = f"{column_letter(_FIRST_DAY)}{FIRST_HABIT}:{column_letter(_FIRST_DAY + 6)}{last}"
    book.offer(sheet, days, ("x",))


def _in_all(book: Book, number: int) -> str:
    """How often the habit was kept, over all weeks."""
    first = first_week_row(0) + number - 1
    rows = (first + HABIT_ROWS * week for week in range(shown_week_count(book)))
    left, right = column_letter(_FIRST_DAY), column_letter(_FIRST_DAY + 6)
    return "+".join(f"COUNTA({left}{row}:{right}{row})" for row in rows)


def _write_week(book: Book, sheet: Worksheet, number: int) -> None:
    if number == 0:
        book.put(sheet, first_week_row(0) - 2, 2, "Ticks", "section")
        for column, heading in enumerate(_HEADINGS, start=1):
            book.put(sheet, first_week_row(0) - 1, column, heading, "heading")
    monday = planning_facts(book.plan).week_one + timedelta(weeks=number)
    left, right = column_letter(_FIRST_DAY), column_letter(_FIRST_DAY + 6)
    for offset in range(HABIT_ROWS):
        at, habit = first_week_row(number) + offset, FIRST_HABIT + offset
        planned = f"COUNTA(${left}${habit}:${right}${habit})"
        kept = f'IF($C${habit}="","",COUNTA({left}{at}:{right}{at})&IF({planned}=0,""," of "&{planned}))'
        values: tuple[tuple[Value, str], ...] = (
            (f"tick-{monday:%Y%m%d}-{offset + 1}", "hidden"),
            (monday, "date"),
            (Formula(f'IF($C${habit}="","",$C${habit})'), "text"),
            (Formula(f'IF($D${habit}="","",$D${habit})'), "text"),
            *((None, "entry_centre") for _ in _SHORT),
            (Formula(kept), "centre"),
        )
        for column, (value, style) in enumerate(values, start=1):
            book.put(sheet, at, column, value, style)
        sheet.row_dimensions[at].height = _TICK_HEIGHT if offset else _WEEK_HEIGHT
    first, last = first_week_row(number), first_week_row(number) + HABIT_ROWS - 1
    book.offer(sheet, f"{left}{first}:{right}{last}", ("x",))
    # Written for the first row of the week: the row of the habit moves along with it.
    rule = f'AND(INDEX($C:$C,ROW()-{first - FIRST_HABIT})<>"",INDEX({left}:{left},ROW()-{first - FIRST_HABIT})="x")'
    book.mark_where(sheet, f"{left}{first}:{right}{last}", rule, book.look.good)
