"""One outline with its dates as JSON: ISO 8601 dates, 24-hour times, RFC 5545 day codes."""

from __future__ import annotations

import json
from typing import Any

from syllabus_io.outline.records import Category, CourseFacts, Weight
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import write_expression
from syllabus_io.resolve.records import Ambiguous, Resolved, ResolvedCourse, ResolvedItem, Unresolved
from syllabus_io.resolve.term import DayOff, Meeting

__all__ = ["FORMAT", "VERSION", "outline_to_json"]

FORMAT = "syllabus-io/outline"
VERSION = 1


def outline_to_json(course: ResolvedCourse) -> str:
    """The outline as JSON text in the form docs/json.md describes; an absent value is null or []."""
    outline = course.outline
    content = {
        "format": FORMAT,
        "version": VERSION,
        "source": {"file": outline.file, "sha256": outline.digest, "pages": outline.pages or None},
        "course": _course(outline.course),
        "items": [_item(item) for item in course.items],
        "no_class": [_day_off(day_off) for day_off in course.no_class],
        "grading": {
            "categories": [_category(category) for category in outline.grading.categories],
            "scale": [{"letter": step.letter, "minimum": step.minimum} for step in outline.grading.scale],
            "total_points": outline.grading.total_points,
            "late_policy": outline.grading.late_policy,
            "rules": list(outline.grading.rules),
            "doubts": list(outline.grading.doubts),
        },
        "undated": [
            {
                "kind": work.kind.value,
                "title": work.title,
                "reason": work.reason,
                "weight": _weight(work.weight),
                "source": _source(work.place, work.context),
            }
            for work in course.undated
        ],
        "notes": [*outline.notes, *course.notes],
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def _course(facts: CourseFacts) -> dict[str, Any]:
    names = ("code", "title", "section", "term", "instructor", "email", "phone", "office", "office_hours", "room")
    course: dict[str, Any] = {name: getattr(facts, name) for name in names}
    course["credits"] = facts.credits
    course["meetings"] = [_meeting(meeting) for meeting in facts.meetings]
    return course


def _meeting(meeting: Meeting) -> dict[str, Any]:
    return {
        "days": [day.name for day in meeting.days],
        "start": meeting.start.strftime("%H:%M") if meeting.start else None,
        "end": meeting.end.strftime("%H:%M") if meeting.end else None,
        "room": meeting.room,
        "kind": meeting.kind or None,
    }


def _item(item: ResolvedItem) -> dict[str, Any]:
    resolution = item.resolution
    candidates: list[dict[str, Any]] = []
    expression = None
    certainty = None
    match resolution:
        case Resolved():
            expression, certainty = resolution.expression, resolution.certainty.value
        case Ambiguous():
            expression = resolution.expression
            candidates = [
                {
                    "date": candidate.date.isoformat(),
                    "end_date": candidate.end_date.isoformat() if candidate.end_date else None,
                    "reason": candidate.reason,
                }
                for candidate in resolution.candidates
            ]
        case Unresolved():
            pass
    return {
        "id": item.id,
        "kind": item.kind.value,
        "title": item.title,
        "date": item.date.isoformat() if item.date else None,
        "end_date": item.end_date.isoformat() if item.end_date else None,
        "time": str(item.time) if item.time else None,
        "weight": _weight(item.weight),
        "covers": item.item.covers,
        "needs_review": item.needs_review,
        "reasons": list(item.reasons),
        "certainty": certainty,
        "candidates": candidates,
        "as_written": item.mention.words,
        "expression": write_expression(expression) if expression else None,
        "source": _source(item.mention.place, item.mention.context),
    }


def _source(place: Place, text: str) -> dict[str, Any]:
    box = None if place.box is None else [round(edge, 1) for edge in place.box]
    return {"page": place.page, "text": text, "box": box}


def _weight(weight: Weight | None) -> float | dict[str, float] | None:
    if weight is None:
        return None
    if weight.percent is not None:
        return weight.percent
    return None if weight.points is None else {"points": weight.points}


def _category(category: Category) -> dict[str, Any]:
    return {
        "name": category.name,
        "weight": category.weight,
        "points": category.points,
        "count": category.count,
        "drop": category.drop,
        "extra_credit": category.extra_credit,
    }


def _day_off(day_off: DayOff) -> dict[str, str]:
    return {
        "name": day_off.name,
        "first_day": day_off.first_day.isoformat(),
        "last_day": day_off.last_day.isoformat(),
    }
