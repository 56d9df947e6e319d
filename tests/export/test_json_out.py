"""The JSON records of one outline: their form, and that every state of a date can be written."""

from __future__ import annotations

import json
from datetime import date, time

from syllabus_io.export.json_out import outline_to_json
from syllabus_io.outline.records import (
    Category,
    CourseFacts,
    GradeStep,
    GradingScheme,
    Item,
    Kind,
    Mention,
    Outline,
    UndatedWork,
    Weight,
)
from syllabus_io.provenance import Box, Place
from syllabus_io.resolve.expression import ClockTime, FullDate, Phrase, Week, Weekday, WeekdayIn
from syllabus_io.resolve.records import (
    Ambiguous,
    Candidate,
    Certainty,
    Resolution,
    Resolved,
    ResolvedCourse,
    ResolvedItem,
    Unresolved,
)
from syllabus_io.resolve.term import DayOff, Meeting

PLACE = Place("botany.pdf", page=4, block=7, box=Box(72.04, 310.2, 540.0, 322.9))


def item(identity: str, resolution: Resolution, weight: Weight | None = None) -> ResolvedItem:
    mention = Mention(Phrase("Tue Oct 6", 0, 9, None), PLACE, "Tue Oct 6", "Tue Oct 6: Midterm 1")
    work = Item(Kind.EXAM, "Midterm 1", (mention,), covers="chapters 1–4")
    return ResolvedItem(identity, Kind.EXAM, "Midterm 1", resolution, mention, work, ClockTime(10, 0), weight=weight)


def written(*items: ResolvedItem) -> dict[str, list[dict[str, object]]]:
    outline = Outline(
        "botany.pdf",
        "ab" * 32,
        8,
        CourseFacts(code="BOT 110", meetings=(Meeting((Weekday.TU, Weekday.TH), time(10, 0), time(11, 15)),)),
        grading=GradingScheme((Category("Homework", 30.0, count=10, drop=1),), (GradeStep("A", 93.0),)),
    )
    undated = (UndatedWork(Kind.EXAM, "Final exam", "the outline gives no date", PLACE),)
    off = (DayOff("Autumn break", date(2026, 10, 15), date(2026, 10, 16)),)
    content = json.loads(outline_to_json(ResolvedCourse("BOT 110", outline, items, off, undated)))
    assert isinstance(content, dict)
    return content


def test_a_dated_item_has_every_field_of_the_manual() -> None:
    expression = WeekdayIn(Week(6), Weekday.TU)
    resolved = Resolved(date(2026, 10, 6), None, Certainty.DERIVED, expression)
    (record,) = written(item("a", resolved, Weight(percent=20.0)))["items"]
    assert record["date"] == "2026-10-06"
    assert record["end_date"] is None
    assert record["time"] == "10:00"
    assert record["weight"] == 20.0
    assert record["needs_review"] is False
    assert record["reasons"] == []
    assert record["certainty"] == "derived"
    assert record["expression"] == "weekday_in(week(6), TU)"
    assert record["as_written"] == "Tue Oct 6"
    assert record["source"] == {"page": 4, "text": "Tue Oct 6: Midterm 1", "box": [72.0, 310.2, 540.0, 322.9]}


def test_a_question_shows_its_candidates_and_must_be_checked() -> None:
    candidates = (
        Candidate(date(2026, 10, 6), None, "month first"),
        Candidate(date(2026, 6, 10), None, "day first"),
    )
    question = Ambiguous(candidates, "is 10/6 in October or in June?", FullDate(date(2026, 10, 6)))
    (record,) = written(item("a", question, Weight(points=50.0)))["items"]
    assert record["date"] == "2026-10-06"
    assert record["needs_review"] is True
    assert record["reasons"] == ["is 10/6 in October or in June?"]
    assert record["candidates"] == [
        {"date": "2026-10-06", "end_date": None, "reason": "month first"},
        {"date": "2026-06-10", "end_date": None, "reason": "day first"},
    ]
    assert record["weight"] == {"points": 50.0}


def test_an_open_date_is_null_and_says_why() -> None:
    (record,) = written(item("a", Unresolved("the week is not numbered")))["items"]
    assert record["date"] is None
    assert record["expression"] is None
    assert record["reasons"] == ["the week is not numbered"]


def test_course_days_off_grading_and_undated_work() -> None:
    content = written()
    assert content["course"]["meetings"] == [  # type: ignore[call-overload]
        {"days": ["TU", "TH"], "start": "10:00", "end": "11:15", "room": None, "kind": None}
    ]
    assert content["no_class"] == [{"name": "Autumn break", "first_day": "2026-10-15", "last_day": "2026-10-16"}]
    assert content["grading"]["scale"] == [{"letter": "A", "minimum": 93.0}]  # type: ignore[call-overload]
    assert content["undated"][0]["reason"] == "the outline gives no date"
