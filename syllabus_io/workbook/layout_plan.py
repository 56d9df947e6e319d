"""Where the sheets of a student's time stand: their names, tables and defined names. What every sheet shares, and the
rules for such names, is in :mod:`syllabus_io.workbook.layout`."""

from __future__ import annotations

from syllabus_io.workbook.layout import Column, TableLayout

__all__ = [
    "AGENDA",
    "AGENDA_DATA",
    "AGENDA_DAYS",
    "COMMITMENTS",
    "COMMITMENTS_TABLE",
    "DAY",
    "GOALS",
    "HABITS",
    "HOURS",
    "LOAD",
    "MONTH",
    "NOTES",
    "PLANNING",
    "PROJECTS",
    "READING_LOG",
    "TO_DO",
    "TO_DO_TABLE",
    "WEEK",
    "WORKLOAD",
    "PlanName",
]

# --- sheets -----------------------------------------------------------------------------------------------

WORKLOAD = "Workload"
MONTH = "Month"
WEEK = "Week"
DAY = "Day"
TO_DO = "To do"
COMMITMENTS = "Commitments"
PROJECTS = "Projects"
READING_LOG = "Reading log"
GOALS = "Goals"
HABITS = "Habits"
NOTES = "Notes"
PLANNING = "Planning"  # hidden: a row a day, in step with Days
HOURS = "Hours"  # hidden: a row a class or commitment
LOAD = "Load"  # hidden: a row for each row of Review
AGENDA = "Agenda"  # everything that stands on a day, in order
AGENDA_DATA = "Agenda data"  # hidden: the same before it is put in order


class PlanName:
    """Defined names. One cell each unless a range is said."""

    # Commitments (columns; KEPT_WEEKDAYS is a row of seven, Monday first)
    COMMIT_WHAT = "CommitWhat"
    COMMIT_STARTS = "CommitStarts"
    COMMIT_ENDS = "CommitEnds"
    COMMIT_CODES = "CommitCodes"
    COMMIT_FIRST = "CommitFirst"
    COMMIT_LAST = "CommitLast"
    COMMIT_HOURS = "CommitHours"  # on Hours, only the rows of commitments
    KEPT_FIRST = "KeptFirst"
    KEPT_UNTIL = "KeptUntil"
    KEPT_WEEKDAYS = "KeptWeekdays"
    WEEKDAY_CHOICES = "WeekdayChoices"

    # Settings
    STUDY_ON_OFF = "StudyOnDaysOff"
    AVOID_EXAMS = "AvoidExamDays"
    FULL_FROM = "FullFrom"
    STUDY_HOUR = "StudyHour"
    CLASS_PER_CREDIT = "ClassPerCredit"
    OWN_PER_CREDIT = "OwnPerCredit"
    HEAVY_WEEK = "HeavyWeek"
    EASE_DAYS = "EaseDays"

    # Planning (columns, a row a day)
    PLAN_DAYS = "PlanDays"
    DAY_CLASS_HOURS = "DayClassHours"
    DAY_COMMIT_HOURS = "DayCommitHours"
    WORK_COUNT = "WorkCount"
    STUDY_COUNT = "StudyCount"
    COURSE_HOURS = "CourseHours"  # a row a course, a column a weekday

    # Hours (columns, a row a class or commitment; a block)
    BLOCK_NAMES = "BlockNames"
    BLOCK_ROOMS = "BlockRooms"
    BLOCK_STARTS = "BlockStarts"
    BLOCK_ENDS = "BlockEnds"
    BLOCK_COURSES = "BlockCourses"
    BLOCK_HOURS = "BlockHours"
    BLOCK_FIRST = "BlockFirst"
    BLOCK_LAST = "BlockLast"
    BLOCK_HOUR = "BlockHour"
    BLOCK_CLASH = "BlockClash"
    LABELS_FULL = "LabelsFull"
    LABELS_HALF = "LabelsHalf"
    LABELS_OTHER = "LabelsOther"
    LABELS_GOING = "LabelsGoing"
    LABELS_GOING_OTHER = "LabelsGoingOther"
    BLOCK_CLASH_KEYS = "BlockClashKeys"

    # Days (columns, a row for each row of classes). CLASS_FLAGS is seven columns wide; CLASS_EVERY is 1 for a class of
    # every week, else CLASS_PHASE is 0 or 1 by turns or CLASS_WORD the day of the rotating timetable. CLASS_LAYER is 1
    # for a class that the timetable shows, 2 for office hours, 0 for neither; CLASS_LENGTHS are hours of class, none
    # for office hours; ALTERNATING counts classes of other weeks or days
    CLASS_NUMBERS = "ClassNumbers"
    CLASS_LENGTHS = "ClassLengths"
    CLASS_FLAGS = "ClassFlags"
    CLASS_BEGIN = "ClassBegin"
    CLASS_EVERY = "ClassEvery"
    CLASS_PHASE = "ClassPhase"
    CLASS_WORD = "ClassWord"
    CLASS_ONLY = "ClassOnly"
    CLASS_WEEK_HOURS = "ClassWeekHours"
    CLASS_LAYER = "ClassLayer"
    CLASS_SHOWN = "ClassShown"
    CLASS_SHOWN_END = "ClassShownEnd"
    ALTERNATING = "Alternating"

    # Term dates: week table (column)
    WEEK_LABELS = "WeekLabels"

    # Exams (ranges)
    EXAM_SOURCES = "ExamSources"
    EXAM_SESSIONS = "ExamSessions"

    # Load (columns, a row for each row of Review)
    LOAD_EXAM_DAY = "LoadExamDay"
    LOAD_HOURS = "LoadHours"
    LOAD_RATE = "LoadRate"
    LOAD_FIRST = "LoadFirst"
    LOAD_LAST = "LoadLast"
    SESSION_HOURS = "SessionHours"  # a row for each row of Exams

    # Agenda data (columns), the last four only of its study sessions; Agenda (columns)
    AGENDA_DAY = "AgendaDay"
    AGENDA_KEYS = "AgendaKeys"
    AGENDA_WHAT = "AgendaWhat"
    AGENDA_SORT = "AgendaSort"
    AGENDA_HOURS = "AgendaHours"
    AGENDA_TASK_KEYS = "AgendaTaskKeys"
    STUDY_DAY = "StudyDay"
    STUDY_WHAT = "StudyWhat"
    STUDY_KEYS = "StudyKeys"
    STUDY_SLOTS = "StudySlots"
    STUDY_SLOTS_END = "StudySlotsEnd"
    MONTH_LENGTHS = "MonthLengths"  # letters for each of 1, 2, 3 ... things in a box
    WEEK_LENGTHS = "WeekLengths"
    AGENDA_MONTH_TEXT = "AgendaMonthText"
    AGENDA_WEEK_TEXT = "AgendaWeekText"

    # Lists (columns): sorts of things and what comes first
    SORT_LIST = "SortList"
    SORT_PRIORITY = "SortPriority"

    # Reading log (columns), Planning (column)
    READ_DAYS = "ReadDays"
    OWN_READ_DAYS = "OwnReadDays"
    READ_RUN = "ReadRun"

    # To do (columns)
    CALL_KEYS = "CallKeys"
    AIM_KEYS = "AimKeys"
    NOTE_KEYS = "NoteKeys"
    WEEK_NOTE_KEYS = "WeekNoteKeys"
    TO_DO_WHAT = "ToDoWhat"
    TO_DO_WHO = "ToDoWho"
    TO_DO_SORT = "ToDoSort"

    # Week, Day
    WEEK_CHOSEN = "WeekChosen"
    WEEK_MONDAY = "WeekMonday"
    WEEK_FIRST_HOUR = "WeekFirstHour"
    DAY_CHOSEN = "DayChosen"
    DAY_SHOWN = "DayShown"
    DAY_FIRST_HOUR = "DayFirstHour"


def week_on_name(weekday: int) -> str:
    """The column of Hours that tells which blocks take place on a weekday of the chosen week; 8 is the chosen day."""
    return f"BlocksOn_{weekday}"


def week_key_name(weekday: int) -> str:
    """The column of Hours that numbers the blocks of that day within the hour in which they begin."""
    return f"BlockKeys_{weekday}"


AGENDA_DAYS = 8  # the seven days of the chosen week, and the chosen day

COMMITMENTS_TABLE = TableLayout(
    COMMITMENTS,
    6,
    (
        Column("what", "What", 34),
        Column("weekday", "On", 14),
        Column("first", "From", 17),
        Column("last", "Until", 17),
        Column("start", "Begins", 10),
        Column("end", "Ends", 10),
        Column("code", "Weekday code", 8, hidden=True),
        Column("from", "From, as counted", 12, hidden=True),
        Column("to", "Until, as counted", 12, hidden=True),
    ),
)
"""Practice, work, whatever is fixed besides classes: typed rows."""

TO_DO_TABLE = TableLayout(
    TO_DO,
    5,
    (
        Column("id", "Row id", 10, hidden=True),
        Column("day", "Day", 17),
        Column("sort", "Sort", 12),
        Column("what", "What", 46),
        Column("who", "Who, or where to reach them", 26),
        Column("matters", "Matters (1 most)", 9),
        Column("done", "Done", 8),
        Column("call_key", "Order of calls", 10, hidden=True),
        Column("aim_key", "Order of aims", 10, hidden=True),
        Column("note_key", "Order of notes", 10, hidden=True),
        Column("week_note_key", "Order of notes of the week", 10, hidden=True),
    ),
)
"""Own tasks, calls, messages, aims of a week and notes, each with its day: typed rows."""
