"""A large term: 8 courses, 300 items, 60 commitments. What its workbook costs to build, and LibreOffice to compute:
``-m tests.benchmarks.large_term``. Figures of LibreOffice are its own computing time, read from ``/proc`` (Linux)."""

from __future__ import annotations

import time
from datetime import date, timedelta
from datetime import time as clock

from syllabus_io.outline.records import CourseFacts, Kind, Weight
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.expression import ClockTime, Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Meeting
from syllabus_io.workbook.layout import Name
from syllabus_io.workbook.layout_plan import COMMITMENTS_TABLE
from syllabus_io.workbook.write import WorkbookOptions, make_workbook
from tests.benchmarks.timing import Timing, print_table
from tests.workbook.office_edits import run_basic
from tests.workbook.plans import TERM, make_course, make_item
from tests.workbook.sheets import TODAY, Sheets

__all__ = ["large_plan", "main"]

COURSES, ITEMS, COMMITMENTS = 8, 300, 60
_KINDS = (Kind.ASSIGNMENT, Kind.READING, Kind.ASSIGNMENT, Kind.QUIZ, Kind.READING, Kind.EXAM, Kind.PROJECT)
_TICKS = 100.0  # of a second of computing time, as Linux counts it


def large_plan() -> Plan:
    """The plan: every course meets three times a week and has its share of the items."""
    courses = []
    for number in range(COURSES):
        key = f"CRS {101 + number}"
        days = (Weekday.MO, Weekday.WE, Weekday.FR) if number % 2 else (Weekday.TU, Weekday.TH)
        start = clock(8 + number)
        facts = CourseFacts(code=key, meetings=(Meeting(days, start, clock(8 + number, 50), f"Room {number}"),))
        own = range(number, ITEMS, COURSES)
        items = [
            make_item(
                key,
                _KINDS[place % len(_KINDS)],
                f"Piece of work number {place}",
                TERM.first_day + timedelta(days=place * 7 % 103),
                clock=ClockTime(10 + place % 8) if place % 3 else None,
                weight=Weight(percent=float(place % 20)) if place % 2 else None,
            )
            for place in own
        ]
        courses.append(make_course(facts, items))
    return make_plan(ResolvedTerm(TERM, tuple(courses)))


def with_commitments(sheets: Sheets) -> Sheets:
    """Fills every row of Commitments."""
    weekdays = ("Monday", "Wednesday", "Saturday", "weekdays", "Friday")
    for number in range(COMMITMENTS):
        row = COMMITMENTS_TABLE.first_row + number
        values: dict[str, object] = {"A": f"Practice {number}", "B": weekdays[number % len(weekdays)]}
        values |= {"C": date(2026, 9, 1) + timedelta(days=number), "E": (6 + number % 15) / 24}
        for letter, value in {**values, "F": (7 + number % 15) / 24}.items():
            sheets.put(COMMITMENTS_TABLE.sheet, f"{letter}{row}", value)
    return sheets


def office_seconds(sheets: Sheets) -> tuple[float, float]:
    """Computing time of LibreOffice: for everything anew, and after the first day of term was moved by a week."""
    sheet, cell = sheets.cell_of(Name.FIRST_DAY)
    statements = f"""
  book.enableAutomaticCalculation(False)
  Note(CStr(Used()))
  book.calculateAll()
  Note(CStr(Used()))
  first = book.Sheets.getByName("{sheet}").getCellRangeByName("{cell}")
  first.setValue(first.getValue() + 7)
  book.calculate()
  For Each sheet In book.Sheets
    area = sheet.createCursor()
    area.gotoEndOfUsedArea(False)
    data = sheet.getCellRangeByPosition(0, 0, area.RangeAddress.EndColumn, area.RangeAddress.EndRow).getDataArray()
  Next
  Note(CStr(Used()))
"""
    used = """
Function Used()
  number = FreeFile
  Open "/proc/self/stat" For Input As number
  Line Input #number, text
  Close number
  parts = Split(text, " ")
  Used = CLng(parts(13)) + CLng(parts(14))
End Function
"""
    before, after, moved = (int(text) for text in run_basic(sheets.packed(), statements, used, timeout=1500))
    return (after - before) / _TICKS, (moved - after) / _TICKS


def main() -> None:
    """Prints what the workbook of a large term costs."""
    plan = large_plan()
    began = time.process_time()
    content = make_workbook(plan, WorkbookOptions(today=TODAY))
    built = time.process_time() - began
    anew, moved = office_seconds(with_commitments(Sheets.of(plan)))
    print_table(
        f"{COURSES} courses, {ITEMS} items, {COMMITMENTS} commitments; {len(content) / 1000:.0f} KB",
        [
            Timing("building the workbook", built),
            Timing("LibreOffice: all formulas anew", anew),
            Timing("LibreOffice: after the first day of term moved", moved),
        ],
    )


if __name__ == "__main__":
    main()
