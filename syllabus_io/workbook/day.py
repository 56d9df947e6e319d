"""Day: a chosen day by the hour, tasks in order of what matters, calls and messages, room to jot.
Twin: ``plan.day_pages``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.hour_cells import HELPER_COLUMNS, HourColumn, write_hour_cells
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import DAY, TO_DO, PlanName
from syllabus_io.workbook.month import day_note_formula
from syllabus_io.workbook.pages import Sheaf
from syllabus_io.workbook.spans import join_cells
from syllabus_io.workbook.text_formulas import cut_words, day_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_ROW", "HOUR_ROWS", "TASK_ROWS", "write_day"]

FIRST_ROW = 4
HOUR_ROWS = 18
TASK_ROWS = 14
_CALL_ROWS = 5
_NOTE_ROWS = 3
_LINES = 7
_FIRST_HOUR = 6
_TIME, _PLAN, _GAP, _TICK, _WHAT = 1, 2, 3, 4, 5
_HELPER = 7
_DONE_CHARACTERS = 92


def write_day(book: Book) -> None:
    """Adds the sheet and defines the names of the chosen day."""
    sheet = book.add_sheet(DAY)
    _write_top(book, sheet)
    _write_hours(book, sheet)
    row = _write_tasks(book, sheet)
    row = _write_calls(book, sheet, row)
    end = _write_notes(book, sheet, max(row, FIRST_ROW + HOUR_ROWS))
    _set_form(book, sheet, end)


def _set_form(book: Book, sheet: Worksheet, end: int) -> None:
    across, down = Sheaf(book.options.paper, False).room
    what = (across - 61 - 201 - 14 - 26 - 5) / 7 - 0.1
    hidden = tuple(range(_HELPER - 1, _HELPER + HELPER_COLUMNS))
    book.set_widths(sheet, [8.0, 28.0, 1.3, 3.0, what, *[6.0] * len(hidden)], hidden)
    height = (down * 0.975 - 26 - 18 - 18) / (end - FIRST_ROW + 1)
    for at in range(FIRST_ROW, end + 1):
        sheet.row_dimensions[at].height = height
    for row, own in ((1, 26.0), (2, 18.0), (3, 18.0)):
        sheet.row_dimensions[row].height = own
    book.set_print(sheet, f"A1:{column_letter(_WHAT)}{end}", one_page=True)


def _write_top(book: Book, sheet: Worksheet) -> None:
    shown = PlanName.DAY_SHOWN
    weekday = f'MID("MonTueWedThuFriSatSun",3*WEEKDAY({shown},2)-2,3)'
    book.put(sheet, 1, 1, Formula(f'{day_words(shown)}&" "&YEAR({shown})'), "title")
    sheet.merge_cells(start_row=1, start_column=1, end_row=1, end_column=_WHAT)
    book.put(sheet, 2, 1, "Day", "note")
    book.put(sheet, 2, 2, None, "entry_date")
    book.put(sheet, 2, 4, "Type the day to show; blank shows today.", "note")
    sheet.merge_cells(start_row=2, start_column=4, end_row=2, end_column=5)
    book.name(PlanName.DAY_CHOSEN, DAY, "B2")
    book.accept_dates(sheet, "B2")
    chosen = f"IF(ISNUMBER({PlanName.DAY_CHOSEN}),INT({PlanName.DAY_CHOSEN}),{Name.TODAY})"
    letter = column_letter(_HELPER)
    book.put(sheet, 1, _HELPER, Formula(chosen), "hidden_date")
    book.name(PlanName.DAY_SHOWN, DAY, f"{letter}1")
    book.put(sheet, 3, _TIME, _FIRST_HOUR, "entry_whole").number_format = '"from "0'
    book.name(PlanName.DAY_FIRST_HOUR, DAY, "A3")
    book.accept_numbers(sheet, "A3", 0, 24 - HOUR_ROWS)
    book.put(sheet, 3, _PLAN, Formula(f'{weekday}&" "&{day_note_formula(book, shown)}'), "heading")
    book.put(sheet, 3, _TICK, "What to do, in order of what matters", "heading")
    book.put(sheet, 3, _WHAT, None, "heading")
    sheet.merge_cells(start_row=3, start_column=_TICK, end_row=3, end_column=_WHAT)


def _write_hours(book: Book, sheet: Worksheet) -> None:
    for offset in range(HOUR_ROWS):
        clock = f"MOD((N({PlanName.DAY_FIRST_HOUR})+ROW()-{FIRST_ROW})/24,1)"
        book.put(sheet, FIRST_ROW + offset, _TIME, Formula(clock), "small_time")
    rows = (FIRST_ROW, HOUR_ROWS)
    write_hour_cells(book, sheet, HourColumn(8, PlanName.DAY_SHOWN, PlanName.DAY_FIRST_HOUR, rows, _PLAN, _HELPER))


def _write_tasks(book: Book, sheet: Worksheet) -> int:
    """What to do; returns the row after it."""
    keys = PlanName.AGENDA_TASK_KEYS
    for number in range(1, TASK_ROWS + 1):
        at = FIRST_ROW + number - 1
        place = f"MATCH(SMALL({keys},{number}),{keys},0)"
        day, hours = f"INDEX({PlanName.AGENDA_DAY},{place})", f"INDEX({PlanName.AGENDA_HOURS},{place})"
        when = f'IF({day}={PlanName.DAY_SHOWN},"",IF({day}>{PlanName.DAY_SHOWN},", on ",", since ")&{day_words(day)})'
        length = f'IF({hours}>0,", "&ROUND({hours},1)&" h","")'
        what = f"INDEX({PlanName.AGENDA_WHAT},{place})"
        words = f'IF(COUNT({keys})<{number},"",{cut_words(what, str(_DONE_CHARACTERS))}&{when}&{length})'
        book.put(sheet, at, _TICK, Formula(f'IF(COUNT({keys})<{number},"","□")'), "centre")
        book.put(sheet, at, _WHAT, Formula(words), "small_task")
    at = FIRST_ROW + TASK_ROWS
    more = f'IF(COUNT({keys})>{TASK_ROWS},"+"&COUNT({keys})-{TASK_ROWS}&" more: see Agenda","")'
    book.put(sheet, at, _WHAT, Formula(more), "small_note")
    return at + 1


def _write_calls(book: Book, sheet: Worksheet, row: int) -> int:
    """Calls and messages of the day, and those not made since; returns the row after them."""
    keys = PlanName.CALL_KEYS
    book.put(sheet, row, _TICK, "Calls and messages", "heading")
    book.put(sheet, row, _WHAT, None, "heading")
    sheet.merge_cells(start_row=row, start_column=_TICK, end_row=row, end_column=_WHAT)
    for number in range(1, _CALL_ROWS + 1):
        at = row + number
        place = f"MATCH(SMALL({keys},{number}),{keys},0)"
        who = f"INDEX({PlanName.TO_DO_WHO},{place})"
        sort = f'IF(INDEX({PlanName.TO_DO_SORT},{place})="call","Call: ","Write: ")'
        words = f'{sort}&INDEX({PlanName.TO_DO_WHAT},{place})&IF({who}="",""," ("&{who}&")")'
        shown = f'IF(COUNT({keys})<{number},"",{cut_words(words, str(_DONE_CHARACTERS))})'
        book.put(sheet, at, _TICK, Formula(f'IF(COUNT({keys})<{number},"","□")'), "centre")
        book.put(sheet, at, _WHAT, Formula(shown), "small_task")
    return row + _CALL_ROWS + 1


def _write_notes(book: Book, sheet: Worksheet, row: int) -> int:
    """Notes of the day from To do, then empty lines; returns the last row."""
    keys = PlanName.NOTE_KEYS
    book.put(sheet, row, 1, f"Room to jot (notes typed on {TO_DO} stand first)", "line_label")
    for number in range(1, _LINES + 1):
        at = row + number
        words = f"INDEX({PlanName.TO_DO_WHAT},MATCH(SMALL({keys},{number}),{keys},0))"
        value = Formula(f'IF(COUNT({keys})<{number},"",{words})') if number <= _NOTE_ROWS else None
        for column in range(1, _WHAT + 1):
            book.put(sheet, at, column, value if column == 1 else None, "small_line")
        join_cells(sheet, at, (1, _WHAT))
    return row + _LINES
