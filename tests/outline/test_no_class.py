"""Days off: in rows, weekday columns, notes and sentences."""

from __future__ import annotations

import pytest

from syllabus_io.outline.read import read_outline

from .documents import document, heading, line
from .reading import days_off, notation


def test_days_off_in_rows_and_sentences() -> None:
    found = days_off(
        document(
            [
                ["Date", "Topic"],
                ["Mon Sep 7", "Labor Day – No class"],
                ["Wed Sep 16", "Tides"],
                ["Oct 12-13", "Fall break (no classes)"],
                ["Nov 25-27", "Thanksgiving recess"],
                ["Nov 30", "Class cancelled"],
            ],
            "No class on October 30 (Founders Day).",
            "Spring Break: March 14-18",
        )
    )
    assert found == {
        "Labor Day": "month_day(9, 7, MO)",
        "Fall break": "span(month_day(10, 12), month_day(10, 13))",
        "Thanksgiving recess": "span(month_day(11, 25), month_day(11, 27))",
        "Class cancelled": "month_day(11, 30)",
        "Founders Day": "month_day(10, 30)",
        "Spring Break": "span(month_day(3, 14), month_day(3, 18))",
    }


def test_days_listed_with_strokes() -> None:
    found = days_off(
        document(
            [
                ["Date", "Topic", "Due"],
                ["Nov 16", "Markets", ""],
                ["Thanksgiving Recess - No Class on Nov. 25/26/27", None, None],
                ["Nov 30", "Prices", ""],
            ]
        )
    )
    assert found == {"Thanksgiving Recess": "span(month_day(11, 25), month_day(11, 27))"}


def test_a_break_in_the_row_of_a_week_is_its_monday_to_friday() -> None:
    found = days_off(
        document([["Week of", "Topic"], ["Mar 14", "Spring break"], ["Mar 21", "Decision trees"], ["Mar 28", "Nets"]])
    )
    assert found == {
        "Spring break": "span(weekday_in(week_of(month_day(3, 14)), MO), weekday_in(week_of(month_day(3, 14)), FR))"
    }


def test_a_break_named_behind_the_last_topic_before_it() -> None:
    found = days_off(
        document("Thurs Feb 16: Growth models", "Fri Feb 17: Metapopulation models WINTER BREAK", "Tues Feb 28: Space")
    )
    assert list(found) == ["WINTER BREAK"]
    assert "calendar_week(month_day(2, 17, FR), 1)" in found["WINTER BREAK"]


def test_a_range_of_day_numbers_beside_the_break() -> None:
    found = days_off(
        document(
            [
                ["Topics & dates", "Activities", "Due"],
                ["October 14 - October 20\n15-16 FALL BREAK\nMemory", "Video", "Quiz 1"],
                ["October 21 - October 27\nLearning", "Video", "Quiz 2"],
            ]
        )
    )
    assert found == {"FALL BREAK": "span(month_day(10, 15), month_day(10, 16))"}


def test_numbered_notes_name_days_off() -> None:
    found = days_off(
        document(
            [
                ["Week", "Date", "Topic", "Note"],
                ["1", "1/18", "Sets", "1"],
                ["2", "1/25", "Maps", "2"],
                ["3", "2/15", "Break", "3"],
            ],
            "Note 1: Monday holiday",
            "Note 2: Bring a ruler",
            "Note 3: Full-week holiday",
        )
    )
    assert found["Monday holiday"] == "weekday_in(week_of(month_day(1, 18)), MO)"
    assert len(found) == 2


def test_sentences_about_breaks_are_no_days_off() -> None:
    outline = document(
        "Essay 2 is due after spring break.",
        "See the policy on religious holidays.",
        [["Date", "Topic"], ["Mar 16", "Watch the film over break"], ["Mar 18", "Half-term revision"]],
    )
    assert days_off(outline) == {}


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            "Teaching weeks 1–11 run from Monday 28 September to Friday 11 December 2026; week 6 is reading week.",
            ["span(weekday_in(week(6), MO), weekday_in(week(6), FR))"],
        ),
        (
            "The mid-semester break is 21 September to 2 October 2026 (after Week 8) and has no week number.",
            ["span(day(2026-09-21), day(2026-10-02))"],
        ),
        (
            "Spring break: week of March 16.",
            ["span(weekday_in(week_of(month_day(3, 16)), MO), weekday_in(week_of(month_day(3, 16)), FR))"],
        ),
        (
            "No school: September 7, October 12, November 25–27.",
            ["month_day(9, 7)", "month_day(10, 12)", "span(month_day(11, 25), month_day(11, 27))"],
        ),
        (
            "No studio on October 12 and from November 25 to 27.",
            ["month_day(10, 12)", "span(month_day(11, 25), month_day(11, 27))"],
        ),
        ("Thanksgiving break: November 25, 26, 27", ["span(month_day(11, 25), month_day(11, 27))"]),
        ("Spring break begins March 9 and ends March 13.", ["span(month_day(3, 9), month_day(3, 13))"]),
        ("Classes resume after spring break on March 16.", []),
    ],
)
def test_stretches_lists_and_weeks_off_in_sentences(said: str, expected: list[str]) -> None:
    assert [notation(off.mention) for off in read_outline(document(said)).no_class] == expected


def test_the_name_of_a_day_off_is_no_slice_of_its_sentence() -> None:
    assert days_off(
        document("We skip Sept 7 for Labor Day.", "The school is closed on Presidents' Day, February 15.")
    ) == {
        "Labor Day": "month_day(9, 7)",
        "Presidents' Day": "month_day(2, 15)",
    }


def test_a_weekday_in_a_week_is_the_only_day_off_of_that_week() -> None:
    outline = document(
        heading("Week 2 (Jan 18-22)"),
        line("Monday: MLK Day, no class", marker="•"),
        heading("Week 3 (Jan 25-29)"),
        line("No class Friday", marker="•"),
        heading("Week 4 (Feb 1-5)"),
        line("Maps", marker="•"),
        heading("Week 6 (Feb 15-19)"),
        line("Presidents' Day, no class", marker="•"),
        heading("Week 9 (Mar 8-12)"),
        line("Spring break, no classes", marker="•"),
    )
    assert list(days_off(outline).values()) == [
        "weekday_in(week_of(month_day(1, 18)), MO)",
        "weekday_in(week_of(month_day(1, 25)), FR)",
        "weekday_in(week_of(month_day(2, 15)), MO)",
        "span(month_day(3, 8), month_day(3, 12))",
    ]


def test_days_of_the_registrar_in_a_list_of_dates_are_no_days_off() -> None:
    text = (
        "Important dates: Jan 15 last day to add; Mar 5 last day to drop; Mar 8-12 spring break; "
        "Mar 15 classes resume; Apr 2 no class; April 30 last class."
    )
    assert list(days_off(document(text)).values()) == ["span(month_day(3, 8), month_day(3, 12))", "month_day(4, 2)"]


def test_a_holiday_that_is_observed_is_a_day_off() -> None:
    assert days_off(document("July 3: Independence Day observed (college closed)")) == {
        "Independence Day": "month_day(7, 3)"
    }


def test_a_break_in_the_row_of_a_class_is_that_day_where_the_week_has_another_class() -> None:
    by_class = [["6", "T 10/11", "Fall break"], ["6", "Th 10/13", "Whales"], ["7", "T 10/18", "Ice"]]
    assert days_off(document([["Week", "Date", "Topic"], *by_class]))["Fall break"].startswith("numeric_date(10, 11")
    by_week = [["5", "10/4", "Tides"], ["6", "10/11", "Fall break"], ["7", "10/18", "Ice"]]
    assert days_off(document([["Week", "Date", "Topic"], *by_week]))["Fall break"].startswith("span(")


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (
            "Fall break Mon-Tue. Samples",
            "span(weekday_in(week_of(month_day(10, 14)), MO), weekday_in(week_of(month_day(10, 14)), TU))",
        ),
        (
            "Thanksgiving Wed-Fri",
            "span(weekday_in(week_of(month_day(10, 14)), WE), weekday_in(week_of(month_day(10, 14)), FR))",
        ),
    ],
)
def test_weekdays_of_a_week_off(said: str, expected: str) -> None:
    rows = [["Week of", "Topic"], ["Sep 30", "Tests"], ["Oct 7", "Power"], ["Oct 14", said], ["Oct 21", "Pairs"]]
    assert [notation(off.mention) for off in read_outline(document(rows)).no_class] == [expected]


def test_two_holidays_with_their_days_are_no_stretch() -> None:
    found = days_off(document("Offices closed for Juneteenth (Thurs 6/19) and Independence Day (Fri 7/4)."))
    assert list(found.values()) == ["month_day(6, 19, TH)", "numeric_date(7, 4, weekday=FR)"]


def test_what_stands_before_the_words_for_no_class_is_held() -> None:
    assert list(days_off(document("Studio days through Oct 8, no class Oct 13.")).values()) == ["month_day(10, 13)"]


def test_a_class_that_is_cancelled_behind_work_that_is_due() -> None:
    rows = ["Sep 30 Theory.", "Oct 2 Theory.", "Oct 7 Proposals due by email at noon. Class canceled."]
    assert list(days_off(document(*rows)).values()) == ["month_day(10, 7)"]


def test_stretches_of_days_under_a_month() -> None:
    lines = ["2 Talk", "9 Maps", "18-19 No school: fair", "22-Jan 2 Winter recess"]
    assert list(days_off(document(heading("DECEMBER"), *lines)).values()) == [
        "span(month_day(12, 18), month_day(12, 19))",
        "span(month_day(12, 22), month_day(1, 2))",
    ]


def test_a_break_among_the_dates_of_the_university() -> None:
    text = (
        "University dates: Jan 24 last day to add; Mar 10-14 spring break; Mar 28 last drop day; May 5-9 final exams."
    )
    assert days_off(document(text)) == {"Spring break": "span(month_day(3, 10), month_day(3, 14))"}
