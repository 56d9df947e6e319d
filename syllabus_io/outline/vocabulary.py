"""Word lists of the trade, as data: kinds of work, headings, days off, words that announce or fix a deadline.

Lists hold lower-case words. The few functions here only look words up; what a text means is decided elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from functools import cache

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.expression import Weekday

__all__ = [
    "ANNOUNCE_WORDS",
    "COLUMN_HEADINGS",
    "COUNT_WORDS",
    "DAY_OFF_WORDS",
    "DUE_WORDS",
    "EXTRA_CREDIT_WORDS",
    "MEETING_KINDS",
    "NOT_WORK_WORDS",
    "OPTIONAL_WORDS",
    "PASSING_WORDS",
    "SECTION_HEADINGS",
    "WEEKDAY_LETTERS",
    "WEEKDAY_NAMES",
    "WORK_WORDS",
    "ColumnRole",
    "SectionKind",
    "WorkWord",
    "any_of",
    "column_role",
    "count_of",
    "find_work_words",
    "kind_of_work",
    "section_kind",
    "weekdays_of_letters",
]


@dataclass(frozen=True, slots=True)
class WorkWord:
    """A word for a kind of work: its forms in lower case, the first being the plain singular.

    ``is_weak`` marks words that name work only beside a number, a due word or in a column of work ("lab",
    "response", "draft"): in running text they often mean something else.
    """

    kind: Kind
    forms: tuple[str, ...]
    is_weak: bool = False


def _words(kind: Kind, *rows: str, is_weak: bool = False) -> tuple[WorkWord, ...]:
    return tuple(WorkWord(kind, tuple(form.strip() for form in row.split(",")), is_weak) for row in rows)


WORK_WORDS: tuple[WorkWord, ...] = (
    *_words(
        Kind.EXAM,
        "midterm exam, midterm exams, mid-term exam, mid-term exams, mid term exam, mid term exams",
        "midterm examination, midterm examinations, mid-term examination, mid-term examinations",
        "midterm test, midterm tests, mid-term test, mid-term tests, term test, term tests, unit test, unit tests",
        "midterm, midterms, mid-term, mid-terms, mid term, mid terms, mid-semester exam, midsemester exam",
        "final exam, final exams, final examination, final examinations, final test, comprehensive final",
        "practical exam, practical exams, lab practical, lab practicals, practicum exam, oral exam, oral exams",
        "take-home exam, take-home exams, take home exam, take home exams, take-home final, take home final",
        "class test, class tests, in-class test, in-class exam, in class exam, in-class exams, mock exam, mock exams",
        "exam, exams, examination, examinations",
        "test, tests",
        "prelim, prelims, preliminary exam, preliminary exams, hourly, hourlies",
    ),
    *_words(Kind.EXAM, "final, finals", "assessment, assessments", "practical, practicals", "viva", is_weak=True),
    *_words(
        Kind.QUIZ,
        "pop quiz, pop quizzes, reading quiz, reading quizzes, online quiz, online quizzes, video quiz, video quizzes",
        "quiz, quizzes, quizes, quizz",
        "knowledge check, knowledge checks, concept check, concept checks, vocabulary check, vocab quiz, vocab quizzes",
    ),
    *_words(
        Kind.PRESENTATION,
        "poster presentation, poster presentations, poster session, oral presentation, oral presentations",
        "group presentation, group presentations, final presentation, final presentations, project presentation, "
        "project presentations, class presentation, class presentations, lightning talk, lightning talks",
        "presentation, presentations, presn",
        "recital, recitals, jury, juries, speech, speeches",
    ),
    *_words(Kind.PRESENTATION, "talk, talks", "poster, posters", "demo, demos", "pitch, pitches", is_weak=True),
    *_words(
        Kind.PROJECT,
        "final project, final projects, term project, term projects, group project, group projects, team project, "
        "team projects, research project, research projects, capstone project, design project, design projects, "
        "course project, class project, semester project",
        "project proposal, project proposals, research proposal, research proposals, paper proposal",
        "project report, project reports, final report, final reports, progress report, progress reports, "
        "project plan, project plans, project milestone, project milestones",
        "project, projects, proj",
        "proposal, proposals, prospectus",
        "capstone, portfolio, portfolios",
        "milestone, milestones, deliverable, deliverables",
    ),
    *_words(
        Kind.ASSIGNMENT,
        "homework assignment, homework assignments, homework, homeworks, home work, home works, hw, hws, hwk, hmwk",
        "problem set, problem sets, pset, psets, p-set, p-sets, ps, probset, probsets",
        "worksheet, worksheets, exercise sheet, exercise sheets, problem sheet, problem sheets",
        "written assignment, written assignments, writing assignment, writing assignments, programming assignment, "
        "programming assignments, reading assignment response, weekly assignment, weekly assignments, "
        "computer assignment, computer assignments, lab assignment, lab assignments, coding assignment",
        "assignment, assignments, asgn, asgmt, assn, assgn",
        "coursework, courseworks",
        "lab report, lab reports, laboratory report, laboratory reports, lab write-up, lab write-ups, lab writeup, "
        "lab writeups, lab notebook, lab notebooks",
        "essay, essays",
        "term paper, term papers, research paper, research papers, final paper, final papers, response paper, "
        "response papers, reaction paper, reaction papers, position paper, position papers, short paper, short papers",
        "paper, papers",
        "reading response, reading responses, reflection paper, reflection papers, reflection essay, journal entry, "
        "journal entries, case study, case studies, case analysis, case analyses, book report, book reports, "
        "book review, book reviews, film review, article review, article reviews, literature review, "
        "annotated bibliography, policy brief, policy briefs, memo, memos",
        "discussion post, discussion posts, discussion board, discussion boards, forum post, forum posts, "
        "discussion question, discussion questions, blog post, blog posts, initial post, peer response, peer responses",
        "peer review, peer reviews, peer evaluation, peer evaluations, self-evaluation, self evaluation, self-assessment",
        "rough draft, rough drafts, first draft, first drafts, final draft, final drafts, final version, outline draft",
    ),
    *_words(
        Kind.ASSIGNMENT,
        "lab, labs, laboratory, laboratories",
        "exercise, exercises, problem, problems, activity, activities, task, tasks, workshop, workshops",
        "response, responses, reflection, reflections, journal, journals, critique, critiques, summary, summaries, "
        "report, reports, review, reviews, analysis, analyses, post, posts, discussion, discussions, reply, replies, "
        "write-up, write-ups, writeup, writeups, submission, submissions, survey, surveys, evaluation, evaluations",
        "draft, drafts, revision, revisions, outline, outlines, bibliography, abstract, abstracts, sketch, sketches, "
        "storyboard, storyboards, script, scripts, questionnaire, peer feedback, topic selection",
        "case, cases, lab book, log, logs, notebook, notebooks, checkpoint, checkpoints, participation, attendance",
        is_weak=True,
    ),
    *_words(
        Kind.READING,
        "reading, readings, reading assignment, reading assignments, required reading, required readings",
        is_weak=True,
    ),
)

# Words that stand before or after a work word and make it something that is not handed in or sat.
NOT_WORK_WORDS = (
    "review",
    "reviews",
    "review session",
    "prep",
    "preparation",
    "practice",
    "solutions",
    "solution",
    "answer key",
    "returned",
    "handed back",
    "discussion of",
    "discuss",
    "go over",
    "debrief",
    "introduction to",
    "overview",
    "work time",
    "workday",
    "work day",
    "q&a",
)

OPTIONAL_WORDS = (
    "optional",
    "not graded",
    "ungraded",
    "for practice",
    "extra credit",
    "bonus",
    "possible",
    "if needed",
)

# --- deadlines ------------------------------------------------------------------------------------------

DUE_WORDS = (
    "due",
    "due date",
    "deadline",
    "deadlines",
    "submit",
    "submitted",
    "submission",
    "turn in",
    "turned in",
    "turn it in",
    "hand in",
    "handed in",
    "hand-in",
    "must be received",
    "upload",
    "uploaded",
    "post by",
    "complete by",
    "completed by",
    "finish by",
    "closes",
    "close",
    "no later than",
    "collected",
    "will be collected",
    "dropbox",
)

ANNOUNCE_WORDS = (
    "assigned",
    "assign",
    "handed out",
    "hand out",
    "handout",
    "given out",
    "distributed",
    "distribute",
    "posted",
    "will be posted",
    "available",
    "released",
    "release",
    "opens",
    "open",
    "announced",
    "introduced",
    "introduce",
    "begins",
    "begin",
    "starts",
    "start",
    "out",
    "emailed",
    "sent out",
    "launch",
    "launched",
    "returned",
)

# --- days off -------------------------------------------------------------------------------------------

DAY_OFF_WORDS = (
    "no class",
    "no classes",
    "no class meeting",
    "no school",
    "no lecture",
    "no lectures",
    "no meeting",
    "no seminar",
    "no instruction",
    "class cancelled",
    "class canceled",
    "classes cancelled",
    "classes canceled",
    "class does not meet",
    "class will not meet",
    "classes not held",
    "holiday",
    "holidays",
    "break",
    "recess",
    "vacation",
    "reading week",
    "reading day",
    "reading days",
    "study day",
    "study days",
    "study week",
    "half-term",
    "half term",
    "mid-term break",
    "university closed",
    "college closed",
    "school closed",
    "campus closed",
    "day off",
    "days off",
    "teacher workday",
    "professional development day",
    "in-service day",
    "staff development day",
    "bank holiday",
    "public holiday",
    "observed",
)

# --- headings -------------------------------------------------------------------------------------------


class ColumnRole(Enum):
    """What a column of a schedule or requirements table holds."""

    DATE = "date"
    WEEK = "week"
    CLASS_NUMBER = "class number"
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
        (
            "due",
            "what is due",
            "what's due",
            "due today",
            "due in class",
            "due this week",
            "assignments due",
            "assignment due",
            "homework due",
            "work due",
            "items due",
            "to hand in",
            "hand in",
            "to submit",
            "submit",
            "turn in",
            "deliverable",
            "deliverables",
            "due before class",
            "submissions",
        ),
    ),
    (
        ColumnRole.WEEK,
        ("week", "weeks", "wk", "wk.", "week no", "week no.", "week #", "week number", "week of", "module", "unit"),
    ),
    (
        ColumnRole.CLASS_NUMBER,
        (
            "class",
            "class #",
            "class no",
            "class no.",
            "lecture",
            "lecture #",
            "lec",
            "lec.",
            "lec #",
            "session",
            "session #",
            "meeting",
            "meeting #",
            "no",
            "no.",
            "#",
        ),
    ),
    (
        ColumnRole.DATE,
        ("date", "dates", "day/date", "date/day", "day and date", "class date", "class dates", "meeting date", "when"),
    ),
    (ColumnRole.WEEKDAY, ("day", "days", "weekday", "day of week")),
    (ColumnRole.TIME, ("time", "times", "hour", "hours", "due time")),
    (
        ColumnRole.READING,
        (
            "reading",
            "readings",
            "required reading",
            "required readings",
            "read",
            "reading assignment",
            "reading assignments",
            "reading due",
            "readings due",
            "text",
            "textbook",
            "chapter",
            "chapters",
            "ch",
            "ch.",
            "pages",
            "materials",
            "sections",
            "preparation",
            "prepare",
            "before class",
        ),
    ),
    (ColumnRole.EXAM, ("exam", "exams", "test", "tests", "quiz", "quizzes", "quizzes/exams", "exams/quizzes")),
    (
        ColumnRole.WORK,
        (
            "assignment",
            "assignments",
            "assignment(s)",
            "homework",
            "hw",
            "problem set",
            "problem sets",
            "project",
            "projects",
            "task",
            "tasks",
            "to do",
            "work",
            "coursework",
            "lab",
            "labs",
            "activity",
            "activities",
            "assessment",
            "assessments",
            "requirement",
            "requirements",
            "item",
            "component",
            "components",
            "category",
            "course component",
            "graded work",
            "evaluation",
            "element",
        ),
    ),
    (
        ColumnRole.TOPIC,
        (
            "topic",
            "topics",
            "subject",
            "subjects",
            "theme",
            "content",
            "title",
            "lecture topic",
            "class topic",
            "topics covered",
            "material",
            "description",
            "plan",
            "in class",
            "class activity",
            "agenda",
            "event",
            "events",
        ),
    ),
    (ColumnRole.ROOM, ("room", "location", "place", "where", "building", "venue")),
    (ColumnRole.PERSON, ("instructor", "presenter", "speaker", "leader", "lecturer", "teacher", "ta")),
    (
        ColumnRole.WEIGHT,
        (
            "weight",
            "weights",
            "weighting",
            "percent",
            "percentage",
            "%",
            "% of grade",
            "percent of grade",
            "percentage of grade",
            "% of final grade",
            "percent of final grade",
            "grade weight",
            "value",
            "worth",
            "share",
            "contribution",
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
        (
            "grading",
            "grade",
            "grades",
            "evaluation",
            "assessment",
            "assessments",
            "marking scheme",
            "mark breakdown",
            "course requirements",
            "requirements",
            "weighting",
        ),
    ),
    (SectionKind.OFFICE_HOURS, ("office hour", "office hours", "student hours", "drop-in hours", "consultation")),
    (
        SectionKind.PREREQUISITES,
        (
            "prerequisite",
            "prerequisites",
            "pre-requisites",
            "corequisite",
            "corequisites",
            "co-requisites",
            "antirequisite",
        ),
    ),
    (
        SectionKind.KEY_DATES,
        ("important dates", "key dates", "dates to remember", "deadlines", "due dates", "exam dates"),
    ),
    (
        SectionKind.SCHEDULE,
        (
            "schedule",
            "calendar",
            "course outline",
            "class outline",
            "weekly plan",
            "weekly outline",
            "timeline",
            "timetable",
            "topics and readings",
            "plan of the course",
            "lecture plan",
        ),
    ),
    (
        SectionKind.MEETINGS,
        (
            "class meeting",
            "class meetings",
            "meeting times",
            "meeting time",
            "class time",
            "class times",
            "lectures",
            "when and where",
        ),
    ),
    (
        SectionKind.CONTACT,
        (
            "instructor",
            "instructors",
            "professor",
            "teacher",
            "contact",
            "teaching assistant",
            "teaching assistants",
            "teaching staff",
            "course staff",
            "faculty",
            "lecturer",
        ),
    ),
    (
        SectionKind.MATERIALS,
        (
            "textbook",
            "textbooks",
            "text",
            "texts",
            "materials",
            "readings",
            "books",
            "resources",
            "bibliography",
            "references",
        ),
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
        (
            "assignment",
            "assignments",
            "homework",
            "exam",
            "exams",
            "project",
            "projects",
            "quiz",
            "quizzes",
            "papers",
            "essays",
        ),
    ),
    (
        SectionKind.POLICIES,
        (
            "policy",
            "policies",
            "integrity",
            "honesty",
            "plagiarism",
            "accommodation",
            "accommodations",
            "disability",
            "disabilities",
            "attendance",
            "conduct",
            "rules",
            "expectations",
            "title ix",
            "diversity",
            "inclusion",
        ),
    ),
)

# --- numbers in words, days and meetings -------------------------------------------------------------------

COUNT_WORDS = {
    "one": 1,
    "a": 1,
    "an": 1,
    "single": 1,
    "two": 2,
    "both": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "twenty": 20,
}

EXTRA_CREDIT_WORDS = ("extra credit", "extra-credit", "bonus", "extra points", "additional credit", "(extra)")

PASSING_WORDS = ("pass", "fail", "p/f", "s/nc", "s/u", "credit/no credit", "satisfactory")

MEETING_KINDS = {
    "lecture": "lecture",
    "lectures": "lecture",
    "lec": "lecture",
    "lab": "lab",
    "labs": "lab",
    "laboratory": "lab",
    "laboratories": "lab",
    "practical": "lab",
    "practicals": "lab",
    "studio": "lab",
    "recitation": "recitation",
    "recitations": "recitation",
    "discussion": "recitation",
    "discussions": "recitation",
    "discussion section": "recitation",
    "section": "recitation",
    "tutorial": "recitation",
    "tutorials": "recitation",
    "seminar": "",
    "class": "",
    "classes": "",
    "class meetings": "",
}

WEEKDAY_NAMES: dict[str, Weekday] = {
    form: day
    for day, forms in {
        Weekday.MO: "monday mondays mon mon. m mo",
        Weekday.TU: "tuesday tuesdays tues tues. tue tue. tu t",
        Weekday.WE: "wednesday wednesdays wed wed. weds weds. we w",
        Weekday.TH: "thursday thursdays thurs thurs. thur thur. thu thu. th r",
        Weekday.FR: "friday fridays fri fri. fr f",
        Weekday.SA: "saturday saturdays sat sat. sa",
        Weekday.SU: "sunday sundays sun sun. su",
    }.items()
    for form in forms.split()
}

# Letters of meeting patterns as timetables print them; longest first. "R" is Thursday, "U" Sunday, "S" Saturday.
WEEKDAY_LETTERS: tuple[tuple[str, Weekday], ...] = (
    ("mo", Weekday.MO),
    ("tu", Weekday.TU),
    ("we", Weekday.WE),
    ("th", Weekday.TH),
    ("fr", Weekday.FR),
    ("sa", Weekday.SA),
    ("su", Weekday.SU),
    ("m", Weekday.MO),
    ("t", Weekday.TU),
    ("w", Weekday.WE),
    ("r", Weekday.TH),
    ("h", Weekday.TH),
    ("f", Weekday.FR),
    ("s", Weekday.SA),
    ("u", Weekday.SU),
)


# --- looking words up ---------------------------------------------------------------------------------------


def any_of(words: Iterable[str]) -> str:
    """A regular expression (no group) that matches any of the words whole, the longest first, blanks loosely."""
    parts = sorted(set(words), key=lambda word: (-len(word), word))
    return "(?:" + "|".join(re.escape(part).replace(r"\ ", r"\s+") for part in parts) + ")"


@cache
def _work_forms() -> dict[str, WorkWord]:
    return {form: word for word in WORK_WORDS for form in word.forms}


@cache
def _work_pattern() -> re.Pattern[str]:
    return re.compile(rf"(?<![A-Za-z])({any_of(_work_forms())})(?![A-Za-z])", re.IGNORECASE)


def find_work_words(text: str) -> tuple[tuple[int, int, WorkWord], ...]:
    """The work words in a text, left to right, not overlapping: start, end and the word; "HW3" holds "hw"."""
    return tuple(
        (match.start(1), match.end(1), _work_forms()[" ".join(match[1].lower().split())])
        for match in _work_pattern().finditer(text)
    )


def kind_of_work(text: str) -> Kind | None:
    """The kind of the last strong work word in a title, else of the last weak one; None without any.

    The last word names the thing: "Exam review essay" is an essay.

    >>> kind_of_work("Lab report 3")
    <Kind.ASSIGNMENT: 'assignment'>
    """
    found = [word for _, _, word in find_work_words(text)]
    strong = [word for word in found if not word.is_weak]
    chosen = strong or found
    return chosen[-1].kind if chosen else None


def column_role(heading: str) -> ColumnRole | None:
    """The role of a column by its heading; the whole heading must be one of the known ones, marks aside."""
    text = " ".join(re.sub(r"[^a-z0-9#%/&'. -]", " ", heading.lower()).split()).strip(" .:-") or heading.strip().lower()
    for role, words in COLUMN_HEADINGS:
        if text in words or text.rstrip(".") in words:
            return role
    return None


def section_kind(heading: str) -> SectionKind:
    """What a section is about, by its heading; OTHER when no known word stands in it."""
    text = " ".join(heading.lower().split())
    for kind, words in SECTION_HEADINGS:
        if re.search(rf"(?<![a-z]){any_of(words)}(?![a-z])", text):
            return kind
    return SectionKind.OTHER


def count_of(word: str) -> int | None:
    """The number that a word or numeral stands for ("three": 3, "12": 12); None when it is none."""
    word = word.strip().lower()
    return int(word) if word.isdecimal() else COUNT_WORDS.get(word)


def weekdays_of_letters(letters: str) -> tuple[Weekday, ...]:
    """The days of a timetable pattern such as MWF, TTh, TuTh, TR, M/W or MoWe; empty when it is none.

    >>> weekdays_of_letters("TTh")
    (<Weekday.TU: 2>, <Weekday.TH: 4>)
    """
    text = re.sub(r"[\s/&,.+-]+", "", letters).lower()
    days: list[Weekday] = []
    while text:
        for form, day in WEEKDAY_LETTERS:
            if text.startswith(form) and (not days or day > days[-1]):
                days.append(day)
                text = text[len(form) :]
                break
        else:
            return ()
    return tuple(days)
