"""Term dates: the facts of the term, days off, weekly classes and the week table. A change here moves every sheet."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from syllabus_io.plan.class_rows import class_rows
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.term import Meeting
from syllabus_io.resolve.term_calendar import MOST_WEEKS
from syllabus_io.resolve.wording import listed, weekday_in_words
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.course_dates import last_day_needed, off_rows
from syllabus_io.workbook.layout import TERM, Name, column_letter
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.pages import Sheaf, rows_scale

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["class_row_count", "last_column", "write_term_dates"]

_WIDTHS = [19.5, 16.0, 16.0, 12.5, *[4.0] * 7, 9.0, 9.0]
_LAST = len(_WIDTHS)
_ALTERNATE, _CYCLE = _LAST + 1, _LAST + 2
_ALTERNATE_WIDTH, _CYCLE_WIDTH = 16.0, 9.0
_FREE_OFF_ROWS = 12
_FREE_CLASS_ROWS = 6
_LEAST_SCALE = 60  # in percent, so that a long list of classes rather takes a second page
_YES_NO = ("yes", "no")
_ROW_HEIGHT = 16.0


def write_term_dates(book: Book) -> int:
    """Adds the sheet with its tables and defined names; returns the first free row under them."""
    sheet = book.add_sheet(TERM)
    further = [_ALTERNATE_WIDTH, _CYCLE_WIDTH][: last_column(book) - _LAST]
    book.set_widths(sheet, [*_WIDTHS, *further])
    book.head(sheet, TERM, "Change a framed cell: every date that hangs on the term moves, on every sheet.", _LAST)
    row = _write_facts(book, sheet, 4)
    row = _write_days_off(book, sheet, row + 1)
    row = _write_classes(book, sheet, row + 1)
    weeks = row + 1
    row = _write_weeks(book, sheet, weeks)
    for at in range(4, row):
        sheet.row_dimensions[at].height = max(_ROW_HEIGHT, sheet.row_dimensions[at].height or 0)
    scale = max(_LEAST_SCALE, rows_scale(sheet, Sheaf(book.options.paper, False), 1, weeks - 1))
    area = f"A1:{column_letter(last_column(book))}{row - 1}"
    book.set_print(sheet, area, breaks=(weeks - 1, row), scale=scale)
    return row


def last_column(book: Book) -> int:
    """The last column of the sheet: the day of a rotating timetable stands only where the term has one."""
    return _CYCLE if book.plan.resolved.term.rotation else _ALTERNATE


def _section(
    book: Book, sheet: Worksheet, row: int, title: str, note: str, headings: tuple[tuple[int, str], ...]
) -> int:
    """A section's title, its note and its headings; returns the row after them."""
    book.put(sheet, row, 1, title, "section")
    book.put(sheet, row, 2, note, "note")
    sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=_LAST)
    sheet.row_dimensions[row].height = row_height([(note, sum(_WIDTHS[1:]))])
    for column, heading in headings:
        book.put(sheet, row + 1, column, heading, "heading")
    return row + 2 if headings else row + 1


# --- facts ------------------------------------------------------------------------------------------------


def _write_facts(book: Book, sheet: Worksheet, row: int) -> int:
    term = book.plan.resolved.term
    finals = term.finals or (None, None)
    facts: list[tuple[str, str, Value, str, str]] = [
        ("Term", Name.TERM_NAME, term.name, "entry_text", ""),
        ("First day", Name.FIRST_DAY, term.first_day, "entry_date", ""),
        ("Last day", Name.LAST_DAY, term.last_day, "entry_date", ""),
        ("Examinations from", Name.FINALS_FIRST, finals[0], "entry_date", "Leave blank when there is no such period."),
        ("Examinations to", Name.FINALS_LAST, finals[1], "entry_date", ""),
        ("Week 1 from", "", term.week_one, "entry_date", "Only when it is not the week of the first day."),
        ("Do weeks off count?", Name.BREAKS_COUNT, _yes(term.break_weeks_count), "entry_text", _break_note(book)),
        (
            "Holiday region",
            "",
            term.holidays or "",
            "entry_text",
            "Public holidays of this region are listed when a plan is built.",
        ),
    ]
    if term.rotation is not None:
        note = f"The day on which the timetable begins with {listed(term.rotation.labels)}, in this order."
        facts.append(("Rotating days from", Name.ROTATION_FIRST, term.rotation.first_day, "entry_date", note))
    row = _section(book, sheet, row, "The term", _assumed_note(book), ())
    places: dict[str, int] = {}
    for label, name, value, style, note in facts:
        book.put(sheet, row, 1, label, "label")
        book.put(sheet, row, 2, value, style, typed=isinstance(value, str))
        if note:
            book.put(sheet, row, 3, note, "note")
            sheet.merge_cells(start_row=row, start_column=3, end_row=row, end_column=_LAST)
        elif style == "entry_text":
            _merge_entry(book, sheet, row)
        if name:
            book.name(name, TERM, f"B{row}")
        places[label] = row
        row += 1
    book.accept_dates(sheet, f"B{places['First day']}:B{places['Week 1 from']}")
    book.offer(sheet, f"B{places['Do weeks off count?']}", _YES_NO)
    return _write_worked_out(book, sheet, row, f"$B${places['Week 1 from']}")


def _merge_entry(book: Book, sheet: Worksheet, row: int) -> None:
    """Lets the text of an entry in column B run over two columns more."""
    for column in (3, 4):
        book.put(sheet, row, column, None, "entry_text")
    sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=4)


def _assumed_note(book: Book) -> str:
    assumed = book.plan.resolved.term.assumed
    return f"Please check: {'; '.join(assumed)}." if assumed else "As given."


def _yes(counts: bool | None) -> str:
    return "yes" if counts else "no"


def _break_note(book: Book) -> str:
    known = book.plan.resolved.term.break_weeks_count is not None
    return "Does a week off take a week number?" + ("" if known else " No outline says so; “no” is assumed.")


def _write_worked_out(book: Book, sheet: Worksheet, row: int, override: str) -> int:
    """What follows from the facts: the Monday of week 1 and the last day on which there can be a class."""
    first, last, finals = Name.FIRST_DAY, Name.LAST_DAY, Name.FINALS_FIRST
    monday = (
        f"IF(ISNUMBER({override}),{override}-WEEKDAY({override},2)+1,{first}-WEEKDAY({first},2)+1+{_to_next(first)})"
    )
    classes_end = f"IF(AND(ISNUMBER({finals}),{finals}>{first},{finals}<={last}),{finals}-1,{last})"
    for label, name, formula in (
        ("Week 1 begins on", Name.WEEK_ONE, monday),
        ("Classes end on", Name.CLASSES_END, classes_end),
    ):
        book.put(sheet, row, 1, label, "label")
        book.put(sheet, row, 2, Formula(formula), "date")
        book.name(name, TERM, f"B{row}")
        row += 1
    return row


def _to_next(first: str) -> str:
    """A term that begins on a weekend has its first week after it."""
    return f"IF(WEEKDAY({first},2)>5,7,0)"


# --- days off ---------------------------------------------------------------------------------------------

_OFF_HEADINGS = ((1, "Day off"), (2, "First day"), (3, "Last day"), (4, "Course"), (5, "Who says so"))


def _write_days_off(book: Book, sheet: Worksheet, row: int) -> int:
    note = "Add what is missing. Leave the course blank for the whole school, the last day blank for a single day."
    top = _section(book, sheet, row, "Days off", note, _OFF_HEADINGS)
    sheet.merge_cells(start_row=top - 1, start_column=5, end_row=top - 1, end_column=_LAST)
    known = off_rows(book.plan.resolved)
    book.off_row_count = len(known) + _FREE_OFF_ROWS
    last = top + book.off_row_count - 1
    for at in range(top, last + 1):
        off = known[at - top] if at - top < len(known) else None
        values: tuple[tuple[Value, str], ...] = (
            (off.name if off else None, "entry_text"),
            (off.first_day if off else None, "entry_date"),
            (off.last_day if off else None, "entry_date"),
            ((off.course or None) if off else None, "entry_text"),
            (off.origin if off else None, "entry_text"),
        )
        _put_row(book, sheet, at, values)
        sheet.merge_cells(start_row=at, start_column=5, end_row=at, end_column=_LAST)
        if off:
            sheet.row_dimensions[at].height = row_height([(off.name, _WIDTHS[0]), (off.origin, sum(_WIDTHS[4:]))])
    for column, name in enumerate((Name.OFF_NAMES, Name.OFF_FIRST, Name.OFF_LAST, Name.OFF_COURSES), start=1):
        letter = column_letter(column)
        book.name(name, TERM, f"{letter}{top}", f"{letter}{last}")
    book.accept_dates(sheet, f"B{top}:C{last}")
    book.offer(sheet, f"D{top}:D{last}", Name.COURSES, strict=False)
    book.mark_where(sheet, f"C{top}:C{last}", f"AND(ISNUMBER($C{top}),$C{top}<$B{top})", book.look.warning)
    return last + 1


def _put_row(book: Book, sheet: Worksheet, row: int, values: tuple[tuple[Value, str], ...]) -> None:
    for column, (value, style) in enumerate(values, start=1):
        book.put(sheet, row, column, value, style, typed=isinstance(value, str))
    texts = [(value, width) for (value, _), width in zip(values[:4], _WIDTHS, strict=False) if isinstance(value, str)]
    sheet.row_dimensions[row].height = row_height(texts)


# --- weekly classes ---------------------------------------------------------------------------------------

_CLASS_HEADINGS = (
    (1, "Course"),
    (2, "Sort of class"),
    (3, "Room"),
    (4, "Teacher"),
    *((5 + number, weekday_in_words(day)[:2]) for number, day in enumerate(Weekday)),
    (12, "Begins"),
    (13, "Ends"),
)


def class_row_count(book: Book) -> int:
    """Rows of the table of weekly classes, those left free included."""
    return len(class_rows(book.plan.resolved)) + _FREE_CLASS_ROWS


def _write_classes(book: Book, sheet: Worksheet, row: int) -> int:
    note = (
        "An x under each weekday with a class, Monday to Sunday. Classes are counted from these marks. For a class of "
        "every other week, a day of its first week; weeks are counted by the calendar, weeks off included."
    )
    rotation = book.plan.resolved.term.rotation
    headings = (*_CLASS_HEADINGS, (_ALTERNATE, "Every other week from"))
    if rotation:
        note += " A class of a rotating day has that day; x marks then narrow it, and none are needed."
        headings += ((_CYCLE, "Rotating day"),)
    top = _section(book, sheet, row, "Weekly classes", note, headings)
    sheet.row_dimensions[top - 1].height = 30
    meetings = class_rows(book.plan.resolved)
    last = top + class_row_count(book) - 1
    for at in range(top, last + 1):
        if at - top < len(meetings):
            course, meeting = meetings[at - top]
            teacher = course.outline.course.instructor or ""
            values = _class_values(course.key, teacher, meeting)
        else:
            values = _class_values("", "", None)
        _put_row(book, sheet, at, values if rotation else values[:-1])
    columns = (
        (Name.CLASS_COURSES, "A", "A"),
        (Name.CLASS_KINDS, "B", "B"),
        (Name.CLASS_ROOMS, "C", "C"),
        (Name.CLASS_TEACHERS, "D", "D"),
        (Name.CLASS_DAYS, "E", "K"),
        (Name.CLASS_STARTS, "L", "L"),
        (Name.CLASS_ENDS, "M", "M"),
        (Name.CLASS_ALTERNATE, column_letter(_ALTERNATE), column_letter(_ALTERNATE)),
        *([(Name.CLASS_CYCLE, column_letter(_CYCLE), column_letter(_CYCLE))] if rotation else []),
    )
    for name, left, right in columns:
        book.name(name, TERM, f"{left}{top}", f"{right}{last}")
    book.offer(sheet, f"A{top}:A{last}", Name.COURSES)
    book.offer(sheet, f"E{top}:K{last}", ("x",))
    book.accept_times(sheet, f"L{top}:M{last}")
    book.accept_dates(sheet, f"{column_letter(_ALTERNATE)}{top}:{column_letter(_ALTERNATE)}{last}")
    if rotation:
        book.offer(sheet, f"{column_letter(_CYCLE)}{top}:{column_letter(_CYCLE)}{last}", Name.ROTATION_LABELS)
    return last + 1


def _class_values(course: str, teacher: str, meeting: Meeting | None) -> tuple[tuple[Value, str], ...]:
    days = meeting.days if meeting else ()
    return (
        (course or None, "entry_text"),
        ((meeting.kind or None) if meeting else None, "entry_text"),
        (meeting.room if meeting else None, "entry_text"),
        (teacher or None, "entry_text"),
        *(("x" if day in days else None, "entry_centre") for day in Weekday),
        (meeting.start if meeting else None, "entry_time"),
        (meeting.end if meeting else None, "entry_time"),
        (meeting.alternate_from if meeting else None, "entry_date"),
        ((meeting.cycle_day or None) if meeting else None, "entry_centre"),
    )


# --- weeks ------------------------------------------------------------------------------------------------

_WEEK_HEADINGS = ((1, "Week"), (2, "Monday"), (3, "Friday"), (4, "What it is"))


def _write_weeks(book: Book, sheet: Worksheet, row: int) -> int:
    note = "Worked out from the facts above. A week whose Monday to Friday are all off has no number unless they count."
    top = _section(book, sheet, row, "Weeks", note, _WEEK_HEADINGS)
    sheet.merge_cells(start_row=top - 1, start_column=4, end_row=top - 1, end_column=_LAST)
    book.week_count = _week_count(book)
    last = top + book.week_count - 1
    for at in range(top, last + 1):
        book.put(sheet, at, 1, Formula(_week_number(at, top)), "whole_centre")
        monday = Name.WEEK_ONE if at == top else f"B{at - 1}+7"
        book.put(sheet, at, 2, Formula(monday), "date")
        book.put(sheet, at, 3, Formula(f"B{at}+4"), "date")
        book.put(sheet, at, 4, Formula(_week_label(at)), "text")
        sheet.merge_cells(start_row=at, start_column=4, end_row=at, end_column=_LAST)
    book.name(Name.WEEK_NUMBERS, TERM, f"A{top}", f"A{last}")
    book.name(Name.WEEK_MONDAYS, TERM, f"B{top}", f"B{last}")
    book.name(PlanName.WEEK_LABELS, TERM, f"D{top}", f"D{last}")
    return last + 1


def _week_count(book: Book) -> int:
    first: date = book.plan.resolved.term.week_one or book.plan.resolved.term.first_day
    return min(MOST_WEEKS, max(20, (last_day_needed(book.plan.resolved) - first).days // 7 + 1))


def _days_off_in(row: int) -> str:
    return f'SUMIFS({Name.DAY_OFF},{Name.DAY_DATES},">="&B{row},{Name.DAY_DATES},"<="&C{row})'


def _week_number(row: int, top: int) -> str:
    numbers_above = f"COUNT(A${top - 1}:A{row - 1})"
    return f'IF(AND({_days_off_in(row)}=5,{Name.BREAKS_COUNT}<>"yes"),"",{numbers_above}+1)'


def _week_label(row: int) -> str:
    """Examinations, the first day off of the week by name, or nothing; nothing too once the term is over."""
    first, last = Name.FINALS_FIRST, Name.FINALS_LAST
    exams = f"AND(ISNUMBER({first}),{first}<=C{row},MAX({first},{last})>=B{row})"
    touches = f'({Name.OFF_FIRST}<>"")*({Name.OFF_FIRST}<=C{row})*({Name.OFF_UNTIL}>=B{row})*({Name.OFF_FOR}=0)'
    rows = f"ROWS({Name.OFF_FIRST})"
    from_below = f"({rows}+MIN(ROW({Name.OFF_FIRST}))-ROW({Name.OFF_FIRST}))"
    place = f"SUMPRODUCT(MAX({touches}*{from_below}))"
    off = f'IF({place}=0,"",INDEX({Name.OFF_NAMES},{rows}+1-{place})&"")'
    return f'IF({exams},"examinations",IF(B{row}>{Name.LAST_DAY},"",{off}))'
