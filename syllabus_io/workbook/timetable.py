"""Timetable: the weekly grid of classes, live from the classes on Term dates, overlaps marked."""

from __future__ import annotations

from datetime import time
from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import TERM, TIMETABLE, Name, column_letter

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_timetable"]

_HEADING = 5
_FIRST = _HEADING + 1
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_HELPER = 11  # hidden columns from here: the row of the class in each slot, -1 where classes overlap
_USUAL_HOURS = (8, 17)
_SLOT = 1 / 48  # half an hour
_NEAR = 0.0003  # less than half a minute: what is lost in fractions of a day


def write_timetable(book: Book) -> None:
    """Adds the sheet: half hours down, weekdays across."""
    sheet = book.add_sheet(TIMETABLE)
    first_hour, last_hour = _hours(book)
    days = _shown_days(book)
    slots = (last_hour - first_hour) * 2
    last = _FIRST + slots - 1
    _write_top(book, sheet, days, first_hour, last_hour)
    hours = 24 if book.options.paper == "a4" else 12  # as the number formats of times are chosen
    for slot in range(slots):
        row = _FIRST + slot
        book.put(sheet, row, 1, time(first_hour + slot // 2, 30 * (slot % 2)), "time")
        for day in range(1, days + 1):
            helper = book.put(sheet, row, _HELPER + day - 1, Formula(_class_in_slot(row, day)), "hidden")
            book.put(sheet, row, day + 1, Formula(_slot_text(row, helper.column_letter, day, hours)), "centre")
        sheet.row_dimensions[row].height = 27
    book.name(
        Name.CLASS_SLOTS, TIMETABLE, f"{column_letter(_HELPER)}{_FIRST}", f"{column_letter(_HELPER + days - 1)}{last}"
    )
    _colour(book, sheet, days, last)
    width = 26.0 if days == 5 else 17.0
    widths = [10.0, *[width] * days, *[9.0] * (_HELPER + 6 - days)]
    book.set_widths(sheet, widths, tuple(range(_HELPER, _HELPER + 7)))
    sheet.freeze_panes = f"B{_FIRST}"
    book.set_print(sheet, f"A1:{column_letter(days + 1)}{last}", landscape=True, one_page=True)


def _hours(book: Book) -> tuple[int, int]:
    """The first and last full hour of the grid: usual hours, or more where a class needs it."""
    first, last = _USUAL_HOURS
    for course in book.plan.resolved.courses:
        for meeting in course.outline.course.meetings:
            if meeting.start:
                first = min(first, meeting.start.hour)
            if meeting.end:
                last = max(last, meeting.end.hour + (1 if meeting.end.minute else 0))
    return first, min(last, 24)


def _shown_days(book: Book) -> int:
    """Monday to Friday, or to the last day of the weekend on which there is a class."""
    used = [
        int(day)
        for course in book.plan.resolved.courses
        for meeting in course.outline.course.meetings
        for day in meeting.days
    ]
    return max([5, *used])


def _write_top(book: Book, sheet: Worksheet, days: int, first_hour: int, last_hour: int) -> None:
    book.head(
        sheet, "Timetable", f"Classes of a usual week. Correct or add them on {TERM}: the grid follows.", days + 1
    )
    hidden_days = "+".join(f'COUNTIF(INDEX({Name.CLASS_DAYS},0,{day}),"x")' for day in range(days + 1, len(_DAYS) + 1))
    outside = (
        f'SUMPRODUCT(({Name.CLASS_STARTS}<>"")*(({Name.CLASS_STARTS}<{first_hour / 24 - _NEAR!r})+'
        f'({Name.CLASS_ENDS}>{last_hour / 24 + _NEAR!r})+({Name.CLASS_ENDS}="")>0))'
    )
    count = f"({outside}+{hidden_days})" if hidden_days else f"({outside})"
    words = f'IF({count}=0,"","Not shown, being outside these hours or days or without an end: "&{count}&".")'
    book.put(sheet, 3, 1, Formula(words), "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=3, end_column=days + 1)
    book.put(sheet, _HEADING, 1, "Time", "heading_centre")
    for day in range(1, days + 1):
        book.put(sheet, _HEADING, day + 1, _DAYS[day - 1], "heading_centre")
        # The grid's formulas look at the row above; the heading of the hidden columns must not look like a class.
        book.put(sheet, _HEADING, _HELPER + day - 1, 0, "hidden")
    sheet.row_dimensions[_HEADING].height = 22


def _mask(row: int, day: int) -> str:
    """Which classes meet on the day within the half hour of the row."""
    return (
        f'(INDEX({Name.CLASS_DAYS},0,{day})="x")*({Name.CLASS_STARTS}<>"")*({Name.CLASS_ENDS}<>"")*'
        f"({Name.CLASS_STARTS}<$A{row}+{_SLOT - _NEAR:.6f})*({Name.CLASS_ENDS}>$A{row}+{_NEAR})"
    )


def _positions() -> str:
    return f"(ROW({Name.CLASS_STARTS})-MIN(ROW({Name.CLASS_STARTS}))+1)"


def _class_in_slot(row: int, day: int) -> str:
    """The class in the half hour of a row, of two that follow each other the later one; -1 where classes overlap."""
    mask = _mask(row, day)
    count = f"SUMPRODUCT({mask})"
    last_start = f"SUMPRODUCT(MAX({mask}*{Name.CLASS_STARTS}))"
    first_end = f"(1-SUMPRODUCT(MAX({mask}*(1-{Name.CLASS_ENDS}))))"
    later = f"SUMPRODUCT(MAX({mask}*({Name.CLASS_STARTS}>={first_end}-{_NEAR})*{_positions()}))"
    follow = f"IF({count}=2,{last_start}>={first_end}-{_NEAR},FALSE)"
    return f"IF({count}=0,0,IF({count}=1,SUMPRODUCT({mask}*{_positions()}),IF({follow},{later},-1)))"


def _slot_text(row: int, helper: str, day: int, hours: int) -> str:
    """The class on its first half hour, its room and instructor on the second; a clash by the names of both."""
    here, above, below = f"${helper}{row}", f"${helper}{row - 1}", f"${helper}{row + 1}"
    name = f'INDEX({Name.CLASS_COURSES},{here})&" "&INDEX({Name.CLASS_KINDS},{here})'
    start, end = f"INDEX({Name.CLASS_STARTS},{here})", f"INDEX({Name.CLASS_ENDS},{here})"
    times = f'{_clock(start, hours)}&"–"&{_clock(end, hours)}'
    room, teacher = f"INDEX({Name.CLASS_ROOMS},{here})", f"INDEX({Name.CLASS_TEACHERS},{here})"
    first = f"TRIM({name})&CHAR(10)&IF({below}={here},{times},{room})"
    second = f'{room}&IF(OR({room}="",{teacher}=""),"",CHAR(10))&{teacher}'
    two_above = f"${helper}{row - 2}" if row - 2 >= _HEADING else "0"
    mask, positions = _mask(row, day), _positions()
    one = f"INDEX({Name.CLASS_COURSES},SUMPRODUCT(MAX({mask}*{positions})))"
    other = f"INDEX({Name.CLASS_COURSES},1000-SUMPRODUCT(MAX({mask}*(1000-{positions}))))"
    clash = f'"clash: "&{other}&CHAR(10)&"and "&{one}'
    return f'IF({here}=0,"",IF({here}<0,{clash},IF({above}<>{here},{first},IF({two_above}<>{here},{second},""))))'


def _clock(value: str, hours: int) -> str:
    """A time as text that no program's language changes, by a clock of 12 or 24 hours."""
    hour = f"HOUR({value})" if hours == 24 else f"(MOD(HOUR({value})+11,12)+1)"
    return f'{hour}&":"&RIGHT("0"&MINUTE({value}),2)'


def _colour(book: Book, sheet: Worksheet, days: int, last: int) -> None:
    first = f"{column_letter(_HELPER)}{_FIRST}"
    cells = f"B{_FIRST}:{column_letter(days + 1)}{last}"
    book.mark_where(sheet, cells, f"{first}<0", book.look.warning, bold=True)
    if len(book.look.courses) < 2:
        return
    for number in range(1, len(book.plan.resolved.courses) + 1):
        same = f"IF({first}>0,INDEX({Name.CLASS_COURSES},{first})=INDEX({Name.COURSES},{number}),FALSE)"
        book.mark_where(sheet, cells, same, book.look.course(number))
