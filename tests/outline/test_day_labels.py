"""Weekdays that open an entry, in the row of a week."""

from __future__ import annotations

from syllabus_io.outline.day_labels import IN_ORDER, labelled_entries
from syllabus_io.outline.entry_dates import Reading
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.mentions import read_drafts
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import Week, Weekday, WeekdayIn

from .documents import document
from .reading import dated_work, notation, work


def labelled(text: str, frame: Frame) -> list[tuple[str, Weekday | None]]:
    passage = Passage(text, Place("made.pdf"), frame=frame)
    return [(entry.text, framed.frame.weekday) for entry, framed in labelled_entries(passage)]


WEEK = Frame(stretch=Week(4), week=4)


def test_a_weekday_dates_its_entry_and_what_follows_on_the_line() -> None:
    text = "Tue: Quiz 1; Lab report 2 is due\nThurs – Essay 1\nProject plan due"
    assert labelled(text, WEEK) == [
        ("Quiz 1", Weekday.TU),
        ("Lab report 2 is due", Weekday.TU),
        ("Essay 1", Weekday.TH),
        ("Project plan due", None),
    ]


def test_letters_with_a_dash_are_labels_in_a_week() -> None:
    assert labelled("W – Vectors; Quiz 1\nF – Essay 1", WEEK) == [
        ("Vectors", Weekday.WE),
        ("Quiz 1", Weekday.WE),
        ("Essay 1", Weekday.FR),
    ]


def test_labels_on_one_line_cut_it() -> None:
    assert labelled("Mon: Field methods Wed: Quiz 1 Fri: Essay 2 due by 5 pm", WEEK) == [
        ("Field methods", Weekday.MO),
        ("Quiz 1", Weekday.WE),
        ("Essay 2 due by 5 pm", Weekday.FR),
    ]


def test_only_a_label_counts_and_only_in_a_dated_row() -> None:
    assert labelled("Monday quiz review", WEEK) == [("Monday quiz review", None)]
    assert labelled("Sunspots: a report", WEEK) == [("Sunspots: a report", None)]
    assert labelled("Wed: Quiz 1", Frame()) == [("Wed: Quiz 1", None)]


def test_a_weekday_behind_a_comma_belongs_to_the_work_before_it() -> None:
    passage = Passage("Quiz 1, Tuesday, and Quiz 2, Thursday", Place("made.pdf"), role=ColumnRole.WORK, frame=WEEK)
    found = [(draft.item.title, draft.mention.phrase.expression) for draft in read_drafts(passage, Reading())]
    assert found == [("Quiz 1", WeekdayIn(Week(4), Weekday.TU)), ("Quiz 2", WeekdayIn(Week(4), Weekday.TH))]


def test_letters_open_and_close_entries_of_a_week() -> None:
    assert labelled("M: Ponds\nW: Quiz 1\nF: Essay 1 due", WEEK) == [
        ("Ponds", Weekday.MO),
        ("Quiz 1", Weekday.WE),
        ("Essay 1 due", Weekday.FR),
    ]
    assert labelled("HW 1 due W; Midterm 1 F; Lab 2 (Th)", WEEK) == [
        ("HW 1 due", Weekday.WE),
        ("Midterm 1", Weekday.FR),
        ("Lab 2", Weekday.TH),
    ]


def test_a_weekday_closes_an_entry_of_a_week() -> None:
    assert labelled("Care plan by 9 pm Sun; Quiz 2, Tuesday", WEEK) == [
        ("Care plan by 9 pm", Weekday.SU),
        ("Quiz 2", Weekday.TU),
    ]
    assert labelled("Journal every Friday; Quiz F; Plan M", WEEK) == [
        ("Journal every Friday", None),
        ("Quiz F", None),
        ("Plan M", None),
    ]
    assert labelled("Quiz 2, Tuesday", Frame(day=Week(4))) == [("Quiz 2, Tuesday", None)]


def test_two_works_of_a_week_each_with_its_letter() -> None:
    assert labelled("HW1 (W), Q2 (F)", WEEK) == [("HW1", Weekday.WE), ("Q2", Weekday.FR)]
    assert labelled("HW 3 due W, Quiz 4 due F", WEEK) == [("HW 3 due", Weekday.WE), ("Quiz 4 due", Weekday.FR)]


def test_as_many_topics_as_days_stand_each_on_its_day_and_are_marked() -> None:
    lines = [
        "Week 4 (9/21, 9/23): Courts; Parties",
        "Week 5 (9/28, 9/30): Review; Exam 1",
        "Week 6 (10/5, 10/7): Media; Brief 2 due",
    ]
    found = {item.title: item.mentions[0] for item in work(document(*lines))}
    assert notation(found["Exam 1"]) == "month_day(9, 30)" and found["Exam 1"].doubts == (IN_ORDER,)
    assert notation(found["Brief 2"]).startswith("span("), "work that is due may be due on either day"


def test_a_weekday_at_the_end_of_a_line_labels_the_next() -> None:
    found = dated_work(
        document(
            [
                ["Week of", "Topic", "Due"],
                ["Sept 14", "Rivers", "Due: Worksheet 2, Tuesday; Fri:\nDue: Worksheet 3"],
                ["Sept 21", "Ice", "Essay 1 (Mon)"],
                ["Sept 28", "Snow", "Essay 2 (Tue)"],
            ]
        )
    )
    assert found["assignment: Worksheet 3"] == "weekday_in(week_of(month_day(9, 14)), FR)"
