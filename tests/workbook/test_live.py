"""What hangs together moves together: a change in one cell, computed by two engines, moves what depends on it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from syllabus_io.workbook.layout import REVIEW_TABLE, Name
from tests.workbook.plans import small_plan, usual_plan
from tests.workbook.sheets import ENGINES, TODAY, Results, Sheets, day, deadlines, exams, iron

Compute = Callable[[Sheets], Results]
compute_with_both = pytest.mark.parametrize("compute", ENGINES)


def days_of(results: Results) -> dict[tuple[str, str], date | None]:
    return {(row.course, row.title): row.day for row in deadlines(results)}


def review_value(results: Results, sheets: Sheets, title: str, key: str, course: str = "") -> object:
    return results["Review"][f"{REVIEW_TABLE.letter(key)}{sheets.row_of(REVIEW_TABLE, title, course)}"]


def test_the_lists_hold_every_dated_item_in_order() -> None:
    plan = usual_plan()
    rows = deadlines(iron(Sheets.of(plan)))
    expected = [(entry.course, entry.item.title, entry.item.date) for entry in plan.entries if entry.item.date]
    assert sorted((row.course, row.title, row.day) for row in rows) == sorted(expected)
    days = [row.day for row in rows if row.day]
    assert days == sorted(days), "Deadlines must be in order of date"
    shown = [(row.course, row.title) for row in exams(iron(Sheets.of(plan)))]
    assert shown == [
        (entry.course, entry.item.title)
        for entry in plan.entries
        if entry.item.kind.value in {"exam", "quiz"} and entry.item.date
    ]


@compute_with_both
def test_a_corrected_date_moves_to_its_place(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Field notes talk", "corrected", date(2026, 9, 10))
    results = compute(sheets)
    rows = deadlines(results)
    assert days_of(results)["BIO 110", "Field notes talk"] == date(2026, 9, 10)
    place = [row.title for row in rows].index("Field notes talk")
    assert rows[place - 1].day <= date(2026, 9, 10) <= rows[place + 1].day  # type: ignore[operator]  # all have days
    assert review_value(results, sheets, "Field notes talk", "flag") == "checked"


@compute_with_both
def test_the_first_day_of_term_moves_what_hangs_on_it_and_nothing_else(compute: Compute) -> None:
    before = days_of(iron(Sheets.of(usual_plan())))
    sheets = Sheets.of(usual_plan())
    sheets.put_name(Name.FIRST_DAY, date(2026, 8, 24))
    after = days_of(compute(sheets))
    week = timedelta(weeks=1)
    moved = {("BIO 110", f"Quiz {number}") for number in range(1, 6)}
    moved |= {("HIS 204", "Essay 1"), ("HIS 204", "Essay 2"), ("BIO 110", "Shore survey")}
    for item in moved - {("BIO 110", "Shore survey")}:
        assert after[item] == before[item] - week, f"{item} must move by a week"  # type: ignore[operator]
    # Week 13 is the week before the storm week is over: one week earlier there is no week off to be skipped.
    assert after["BIO 110", "Shore survey"] == date(2026, 11, 16)
    # Ten lectures from 25 August on, on Tuesdays and Thursdays, none of them on a day off.
    assert after["BIO 110", "Chapter 7, The strandline"] == date(2026, 9, 24)
    others = before.keys() - moved - {("BIO 110", "Chapter 7, The strandline")}
    assert {item: after[item] for item in others} == {item: before[item] for item in others}


@compute_with_both
def test_an_added_day_off_moves_the_classes_counted_after_it(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan())
    place = sheets.book.defined_names[Name.OFF_NAMES].attr_text.split("!")[1].replace("$", "")
    row = next(cell.row for (cell,) in sheets.book["Term dates"][place] if cell.value is None)
    for letter, value in zip("ABC", ("Boiler repair", date(2026, 9, 10), date(2026, 9, 10)), strict=True):
        sheets.put("Term dates", f"{letter}{row}", value)
    results = compute(sheets)
    # The tenth lecture was on Thursday 1 October; without 10 September it is the next one, on Tuesday.
    assert days_of(results)["BIO 110", "Chapter 7, The strandline"] == date(2026, 10, 6)
    assert days_of(results)["BIO 110", "Quiz 3"] == date(2026, 9, 22), "a weekday of a week does not move"


@compute_with_both
def test_the_last_day_of_term_moves_what_is_counted_back_from_it(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_name(Name.LAST_DAY, date(2026, 12, 4))
    assert days_of(compute(sheets))["HIS 204", "Archive paper"] == date(2026, 11, 27)


@compute_with_both
def test_a_row_added_by_hand_takes_part_in_everything(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan())
    sheets.add_review_row(course="MAT 131", kind="exam", title="Retake", corrected=date(2026, 10, 6), weight=0.2)
    results = compute(sheets)
    assert days_of(results)["MAT 131", "Retake"] == date(2026, 10, 6)
    retake = next(row for row in exams(results) if row.title == "Retake")
    # 10 days ahead, times 1.5 for what counts 15 % or more.
    assert day(retake.values["start"]) == date(2026, 9, 21)
    assert retake.values["watch"] == "two exams"
    assert day(retake.values["session_4"]) == date(2026, 10, 5), "the last session is on the day before"


@compute_with_both
def test_ticks_and_skips_stay_with_their_item(compute: Compute) -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Essay 1", "done", "done")
    sheets.put_review("Map test", "keep", "skip")
    results = compute(sheets)
    state = {row.title: row.values["state"] for row in deadlines(results)}
    assert state["Essay 1"] == "done"
    assert "Map test" not in state, "what is skipped is in no list"
    sheets.put_name(Name.SHOW_DONE, "no")
    assert "Essay 1" not in {row.title for row in deadlines(compute(sheets))}


def test_the_list_can_be_narrowed_to_a_course_or_kind() -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_name(Name.SHOW_COURSE, "HIS 204")
    assert {row.course for row in deadlines(iron(sheets))} == {"HIS 204"}
    sheets.put_name(Name.SHOW_KIND, "assignment")
    assert [row.title for row in deadlines(iron(sheets))] == ["Essay 1", "Essay 2", "Archive paper"]


def test_the_count_of_what_is_to_check_falls_to_zero() -> None:
    plan = usual_plan()
    sheets = Sheets.of(plan)
    sheet, cell = sheets.cell_of(Name.TO_CHECK)
    open_items = [entry.item for entry in plan.entries if entry.item.needs_review]
    undated = [work for course in plan.resolved.courses for work in course.undated]
    count = iron(sheets)[sheet][cell]
    assert count == len(open_items) + len(undated) > 0
    for number, title in enumerate([*(item.title for item in open_items), *(work.title for work in undated)]):
        course = "BIO 110" if title == "Final exam" else ""
        key, value = (("keep", "keep"), ("corrected", TODAY), ("keep", "skip"))[number % 3]
        sheets.put_review(title, key, value, course)
    assert iron(sheets)[sheet][cell] == 0


def test_clashes_are_said_on_the_first_sheet_and_go_when_they_are_mended() -> None:
    def said(sheets: Sheets) -> str:
        return next((str(v) for v in iron(sheets)["Start here"].values() if str(v).startswith("Clash")), "")

    sheets = Sheets.of(usual_plan())
    assert said(sheets) == "Clash: more than one exam on a day, see Exams. Clash: classes overlap, see Timetable."
    sheets.put_review("Midterm", "corrected", date(2026, 10, 7))
    assert said(sheets) == "Clash: classes overlap, see Timetable."
    sheets.put_review("Midterm", "corrected", date(2026, 9, 7))
    assert said(sheets).startswith("Clash: an exam or quiz on a day off, see Exams.")
    assert not said(Sheets.of(small_plan()))


def test_a_corrected_date_that_is_no_date_is_pointed_out() -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review("Essay 1", "corrected", "next week")
    results = iron(sheets)
    assert review_value(results, sheets, "Essay 1", "flag") == "not a date"
    state = {row.title: row.values["state"] for row in deadlines(results)}
    assert state["Essay 1"] == "check date"


def test_an_item_dated_from_another_moves_with_it_and_is_never_silently_wrong() -> None:
    from syllabus_io.outline.records import CourseFacts, Kind
    from syllabus_io.plan.build import make_plan
    from syllabus_io.resolve.expression import Anchor, Offset, Unit
    from syllabus_io.resolve.records import ResolvedTerm
    from tests.workbook.plans import TERM, make_course, make_item

    items = [
        make_item("GEO 101", Kind.EXAM, "Midterm", date(2026, 10, 7)),
        make_item(
            "GEO 101",
            Kind.ASSIGNMENT,
            "Correction sheet",
            date(2026, 10, 14),
            expression=Offset(Anchor("the midterm"), 1, Unit.WEEK),
            words="one week after the midterm",
        ),
    ]
    plan = make_plan(ResolvedTerm(TERM, (make_course(CourseFacts(code="GEO 101"), items),)))
    sheets = Sheets.of(plan)
    sheets.put_review("Midterm", "corrected", date(2026, 10, 9))
    assert days_of(iron(sheets))["GEO 101", "Correction sheet"] == date(2026, 10, 16)
    # Should somebody sort Review so that another row stands there, the date goes blank and says so.
    sheets.put_review("Midterm", "id", "another")
    results = iron(sheets)
    assert ("GEO 101", "Correction sheet") not in days_of(results)
    assert review_value(results, sheets, "Correction sheet", "flag") == "no date"
