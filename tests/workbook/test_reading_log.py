"""The reading log: pages a week, pace and streak equal the Python twins; rows keep to their readings."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.outline.records import CourseFacts, Kind
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.readings import pages_behind, reading_streak
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.workbook.reading_log import READING_TABLE, SUMMARY_ROW
from tests.workbook.plans import TERM, make_course, make_item
from tests.workbook.sheets import TODAY, Sheets, day, iron

PAGES = (20, 35, None, 12, 18, 40)


def reading_sheets() -> Sheets:
    items = [
        make_item(
            "HIS 204",
            Kind.READING,
            f"Harbour letters {number}" + (f", pp. {10 * number}-{10 * number + pages - 1}" if pages else ""),
            TODAY + timedelta(days=6 * (number - 3)),
        )
        for number, pages in enumerate(PAGES, start=1)
    ]
    return Sheets.of(make_plan(ResolvedTerm(TERM, (make_course(CourseFacts(code="HIS 204"), items),))))


def test_pages_pace_and_streak() -> None:
    sheets, first = reading_sheets(), READING_TABLE.first_row
    read = {0: TODAY - timedelta(days=1), 4: TODAY - timedelta(days=2), 2: TODAY - timedelta(days=2)}
    for place, when in read.items():
        sheets.put("Reading log", f"F{first + place}", when)
        sheets.put("Reading log", f"G{first + place}", 30)
    sheets.put("Reading log", f"E{first + 2}", 25)
    own = first + len(PAGES) + 8 + 3
    sheets.put("Reading log", f"B{own}", TODAY - timedelta(days=3))
    sheets.put("Reading log", f"C{own}", 50)
    sheets.put("Reading log", f"E{own}", 60)
    sheets.put_review("Harbour letters 2, pp. 20-54", "corrected", TODAY + timedelta(days=1))
    cells = iron(sheets)["Reading log"]
    days: list[date | None] = [TODAY + timedelta(days=6 * (number - 3)) for number in range(1, 7)]
    days[1] = TODAY + timedelta(days=1)
    assert [day(cells[f"B{first + place}"]) for place in range(6)] == days, "a moved date moves its row's day"
    pages = [20, 35, 25, 12, 18, 40]
    behind = pages_behind([(days[n], pages[n], n in read) for n in range(6)], TODAY)
    assert cells[f"D{SUMMARY_ROW}"] == 20 + 18 + 25 + 50
    assert (cells[f"D{SUMMARY_ROW + 1}"], cells[f"D{SUMMARY_ROW + 2}"]) == (max(0, behind), max(0, -behind))
    assert cells[f"G{SUMMARY_ROW}"] == reading_streak([*read.values(), TODAY - timedelta(days=3)], TODAY) == 3
    assert cells[f"G{SUMMARY_ROW + 1}"] == round(150 / 113, 1)


def test_habits_count_ticks_against_the_days_meant() -> None:
    from syllabus_io.workbook.habits import FIRST_HABIT, first_week_row

    sheets = reading_sheets()
    sheets.put("Habits", f"C{FIRST_HABIT}", "Read twenty pages")
    for letter in "EGI":
        sheets.put("Habits", f"{letter}{FIRST_HABIT}", "x")
    sheets.put("Habits", f"E{first_week_row(2)}", "x")
    sheets.put("Habits", f"G{first_week_row(3)}", "x")
    cells = iron(sheets)["Habits"]
    assert [cells[f"L{first_week_row(number)}"] for number in (1, 2, 3)] == ["0 of 3", "1 of 3", "1 of 3"]
    assert cells[f"L{FIRST_HABIT}"] == 2


def test_a_goal_shows_its_next_step_and_the_step_stands_on_its_day() -> None:
    from syllabus_io.workbook.goals import FIRST_STEP

    sheets = reading_sheets()
    sheets.put("Goals", "B6", "Swim 400 m under six minutes")
    for row, (step, when, done) in enumerate((("plan", 2, "done"), ("test swim", 9, None), ("race", 5, None))):
        at = FIRST_STEP + row
        for letter, value in zip("ABDE", (1, step, TODAY + timedelta(days=when), done), strict=True):
            if value is not None:
                sheets.put("Goals", f"{letter}{at}", value)
    results = iron(sheets)
    assert results["Goals"]["F6"] == "race, Sat 3 Oct"
    shown = {str(value) for value in results["Agenda"].values()}
    assert {"Goal: plan", "Goal: test swim", "Goal: race"} <= shown
