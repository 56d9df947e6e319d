"""Where everything stands in a workbook: sheet names, columns, defined names, hidden row ids.

The only place with such names: the writer uses it, and so does whatever reads a workbook back. Formulas refer to
data by defined name wherever they can, so that a sheet may be rearranged without breaking another.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable
from dataclasses import dataclass

__all__ = [
    "AS_PRINTED",
    "AS_PRINTED_TABLE",
    "DAYS",
    "DEADLINES",
    "DEADLINES_TABLE",
    "EXAMS",
    "EXAMS_TABLE",
    "GRADES",
    "GRADE_SUMS",
    "KINDS",
    "LISTS",
    "MARKS_COLUMNS",
    "OVERVIEW",
    "OVERVIEW_TABLE",
    "REVIEW",
    "REVIEW_TABLE",
    "START",
    "TERM",
    "TIMETABLE",
    "TODAY_CELL",
    "Column",
    "Name",
    "TableLayout",
    "class_count_name",
    "class_kind_count_name",
    "column_letter",
    "grades_sheet_names",
    "quote_sheet",
    "reference",
    "school_count_name",
]

# --- sheets, in the order in which they stand -----------------------------------------------------------

START = "Start here"
TERM = "Term dates"
TIMETABLE = "Timetable"
REVIEW = "Review"
AS_PRINTED = "As printed"
DEADLINES = "Deadlines"
EXAMS = "Exams"
OVERVIEW = "Grades overview"
GRADES = "Grades"  # first word of each course's sheet: "Grades BIO 110"
DAYS = "Days"  # hidden: a row a day
LISTS = "Lists"  # hidden: what drop-downs offer
GRADE_SUMS = "Grade sums"  # hidden: what is computed from the marks of every course

KINDS = ("assignment", "quiz", "exam", "project", "presentation", "reading")
"""The kinds of dated items as every sheet writes them, in the order of the settings."""

TODAY_CELL = "B4"
"""The cell of Start here that holds today's day; every formula takes the day from it."""

_SHEET_NAME_LENGTH = 31  # the longest sheet name the file format allows (ECMA-376 part 1, 18.2.19)


class Name:
    """Defined names. One cell each unless a range is said."""

    TODAY = "TodaysDate"

    # Term dates: facts
    TERM_NAME = "TermName"
    FIRST_DAY = "FirstDay"
    LAST_DAY = "LastDay"
    FINALS_FIRST = "FinalsFirst"
    FINALS_LAST = "FinalsLast"
    WEEK_ONE = "WeekOne"
    BREAKS_COUNT = "BreakWeeksCount"
    CLASSES_END = "ClassesEnd"  # the last day on which there can be a class
    ROTATION_FIRST = "RotationFirst"

    # Term dates: week table (columns)
    WEEK_NUMBERS = "WeekNumbers"
    WEEK_MONDAYS = "WeekMondays"

    # Term dates: days off (columns); OFF_COURSES is empty for the whole school
    OFF_NAMES = "OffNames"
    OFF_FIRST = "OffFirst"
    OFF_LAST = "OffLast"
    OFF_COURSES = "OffCourses"

    # Term dates: classes, a row a weekly class (columns); CLASS_DAYS is seven columns wide, Monday first,
    # with "x" where the class meets
    CLASS_COURSES = "ClassCourses"
    CLASS_KINDS = "ClassKinds"
    CLASS_DAYS = "ClassDays"
    CLASS_STARTS = "ClassStarts"
    CLASS_ENDS = "ClassEnds"
    CLASS_ROOMS = "ClassRooms"
    CLASS_TEACHERS = "ClassTeachers"
    CLASS_ALTERNATE = "ClassAlternate"  # a day of the first week of a class that meets every other week
    CLASS_CYCLE = "ClassCycle"  # the day of the rotating timetable; only where the term has one

    # Days (columns)
    DAY_DATES = "DayDates"
    DAY_OFF = "DayOff"
    ROTATION_COUNT = "RotationCount"
    ROTATION_WORDS = "RotationWords"  # which day of the rotating timetable it is
    ROTATION_LABELS = "RotationLabels"  # a row for each of them

    # Days: the days off as formulas count them (columns). OFF_UNTIL is the last day, also where only a first is given;
    # OFF_FOR is 0 for the whole school, the number of a course, or -1 for a course that is not in the plan
    OFF_UNTIL = "OffUntil"
    OFF_FOR = "OffFor"

    # Term dates: settings (columns by kind, then single cells)
    SET_KINDS = "SetKinds"
    SET_LEADS = "SetLeadDays"
    SET_HOURS = "SetHours"
    SET_SESSIONS = "SetSessions"
    HEAVY_FROM = "HeavyFrom"
    HEAVY_FACTOR = "HeavyFactor"
    HOURS_PER_DAY = "HoursPerDay"
    SESSION_SPREAD = "SessionSpread"
    DAYS_AHEAD = "DaysAhead"

    # Start here and Lists
    STUDENT = "Student"
    COURSES = "Courses"
    COURSE_CHOICES = "CourseChoices"
    CREDITS = "Credits"
    KIND_LIST = "KindList"
    READING_IDS = "ReadingIds"  # Lists: rows of Review that can be read in several ways
    READING_DAYS = "ReadingDays"  # a row for each of them, a column for each reading
    READING_ENDS = "ReadingEnds"  # the last day of each reading, blank for a single day

    # Review (columns over all rows, also those left free for the user)
    REVIEW_IDS = "ReviewIds"
    REVIEW_TITLES = "ReviewTitles"
    REVIEW_USED = "ReviewUsed"
    TO_CHECK = "ToCheck"

    # Exams and Timetable: what gets in each other's way (ranges)
    EXAM_WATCH = "ExamWatch"
    CLASS_SLOTS = "ClassSlots"

    # Deadlines: what the list shows
    SHOW_COURSE = "ShowCourse"
    SHOW_KIND = "ShowKind"
    SHOW_DONE = "ShowDone"


def class_count_name(course_number: int) -> str:
    """The name of the column of Days that counts the classes of a course, numbered from 1 in the plan's order."""
    return f"ClassCount_{course_number}"


def class_kind_count_name(course_number: int, kind: str) -> str:
    """The same for the classes of one kind ("lab"); empty is any class."""
    words = "_".join(re.findall(r"[A-Za-z0-9]+", kind))
    return f"{class_count_name(course_number)}_{words}" if words else class_count_name(course_number)


def school_count_name(course_number: int) -> str:
    """The name of the column of Days that counts the days on which school is open for a course."""
    return f"SchoolCount_{course_number}"


# --- columns --------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its key in code, its heading, its width in characters; hidden ones serve formulas."""

    key: str
    heading: str
    width: float
    hidden: bool = False


@dataclass(frozen=True, slots=True)
class TableLayout:
    """A table of a sheet: its heading row, the columns from A on."""

    sheet: str
    heading_row: int
    columns: tuple[Column, ...]

    @property
    def first_row(self) -> int:
        """The first row under the headings."""
        return self.heading_row + 1

    @property
    def visible(self) -> tuple[Column, ...]:
        """The columns that a person sees."""
        return tuple(column for column in self.columns if not column.hidden)

    def number(self, key: str) -> int:
        """The column's number, from 1; KeyError when there is none of that key."""
        for number, column in enumerate(self.columns, start=1):
            if column.key == key:
                return number
        raise KeyError(key)

    def letter(self, key: str) -> str:
        """The column's letter."""
        return column_letter(self.number(key))

    def width(self, key: str) -> float:
        """The column's width in characters."""
        return self.columns[self.number(key) - 1].width

    def cell(self, key: str, row: int) -> str:
        """A cell of the column, for use on the same sheet: its column fixed, its row not ("$C7")."""
        return f"${self.letter(key)}{row}"

    def column_range(self, key: str, last_row: int) -> str:
        """All rows of a column with the sheet's name, fixed ("'Review'!$C$6:$C$90")."""
        letter = self.letter(key)
        return f"{quote_sheet(self.sheet)}!${letter}${self.first_row}:${letter}${last_row}"


REVIEW_TABLE = TableLayout(
    REVIEW,
    6,
    (
        Column("id", "Row id", 14, hidden=True),
        Column("flag", "Check?", 8.5),
        Column("course", "Course", 11),
        Column("title", "What", 20.5),
        Column("words", "Words of the outline", 27.5),
        Column("page", "Page", 6),
        Column("see", "See", 7),
        Column("read", "Date as read", 16),
        Column("why", "Why to check", 26),
        Column("pick", "Choose a reading", 16),
        Column("corrected", "Corrected date", 16),
        Column("keep", "Keep or skip", 8),
        Column("kind", "Kind", 13),
        Column("used", "Date used", 17),
        Column("until", "Until", 17),
        Column("time", "Time", 10),
        Column("weight", "Weight", 8),
        Column("done", "Done", 7),
        Column("start", "Start by", 17, hidden=True),
        Column("candidates", "Other readings", 20, hidden=True),
        Column("expression", "Expression", 20, hidden=True),
        Column("covers", "Covers", 20, hidden=True),
        Column("big", "Counts much", 8, hidden=True),
        Column("key_shown", "Order in Deadlines", 14, hidden=True),
        Column("key_exam", "Order in Exams", 14, hidden=True),
        Column("key_next", "Order in what is next", 14, hidden=True),
        Column("key_check", "Order in what to check", 14, hidden=True),
    ),
)
"""A row for each item as read, then rows left free for the user."""

AS_PRINTED_TABLE = TableLayout(
    AS_PRINTED,
    4,
    (
        Column("key", "Place", 14, hidden=True),
        Column("course", "Course", 12),
        Column("title", "What", 21),
        Column("page", "Page", 6),
        Column("picture", "As it is printed in the outline", 78),
    ),
)
"""A row for each place that is shown as a picture."""

DEADLINES_TABLE = TableLayout(
    DEADLINES,
    7,
    (
        Column("source", "Row of Review", 8, hidden=True),
        Column("used", "Due", 16.5),
        Column("course", "Course", 14),
        Column("title", "What", 44),
        Column("time", "Time", 10),
        Column("left", "Days left", 7),
        Column("state", "State", 12),
        Column("kind", "Kind", 13),
        Column("weight", "Weight", 8),
        Column("start", "Start by", 17),
        Column("until", "Until", 17),
    ),
)
"""Everything due, in date order: formulas over Review."""

EXAMS_TABLE = TableLayout(
    EXAMS,
    6,
    (
        Column("source", "Row of Review", 8, hidden=True),
        Column("used", "Day", 16),
        Column("course", "Course", 11.5),
        Column("title", "What", 22),
        Column("time", "Time", 9),
        Column("left", "Days left", 6),
        Column("watch", "Watch", 11),
        Column("kind", "Kind", 6.5),
        Column("weight", "Weight", 7),
        Column("covers", "What it covers", 17),
        Column("start", "Study from", 11.2),
        Column("before", "Open days before", 8, hidden=True),
        Column("count", "Sessions", 8, hidden=True),
        Column("session_1", "Session 1", 11.2),
        Column("session_2", "Session 2", 11.2),
        Column("session_3", "Session 3", 11.2),
        Column("session_4", "Session 4", 11.2),
    ),
)
"""Exams and quizzes in date order, with days to study."""

MARKS_COLUMNS = (
    Column("id", "Row id", 14, hidden=True),
    Column("due", "Due", 16),
    Column("work", "Work", 32),
    Column("category", "Category", 18),
    Column("possible", "Points possible", 9),
    Column("counts", "Counts, if not its points", 10),
    Column("share", "Share of grade", 9),
    Column("date", "Date of mark", 16),
    Column("points", "Points", 9),
    Column("penalty", "Late penalty", 9),
    Column("what_if", "What if", 9),
    Column("percent", "Percent", 10),
    Column("note", "Note", 15),
    Column("running", "Running grade", 10),
    Column("category_id", "Category id", 14, hidden=True),
)
"""A course's marks. What is computed from them stands on a hidden sheet, so that rows may be added, deleted, sorted."""

OVERVIEW_TABLE = TableLayout(
    OVERVIEW,
    5,
    (
        Column("course", "Course", 14),
        Column("title", "Title", 28),
        Column("current", "Current", 10),
        Column("letter", "Letter", 9),
        Column("lowest", "Lowest possible", 10),
        Column("highest", "Highest possible", 10),
        Column("target", "Target", 10),
        Column("enough", "Enough on what is left", 15),
        Column("marks", "Marks", 10),
        Column("credits", "Credits", 9),
        Column("advanced", "Advanced class", 10),
        Column("points", "Grade points", 10),
        Column("sheet", "Sheet", 9),
    ),
)
"""A row for each course."""

# --- references -----------------------------------------------------------------------------------------


@functools.cache
def column_letter(number: int) -> str:
    """The letters of a column, counted from 1.

    >>> column_letter(1), column_letter(28)
    ('A', 'AB')
    """
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def quote_sheet(sheet: str) -> str:
    """A sheet's name as formulas write it.

    >>> quote_sheet("Dean's list")
    "'Dean''s list'"
    """
    return "'" + sheet.replace("'", "''") + "'"


def reference(sheet: str, first: str, last: str = "") -> str:
    """A fixed reference to a cell or range of a sheet.

    >>> reference("Term dates", "B4", "B9")
    "'Term dates'!$B$4:$B$9"
    """
    fixed = [re.sub(r"^([A-Z]+)([0-9]+)$", r"$\1$\2", cell) for cell in (first, last) if cell]
    return f"{quote_sheet(sheet)}!{':'.join(fixed)}"


def grades_sheet_names(keys: Iterable[str]) -> tuple[str, ...]:
    """The name of each course's grades sheet: unique whatever the case, allowed by the file format."""
    names: list[str] = []
    taken = {
        name.casefold()
        for name in (START, TERM, TIMETABLE, REVIEW, DEADLINES, EXAMS, OVERVIEW, DAYS, LISTS, GRADE_SUMS)
    }
    for key in keys:
        clean = " ".join(re.sub(r"[\[\]:*?/\\'\x00-\x1f]+", " ", key).split())
        base = f"{GRADES} {clean}"[:_SHEET_NAME_LENGTH].strip()
        name, number = base, 1
        while name.casefold() in taken:
            number += 1
            tail = f" ({number})"
            name = base[: _SHEET_NAME_LENGTH - len(tail)].strip() + tail
        taken.add(name.casefold())
        names.append(name)
    return tuple(names)
