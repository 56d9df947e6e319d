"""Start here: what is due soon, what needs checking, which grades moved, and where everything is.

As wide as a phone held upright, so that a parent sees it without moving it sideways.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.formulas import column_value, nth_smallest_row
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.layout import (
    DEADLINES,
    EXAMS,
    OVERVIEW,
    OVERVIEW_TABLE,
    REVIEW,
    START,
    TERM,
    TIMETABLE,
    TODAY_CELL,
    Name,
    grades_sheet_names,
    quote_sheet,
)
from syllabus_io.workbook.layout_plan import DAY, MONTH, PROJECTS, READING_LOG, WEEK, WORKLOAD
from syllabus_io.workbook.review import review_column
from syllabus_io.workbook.text_formulas import clock_words, cut_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["finish_start_here", "write_start_here"]

_WIDTHS = [11.5, 12.5, 23.0, 8.0]  # 55 characters are 385 pixels: a usual phone held upright
_SHOWN = len(_WIDTHS)
_SOURCE = _SHOWN + 1  # hidden columns from here: the row of Review; new marks and the grade before them
_SOON_ROWS = 10
_CHECK_ROWS = 6
_TITLE_LENGTH = 44  # characters of a title in two lines of its column
_CLOCK_LENGTH = 10  # of them, those that a time of day takes
_WHY_LENGTH = 116  # characters of what is to be checked in four lines
_SCALE = 115  # printed larger, as far as the page allows

CAUTION = (
    "The instructor's outline and announcements govern. This plan was read from the outlines by a program: check it."
)
_LINKS = (REVIEW, DEADLINES, EXAMS, MONTH, WEEK, DAY, WORKLOAD, PROJECTS, READING_LOG, TIMETABLE, TERM, OVERVIEW)
_SHORT = {OVERVIEW: "Grades"}  # a link is not wrapped everywhere
_LINK_ROWS = (len(_LINKS) + 2) // 3

_HOW = (
    ("Review", REVIEW, "Look at the rows marked “check”: correct the date, keep or skip it. Add what is missing."),
    ("Term dates", TERM, "Correct the first day of term or add a day off: every date that hangs on it moves."),
    ("Deadlines", DEADLINES, "Read what is due and when to begin; Exams adds study days. Tick what is done on Review."),
    ("Grades", OVERVIEW, "Type each mark on its course's sheet. A blank is not a zero; EX is excused."),
    (
        "Framed cells",
        REVIEW,
        "are for you to fill in. All else is computed, and protected without a password: your program's "
        "Unprotect Sheet lifts that.",
    ),
)


def write_start_here(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(START)
    book.set_widths(sheet, [*_WIDTHS, 8.0, 8.0], (_SOURCE, _SOURCE + 1))
    row = _write_top(book, sheet)
    row = _write_soon(book, sheet, row + 1)
    checks = row + 2
    row = _write_checks(book, sheet, checks)
    row = _write_clashes(book, sheet, row + 1)
    row = _write_grades(book, sheet, row + 1)
    book.start_links_row = row + 2
    row = row + 2 + _LINK_ROWS
    row = _write_courses(book, sheet, row + 2)
    row = _write_how(book, sheet, row + 2)
    book.set_print(sheet, f"A1:D{row}", scale=_SCALE, breaks=(checks - 1, book.start_links_row - 1))


def _across(book: Book, sheet: Worksheet, row: int, text: str | Formula, style: str, first: int = 1) -> None:
    """Text over the columns from ``first`` to the last that is seen, in a row high enough for it."""
    book.put(sheet, row, first, text, style)
    sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=_SHOWN)
    if isinstance(text, str):
        room = sum(_WIDTHS[first - 1 :])
        sheet.row_dimensions[row].height = row_height([(text, room)])


def _section(book: Book, sheet: Worksheet, row: int, title: str | Formula, headings: tuple[str, ...] = ()) -> int:
    """A section's title with its headings below; returns the row after them."""
    book.put(sheet, row, 1, title, "section")
    for column in range(2, _SHOWN + 1):
        book.put(sheet, row, column, None, "section")
    sheet.row_dimensions[row].height = 24
    for column, word in enumerate(headings, start=1):
        book.put(sheet, row + 1, column, word, "heading")
    if headings:
        sheet.row_dimensions[row + 1].height = row_height(list(zip(headings, _WIDTHS, strict=True)), bold=True)
    return row + 1 + bool(headings)


def _write_top(book: Book, sheet: Worksheet) -> int:
    title = f"Plan for {book.plan.resolved.term.name}"
    book.put(sheet, 1, 1, title, "title")
    sheet.merge_cells(start_row=1, start_column=1, end_row=1, end_column=_SHOWN)
    sheet.row_dimensions[1].height = 30
    _across(book, sheet, 2, CAUTION, "note")
    book.put(sheet, 3, 1, "Student", "label")
    book.put(sheet, 3, 2, book.options.student or None, "entry_text", typed=bool(book.options.student))
    sheet.merge_cells("B3:D3")
    book.name(Name.STUDENT, START, "B3")
    book.put(sheet, 4, 1, "Today", "label")
    book.put(sheet, 4, 2, Formula("TODAY()"), "free_date")
    sheet.merge_cells("B4:C4")
    book.name(Name.TODAY, START, TODAY_CELL)
    for row in (3, 4):
        sheet.row_dimensions[row].height = 18
    return 4


def _write_soon(book: Book, sheet: Worksheet, row: int) -> int:
    """What is due soon, live. Returns the last row used."""
    keys = review_column(book, "key_next")
    title = Formula(f'"Due in the next "&{Name.DAYS_AHEAD}&" days: "&COUNT({keys})')
    first = _section(book, sheet, row, title, ("Due", "Course", "What", "Days"))
    longest = max((row_height([(row.title, _WIDTHS[2])], bold=True, least=17) for row in book.rows), default=17.0)
    height = min(longest, row_height([("a\nb", _WIDTHS[2])]))
    hours = 24 if book.options.paper == "a4" else 12
    for at in range(first, first + _SOON_ROWS):
        source = f"$E{at}"
        book.put(sheet, at, _SOURCE, Formula(nth_smallest_row(keys, f"ROWS(E${first}:E{at})")), "hidden")
        used, course = (column_value(source, review_column(book, key), key == "used") for key in ("used", "course"))
        what, time = (f"INDEX({review_column(book, key)},{source})" for key in ("title", "time"))
        clock = clock_words(f"ROUND({time}*1440,0)", hours)
        short = cut_words(what, f"{_TITLE_LENGTH}-{_CLOCK_LENGTH}*ISNUMBER({time})")
        text = f'{short}&IF(ISNUMBER({time}),", "&{clock},"")'
        book.put(sheet, at, 1, Formula(used), "date_short")
        book.put(sheet, at, 2, Formula(course), "text")
        book.put(sheet, at, 3, Formula(f'IF({source}="","",{text})'), "strong")
        book.put(sheet, at, 4, Formula(f'IF({source}="","",$A{at}-{Name.TODAY})'), "left_days")
        sheet.row_dimensions[at].height = height
    end = first + _SOON_ROWS
    _write_more(book, sheet, end, f"COUNT({keys})", _SOON_ROWS, DEADLINES, "Nothing is due.")
    book.colour_courses(sheet, f"B{first}:B{end - 1}", f"$B{first}")
    return end


def _write_more(book: Book, sheet: Worksheet, row: int, count: str, shown: int, target: str, none: str) -> None:
    """What stands under a list: how many more there are, or that there are none; a link to all."""
    words = f'IF({count}>{shown},"and "&{count}-{shown}&" more",IF({count}=0,"{none}",""))'
    book.put(sheet, row, 1, Formula(words), "note")
    sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=2)
    book.put_link(sheet, row, 3, f"All of {target}", f"{quote_sheet(target)}!A1", "free_link")
    sheet.row_dimensions[row].height = 18


def _write_checks(book: Book, sheet: Worksheet, row: int) -> int:
    """What needs checking, with its count, live. Returns the last row used."""
    keys = review_column(book, "key_check")
    first = _section(book, sheet, row, Formula(f'"To check: "&{Name.TO_CHECK}'), ("As read", "Course", "Why", ""))
    sheet.merge_cells(start_row=first - 1, start_column=3, end_row=first - 1, end_column=_SHOWN)
    heights = _check_heights(book)
    used, title, why = (review_column(book, key) for key in ("used", "title", "why"))
    for at in range(first, first + _CHECK_ROWS):
        source = f"$E{at}"
        book.put(sheet, at, _SOURCE, Formula(nth_smallest_row(keys, f"ROWS(E${first}:E{at})")), "hidden")
        date = f'IF({source}="","",IF(ISNUMBER(INDEX({used},{source})),INDEX({used},{source}),"no date"))'
        words = f'INDEX({title},{source})&": "&SUBSTITUTE(INDEX({why},{source}),CHAR(10)," ")'
        book.put(sheet, at, 1, Formula(date), "date_short")
        book.put(sheet, at, 2, Formula(column_value(source, review_column(book, "course"), False)), "text")
        book.put(sheet, at, 3, Formula(f'IF({source}="","",{cut_words(words, str(_WHY_LENGTH))})'), "text")
        book.put(sheet, at, 4, None, "text")
        sheet.merge_cells(start_row=at, start_column=3, end_row=at, end_column=_SHOWN)
        sheet.row_dimensions[at].height = heights[at - first]
    end = first + _CHECK_ROWS
    _write_more(book, sheet, end, Name.TO_CHECK, _CHECK_ROWS, REVIEW, "Nothing is left to check.")
    book.colour_courses(sheet, f"B{first}:B{end - 1}", f"$B{first}")
    return end


def _check_heights(book: Book) -> list[float]:
    """Four lines where there is something to check, since others move up; one line where nothing ever will be."""
    count = min(_CHECK_ROWS, sum(bool(row.why) for row in book.rows))
    lines = row_height([("a\nb\nc\nd", _WIDTHS[2])])
    return [lines] * count + [17.0] * (_CHECK_ROWS - count)


def _write_clashes(book: Book, sheet: Worksheet, row: int) -> int:
    """What gets in each other's way in a few lines, blank when nothing does. Returns the row."""
    exams, off = (f'COUNTIF({Name.EXAM_WATCH},"{word}")' for word in ("two exams", "day off"))
    words = (
        f'IF({exams}=0,"","Clash: more than one exam on a day, see {EXAMS}. ")'
        f'&IF({off}=0,"","Clash: an exam or quiz on a day off, see {EXAMS}. ")'
        f'&IF(COUNTIF({Name.CLASS_SLOTS},-1)=0,"","Clash: classes overlap, see {TIMETABLE}.")'
    )
    _across(book, sheet, row, Formula(words), "label")
    sheet.row_dimensions[row].height = row_height([("a\nb\nc", 9)])
    return row


# --- grades ---------------------------------------------------------------------------------------------


def _write_grades(book: Book, sheet: Worksheet, row: int) -> int:
    """The table of grades; its figures come once the courses' sheets stand. Returns the last row used."""
    first = _section(book, sheet, row, "Grades", ("Course", "Now", "Moved in two weeks", ""))
    sheet.merge_cells(start_row=first - 1, start_column=3, end_row=first - 1, end_column=_SHOWN)
    book.start_grades_row = first
    return first + max(1, len(book.plan.resolved.courses)) - 1


def finish_start_here(book: Book, blocks: tuple[GradesBlock, ...]) -> None:
    """What can be written only once the other sheets stand: links to them, and each course's grade with how it moved
    with the marks of the last two weeks."""
    sheet = book.workbook[START]
    _write_links(book, sheet)
    first = book.start_grades_row
    for number, block in enumerate(blocks, start=1):
        at = first + number - 1
        key = book.plan.resolved.courses[number - 1].key
        book.put(sheet, at, 1, Formula(f'INDEX({Name.COURSES},{number})&""'), "strong")
        now = f"{quote_sheet(OVERVIEW)}!{OVERVIEW_TABLE.cell('current', OVERVIEW_TABLE.heading_row + number)}"
        book.put(sheet, at, 2, Formula(f'IF(ISNUMBER({now}),{now},"no marks")'), "percent_fine_left")
        for column, formula in enumerate(_new_and_before(block), start=_SOURCE):
            book.put(sheet, at, column, Formula(formula), "hidden")
        book.put(sheet, at, 3, Formula(_moved(now, f"$E{at}", f"$F{at}")), "text")
        book.put(sheet, at, 4, None, "text")
        sheet.merge_cells(start_row=at, start_column=3, end_row=at, end_column=_SHOWN)
        sheet.row_dimensions[at].height = row_height([(key, _WIDTHS[0])], bold=True, least=17)
    book.colour_courses(sheet, f"A{first}:A{first + max(1, len(blocks)) - 1}", f"$A{first}")


def _new_and_before(block: GradesBlock) -> tuple[str, str]:
    """How many marks are dated within the last two weeks, and the running grade after the last one that is older."""
    dates, running = block.place.mark_column("date"), block.far(block.marks("running"))
    new = f'COUNTIFS({dates},">"&{Name.TODAY}-14,{dates},"<="&{Name.TODAY})'
    place = f"(ROW({dates})-{block.place.marks_heading})"
    old = f'SUMPRODUCT(MAX(({dates}<>"")*({dates}<={Name.TODAY}-14)*{place}))'
    return new, f'IF({old}=0,"",INDEX({running},{old}))'


def _moved(now: str, new: str, before: str) -> str:
    """In words: up or down since the last mark that is older than two weeks, the same, or no new marks."""
    change = f"ROUND(({now}-{before})*100,1)"
    moved = f'IF({change}=0,"no change",IF({change}>0,"up ","down ")&ABS({change})&" points")'
    marks = f'{new}&IF({new}=1," new mark"," new marks")'
    words = f'IF(ISNUMBER({before}),{moved}&", "&{marks},{marks})'
    return f'IF(ISNUMBER({now}),IF({new}=0,"no new marks",{words}),"")'


# --- where to go ----------------------------------------------------------------------------------------


def _write_links(book: Book, sheet: Worksheet) -> None:
    """Links to the sheets that there are, three beside each other."""
    at = _section(book, sheet, book.start_links_row, "Go to")
    for number, target in enumerate(name for name in _LINKS if name in book.workbook.sheetnames):
        place = at + number // 3
        label = _SHORT.get(target, target)
        book.put_link(sheet, place, 1 + number % 3, label, f"{quote_sheet(target)}!A1", "free_link")
        sheet.row_dimensions[place].height = 20


def _write_courses(book: Book, sheet: Worksheet, row: int) -> int:
    """The courses, with their people and a link to their marks. Returns the last row used."""
    first = _section(book, sheet, row, "Courses", ("Course", "Marks", "Title and people", "Credits"))
    courses = book.plan.resolved.courses
    grades = grades_sheet_names(course.key for course in courses)
    for at, (course, grades_sheet) in enumerate(zip(courses, grades, strict=True), start=first):
        facts = course.outline.course
        book.put(sheet, at, 1, course.key, "strong", typed=True)
        book.put_link(sheet, at, 2, "Grades", f"{quote_sheet(grades_sheet)}!A1")
        people = [part for part in (facts.instructor, facts.email, facts.phone, facts.office) if part]
        hours = f"Office hours: {facts.office_hours}" if facts.office_hours else ""
        about = "\n".join(part for part in (facts.title, *people, hours) if part) or "(the outline does not say)"
        book.put(sheet, at, 3, about, "text", typed=True)
        book.put(sheet, at, 4, facts.credits, "entry_number")
        sheet.row_dimensions[at].height = row_height([(about, _WIDTHS[2]), (course.key, _WIDTHS[0])])
    last = max(first, first + len(courses) - 1)
    book.name(Name.COURSES, START, f"A{first}", f"A{last}")
    book.name(Name.CREDITS, START, f"D{first}", f"D{last}")
    book.colour_courses(sheet, f"A{first}:A{last}", f"$A{first}")
    return last


def _write_how(book: Book, sheet: Worksheet, row: int) -> int:
    """Five lines on the use of the rest. Returns the last row used."""
    at = _section(book, sheet, row, "How to use the rest")
    for number, (label, target, words) in enumerate(_HOW):
        book.put_link(sheet, at + number, 1, label, f"{quote_sheet(target)}!A1", "free_link")
        _across(book, sheet, at + number, words, "free", first=2)
    return at + len(_HOW) - 1
