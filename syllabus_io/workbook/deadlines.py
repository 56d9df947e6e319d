"""Deadlines: everything due in date order, across courses; live, also for rows that the user adds to Review."""

from __future__ import annotations

from datetime import time
from typing import TYPE_CHECKING

from syllabus_io.plan.clashes import BUSY_COUNT
from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.formulas import column_value, nth_smallest_row
from syllabus_io.workbook.layout import DEADLINES, DEADLINES_TABLE, KINDS, REVIEW, REVIEW_TABLE, Name, column_letter
from syllabus_io.workbook.review import last_review_row, review_column

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_deadlines"]

_TABLE = DEADLINES_TABLE
_STYLES = {
    "source": "hidden",
    "used": "date",
    "time": "time",
    "left": "left_days",
    "course": "text",
    "kind": "text",
    "title": "strong",
    "start": "date",
    "until": "date",
    "state": "text",
}
_OVERDUE_DAYS = 14  # longer ago, work that was not ticked is only called past
_NUMBERS = {"used", "time", "weight", "start", "until"}


def write_deadlines(book: Book) -> None:
    """Adds the sheet: what to show, and a row for each row of Review."""
    sheet = book.add_sheet(DEADLINES)
    count = last_review_row(book) - REVIEW_TABLE.heading_row
    last = _TABLE.heading_row + count
    _write_top(book, sheet)
    heights = list_heights(book, count, [_TABLE.width("title")])
    for number, column in enumerate(_TABLE.columns, start=1):
        style = weight_style(book) if column.key == "weight" else _STYLES[column.key]
        formula = Formula(_cell_formula(book, column.key, _TABLE.first_row))
        book.fill(sheet, _TABLE.first_row, number, count, formula, style)
    for at in range(_TABLE.first_row, last + 1):
        sheet.row_dimensions[at].height = heights[at - _TABLE.first_row]
    _mark_states(book, sheet, last)
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{_TABLE.first_row}"
    filled = _TABLE.heading_row + sum(row.read is not None for row in book.rows)
    printed = book.set_print_list(sheet, _TABLE.number("until"), (filled, last), _TABLE.heading_row)
    _write_not_printed(book, sheet, printed)


def _write_not_printed(book: Book, sheet: Worksheet, printed: int) -> None:
    """A line that says so when more is due than the print area holds."""
    room = printed - _TABLE.heading_row
    count = f"COUNT({review_column(book, 'key_shown')})"
    words = f'IF({count}>{room},{count}-{room}&" more rows than are set to print: widen the print area.","")'
    first, last = _TABLE.number("title"), _TABLE.number("kind")
    book.put(sheet, 5, first, Formula(words), "note")
    sheet.merge_cells(start_row=5, start_column=first, end_row=5, end_column=last)


def weight_style(book: Book) -> str:
    """Percent to one place where some weight needs it, else whole percent."""
    fine = any(row.weight is not None and abs(row.weight * 100 - round(row.weight * 100)) > 1e-9 for row in book.rows)
    return "percent_fine_centre" if fine else "percent_centre"


def list_heights(book: Book, count: int, widths: list[float]) -> list[float]:
    """Row heights of a list that formulas keep in order: enough for the titles in their first order, and for two lines
    everywhere when some title needs them, since titles move."""
    dated = sorted((row for row in book.rows if row.read), key=lambda row: (row.read, row.time or time.max))
    own = [row_height([(row.title, widths[0])], bold=True, least=18) for row in dated]
    two_lines = row_height([("a\nb", widths[0])])
    least = min(two_lines, max([18.0, *own]))
    return [max(least, own[number]) if number < len(own) else 18.0 for number in range(count)]


def _write_top(book: Book, sheet: Worksheet) -> None:
    first = _TABLE.number("used")
    last = len(_TABLE.columns)
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
        cell = f"{column_letter(first + 1)}{row}"
        book.name(name, DEADLINES, cell)
        book.offer(sheet, cell, source)
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 30


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
    """One word on each row, the most pressing: done, check date, overdue or past, two exams, busy days."""
    flag = f"INDEX({review_column(book, 'flag')},{source})"
    done = f"INDEX({review_column(book, 'done')},{source})"
    days, kinds = review_column(book, "used"), review_column(book, "kind")
    kind = f"INDEX({kinds},{source})"
    same_day = f'COUNTIFS({days},{used},{kinds},"exam")'
    until = f"N(INDEX({review_column(book, 'until')},{source}))"

    big = review_column(book, "big")

    def count(first: str, last: str) -> str:
        return f'SUMIFS({big},{days},">="&{first},{days},"<="&{last})'

    handed_in = f'OR({kind}="assignment",{kind}="project")'
    past = f'IF(AND({handed_in},{used}>={Name.TODAY}-{_OVERDUE_DAYS}),"overdue","past")'
    crowded = f"OR({count(used, f'({used}+1)')}>={BUSY_COUNT},{count(f'({used}-1)', used)}>={BUSY_COUNT})"
    busy = f"IF(INDEX({big},{source})=1,{crowded},FALSE)"
    return (
        f'IF({source}="","",IF({done}<>"","done",IF(OR({flag}="check",{flag}="not a date"),"check date",'
        f"IF(AND({used}<{Name.TODAY},{until}<{Name.TODAY}),{past},"
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
    row = f"{_TABLE.letter('title')}{first}:{_TABLE.letter('until')}{last}"
    book.mark_where(sheet, row, f'OR({state}="done",{state}="past")', look.quiet)
    course = _TABLE.letter("course")
    book.colour_courses(sheet, f"{course}{first}:{course}{last}", _TABLE.cell("course", first))
