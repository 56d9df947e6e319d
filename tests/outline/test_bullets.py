"""Schedules without a table: dated lines and headings, labels under them, day numbers under month headings."""

from __future__ import annotations

from syllabus_io.extract.document import Line

from .documents import document, heading, line
from .reading import dated_work, days_off, notation, readings, titles, work


def test_lines_that_open_with_a_date() -> None:
    found = dated_work(
        document(
            heading("Course schedule"),
            "Mon Sep 14: Vectors. Homework 1 due",
            "Wed Sep 16: Matrices; Homework 2 handed out",
            "Mon Sep 21: Quiz 1, determinants",
            "Wed Sep 23: MIDTERM EXAM",
            "Mon Sep 28: Midterm returned; project proposal due by 5 pm",
        )
    )
    assert found == {
        "assignment: Homework 1": "month_day(9, 14, MO)",
        "quiz: Quiz 1, determinants": "month_day(9, 21, MO)",
        "exam: MIDTERM EXAM": "month_day(9, 23, WE)",
        "project: Project proposal": "month_day(9, 28, MO) @17:00",
    }


def test_day_numbers_under_month_headings() -> None:
    outline = document(
        "September",
        "3 Introduction",
        "5 Maps; quiz 1",
        "10 Essay 1 due",
        "October",
        "1 Exam 1",
        "8 Fall break, no class",
        "15 Project presentations",
    )
    assert dated_work(outline) == {
        "quiz: Quiz 1": "month_day(9, 5)",
        "assignment: Essay 1": "month_day(9, 10)",
        "exam: Exam 1": "month_day(10, 1)",
        "presentation: Project presentations": "month_day(10, 15)",
    }
    assert days_off(outline) == {"Fall break": "month_day(10, 8)"}


def test_week_headings_with_a_range_and_weekdays_in_the_text() -> None:
    found = dated_work(
        document(
            "Week 1 (Sep 7 - 11): Introduction",
            "Week 2 (Sep 14 - 18): Supply; Quiz 1 on Thursday",
            "Week 3 (Sep 21 - 25): Demand. Essay 1 due Friday",
            "Week 4 (Sep 28 - Oct 2): Markets. Exam 1 Wednesday, Sep 30",
        )
    )
    assert found == {
        "quiz: Quiz 1": "weekday_in(week_of(month_day(9, 14)), TH)",
        "assignment: Essay 1": "weekday_in(week_of(month_day(9, 21)), FR)",
        "exam: Exam 1": "month_day(9, 30, WE)",
    }


def test_headings_with_a_date_and_labelled_lines_under_them() -> None:
    found = dated_work(
        document(
            heading("Monday, September 14"),
            "Topic: Report writing",
            "Due: Lab report 1",
            heading("Wednesday, September 16"),
            "Topic: Exam strategies",
            "Due: Lab report 2",
            heading("Monday, September 21"),
            "Topic: Peer review",
            "Due: Essay 1 draft",
        )
    )
    assert found == {
        "assignment: Lab report 1": "month_day(9, 14, MO)",
        "assignment: Lab report 2": "month_day(9, 16, WE)",
        "assignment: Essay 1 draft": "month_day(9, 21, MO)",
    }


def test_a_label_can_carry_its_own_date() -> None:
    found = dated_work(
        document(
            heading("Monday Sep 14"),
            line("Assignment due next class (Sep 16):"),
            "Write a question about the weather",
            heading("Wednesday Sep 16"),
            line("Assignment for next class:"),
            "Submit two sources",
            heading("Monday Sep 21"),
            "Topic: Sources",
        )
    )
    assert set(found.values()) == {"month_day(9, 16)", "class_near(month_day(9, 16, WE), after)"}


def test_an_assignment_under_a_class_is_taken_for_the_next_class_and_marked() -> None:
    found = work(
        document(
            heading("Monday Sep 14"),
            "Topic: Structure",
            "Assignment:",
            "Submit the outline of your paper",
            heading("Wednesday Sep 16"),
            "Topic: Style",
            heading("Monday Sep 21"),
            "Topic: Sound",
        )
    )
    assert [bool(item.mentions[0].doubts) for item in found] == [True]


def test_a_week_check_under_its_own_week_is_no_new_heading() -> None:
    found = dated_work(
        document(
            heading("Week 3 - Monday Sep 21"),
            "Topic: Methods",
            heading("Week 3 - Wednesday Sep 23"),
            "Week 3 check-in (by Saturday): Submit what you have",
            heading("Week 4 - Monday Sep 28"),
            "Topic: Results",
        )
    )
    assert found == {"project: Week 3 check-in": "weekday_in(week_of(month_day(9, 23, WE)), SA)"}


def test_numbered_sessions() -> None:
    outline = document(
        "Session 1, 1 Sept: Introduction",
        "Session 2, 8 Sept: Ethics. Reading: Hall ch. 1-2",
        "Session 3, 15 Sept: Rights. Response paper 1 due.",
        "Session 4, 22 Sept: Harm. Reading: Park pp. 10-30",
        "Session 5, 29 Sept: Mid-term test",
    )
    assert dated_work(outline) == {
        "assignment: Response paper 1": "month_day(9, 15)",
        "exam: Mid-term test": "month_day(9, 29)",
    }
    assert readings(outline) == {"Hall ch. 1-2": "month_day(9, 8)", "Park pp. 10-30": "month_day(9, 22)"}


def test_the_date_of_the_document_is_no_row() -> None:
    found = titles(
        document(
            "September 1, 2026",
            "Homework: all homework is collected in class.",
            *["About this course."] * 12,
            "Week 1: Introduction",
            "Week 2: Sets",
            "Week 3: Maps",
            "Week 4: Quiz 1",
        )
    )
    assert found == ["Quiz 1"]


def test_lists_of_key_dates() -> None:
    found = dated_work(
        document(
            heading("Important dates"),
            line("Proposal: October 5", marker="•"),
            line("Draft of term paper: November 2", marker="•"),
            line("Term paper: December 1", marker="•"),
            line("Last day to withdraw: November 10", marker="•"),
            line("Final exam: December 14, 8-10 am", marker="•"),
        )
    )
    assert found == {
        "project: Proposal": "month_day(10, 5)",
        "assignment: Draft of term paper": "month_day(11, 2)",
        "assignment: Term paper": "month_day(12, 1)",
        "exam: Final exam": "month_day(12, 14) @08:00",
    }


def test_key_dates_with_the_date_first() -> None:
    found = dated_work(
        document(
            heading("Important dates"),
            "Saturday October 3rd: Paper progress, including figures",
            "Wednesday October 14th: Poster presentations",
            "Wednesday November 4th: final papers due",
        )
    )
    assert found == {
        "assignment: Paper progress, including figures": "month_day(10, 3, SA)",
        "presentation: Poster presentations": "month_day(10, 14, WE)",
        "assignment: Final papers": "month_day(11, 4, WE)",
    }


def test_weekly_work_without_a_day_is_listed_once_as_undated() -> None:
    from syllabus_io.outline.read import read_outline

    outline = read_outline(
        document(
            "Week 1",
            "Reading quiz: chapters 1-2",
            "Week 2",
            "Reading quiz: chapters 3-4",
            "Week 3",
            "Reading quiz: chapters 5-6",
            "Week 4, September 28 - Midterm 1",
            "Review of chapters 1-6",
        )
    )
    assert [item.title for item in outline.items] == ["Midterm 1"]
    assert [undated.title for undated in outline.undated] == ["Reading quiz"]


def test_a_sentence_with_a_date_behind_the_last_row_is_running_text() -> None:
    lines = ["Sept 7: Ponds", "Sept 14: Quiz 1", "Sept 21: Frogs", "The final is on Monday, October 12, at 3 pm."]
    assert dated_work(document(*lines)) == {
        "quiz: Quiz 1": "month_day(9, 14)",
        "exam: Final exam": "month_day(10, 12, MO) @15:00",
    }


def test_unnamed_kinds_of_work_count_behind_a_topic_when_they_are_due() -> None:
    lines = ["Sept 7: Ponds", "Sept 14: Frogs. Planning document 1 due.", "Sept 21: Newts. The pond is full."]
    assert dated_work(document(*lines)) == {"assignment: Planning document 1": "month_day(9, 14)"}


def test_a_bold_entry_with_a_date_is_work_and_no_heading() -> None:
    lines = [line("Project Proposal: due Oct 14", bold=True, marker="•"), line("Worksheet 1: due Oct 22", bold=True)]
    assert dated_work(document(heading("Graded work"), *lines)) == {
        "project: Project Proposal": "month_day(10, 14)",
        "assignment: Worksheet 1": "month_day(10, 22)",
    }


def test_a_sentence_broken_over_narrow_lines_is_read_as_one() -> None:
    lines = [
        line("Test 1 will be held on Wed Feb 10; Test 2 will be held"),
        line("on Mon Mar 22."),
        line("Quiz 1 is on Mon Apr 5. Quiz 2 will be held on Tue Apr"),
        line("Quiz 3 will be held on Mon Apr 19.", marker="13."),
    ]
    assert dated_work(document(*lines)) == {
        "exam: Test 1": "month_day(2, 10, WE)",
        "exam: Test 2": "month_day(3, 22, MO)",
        "quiz: Quiz 1": "month_day(4, 5, MO)",
        "quiz: Quiz 2": "month_day(4, 13, TU)",
        "quiz: Quiz 3": "month_day(4, 19, MO)",
    }


def test_a_list_of_dates_to_keep_is_a_list_of_work() -> None:
    lines = ["Sept. 21: Walk 1 report", "Oct. 5: Walk 2 report", "Oct. 12: No class", "Dec. 7: Long essay"]
    assert dated_work(document(heading("Dates to keep"), *[line(text, marker="•") for text in lines])) == {
        "assignment: Walk 1 report": "month_day(9, 21)",
        "assignment: Walk 2 report": "month_day(10, 5)",
        "assignment: Long essay": "month_day(12, 7)",
    }


def test_a_line_with_several_days_is_read_under_each() -> None:
    outline = document(
        heading("Plan of the weeks"),
        "3/1 M: Ropes; 3/3 W: Knots; 3/5 F: PS 1 due (in recitation)",
        "3/8 M: Sails (load tests, wear tests); 3/10 W: Exam 1; 3/12 F: PS 2 due, Lab report 1 due",
        "3/15 M: Review; 3/17 W: Hulls; 3/19 F: PS 3 due",
        "Problem sets 30%, lab report 10%, exams 60%",
    )
    assert dated_work(outline) == {
        "assignment: PS 1": "numeric_date(3, 5)",
        "exam: Exam 1": "numeric_date(3, 10)",
        "assignment: PS 2": "numeric_date(3, 12)",
        "assignment: Lab report 1": "numeric_date(3, 12)",
        "assignment: PS 3": "month_day(3, 19)",
    }


def test_numbered_work_due_on_a_weekday_is_no_label_over_the_next_lines() -> None:
    outline = document(
        heading("Week 2 (Jan 18-22)"),
        line("HW#3 due Friday", marker="•"),
        line("Bring a ruler", marker="•"),
        heading("Week 3 (Jan 25-29)"),
        line("HW#4 due Friday; Quiz 1 on Wednesday", marker="•"),
        heading("Week 4 (Feb 1-5)"),
        line("Exam 1: Wednesday (in class)", marker="•"),
    )
    assert list(dated_work(outline)) == ["assignment: HW#3", "assignment: HW#4", "quiz: Quiz 1", "exam: Exam 1"]
    assert all(notation(item.mentions[0]).startswith("weekday_in") for item in work(outline))


def test_a_list_under_a_heading_that_says_due_needs_no_word_for_work() -> None:
    def dates(title: str) -> dict[str, str]:
        return dated_work(
            document(
                heading(title),
                line("Sep 16 – Watershed map and legend", marker="•"),
                line("Sep 30 – GAUGING DATA SHEET", marker="•"),
                line("Oct 14 – Midterm", marker="•"),
            )
        )

    exam = {"exam: Midterm": "month_day(10, 14)"}
    assert dates("Important dates") == exam
    assert dates("What is due") == {
        "assignment: Watershed map and legend": "month_day(9, 16)",
        "assignment: GAUGING DATA SHEET": "month_day(9, 30)",
        **exam,
    }


def test_a_label_of_one_list_entry_is_not_that_of_the_next() -> None:
    found = dated_work(
        document(
            heading("Week 2, 01/20 - 01/24: Measures"),
            line("Read: chapter 3", marker="•"),
            line("Quiz 1 on Wednesday", marker="•"),
            line("Project: team list due Friday", marker="•"),
            heading("Week 3, 01/27 - 01/31: Designs"),
            line("Project proposal due Friday", marker="•"),
            heading("Week 4, 02/03 - 02/07: Bias"),
            line("Terms. Squib 1 due Monday, February 3.", marker="•"),
        )
    )
    assert found == {
        "quiz: Quiz 1": "weekday_in(week_of(month_day(1, 20)), WE)",
        "project: Project: team list": "weekday_in(week_of(month_day(1, 20)), FR)",
        "project: Project proposal": "weekday_in(week_of(month_day(1, 27)), FR)",
        "assignment: Squib 1": "month_day(2, 3, MO)",
    }


def test_a_line_with_a_due_date_alone_dates_the_list_under_it() -> None:
    outline: list[Line | str] = []
    for module, day in ((1, 8), (2, 22), (3, 29)):
        outline += [
            heading(f"Module {module}: Markets"),
            line("Read Chapter 3", marker="•"),
            line(f"Due Sunday, September {day}, 11:59 pm", bold=True),
            line(f"Discussion {module}", marker="•"),
            line(f"Paper {module}: Budget", marker="•"),
        ]
    found = dated_work(document(*outline))
    assert found["assignment: Discussion 1"] == "month_day(9, 8, SU) @23:59"
    assert found["assignment: Paper 2: Budget"] == "month_day(9, 22, SU) @23:59"
    assert len(found) == 6


def test_a_line_that_ends_within_its_sentence_goes_on_with_the_day_below() -> None:
    found = dated_work(
        document(
            "Quiz 1 will be held on Friday, October 8. Quiz 2 is on",
            "Monday, October 11. Quiz 3 will be held on Wednesday,",
            "November 3. Quiz 4 will be held on Monday, November",
            "15. Bring a pen.",
        )
    )
    assert found == {
        "quiz: Quiz 1": "month_day(10, 8, FR)",
        "quiz: Quiz 2": "month_day(10, 11, MO)",
        "quiz: Quiz 3": "month_day(11, 3, WE)",
        "quiz: Quiz 4": "month_day(11, 15, MO)",
    }


def test_a_row_that_ends_in_due_breaks_off_no_sentence() -> None:
    found = dated_work(document("October", "16 Rivers. Essay 1 is due", "18 Ice. Essay 2 due", "23 Snow. Quiz 1"))
    assert found == {
        "assignment: Essay 1": "month_day(10, 16)",
        "assignment: Essay 2": "month_day(10, 18)",
        "quiz: Quiz 1": "month_day(10, 23)",
    }
