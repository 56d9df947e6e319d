"""The weekly grid: every class in its half hours, overlaps marked, classes that follow each other not."""

from __future__ import annotations

from collections.abc import Callable
from datetime import time

import pytest

from syllabus_io.outline.records import CourseFacts
from syllabus_io.plan.build import make_plan
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Meeting
from syllabus_io.workbook.layout import TIMETABLE, Name
from tests.workbook.plans import TERM, make_course, usual_plan
from tests.workbook.sheets import ENGINES, Results, Sheets, iron

Compute = Callable[[Sheets], Results]
MO, TU = Weekday.MO, Weekday.TU


def sheets_of(**classes: Meeting) -> Sheets:
    courses = [make_course(CourseFacts(code=code, meetings=(meeting,))) for code, meeting in classes.items()]
    return Sheets.of(make_plan(ResolvedTerm(TERM, tuple(courses))))


def column(sheets: Sheets, results: Results, weekday: Weekday) -> dict[str, str]:
    """What stands in the grid on a weekday, by the time of its row; blanks left out."""
    letter = "BCDEFGH"[int(weekday) - 1]
    shown = {}
    for row in range(6, sheets.book[TIMETABLE].max_row + 1):
        clock, text = sheets.book[TIMETABLE][f"A{row}"].value, results[TIMETABLE][f"{letter}{row}"]
        if text:
            shown[f"{clock:%H:%M}"] = str(text).replace("\n", ", ")
    return shown


@pytest.mark.parametrize("compute", ENGINES)
def test_a_class_stands_in_its_half_hours(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan(), paper="a4")
    results = compute(sheets)
    monday = column(sheets, results, MO)
    assert monday["09:00"] == "HIS 204, 9:00–9:50"
    assert monday["09:30"] == "Chart Room, Prof. Idris Vane"
    assert monday["10:00"] == "MAT 131, 10:00–10:50"
    tuesday = column(sheets, results, TU)
    assert tuesday["10:30"] == "clash: BIO 110, and MAT 131", "10:00 to 11:15 and 10:30 to 11:20 overlap"
    wednesday = column(sheets, results, Weekday.WE)
    assert wednesday["14:00"] == "BIO 110 lab, 14:00–16:50"


def test_classes_that_follow_each_other_within_half_an_hour_do_not_clash() -> None:
    sheets = sheets_of(
        AAA=Meeting((MO,), time(11), time(12, 15), "Hall"), BBB=Meeting((MO,), time(12, 15), time(13, 5), "Attic")
    )
    shown = column(sheets, iron(sheets), MO)
    assert not any("clash" in text for text in shown.values()), shown
    assert shown["12:00"] == "BBB, 12:15–1:05"
    overlapping = sheets_of(AAA=Meeting((MO,), time(11), time(12, 20)), BBB=Meeting((MO,), time(12, 15), time(13, 5)))
    assert column(overlapping, iron(overlapping), MO)["12:00"] == "clash: AAA, and BBB"


def test_an_early_or_late_class_makes_the_grid_longer() -> None:
    sheets = sheets_of(AAA=Meeting((TU,), time(7, 30), time(8, 20)), BBB=Meeting((TU,), time(18), time(20, 45)))
    shown = column(sheets, iron(sheets), TU)
    assert shown["07:30"].startswith("AAA") and shown["18:00"].startswith("BBB")


def test_a_class_added_by_hand_is_shown_and_one_outside_the_hours_is_told() -> None:
    sheets = sheets_of(AAA=Meeting((MO,), time(9), time(9, 50)))
    _, place = sheets.cell_of(Name.CLASS_COURSES)
    row = int(place.split(":")[0][1:]) + 1
    typed = {"A": "AAA", "B": "lab", "F": "x", "L": 14 / 24, "M": 15 / 24}
    for letter, value in typed.items():
        sheets.put("Term dates", f"{letter}{row}", value)
    results = iron(sheets)
    assert column(sheets, results, TU)["14:00"] == "AAA lab, 2:00–3:00"
    assert results[TIMETABLE]["A3"] == ""
    sheets.put("Term dates", f"L{row}", 5 / 24)
    assert str(iron(sheets)[TIMETABLE]["A3"]).endswith("without an end: 1.")
