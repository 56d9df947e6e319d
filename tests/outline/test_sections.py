"""Sections under their headings, and facts written as "label: value"."""

from __future__ import annotations

from syllabus_io.outline.headings import SectionKind
from syllabus_io.outline.labels import LabelKind, find_labels
from syllabus_io.outline.sections import is_heading, plain, read_labels, read_sections
from tests.outline.documents import document, heading, line


def test_sections_follow_headings_of_every_form() -> None:
    outline = document(
        "A course about ponds",
        heading("Grading"),
        "Homework 40%",
        line("Course policies", bold=True),
        "Be kind.",
        "SCHEDULE",
        "Week 1 ponds",
    )
    found = [(section.title, section.kind, len(section.blocks)) for section in read_sections(outline)]
    assert found == [
        ("", SectionKind.OTHER, 1),
        ("Grading", SectionKind.GRADING, 1),
        ("Course policies", SectionKind.POLICIES, 1),
        ("SCHEDULE", SectionKind.SCHEDULE, 1),
    ]


def test_a_paragraph_opened_by_a_label_is_a_section() -> None:
    sections = read_sections(document("Late work: Nothing is accepted after a week, and we mean it."))
    assert [(one.title, one.kind) for one in sections] == [("Late work", SectionKind.LATE)]


def test_rows_of_a_table_of_titles_are_sections() -> None:
    long = "Work handed in after the deadline loses a tenth of its marks for every day that has begun."
    sections = read_sections(document([["Late work", long], ["Grading", "Essays 60%; tests 40%"]]))
    kinds = {section.title: section.kind for section in sections}
    assert kinds["Late work"] is SectionKind.LATE
    assert kinds["Grading"] is SectionKind.GRADING


def test_a_long_sentence_in_a_heading_style_is_no_heading() -> None:
    assert not is_heading(line("Students are expected to have read every chapter before they come to class.", level=1))
    assert is_heading(line("Reading list", level=1))


def test_several_labels_on_one_line() -> None:
    facts = {
        fact.kind: fact.value
        for fact in read_labels(document("Office: Dale 12   Phone: 555-0101  E-mail: a@b.example"))
    }
    assert facts[LabelKind.OFFICE] == "Dale 12"
    assert facts[LabelKind.PHONE] == "555-0101"
    assert facts[LabelKind.EMAIL] == "a@b.example"


def test_labels_in_a_table_and_alone_above_their_value() -> None:
    outline = document([["Instructor", "Ada Quill"], ["Office hours", "Mon 2-3"]], "Classroom:", "Dale 4")
    facts = [(fact.kind, fact.value) for fact in read_labels(outline)]
    assert facts == [
        (LabelKind.INSTRUCTOR, "Ada Quill"),
        (LabelKind.OFFICE_HOURS, "Mon 2-3"),
        (LabelKind.ROOM, "Dale 4"),
    ]


def test_a_label_without_a_colon_needs_a_plain_value() -> None:
    facts = read_labels(document("instructor Ada Quill, quill@example.edu", "office hours are a good time to talk"))
    assert [(fact.kind, fact.value) for fact in facts] == [(LabelKind.INSTRUCTOR, "Ada Quill, quill@example.edu")]


def test_a_clock_time_is_no_label() -> None:
    assert find_labels("9:30 every day") == ()


def test_ligatures_are_written_out() -> None:
    assert plain("O\ufb03ce  hours") == "Office hours"
