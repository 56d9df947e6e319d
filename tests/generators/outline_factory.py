"""Writes outlines from random plans, to search for failures.

``python -m tests.generators.outline_factory --count 50 --out FOLDER [--seed 1] [--family NAME] [--format pdf|docx]``
writes each outline with the answers it should give beside it, in the form that ``samples/answers`` has. The same seed
gives the same files.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from tests.generators import factory_layouts as text
from tests.generators import factory_tables as tables
from tests.generators.factory_elements import Bullet, Element, Grid, Heading, Line, Sheet, Title
from tests.generators.factory_plan import CoursePlan, Work, make_plan, school_days
from tests.generators.factory_render import render_pdf, render_word
from tests.generators.factory_text import Styler, clock, day_codes, noise_after, noise_before

__all__ = ["FAMILIES", "Family", "main", "write_outline"]

CODES = ("MO", "TU", "WE", "TH", "FR")
SCALE = (("A", 93), ("A-", 90), ("B+", 87), ("B", 83), ("B-", 80), ("C", 70), ("D", 60))


@dataclass(frozen=True, slots=True)
class Family:
    """A layout: how its schedule is made, and what the plan must be like for it."""

    build: Callable[[CoursePlan, Random], Sheet]
    on_class_days: bool = True
    whole_week_off: bool = True
    adjust: Callable[[CoursePlan], CoursePlan] | None = None


def on_one_weekday(plan: CoursePlan) -> CoursePlan:
    """The plan with all work of the term on the last class day of its week, each piece in a week of its own kind."""
    weekday = plan.days[-1]
    open_days = set(school_days(plan))
    works: list[Work] = []
    taken: set[tuple[str, date]] = set()
    for work in plan.works:
        if work.date > plan.last:
            works.append(work)
            continue
        day = work.date + timedelta(days=weekday - work.date.weekday())
        name = work.title.rstrip("0123456789 ")
        if day in open_days and (name, day) not in taken:
            taken.add((name, day))
            works.append(replace(work, date=day, time=None))
    return replace(plan, works=tuple(works))


FAMILIES: dict[str, Family] = {
    "week-table": Family(tables.week_table, on_class_days=False),
    "class-table": Family(tables.class_table),
    "class-table-without-rules": Family(tables.class_table_without_rules),
    "deadline-table": Family(tables.deadline_table, on_class_days=False),
    "week-and-weekday": Family(tables.week_and_weekday, on_class_days=False, whole_week_off=False),
    "assigned-and-due": Family(tables.assigned_and_due, on_class_days=False),
    "week-of-and-note": Family(tables.week_of_and_note, adjust=on_one_weekday),
    "month-grid": Family(tables.month_grid, on_class_days=False),
    "numbered-classes": Family(tables.numbered_classes),
    "columns-by-kind": Family(tables.columns_by_kind, on_class_days=False),
    "class-bullets": Family(text.class_bullets),
    "prose": Family(text.prose, on_class_days=False),
    "prose-in-columns": Family(text.prose_in_columns, on_class_days=False),
    "months-and-days": Family(text.months_and_days),
    "week-headings": Family(text.by_week_headings, on_class_days=False),
    "important-dates": Family(text.important_dates, on_class_days=False),
    "grading-list": Family(text.grading_list, on_class_days=False),
    "date-headings": Family(text.date_headings),
}


def write_outline(folder: Path, family: str, form: str, seed: int) -> Path:
    """Write one outline and its answers; returns the outline's path. The same arguments give the same files."""
    rng = Random(f"{family} {form} {seed}")
    kind = FAMILIES[family]
    plan = make_plan(rng, on_class_days=kind.on_class_days, whole_week_off=kind.whole_week_off)
    if kind.adjust is not None:
        plan = kind.adjust(plan)
    sheet = kind.build(plan, rng)
    off_named = rng.random() < 0.8
    elements = _outline(plan, sheet, off_named, rng)
    name = f"{family}-{form}-{seed:03}"
    path = folder / f"{name}.{form}"
    (render_pdf if form == "pdf" else render_word)(path, elements, sheet.columns, rng)
    truth = json.dumps(_answers(name, path.name, plan, sheet, off_named), ensure_ascii=False, indent=1)
    (folder / f"{name}.json").write_text(truth + "\n", encoding="utf-8")
    return path


def _outline(plan: CoursePlan, sheet: Sheet, off_named: bool, rng: Random) -> list[Element]:
    """The whole outline: facts, noise, grading, schedule, final, policies."""
    head = rng.choice((f"{plan.code}: {plan.title}", f"{plan.code} {plan.title}", f"{plan.title} ({plan.code})"))
    elements: list[Element] = [Title((head, rng.choice((plan.term, f"Hazelmere College, {plan.term}"))))]
    times = f"{clock(plan.start, rng)} – {clock(plan.end, rng)}"
    elements += [
        Line(f"**Instructor:** {plan.instructor}"),
        Line(f"**Class meets:** {day_codes(plan.days, rng)}, {times}"),
        Heading("About the course"),
        *[Line(said) for said in noise_before(plan, rng)],
        Heading(rng.choice(("Grading", "Evaluation", "How you are graded"))),
        *_grading(plan, sheet, rng),
        Heading(rng.choice(("Schedule", "Course calendar", "Course schedule"))),
    ]
    if off_named:
        elements.append(Line(text.days_off_sentence(plan, rng)))
    elements += sheet.elements
    elements += [_final(plan, rng), Heading("Policies"), *[Line(said) for said in noise_after(plan, rng)]]
    return elements


def _grading(plan: CoursePlan, sheet: Sheet, rng: Random) -> list[Element]:
    parts = [(f"{part.name} ({part.count})" if part.count else part.name, f"{part.weight:g}%") for part in plan.parts]
    scale = Line(rng.choice(("; ", ", ")).join(f"{letter} {minimum}+" for letter, minimum in SCALE) + "; F below 60")
    if sheet.columns == 1 and rng.random() < 0.5:
        return [Grid((("Component", "Weight"), *parts), (3, 1)), scale]
    return [*[Bullet(f"{name}: {weight}") for name, weight in parts], scale]


def _final(plan: CoursePlan, rng: Random) -> Line:
    final = next((work for work in plan.works if work.date > plan.last), None)
    if final is None:
        return Line(
            rng.choice(
                (
                    "The final exam is scheduled by the registrar.",
                    "Final exam: date and time to be announced by the registrar.",
                )
            )
        )
    write = Styler(rng.choice(("weekday month day", "month day year", "weekday month ordinal")))
    return Line(f"The final exam is on {write(final.date)}, at {clock(final.time or '09:00', rng)}.")


def _answers(name: str, file: str, plan: CoursePlan, sheet: Sheet, off_named: bool) -> dict[str, Any]:
    off = [{"name": o.name, "first_day": o.first.isoformat(), "last_day": o.last.isoformat()} for o in plan.off]
    return {
        "id": name,
        "file": file,
        "origin": "invented for this project",
        "level": "university",
        "course": {
            "code": plan.code,
            "title": plan.title,
            "term": plan.term,
            "meetings": [{"days": [CODES[day] for day in plan.days], "start": plan.start, "end": plan.end}],
        },
        "term": {
            "name": plan.term,
            "first_day": plan.first.isoformat(),
            "last_day": plan.last.isoformat(),
            "no_class": [] if off_named else off,
            "basis": "the plan the outline was written from",
        },
        "items": [_item(work, plan, sheet) for work in plan.works],
        "readings": [],
        "readings_complete": True,
        "no_class": off if off_named else [],
        "grading": {
            "categories": [{"name": p.name, "weight": p.weight, "count": p.count, "drop": 0} for p in plan.parts],
            "scale": [{"letter": letter, "minimum": minimum} for letter, minimum in (*SCALE, ("F", 0))],
        },
        "undated": [] if plan.final_is_dated else [{"kind": "exam", "title": "Final exam", "why": "registrar"}],
        "notes": "",
    }


def _item(work: Work, plan: CoursePlan, sheet: Sheet) -> dict[str, Any]:
    return {
        "kind": work.kind,
        "title": work.title,
        "date": work.date.isoformat(),
        "time": work.time,
        "end_date": None,
        "weight": work.weight,
        "as_written": "",
        "page": None,
        "resolve": "absolute" if work.date > plan.last else sheet.resolve,
        "must": True,
    }


def main(arguments: Sequence[str] | None = None) -> None:
    """Write as many outlines as asked for, the families in turn."""
    parser = argparse.ArgumentParser(prog="outline_factory", description="write outlines from random plans")
    parser.add_argument("--count", type=int, default=36, help="how many outlines")
    parser.add_argument("--out", type=Path, required=True, help="folder to write to")
    parser.add_argument("--seed", type=int, default=1, help="number of the first outline of each family")
    parser.add_argument("--family", choices=sorted(FAMILIES), help="one family only")
    parser.add_argument("--format", choices=("pdf", "docx"), help="one form of file only")
    options = parser.parse_args(arguments)
    options.out.mkdir(parents=True, exist_ok=True)
    families = [options.family] if options.family else list(FAMILIES)
    forms = [options.format] if options.format else ["pdf", "docx"]
    kinds = [(family, form) for family in families for form in forms]
    for number in range(options.count):
        family, form = kinds[number % len(kinds)]
        write_outline(options.out, family, form, options.seed + number // len(kinds))


if __name__ == "__main__":
    main()
