"""Families of layouts that set dates in running text, lists and headings."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from random import Random

from tests.generators.factory_elements import Bullet, Element, Entry, Heading, Line, Sheet
from tests.generators.factory_plan import CoursePlan, Work, class_days, week_number
from tests.generators.factory_text import LONG, MONTHS, SHORT, Styler, clock, styler

__all__ = [
    "by_week_headings",
    "class_bullets",
    "date_headings",
    "days_off_sentence",
    "due_text",
    "grading_list",
    "important_dates",
    "months_and_days",
    "off_on",
    "on_day",
    "prose",
    "prose_in_columns",
    "regular_works",
    "weeks_of",
]


def regular_works(plan: CoursePlan) -> list[Work]:
    """The work of the term itself, without what is set in the examination week."""
    return [work for work in plan.works if work.date <= plan.last]


def on_day(plan: CoursePlan, day: date) -> list[Work]:
    """The work of one day."""
    return [work for work in regular_works(plan) if work.date == day]


def off_on(plan: CoursePlan, day: date) -> str | None:
    """The name of the break a day lies in."""
    return next((off.name for off in plan.off if off.first <= day <= off.last), None)


def weeks_of(plan: CoursePlan) -> list[date]:
    """The Mondays of the term."""
    monday = plan.first - timedelta(days=plan.first.weekday())
    return [monday + timedelta(days=7 * number) for number in range(week_number(plan, plan.last))]


def due_text(work: Work, rng: Random, *, weekday: bool = False) -> str:
    """A piece of work as a cell or list entry names it, its weekday beside it when asked for."""
    text = work.title
    if work.kind not in ("exam", "quiz"):
        text = rng.choice((f"{text} due", f"{text} due", f"Due: {text}", text + " is due"))
    if work.kind == "exam" or rng.random() < 0.3:
        text = f"**{text}**"
    time = f" by {clock(work.time, rng)}" if work.time else ""
    if not weekday:
        return text + time
    short, long = SHORT[work.date.weekday()], LONG[work.date.weekday()]
    return rng.choice((f"{text} ({short}){time}", f"{short}: {text}{time}", f"{text}, {long}{time}"))


def days_off_sentence(plan: CoursePlan, rng: Random) -> str:
    """A sentence that names the days off."""
    write = Styler(rng.choice(("month day", "short month day", "day month")))
    parts = []
    for off in plan.off:
        if off.first == off.last:
            parts.append(f"{off.name} ({write(off.first)})")
        elif off.first.month == off.last.month and write.name != "day month":
            parts.append(f"{off.name} ({write(off.first)}–{off.last.day})")
        else:
            parts.append(f"{off.name} ({write(off.first)} – {write(off.last)})")
    return (
        rng.choice(("No class: ", "There is no class on these days: ", "Days without class: ")) + "; ".join(parts) + "."
    )


def class_bullets(plan: CoursePlan, rng: Random) -> Sheet:
    """A list entry a class: "Tue 8 Sep: topic. Quiz 1"."""
    write = styler(rng)
    separator = rng.choice((": ", " – ", " - "))
    entries: list[Element] = [
        Bullet(f"{write(day)}{separator}" + ". ".join([topic, *(due_text(work, rng) for work in on_day(plan, day))]))
        for day, topic in zip(class_days(plan), plan.topics, strict=True)
    ]
    return Sheet(tuple(entries), "absolute")


def _sentences(plan: CoursePlan, rng: Random) -> list[str]:
    """Sentences that date every piece of work, grouped by the first word of its title."""
    write = styler(rng, spoken=True)
    groups: dict[str, list[Work]] = {}
    for work in regular_works(plan):
        groups.setdefault(work.title.rstrip("0123456789 "), []).append(work)
    said: list[str] = []
    for works in groups.values():
        parts = []
        for work in works:
            when = f"{write(work.date)}" + (f" at {clock(work.time, rng)}" if work.time else "")
            if work.kind in ("exam", "quiz"):
                parts.append(rng.choice((f"{work.title} is on {when}", f"{work.title} will be held on {when}")))
            else:
                parts.append(rng.choice((f"{work.title} is due on {when}", f"{work.title} is due {when}")))
        if rng.random() < 0.5:
            said.append(". ".join(parts) + ".")
        else:
            said.append("; ".join(parts) + ".")
    return said


def prose(plan: CoursePlan, rng: Random) -> Sheet:
    """Sentences under headings."""
    elements: list[Element] = [Heading("Work and dates", 2)]
    elements += [Line(text) for text in _sentences(plan, rng)]
    return Sheet(tuple(elements), "absolute")


def prose_in_columns(plan: CoursePlan, rng: Random) -> Sheet:
    """Sentences on a page of two columns."""
    return Sheet(prose(plan, rng).elements, "absolute", columns=2)


def months_and_days(plan: CoursePlan, rng: Random) -> Sheet:
    """Month headings with day numbers under them."""
    elements: list[Element] = []
    month = 0
    name = rng.choice((str.upper, str.title, lambda text: f"{text} {plan.first.year}"))
    for day, topic in zip(class_days(plan), plan.topics, strict=True):
        if day.month != month:
            month = day.month
            elements.append(Heading(name(MONTHS[month - 1]), 2))
        elements.append(Entry(str(day.day), ". ".join([topic, *(due_text(work, rng) for work in on_day(plan, day))])))
    return Sheet(tuple(elements), "month-carried")


def by_week_headings(plan: CoursePlan, rng: Random) -> Sheet:
    """A heading a week with its dates, list entries by weekday under it."""
    write = Styler(rng.choice(("month day", "short month day", "day month", "numbers")))
    classes = dict(zip(class_days(plan), plan.topics, strict=True))
    elements: list[Element] = []
    for number, monday in enumerate(weeks_of(plan), 1):
        elements.append(Heading(f"Week {number}: {write(monday)} – {write(monday + timedelta(days=4))}", 2))
        week = [monday + timedelta(days=offset) for offset in range(5)]
        break_names = dict.fromkeys(name for day in week if (name := off_on(plan, day)))
        elements += [Bullet(f"No class: {name}") for name in break_names if all(off_on(plan, day) for day in week)]
        for day in week:
            said = [classes[day]] if day in classes else []
            said += [due_text(work, rng) for work in on_day(plan, day)]
            if said:
                elements.append(Bullet(f"{LONG[day.weekday()]}: " + "; ".join(said)))
    return Sheet(tuple(elements), "weekday")


def important_dates(plan: CoursePlan, rng: Random) -> Sheet:
    """Lines with dots or a dash between the work and its date."""
    write = styler(rng)
    join = rng.choice((" ........ ", " — ", ": ", " .................... "))
    lines = [
        Line(f"{work.title}{join}{write(work.date)}" + (f", {clock(work.time, rng)}" if work.time else ""))
        for work in regular_works(plan)
    ]
    return Sheet((Heading("Important dates", 2), *lines), "absolute")


def grading_list(plan: CoursePlan, rng: Random) -> Sheet:
    """List entries of the grading section that carry the dates."""
    write = styler(rng, spoken=True)
    entries: list[Element] = []
    for work in regular_works(plan):
        share = f" ({work.weight:g}%)" if work.weight else ""
        verb = "" if work.kind in ("exam", "quiz") else "due "
        time = f", {clock(work.time, rng)}" if work.time else ""
        entries.append(Bullet(f"**{work.title}**{share}: {verb}{write(work.date)}{time}"))
    return Sheet((Heading("Graded work", 2), *entries), "absolute")


def date_headings(plan: CoursePlan, rng: Random) -> Sheet:
    """A small heading a class, its topic and what is due in lines of their own."""
    write = Styler(rng.choice(("weekday month day", "short weekday month day", "month day", "weekday day month")))
    elements: list[Element] = []
    for day, topic in zip(class_days(plan), plan.topics, strict=True):
        elements += [Heading(write(day), 2), Line(f"Topic: {topic}")]
        elements += _lines_due(on_day(plan, day), rng)
    return Sheet(tuple(elements), "absolute")


def _lines_due(works: Sequence[Work], rng: Random) -> list[Element]:
    lines: list[Element] = []
    for work in works:
        time = f" by {clock(work.time, rng)}" if work.time else ""
        label = "In class" if work.kind in ("exam", "quiz") else "Due"
        lines.append(Line(f"**{label}:** {work.title}{time}"))
    return lines
