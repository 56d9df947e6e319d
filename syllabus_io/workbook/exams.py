"""Exams: exams and quizzes in order, with the day to begin and study sessions; live."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.outline.records import Kind
from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.deadlines import weight_style
from syllabus_io.workbook.formulas import column_value, nth_smallest_row, session_count, session_day, sessions_before
from syllabus_io.workbook.layout import EXAMS, EXAMS_TABLE, TERM, Name
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.review import review_column

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["exam_row_count", "write_exams"]

_TABLE = EXAMS_TABLE
_FREE_ROWS = 6
_STYLES = {"source": "hidden", "time": "time", "left": "left_days", "title": "strong"}
_STYLES |= {"before": "hidden", "count": "hidden"}
_STYLES |= {
    "used": "date",
    "start": "date_short",
    **{f"session_{number}": "date_short" for number in range(1, MOST_SESSIONS + 1)},
}
_NUMBERS = {"used", "time", "weight", "start"}


def exam_row_count(book: Book) -> int:
    """Rows of the list, those left free included."""
    return sum(row.kind in {Kind.EXAM, Kind.QUIZ} for row in book.rows) + _FREE_ROWS


def write_exams(book: Book) -> None:
    """Adds the sheet, with room for exams that the user adds."""
    sheet = book.add_sheet(EXAMS)
    count = exam_row_count(book)
    last = _TABLE.heading_row + count
    _write_top(book, sheet, count)
    height = _row_height(book)
    for number, column in enumerate(_TABLE.columns, start=1):
        style = weight_style(book) if column.key == "weight" else _STYLES.get(column.key, "text")
        formula = Formula(_cell_formula(book, column.key, _TABLE.first_row))
        book.fill(sheet, _TABLE.first_row, number, count, formula, style)
    for at in range(_TABLE.first_row, last + 1):
        sheet.row_dimensions[at].height = height
    first = _TABLE.first_row
    watch = _TABLE.cell("watch", first)
    cells = f"{_TABLE.letter('watch')}{first}:{_TABLE.letter('watch')}{last}"
    book.name(Name.EXAM_WATCH, EXAMS, *cells.split(":"))
    rows = f"{first}", f"{last}"
    book.name(PlanName.EXAM_SOURCES, EXAMS, *(f"{_TABLE.letter('source')}{row}" for row in rows))
    ends = (f"{_TABLE.letter('session_1')}{first}", f"{_TABLE.letter(f'session_{MOST_SESSIONS}')}{last}")
    book.name(PlanName.EXAM_SESSIONS, EXAMS, *ends)
    book.mark_where(sheet, cells, f'{watch}<>""', book.look.warning, bold=True)
    course = _TABLE.letter("course")
    book.colour_courses(sheet, f"{course}{first}:{course}{last}", _TABLE.cell("course", first))
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{first}"
    book.set_print_list(sheet, len(_TABLE.columns), (last - _FREE_ROWS, last), _TABLE.heading_row)


def _row_height(book: Book) -> float:
    """One height for all rows, since exams move: enough for the longest title and what an exam covers, up to four
    lines."""
    exams = [row for row in book.rows if row.kind in {Kind.EXAM, Kind.QUIZ}]
    texts = [(row.title, _TABLE.width("title")) for row in exams]
    texts += [(row.covers, _TABLE.width("covers")) for row in exams]
    texts += [(row.course, _TABLE.width("course")) for row in exams]
    return min(row_height(texts, least=20, bold=True), row_height([("a\nb\nc\nd", 9)]))


def _write_top(book: Book, sheet: Worksheet, room: int) -> None:
    first, last = _TABLE.number("used"), len(_TABLE.columns)
    book.put(sheet, 1, first, "Exams and quizzes", "title")
    sheet.row_dimensions[1].height = 28
    how = (
        "In order of date. Study days are a rule of thumb: they begin early, their gaps widen, and they avoid days "
        f"off, days kept free, other exam days and full days; change the settings on {TERM}."
    )
    book.put(sheet, 2, first, how, "note")
    sheet.merge_cells(start_row=2, start_column=first, end_row=2, end_column=last)
    keys = review_column(book, "key_exam")
    more = f'IF(COUNT({keys})>{room},"There are "&COUNT({keys})-{room}&" more than fit here: see Deadlines.","")'
    book.put(sheet, 4, first, Formula(more), "note")
    sheet.merge_cells(start_row=4, start_column=first, end_row=4, end_column=last)
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 32


def _cell_formula(book: Book, key: str, at: int) -> str:
    source, used = _TABLE.cell("source", at), _TABLE.cell("used", at)
    if key == "source":
        return nth_smallest_row(review_column(book, "key_exam"), f"ROWS(A${_TABLE.first_row}:A{at})")
    if key == "left":
        return f'IF({source}="","",{used}-{Name.TODAY})'
    if key == "watch":
        return _watch_formula(book, source, used)
    if key == "before":
        return sessions_before(_TABLE.cell("start", at), used)
    if key == "count":
        return session_count(_TABLE.cell("start", at), used, _TABLE.cell("kind", at), _TABLE.cell("before", at))
    if key.startswith("session_"):
        number = int(key.removeprefix("session_"))
        earlier = _TABLE.cell(f"session_{number - 1}", at) if number > 1 else ""
        return session_day(number, used, _TABLE.cell("before", at), _TABLE.cell("count", at), earlier)
    return column_value(source, review_column(book, key), number=key in _NUMBERS)


def _watch_formula(book: Book, source: str, used: str) -> str:
    """What to watch: a date to check, a second exam on that day, a day off."""
    flag = f"INDEX({review_column(book, 'flag')},{source})"
    exams = f'COUNTIFS({review_column(book, "used")},{used},{review_column(book, "kind")},"exam")'
    until = f"N(INDEX({review_column(book, 'until')},{source}))"
    off = f"SUMPRODUCT(({Name.DAY_DATES}={used})*({Name.DAY_OFF}=1))"
    return (
        f'IF({source}="","",IF(OR({flag}="check",{flag}="not a date"),"check date",IF({exams}>=2,"two exams",'
        f'IF(AND({until}=0,{off}>0),"day off",""))))'
    )
