"""What is typed about a class comes back: every other week, and the day of a rotating timetable."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import openpyxl

from syllabus_io.outline.records import CourseFacts
from syllabus_io.plan.build import make_plan
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Meeting, Rotation
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.revise.standing import standing_plan
from syllabus_io.revise.update import update_workbook
from syllabus_io.workbook.layout import TERM, Name
from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import TERM as AUTUMN
from tests.workbook.plans import make_course
from tests.workbook.sheets import TODAY, made


def test_turns_of_classes_come_back() -> None:
    term = replace(AUTUMN, rotation=Rotation(("A", "B"), date(2026, 8, 31)))
    meetings = (
        Meeting((Weekday.MO,), time(14), time(16), kind="lab"),
        Meeting((), time(9), time(10), cycle_day="B"),
    )
    plan = make_plan(ResolvedTerm(term, (make_course(CourseFacts(code="AAA", meetings=meetings)),)))
    book = openpyxl.load_workbook(io.BytesIO(made(plan, WorkbookOptions(today=TODAY))))
    cell = str(book.defined_names[Name.CLASS_ALTERNATE].attr_text).split("!")[1].split(":")[0].replace("$", "")
    book[TERM][cell].value = date(2026, 9, 9)
    packed = io.BytesIO()
    book.save(packed)
    lab, rotating = standing_plan(
        Path("plan.xlsx"), update_workbook(Path("plan.xlsx"), packed.getvalue(), today=TODAY)
    ).classes
    assert lab.alternate_from == date(2026, 9, 9)
    assert [lab.is_on(date(2026, 9, day)) for day in (7, 14, 21)] == [True, False, True]
    assert rotating.days == tuple(Weekday)[:5], "without marks a rotating day is any school day"
    assert rotating.cycle_dates == tuple(TermCalendar(term).rotation_dates("B"))
