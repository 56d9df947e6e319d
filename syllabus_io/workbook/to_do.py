"""To do: own tasks, calls, messages, aims of a week and notes, each with its day; typed by the user, shown on Week, Day
and Month."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout_plan import TO_DO, TO_DO_TABLE, PlanName

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["TO_DO_ROWS", "write_to_do"]

TO_DO_ROWS = 60
_TABLE = TO_DO_TABLE
_SORTS = ("task", "call", "message", "aim", "note")
_STYLES = {
    "id": "hidden",
    "day": "entry_date",
    "sort": "entry_centre",
    "what": "entry_text",
    "who": "entry_text",
    "matters": "entry_whole",
    "done": "entry_centre",
}


def write_to_do(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(TO_DO)
    first, last = _TABLE.first_row, _TABLE.heading_row + TO_DO_ROWS
    second = _TABLE.number("day")
    book.put(sheet, 1, second, TO_DO, "title")
    sheet.row_dimensions[1].height = 28
    how = (
        "One row for each: a task, a call or a message on its day, an aim of the week in which its day lies, or a note "
        "for that day. They show on Day, Week and Month, and stay here."
    )
    book.put(sheet, 2, second, how, "note")
    sheet.merge_cells(start_row=2, start_column=second, end_row=3, end_column=_TABLE.number("done"))
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 32
    for at in range(first, last + 1):
        _write_row(book, sheet, at)
    book.accept_dates(sheet, f"B{first}:B{last}")
    book.offer(sheet, f"C{first}:C{last}", _SORTS)
    book.offer(sheet, f"F{first}:F{last}", ("1", "2", "3"))
    book.offer(sheet, f"G{first}:G{last}", ("done",))
    for key, name in (
        ("sort", PlanName.TO_DO_SORT),
        ("what", PlanName.TO_DO_WHAT),
        ("who", PlanName.TO_DO_WHO),
        ("call_key", PlanName.CALL_KEYS),
        ("aim_key", PlanName.AIM_KEYS),
        ("note_key", PlanName.NOTE_KEYS),
        ("week_note_key", PlanName.WEEK_NOTE_KEYS),
    ):
        book.name(name, TO_DO, f"{_TABLE.letter(key)}{first}", f"{_TABLE.letter(key)}{last}")
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{first}"
    book.set_print_list(sheet, _TABLE.number("done"), (first, last), _TABLE.heading_row, landscape=False)


def _write_row(book: Book, sheet: Worksheet, at: int) -> None:
    formulas = _keys(at)
    for number, column in enumerate(_TABLE.columns, start=1):
        if column.key == "id":
            book.put(sheet, at, number, f"todo-{at - _TABLE.heading_row:03}", "hidden")
        elif column.hidden:
            book.put(sheet, at, number, Formula(formulas[column.key]), "hidden")
        else:
            book.put(sheet, at, number, None, _STYLES[column.key])


def _keys(at: int) -> dict[str, str]:
    """Numbers that put the rows that a page shows in order; "" for the others. What matters most comes first."""
    day, sort, done = (_TABLE.cell(key, at) for key in ("day", "sort", "done"))
    matters = f"IF(ISNUMBER({_TABLE.cell('matters', at)}),{_TABLE.cell('matters', at)},3)"
    open_call = (
        f'AND(ISNUMBER({day}),OR({sort}="call",{sort}="message"),{done}="",N({day})<={PlanName.DAY_SHOWN},'
        f"N({day})>{PlanName.DAY_SHOWN}-14)"
    )
    in_week = f"N({day})>={PlanName.WEEK_MONDAY},N({day})<={PlanName.WEEK_MONDAY}+6"
    aim = f'AND(ISNUMBER({day}),{sort}="aim",{in_week})'
    note = f'AND(ISNUMBER({day}),{sort}="note",N({day})={PlanName.DAY_SHOWN})'
    week_note = f'AND(ISNUMBER({day}),{sort}="note",{in_week})'
    tail = "+ROW()/100000"
    return {
        "call_key": f'IF({open_call},{matters}{tail},"")',
        "aim_key": f'IF({aim},{matters}{tail},"")',
        "note_key": f'IF({note},{matters}{tail},"")',
        "week_note_key": f'IF({week_note},{day}{tail},"")',
    }
