"""A plan as it stands, for the tests of other programs' formats. Everything in it is invented."""

from __future__ import annotations

from datetime import date, time

from syllabus_io.outline.records import Kind
from syllabus_io.plan.standing import StandingClass, StandingItem, StandingOff, StandingPlan
from syllabus_io.resolve.expression import Weekday

__all__ = ["standing", "work"]


def work(own: str, day: date | None, title: str = "Essay", **other: object) -> StandingItem:
    """An item with what a test says of it."""
    fields: dict[str, object] = {
        "course": "HIS 204",
        "kind": Kind.ASSIGNMENT,
        "until": None,
        "time": None,
        "weight": None,
        "start": None,
        "is_done": False,
        "is_skipped": False,
        "flag": "",
        "why": "",
        "words": "",
        **other,
    }
    return StandingItem(id=own, title=title, day=day, **fields)  # type: ignore[arg-type]


def standing(*items: StandingItem, timezone: str | None = "America/New_York") -> StandingPlan:
    """An autumn with a break, two classes and the items."""
    return StandingPlan(
        plan_id="abc",
        name="Autumn 2026",
        student="",
        first_day=date(2026, 8, 31),
        last_day=date(2026, 12, 11),
        classes_end=date(2026, 12, 11),
        timezone=timezone,
        courses=("HIS 204", "BIO 110"),
        items=items,
        classes=(
            StandingClass(
                1, "HIS 204", "", "Chart Room", "Prof. Vane", (Weekday.MO, Weekday.WE, Weekday.FR), time(9), time(9, 50)
            ),
            StandingClass(2, "BIO 110", "lab", "", "", (Weekday.TH,), time(14), None),
        ),
        days_off=(
            StandingOff("Harbour Day", date(2026, 9, 7), date(2026, 9, 7), ""),
            StandingOff("Autumn break", date(2026, 10, 15), date(2026, 10, 16), ""),
            StandingOff("Field week", date(2026, 11, 9), date(2026, 11, 13), "HIS 204"),
        ),
    )
