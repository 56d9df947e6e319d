"""Commitments: practice, work and whatever else is fixed, and the days that are kept free; typed by the user."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.layout_plan import COMMITMENTS, COMMITMENTS_TABLE, PlanName

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["COMMITMENT_ROWS", "WEEKDAY_WORDS", "write_commitments"]

COMMITMENT_ROWS = 60
_KEPT_ROWS = 12
_TABLE = COMMITMENTS_TABLE
WEEKDAY_WORDS = (
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
    "weekdays",
    "every day",
)
_SHORT = ("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su")
_KEPT = 11  # the column in which the days kept free begin
_FAR = 1_000_000


def write_commitments(book: Book) -> None:
    """Adds the sheet: the table of commitments, and to its right the days kept free."""
    sheet = book.add_sheet(COMMITMENTS)
    end = _KEPT + len(_SHORT) - 1
    book.head(
        sheet,
        COMMITMENTS,
        "Practice, work, travel: they show on Week and Day, and study is planned around them.",
        len(_TABLE.columns),
    )
    _write_table(book, sheet)
    _write_kept(book, sheet)
    widths = [column.width for column in _TABLE.columns] + [3.0, 22.0, 17.0, 17.0, *[5.0] * (len(_SHORT) - 3)]
    hidden = (*(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden), end + 1)
    book.set_widths(sheet, [*widths, 9.0], hidden)
    sheet.freeze_panes = f"A{_TABLE.first_row}"
    book.set_print_list(sheet, end, (_TABLE.first_row + _KEPT_ROWS, _last_row()), _TABLE.heading_row)


def _last_row() -> int:
    return _TABLE.heading_row + COMMITMENT_ROWS


def _write_table(book: Book, sheet: Worksheet) -> None:
    first, last = _TABLE.first_row, _last_row()
    how = (
        "A weekday repeats every week, from and until a day where one is given. Without a weekday it is on the day "
        "under From, or on each day to Until."
    )
    book.put(sheet, 3, 1, how, "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=4, end_column=_TABLE.number("end"))
    styles = ("entry_text", "entry_centre", "entry_date", "entry_date", "entry_time", "entry_time")
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
        for at in range(first, last + 1):
            if column.hidden:
                book.put(sheet, at, number, Formula(_computed(column.key, at)), "hidden")
            else:
                book.put(sheet, at, number, None, styles[number - 1])
    for key, name in (
        ("what", PlanName.COMMIT_WHAT),
        ("start", PlanName.COMMIT_STARTS),
        ("end", PlanName.COMMIT_ENDS),
        ("code", PlanName.COMMIT_CODES),
        ("from", PlanName.COMMIT_FIRST),
        ("to", PlanName.COMMIT_LAST),
    ):
        book.name(name, COMMITMENTS, f"{_TABLE.letter(key)}{first}", f"{_TABLE.letter(key)}{last}")
    book.offer(sheet, f"B{first}:B{last}", WEEKDAY_WORDS)
    book.accept_dates(sheet, f"C{first}:D{last}")
    start, end = _TABLE.cell("start", first), _TABLE.cell("end", first)
    book.mark_where(sheet, f"F{first}:F{last}", f"AND(ISNUMBER({end}),{end}<={start})", book.look.warning, bold=True)


def _computed(key: str, at: int) -> str:
    """The weekday as a number (8 weekdays, 9 every day, 0 none), and the first and last day that count."""
    weekday, first, last = (_TABLE.cell(one, at) for one in ("weekday", "first", "last"))
    code = _TABLE.cell("code", at)
    if key == "code":
        return f'IF({weekday}="",0,IFERROR(MATCH({weekday},{PlanName.WEEKDAY_CHOICES},0),0))'
    if key == "from":
        return f"IF(ISNUMBER({first}),{first},IF({code}>0,0,{_FAR}))"
    by_date = f"IF(ISNUMBER({first}),IF(ISNUMBER({last}),MAX({first},{last}),{first}),0)"
    return f"IF({code}>0,IF(ISNUMBER({last}),{last},{_FAR}),{by_date})"


def _write_kept(book: Book, sheet: Worksheet) -> None:
    """The weekdays and days without study, and a hidden column with their last day."""
    row = 3
    book.put(sheet, row, _KEPT, "Days kept free: no study is planned on them", "line_label")
    for offset, word in enumerate(_SHORT):
        book.put(sheet, row + 1, _KEPT + offset, word, "heading_centre")
        book.put(sheet, row + 2, _KEPT + offset, None, "entry_centre")
    marks = f"{column_letter(_KEPT)}{row + 2}"
    last_mark = f"{column_letter(_KEPT + len(_SHORT) - 1)}{row + 2}"
    book.name(PlanName.KEPT_WEEKDAYS, COMMITMENTS, marks, last_mark)
    book.offer(sheet, f"{marks}:{last_mark}", ("x",))
    for offset, word in enumerate(("Why", "First day", "Last day")):
        book.put(sheet, _TABLE.heading_row, _KEPT + offset, word, "heading")
    first, last = _TABLE.first_row, _TABLE.heading_row + _KEPT_ROWS
    helper = _KEPT + len(_SHORT)
    one, other = column_letter(_KEPT + 1), column_letter(_KEPT + 2)
    for at in range(first, last + 1):
        for offset, style in enumerate(("entry_text", "entry_date", "entry_date")):
            book.put(sheet, at, _KEPT + offset, None, style)
        until = f'IF(ISNUMBER(${one}{at}),IF(ISNUMBER(${other}{at}),MAX(${one}{at},${other}{at}),${one}{at}),"")'
        book.put(sheet, at, helper, Formula(until), "hidden")
    book.accept_dates(sheet, f"{one}{first}:{other}{last}")
    book.name(PlanName.KEPT_FIRST, COMMITMENTS, f"{one}{first}", f"{one}{last}")
    book.name(PlanName.KEPT_UNTIL, COMMITMENTS, f"{column_letter(helper)}{first}", f"{column_letter(helper)}{last}")
