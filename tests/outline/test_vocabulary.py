"""Word lists: kinds of work, headings, weekday letters."""

from __future__ import annotations

import pytest

from syllabus_io.outline.headings import ColumnRole, SectionKind, column_role, section_kind
from syllabus_io.outline.records import Kind
from syllabus_io.outline.vocabulary import count_of, find_work_words, kind_of_work, weekdays_of_letters

from .documents import document
from .reading import work


@pytest.mark.parametrize(
    ("title", "kind"),
    [
        ("Homework 3", Kind.ASSIGNMENT),
        ("HW3", Kind.ASSIGNMENT),
        ("PS 4", Kind.ASSIGNMENT),
        ("Lab report 2", Kind.ASSIGNMENT),
        ("Midterm", Kind.EXAM),
        ("Second prelim", Kind.EXAM),
        ("Final", Kind.EXAM),
        ("Pop quizzes", Kind.QUIZ),
        ("Poster session", Kind.PRESENTATION),
        ("Project proposal", Kind.PROJECT),
        ("Exam review essay", Kind.ASSIGNMENT),
        ("Rivers of the north", None),
    ],
)
def test_kind_of_work(title: str, kind: Kind | None) -> None:
    assert kind_of_work(title) is kind, f"{title!r} should be {kind}"


def test_work_words_are_found_with_their_place() -> None:
    text = "Quiz 1 and problem set 2"
    assert [text[start:end] for start, end, _ in find_work_words(text)] == ["Quiz", "problem set"]


# Letters of meeting patterns: common practice, no source ("R" for Thursday, "U" for Sunday).
@pytest.mark.parametrize(
    ("letters", "codes"),
    [
        ("MWF", "MO WE FR"),
        ("TTh", "TU TH"),
        ("TuTh", "TU TH"),
        ("TR", "TU TH"),
        ("M/W", "MO WE"),
        ("MoWe", "MO WE"),
        ("M T W R F", "MO TU WE TH FR"),
        ("AB", ""),
        ("FM", ""),
    ],
)
def test_weekday_letters(letters: str, codes: str) -> None:
    assert " ".join(day.name for day in weekdays_of_letters(letters)) == codes


@pytest.mark.parametrize(
    ("heading", "role"),
    [
        ("Due date", ColumnRole.DUE_DATE),
        ("Due", ColumnRole.DUE),
        ("Week", ColumnRole.WEEK),
        ("Date", ColumnRole.DATE),
        ("% of grade", ColumnRole.WEIGHT),
        ("Points", ColumnRole.POINTS),
        ("Reading", ColumnRole.READING),
        ("Favourite colour", None),
    ],
)
def test_column_roles(heading: str, role: ColumnRole | None) -> None:
    assert column_role(heading) is role


@pytest.mark.parametrize(
    ("heading", "kind"),
    [
        ("Late Work Policy", SectionKind.LATE),
        ("How your grade is made", SectionKind.GRADING),
        ("Course schedule", SectionKind.SCHEDULE),
        ("Office Hours", SectionKind.OFFICE_HOURS),
        ("Academic honesty", SectionKind.POLICIES),
        ("Something else", SectionKind.OTHER),
    ],
)
def test_section_kinds(heading: str, kind: SectionKind) -> None:
    assert section_kind(heading) is kind


def test_counts_in_words_and_numerals() -> None:
    assert [count_of(word) for word in ("three", "12", "Ten", "many")] == [3, 12, 10, None]


@pytest.mark.parametrize(
    ("words", "kind", "title"),
    [
        ("Examen 1", Kind.EXAM, "Examen 1"),
        ("Prueba 3", Kind.QUIZ, "Prueba 3"),
        ("Composición 2", Kind.ASSIGNMENT, "Composición 2"),
        ("Rédaction 1", Kind.ASSIGNMENT, "Rédaction 1"),
        ("Klausur 2", Kind.EXAM, "Klausur 2"),
        ("Compito 4", Kind.ASSIGNMENT, "Compito 4"),
    ],
)
def test_work_named_in_the_language_that_is_taught(words: str, kind: Kind, title: str) -> None:
    rows = [["Date", "Topic"], ["Oct 14", words], ["Oct 16", "Dialogues"], ["Oct 19", "Poems"]]
    assert [(item.kind, item.title) for item in work(document(rows))] == [(kind, title)]
