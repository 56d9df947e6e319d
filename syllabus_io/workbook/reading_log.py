"""Reading log: planned readings from the outlines with pages and minutes, own books, pages a week, pace and streak.
Twin: ``plan.readings``."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from syllabus_io.outline.records import Kind
from syllabus_io.plan.readings import count_pages
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.layout import Column, Name, TableLayout
from syllabus_io.workbook.layout_plan import READING_LOG, PlanName
from syllabus_io.workbook.review import review_column
from syllabus_io.workbook.spans import join_cells
from syllabus_io.workbook.term_weeks import shown_week_count

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["READING_TABLE", "SUMMARY_ROW", "reading_row_count", "write_reading_log"]

SUMMARY_ROW = 4
_SPARE_ROWS = 8
_OWN_ROWS = 30
READING_TABLE = TableLayout(
    READING_LOG,
    10,
    (
        Column("id", "Row id", 12, hidden=True),
        Column("planned", "Planned for", 16.5),
        Column("course", "Course", 12),
        Column("what", "What", 36),
        Column("pages", "Pages", 7.5),
        Column("read_on", "Read on", 16.5),
        Column("minutes", "Minutes", 8),
        Column("state", "State", 8),
        Column("is_read", "Read", 7, hidden=True),
    ),
)
_TABLE = READING_TABLE
_LAST = _TABLE.number("state")


def reading_row_count(book: Book) -> int:
    """Rows of planned readings, those left free included."""
    return sum(row.kind is Kind.READING for row in book.rows) + _SPARE_ROWS


def write_reading_log(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(READING_LOG)
    second = _TABLE.number("planned")
    book.put(sheet, 1, second, READING_LOG, "title")
    sheet.row_dimensions[1].height = 28
    how = "Planned readings keep the day of their row on Review. Type pages, the day you read them, and minutes."
    book.put(sheet, 2, second, how, "note")
    sheet.merge_cells(start_row=2, start_column=second, end_row=2, end_column=_LAST)
    last = _TABLE.heading_row + reading_row_count(book)
    own_first = last + 4
    own_last = own_first + _OWN_ROWS - 1
    _write_planned(book, sheet, last)
    _write_own(book, sheet, own_first, own_last)
    _write_summary(book, sheet, last, (own_first, own_last))
    end = _write_weeks(book, sheet, own_last + 3, last, (own_first, own_last))
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    book.set_print(sheet, f"A1:{_TABLE.letter('state')}{end}", breaks=(own_first - 3, own_last + 1))


def _write_planned(book: Book, sheet: Worksheet, last: int) -> None:
    first = _TABLE.first_row
    book.put(sheet, _TABLE.heading_row - 1, 2, "Planned readings", "section")
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 18
    rows = sorted((row for row in book.rows if row.kind is Kind.READING), key=lambda row: row.read or date.max)
    for at in range(first, last + 1):
        row = rows[at - first] if at - first < len(rows) else None
        _write_reading(book, sheet, at, (row.id, row.title) if row else None)
    book.offer(sheet, f"D{first + len(rows)}:D{last}", Name.REVIEW_TITLES)
    book.accept_dates(sheet, f"F{first}:F{last}")
    book.accept_numbers(sheet, f"E{first}:E{last}", 0, 5000)
    book.accept_numbers(sheet, f"G{first}:G{last}", 0, 5000)
    book.name(PlanName.READ_DAYS, READING_LOG, f"F{first}", f"F{last}")
    book.mark_where(sheet, f"H{first}:H{last}", f'$H{first}="late"', book.look.warning, bold=True)
    book.mark_where(sheet, f"H{first}:H{last}", f'$H{first}="read"', book.look.good)
    book.colour_courses(sheet, f"C{first}:C{last}", f"$C{first}")


def _write_reading(book: Book, sheet: Worksheet, at: int, row: tuple[str, str] | None) -> None:
    source = f"MATCH($A{at},{Name.REVIEW_IDS},0)"

    def of(key: str) -> str:
        return f"INDEX({review_column(book, key)},{source})"

    planned = Formula(f'IFERROR(IF(ISNUMBER({of("used")}),{of("used")},""),"")')
    course = Formula(f'IFERROR({of("course")}&"","")')
    found = f'IFERROR(INDEX({Name.REVIEW_IDS},MATCH($D{at},{Name.REVIEW_TITLES},0)),"")'
    title: Value = Formula(f'IFERROR({of("title")}&"","")') if row else None
    state = f'IF(ISNUMBER($F{at}),"read",IF(ISNUMBER($B{at}),IF($B{at}<{Name.TODAY},"late",""),""))'
    values: tuple[tuple[Value, str], ...] = (
        (row[0] if row else Formula(f'IF($D{at}="","",{found})'), "hidden"),
        (planned, "date"),
        (course, "text"),
        (title, "strong" if row else "entry_text"),
        (count_pages(row[1]) if row else None, "entry_whole"),
        (None, "entry_date"),
        (None, "entry_whole"),
        (Formula(state), "text"),
        (Formula(f"IF(ISNUMBER($F{at}),1,0)"), "hidden"),
    )
    for number, (value, style) in enumerate(values, start=1):
        book.put(sheet, at, number, value, style)
    sheet.row_dimensions[at].height = row_height([(row[1] if row else "", _TABLE.width("what"))], bold=True, least=17)


def _write_own(book: Book, sheet: Worksheet, first: int, last: int) -> None:
    """Books of one's own: a row each time something is read."""
    book.put(sheet, first - 2, 2, "Your own books: a row each time you read", "section")
    for column, heading in ((2, "Day"), (3, "Pages"), (4, "Book"), (5, "Minutes"), (6, "Note"), (7, None), (8, None)):
        book.put(sheet, first - 1, column, heading, "heading")
    for at in range(first, last + 1):
        for column, style in ((2, "entry_date"), (3, "entry_whole"), (4, "entry_text"), (5, "entry_whole")):
            book.put(sheet, at, column, None, style)
        for column in (6, 7, 8):
            book.put(sheet, at, column, None, "entry_text")
        join_cells(sheet, at, (6, 8))
        sheet.row_dimensions[at].height = 17
    sheet.merge_cells(start_row=first - 1, start_column=6, end_row=first - 1, end_column=8)
    book.accept_dates(sheet, f"B{first}:B{last}")
    book.accept_numbers(sheet, f"C{first}:C{last}", 0, 5000)
    book.name(PlanName.OWN_READ_DAYS, READING_LOG, f"B{first}", f"B{last}")


def _write_summary(book: Book, sheet: Worksheet, last: int, own: tuple[int, int]) -> None:
    """Pages so far against the plan, the streak, and how fast reading goes."""
    first, today = _TABLE.first_row, Name.TODAY

    def rows(key: str) -> str:
        return f"${_TABLE.letter(key)}${first}:${_TABLE.letter(key)}${last}"

    def own_rows(letter: str) -> str:
        return f"${letter}${own[0]}:${letter}${own[1]}"

    late = f'SUMIFS({rows("pages")},{rows("planned")},"<"&{today},{rows("is_read")},0)'
    ahead = f'SUMIFS({rows("pages")},{rows("planned")},">="&{today},{rows("is_read")},1)'
    place = f"({today}-INDEX({PlanName.PLAN_DAYS},1)+1)"
    here = f"INDEX({PlanName.READ_RUN},{place})"
    yesterday = f"INDEX({PlanName.READ_RUN},{place}-1)"
    held = f"AND({place}>=2,{place}<=ROWS({PlanName.READ_RUN}))"
    pages_read = f"SUMIFS({rows('pages')},{rows('is_read')},1)+SUM({own_rows('C')})"
    minutes = f"SUM({rows('minutes')})+SUM({own_rows('E')})"
    timed = (
        f'SUMIFS({rows("pages")},{rows("is_read")},1,{rows("minutes")},">0")'
        f'+SUMIFS({own_rows("C")},{own_rows("E")},">0")'
    )
    unknown = f'COUNTIFS({rows("planned")},">0",{rows("pages")},">0")'
    behind = f"({late}-({ahead}))"
    figures = (
        ("Pages read", pages_read),
        ("Behind the plan by, in pages", f"MAX(0,{behind})"),
        ("Ahead of the plan by, in pages", f"MAX(0,-{behind})"),
        ("Days in a row with reading", f"IF({held},IF({here}>0,{here},{yesterday}),0)"),
        ("Minutes a page", f'IF({timed}>0,ROUND(({minutes})/({timed}),1),"")'),
    )
    for number, (label, formula) in enumerate(figures):
        at, column = SUMMARY_ROW + number % 3, 2 if number < 3 else 5
        book.put(sheet, at, column, label, "label")
        sheet.merge_cells(start_row=at, start_column=column, end_row=at, end_column=column + 1)
        book.put(sheet, at, 4 if column == 2 else 7, Formula(formula), "number_left")
        sheet.row_dimensions[at].height = 17
    count = f'COUNTIF({rows("planned")},">0")-{unknown}'
    words = f'IF({count}=0,"",{count}&" planned readings have no pages yet: type them, and the pace counts them.")'
    book.put(sheet, SUMMARY_ROW + 3, 2, Formula(words), "note")
    sheet.merge_cells(start_row=SUMMARY_ROW + 3, start_column=2, end_row=SUMMARY_ROW + 3, end_column=_LAST)


def _write_weeks(book: Book, sheet: Worksheet, row: int, last: int, own: tuple[int, int]) -> int:
    """Pages planned and read, week by week. Returns the last row used."""
    book.put(sheet, row, 2, "Pages, week by week", "section")
    for column, heading in ((2, "Week from"), (3, "Planned"), (4, "Read, own books included"), (5, "Minutes")):
        book.put(sheet, row + 1, column, heading, "heading")
    first = _TABLE.first_row

    def rows(key: str) -> str:
        return f"${_TABLE.letter(key)}${first}:${_TABLE.letter(key)}${last}"

    def own_rows(letter: str) -> str:
        return f"${letter}${own[0]}:${letter}${own[1]}"

    weeks = shown_week_count(book)
    for number in range(1, weeks + 1):
        at = row + 1 + number
        monday = f"$B{at}"

        def within(days: str, start: str = monday) -> str:
            return f'{days},">="&{start},{days},"<="&{start}+6'

        read = f"SUMIFS({rows('pages')},{within(rows('read_on'))})+SUMIFS({own_rows('C')},{within(own_rows('B'))})"
        spent = f"SUMIFS({rows('minutes')},{within(rows('read_on'))})+SUMIFS({own_rows('E')},{within(own_rows('B'))})"
        planned = f"SUMIFS({rows('pages')},{within(rows('planned'))})"
        values = (f"INDEX({Name.WEEK_MONDAYS},{number})", planned, read, spent)
        for column, (formula, style) in enumerate(zip(values, ("date", *["whole"] * 3), strict=True), start=2):
            book.put(sheet, at, column, Formula(formula), style)
        sheet.row_dimensions[at].height = 16
    return row + 1 + weeks
