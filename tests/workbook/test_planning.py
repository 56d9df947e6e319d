"""Everything derived about a student's time: the workbook computes what the Python twins compute, also after dates have
moved, days off and commitments been added and settings changed; and what must hold whatever is typed, holds."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import lru_cache

import pytest
from openpyxl.utils.cell import coordinate_from_string

from syllabus_io.plan.agenda import (
    MONTH_BOX,
    WEEK_BOX,
    AgendaEntry,
    box_text,
    item_entry,
    step_entry,
    study_entry,
    task_entry,
)
from syllabus_io.plan.clash_list import list_block_clashes, list_clashes
from syllabus_io.plan.day_pages import StudySlot, TaskEntry, hour_texts, task_order
from syllabus_io.plan.day_table import DayTable, day_table
from syllabus_io.plan.facts import PlanningFacts
from syllabus_io.plan.projects import MOST_STEPS, project_slack, step_days
from syllabus_io.plan.records import Plan
from syllabus_io.plan.workload import ItemPlan, credit_checks, plan_items, week_loads
from syllabus_io.workbook import day as day_sheet
from syllabus_io.workbook import month, week, workload
from syllabus_io.workbook.agenda import AGENDA_TABLE
from syllabus_io.workbook.layout import EXAMS_TABLE, Name, column_letter
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.projects import BLOCK_ROWS, first_step_row
from tests.workbook.planned import Planned, as_date, change_at_random
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import Results, Sheets, iron, listed, needs_office, office

FAST_SEEDS = (1, 2, 3)
SLOW_SEEDS = tuple(range(4, 204))
OFFICE_SEEDS = (5, 6)
CLOCK_HOURS = 12  # of the paper that the tests print on


@lru_cache(maxsize=1)
def the_plan() -> Plan:
    return usual_plan()


def changed(seed: int, compute: Callable[[Sheets], Results] = iron) -> Planned:
    """The usual workbook after the random changes of a seed; seed 0 changes nothing."""
    sheets = Sheets.of(the_plan())
    if seed:
        change_at_random(sheets, the_plan(), seed)
    return Planned(sheets, the_plan(), compute(sheets))


@pytest.fixture(scope="module", params=(0, *FAST_SEEDS))
def planned(request: pytest.FixtureRequest) -> Planned:
    return changed(request.param)


def test_days_hours_and_openness(planned: Planned) -> None:
    check_days(planned, planned.facts())


def test_study_sessions(planned: Planned) -> None:
    check_sessions(planned, planned.facts())


def test_workload(planned: Planned) -> None:
    check_workload(planned, planned.facts())


def test_projects(planned: Planned) -> None:
    facts = planned.facts()
    assert project_steps(planned, facts, day_table(facts)), "there are projects"


def test_agenda_month_week_and_day(planned: Planned) -> None:
    check_pages(planned, planned.facts())


@pytest.mark.slow
@pytest.mark.parametrize("seed", SLOW_SEEDS)
def test_many_random_terms(seed: int) -> None:
    check_all(changed(seed))


@pytest.mark.slow
@pytest.mark.office
@needs_office
@pytest.mark.parametrize("seed", OFFICE_SEEDS)
def test_the_office_suite_computes_the_same(seed: int) -> None:
    check_all(changed(seed, office))


def check_all(planned: Planned) -> None:
    facts = planned.facts()
    for check in (check_days, check_sessions, check_workload, check_projects, check_pages):
        check(planned, facts)


# --- days and sessions ------------------------------------------------------------------------------------


def check_days(planned: Planned, facts: PlanningFacts) -> None:
    table = day_table(facts)
    assert [as_date(one) for one in planned.column(PlanName.PLAN_DAYS)] == [
        table.first + timedelta(days=step) for step in range(facts.day_count)
    ]
    for name, figures in (
        (PlanName.DAY_CLASS_HOURS, table.class_hours),
        (PlanName.DAY_COMMIT_HOURS, table.commitment_hours),
        (PlanName.WORK_COUNT, table.work.counts),
        (PlanName.STUDY_COUNT, table.study.counts),
    ):
        shown = planned.column(name)
        for place, (one, other) in enumerate(zip(shown, figures, strict=True)):
            day = table.first + timedelta(days=place)
            assert math.isclose(one, other, abs_tol=1e-9), f"{name} on {day}: {one} in the workbook, {other} in Python"


def check_sessions(planned: Planned, facts: PlanningFacts) -> None:
    table = day_table(facts)
    plans = {(plan.item.course, plan.item.title, plan.item.day): plan for plan in plan_items(facts, table)}
    exams = listed(planned.results, EXAMS_TABLE)
    assert exams, "the comparison must not run empty"
    exam_days = {item.day for item in facts.items if item.kind == "exam" and item.until is None}
    for row in exams:
        assert row.day
        plan = plans[row.course, row.title, row.day]
        shown = [as_date(row.values[f"session_{number}"]) for number in range(1, 5)]
        days = [one for one in shown if one]
        assert tuple(days) == plan.sessions, f"{row.title} of {row.day}: sessions"
        assert as_date(row.values["start"]) == plan.start
        assert days == sorted(set(days)), "one session a day, in order"
        for one in days:
            assert one < row.day, f"{row.title}: a session on or after its exam"
            assert one.isoweekday() not in facts.kept_weekdays
            assert not any(stretch.holds(one) for stretch in facts.kept_free), f"{one} is kept free"
            assert facts.settings.study_on_days_off or not facts.off_for(one, 0), f"{one} is off"
            assert not (facts.settings.avoid_exam_days and one in exam_days), f"{one} has an exam"


# --- workload ---------------------------------------------------------------------------------------------


def check_workload(planned: Planned, facts: PlanningFacts) -> None:
    table = day_table(facts)
    plans = plan_items(facts, table)
    first = workload.FIRST_WEEK_ROW
    cells = planned.results["Workload"]
    last = first
    while f"A{last + 1}" in cells and f"J{last + 1}" in cells:
        last += 1
    mondays = [as_date(cells[f"B{row}"]) for row in range(first, last + 1)]
    loads = week_loads(facts, [monday for monday in mondays if monday], plans)
    for row, load in enumerate(loads, start=first):
        shown = [cells[f"{letter}{row}"] for letter in "DEFGH"]
        twin = (load.items, load.exams, load.work_hours, load.class_hours, load.commitment_hours)
        for one, other in zip(shown, twin, strict=True):
            assert math.isclose(float(str(one)), other, abs_tol=1e-6), f"week of {load.monday}: {shown} against {twin}"
        assert cells[f"J{row}"] == ("heavy" if load.is_heavy else ""), f"week of {load.monday}"
    _check_hours_add_up(loads, plans)
    _check_clashes(planned, facts, plans)
    _check_credits(planned, facts, plans)


def _check_hours_add_up(loads: Sequence[object], plans: Sequence[ItemPlan]) -> None:
    mondays = [load.monday for load in loads]  # type: ignore[attr-defined]  # week loads
    first, last = min(mondays), max(mondays) + timedelta(days=6)
    within = [plan for plan in plans if first <= plan.start and plan.item.day <= last]
    across = [plan for plan in plans if plan not in within]
    total = sum(load.work_hours for load in loads)  # type: ignore[attr-defined]
    rest = sum(plan.hours_between(first, last) for plan in across)
    assert math.isclose(total, sum(plan.hours for plan in within) + rest, abs_tol=1e-6), "hours of the weeks"


def _check_clashes(planned: Planned, facts: PlanningFacts, plans: Sequence[ItemPlan]) -> None:
    cells = planned.results["Workload"]
    title = next(row for row in range(20, 120) if str(cells.get(f"A{row}", "")).startswith("Clashes: "))
    twins = list_clashes(facts, plans)
    assert cells[f"A{title}"] == f"Clashes: {len(twins)}", [clash.what for clash in twins]
    for row, clash in enumerate(twins[: workload.CLASH_ROWS], start=title + 2):
        assert as_date(cells[f"A{row}"]) == clash.day
        assert (cells[f"C{row}"], cells[f"G{row}"]) == (clash.what, clash.help)
    blocks = list_block_clashes(facts)
    row = title + workload.CLASH_ROWS + 3
    assert cells[f"A{row}"] == f"Classes and commitments at the same time: {len(blocks)}"
    for number, words in enumerate(blocks[:6], start=1):
        assert cells[f"A{row + number}"] == words


def _check_credits(planned: Planned, facts: PlanningFacts, plans: Sequence[ItemPlan]) -> None:
    cells = planned.results["Workload"]
    last_day = as_date(planned.named(Name.LAST_DAY))
    pairs = zip(planned.column(Name.WEEK_NUMBERS), planned.column(Name.WEEK_MONDAYS), strict=True)
    assert last_day
    weeks = sum(isinstance(number, float) and (as_date(monday) or date.max) <= last_day for number, monday in pairs)
    top = next(row for row in range(30, 140) if cells.get(f"A{row}") == facts.courses[0].key and f"J{row}" in cells)
    for row, twin in enumerate(credit_checks(facts, plans, weeks), start=top):
        shown = [cells[f"{letter}{row}"] for letter in "DFGI"]
        expected = (twin.class_hours, twin.class_expected, twin.own_planned, twin.own_expected)
        for one, other in zip(shown, expected, strict=True):
            assert one == "" if other is None else math.isclose(float(str(one)), other, abs_tol=1e-9), twin.course


def test_a_three_credit_course_stands_for_135_hours() -> None:
    """34 CFR 600.2, figures of the planning checks, from memory: 3 credits are 3 hours of class and 6 of own work a
    week, 135 hours in 15 weeks; 15 credits are 30 hours of own work a week."""
    planned = changed(0)
    sheet, cells = planned.sheets.cell_of(Name.CREDITS)
    letter, first = coordinate_from_string(cells.split(":")[0])
    planned.sheets.put(sheet, f"{letter}{first}", 3)
    planned.sheets.put(sheet, f"{letter}{first + 1}", 15)
    cells_now = iron(planned.sheets)["Workload"]
    top = next(row for row in range(30, 140) if cells_now.get(f"A{row}") == "BIO 110" and f"J{row}" in cells_now)
    assert [cells_now[f"{letter}{top}"] for letter in "FIJ"] == [3, 6, 135]
    assert cells_now[f"I{top + 1}"] == 30


# --- projects ---------------------------------------------------------------------------------------------


def project_steps(planned: Planned, facts: PlanningFacts, table: DayTable) -> list[tuple[AgendaEntry, bool]]:
    """Every step with its day as Python has it, after it was compared with the workbook's, and whether it is done."""
    by_id = {item.id: item for item in facts.items}
    starts = {plan.item.row: plan for plan in plan_items(facts, table)}
    found = []
    for number in range(60):
        top = first_step_row(number)
        if f"C{top}" not in planned.results["Projects"]:
            break
        item = by_id.get(str(planned.cell("Projects", f"H{top - 8}")))
        rows = range(top, top + MOST_STEPS)
        names = [planned.cell("Projects", f"A{row}") for row in rows]
        shares = [planned.cell("Projects", f"B{row}") for row in rows]
        milestones = [by_id.get(str(planned.cell("Projects", f"I{row}"))) for row in rows]
        own = [as_date(planned.cell("Projects", f"D{row}")) for row in rows]
        shown = [as_date(planned.results["Projects"][f"C{row}"]) for row in rows]
        if item is None:
            assert not any(shown)
            continue
        plan = starts[item.row]
        fixed = [mine or (other.day if other else None) for mine, other in zip(own, milestones, strict=True)]
        days = step_days(plan.start, item.day, list(zip(shares, fixed, strict=True)), table.work)
        assert tuple(shown) == days, f"steps of {item.title}"
        _check_steps(item.day, days, fixed)
        _check_slack(planned, facts, table, (top, item.day, plan.hours, item.done))
        found += [
            (step_entry(item.course, item.title, name, one), bool(planned.cell("Projects", f"F{row}")))
            for name, one, row in zip(names, days, rows, strict=True)
            if name and one
        ]
    return found


def check_projects(planned: Planned, facts: PlanningFacts) -> None:
    project_steps(planned, facts, day_table(facts))


def _check_steps(due: date, days: Sequence[date | None], fixed: Sequence[date | None]) -> None:
    laid = [day for day, own in zip(days, fixed, strict=True) if day and not own]
    assert all(day < due for day in laid), "a step on or after the day it is due"
    if not any(fixed):
        assert laid == sorted(laid), "steps out of order"


def _check_slack(planned: Planned, facts: PlanningFacts, table: DayTable, of: tuple[int, date, float, bool]) -> None:
    top, due, hours, is_done = of
    rows = range(top, top + MOST_STEPS)
    done = [planned.cell("Projects", f"B{row}") for row in rows if planned.cell("Projects", f"F{row}")]
    left = 0.0 if is_done else hours * (1 - max([0.0, *(share for share in done if share)]))
    slack = project_slack(facts.today, due, left, facts.settings.hours_per_day, table.work)
    words = str(planned.results["Projects"].get(f"A{top - 5}", ""))
    if slack is None:
        assert words == ""
    elif slack < 0:
        assert words.startswith(f"No slack: {-slack} day"), words
    else:
        assert words.startswith(f"Slack: {slack} day"), words


# --- agenda, month, week, day -----------------------------------------------------------------------------


def entries_of(planned: Planned, facts: PlanningFacts, table: DayTable) -> list[TaskEntry]:
    """Everything on a day, in the order in which the workbook collects it."""
    plans = plan_items(facts, table)
    by_exam = {(plan.item.course, plan.item.title, plan.item.day): plan for plan in plans}
    found = [
        TaskEntry(
            item_entry(plan.item, CLOCK_HOURS),
            plan.start,
            max(plan.item.day, plan.item.until or plan.item.day),
            plan.item.done,
            is_item=True,
        )
        for plan in plans
    ]
    for row in listed(planned.results, EXAMS_TABLE):
        assert row.day
        plan = by_exam[row.course, row.title, row.day]
        found += [TaskEntry(study_entry(plan.item, one), is_done=plan.item.done) for one in plan.sessions]
    found += [TaskEntry(entry, is_done=done) for entry, done in project_steps(planned, facts, table)]
    found += [
        TaskEntry(task_entry(task), is_done=task.done, matters_most=task.matters == 1)
        for task in facts.tasks
        if task.sort in {"task", "call", "message"}
    ]
    return found


def check_pages(planned: Planned, facts: PlanningFacts) -> None:
    table = day_table(facts)
    tasks = entries_of(planned, facts, table)
    by_day: dict[date, list[str]] = {}
    ordered = sorted(enumerate(tasks), key=lambda one: (one[1].entry.day, one[1].entry.priority, one[0]))
    for _, task in ordered:
        by_day.setdefault(task.entry.day, []).append(task.entry.what)
    _check_agenda(planned, [(task.entry.day, task.entry.what) for _, task in ordered])
    _check_month(planned, by_day)
    study = {plan.item.row: plan for plan in plan_items(facts, table)}
    assert study
    _check_week(planned, facts, by_day, tasks)
    _check_day(planned, facts, tasks)


def _check_agenda(planned: Planned, expected: list[tuple[date, str]]) -> None:
    cells, shown, row = planned.results["Agenda"], [], AGENDA_TABLE.first_row
    while cells.get(f"A{row}", "") != "":
        shown.append((as_date(cells[f"B{row}"]), str(cells[f"C{row}"])))
        row += 1
    assert shown == expected


def _check_month(planned: Planned, by_day: dict[date, list[str]]) -> None:
    """Every day of every month shows its box; every thing is shown once, or counted among those that are not."""
    cells = planned.results["Month"]
    number, covered = 0, Counter[str]()
    while (first := as_date(cells.get(f"I{month.FIRST_BLOCK + number * month.BLOCK_ROWS}", ""))) is not None:
        top = month.FIRST_BLOCK + number * month.BLOCK_ROWS
        for place in range(42):
            day = first - timedelta(days=first.weekday()) + timedelta(days=place)
            letter, at = column_letter(place % 7 + 1), top + 2 + 2 * (place // 7)
            inside = day.month == first.month
            heading = str(cells[f"{letter}{at}"])
            assert heading.split(" ")[0] == (str(day.day) if inside else "")
            expected = box_text(by_day.get(day, []), MONTH_BOX) if inside and by_day.get(day) else ""
            assert cells[f"{letter}{at + 1}"] == expected, f"the box of {day}"
            covered.update(by_day.get(day, []) if inside else [])
        number += 1
    last = as_date(cells[f"I{month.FIRST_BLOCK + (number - 1) * month.BLOCK_ROWS}"])
    assert last
    begin = as_date(cells[f"I{month.FIRST_BLOCK}"])
    assert begin
    end = (last + timedelta(days=32)).replace(day=1)
    inside_days = {day: entries for day, entries in by_day.items() if begin <= day < end}
    assert sum(covered.values()) == sum(len(entries) for entries in inside_days.values())
    outside = sum(len(entries) for day, entries in by_day.items() if day not in inside_days)
    words = str(cells[f"D{month.FIRST_BLOCK}"])
    assert (
        words.startswith(f"{outside} things on other months") if outside else words == planned.plan.resolved.term.name
    )


def _study_slots(facts: PlanningFacts, planned: Planned, day: date) -> list[StudySlot]:
    plans = {(plan.item.course, plan.item.title, plan.item.day): plan for plan in plan_items(facts)}
    slots = []
    for row in listed(planned.results, EXAMS_TABLE):
        assert row.day
        plan = plans[row.course, row.title, row.day]
        if day in plan.sessions:
            hours = math.floor(round(plan.hours / len(plan.sessions), 6) + 0.5)
            slots.append(StudySlot(study_entry(plan.item, day).what, max(1, hours)))
    return slots


def _check_week(planned: Planned, facts: PlanningFacts, by_day: dict[date, list[str]], tasks: list[TaskEntry]) -> None:
    cells = planned.results["Week"]
    chosen = as_date(planned.named(PlanName.WEEK_CHOSEN)) or facts.today
    monday = chosen - timedelta(days=chosen.weekday())
    hours = range(7, 7 + week.HOUR_ROWS)
    for number, column in enumerate(week.DAY_COLUMNS):
        day, letter = monday + timedelta(days=number), column_letter(column)
        entries = by_day.get(day, [])
        assert cells[f"{letter}{week.BAND_ROW}"] == (box_text(entries, WEEK_BOX) if entries else ""), day
        texts = hour_texts(day, list(hours), facts, _study_slots(facts, planned, day), CLOCK_HOURS)
        shown = tuple(cells[f"{letter}{week.FIRST_HOUR_ROW + row}"] for row in range(week.HOUR_ROWS))
        assert shown == texts, f"the hours of {day}"
    aims = [task for task in facts.tasks if task.sort == "aim" and monday <= task.day <= monday + timedelta(days=6)]
    shown_aims = [str(cells[f"E{week.FIRST_HOUR_ROW + row}"]) for row in range(8)]
    assert sum(aim != "" for aim in shown_aims) == min(8, len(aims))
    assert tasks


def _check_day(planned: Planned, facts: PlanningFacts, tasks: list[TaskEntry]) -> None:
    cells = planned.results["Day"]
    day = as_date(planned.named(PlanName.DAY_CHOSEN)) or facts.today
    texts = hour_texts(day, range(6, 6 + day_sheet.HOUR_ROWS), facts, _study_slots(facts, planned, day), CLOCK_HOURS)
    shown = tuple(cells[f"B{day_sheet.FIRST_ROW + row}"] for row in range(day_sheet.HOUR_ROWS))
    assert shown == texts, f"the hours of {day}"
    expected = [entry.what for entry in task_order(day, tasks)]
    listed_tasks = [str(cells[f"E{day_sheet.FIRST_ROW + row}"]) for row in range(day_sheet.TASK_ROWS)]
    for words, what in zip(listed_tasks, expected, strict=False):
        assert words.startswith(what[:60]), f"on {day}: {words!r} where {what!r} belongs"
    assert sum(words != "" for words in listed_tasks) == min(len(expected), day_sheet.TASK_ROWS)
    more = str(cells[f"E{day_sheet.FIRST_ROW + day_sheet.TASK_ROWS}"])
    over = len(expected) - day_sheet.TASK_ROWS
    assert more == (f"+{over} more: see Agenda" if over > 0 else "")


def test_forty_things_in_one_week_are_all_counted() -> None:
    """Forty items in a week, most on one day: each is on the Agenda once; boxes say how many more there are."""
    sheets = Sheets.of(the_plan())
    for number in range(29):
        values = {
            "course": "MAT 131",
            "kind": "assignment",
            "title": f"Sheet {number}",
            "corrected": date(2026, 11, 11),
        }
        sheets.add_review_row(**values)
    titles = ("Essay 1", "Essay 2", "Quiz 1", "Quiz 2", "Quiz 3", "Test 1", "Test 2", "Portfolio")
    for place, title in enumerate((*titles, "Problem set 1", "Problem set 2")):
        sheets.put_review(title, "corrected", date(2026, 11, 9 + place % 7))
    sheets.put_review("Problem set 3", "corrected", date(2026, 11, 15))
    sheets.put_name(PlanName.WEEK_CHOSEN, date(2026, 11, 12))
    sheets.put_name(PlanName.DAY_CHOSEN, date(2026, 11, 11))
    planned = Planned(sheets, the_plan(), iron(sheets))
    facts = planned.facts()
    within = [item for item in facts.items if date(2026, 11, 9) <= item.day <= date(2026, 11, 15)]
    assert len(within) == 40
    check_all(planned)
    box = str(planned.results["Week"][f"D{week.BAND_ROW}"])
    assert box.count("\n") == WEEK_BOX.lines - 1 and box.endswith(" more: see Agenda")
    weeks = planned.results["Workload"]
    row = next(row for row in range(6, 40) if as_date(weeks.get(f"B{row}", "")) == date(2026, 11, 9))
    assert weeks[f"D{row}"] == 40


def test_another_week_or_day_changes_the_page_and_nothing_that_was_typed() -> None:
    sheets = Sheets.of(the_plan())
    typed = {"B6": date(2026, 9, 30), "C6": "aim", "D6": "Finish the sources"}
    for cell, value in typed.items():
        sheets.put("To do", cell, value)
    sheets.put_name(PlanName.WEEK_CHOSEN, date(2026, 9, 28))
    assert iron(sheets)["Week"][f"E{week.FIRST_HOUR_ROW}"] == "□ Finish the sources"
    sheets.put_name(PlanName.WEEK_CHOSEN, date(2026, 10, 6))
    assert iron(sheets)["Week"][f"E{week.FIRST_HOUR_ROW}"] == ""
    assert {cell: sheets.typed["To do", cell] for cell in typed} == typed
    assert BLOCK_ROWS > MOST_STEPS
