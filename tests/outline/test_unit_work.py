"""Work of every chapter or unit that is due when it is begun."""

from __future__ import annotations

import pytest

from .documents import document, heading
from .reading import dated_work, work

_ROWS = (
    "Mon 9/7 Cells [ch 1]",
    "Wed 9/9 Cells again",
    "Mon 9/14 Tissue [ch 2]",
    "Wed 9/16 EXAM 1 (ch 1–2)",
    "Mon 9/21 Blood, lymph [ch 3]",
    "Wed 9/23 Bone ch. 4-5",
)


@pytest.mark.parametrize(
    ("rule", "title", "time"),
    [
        (
            "Each chapter’s MapCheck is due at 1:00 pm on the day on which we start the chapter.",
            "MapCheck chapter {}",
            "13:00",
        ),
        ("MapChecks for a chapter are due at noon on the day it begins.", "MapCheck chapter {}", "12:00"),
        ("The worksheet for each chapter is due the day we begin it.", "Worksheet chapter {}", ""),
        ("Chapter worksheets are due at 9 am on the day the chapter is first listed.", "Chapter {} worksheet", "09:00"),
    ],
)
def test_work_is_due_where_its_chapter_first_stands(rule: str, title: str, time: str) -> None:
    found = dated_work(document(heading("Homework"), rule, heading("Schedule"), *_ROWS))
    at = f" @{time}" if time else ""
    assert {key: value for key, value in found.items() if "exam" not in key} == {
        f"assignment: {title.format(1)}": f"numeric_date(9, 7, weekday=MO){at}",
        f"assignment: {title.format(2)}": f"month_day(9, 14, MO){at}",
        f"assignment: {title.format(3)}": f"month_day(9, 21, MO){at}",
        f"assignment: {title.format(4)}": f"month_day(9, 23, WE){at}",
        f"assignment: {title.format(5)}": f"month_day(9, 23, WE){at}",
    }


def test_a_schedule_that_leaves_chapters_out_raises_a_doubt() -> None:
    rows = [row for row in _ROWS if "ch 2]" not in row]
    found = work(document(heading("Homework"), "The worksheet for each chapter is due the day we begin it.", *rows))
    assert all(item.mentions[0].doubts for item in found if "orksheet" in item.title)


def test_rules_about_other_days_give_no_work() -> None:
    for rule in (
        "Each chapter's worksheet is due the week after we start the chapter.",
        "Each chapter's slides are posted on the day on which we start the chapter.",
    ):
        assert set(dated_work(document(heading("Homework"), rule, heading("Schedule"), *_ROWS))) == {"exam: EXAM 1"}


def test_a_sentence_about_all_rows_does_not_belong_to_the_last_one() -> None:
    note = "The number in italics is the chapter that opens on that day; its worksheet is due at noon."
    assert set(dated_work(document(heading("Schedule"), *_ROWS, note))) == {"exam: EXAM 1"}
