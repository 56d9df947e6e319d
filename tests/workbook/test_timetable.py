"""The weekly grid: every class in its half hours, overlaps marked, classes that follow each other not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, time
from functools import lru_cache

import pytest
from openpyxl.utils.cell import range_boundaries

from syllabus_io.outline.records import CourseFacts
from syllabus_io.plan.build import make_plan
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import Meeting, Rotation
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.workbook.layout import TIMETABLE, Name, class_count_name, column_letter
from tests.workbook.plans import TERM, make_course, usual_plan
from tests.workbook.sheets import ENGINES, TODAY, Results, Sheets, day, iron

Compute = Callable[[Sheets], Results]
MO, TU = Weekday.MO, Weekday.TU


def sheets_of(**classes: Meeting) -> Sheets:
    courses = [make_course(CourseFacts(code=code, meetings=(meeting,))) for code, meeting in classes.items()]
    return Sheets.of(make_plan(ResolvedTerm(TERM, tuple(courses))))


def column(sheets: Sheets, results: Results, weekday: Weekday) -> dict[str, str]:
    """What stands in the grid on a weekday, by the time of its row; blanks left out."""
    return grid_column(sheets, results, int(weekday), heading=5)


def grid_column(sheets: Sheets, results: Results, number: int, heading: int) -> dict[str, str]:
    """The same of any column of a grid, counted from 1 after the times."""
    letter, shown, row = "BCDEFGH"[number - 1], {}, heading + 1
    while isinstance(clock := sheets.book[TIMETABLE][f"A{row}"].value, time):
        if text := results[TIMETABLE][f"{letter}{row}"]:
            shown[f"{clock:%H:%M}"] = str(text).replace("\n", ", ")
        row += 1
    return shown


def rows_of(results: Results, start: str) -> list[str]:
    """The texts under the grid that begin with some words."""
    texts = [str(results[TIMETABLE].get(f"A{row}", "")) for row in range(6, 80)]
    return [text for text in texts if text.startswith(start)]


@pytest.mark.parametrize("compute", ENGINES)
def test_a_class_stands_in_its_half_hours(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan(), paper="a4")
    results = compute(sheets)
    monday = column(sheets, results, MO)
    assert monday["09:00"] == "HIS 204, 9:00–9:50"
    assert monday["09:30"] == "Chart Room, Prof. Idris Vane"
    assert monday["10:00"] == "MAT 131, 10:00–10:50"
    tuesday = column(sheets, results, TU)
    clash = "clash: BIO 110, and MAT 131 recitation"
    assert tuesday["10:30"] == clash, "10:00 to 11:15 and 10:30 to 11:20 overlap"
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
    assert str(iron(sheets)[TIMETABLE]["A3"]).endswith("outside these hours or days: 1.")


# --- classes of other weeks and of rotating days -------------------------------------------------------------

LAB = Meeting((MO,), time(14), time(16), "Attic", "lab", alternate_from=date(2026, 9, 9))
STUDIO = Meeting((MO,), time(14), time(16), "Cellar", "studio", alternate_from=date(2026, 9, 14))
ROTATION = replace(TERM, rotation=Rotation(("A", "B"), date(2026, 8, 31)))


@pytest.mark.parametrize("compute", ENGINES)
def test_classes_that_take_turns_do_not_clash(compute: Compute) -> None:
    sheets = sheets_of(AAA=LAB, BBB=STUDIO, CCC=Meeting((MO,), time(9), time(10)))
    results = compute(sheets)
    monday = column(sheets, results, MO)
    assert monday["14:00"] == "AAA lab *, BBB studio *" and "14:30" not in monday
    assert monday["09:00"] == "CCC, 9:00–10:00", "no star on a class of every week"
    assert rows_of(results, "*") == ["* every other week: AAA lab from Mon 7 Sep. BBB studio from Mon 14 Sep."]
    assert results["Start here"] and not any("classes overlap" in str(text) for text in results["Start here"].values())


def test_two_classes_of_the_same_weeks_clash() -> None:
    sheets = sheets_of(AAA=LAB, BBB=replace(STUDIO, alternate_from=date(2026, 9, 21)))
    assert column(sheets, iron(sheets), MO)["14:00"] == "clash: AAA lab *, and BBB studio *"


def test_the_chosen_week_shows_only_the_classes_of_that_week() -> None:
    sheets = sheets_of(AAA=LAB, BBB=STUDIO)
    for week, name in ((date(2026, 9, 21), "AAA lab"), (date(2026, 9, 28), "BBB studio"), (date(2026, 8, 31), "")):
        sheets.put_name("WeekChosen", week)
        texts = [str(text) for cell, text in iron(sheets)["Week"].items() if cell.startswith("B")]
        assert [one for one in ("AAA lab", "BBB studio") if any(one in text for text in texts)] == (
            [name] if name else []
        )


ON_A = Meeting((), time(9), time(10), "Loft", cycle_day="A")
MONDAYS_B = Meeting((MO,), time(9), time(10), "Barn", cycle_day="B")
ROTATING = (
    (ON_A, MONDAYS_B, Meeting((TU,), time(11), time(12))),
    (LAB, Meeting((TU,), time(8), time(9))),
    (replace(LAB, cycle_day="B"),),
)
"""The meetings of three courses."""


@lru_cache(maxsize=1)
def rotating() -> Sheets:
    courses = [make_course(CourseFacts(code=f"R{n}", meetings=meetings)) for n, meetings in enumerate(ROTATING, 1)]
    return Sheets.of(make_plan(ResolvedTerm(ROTATION, tuple(courses))))


@pytest.mark.parametrize("compute", ENGINES)
def test_rotating_days_have_a_grid_and_every_date_its_day(compute: Compute) -> None:
    sheets = rotating()
    results = compute(sheets)
    calendar = TermCalendar(ROTATION)
    assert column(sheets, results, MO)["14:00"].startswith("R2 lab *")
    assert "09:00" not in column(sheets, results, MO), "a class of a rotating day is on no weekday of every week"
    assert column(sheets, results, TU)["11:00"] == "R1, 11:00–12:00"
    heading = next(row for row in range(20, 60) if results[TIMETABLE].get(f"B{row}") == "Day A")
    assert grid_column(sheets, results, 1, heading)["09:00"] == "R1, 9:00–10:00"
    assert grid_column(sheets, results, 2, heading)["09:00"] == "R1 (Mo), 9:00–10:00"
    assert TODAY in set(calendar.rotation_dates("B"))
    assert rows_of(results, "Today")[0].startswith("Today is day B. Next comes day A.")
    words = [str(text) for text in results["Month"].values() if "  day " in str(text)]
    count = sum(1 for label in "AB" for _ in calendar.rotation_dates(label))
    assert len(words) == count, "each school day shows its day, and no other day does"


@pytest.mark.parametrize("compute", ENGINES)
def test_classes_of_other_weeks_and_rotating_days_are_counted_as_the_calendar_counts_them(compute: Compute) -> None:
    sheets = rotating()
    results = compute(sheets)
    for number, meetings in enumerate(ROTATING, start=1):
        sheet, cells = sheets.cell_of(class_count_name(number))
        left, top, _, bottom = range_boundaries(cells)
        rows = range(int(top or 0), int(bottom or 0) + 1)
        counts = [results[sheet][f"{column_letter(int(left or 0))}{row}"] for row in rows]
        days = [day(results[sheet][f"A{row}"]) for row in rows]
        held = [one for one, now, before in zip(days, counts, ["", *counts], strict=False) if now != before]
        assert tuple(held) == TermCalendar(ROTATION, meetings, f"R{number}", school_weeks=True).meetings_dates()


# --- office hours ----------------------------------------------------------------------------------------------


def test_office_hours_stand_where_there_is_no_class_and_in_the_words_of_the_outline() -> None:
    words = "Mondays 9:00-11:00 am or by appointment"
    facts = CourseFacts(code="AAA", instructor="Dr. N. Reed", office="Loft 3", office_hours=words)
    other = CourseFacts(code="BBB", meetings=(Meeting((MO,), time(9), time(9, 50)),), office_hours="By appointment")
    sheets = Sheets.of(make_plan(ResolvedTerm(TERM, (make_course(facts), make_course(other)))), paper="a4")
    results = iron(sheets)
    monday = column(sheets, results, MO)
    assert monday["09:00"] == "BBB, 9:00–9:50", "a class goes before office hours"
    assert monday["10:00"] == "AAA office hours, 9:00–11:00"
    assert monday["10:30"] == "Loft 3, Dr. N. Reed"
    assert not any("clash" in text for text in monday.values())
    assert rows_of(results, "Office hours") == [], "the words are constants, no formulas"
    shown = [str(sheets.book[TIMETABLE][f"A{row}"].value) for row in range(20, 32)]
    assert f"Office hours AAA (Dr. N. Reed), as the outline has them: {words}" in shown
    assert "Office hours BBB, as the outline has them: By appointment" in shown
    assert results["Workload"] and "overlap" not in str(results["Start here"].values())
