"""Headings of columns and sections, as data: what a column holds, what a section is about."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import Enum
from functools import cache, lru_cache

__all__ = ["COLUMN_HEADINGS", "SECTION_HEADINGS", "ColumnRole", "SectionKind", "any_of", "column_role", "section_kind"]


def _list(text: str) -> tuple[str, ...]:
    return tuple(" ".join(word.split()) for word in text.split(","))


def any_of(words: Iterable[str]) -> str:
    """A regular expression (no group) that matches any of the words whole, the longest first, blanks loosely."""
    parts = sorted(set(words), key=lambda word: (-len(word), word))
    return "(?:" + "|".join(re.escape(part).replace(r"\ ", r"\s+") for part in parts) + ")"


class ColumnRole(Enum):
    """What a column of a schedule or requirements table holds."""

    DATE = "date"
    WEEK = "week"
    CLASS_NUMBER = "class number"
    MONTH = "month"
    WEEKDAY = "weekday"
    TIME = "time"
    TOPIC = "topic"
    READING = "reading"
    DUE = "due"
    DUE_DATE = "due date"
    ASSIGNED = "assigned"
    WORK = "work"
    EXAM = "exam"
    ROOM = "room"
    PERSON = "person"
    WEIGHT = "weight"
    POINTS = "points"
    COUNT = "count"
    LETTER = "letter"
    NOTES = "notes"


# The first role whose words fit a heading wins, so that "Due date" is not taken for a date column.
COLUMN_HEADINGS: tuple[tuple[ColumnRole, tuple[str, ...]], ...] = (
    (ColumnRole.DUE_DATE, ("due date", "due dates", "date due", "deadline", "deadlines", "due on", "when due")),
    (
        ColumnRole.ASSIGNED,
        ("assigned", "date assigned", "handed out", "hand out", "out", "released", "release date", "posted", "opens"),
    ),
    (
        ColumnRole.DUE,
        _list(
            "due, what is due, what's due, due today, due in class, due this week, assignments due, assignment due, "
            "homework due, work due, items due, to hand in, hand in, to submit, submit, turn in, deliverable, "
            "deliverables, due before class, submissions"
        ),
    ),
    (
        ColumnRole.WEEK,
        ("week", "weeks", "wk", "wk.", "week no", "week no.", "week #", "week number", "week of", "module", "unit"),
    ),
    (
        ColumnRole.CLASS_NUMBER,
        _list(
            "class, class #, class no, class no., lecture, lecture #, lec, lec., lec #, session, session #, meeting, "
            "meeting #, no, no., #"
        ),
    ),
    (
        ColumnRole.DATE,
        _list(
            "date, dates, day/date, date/day, day and date, class date, class dates, meeting date, when, month/day, "
            "month day, month & day, month and day, day/month"
        ),
    ),
    (ColumnRole.MONTH, ("month", "months")),
    (ColumnRole.WEEKDAY, ("day", "days", "weekday", "day of week")),
    (ColumnRole.TIME, ("time", "times", "hour", "hours", "due time")),
    (
        ColumnRole.READING,
        _list(
            "reading, readings, required reading, required readings, read, reading assignment, reading assignments, "
            "reading due, readings due, text, textbook, chapter, chapters, ch, ch., pages, materials, sections, "
            "preparation, prepare, before class"
        ),
    ),
    (ColumnRole.EXAM, ("exam", "exams", "test", "tests", "quiz", "quizzes", "quizzes/exams", "exams/quizzes")),
    (
        ColumnRole.WORK,
        _list(
            "assignment, assignments, assignment(s), homework, hw, problem set, problem sets, project, projects, "
            "task, tasks, to do, work, coursework, lab, labs, activity, activities, assessment, assessments, "
            "discussion, discussions, discussion board, discussion boards, "
            "requirement, requirements, item, component, components, category, course component, graded work, "
            "evaluation, element"
        ),
    ),
    (
        ColumnRole.TOPIC,
        _list(
            "topic, topics, subject, subjects, theme, content, title, lecture topic, class topic, topics covered, "
            "material, description, plan, in class, class activity, agenda, event, events"
        ),
    ),
    (ColumnRole.ROOM, ("room", "location", "place", "where", "building", "venue")),
    (ColumnRole.PERSON, ("instructor", "presenter", "speaker", "leader", "lecturer", "teacher", "ta")),
    (
        ColumnRole.WEIGHT,
        _list(
            "weight, weights, weighting, percent, percentage, %, % of grade, percent of grade, percentage of grade, "
            "% of final grade, percent of final grade, grade weight, value, worth, share, contribution, "
            "how much, counts for, part of grade, portion of grade"
        ),
    ),
    (
        ColumnRole.POINTS,
        ("points", "pts", "pts.", "point value", "points possible", "possible points", "total points", "marks"),
    ),
    (ColumnRole.COUNT, ("number", "quantity", "how many", "qty", "count", "number of")),
    (ColumnRole.LETTER, ("grade", "letter", "letter grade", "final grade", "course grade")),
    (ColumnRole.NOTES, ("note", "notes", "comment", "comments", "remarks", "other", "announcements")),
)


class SectionKind(Enum):
    """What a titled section of an outline is about."""

    GRADING = "grading"
    SCALE = "scale"
    LATE = "late work"
    SCHEDULE = "schedule"
    MEETINGS = "meetings"
    OFFICE_HOURS = "office hours"
    CONTACT = "contact"
    MATERIALS = "materials"
    PREREQUISITES = "prerequisites"
    DESCRIPTION = "description"
    OBJECTIVES = "objectives"
    POLICIES = "policies"
    KEY_DATES = "key dates"
    WORK = "work"
    OTHER = "other"


# The first kind with a word inside the heading wins.
SECTION_HEADINGS: tuple[tuple[SectionKind, tuple[str, ...]], ...] = (
    (SectionKind.LATE, ("late", "make-up", "makeup", "make up", "missed", "extensions", "extension")),
    (
        SectionKind.SCALE,
        ("grading scale", "grade scale", "letter grade", "letter grades", "final grades", "grade cutoffs", "grade key"),
    ),
    (
        SectionKind.GRADING,
        _list(
            "grading, grade, grades, evaluation, assessment, assessments, marking scheme, mark breakdown, course "
            "requirements, requirements, weighting, weights"
        ),
    ),
    (SectionKind.OFFICE_HOURS, ("office hour", "office hours", "student hours", "drop-in hours", "consultation")),
    (
        SectionKind.PREREQUISITES,
        _list("prerequisite, prerequisites, pre-requisites, corequisite, corequisites, co-requisites, antirequisite"),
    ),
    (
        SectionKind.KEY_DATES,
        _list(
            "important dates, key dates, dates to remember, dates to keep, dates to note, dates to know, dates at a "
            "glance, deadlines, due dates, exam dates, what is due when, what is due, what you will turn in, "
            "what to turn in, what you will hand in, what to hand in"
        ),
    ),
    (
        SectionKind.SCHEDULE,
        _list(
            "schedule, calendar, course outline, class outline, weekly plan, weekly outline, timeline, timetable, "
            "topics and readings, plan of the course, lecture plan"
        ),
    ),
    (
        SectionKind.MEETINGS,
        _list(
            "class meeting, class meetings, meeting times, meeting time, class time, class times, lectures, when and "
            "where"
        ),
    ),
    (
        SectionKind.CONTACT,
        _list(
            "instructor, instructors, professor, teacher, contact, teaching assistant, teaching assistants, teaching "
            "staff, course staff, faculty, lecturer"
        ),
    ),
    (
        SectionKind.MATERIALS,
        _list("textbook, textbooks, text, texts, materials, readings, books, resources, bibliography, references"),
    ),
    (
        SectionKind.OBJECTIVES,
        ("objective", "objectives", "outcome", "outcomes", "goal", "goals", "competencies", "skills"),
    ),
    (
        SectionKind.DESCRIPTION,
        ("description", "overview", "about the course", "about this course", "introduction", "welcome"),
    ),
    (
        SectionKind.WORK,
        _list("assignment, assignments, homework, exam, exams, project, projects, quiz, quizzes, papers, essays"),
    ),
    (
        SectionKind.POLICIES,
        _list(
            "policy, policies, integrity, honesty, plagiarism, accommodation, accommodations, disability, "
            "disabilities, attendance, conduct, rules, expectations, title ix, diversity, inclusion"
        ),
    ),
)


def column_role(heading: str) -> ColumnRole | None:
    """The role of a column by its heading; the whole heading must be one of the known ones, marks aside."""
    text = " ".join(re.sub(r"[^a-z0-9#%/&'. -]", " ", heading.lower()).split()).strip(" .:-") or heading.strip().lower()
    for role, words in COLUMN_HEADINGS:
        if text in words or text.rstrip(".") in words:
            return role
    return None


@cache
def _section_patterns() -> tuple[tuple[SectionKind, re.Pattern[str]], ...]:
    return tuple((kind, re.compile(rf"(?<![a-z]){any_of(words)}(?![a-z])")) for kind, words in SECTION_HEADINGS)


@lru_cache(maxsize=8192)
def section_kind(heading: str) -> SectionKind:
    """What a section is about, by its heading; OTHER when no known word stands in it."""
    text = " ".join(heading.lower().split())
    for kind, pattern in _section_patterns():
        if pattern.search(text):
            return kind
    return SectionKind.OTHER
