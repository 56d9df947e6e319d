"""Agenda: everything that stands on a day, day by day, in order of what matters; and the words of the boxes of Month
and Week. Twin: ``plan.agenda``."""

from __future__ import annotations

from syllabus_io.plan.agenda import MONTH_BOX, SEE_MORE, WEEK_BOX, Box
from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.agenda_data import agenda_row_count
from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.exams import exam_row_count
from syllabus_io.workbook.formulas import column_value, nth_smallest_row
from syllabus_io.workbook.layout import Column, TableLayout
from syllabus_io.workbook.layout_plan import AGENDA, PlanName
from syllabus_io.workbook.text_formulas import cut_words

__all__ = ["AGENDA_TABLE", "write_agenda"]

AGENDA_TABLE = TableLayout(
    AGENDA,
    4,
    (
        Column("source", "Row of Agenda data", 8, hidden=True),
        Column("day", "Day", 17),
        Column("what", "What", 62),
        Column("hours", "Hours", 8),
        Column("sort", "Sort", 12),
        Column("place", "Place in its day", 8, hidden=True),
        Column("count", "Things on its day", 8, hidden=True),
        Column("month_text", "Words of the box on Month", 10, hidden=True),
        Column("week_text", "Words of the box on Week", 10, hidden=True),
    ),
)
_TABLE = AGENDA_TABLE
_STYLES = {"day": "date", "what": "text", "hours": "number", "sort": "text"}


def write_agenda(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(AGENDA)
    second = _TABLE.number("day")
    book.put(sheet, 1, second, AGENDA, "title")
    sheet.row_dimensions[1].height = 28
    how = "Day by day: what is due, steps of projects, study sessions, your own tasks. Month and Week show the same."
    book.put(sheet, 2, second, how, "note")
    sheet.merge_cells(start_row=2, start_column=second, end_row=2, end_column=_TABLE.number("sort"))
    first, last = _TABLE.first_row, _TABLE.heading_row + agenda_row_count(book)
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    for number, column in enumerate(_TABLE.columns, start=1):
        formula = Formula(_formula(column.key, first))
        book.fill(sheet, first, number, last - first + 1, formula, _STYLES.get(column.key, "hidden"))
    height = row_height([("a", 9.0)], least=16)
    for at in range(first, last + 1):
        sheet.row_dimensions[at].height = height
    for key, name in (("month_text", PlanName.AGENDA_MONTH_TEXT), ("week_text", PlanName.AGENDA_WEEK_TEXT)):
        book.name(name, AGENDA, f"{_TABLE.letter(key)}{first}", f"{_TABLE.letter(key)}{last}")
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{first}"
    filled = sum(row.read is not None for row in book.rows) + exam_row_count(book) * MOST_SESSIONS
    end = min(last, _TABLE.heading_row + filled)
    book.set_print_list(sheet, _TABLE.number("sort"), (end, last), _TABLE.heading_row, landscape=False)


def _formula(key: str, at: int) -> str:
    def cell(name: str, row: int = at) -> str:
        return _TABLE.cell(name, row)

    source, day, place, count = cell("source"), cell("day"), cell("place"), cell("count")
    if key == "source":
        return nth_smallest_row(PlanName.AGENDA_KEYS, f"ROWS(A${_TABLE.first_row}:A{at})")
    if key == "place":
        return f'IF({source}="","",IF({cell("day", at - 1)}={day},N({cell("place", at - 1)})+1,1))'
    if key == "count":
        return f'IF({source}="","",COUNTIF({PlanName.AGENDA_DAY},{day}))'
    for box, lengths in ((MONTH_BOX, PlanName.MONTH_LENGTHS), (WEEK_BOX, PlanName.WEEK_LENGTHS)):
        if key == {MONTH_BOX: "month_text", WEEK_BOX: "week_text"}[box]:
            above, length = cell(key, at - 1), f"INDEX({lengths},MIN({count},{box.lines}))"
            return _box_text(cell("what"), (above, length), (source, place, count), box)
    if key == "hours":
        hours = f"INDEX({PlanName.AGENDA_HOURS},{source})"
        return f'IF({source}="","",IF({hours}>0,{hours},""))'
    columns = {"day": PlanName.AGENDA_DAY, "what": PlanName.AGENDA_WHAT, "sort": PlanName.AGENDA_SORT}
    return column_value(source, columns[key], number=key == "day")


def _box_text(what: str, form: tuple[str, str], cells: tuple[str, str, str], box: Box) -> str:
    """The words of the box up to this thing; complete on the last thing of the day."""
    source, place, count = cells
    above, length = form
    shown = f"IF({count}>{box.lines},{box.lines - 1},{count})"
    so_far = f'IF({place}=1,"",{above}&CHAR(10))'
    more = f'IF(AND({place}={count},{count}>{shown}),CHAR(10)&"+"&({count}-{shown})&"{SEE_MORE}","")'
    return f'IF({source}="","",IF({place}<={shown},{so_far}&{cut_words(what, length)},{above}&{more}))'
