"""Plans of classes that are numbered and not dated."""

from __future__ import annotations

from syllabus_io.extract.document import Line
from syllabus_io.outline.numbered_classes import COUNTS_A_DAY_OFF

from .documents import document, heading, line
from .reading import dated_work, days_off, readings, work


def entries(*texts: str, start: int = 1) -> list[Line]:
    return [line(text, marker=f"{number}.") for number, text in enumerate(texts, start)]


def test_each_entry_stands_on_the_class_of_its_number() -> None:
    outline = document(
        heading("Requirements"),
        "Field sketches (2): 30%",
        "Midterm: 30%",
        "Final essay: 40%",
        heading("Plan of classes"),
        "Class 1 is on Tuesday, September 1.",
        heading("Part one (Classes 1–5)", 3),
        *entries("Why maps", "Scale. Read ch. 2.", "Relief. Field sketch 1. Read ch. 3.", "Rivers", "Midterm"),
        heading("Part two (Classes 6–9)", 3),
        *entries("Review of the midterm", "Coasts. Field sketch 2", "Roads", "Final essay due. Farewell", start=6),
    )
    assert dated_work(outline) == {
        "assignment: Field sketch 1": "meeting_number(3)",
        "exam: Midterm": "meeting_number(5)",
        "assignment: Field sketch 2": "meeting_number(7)",
        "assignment: Final essay": "meeting_number(9)",
    }
    assert readings(outline) == {"Ch. 2": "meeting_number(2)", "Ch. 3": "meeting_number(3)"}


def test_a_heading_of_lectures_is_enough() -> None:
    found = dated_work(
        document(
            heading("Lectures"), *entries("Sound", "Pitch", "Echo", "Test 1", "Timbre", "Rhythm. Essay 1 due", "Song")
        )
    )
    assert found == {"exam: Test 1": "meeting_number(4)", "assignment: Essay 1": "meeting_number(6)"}


def test_lists_of_rules_and_of_aims_are_no_plans() -> None:
    rules = entries("Be on time", "Quiz 1", "Essay 2 is read by two people", "No food", "Exam 1", "Be kind", "Quiz 3")
    assert not work(document(heading("Class rules"), *rules))
    assert not work(document(heading("What you will learn"), *rules))


def test_numbers_with_gaps_and_short_lists_are_no_plans() -> None:
    assert not work(document(heading("Lectures"), *entries("Sound", "Quiz 1", "Echo")))
    gap = [*entries("Sound", "Pitch", "Echo"), *entries("Quiz 1", "Timbre", "Song", start=7)]
    assert not work(document(heading("Lectures"), *gap))


def test_the_draft_of_a_work_is_called_after_it() -> None:
    outline = document(
        "Second report, 7–8 pages, 25%. A full draft is due at the beginning of Class 4.",
        heading("Lectures"),
        *entries("Sound", "Pitch", "Echo", "Draft of second report due", "Timbre", "Second report due", "Song"),
    )
    assert dated_work(outline) == {
        "assignment: Second report draft": "meeting_number(4)",
        "assignment: Second report": "meeting_number(6)",
    }


def test_several_numbered_classes_in_a_sentence() -> None:
    assert dated_work(document("Response papers: four one-page papers, due in Sessions 3, 5, 7 and 10.")) == {
        "assignment: Response paper 1": "meeting_number(3)",
        "assignment: Response paper 2": "meeting_number(5)",
        "assignment: Response paper 3": "meeting_number(7)",
        "assignment: Response paper 4": "meeting_number(10)",
    }
    found = dated_work(document("Two quizzes are given at the beginning of Classes 4 and 12."))
    assert list(found.values()) == ["meeting_number(4)", "meeting_number(12)"]


def test_a_number_for_a_class_that_is_not_held_makes_the_later_ones_doubtful() -> None:
    outline = document(
        heading("Seminar meetings"),
        "Meeting 1: Origins. (The last one before the recess.)",
        "Meeting 2: Evidence. Response 1 due",
        "Meeting 3: No meeting (Labor Day)",
        "Meeting 4: Archives. (First meeting after the autumn recess.)",
        "Meeting 5: Paper 1 due",
    )
    before, behind = work(outline)
    assert before.mentions[0].doubts == ()
    assert COUNTS_A_DAY_OFF in behind.mentions[0].doubts
    assert not days_off(outline), "the day of a class that is not held cannot be counted"


def test_numbers_that_fill_their_indent_go_on_with_the_list() -> None:
    texts = ("Land", "Maps", "Relief", "Soils", "Water", "Ice", "Test 1", "Coasts", "Fields. Essay 1 due")
    outline = document(heading("Plan of sessions"), *entries(*texts), "10.Roads. Essay 2 due", "11.Towns", "12.Quiz 1")
    assert dated_work(outline) == {
        "exam: Test 1": "meeting_number(7)",
        "assignment: Essay 1": "meeting_number(9)",
        "assignment: Essay 2": "meeting_number(10)",
        "quiz: Quiz 1": "meeting_number(12)",
    }
