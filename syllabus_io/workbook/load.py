"""Load (hidden): a row for each row of Review with its hours and the days over which they are spread, and what clashes.
Twin: ``plan.workload``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.clashes import BUSY_COUNT, BUSY_HOURS
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.exams import exam_row_count
from syllabus_io.workbook.layout import REVIEW_TABLE, Name, column_letter
from syllabus_io.workbook.layout_plan import LOAD, PlanName
from syllabus_io.workbook.review import last_review_row, review_column

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_ROW", "load_column", "write_load"]

FIRST_ROW = 2
_COLUMNS = (
    "exam_day",
    "hours",
    "sessions",
    "first",
    "last",
    "rate",
    "exam_key",
    "moment",
    "rank",
    "until_count",
    "busy",
    "clash_exams",
    "clash_off",
    "clash_busy",
)
_PLACE = f"(ROW()-{FIRST_ROW - 1})"
"""The place of a row among the rows of Review, and of Exams."""
_EXAM_COLUMN = len(_COLUMNS) + 2
_LAST_MINUTE = 1439
_NEVER = -100_000_000


def _letter(key: str) -> str:
    return column_letter(_COLUMNS.index(key) + 1)


def load_column(book: Book, key: str) -> str:
    """All rows of a column, for formulas on any sheet."""
    count = last_review_row(book) - REVIEW_TABLE.heading_row
    return f"'{LOAD}'!${_letter(key)}${FIRST_ROW}:${_letter(key)}${FIRST_ROW + count - 1}"


def write_load(book: Book) -> None:
    """Adds the sheet and defines the names of its columns."""
    sheet = book.add_sheet(LOAD, hidden=True)
    count = last_review_row(book) - REVIEW_TABLE.heading_row
    for number, key in enumerate(_COLUMNS, start=1):
        book.put(sheet, 1, number, key, "hidden")
    formulas = _formulas(book)
    for number, key in enumerate(_COLUMNS, start=1):
        book.fill(sheet, FIRST_ROW, number, count, Formula(formulas[key]))
    last = FIRST_ROW + count - 1
    for key, name in (
        ("exam_day", PlanName.LOAD_EXAM_DAY),
        ("hours", PlanName.LOAD_HOURS),
        ("rate", PlanName.LOAD_RATE),
        ("first", PlanName.LOAD_FIRST),
        ("last", PlanName.LOAD_LAST),
    ):
        book.name(name, LOAD, f"{_letter(key)}{FIRST_ROW}", f"{_letter(key)}{last}")
    _write_session_hours(book, sheet)


def _write_session_hours(book: Book, sheet: Worksheet) -> None:
    """For each row of Exams the hours of one of its sessions."""
    count = exam_row_count(book)
    source = f"INDEX({PlanName.EXAM_SOURCES},{_PLACE})"
    number = f"COUNT(INDEX({PlanName.EXAM_SESSIONS},{_PLACE},0))"
    hours = f'IF({source}="",0,IF({number}=0,0,INDEX({PlanName.LOAD_HOURS},{source})/{number}))'
    book.fill(sheet, FIRST_ROW, _EXAM_COLUMN, count, Formula(hours))
    letter = column_letter(_EXAM_COLUMN)
    book.name(PlanName.SESSION_HOURS, LOAD, f"{letter}{FIRST_ROW}", f"{letter}{FIRST_ROW + count - 1}")


def _formulas(book: Book) -> dict[str, str]:
    """The formulas of the first row."""
    at = FIRST_ROW

    def review(key: str) -> str:
        return f"INDEX({review_column(book, key)},{_PLACE})"

    def cell(key: str) -> str:
        return f"${_letter(key)}{at}"

    used, kind, start = review("used"), review("kind"), review("start")
    hours = f"N(INDEX({Name.SET_HOURS},MATCH({kind},{Name.SET_KINDS},0)))"
    factor = f"IF(N({review('weight')})>={Name.HEAVY_FROM},{Name.HEAVY_FACTOR},1)"
    sessions = f"COUNT(INDEX({PlanName.EXAM_SESSIONS},MATCH({_PLACE},{PlanName.EXAM_SOURCES},0),0))"
    graded = f'OR({kind}="exam",{kind}="quiz")'
    clock = f"IF(ISNUMBER({review('time')}),ROUND({review('time')}*1440,0),{_LAST_MINUTE})"
    return {
        "exam_day": f'IF(AND(ISNUMBER({used}),{kind}="exam",NOT(ISNUMBER({review("until")}))),{used},"")',
        "hours": f"IF(ISNUMBER({used}),IFERROR({hours}*{factor},0),0)",
        "sessions": f"IF(AND(ISNUMBER({used}),{graded}),IFERROR({sessions},0),0)",
        "first": f"IF(ISNUMBER({start}),{start},IF(ISNUMBER({used}),{used},0))",
        "last": f"IF(ISNUMBER({used}),MAX({cell('first')},{used}-1),-1)",
        "rate": f"IF(AND({cell('last')}>0,{cell('sessions')}=0),{cell('hours')}/({cell('last')}-{cell('first')}+1),0)",
        "moment": f"IF({review('big')}=1,{used}*1440+{clock},{_NEVER})",
        **_clash_formulas(book, at),
    }


def _clash_formulas(book: Book, at: int) -> dict[str, str]:
    """Keys, in order of day, of the rows on which a clash begins; "" elsewhere. Twin: ``plan.clashes``."""
    kind, used, until, course = (
        f"INDEX({review_column(book, key)},{_PLACE})" for key in ("kind", "used", "until", "course")
    )

    def cell(key: str) -> str:
        return f"${_letter(key)}{at}"

    def column(key: str) -> str:
        return f"${_letter(key)}${FIRST_ROW}:${_letter(key)}${FIRST_ROW + count - 1}"

    count = last_review_row(book) - REVIEW_TABLE.heading_row
    days, day, moment = column("exam_day"), cell("exam_day"), cell("moment")
    earlier = f"COUNTIF(${_letter('exam_day')}${FIRST_ROW}:{day},{day})"
    off = (
        f'COUNTIFS({Name.OFF_FIRST},"<="&{used},{Name.OFF_UNTIL},">="&{used},{Name.OFF_FOR},0)'
        f'+COUNTIFS({Name.OFF_FIRST},"<="&{used},{Name.OFF_UNTIL},">="&{used},'
        f"{Name.OFF_FOR},IFERROR(MATCH({course},{Name.COURSES},0),-9))"
    )
    is_test = f'AND(OR({kind}="exam",{kind}="quiz"),ISNUMBER({used}),NOT(ISNUMBER({until})))'
    window = BUSY_HOURS * 60
    known = f"{moment}>0"
    before = f'COUNTIFS({column("moment")},">0",{column("moment")},"<"&{moment})'
    within = f'COUNTIFS({column("moment")},">0",{column("moment")},"<="&{moment}+{window})'
    told = (
        f'COUNTIFS({column("moment")},">0",{column("moment")},"<"&{moment},{column("until_count")},'
        f'{cell("until_count")},{column("busy")},">={BUSY_COUNT}")'
    )
    same = f"COUNTIF(${_letter('moment')}${FIRST_ROW}:{moment},{moment})"
    first = f"AND({cell('busy')}>={BUSY_COUNT},{same}=1,{told}=0)"
    tail = "+ROW()/1000000"
    return {
        "exam_key": f'IF(ISNUMBER({day}),{day}*100+{earlier},"")',
        "rank": f'IF({known},{before}+{same},"")',
        "until_count": f"IF({known},{within},0)",
        "busy": f"IF({known},{cell('until_count')}-{before},0)",
        "clash_exams": f'IF(ISNUMBER({day}),IF(AND(COUNTIF({days},{day})>1,{earlier}=1),{day}+0.1{tail},""),"")',
        "clash_off": f'IF({is_test},IF({off}>0,{used}+0.2{tail},""),"")',
        "clash_busy": f'IF({known},IF({first},{used}+0.3{tail},""),"")',
    }
