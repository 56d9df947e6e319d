"""Days (hidden): a row a day with what the term says of it. Every date that is counted is looked up here.

Counts run from the first day counted and are blank before it, so that a look-up finds the day on which a number is
reached. All of it follows Term dates.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.facts import day_count
from syllabus_io.resolve.term import Rotation
from syllabus_io.resolve.term_calendar import class_kind
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.class_turns import turn_mask, write_class_turns
from syllabus_io.workbook.course_dates import kinds_counted, needs_school_count
from syllabus_io.workbook.layout import (
    DAYS,
    Name,
    class_kind_count_name,
    column_letter,
    school_count_name,
)
from syllabus_io.workbook.layout_plan import PlanName

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_ROW", "WEEKS_BEFORE", "write_days"]

FIRST_ROW = 4
WEEKS_BEFORE = 4
"""How many weeks before week 1 the rows begin."""
_PATTERN_ROW = 1
_HEADING_ROW = 3
_WEEKDAYS = 7
_ROTATION_COLUMN, _WORD_COLUMN, _LABEL_COLUMN = 3, 4, 5


def write_days(book: Book) -> None:
    """Adds the hidden sheet and defines its names: dates, days off, and the counts that the courses' dates need."""
    sheet = book.add_sheet(DAYS, hidden=True)
    column = _write_dates(book, sheet)
    if (rotation := book.plan.resolved.term.rotation) is not None:
        column = _write_rotation(book, sheet, rotation)
    for number in range(1, len(book.plan.resolved.courses) + 1):
        column = _write_course(book, sheet, column, number)
    column = write_class_turns(book, sheet, (FIRST_ROW, column + 1))
    _write_offs(book, sheet, column)


def _last_row(book: Book) -> int:
    return FIRST_ROW + day_count(book.plan) - 1


def _fill(
    book: Book, sheet: Worksheet, column: int, heading: str, first: str, further: str, style: str = "hidden"
) -> None:
    """A column of the day table: the formula of its first row, and that of each further row with ``{row}`` for the row
    and ``{above}`` for the cell above."""
    letter = column_letter(column)
    book.put(sheet, _HEADING_ROW, column, heading, "hidden")
    book.put(sheet, FIRST_ROW, column, Formula(first.format(row=FIRST_ROW)), style)
    second = Formula(further.format(row=FIRST_ROW + 1, above=f"{letter}{FIRST_ROW}"))
    book.fill(sheet, FIRST_ROW + 1, column, _last_row(book) - FIRST_ROW, second, style)


def _define(book: Book, name: str, column: int) -> None:
    letter = column_letter(column)
    book.name(name, DAYS, f"{letter}{FIRST_ROW}", f"{letter}{_last_row(book)}")


def _write_dates(book: Book, sheet: Worksheet) -> int:
    starts = [Name.WEEK_ONE, _monday_of(Name.FIRST_DAY)]
    if book.plan.resolved.term.rotation is not None:
        starts.append(_monday_of(Name.ROTATION_FIRST))
    start = f"MIN({','.join(starts)})-{7 * WEEKS_BEFORE}"
    _fill(book, sheet, 1, "Day", start, "{above}+1", "hidden_date")
    _define(book, Name.DAY_DATES, 1)
    off = f'IF(COUNTIFS({Name.OFF_FIRST},"<="&$A{{row}},{Name.OFF_UNTIL},">="&$A{{row}},{Name.OFF_FOR},0)>0,1,0)'
    _fill(book, sheet, 2, "Day off", off, off)
    _define(book, Name.DAY_OFF, 2)
    return 3


def _monday_of(day: str) -> str:
    return f"{day}-WEEKDAY({day},2)+1"


def _write_rotation(book: Book, sheet: Worksheet, rotation: Rotation) -> int:
    """The running count of the days that take part, which of the rotating days each is, and the list of these."""
    counts = f"AND($A{{row}}>={Name.ROTATION_FIRST},WEEKDAY($A{{row}},2)<6,$B{{row}}=0)"
    further = f"IF({counts},N({{above}})+1,{{above}})"
    _fill(book, sheet, _ROTATION_COLUMN, "Rotating days", f'IF({counts},1,"")', further)
    _define(book, Name.ROTATION_COUNT, _ROTATION_COLUMN)
    number = f"MOD(${column_letter(_ROTATION_COLUMN)}{{row}}-1,{len(rotation.labels)})+1"
    held = f"$A{{row}}<=MAX({Name.LAST_DAY},{Name.FINALS_LAST})"
    word = f'IF(AND({counts},{held}),INDEX({Name.ROTATION_LABELS},{number})&"","")'
    _fill(book, sheet, _WORD_COLUMN, "Rotating day", word, word)
    _define(book, Name.ROTATION_WORDS, _WORD_COLUMN)
    letter, last = column_letter(_LABEL_COLUMN), FIRST_ROW + len(rotation.labels) - 1
    for at, label in enumerate(rotation.labels, start=FIRST_ROW):
        book.put(sheet, at, _LABEL_COLUMN, label, "hidden")
    book.name(Name.ROTATION_LABELS, DAYS, f"{letter}{FIRST_ROW}", f"{letter}{last}")
    return _LABEL_COLUMN + 1


def _write_course(book: Book, sheet: Worksheet, column: int, number: int) -> int:
    """The columns of one course; the weekdays of its classes stand above the day table."""
    course = book.plan.resolved.courses[number - 1]
    off_here = f'{Name.OFF_FIRST},"<="&$A{{row}},{Name.OFF_UNTIL},">="&$A{{row}},{Name.OFF_FOR}'
    open_here = f"$B{{row}}=0,COUNTIFS({off_here},{number})=0"
    for kind in kinds_counted(course):
        pattern = _write_pattern(book, sheet, column, number, kind)
        meets = f"OR(INDEX({pattern},WEEKDAY($A{{row}},2))=1,{_in_turn(book, number, kind)})"
        held = f"$A{{row}}>={Name.FIRST_DAY},$A{{row}}<={Name.CLASSES_END},{meets}"
        is_class = f"AND({held},{open_here})"
        heading = f"{course.key} {kind or 'classes'}"
        _fill(book, sheet, column, heading, f'IF({is_class},1,"")', f"IF({is_class},N({{above}})+1,{{above}})")
        _define(book, class_kind_count_name(number, kind), column)
        column += _WEEKDAYS
    if needs_school_count(course):
        is_open = f"AND(WEEKDAY($A{{row}},2)<6,{open_here})"
        _fill(
            book,
            sheet,
            column,
            f"{course.key} school days",
            f'IF({is_open},1,"")',
            f"IF({is_open},N({{above}})+1,{{above}})",
        )
        _define(book, school_count_name(number), column)
        column += 1
    return column


def _write_pattern(book: Book, sheet: Worksheet, column: int, number: int, kind: str) -> str:
    """Seven cells, Monday first, 1 where the course has a class of that kind; returns their reference."""
    key = f"INDEX({Name.COURSES},{number})"
    for weekday in range(1, _WEEKDAYS + 1):
        marks = f'(INDEX({Name.CLASS_DAYS},0,{weekday})="x")'
        mask = f"({Name.CLASS_COURSES}={key})*{_of_kind(kind)}*{PlanName.CLASS_EVERY}*{marks}"
        formula = f"IF(SUMPRODUCT({mask})>0,1,0)"
        book.put(sheet, _PATTERN_ROW, column + weekday - 1, Formula(formula), "hidden")
    first, last = column_letter(column), column_letter(column + _WEEKDAYS - 1)
    return f"${first}${_PATTERN_ROW}:${last}${_PATTERN_ROW}"


def _in_turn(book: Book, number: int, kind: str) -> str:
    """Whether a class of the course that is not of every week meets on the day of the row."""
    word = f"${column_letter(_WORD_COLUMN)}{{row}}" if book.plan.resolved.term.rotation else ""
    mask = f"({PlanName.CLASS_NUMBERS}={number})*{_of_kind(kind)}*{turn_mask('$A{row}', word)}"
    return f"IF({PlanName.ALTERNATING}=0,FALSE,SUMPRODUCT({mask})>0)"


def _of_kind(kind: str) -> str:
    """The condition on the kind of a class, as :func:`syllabus_io.resolve.term_calendar.class_kind` compares kinds."""
    asked, kinds = class_kind(kind), Name.CLASS_KINDS
    if not asked:
        return f'({kinds}<>"office hours")*({kinds}<>"office hour")'
    own = f'({kinds}="{asked}")+({kinds}="{asked}s")'
    return f'({own}+({kinds}="")>0)' if asked == "lecture" else f"({own}>0)"


def _write_offs(book: Book, sheet: Worksheet, column: int) -> None:
    """Last day and course of each day off, as the counts need them."""
    rows = book.off_row_count
    for number in range(1, rows + 1):
        at = FIRST_ROW + number - 1
        first, last, course = (f"INDEX({name},{number})" for name in (Name.OFF_FIRST, Name.OFF_LAST, Name.OFF_COURSES))
        until = f'IF(ISNUMBER({first}),IF(ISNUMBER({last}),MAX({first},{last}),{first}),"")'
        book.put(sheet, at, column, Formula(until), "hidden_date")
        whom = f'IF({course}&""="",0,IFERROR(MATCH({course},{Name.COURSES},0),-1))'
        book.put(sheet, at, column + 1, Formula(whom), "hidden")
    for offset, name in enumerate((Name.OFF_UNTIL, Name.OFF_FOR)):
        letter = column_letter(column + offset)
        book.name(name, DAYS, f"{letter}{FIRST_ROW}", f"{letter}{FIRST_ROW + rows - 1}")
