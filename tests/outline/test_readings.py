"""Readings tied to a date."""

from __future__ import annotations

from .documents import document
from .reading import readings, titles


def test_a_reading_column() -> None:
    found = readings(
        document(
            [
                ["Date", "Topic", "Reading"],
                ["Sep 14", "Rome", "Livy, book 1; Mary B., ch. 2"],
                ["Sep 16", "Gaul", "--"],
                ["Sep 21", "Exam 1", "Study for the exam"],
            ]
        )
    )
    assert found == {"Livy, book 1": "month_day(9, 14)", "Mary B., ch. 2": "month_day(9, 14)"}


def test_chapter_numbers_under_the_name_of_a_book() -> None:
    found = readings(document([["Week of", "Topic", "Park Ch."], ["Sep 14", "Sets", "2"], ["Sep 21", "Maps", "3, 4"]]))
    assert found == {"Park Ch. 2": "week_of(month_day(9, 14))", "Park Ch. 3, 4": "week_of(month_day(9, 21))"}


def test_a_reading_before_a_weekday_of_the_week() -> None:
    found = readings(
        document(
            [
                ["Week 1 (Sep 14 / 16)\nTrade", "Read. Ch. 1 (Thurs.)"],
                ["Week 2 (Sep 21 / 23)\nPrices", "Read. Ch. 2, 3 (Mon.)"],
                ["Week 3 (Sep 28 / 30)\nTaxes", "Read. Ch. 4 (Mon.)"],
            ]
        )
    )
    assert found["Ch. 1"] == "weekday_in(week_of(month_day(9, 14)), TH)"
    assert found["Ch. 2, 3"] == "weekday_in(week_of(month_day(9, 21)), MO)"


def test_readings_in_a_column_of_assignments() -> None:
    outline = document(
        [
            ["Date", "Assignments"],
            ["Sep 14", "Reading - read before Sep. 16; Quiz 1"],
            ["Sep 21", "Quiz 2"],
            ["Sep 28", ""],
        ]
    )
    assert readings(outline) == {"Reading": "month_day(9, 16)"}
    assert titles(outline) == ["Quiz 1", "Quiz 2"]


def test_chapters_named_in_the_topic_column() -> None:
    found = readings(document([["Date", "Topic"], ["Sep 14", "Moore Ch. 2 – Arrays"], ["Sep 21", "Project work"]]))
    assert list(found) == ["Moore Ch. 2 – Arrays"]


def test_readings_named_within_the_topic_of_a_class() -> None:
    found = readings(
        document(
            [
                ["Date", "Topic"],
                ["Sep 14", "How a river finds its way (read chapter 3)"],
                ["Sep 16", "Dams and their cost. Read pp. 12–30. Quiz 1."],
                ["Sep 21", "Read aloud in pairs"],
                ["Sep 23", "Wells (read by everybody)"],
            ]
        )
    )
    assert {title: day for title, day in found.items() if day in ("month_day(9, 14)", "month_day(9, 16)")} == {
        "Chapter 3": "month_day(9, 14)",
        "Pp. 12–30": "month_day(9, 16)",
    }
    assert "month_day(9, 23)" not in found.values()


def test_a_class_about_reading_something_is_no_reading() -> None:
    rows = [
        ["Week of", "In class", "Due"],
        ["Sep 14", "Mon: Introduction\nWed: Reading a tide table", ""],
        ["Sep 21", "Mon: Reading closely\nWed: Reading: Orlo, ch. 2", "Essay 1"],
        ["Sep 28", "Mon: Reading pp. 4-9\nWed: Reading Orlo, ch. 3", ""],
    ]
    assert list(readings(document(rows))) == ["Orlo, ch. 2", "Pp. 4-9", "Orlo, ch. 3"]
