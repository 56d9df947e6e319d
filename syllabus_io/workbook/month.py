"""Month: a printed page a month with everything in its day's box, and a blank month without dates at the end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.class_turns import rotation_prefix, rotation_word
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import MONTH, PlanName
from syllabus_io.workbook.pages import Sheaf
from syllabus_io.workbook.term_weeks import DAYS_BEFORE, shown_month_count

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["BLOCK_ROWS", "FIRST_BLOCK", "day_note_formula", "write_month"]

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_ROWS = 6
FIRST_BLOCK = 1
BLOCK_ROWS = 2 + 2 * _ROWS
_HEAD_HEIGHT, _WEEKDAY_HEIGHT, _NUMBER_HEIGHT = 30.0, 16.0, 12.5
_NOTE_CHARACTERS = 19
_FIRST_MONTH = 9  # a hidden column: the first day of each month, and the Monday of each of its weeks


def write_month(book: Book) -> None:
    """Adds the sheet: a block of rows a month, each a page of its own."""
    sheet = book.add_sheet(MONTH)
    months = shown_month_count(book)
    across, down = Sheaf(book.options.paper, True).room
    width = (across / 7 - 5) / 7 - 0.05
    box = (down * 0.985 - _HEAD_HEIGHT - _WEEKDAY_HEIGHT) / _ROWS - _NUMBER_HEIGHT
    areas = []
    for number in range(months + 1):
        top = FIRST_BLOCK + number * BLOCK_ROWS
        _write_block(book, sheet, top, number if number < months else None, (months, box))
        areas.append(f"A{top}:G{top + BLOCK_ROWS - 1}")
    book.set_widths(sheet, [width] * 7 + [3.0, 12.0], (8, _FIRST_MONTH))
    book.set_print(sheet, ",".join(areas), landscape=True)


def _write_block(book: Book, sheet: Worksheet, top: int, number: int | None, form: tuple[int, float]) -> None:
    """One month; ``number`` None is the blank one."""
    months, box = form
    first = f"${column_letter(_FIRST_MONTH)}${top}"
    if number is None:
        book.put(sheet, top, 1, "Month:", "title")
    else:
        book.put(sheet, top, _FIRST_MONTH, Formula(_first_day(number)), "hidden_date")
        book.put(sheet, top, 1, Formula(first), "month")
        words = Formula(_outside(months) if number == 0 else f'IF({Name.TERM_NAME}="","",{Name.TERM_NAME}&"")')
        book.put(sheet, top, 4, words, "note")
        sheet.merge_cells(start_row=top, start_column=4, end_row=top, end_column=7)
    sheet.merge_cells(start_row=top, start_column=1, end_row=top, end_column=3)
    sheet.row_dimensions[top].height = _HEAD_HEIGHT
    sheet.row_dimensions[top + 1].height = _WEEKDAY_HEIGHT
    for column, word in enumerate(_WEEKDAYS, start=1):
        book.put(sheet, top + 1, column, word, "heading_centre")
    for week in range(_ROWS):
        at = top + 2 + 2 * week
        sheet.row_dimensions[at].height, sheet.row_dimensions[at + 1].height = _NUMBER_HEIGHT, box
        monday = f"${column_letter(_FIRST_MONTH)}{at}"
        if number is not None:
            start = Formula(f"{first}-WEEKDAY({first},2)+{7 * week + 1}")
            book.put(sheet, at, _FIRST_MONTH, start, "hidden_date")
        for column in range(1, 8):
            if number is None:
                book.put(sheet, at, column, None, "small_day")
                book.put(sheet, at + 1, column, None, "small")
                continue
            day = f"({monday}+COLUMN()-1)"
            inside = f"MONTH({day})=MONTH({first})"
            book.put(sheet, at, column, Formula(f'IF({inside},{day_note_formula(book, day)},"")'), "small_day")
            book.put(sheet, at + 1, column, Formula(f'IF({inside},{_box(day)},"")'), "small")
    if number is not None:
        _mark(book, sheet, top)


def _first_day(number: int) -> str:
    """The first of a month: that of the first item near the term, or of the first day of term, and those after."""
    before = f'COUNTIF({PlanName.AGENDA_DAY},"<"&({Name.FIRST_DAY}-{DAYS_BEFORE}))'
    earliest = f"IFERROR(MIN({Name.FIRST_DAY},SMALL({PlanName.AGENDA_DAY},{before}+1)),{Name.FIRST_DAY})"
    if number == 0:
        return f"DATE(YEAR({earliest}),MONTH({earliest}),1)"
    return f"EDATE(${column_letter(_FIRST_MONTH)}${FIRST_BLOCK},{number})"


def _outside(months: int) -> str:
    """How many things lie outside the months shown."""
    first = f"${column_letter(_FIRST_MONTH)}${FIRST_BLOCK}"
    end = f"EDATE({first},{months})"
    before = f'COUNTIF({PlanName.AGENDA_DAY},"<"&{first})'
    after = f'COUNTIF({PlanName.AGENDA_DAY},">="&{end})'
    words = f'{before}+{after}&" things on other months are not shown here: see Agenda."'
    return f'IF({before}+{after}=0,{Name.TERM_NAME}&"",{words})'


def day_note_formula(book: Book, day: str) -> str:
    """The day's number, which rotating day it is, and the name of the day off where it is one."""
    on = f'({Name.OFF_FIRST}<>"")*({Name.OFF_FIRST}<={day})*({Name.OFF_UNTIL}>={day})*({Name.OFF_FOR}=0)'
    rows = f"ROWS({Name.OFF_FIRST})"
    from_below = f"({rows}+MIN(ROW({Name.OFF_FIRST}))-ROW({Name.OFF_FIRST}))"
    name = f"INDEX({Name.OFF_NAMES},{rows}+1-SUMPRODUCT(MAX({on}*{from_below})))"
    cut = f'IF(LEN({name})>{_NOTE_CHARACTERS},LEFT({name},{_NOTE_CHARACTERS - 1})&"…",{name})'
    off = f'COUNTIFS({Name.OFF_FIRST},"<="&{day},{Name.OFF_UNTIL},">="&{day},{Name.OFF_FOR},0)'
    rotation, word = book.plan.resolved.term.rotation, rotation_word(day)
    rotating = f'&IF({word}="","","  {rotation_prefix(rotation.labels)}"&{word})' if rotation else ""
    return f'DAY({day}){rotating}&IF({off}=0,"","  "&{cut})'


def _box(day: str) -> str:
    last = f'COUNTIF({PlanName.AGENDA_DAY},"<="&{day})'
    return f'IF(COUNTIF({PlanName.AGENDA_DAY},{day})=0,"",INDEX({PlanName.AGENDA_MONTH_TEXT},{last}))'


def _mark(book: Book, sheet: Worksheet, top: int) -> None:
    """A tint on the box of a day with an exam; the word Exam stands there too."""
    for week in range(_ROWS):
        at = top + 3 + 2 * week
        book.mark_where(sheet, f"A{at}:G{at}", f'LEFT(A{at},5)="Exam:"', book.look.warning)
