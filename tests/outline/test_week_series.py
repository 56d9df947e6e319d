"""Work of one weekday in a run of numbered weeks."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import DAY_NOT_THE_CLASS
from syllabus_io.outline.week_series import week_series

from .documents import document, heading
from .reading import dated_work, days_off, readings, titles, work


@pytest.mark.parametrize(
    ("text", "weeks", "day"),
    [
        ("Weeks 2–4, each to be sent by Sunday 8 pm of that week", [2, 3, 4], "SU"),
        ("every Friday, weeks 3 to 5, by noon", [3, 4, 5], "FR"),
        ("Fridays of weeks 2-5 (not week 4)", [2, 3, 5], "FR"),
        ("Week 3 to Week 4, due by Monday 9 am of the week", [3, 4], "MO"),
        ("Weeks 1 to 5 except weeks 2 and 4, Thursdays", [1, 3, 5], "TH"),
        ("Weeks 3, 5, 7 and 9, by Friday 5 pm", [3, 5, 7, 9], "FR"),
        ("Thursdays of weeks 4 & 8", [4, 8], "TH"),
        ("Weeks 2–11", [], ""),
        ("Weeks 3, 5 and 7", [], ""),
        ("due on the Sunday of week 4", [], ""),
        ("Weeks 4–2, each Friday", [], ""),
    ],
)
def test_runs_of_weeks(text: str, weeks: list[int], day: str) -> None:
    series = week_series(text)
    assert ([number for number, _ in series.days] if series else []) == weeks
    assert not series or all(f", {day})" in repr_of(phrase) for _, phrase in series.days)


def repr_of(phrase: object) -> str:
    from syllabus_io.resolve.expression import Phrase, write_expression

    assert isinstance(phrase, Phrase) and phrase.expression is not None
    return write_expression(phrase.expression)


def test_a_row_of_a_table_of_tasks() -> None:
    rows = [
        ["No.", "Task", "Value", "Due date"],
        ["1", "Vocabulary quizzes (best 2 of 3)", "30%", "Weeks 3–5, each closes Sunday 8 pm of that week"],
        ["2", "Policy memo (individual, 900 words)", "70%", "Friday 5 September 2025, 5.00 pm (Week 6)"],
    ]
    rows.append(["3", "Group talk", "10%", "In tutorials, Week 9"])
    *_, talk = work(document(rows))
    assert DAY_NOT_THE_CLASS in talk.mentions[0].doubts, "the day of a tutorial is not that of the lecture"
    assert dated_work(document(rows[:3])) == {
        "quiz: Vocabulary quiz, week 3": "weekday_in(week(3), SU) @20:00",
        "quiz: Vocabulary quiz, week 4": "weekday_in(week(4), SU) @20:00",
        "quiz: Vocabulary quiz, week 5": "weekday_in(week(5), SU) @20:00",
        "assignment: Policy memo": "day(2025-09-05, FR) @17:00",
    }


def test_a_week_before_its_day_is_no_second_date() -> None:
    rows = [
        ["Task", "Value", "Due date"],
        ["Field report", "60%", "Week 5: Friday 4 April, 4 pm"],
        ["Diary", "40%", "2 May (Week 9)"],
    ]
    said = "Assessment item 1: Field report. Submit online by 4 pm on the Friday of Week 5."
    assert dated_work(document(rows, said)) == {
        "assignment: Field report": "month_day(4, 4) @16:00",
        "assignment: Diary": "month_day(5, 2)",
    }


def test_sentences_and_paragraphs_under_a_name() -> None:
    assert titles(document(heading("Tests"), "There is a short quiz every Friday of weeks 3 to 5.")) == [
        "Short quiz, week 3",
        "Short quiz, week 4",
        "Short quiz, week 5",
    ]
    assert titles(document("Field journals. Weeks 2–3, due each Sunday at 8 pm.")) == [
        "Field journal, week 2",
        "Field journal, week 3",
    ]


def test_hours_of_help_are_no_series() -> None:
    assert not work(document(heading("Help"), "The tutor holds office hours every Friday, weeks 3 to 6."))


def test_a_number_before_the_name_of_a_paragraph_is_not_its_name() -> None:
    found = dated_work(
        document(
            heading("Tasks"),
            "Task 2: Garden plan. Groups of four. The report is due at 5 pm on Monday, 20 October.",
            "Task 3: Exam. The Exam Board publishes the times on 9 October.",
        )
    )
    assert list(found.values()) == ["month_day(10, 20, MO) @17:00"], found
    assert not any("Task" in title for title in found)


def test_work_beside_the_column_of_the_class_is_not_put_on_the_day_of_the_class() -> None:
    outline = document(
        "Lecture: Tuesday 9:00 – 11:00 am",
        [
            ["Week", "Begins", "Lecture (Tues)", "Reading", "Assessment/notes"],
            ["1", "28 Jul", "Soils", "ch 1", ""],
            ["2", "4 Aug", "Rivers (Monday is Founders Day holiday)", "ch 2", "Group presentations in studios"],
            ["3", "11 Aug", "Coasts", "ch 3", "Quiz 1"],
            ["4", "18 Aug", "Deserts", "ch 4", ""],
        ],
    )
    assert all(item.mentions[0].doubts for item in work(outline)), "no day is written for either"
    assert readings(outline)["Ch 2"] == "weekday_in(week_of(month_day(8, 4)), TU)"
    assert list(days_off(outline).values()) == ["weekday_in(week_of(month_day(8, 4)), MO)"]
