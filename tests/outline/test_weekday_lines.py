"""Lines of a week that open with weekdays: runs of days, and a heading in the middle of a week."""

from __future__ import annotations

import pytest

from syllabus_io.outline.weekday_lines import labelled_days
from syllabus_io.resolve.expression import Weekday

from .documents import document, heading, line
from .reading import dated_work, days_off, readings, work


def test_a_heading_inside_a_week_does_not_end_it() -> None:
    found = dated_work(
        document(
            heading("PART ONE: TREES"),
            heading("Week 1 (9/7–9/11)", 3),
            "Tue: Introductions",
            heading("Week 2 (9/14–9/18)", 3),
            "Tue: Leaf shapes",
            heading("PART TWO: RIVERS"),
            "Thu: Quiz 1",
            heading("Week 3 (9/21–9/25)", 3),
            "Tue: Deltas",
        )
    )
    assert found == {"quiz: Quiz 1": "weekday_in(week_of(month_day(9, 14)), TH)"}


def test_a_heading_behind_a_week_ends_it() -> None:
    found = work(
        document(
            heading("Week 1 (9/7–9/11)", 3),
            "Tue: Introductions",
            heading("Week 2 (9/14–9/18)", 3),
            "Tue: Leaf shapes",
            heading("Week 3 (9/21–9/25)", 3),
            "Thu: Deltas",
            heading("Help desk"),
            "Mon: Quiz 9 questions answered",
        )
    )
    assert not found, "the hours of a help desk stand in no week of the schedule"


def test_days_off_and_work_of_a_run_of_weekdays() -> None:
    outline = document(
        line("Week 5 (9/28–10/2)", bold=True),
        "Mon and Tue: Autumn recess, no classes",
        "Wed: Sketching outdoors",
        line("Week 6 (10/5–10/9)", bold=True),
        "Mon: Shading",
        "Wed–Fri: Group presentations",
        line("Week 7 (10/12–10/16)", bold=True),
        "Mon: Perspective",
        "Thurs-Fri: Thanksgiving",
    )
    assert days_off(outline) == {
        "Autumn recess": "span(weekday_in(week_of(month_day(9, 28)), MO), weekday_in(week_of(month_day(9, 28)), TU))",
        "Thanksgiving": "span(weekday_in(week_of(month_day(10, 12)), TH), weekday_in(week_of(month_day(10, 12)), FR))",
    }
    (talk,) = work(outline)
    assert talk.mentions[0].doubts, "three days are named, and not which of them is one's own"


def test_readings_stand_on_the_weekday_that_opens_their_line() -> None:
    found = readings(
        document(
            heading("Week 1 (9/14–9/18)", 3),
            "Mon: Maps",
            "Wed: ch. 2",
            heading("Week 2 (9/21–9/25)", 3),
            "Mon: ch. 3",
            heading("Week 3 (9/28–10/2)", 3),
            "Fri: Compasses",
        )
    )
    assert found == {
        "Ch. 2": "weekday_in(week_of(month_day(9, 14)), WE)",
        "Ch. 3": "weekday_in(week_of(month_day(9, 21)), MO)",
    }


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Mon/Tues: Field camp", (Weekday.MO, Weekday.TU)),
        ("Wed–Fri: Break", (Weekday.WE, Weekday.FR)),
        ("Thursday and Friday - Break", (Weekday.TH, Weekday.FR)),
        ("Tue through Thu: Field work", (Weekday.TU, Weekday.TH)),
        ("Tues/Thurs: Lecture", None),
        ("Fri–Mon: Trip", None),
        ("Wed: Quiz", None),
    ],
)
def test_labels_of_several_days(text: str, days: tuple[Weekday, Weekday] | None) -> None:
    found = labelled_days(text)
    assert (found[:2] if found else None) == days
