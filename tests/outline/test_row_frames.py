"""Rows whose month is written only now and then. Inputs are invented."""

from __future__ import annotations

from .documents import document, heading
from .reading import dated_work, days_off, notation, work


def test_a_month_written_once_holds_for_the_rows_below() -> None:
    found = dated_work(
        document(
            [
                ["month day", "lecture", "due"],
                ["Jan M 5", "Hulls", ""],
                ["W 7", "Keels", "PA0 out"],
                ["M 12", "Sails", "PA0"],
                ["F 23", "Last lecture on ropes", "PA1, PA2 out"],
                ["Feb M 2", "Knots", "PA2"],
            ]
        )
    )
    assert found == {
        "assignment: PA0": "month_day(1, 12, MO)",
        "assignment: PA1": "month_day(1, 23, FR)",
        "assignment: PA2": "month_day(2, 2, MO)",
    }


def test_days_that_begin_again_are_of_the_next_month_and_marked_without_a_weekday() -> None:
    rows = [["Date", "Topic"], ["Sept 20", "Hulls"], ["22", "Quiz 1"], ["29", "Keels"], ["4", "Quiz 2"]]
    first, second = work(document(rows))
    assert (notation(first.mentions[0]), first.mentions[0].doubts) == ("month_day(9, 22)", ())
    assert notation(second.mentions[0]) == "month_day(10, 4)" and second.mentions[0].doubts
    weekdays = [["Date", "Topic"], ["Sept T 20", "Hulls"], ["Th 29", "Quiz 1"], ["T 4", "Quiz 2"], ["Th 6", "Keels"]]
    assert [notation(item.mentions[0]) for item in work(document(weekdays))] == [
        "month_day(9, 29, TH)",
        "month_day(10, 4, TU)",
    ]


def test_a_column_of_months_beside_a_column_of_days() -> None:
    found = dated_work(
        document(
            [
                ["Month", "Day", "In class", "Due"],
                ["September", "1", "Audience", ""],
                ["^", "6", "Tone", "Memo 1"],
                ["^", "13", "Mail", "Memo 2"],
                ["October", "4", "Charts", "Report draft"],
            ]
        )
    )
    assert list(found.values()) == ["month_day(9, 6)", "month_day(9, 13)", "month_day(10, 4)"]


def test_a_heading_with_a_month_between_two_tables_holds_for_the_second() -> None:
    found = dated_work(
        document(
            heading("OCTOBER"),
            [["2", "Hulls"], ["7", "Quiz 1"], ["28", "Keels"]],
            heading("NOVEMBER"),
            [["4", "Sails"], ["6", "Quiz 2"], ["14", "Unit 3 test"]],
        )
    )
    assert found == {
        "quiz: Quiz 1": "month_day(10, 7)",
        "quiz: Quiz 2": "month_day(11, 6)",
        "exam: Unit 3 test": "month_day(11, 14)",
    }


def test_numbers_that_say_how_many_make_no_schedule() -> None:
    grading = [["Item", "No.", "Points", "Total"], ["Reports", "8", "20", "160"], ["Practical exam", "1", "60", "60"]]
    assert dated_work(document([*grading, ["Final exam", "1", "80", "80"]])) == {}


def test_days_before_months_with_full_stops() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Topic", "Sheet"],
                ["18.10.", "Arguments", ""],
                ["3.11.", "Sets", "Sheet 2 due"],
                ["8.11.", "Test 1", ""],
            ]
        )
    )
    assert found == {"assignment: Sheet 2": "month_day(11, 3)", "exam: Test 1": "month_day(11, 8)"}


def test_days_with_weekdays_in_brackets_and_stretches_of_days() -> None:
    rows = [
        ["Date", "Lec.", "Topic"],
        ["Sept. 4 (Th)", "1", "Air"],
        ["9 (Tu)", "2", "Heat"],
        ["11 (Th)", "", "Term Test 1 (lectures 1-2)"],
        ["14-17", "", "Reading week"],
        ["Oct. 2 (Th)", "3", "Quiz 1"],
    ]
    outline = document(rows)
    assert dated_work(outline) == {"exam: Term Test 1": "month_day(9, 11, TH)", "quiz: Quiz 1": "month_day(10, 2, TH)"}
    assert list(days_off(outline).values()) == ["span(month_day(9, 14), month_day(9, 17))"]
