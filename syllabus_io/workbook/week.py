"""Week: a chosen week by the hour over two facing pages: classes, commitments, study, what is due, aims."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.hour_cells import HELPER_COLUMNS, HourColumn, write_hour_cells
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import TO_DO, WEEK, PlanName
from syllabus_io.workbook.month import day_note_formula
from syllabus_io.workbook.pages import PAPER_SIZES
from syllabus_io.workbook.spans import join_cells
from syllabus_io.workbook.text_formulas import cut_words, day_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["BAND_ROW", "DAY_COLUMNS", "FIRST_HOUR_ROW", "HOUR_ROWS", "write_week"]

BAND_ROW, FIRST_HOUR_ROW = 4, 5
HOUR_ROWS = 16
_JOT_LINES = 6
_AIM_ROWS = 8
DAY_COLUMNS = (2, 3, 4, 8, 9, 10, 11)
"""The columns of Monday to Sunday: three on the left page, four on the right."""
_LEFT, _AIMS, _GAP, _RIGHT = 1, 5, 6, 7
_HELPERS = 13  # hidden columns from here, some for each day
_SIDE = 0.95  # inches on both sides, since either page can be the one with the holes on its right
_FIRST_HOUR = 7


def write_week(book: Book) -> None:
    """Adds the sheet and defines the names of the chosen week."""
    sheet = book.add_sheet(WEEK)
    end = FIRST_HOUR_ROW + HOUR_ROWS + _JOT_LINES
    _write_top(book, sheet)
    for number, column in enumerate(DAY_COLUMNS, start=1):
        _write_day(book, sheet, number, column)
    for column in (_LEFT, _RIGHT):
        for offset in range(HOUR_ROWS):
            clock = f"MOD((N({PlanName.WEEK_FIRST_HOUR})+ROW()-{FIRST_HOUR_ROW})/24,1)"
            book.put(sheet, FIRST_HOUR_ROW + offset, column, Formula(clock), "small_time")
        book.put(sheet, BAND_ROW, column, "Due and planned", "small_note")
        book.put(sheet, BAND_ROW - 1, column, None, "small_head")
    _write_aims(book, sheet)
    _write_jot(book, sheet, end)
    _set_form(book, sheet, end)


def _set_form(book: Book, sheet: Worksheet, end: int) -> None:
    across, down = PAPER_SIZES[book.options.paper]
    width = ((across - 2 * _SIDE) * 96 - 54) / 4
    day = (width - 5) / 7 - 0.05
    hidden = tuple(range(_HELPERS - 1, _HELPERS + HELPER_COLUMNS * len(DAY_COLUMNS)))
    widths = [7.2, day, day, day, day, 1.6, 7.2, day, day, day, day]
    book.set_widths(sheet, [*widths, *[4.0] * len(hidden)], hidden)
    room = (down - 1.5) * 72 * 0.975
    fixed = {1: 26.0, 2: 18.0, 3: 18.0, BAND_ROW: 106.0, FIRST_HOUR_ROW + HOUR_ROWS: 18.0}
    fixed |= dict.fromkeys(range(FIRST_HOUR_ROW + HOUR_ROWS + 1, end + 1), 17.0)
    hour = (room - sum(fixed.values())) / HOUR_ROWS
    fixed |= {FIRST_HOUR_ROW + offset: hour for offset in range(HOUR_ROWS)}
    for row, height in fixed.items():
        sheet.row_dimensions[row].height = height
    book.set_print(sheet, f"A1:{column_letter(_AIMS)}{end},{column_letter(_RIGHT)}1:K{end}")
    sheet.page_margins.left = sheet.page_margins.right = _SIDE
    sheet.freeze_panes = f"B{BAND_ROW}"


def _write_top(book: Book, sheet: Worksheet) -> None:
    monday = PlanName.WEEK_MONDAY
    title = f'"Week from "&{day_words(monday)}&" to "&{day_words(f"({monday}+6)")}&" "&YEAR({monday}+6)'
    for column, last in ((_LEFT, _AIMS), (_RIGHT, DAY_COLUMNS[-1])):
        book.put(sheet, 1, column, Formula(title), "title")
        sheet.merge_cells(start_row=1, start_column=column, end_row=1, end_column=last)
    book.put(sheet, 2, 1, "A day of the week to show (blank: this week)", "note")
    sheet.merge_cells(start_row=2, start_column=1, end_row=2, end_column=3)
    book.put(sheet, 2, 4, None, "entry_date")
    book.name(PlanName.WEEK_CHOSEN, WEEK, "D2")
    book.accept_dates(sheet, "D2")
    chosen = f"IF(ISNUMBER({PlanName.WEEK_CHOSEN}),INT({PlanName.WEEK_CHOSEN}),{Name.TODAY})"
    letter = column_letter(_HELPERS - 1)
    book.put(sheet, 1, _HELPERS - 1, Formula(f"{chosen}-WEEKDAY({chosen},2)+1"), "hidden_date")
    book.name(PlanName.WEEK_MONDAY, WEEK, f"{letter}1")
    book.put(sheet, 2, _RIGHT, Formula(_about()), "note")
    sheet.merge_cells(start_row=2, start_column=_RIGHT, end_row=2, end_column=10)
    first = book.put(sheet, 2, 11, _FIRST_HOUR, "entry_whole")
    first.number_format = '"hours from "0'
    book.name(PlanName.WEEK_FIRST_HOUR, WEEK, "K2")
    book.accept_numbers(sheet, "K2", 0, 24 - HOUR_ROWS)


def _about() -> str:
    """The week's number, what is due in it, and what its hours do not show."""
    monday = PlanName.WEEK_MONDAY
    place = f"MATCH({monday},{Name.WEEK_MONDAYS},0)"
    own = f"INDEX({Name.WEEK_NUMBERS},{place})"
    number = f'IFERROR(IF(ISNUMBER({own}),"Week "&{own}&": ",""),"")'
    due = f'COUNTIFS({Name.REVIEW_USED},">="&{monday},{Name.REVIEW_USED},"<="&{monday}+6)'
    first = f"N({PlanName.WEEK_FIRST_HOUR})"
    early = "+".join(
        f'COUNTIFS(BlocksOn_{day},1,{PlanName.BLOCK_HOUR},"<"&{first},{PlanName.BLOCK_ENDS},"<="&60*{first})'
        f'+COUNTIFS(BlocksOn_{day},1,{PlanName.BLOCK_HOUR},">="&({first}+{HOUR_ROWS}))'
        for day in range(1, 8)
    )
    return f'{number}&{due}&" due"&IF(({early})=0,"",". Outside these hours: "&({early})&" classes or commitments")'


def _write_day(book: Book, sheet: Worksheet, number: int, column: int) -> None:
    day = f"({PlanName.WEEK_MONDAY}+{number - 1})"
    weekday = f'MID("MonTueWedThuFriSatSun",{3 * number - 2},3)'
    book.put(sheet, BAND_ROW - 1, column, Formula(f'{weekday}&" "&{day_note_formula(book, day)}'), "small_day")
    last = f'COUNTIF({PlanName.AGENDA_DAY},"<="&{day})'
    words = f'IF(COUNTIF({PlanName.AGENDA_DAY},{day})=0,"",INDEX({PlanName.AGENDA_WEEK_TEXT},{last}))'
    book.put(sheet, BAND_ROW, column, Formula(words), "small")
    helper = _HELPERS + HELPER_COLUMNS * (number - 1)
    rows = (FIRST_HOUR_ROW, HOUR_ROWS)
    write_hour_cells(book, sheet, HourColumn(number, day, PlanName.WEEK_FIRST_HOUR, rows, column, helper))


def _nth(keys: str, number: int) -> str:
    words = f"INDEX({PlanName.TO_DO_WHAT},MATCH(SMALL({keys},{number}),{keys},0))"
    return f'IF(COUNT({keys})<{number},"",{words})'


def _write_aims(book: Book, sheet: Worksheet) -> None:
    """The aims of the week, from To do; lines for more below."""
    book.put(sheet, BAND_ROW - 1, _AIMS, "Aims of the week", "small_day")
    more = f'IF(COUNT({PlanName.AIM_KEYS})>{_AIM_ROWS}," +"&COUNT({PlanName.AIM_KEYS})-{_AIM_ROWS}&" more there","")'
    book.put(
        sheet, BAND_ROW, _AIMS, Formula(f'"Typed on {TO_DO}, as an aim on a day of this week."&{more}'), "small_note"
    )
    for number in range(1, HOUR_ROWS + 1):
        at = FIRST_HOUR_ROW + number - 1
        if number > _AIM_ROWS:
            book.put(sheet, at, _AIMS, None, "small_line")
            continue
        aim = _nth(PlanName.AIM_KEYS, number)
        words = f'IF(COUNT({PlanName.AIM_KEYS})<{number},"","□ "&{cut_words(aim, "44")})'
        book.put(sheet, at, _AIMS, Formula(words), "small")


def _write_jot(book: Book, sheet: Worksheet, end: int) -> None:
    """Notes of the week from To do on the first lines of both pages, then empty lines."""
    top = FIRST_HOUR_ROW + HOUR_ROWS
    for page, (column, last) in enumerate(((_LEFT, _AIMS), (_RIGHT, DAY_COLUMNS[-1]))):
        book.put(sheet, top, column, "Room to jot", "line_label")
        for number, at in enumerate(range(top + 1, end + 1), start=1):
            half = _JOT_LINES // 2
            note = Formula(_nth(PlanName.WEEK_NOTE_KEYS, number + page * half)) if number <= half else None
            book.put(sheet, at, column, note, "small_line")
            for further in range(column + 1, last + 1):
                book.put(sheet, at, further, None, "small_line")
            join_cells(sheet, at, (column, last))
