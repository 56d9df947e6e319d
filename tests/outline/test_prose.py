"""Sentences and list entries that date work, and the many that only seem to."""

from __future__ import annotations

import pytest

from .documents import document, heading, line
from .reading import dated_work, notation, titles, work


def test_several_dates_behind_a_plural() -> None:
    found = dated_work(
        document(
            "There will be two midterms, on October 7 and November 11, and a final exam on December 16 at 2:00 pm."
        )
    )
    assert found == {
        "exam: Midterm 1": "month_day(10, 7)",
        "exam: Midterm 2": "month_day(11, 11)",
        "exam: Final exam": "month_day(12, 16) @14:00",
    }


@pytest.mark.parametrize(
    ("sentence", "title", "date"),
    [
        ("The final project is due on Wednesday, March 17 at 5 pm.", "Final project", "month_day(3, 17, WE) @17:00"),
        ("Test I (24 July): 20%", "Test I", "month_day(7, 24)"),
        ("In-Depth Study of Sources (due 14 August): 15%", "In-Depth Study of Sources", "month_day(8, 14)"),
        ("The second essay is due by 11:59 pm on Friday, October 30.", "Second essay", "month_day(10, 30, FR) @23:59"),
        ("On October 14 we will have the midterm exam in class.", "Midterm exam", "month_day(10, 14)"),
        ("Coursework 2 (30%): due 27 November 2026, 4pm", "Coursework 2", "day(2026-11-27) @16:00"),
        ("Lab report 2 must be handed in by Oct. 19.", "Lab report 2", "month_day(10, 19)"),
    ],
)
def test_a_sentence_dates_its_work(sentence: str, title: str, date: str) -> None:
    found = dated_work(document(sentence))
    assert {key.split(": ", 1)[1]: value for key, value in found.items()} == {title: date}


def test_handed_out_on_one_day_and_due_on_another() -> None:
    found = dated_work(document("The take-home midterm is handed out on October 12 and is due on October 19 by noon."))
    assert found == {"exam: Take-home midterm": "month_day(10, 19) @12:00"}


@pytest.mark.parametrize(
    "sentence",
    [
        "For example, an essay due March 3 and handed in March 5 loses ten points.",
        "Late homework loses 10% a day; homework due October 5 and handed in on October 7 loses 20%.",
        "If you miss the exam on October 7 you must tell me by October 5.",
        "The last day to drop the course without a grade is October 2.",
        "Office hours: Tuesdays 2-4 pm, and October 6 before the exam.",
        "Last updated September 1, 2026. Homework is listed online.",
        "Problem Sets (4/5 assignments at 5% each)",
        "Your lowest quiz score counts 3/4 of the others.",
        "Students who observe a religious holiday on September 21 may move the exam.",
        "A student who does not take the entry quiz by January 20 may be administratively dropped.",
        "Whoever has taken no part in an activity by March 3 is reported as not attending.",
        "Applications for May graduation are due February 14.",
        "Please complete the course evaluation by December 8.",
        "Midterm grades will be reported on October 16.",
        "Last year the final exam was on December 9.",
        "Textbook rentals are due back December 12.",
        "Proposals for independent studies are due to the chair by November 1.",
        "Essays for the Harlan scholarship are due March 15.",
        "Yearbook orders are due by January 30.",
    ],
)
def test_policy_sentences_date_nothing(sentence: str) -> None:
    assert titles(document(sentence)) == []


def test_alternatives_are_no_list_of_dates() -> None:
    assert titles(document("You will give your presentation in class on Feb 10, Feb 24, or Mar 3.")) == []


def test_a_due_sentence_belongs_to_what_its_paragraph_opens_with() -> None:
    found = dated_work(document("Country report: Describe one country in ten pages. Use maps. Due April 14th."))
    assert found == {"assignment: Country report": "month_day(4, 14)"}


def test_numbered_entries_under_a_lead_are_works_of_its_series() -> None:
    found = dated_work(
        document(
            "Group projects: Each team writes short essays.",
            line("Country profile: Describe the economy. Due April 14th.", marker="1."),
            line("Current events: Due May 15th. Present one event.", marker="2."),
        )
    )
    assert found == {
        "project: Group project 1: Country profile": "month_day(4, 14)",
        "project: Group project 2: Current events": "month_day(5, 15)",
    }


def test_there_is_no_final_exam_where_the_outline_says_so() -> None:
    outline = document(
        heading("Final exam"), "Final exam: Tuesday, June 9", "There is no final exam. We use the time for talks."
    )
    assert titles(outline) == []


def test_parts_of_one_list_entry_carry_its_name() -> None:
    found = dated_work(
        document(
            heading("Course requirements"),
            line("Midterm exam (25%) – Tuesday, October 13", marker="•"),
            line("Term paper (35%) – proposal due September 29; paper due December 4", marker="•"),
        )
    )
    assert found == {
        "exam: Midterm exam": "month_day(10, 13, TU)",
        "project: Term paper proposal": "month_day(9, 29)",
        "assignment: Term paper": "month_day(12, 4)",
    }


def test_a_paragraph_that_opens_with_its_work() -> None:
    found = dated_work(
        document(
            heading("Assignments"),
            "Annotated bibliography. List ten sources. Due: October 14.",
            "Research paper. Twelve pages. Due: November 30 by 11:59 pm.",
        )
    )
    assert found == {
        "assignment: Annotated bibliography": "month_day(10, 14)",
        "assignment: Research paper": "month_day(11, 30) @23:59",
    }


def test_a_tentative_date_is_marked() -> None:
    item = work(
        document([["Date", "Topic"], ["Oct 14", "Midterm (tentative)"], ["Oct 21", "Waves"], ["Oct 28", "Light"]])
    )[0]
    assert (item.title, item.mentions[0].doubts) == ("Midterm", ("the outline calls this date tentative",))


def test_rows_of_a_table_without_dates_of_its_own() -> None:
    found = dated_work(
        document(
            [
                ["Essay", "Five pages on a topic of your choice. Due October 19 in class."],
                ["Exam", "A two-hour exam on December 14."],
                ["Late work", "Essays lose a grade a day after October 19."],
            ]
        )
    )
    assert found == {"assignment: Essay": "month_day(10, 19)", "exam: Exam": "month_day(12, 14)"}


def test_entries_that_open_with_a_short_name() -> None:
    found = dated_work(document(heading("Due dates"), "HW1: 9/14", "HW2: 9/28", "Project proposal: 10/19"))
    assert found == {
        "assignment: HW1": "month_day(9, 14)",
        "assignment: HW2": "month_day(9, 28)",
        "project: Project proposal": "month_day(10, 19)",
    }


def test_a_run_of_works_in_one_sentence() -> None:
    found = dated_work(document("Homework due dates: HW 1 – Sept 15; HW 2 – Sept 29; HW 3 – Oct 13; HW 4 – Oct 27."))
    assert list(found) == ["assignment: HW 1", "assignment: HW 2", "assignment: HW 3", "assignment: HW 4"]


def test_final_alone_opens_the_entry_of_the_final_exam() -> None:
    assert dated_work(document(line("Final (Dec 17, 10:30 am): 25%", marker="•"))) == {
        "exam: Final exam": "month_day(12, 17) @10:30"
    }


def test_the_nth_weekday_of_a_month() -> None:
    found = dated_work(document("The second test falls on the 2nd Tuesday of October."))
    assert found == {"exam: Second test": "nth_weekday(2, TU, 10)"}


def test_a_stretch_of_work_is_no_due_date_without_a_doubt() -> None:
    (project,) = work(document("Project 2: A Stair (September 21 – October 16)"))
    assert project.mentions[0].doubts
    (exam,) = work(document("The take-home exam: October 12 – October 14."))
    assert not exam.mentions[0].doubts


def test_a_final_named_with_an_article_and_the_next_of_a_series() -> None:
    found = dated_work(document("One midterm (Thursday, October 8) and a final (Tuesday, December 15, 4 pm)."))
    assert found == {
        "exam: Midterm": "month_day(10, 8, TH)",
        "exam: Final exam": "month_day(12, 15, TU) @16:00",
    }
    found = dated_work(document("A listening test will be given on October 8 and again on November 19."))
    assert sorted(found.values()) == ["month_day(10, 8)", "month_day(11, 19)"]
    assert dated_work(document("The final bell is on May 3.")) == {}


def test_reports_of_the_school_are_no_work() -> None:
    assert titles(document("Marking period 1 ends October 30. Progress reports: October 2 and December 4.")) == []
    assert len(titles(document("Progress reports are due October 2 and December 4."))) == 2


def test_dotted_leaders_join_a_work_to_its_date() -> None:
    for leader in ("........", "....................", ". . . . . . .", "______"):
        assert dated_work(document(f"Quiz 1 {leader} September 3")) == {"quiz: Quiz 1": "month_day(9, 3)"}, leader


def test_the_second_of_a_series_behind_a_semicolon_and_a_window_with_its_last_day() -> None:
    found = dated_work(
        document(
            "The first short paper should be handed in on Thursday, September 24; the second on Thursday, October 22."
        )
    )
    assert sorted(found.values()) == ["month_day(10, 22, TH)", "month_day(9, 24, TH)"]
    text = "The final exam opens on Thursday, July 23 at 8 am and must be submitted by Friday, July 24 at 5 pm."
    assert dated_work(document(text)) == {"exam: Final exam": "month_day(7, 24, FR) @17:00"}


def test_work_that_is_denied_is_none() -> None:
    assert dated_work(document("No homework is due on November 25.")) == {}
    assert dated_work(document("There is no quiz on October 3, and the essay is due on October 5.")) == {
        "assignment: Essay": "month_day(10, 5)"
    }


def test_names_in_a_list_of_key_dates_are_work_that_the_grading_vouches_for() -> None:
    lines = [
        "Family narrative (Sept. 18th)",
        "Interview transcript — Friday, Oct 2",
        "Concert attendance form [Nov. 13]",
        "Fall recess (Oct. 12)",
        "Last day to withdraw: Nov. 6",
    ]
    outline = document(
        heading("Key dates"),
        *[line(text, marker="•") for text in lines],
        heading("Grading"),
        [["Work", "Weight"], ["Family narrative", "60%"], ["Interview transcript", "30%"], ["Participation", "10%"]],
    )
    found = work(outline)
    assert {item.title: bool(item.mentions[0].doubts) for item in found} == {
        "Family narrative": False,
        "Interview transcript": False,
        "Concert attendance form": True,
    }


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("The first ten pages are due March 18.", "First ten pages"),
        ("Ledger practice set due Wednesday, July 8 @ 9pm", "Ledger practice set"),
        ("Tuition payments are due March 18.", None),
        ("All of these are due March 18.", None),
    ],
)
def test_what_opens_a_sentence_and_is_due_on_a_day_is_work(text: str, expected: str | None) -> None:
    assert titles(document(text)) == ([expected] if expected else [])


def test_a_sentence_ends_behind_capital_letters() -> None:
    text = "The final exam is Friday, May 7th, 8-10 AM. If you miss the Feb. 12 exam, the make-up is on Feb. 17."
    assert dated_work(document(text)) == {"exam: Final exam": "month_day(5, 7, FR) @08:00"}


def test_an_exam_on_one_of_two_days_is_kept_with_a_doubt() -> None:
    exam = work(document("Final exam: proctored, July 23rd or 24th"))[0]
    assert (exam.title, notation(exam.mentions[0])) == ("Final exam", "month_day(7, 23)")
    assert exam.mentions[0].doubts


def test_work_uploaded_by_a_day_is_due_then_and_grades_announced_are_not() -> None:
    text = "The paper is uploaded by 11:59 pm on April 2. The exam average last year, announced on May 9, was 74."
    assert dated_work(document(text)) == {"assignment: Paper": "month_day(4, 2) @23:59"}


def test_work_submitted_after_a_day_is_not_what_is_collected_then() -> None:
    assert titles(document("Extensions: ask two days before. Work submitted after 21 December is not marked.")) == []


def test_numbers_behind_one_work_word_are_works_of_their_own() -> None:
    found = dated_work(document(line("HW 1 & 2 due Sun 6/14", marker="•"), line("Quizzes 3, 4 on May 5", marker="•")))
    assert [title for title in found if title.startswith("assignment")] == ["assignment: HW 1", "assignment: HW 2"]
    assert found["assignment: HW 1"] == found["assignment: HW 2"]


def test_a_form_in_a_list_of_dates_is_no_recital() -> None:
    items = work(document(heading("Key dates"), line("Recital attendance form [Nov. 13]", marker="•")))
    assert [item.kind.value for item in items] == ["assignment"]


def test_a_short_weekday_before_a_month_ends_no_sentence() -> None:
    text = "Final exam: Tues. May 4, 1–3 p.m. Homework 20%, quizzes 20%, exams 60%. The essay is due Fri. Dec. 4."
    assert dated_work(document(text)) == {
        "exam: Final exam": "month_day(5, 4, TU) @13:00",
        "assignment: Essay": "month_day(12, 4, FR)",
    }


def test_an_entry_with_its_date_and_what_it_counts_is_work() -> None:
    item = work(document("Time diary: Wed., Sept. 16 (10%)"))[0]
    assert (item.title, notation(item.mentions[0])) == ("Time diary", "month_day(9, 16, WE)")
    assert not item.mentions[0].doubts


def test_a_cumulative_final_is_an_exam() -> None:
    text = "The cumulative final will be given Monday, Dec. 14 from 8:00 AM - 9:50 AM. No make-ups after Dec 14."
    assert dated_work(document(text)) == {"exam: Cumulative final": "month_day(12, 14, MO) @08:00"}


def test_steps_alone_before_their_dates_belong_to_the_work_of_the_paragraph() -> None:
    text = "Term paper. Topic approved by 10/9; outline, 10/30; rough draft, November 13; final copy, December 4."
    assert dated_work(document(text)) == {
        "assignment: Term paper outline": "month_day(10, 30)",
        "assignment: Term paper rough draft": "month_day(11, 13)",
        "assignment: Term paper": "month_day(12, 4)",
    }


def test_an_exam_to_be_taken_in_a_window_has_its_first_and_last_day() -> None:
    found = dated_work(
        document(
            "The final examination is taken at home, in a window that opens Monday, May 4 and closes Thursday, May 7."
        )
    )
    assert list(found) == ["exam: Final examination"]
    assert list(found.values()) == ["span(month_day(5, 4, MO), month_day(5, 7, TH))"]


def test_brackets_that_count_up_the_parts_of_a_work_name_no_owner_of_its_date() -> None:
    found = dated_work(
        document(
            "The album (Sketch 1 redrawn, Essay 3, two maps) is due by noon on Wednesday, May 4.",
            "The field folder (two sketches, Essay 4, a list) is due on May 11.",
        )
    )
    assert found == {
        "assignment: Album": "month_day(5, 4, WE) @12:00",
        "assignment: Field folder": "month_day(5, 11)",
    }


def test_names_of_the_grading_scheme_are_work_in_sentences() -> None:
    found = dated_work(
        document(
            heading("Grading"),
            [["Component", "Weight"], ["Hearings", "40%"], ["Keyboard proficiency", "20%"], ["Final exam", "40%"]],
            heading("Dates"),
            "Hearing 1 is on February 16, Hearing 2 during finals, on Wednesday May 6.",
            "Keyboard proficiency: pass all five items by Friday, April 24.",
        )
    )
    assert found == {
        "assignment: Hearing 1": "month_day(2, 16)",
        "assignment: Hearing 2": "month_day(5, 6, WE)",
        "assignment: Keyboard proficiency": "month_day(4, 24, FR)",
    }


def test_an_entry_that_says_where_to_submit_by_a_day() -> None:
    found = dated_work(
        document(
            "(a) Formative problem question, 1,000 words, does not count. Submit by 12 noon on Thursday 22 January."
        )
    )
    assert found == {"assignment: Formative problem question": "month_day(1, 22, TH) @12:00"}


@pytest.mark.parametrize(
    "sentence",
    [
        "A form on conduct is filled out by the host teacher at midterm (about October 18).",
        "Registration and payment for the final exam are due to the counseling office by October 31.",
        "Adjustments for the January examinations must be in place by 7 November 2026.",
        "We see all prints together during our exam block, Wednesday December 10.",
        "Jury forms are due to the office by 4/10.",
    ],
)
def test_times_of_the_term_and_paperwork_are_no_work(sentence: str) -> None:
    assert titles(document(sentence)) == []


def test_a_test_that_is_open_for_some_hours_from_a_day() -> None:
    found = dated_work(document("Multiple choice test (10%), online, open for 24 hours from Friday 27 March 2026."))
    assert found == {"exam: Multiple choice test": "day(2026-03-27, FR)"}


def test_days_listed_under_the_heading_of_their_work() -> None:
    for text in (
        "On Thursdays: Sept. 4, 11, 25; Oct. 2. They take ten minutes.",
        "Quiz dates: Sept. 4, 11, 25; Oct. 2.",
        "Thursdays: Sept. 4, 11, 25 and Oct. 2",
    ):
        assert dated_work(document(heading("Section quizzes"), text)) == {
            "quiz: Section quiz 1": "month_day(9, 4)",
            "quiz: Section quiz 2": "month_day(9, 11)",
            "quiz: Section quiz 3": "month_day(9, 25)",
            "quiz: Section quiz 4": "month_day(10, 2)",
        }, text


def test_a_section_headed_with_one_work_that_says_when_it_is_handed_in() -> None:
    found = dated_work(
        document(
            heading("Museum report"),
            "Go to a museum and draw. Three sheets, handed in by 11:59 pm on Wednesday, October 29. "
            "Early version for comments (optional): October 22.",
            heading("Late forms"),
            "Forms for absences are to be submitted by October 30.",
        )
    )
    assert found == {"assignment: Museum report": "month_day(10, 29, WE) @23:59"}


def test_entries_of_key_dates_without_marks_and_on_one_line() -> None:
    found = work(
        document(
            heading("KEY DATES"),
            "Exam 1 Mon Sept 21",
            "Final Fri Dec 11, 8–10 am Pool study all 4 credits by Wed Dec 2, 5 pm",
            "Drop (W) Oct 30",
        )
    )
    assert [(item.title, notation(item.mentions[0])) for item in found] == [
        ("Exam 1", "month_day(9, 21, MO)"),
        ("Final exam", "month_day(12, 11, FR) @08:00"),
        ("Pool study all 4 credits", "month_day(12, 2, WE) @17:00"),
    ]
    assert found[2].mentions[0].doubts, "no word says that it is work"


def test_works_that_a_sentence_counts_before_their_dates() -> None:
    assert dated_work(
        document(
            line("Trail maps, 10%. Three small maps, due at the start of Classes 5, 11, and 16.", marker="(e)"),
            "Two bowls are due on May 5 and June 2.",
        )
    ) == {
        "assignment: Trail map 1": "meeting_number(5)",
        "assignment: Trail map 2": "meeting_number(11)",
        "assignment: Trail map 3": "meeting_number(16)",
        "assignment: Bowl 1": "month_day(5, 5)",
        "assignment: Bowl 2": "month_day(6, 2)",
    }


def test_the_topic_of_a_paper_is_not_the_paper() -> None:
    assert dated_work(document(heading("Dates to remember"), "Paper topic by Oct 12, paper Nov 20")) == {
        "assignment: Paper topic": "month_day(10, 12)",
        "assignment: Paper": "month_day(11, 20)",
    }


def test_the_number_of_a_work_begins_no_stretch() -> None:
    found = dated_work(document("Essay 1 — 7 Feb, 5:00 pm", "Essay 2 – 19 Feb", "Break: 3 – 7 March, no class"))
    assert found == {"assignment: Essay 1": "month_day(2, 7) @17:00", "assignment: Essay 2": "month_day(2, 19)"}
