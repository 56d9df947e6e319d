"""A plan as JSON: ISO 8601 dates, 24-hour times, RFC 5545 day codes; docs/json.md describes it."""

from __future__ import annotations

import json
from typing import Any

from syllabus_io.export.plain_text import plain_plan
from syllabus_io.plan.standing import StandingClass, StandingItem, StandingPlan

__all__ = ["FORMAT", "VERSION", "plan_to_json"]

FORMAT = "syllabus-io/plan"
VERSION = 1


def plan_to_json(plan: StandingPlan) -> str:
    """The plan as it stands, as JSON text; an absent value is null or []."""
    plan = plain_plan(plan)
    content = {
        "format": FORMAT,
        "version": VERSION,
        "term": {
            "name": plan.name,
            "first_day": plan.first_day.isoformat(),
            "last_day": plan.last_day.isoformat(),
            "timezone": plan.timezone,
        },
        "courses": list(plan.courses),
        "items": [_item(item) for item in plan.items],
        "classes": [_class(weekly) for weekly in plan.classes],
        "no_class": [
            {
                "name": off.name,
                "first_day": off.first_day.isoformat(),
                "last_day": off.last_day.isoformat(),
                "course": off.course or None,
            }
            for off in plan.days_off
        ],
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def _item(item: StandingItem) -> dict[str, Any]:
    return {
        "id": item.id,
        "course": item.course,
        "kind": item.kind.value if item.kind else None,
        "title": item.title,
        "date": item.day.isoformat() if item.day else None,
        "end_date": item.until.isoformat() if item.until else None,
        "time": f"{item.time:%H:%M}" if item.time else None,
        "weight": item.weight,
        "start_by": item.start.isoformat() if item.start else None,
        "done": item.is_done,
        "skipped": item.is_skipped,
        "needs_review": item.flag in ("check", "not a date", "no date"),
        "reasons": item.why.split("\n") if item.why else [],
        "as_written": item.words,
        "revision": item.revision,
    }


def _class(weekly: StandingClass) -> dict[str, Any]:
    return {
        "course": weekly.course,
        "kind": weekly.kind or None,
        "days": [day.name for day in weekly.days],
        "start": f"{weekly.start:%H:%M}" if weekly.start else None,
        "end": f"{weekly.end:%H:%M}" if weekly.end else None,
        "room": weekly.room or None,
        "teacher": weekly.teacher or None,
        **({"every_other_week_from": weekly.alternate_from.isoformat()} if weekly.alternate_from else {}),
        **({"rotating_day": weekly.cycle_day} if weekly.cycle_day else {}),
    }
