"""Word lists of the trade, as data: kinds of work, headings, days off, words that announce or fix a deadline.

Lists hold lower-case words. The few functions here only look words up; what a text means is decided elsewhere.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from syllabus_io.outline.headings import (
    COLUMN_HEADINGS,
    SECTION_HEADINGS,
    ColumnRole,
    SectionKind,
    any_of,
    column_role,
    section_kind,
)
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


def _list(text: str) -> tuple[str, ...]:
    return tuple(" ".join(word.split()) for word in text.split(","))


def _words(kind: Kind, *rows: str, is_weak: bool = False) -> tuple[WorkWord, ...]:
    return tuple(WorkWord(kind, tuple(form.strip() for form in row.split(",")), is_weak) for row in rows)


_LANGUAGE_CLASSES = (
    *_words(
        Kind.EXAM,
        "examen final, examen parcial, exámenes parciales, examen, exámenes, examenes, examens",
        "klausur, klausuren, prüfung, prüfungen, esame, esami, exame final, exame, exames",
    ),
    *_words(Kind.QUIZ, "prueba, pruebas, pruebita, pruebitas, interro, interros"),
    *_words(
        Kind.PROJECT, "proyecto final, proyecto, proyectos, projet final, projet, projets, projekt, projekte, progetto"
    ),
    *_words(Kind.PRESENTATION, "presentación, presentaciones, referat, referate, presentazione, apresentação"),
    *_words(
        Kind.ASSIGNMENT,
        "tarea, tareas, composición, composiciones, ensayo, ensayos, redacción, redacciones",
        "devoir, devoirs, rédaction, rédactions, hausaufgabe, hausaufgaben, aufsatz, aufsätze, compito, compiti",
    ),
)
"""Work as outlines of language classes name it in the language taught: Spanish, French, German, Italian, Portuguese."""

WORK_WORDS: tuple[WorkWord, ...] = (
    *_LANGUAGE_CLASSES,
    *_words(
        Kind.EXAM,
        "midterm exam, midterm exams, mid-term exam, mid-term exams, mid term exam, mid term exams",
        "midterm examination, midterm examinations, mid-term examination, mid-term examinations",
        "midterm test, midterm tests, mid-term test, mid-term tests, term test, term tests, unit test, unit tests",
        "midterm, midterms, mid-term, mid-terms, mid term, mid terms, mid-semester exam, midsemester exam",
        "final exam, final exams, final examination, final examinations, final test, comprehensive final, "
        "cumulative final",
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
    *_words(Kind.PROJECT, "check-in, check-ins, progress check, progress checks", is_weak=True),
    *_words(Kind.PRESENTATION, "talk, talks", "poster, posters", "demo, demos", "pitch, pitches", is_weak=True),
    *_words(
        Kind.PROJECT,
        "final project, final projects, term project, term projects, group project, group projects, team project, "
        "team projects, research project, research projects, capstone project, design project, design projects, "
        "course project, class project, semester project",
        "project proposal, project proposals, research proposal, research proposals, paper proposal",
        "project report, project reports, final report, final reports, progress report, progress reports, "
        "project plan, project plans, project milestone, project milestones, project paper, project papers, "
        "project essay, project essays, project outline, project outlines, project draft, project drafts",
        "project, projects, proj",
        "proposal, proposals, prospectus",
        "capstone, final portfolio, final portfolios",
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
        "assignment, assignments, asgn, asgmt, assn, assgn, assignement, assignements, assigment, assigments",
        "coursework, courseworks",
        "portfolio, portfolios",
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
        "peer review, peer reviews, peer evaluation, peer evaluations, self-evaluation, "
        "self evaluation, self-assessment",
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
NOT_WORK_WORDS = _list(
    "review, reviews, review session, prep, preparation, practice, solutions, solution, answer key, returned, handed "
    "back, discussion of, discuss, go over, debrief, introduction to, overview, work time, workday, work day, q&a"
)

OPTIONAL_WORDS = _list("optional, not graded, ungraded, for practice, extra credit, bonus, possible, if needed")

# --- deadlines ------------------------------------------------------------------------------------------

DUE_WORDS = _list(
    "due, due date, deadline, deadlines, submit, submitted, submission, turn in, turned in, turn it in, hand in, "
    "handed in, hand-in, must be received, upload, uploaded, post by, complete by, completed by, finish by, closes, "
    "close, no later than, collected, will be collected, dropbox"
)

ANNOUNCE_WORDS = _list(
    "assigned, assign, handed out, hand out, handout, given out, distributed, distribute, posted, will be posted, "
    "available, released, release, opens, open, announced, introduced, introduce, begins, begin, starts, start, out, "
    "emailed, sent out, launch, launched, returned"
)

# --- days off -------------------------------------------------------------------------------------------

DAY_OFF_WORDS = _list(
    "no class, no classes, no class meeting, no school, no lecture, no lectures, no meeting, no seminar, no "
    "instruction, class cancelled, class canceled, classes cancelled, classes canceled, class does not meet, class "
    "will not meet, classes not held, holiday, holidays, break, recess, vacation, reading week, reading day, reading "
    "days, study day, study days, study week, half-term, half term, mid-term break, university closed, college "
    "closed, school closed, campus closed, day off, days off, teacher workday, professional development day, "
    "in-service day, staff development day, bank holiday, public holiday, observed"
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
    "clinical": "lab",
    "practicum": "lab",
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


@cache
def _work_forms() -> dict[str, WorkWord]:
    return {form: word for word in WORK_WORDS for form in word.forms}


@cache
def _work_pattern() -> re.Pattern[str]:
    return re.compile(rf"(?<![a-z])({any_of(_work_forms())})(?![a-z])")


@lru_cache(maxsize=4096)
def find_work_words(text: str) -> tuple[tuple[int, int, WorkWord], ...]:
    """The work words in a text, left to right, not overlapping: start, end and the word; "HW3" holds "hw"."""
    lower = text.lower()  # four times as fast as a pattern that is blind to case
    if len(lower) != len(text):  # a few capitals have a longer lower-case form
        lower = "".join(letter.lower() if len(letter.lower()) == 1 else letter for letter in text)
    return tuple(
        (match.start(1), match.end(1), _work_forms()[" ".join(match[1].split())])
        for match in _work_pattern().finditer(lower)
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
