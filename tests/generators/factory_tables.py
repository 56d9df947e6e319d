"""Families of layouts that set dates in tables."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from tests.generators.factory_elements import Element, Grid, Heading, Line, Sheet
from tests.generators.factory_layouts import due_text, off_on, on_day, regular_works, weeks_of
from tests.generators.factory_plan import CoursePlan, Work, class_days, week_number
from tests.generators.factory_text import LONG, MONTHS, SHORT, Styler, clock, styler

__all__ = [
    "assigned_and_due",
    "class_table",
    "class_table_without_rules",
    "columns_by_kind",
    "deadline_table",
    "month_grid",
    "numbered_classes",
    "week_and_weekday",
    "week_of_and_note",
    "week_table",
]


WEEK_HEADS = (("Week", "Dates", "Topics", "Due"), ("Wk", "Class days", "Topic", "Work due"))
CLASS_HEADS = (("Date", "Topic", "Due"), ("Class", "What we do", "Assignments and exams"))


def _topics(plan: CoursePlan, monday: date) -> list[str]:
    return [
        topic
        for day, topic in zip(class_days(plan), plan.topics, strict=True)
        if monday <= day < monday + timedelta(days=7)
    ]


def _works(plan: CoursePlan, monday: date) -> list[Work]:
    return [work for work in regular_works(plan) if monday <= work.date < monday + timedelta(days=7)]


def _joined(parts: list[str], rng: Random) -> str:
    return rng.choice(("\n", "\n", "; ")).join(parts)


def week_table(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a week: its number, class days, topics, and work with its weekday."""
    write = Styler(rng.choice(("short month day", "month day", "numbers", "dotted month day")))
    rows: list[tuple[str, ...]] = [
        rng.choice((("Week", "Dates", "Topics", "Due"), ("Wk", "Class days", "Topic", "Work due")))
    ]
    for number, monday in enumerate(weeks_of(plan), 1):
        week = [monday + timedelta(days=offset) for offset in range(5)]
        if all(off_on(plan, day) for day in week):
            rows.append((f"{off_on(plan, monday)}: no class ({write(week[0])} – {write(week[4])})",))
            continue
        classes = [day for day in class_days(plan) if day in week] or [monday]
        days = ", ".join(write(day) for day in classes)
        due = _joined([due_text(work, rng, weekday=True) for work in _works(plan, monday)], rng)
        rows.append((str(number), days, _joined(_topics(plan, monday), rng), due))
    return Sheet((Grid(tuple(rows), (1, 2, 4, 4)),), "weekday")


def _class_rows(plan: CoursePlan, rng: Random) -> tuple[tuple[str, ...], ...]:
    write = styler(rng)
    rows: list[tuple[str, ...]] = [
        rng.choice((("Date", "Topic", "Due"), ("Class", "What we do", "Assignments and exams")))
    ]
    topics = dict(zip(class_days(plan), plan.topics, strict=True))
    day = plan.first
    while day <= plan.last:
        name = off_on(plan, day)
        if day in topics:
            rows.append((write(day), topics[day], _joined([due_text(work, rng) for work in on_day(plan, day)], rng)))
        elif name and day.weekday() in plan.days:
            rows.append((write(day), f"No class ({name})", ""))
        day += timedelta(days=1)
    return tuple(rows)


def class_table(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a class."""
    return Sheet((Grid(_class_rows(plan, rng), (2, 4, 3)),), "absolute")


def class_table_without_rules(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a class, in columns without drawn lines."""
    return Sheet((Grid(_class_rows(plan, rng), (2, 4, 3), ruled=False),), "absolute")


def deadline_table(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a piece of work: what, when, how much."""
    write = styler(rng)
    rows: list[tuple[str, ...]] = [("Work", "Due date", "Share")]
    for work in regular_works(plan):
        time = f", {clock(work.time, rng)}" if work.time else ""
        rows.append((work.title, write(work.date) + time, f"{work.weight:g}%" if work.weight else ""))
    return Sheet((Grid(tuple(rows), (3, 3, 1)),), "absolute")


def week_and_weekday(plan: CoursePlan, rng: Random) -> Sheet:
    """ "Week 5 Friday" beside the work; no dates at all."""
    form = rng.choice(("Week {} {}", "Week {}, {}", "{1} of week {0}"))
    rows: list[tuple[str, ...]] = [("When", "What")]
    for work in regular_works(plan):
        when = form.format(week_number(plan, work.date), LONG[work.date.weekday()])
        rows.append((when, work.title + (f", {clock(work.time, rng)}" if work.time else "")))
    return Sheet((Grid(tuple(rows), (2, 4)),), "weekday")


def assigned_and_due(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a week with what is handed out beside what is due."""
    write = Styler(rng.choice(("short month day", "month day", "day month", "numbers")))
    rows: list[tuple[str, ...]] = [("Week of", "Topics", "Assigned", "Due")]
    mondays = weeks_of(plan)
    for number, monday in enumerate(mondays):
        later = _works(plan, mondays[number + 1]) if number + 1 < len(mondays) else []
        assigned = [work.title for work in later if work.kind not in ("exam", "quiz")]
        due = [due_text(work, rng, weekday=True) for work in _works(plan, monday)]
        rows.append(
            (write(monday), "\n".join(_topics(plan, monday)) or "No class", "\n".join(assigned), "\n".join(due))
        )
    return Sheet((Grid(tuple(rows), (2, 4, 3, 4)),), "weekday")


def week_of_and_note(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a week; a sentence above says on which weekday its work is due. Expects all work on one weekday."""
    write = Styler(rng.choice(("short month day", "month day")))
    weekday = regular_works(plan)[0].date.weekday()
    rows: list[tuple[str, ...]] = [("Week", "Week of", "Topics", "Due")]
    for number, monday in enumerate(weeks_of(plan), 1):
        due = "\n".join(work.title for work in _works(plan, monday))
        rows.append((str(number), write(monday), "\n".join(_topics(plan, monday)) or "No class", due))
    note = f"Work in the last column is due, and tests are held, on {LONG[weekday]} of the week."
    return Sheet((Line(note), Grid(tuple(rows), (1, 2, 4, 3))), "weekday")


def month_grid(plan: CoursePlan, rng: Random) -> Sheet:
    """A page of boxes a month, Monday to Friday, the day's number on top of each box."""
    elements: list[Element] = []
    months = sorted(
        {(day.year, day.month) for monday in weeks_of(plan) for day in (monday, monday + timedelta(days=4))}
    )
    for year, month in months:
        elements.append(Heading(f"{MONTHS[month - 1]} {year}", 2))
        rows: list[tuple[str, ...]] = [LONG[:5] if rng.random() < 0.5 else SHORT[:5]]
        monday = date(year, month, 1) - timedelta(days=date(year, month, 1).weekday())
        while (monday.year, monday.month) <= (year, month):
            rows.append(tuple(_box(plan, monday + timedelta(days=offset), month, rng) for offset in range(5)))
            monday += timedelta(days=7)
        elements.append(Grid(tuple(row for row in rows if any(row)), (1, 1, 1, 1, 1)))
    return Sheet(tuple(elements), "month-carried")


def _box(plan: CoursePlan, day: date, month: int, rng: Random) -> str:
    if day.month != month:
        return ""
    name = off_on(plan, day)
    said = [f"No class: {name}"] if name and plan.first <= day <= plan.last else []
    return "\n".join([str(day.day), *said, *(due_text(work, rng) for work in on_day(plan, day))])


def numbered_classes(plan: CoursePlan, rng: Random) -> Sheet:
    """A row a class, known by its number alone."""
    word = rng.choice(("Class", "Meeting", "Session"))
    labels = (f"{word} {{}}",) if rng.random() < 0.5 else ("{}",)
    rows: list[tuple[str, ...]] = [(word, "Topic", "Due")]
    for number, (day, topic) in enumerate(zip(class_days(plan), plan.topics, strict=True), 1):
        due = "\n".join(due_text(work, rng) for work in on_day(plan, day))
        rows.append((rng.choice(labels).format(number), topic, due))
    return Sheet((Grid(tuple(rows), (2, 4, 3)),), "meeting")


def columns_by_kind(plan: CoursePlan, rng: Random) -> Sheet:
    """A column for each kind of work, its dates below one another; single pieces of work in lines under it."""
    write = styler(rng)
    series: dict[str, list[Work]] = {}
    single: list[Work] = []
    for work in regular_works(plan):
        name, _, number = work.title.rpartition(" ")
        if number.isdigit() and work.kind != "exam":
            series.setdefault(name, []).append(work)
        else:
            single.append(work)
    rows: list[tuple[str, ...]] = [("No.", *series)]
    for index in range(max(map(len, series.values()))):
        cells = [write(works[index].date) if index < len(works) else "" for works in series.values()]
        rows.append((str(index + 1), *cells))
    times = {name: works[0].time for name, works in series.items() if works[0].time}
    notes = [Line(f"{name} is due by {clock(time, rng)}.") for name, time in times.items() if time]
    lines = [
        Line(f"**{work.title}:** {write(work.date)}" + (f", {clock(work.time, rng)}" if work.time else ""))
        for work in single
    ]
    return Sheet((Grid(tuple(rows), (1, *(3 for _ in series))), *notes, *lines), "absolute")
