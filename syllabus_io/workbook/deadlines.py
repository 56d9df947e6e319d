"""Deadlines: everything due in date order, across courses; live, also for rows that the user adds to Review."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.formulas import column_value, nth_smallest_row
from syllabus_io.workbook.layout import DEADLINES, DEADLINES_TABLE, KINDS, REVIEW, Name
from syllabus_io.workbook.review import last_review_row, review_column

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_deadlines"]

_TABLE = DEADLINES_TABLE
_STYLES = {
    "source": "hidden",
    "used": "date",
    "time": "time",
    "left": "whole",
    "course": "text",
    "kind": "text",
    "title": "strong",
    "weight": "percent",
    "start": "date",
    "until": "date",
    "state": "text",
}
_NUMBERS = {"used", "time", "weight", "start", "until"}
DAYS_LEFT = '0;-0;"today"'


def write_deadlines(book: Book) -> None:
    """Adds the sheet: what to show, and a row for each row of Review."""
    sheet = book.add_sheet(DEADLINES)
    count = last_review_row(book) - _heading_of_review()
    last = _TABLE.heading_row + count
    _write_top(book, sheet)
    for at in range(_TABLE.first_row, last + 1):
        for number, column in enumerate(_TABLE.columns, start=1):
            formula = Formula(_cell_formula(book, column.key, at))
            cell = book.put(sheet, at, number, formula, _STYLES[column.key])
            if column.key == "left":
                cell.number_format = DAYS_LEFT
        sheet.row_dimensions[at].height = 18
    _mark_states(book, sheet, last)
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{_TABLE.first_row}"
    repeat = f"{_TABLE.heading_row}:{_TABLE.heading_row}"
    book.set_print(sheet, f"A1:{_TABLE.letter('state')}{last}", landscape=True, repeat_rows=repeat)


def _heading_of_review() -> int:
    from syllabus_io.workbook.layout import REVIEW_TABLE

    return REVIEW_TABLE.heading_row


def _write_top(book: Book, sheet: Worksheet) -> None:
    first = _TABLE.number("used")
    last = _TABLE.number("state")
    book.put(sheet, 1, first, "Deadlines", "title")
    sheet.row_dimensions[1].height = 28
    how = "Everything due, in date order, kept by formulas. Dates are corrected, added and ticked as done on Review."
    book.put(sheet, 2, first, how, "note")
    sheet.merge_cells(start_row=2, start_column=first, end_row=2, end_column=last - 1)
    book.put_link(sheet, 2, last, "To Review", f"'{REVIEW}'!A1", "free_link")
    choices: tuple[tuple[str, str, str, str | tuple[str, ...]], ...] = (
        ("Show course", Name.SHOW_COURSE, "All", Name.COURSE_CHOICES),
        ("Show kind", Name.SHOW_KIND, "All", ("All", "All but reading", *KINDS)),
        ("Show what is done", Name.SHOW_DONE, "yes", ("yes", "no")),
    )
    for row, (label, name, value, source) in enumerate(choices, start=3):
        book.put(sheet, row, first, label, "label")
        book.put(sheet, row, first + 1, value, "entry_text")
        sheet.merge_cells(start_row=row, start_column=first + 1, end_row=row, end_column=first + 2)
        cell = f"{'ABCDEFGH'[first]}{row}"
        book.name(name, DEADLINES, cell)
        book.offer(sheet, cell, source)
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 20


def _cell_formula(book: Book, key: str, at: int) -> str:
    source = _TABLE.cell("source", at)
    if key == "source":
        first = f"A${_TABLE.first_row}"
        return nth_smallest_row(review_column(book, "key_shown"), f"ROWS({first}:A{at})")
    used = _TABLE.cell("used", at)
    if key == "left":
        return f'IF({source}="","",{used}-{Name.TODAY})'
    if key == "state":
        return _state_formula(book, source, used)
    return column_value(source, review_column(book, key), number=key in _NUMBERS)


def _state_formula(book: Book, source: str, used: str) -> str:
    """One word on each row, the most pressing: done, check date, overdue, two exams, busy."""
    flag = f"INDEX({review_column(book, 'flag')},{source})"
    done = f"INDEX({review_column(book, 'done')},{source})"
    days, kinds = review_column(book, "used"), review_column(book, "kind")
    same_day = f'COUNTIFS({days},{used},{kinds},"exam")'
    until = f"N(INDEX({review_column(book, 'until')},{source}))"

    def graded(first: str, last: str) -> str:
        window = f'{days},">="&{first},{days},"<="&{last}'
        return f'COUNTIFS({window})-COUNTIFS({window},{kinds},"reading")'

    busy = f"OR({graded(used, f'({used}+1)')}>=3,{graded(f'({used}-1)', used)}>=3)"
    return (
        f'IF({source}="","",IF({done}<>"","done",IF(OR({flag}="check",{flag}="not a date"),"check date",'
        f'IF(AND({used}<{Name.TODAY},{until}<{Name.TODAY}),"overdue",'
        f'IF({same_day}>=2,"two exams",IF({busy},"busy days",""))))))'
    )


def _mark_states(book: Book, sheet: Worksheet, last: int) -> None:
    first = _TABLE.first_row
    state = _TABLE.cell("state", first)
    cells = f"{_TABLE.letter('state')}{first}:{_TABLE.letter('state')}{last}"
    look = book.look
    book.mark_where(
        sheet, cells, f'OR({state}="check date",{state}="overdue",{state}="two exams")', look.warning, bold=True
    )
    book.mark_where(sheet, cells, f'{state}="done"', look.good)
    row = f"{_TABLE.letter('used')}{first}:{_TABLE.letter('until')}{last}"
    book.mark_where(sheet, row, f'{state}="done"', look.quiet)
    course = _TABLE.letter("course")
    book.colour_courses(sheet, f"{course}{first}:{course}{last}", _TABLE.cell("course", first))
