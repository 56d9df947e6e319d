"""Planning (hidden): a row a day, in step with Days: what fills the day, and whether it is open for study or work.
Twin: ``plan.day_table.day_table``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.facts import day_count
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.class_turns import turn_mask
from syllabus_io.workbook.days import FIRST_ROW
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import PLANNING, PlanName

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_planning_days"]

_COLUMNS = ("day", "exams", "classes", "commitments", "work", "study", "work_count", "study_count", "read_run")
_PATTERN = len(_COLUMNS) + 2  # seven columns from here: hours of each course by weekday, a row a course


def write_planning_days(book: Book) -> None:
    """Adds the sheet and defines the names of its columns."""
    sheet = book.add_sheet(PLANNING, hidden=True)
    _write_pattern(book, sheet)
    for number, key in enumerate(_COLUMNS, start=1):
        book.put(sheet, FIRST_ROW - 1, number, key, "hidden")
    for at, rows in ((FIRST_ROW, 1), (FIRST_ROW + 1, day_count(book.plan) - 1)):
        for number, formula in enumerate(_formulas(book, at), start=1):
            if rows:
                book.fill(sheet, at, number, rows, Formula(formula), "hidden_date" if number == 1 else "hidden")
    for key, name in (
        ("day", PlanName.PLAN_DAYS),
        ("classes", PlanName.DAY_CLASS_HOURS),
        ("commitments", PlanName.DAY_COMMIT_HOURS),
        ("work_count", PlanName.WORK_COUNT),
        ("study_count", PlanName.STUDY_COUNT),
        ("read_run", PlanName.READ_RUN),
    ):
        letter = column_letter(_COLUMNS.index(key) + 1)
        book.name(name, PLANNING, f"{letter}{FIRST_ROW}", f"{letter}{FIRST_ROW + day_count(book.plan) - 1}")


def _write_pattern(book: Book, sheet: Worksheet) -> None:
    """The hours of each course on each weekday."""
    count = max(1, len(book.plan.resolved.courses))
    for course in range(1, count + 1):
        for weekday in range(1, 8):
            flags = f"INDEX({PlanName.CLASS_FLAGS},0,{weekday})"
            every = f"{PlanName.CLASS_EVERY},1,{flags},1"
            hours = f"SUMIFS({PlanName.CLASS_LENGTHS},{PlanName.CLASS_NUMBERS},{course},{every})"
            book.put(sheet, FIRST_ROW + course - 1, _PATTERN + weekday - 1, Formula(hours), "hidden")
    first, last = column_letter(_PATTERN), column_letter(_PATTERN + 6)
    book.name(PlanName.COURSE_HOURS, PLANNING, f"{first}{FIRST_ROW}", f"{last}{FIRST_ROW + count - 1}")


def _formulas(book: Book, at: int) -> tuple[str, ...]:
    day, exams, classes, commitments, work, study = (f"${letter}{at}" for letter in "ABCDEF")
    place = f"ROW()-{FIRST_ROW - 1}"
    off = f"INDEX({Name.DAY_OFF},{place})"
    kept = (
        f'OR(COUNTIFS({PlanName.KEPT_FIRST},"<="&{day},{PlanName.KEPT_UNTIL},">="&{day})>0,'
        f'INDEX({PlanName.KEPT_WEEKDAYS},1,WEEKDAY({day},2))="x")'
    )
    full = f"AND(N({PlanName.FULL_FROM})>0,ROUND({classes}+{commitments},6)>=N({PlanName.FULL_FROM}))"
    closed = f'OR({work}=0,AND({PlanName.AVOID_EXAMS}="yes",{exams}>0),{full})'
    return (
        f"INDEX({Name.DAY_DATES},{place})",
        f"COUNTIF({PlanName.LOAD_EXAM_DAY},{day})",
        _class_hours(book, day, off, at),
        _commitment_hours(day),
        f'IF(OR({kept},AND({PlanName.STUDY_ON_OFF}<>"yes",{off}=1)),0,1)',
        f"IF({closed},0,1)",
        work if at == FIRST_ROW else f"$G{at - 1}+{work}",
        study if at == FIRST_ROW else f"$H{at - 1}+{study}",
        _read_run(day, at),
    )


def _class_hours(book: Book, day: str, off: str, at: int) -> str:
    """Hours of class: none outside the term or on a day off; without the courses that have a day off of their own."""
    weekday = f"WEEKDAY({day},2)"
    count = len(book.plan.resolved.courses)
    own_off = f'COUNTIFS({Name.OFF_FIRST},"<="&{day},{Name.OFF_UNTIL},">="&{day},{Name.OFF_FOR}'
    word = f"INDEX({Name.ROTATION_WORDS},{at - FIRST_ROW + 1})" if book.plan.resolved.term.rotation else ""

    def in_turn(which: str) -> str:
        """The hours of classes that are not of every week."""
        mask = f"({PlanName.CLASS_NUMBERS}{which})*{turn_mask(day, word)}"
        return f"IF({PlanName.ALTERNATING}=0,0,SUMPRODUCT({mask}*{PlanName.CLASS_LENGTHS}))"

    apart = "+".join(
        f"IF({own_off},{number})=0,INDEX({PlanName.COURSE_HOURS},{number},{weekday})+{in_turn(f'={number}')},0)"
        for number in range(1, count + 1)
    )
    every = f"SUM(INDEX({PlanName.COURSE_HOURS},0,{weekday}))+{in_turn('>0')}"
    held = f'IF({own_off},">0")=0,{every},{apart or "0"})'
    return f"IF(OR({day}<{Name.FIRST_DAY},{day}>{Name.CLASSES_END},{off}=1),0,{held})"


def _commitment_hours(day: str) -> str:
    code, weekday = PlanName.COMMIT_CODES, f"WEEKDAY({day},2)"
    on = f"({code}={weekday})+({code}=9)+({code}=8)*({weekday}<6)+({code}=0)"
    within = f"({PlanName.COMMIT_FIRST}<={day})*({PlanName.COMMIT_LAST}>={day})"
    return f"SUMPRODUCT(({on})*{within}*{PlanName.COMMIT_HOURS})"


def _read_run(day: str, at: int) -> str:
    """How many days in a row, up to this one, something was read."""
    before = "0" if at == FIRST_ROW else f"$I{at - 1}"
    return f"IF(COUNTIF({PlanName.READ_DAYS},{day})+COUNTIF({PlanName.OWN_READ_DAYS},{day})>0,{before}+1,0)"
