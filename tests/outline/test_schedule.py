"""Schedule tables: a row a class, a row a week, weekday columns, merged cells, tables that go on."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.extract.document import Part
from syllabus_io.outline.mentions import GIVEN_OR_DUE
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.schedule import LOOSE_ROWS
from syllabus_io.provenance import Box
from syllabus_io.resolve.expression import write_expression

from .documents import document, heading, note, table
from .reading import dated_work, titles, work


def test_a_row_a_class_with_a_due_column() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Topic", "Due"],
                ["Tue 9/8", "Welcome", "-"],
                ["Thu 9/24", "Verbs", "HW 1; Vocabulary log"],
                ["Tue 9/29", "Nouns", "HW 2 and Quiz 1"],
                ["Thu 10/15", "Exam I (chapters 1-3)", "Essay 1 draft\nHW 3"],
            ]
        )
    )
    assert found == {
        "assignment: HW 1": "month_day(9, 24, TH)",
        "assignment: Vocabulary log": "month_day(9, 24, TH)",
        "assignment: HW 2": "month_day(9, 29, TU)",
        "quiz: Quiz 1": "month_day(9, 29, TU)",
        "exam: Exam I": "month_day(10, 15, TH)",
        "assignment: Essay 1 draft": "month_day(10, 15, TH)",
        "assignment: HW 3": "month_day(10, 15, TH)",
    }


def test_what_an_exam_covers_is_kept_beside_its_title() -> None:
    exam = work(document([["Date", "Topic"], ["Oct 15", "Exam 2 (chapters 4-6)"], ["Oct 20", "Tides"]]))[0]
    assert (exam.title, exam.covers) == ("Exam 2", "Chapters 4-6")


def test_a_row_a_week_with_a_column_a_weekday() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Monday", "Wednesday", "Friday"],
                ["1 (Sep 14)", "Cells", "Lab report 1 due", "Quiz 1"],
                ["2 (Sep 21)", "Review for exam", "Exam 1", "Energy"],
            ]
        )
    )
    assert found == {
        "assignment: Lab report 1": "weekday_in(week_of(month_day(9, 14)), WE)",
        "quiz: Quiz 1": "weekday_in(week_of(month_day(9, 14)), FR)",
        "exam: Exam 1": "weekday_in(week_of(month_day(9, 21)), WE)",
    }


def test_a_range_of_days_in_the_row_and_the_weekday_in_the_column() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Dates", "Tuesday", "Thursday"],
                ["1", "9/15-17", "Maps", "Quiz 1"],
                ["2", "9/22-24", "Charts", "Quiz 2"],
            ]
        )
    )
    assert found == {
        "quiz: Quiz 1": "weekday_in(week_of(month_day(9, 15)), TH)",
        "quiz: Quiz 2": "weekday_in(week_of(month_day(9, 22)), TH)",
    }


def test_the_weekday_stands_in_the_heading_of_the_due_column() -> None:
    found = dated_work(
        document(
            [
                ["Week of", "Topic", "Due Tuesday"],
                ["Sep 14", "Sound", "Homework 1"],
                ["Sep 21", "Light", "Homework 2"],
            ]
        )
    )
    assert found == {
        "assignment: Homework 1": "weekday_in(week_of(month_day(9, 14)), TU)",
        "assignment: Homework 2": "weekday_in(week_of(month_day(9, 21)), TU)",
    }


def test_the_time_stands_in_the_heading_of_the_due_column() -> None:
    found = dated_work(document([["Date", "Due @ 5 pm"], ["Sep 14", "Sketch 1"], ["Sep 21", "Sketch 2"]]))
    assert set(found.values()) == {"month_day(9, 14) @17:00", "month_day(9, 21) @17:00"}


def test_a_week_merged_over_several_rows() -> None:
    outline = read_outline(
        document(
            [
                ["Week", "Date", "Topic", "Due"],
                ["1", "Aug 31", "Sets", ""],
                ["^", "Sep 2", "Maps", "HW 1"],
                ["2", "Sep 7", "Rings", ""],
                ["^", "Sep 9", "Fields", "HW 2"],
            ]
        )
    )
    assert {item.title: item.mentions[0].row for item in outline.items} == {"HW 1": 2, "HW 2": 4}
    assert [(week, write_expression(day)) for week, day in outline.week_rows] == [
        (1, "month_day(8, 31)"),
        (1, "month_day(9, 2)"),
        (2, "month_day(9, 7)"),
        (2, "month_day(9, 9)"),
    ]


def test_a_due_line_in_a_row_without_a_date_belongs_to_the_row_above() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Topic"],
                ["Sep 14", "Waves"],
                ["", "Homework 1 due"],
                ["Sep 21", "Light"],
                ["", "Homework 2 due"],
            ]
        )
    )
    assert found == {"assignment: Homework 1": "month_day(9, 14)", "assignment: Homework 2": "month_day(9, 21)"}


def test_weekday_and_date_on_two_lines_of_a_cell() -> None:
    found = dated_work(
        document(
            [
                ["Day", "Topic", "Assignments"],
                ["Thurs,\nJan 14", "Loops", "Program 1 due"],
                ["Tues,\nJan 19", "Arrays", "Quiz 1"],
            ]
        )
    )
    assert found == {
        "assignment: Program 1": "month_day(1, 14, TH)",
        "quiz: Quiz 1": "month_day(1, 19, TU)",
    }


def test_bare_numbers_under_a_work_heading_take_its_word() -> None:
    found = titles(
        document([["Date", "Topic", "HW due"], ["Sep 14", "Loops", "1"], ["Sep 21", "Arrays", "2"], ["Sep 28", "", ""]])
    )
    assert found == ["HW 1", "HW 2"]


def test_a_table_without_a_header_row() -> None:
    found = dated_work(
        document(
            [
                ["14-Sep-2026", "Data", ""],
                ["21-Sep-2026", "Graphs", "Assignment H1 due"],
                ["28-Sep-2026", "Exam 1", ""],
            ]
        )
    )
    assert found == {"assignment: Assignment H1": "day(2026-09-21)", "exam: Exam 1": "day(2026-09-28)"}


def test_a_table_that_goes_on_without_its_header_keeps_its_columns() -> None:
    first = table([["Dates", "Topic", "Due"], ["Sep 14", "Rome", "Map quiz"], ["Sep 21", "Gaul", "Reflection 1"]])
    second = table([["Sep 28", "Spain", "Reflection 2"], ["Oct 15", "Egypt", "Term paper"]])
    assert titles(document(first, second)) == ["Map quiz", "Reflection 1", "Reflection 2", "Term paper"]


def test_the_same_title_in_two_rows_is_two_works() -> None:
    found = work(
        document([["Week of", "Due"], ["Sep 14", "Discussion post"], ["Sep 21", "Discussion post"], ["Sep 28", ""]])
    )
    assert [len(item.mentions) for item in found] == [1, 1]


def test_days_that_label_rows_follow() -> None:
    found = dated_work(
        document(
            [
                ["day 1", "Monday, September 14"],
                ["IN CLASS", "Introduction"],
                ["ASSIGN", "Exercise 1"],
                ["day 2", "Wednesday, September 16"],
                ["DUE", "Exercise 1\nTwo sketches for the poster"],
                ["IN CLASS", "Work on exercise 2"],
                ["day 3", "Monday, September 21"],
                ["DUE", "Be ready to present"],
                ["IN CLASS", "Quiz on type"],
            ]
        )
    )
    assert found == {
        "assignment: Exercise 1": "month_day(9, 16, WE)",
        "assignment: Two sketches for the poster": "month_day(9, 16, WE)",
        "quiz: Quiz on type": "month_day(9, 21, MO)",
    }


def test_class_numbers_are_dates_of_their_own_kind() -> None:
    found = dated_work(
        document(
            [
                ["Class", "Topic", "Homework"],
                ["1", "Intro", ""],
                ["2", "Loops", "HW 1 due"],
                ["3", "Lists", ""],
                ["12", "Midterm", ""],
            ]
        )
    )
    assert found == {"assignment: HW 1": "meeting_number(2)", "exam: Midterm": "meeting_number(12)"}


def test_a_calendar_of_class_numbers_dates_the_classes() -> None:
    calendar = [["Class 1", "Jul 6", "Class 2", "Jul 8"], ["Class 3", "Jul 14", "Class 4", "Jul 15"]]
    found = dated_work(document("Class 1: Tides", "Class 2: Winds", "Class 3: Midterm", "Class 4: Storms", calendar))
    assert found == {"exam: Midterm": "month_day(7, 14)"}


def test_work_in_the_row_of_a_week_without_a_day_is_marked() -> None:
    found = work(
        document(
            [
                ["Week", "Dates", "Topic", "Due"],
                ["1", "Sep 14-18", "Heat", "Lab report 1"],
                ["2", "Sep 21-25", "Work", "Essay (Friday)"],
            ]
        )
    )
    assert [(item.title, bool(item.mentions[0].doubts)) for item in found] == [("Lab report 1", True), ("Essay", False)]


def test_a_course_that_meets_once_a_week_has_its_work_on_that_day() -> None:
    found = dated_work(
        document(
            heading("Class meetings"),
            "Class time: Wednesdays 6:00 - 9:00 pm",
            [["Week", "Topic"], ["1", "Layers"], ["5", "Midterm exam"], ["10", "Final exam"]],
        )
    )
    assert found == {
        "exam: Midterm exam": "weekday_in(week(5), WE)",
        "exam: Final exam": "weekday_in(week(10), WE)",
    }


def test_a_small_table_of_exam_dates_under_its_title() -> None:
    found = dated_work(
        document(
            [["Finals schedule", None], ["Section 1", "Section 2"], ["December 14, 2:00 PM", "December 14, 4:00 PM"]]
        )
    )
    assert found == {"exam: Final exam": "month_day(12, 14) @14:00"}


def test_the_hours_of_an_event_stand_in_a_column_of_times() -> None:
    found = dated_work(
        document(
            [["Date", "Time", "Event"], ["Oct 14", "10:00-11:15", "Midterm 1"], ["Dec 16", "8:00-10:00", "Final exam"]]
        )
    )
    assert found == {"exam: Midterm 1": "month_day(10, 14) @10:00", "exam: Final exam": "month_day(12, 16) @08:00"}


def test_modules_that_open_and_close() -> None:
    found = dated_work(
        document(
            [
                ["Module", "Opens", "Closes", "Tasks"],
                ["1", "Aug 24", "Aug 30", "Discussion 1; Quiz 1"],
                ["2", "Aug 31", "Sep 26", "Discussion 2; Quiz 2"],
                ["3", "Sep 27", "Oct 31", "Exam 1"],
            ]
        )
    )
    assert found["quiz: Quiz 2"] == "month_day(9, 26)" and found["assignment: Discussion 1"] == "month_day(8, 30)"


def test_work_on_the_line_below_a_due_work_is_work_of_its_own() -> None:
    rows = [["Date", "Topic"], ["Oct 26", "Slits"], ["Oct 30", "Films\nHW 5 due\nQuiz 3"], ["Nov 2", "Rays"]]
    assert dated_work(document(rows)) == {"assignment: HW 5": "month_day(10, 30)", "quiz: Quiz 3": "month_day(10, 30)"}


def test_due_weekdays_in_brackets_of_the_headings() -> None:
    found = dated_work(
        document(
            [
                ["Week", "Dates", "Read", "Discussion (due Thu)", "Quiz (due Sun)"],
                ["1", "9/14-9/20", "Ch. 1", "Introduce yourself", "Quiz 1"],
                ["2", "9/21-9/27", "Ch. 2", "Culture", "Quiz 2"],
            ]
        )
    )
    assert found["assignment: Discussion: Culture"] == "weekday_in(week_of(month_day(9, 21)), TH)"
    assert found["quiz: Quiz 2"] == "weekday_in(week_of(month_day(9, 21)), SU)"


def test_the_range_of_a_take_home_exam_is_its_window() -> None:
    item = work(document([["Dates", "Assignment"], ["Oct 12 - Oct 16", "Take-home midterm"], ["Nov 16 - Nov 20", ""]]))[
        0
    ]
    assert item.mentions[0].doubts == ()


def test_works_that_run_on_in_a_cell_are_told_apart() -> None:
    for said in (
        "Essay 2 due Quiz 3",
        "Essay 2 due by 5 pm Quiz 3",
        "Essay 2 is due\nQuiz 3",
        "Due: Essay 2\nDue: Quiz 3",
        "Quiz 3\nDue: Essay 2",
    ):
        rows = [["Date", "Topic", "Due"], ["Oct 26", "Slits", said], ["Oct 30", "Films", ""], ["Nov 2", "Rays", ""]]
        assert sorted(titles(document(rows))) == ["Essay 2", "Quiz 3"], said


def test_a_weekday_in_a_row_of_class_days_is_one_of_their_week() -> None:
    rows = [
        ["Week", "Dates", "Topic", "Work"],
        ["1", "1/11, 1/13", "Ponds", "Essay 1 due (Fri)"],
        ["2", "1/18, 1/20", "Frogs", "Quiz 1"],
        ["3", "1/25, 1/27", "Newts", ""],
    ]
    assert dated_work(document(rows))["assignment: Essay 1"] == "weekday_in(week_of(numeric_date(1, 11)), FR)"


def test_lines_of_a_cell_that_open_with_days_of_their_own() -> None:
    rows = [
        ["Week", "Meetings", "Due"],
        ["1", "T 1/12 Salt\nR 1/14 Bread", ""],
        ["2", "T 1/19 Exam 1\nR 1/21 Sugar", "Field note 1: 1/21"],
        ["3", "T 1/26 Rice\nR 1/28 Quiz 1", ""],
    ]
    found = dated_work(document(rows))
    assert found["exam: Exam 1"].startswith("month_day(1, 19") and found["quiz: Quiz 1"].startswith("month_day(1, 28")


def test_homework_for_the_next_class_is_due_on_the_day_of_the_row_below() -> None:
    rows = [
        ["Date", "In class", "Homework for next class"],
        ["M 8/31", "Intro", "Essay 1"],
        ["W 9/2", "Claims", "Essay 2"],
        ["W 9/9", "Evidence", "Essay 3"],
    ]
    found = dated_work(document(rows))
    assert found["assignment: Essay 1"].startswith("numeric_date(9, 2")
    assert found["assignment: Essay 2"].startswith("month_day(9, 9")
    assert found["assignment: Essay 3"].startswith("class_near")


def test_numbered_names_in_a_column_of_assignments_and_tests_are_work() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Content", "Assignments/Tests"],
                ["Oct 1", "Bones", "Splint model II"],
                ["Oct 8", "Muscles", "Exam 1"],
                ["Oct 15", "Nerves", "Course book 3"],
            ]
        )
    )
    assert found == {"assignment: Splint model II": "month_day(10, 1)", "exam: Exam 1": "month_day(10, 8)"}


def test_the_exam_below_a_list_of_days_has_its_own_day() -> None:
    outline = document(
        heading("Plan"),
        "Apr 5: Friction",
        "Apr 12: Inertia",
        "Apr 19: Review",
        "Finals week: Final Exam Wed., April 28, 10:30 a.m.",
    )
    assert dated_work(outline) == {"exam: Final Exam": "month_day(4, 28, WE) @10:30"}


def test_named_work_due_at_the_start_of_class_behind_a_topic() -> None:
    rows = [["Date", "Topic"], ["Sep 9", "Privilege. Motion in limine due by start of class."], ["Sep 14", "Experts"]]
    assert titles(document(rows)) == ["Motion in limine"]


def test_what_an_aside_denies_or_leaves_ungraded_touches_only_itself() -> None:
    found = dated_work(
        document(
            [
                ["Date", "Topic", "Due"],
                ["Oct 25", "Masts", "Exam 2 (no HW)"],
                ["Nov 1", "Rope", "Knot sheet (ungraded)"],
                ["Nov 8", "Wind", "MAP #1 in the computer lab, N-020"],
                ["Nov 15", "Crews: group presentations begin (2 days)", ""],
            ]
        )
    )
    assert found == {
        "exam: Exam 2": "month_day(10, 25)",
        "assignment: MAP #1 in the computer lab, N-020": "month_day(11, 8)",
        "presentation: Crews: group presentations": "month_day(11, 15)",
    }


def test_work_of_a_module_is_due_when_it_closes_whatever_the_rule_for_posts() -> None:
    found = dated_work(
        document(
            "Everything in a module (quiz, paper) is due when it closes; first posts are due by Wednesday.",
            [
                ["Module", "Opens", "Closes", "Discussion", "Quizzes", "Exams"],
                ["1", "Mon 6/2", "Sun 6/8", "Introduce yourself (by Wed 6/4)", "Rules quiz; Quiz 1", ""],
                [
                    "2",
                    "Mon 6/9",
                    "Sun 6/15",
                    "no discussion",
                    "Quiz 2",
                    "MIDTERM opens Thurs 6/12, 8 am, closes Sun 6/15",
                ],
            ],
        )
    )
    assert found == {
        "assignment: Introduce yourself": "numeric_date(6, 4, weekday=WE)",
        "quiz: Rules quiz": "numeric_date(6, 8, weekday=SU)",
        "quiz: Quiz 1": "numeric_date(6, 8, weekday=SU)",
        "quiz: Quiz 2": "month_day(6, 15, SU)",
        "exam: MIDTERM": "span(numeric_date(6, 12, weekday=TH), month_day(6, 15, SU)) @08:00",
    }


def test_a_final_by_its_short_name_and_what_is_only_brought() -> None:
    outline = document(
        [
            ["Date", "Topic", "Bring / submit"],
            ["3/3", "Review", "Your favourite map"],
            ["3/5", "Written final", ""],
            ["3/10", "Final thoughts", "Map essay"],
        ]
    )
    assert dated_work(outline) == {
        "assignment: Favourite map": "month_day(3, 3)",
        "exam: Written final": "numeric_date(3, 5)",
        "assignment: Map essay": "numeric_date(3, 10)",
    }
    assert [bool(item.mentions[0].doubts) for item in work(outline)] == [True, False, False]


def test_work_of_a_table_whose_rows_are_not_told_apart_is_marked() -> None:
    box = Box(72, 100, 500, 300)
    rows = table([["Date", "Due"], ["Sept 8", "Essay 1"], ["Sept 15", "Essay 2"]])
    rows = replace(rows, place=replace(rows.place, box=box))
    loose = replace(note("loose", "rows"), place=replace(rows.place, block=0))
    assert [item.mentions[0].doubts for item in work(document(rows, notes=[loose]))] == [(LOOSE_ROWS,)] * 2
    assert [item.mentions[0].doubts for item in work(document(rows))] == [()] * 2


def test_groups_that_are_chosen_and_what_else_is_no_work_in_a_due_column() -> None:
    rows = [["Date", "Due"], ["9/17", "Problem set 3; project groups chosen"], ["9/24", "Team assigned"]]
    assert titles(document(rows)) == ["Problem set 3"]


def test_what_a_cell_says_closes_is_due_then() -> None:
    rows = [
        ["Date", "Topic", "Due"],
        ["8/29", "Theory", "Quiz 1 opens (closes 9/3)"],
        ["9/12", "Infancy", "Quiz 2 (due Sunday 9/17)"],
        ["9/26", "Middle childhood", "Family assessment: choose family"],
    ]
    assert dated_work(document(rows)) == {
        "quiz: Quiz 1": "numeric_date(9, 3)",
        "quiz: Quiz 2": "month_day(9, 17, SU)",
    }


def test_homework_that_may_be_due_or_given_is_marked_unless_it_is_named_work() -> None:
    rows = [
        ["Date", "In class", "Homework"],
        ["W 8/23", "Cap. 1", "Workbook p. 3"],
        ["W 8/30", "Test Cap. 1", ""],
        ["F 9/1", "Cap. 2", "Essay 1"],
    ]
    found = {item.title: item.mentions[0].doubts for item in work(document(rows))}
    assert found == {"Homework: Workbook p. 3": (GIVEN_OR_DUE,), "Test Cap. 1": (), "Essay 1": ()}


def test_the_lab_of_a_weekday_holds_topics_and_a_heading_may_hold_day_and_hour() -> None:
    rows = [
        ["Week of", "Tuesday lecture", "Friday lab", "Homework due Friday 5 pm"],
        ["1/20", "Potentials", "Microscopy", "HW 1"],
        ["1/27", "Synapses", "Lab quiz 1", "HW 2"],
    ]
    found = dated_work(document(rows))
    assert list(found) == ["assignment: HW 1", "quiz: Lab quiz 1", "assignment: HW 2"]
    assert found["assignment: HW 1"].endswith("FR) @17:00")


def test_a_full_printed_line_of_a_cell_does_not_run_into_the_next_work() -> None:
    text = "Annotated bibliography Reflection 1 Thu: Essay 2 is due"
    starts = [0, text.index("Reflection"), text.index("Thu")]
    grid = table([["Date", "Topic", "Due"], ["Oct 5", "Rivers", text], ["Oct 12", "Ice", "Quiz 1"]])
    cells = tuple(
        replace(cell, lines=(replace(cell.lines[0], parts=tuple(Part(start, cell.place) for start in starts)),))
        if cell.text == text
        else cell
        for cell in grid.cells
    )
    found = dated_work(document(replace(grid, cells=cells)))
    assert {"assignment: Annotated bibliography", "assignment: Reflection 1"} <= found.keys()
    assert any(title.endswith("Essay 2") for title in found)


def test_a_column_of_what_is_given_out_beside_one_of_what_is_due() -> None:
    rows = [
        ["Date", "Topic", "HW assigned", "HW due"],
        ["1/15", "Lines", "HW 1", ""],
        ["1/22", "Tests", "HW 2", "HW 1"],
        ["1/27", "Planes", "", "HW 2"],
    ]
    assert dated_work(document(rows)) == {
        "assignment: HW 1": "month_day(1, 22)",
        "assignment: HW 2": "month_day(1, 27)",
    }
