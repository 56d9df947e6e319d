"""Start here: what is due soon, what needs checking, and where everything is, in one screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.formulas import column_value, nth_smallest_row
from syllabus_io.workbook.layout import (
    DEADLINES,
    EXAMS,
    OVERVIEW,
    REVIEW,
    START,
    TERM,
    TIMETABLE,
    TODAY_CELL,
    Name,
    grades_sheet_names,
    quote_sheet,
)
from syllabus_io.workbook.review import review_column

if TYPE_CHECKING:
    from openpyxl.styles import Border
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_start_here"]

_WIDTHS = [17.0, 10.0, 14.0, 40.0, 10.0, 8.0]
_SOURCE = 6  # hidden column: the row of Review
_SHOWN = 5  # columns that a person sees
_SOON_ROWS = 12
_CHECK_ROWS = 6

CAUTION = (
    "The instructor's outline and announcements govern. This plan was read from the outlines by a program: check it."
)

_HOW = (
    ("Review", REVIEW, "Look at the rows marked “check”, correct a date, keep or skip it, and add what is missing."),
    ("Term dates", TERM, "Correct the first day of term or add a day off: every date that hangs on it moves."),
    ("Deadlines", DEADLINES, "Read what is due and when to begin; Exams adds study days. Tick what is done on Review."),
    ("Grades", OVERVIEW, "Type each mark on its course's sheet. A blank is not a zero; EX is excused."),
    ("Framed cells", REVIEW, "are for you to fill in. Everything else is computed, and corrects itself."),
)


def write_start_here(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(START)
    book.set_widths(sheet, _WIDTHS, (_SOURCE,))
    row = _write_top(book, sheet)
    row = _write_soon(book, sheet, row + 1)
    row = _write_checks(book, sheet, row + 2)
    row = _write_clashes(book, sheet, row + 1)
    _break_page(sheet, row + 1)
    row = _write_courses(book, sheet, row + 2)
    row = _write_how(book, sheet, row + 2)
    book.set_print(sheet, f"A1:E{row}")


def _break_page(sheet: Worksheet, row: int) -> None:
    from openpyxl.worksheet.pagebreak import Break

    sheet.row_breaks.append(Break(id=row))


def _across(book: Book, sheet: Worksheet, row: int, text: str | Formula, style: str, first: int = 1) -> None:
    """Text over the columns from ``first`` to the last that is seen, in a row high enough for it."""
    book.put(sheet, row, first, text, style)
    sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=_SHOWN)
    if isinstance(text, str):
        room = sum(_WIDTHS[first - 1 : _SHOWN])
        sheet.row_dimensions[row].height = row_height([(text, room)])


def _write_top(book: Book, sheet: Worksheet) -> int:
    book.put(sheet, 1, 1, f"Plan for {book.plan.resolved.term.name}", "title")
    sheet.row_dimensions[1].height = 30
    _across(book, sheet, 2, CAUTION, "note")
    book.put(sheet, 3, 1, "Student", "label")
    book.put(sheet, 3, 2, book.options.student or None, "entry_text", typed=bool(book.options.student))
    sheet.merge_cells("B3:D3")
    book.name(Name.STUDENT, START, "B3")
    book.put(sheet, 4, 1, "Today", "label")
    book.put(sheet, 4, 2, Formula("TODAY()"), "date").border = _no_border()
    sheet.merge_cells("B4:C4")
    book.name(Name.TODAY, START, TODAY_CELL)
    for row in (3, 4):
        sheet.row_dimensions[row].height = 18
    return 4


def _no_border() -> Border:
    from openpyxl.styles import Border

    return Border()


def _headings(book: Book, sheet: Worksheet, row: int, words: tuple[str, ...]) -> None:
    for column, word in enumerate(words, start=1):
        book.put(sheet, row, column, word, "heading")
    sheet.row_dimensions[row].height = 18


def _write_soon(book: Book, sheet: Worksheet, row: int) -> int:
    """What is due soon, live. Returns the last row used."""
    keys = review_column(book, "key_next")
    title = Formula(f'"Due in the next "&{Name.DAYS_AHEAD}&" days: "&COUNT({keys})')
    book.put(sheet, row, 1, title, "section")
    sheet.row_dimensions[row].height = 22
    _headings(book, sheet, row + 1, ("Due", "Time", "Course", "What", "Days left"))
    first = row + 2
    height = min(
        max(row_height([(row.title, _WIDTHS[3])], bold=True, least=17) for row in book.rows) if book.rows else 17.0,
        row_height([("a\nb", _WIDTHS[3])]),
    )
    styles = ("date", "time", "text", "strong", "left_days")
    for at in range(first, first + _SOON_ROWS):
        source = f"$F{at}"
        book.put(sheet, at, _SOURCE, Formula(nth_smallest_row(keys, f"ROWS(F${first}:F{at})")), "hidden")
        left = f'IF({source}="","",$A{at}-{Name.TODAY})'
        formulas = [column_value(source, review_column(book, key), key in {"used", "time"}) for key in _SOON] + [left]
        for column, (formula, style) in enumerate(zip(formulas, styles, strict=True), start=1):
            book.put(sheet, at, column, Formula(formula), style)
        sheet.row_dimensions[at].height = height
    end = first + _SOON_ROWS
    more = _more(f"COUNT({keys})", _SOON_ROWS, DEADLINES, "Nothing is due.")
    book.put(sheet, end, 1, Formula(more), "note")
    sheet.merge_cells(start_row=end, start_column=1, end_row=end, end_column=3)
    book.put_link(sheet, end, 4, "All deadlines", f"{quote_sheet(DEADLINES)}!A1", "free_link")
    book.colour_courses(sheet, f"C{first}:C{end - 1}", f"$C{first}")
    return end


def _more(count: str, shown: int, sheet: str, none: str) -> str:
    """What stands under a list: how many more there are, or that there are none."""
    return f'IF({count}>{shown},"and "&{count}-{shown}&" more, see {sheet}",IF({count}=0,"{none}",""))'


_SOON = ("used", "time", "course", "title")


def _write_checks(book: Book, sheet: Worksheet, row: int) -> int:
    """What needs checking, with its count, live. Returns the last row used."""
    keys = review_column(book, "key_check")
    book.put(sheet, row, 1, Formula(f'"To check: "&{Name.TO_CHECK}'), "section")
    sheet.row_dimensions[row].height = 22
    _headings(book, sheet, row + 1, ("Date as read", "", "Course", "What, and why to check", ""))
    sheet.merge_cells(start_row=row + 1, start_column=4, end_row=row + 1, end_column=_SHOWN)
    sheet.merge_cells(start_row=row + 1, start_column=1, end_row=row + 1, end_column=2)
    first = row + 2
    heights = _check_heights(book)
    for at in range(first, first + _CHECK_ROWS):
        source = f"$F{at}"
        book.put(sheet, at, _SOURCE, Formula(nth_smallest_row(keys, f"ROWS(F${first}:F{at})")), "hidden")
        used, course = review_column(book, "used"), review_column(book, "course")
        title, why = review_column(book, "title"), review_column(book, "why")
        date = f'IF({source}="","",IF(ISNUMBER(INDEX({used},{source})),INDEX({used},{source}),"no date"))'
        words = f'IF({source}="","",INDEX({title},{source})&": "&INDEX({why},{source}))'
        book.put(sheet, at, 1, Formula(date), "date")
        book.put(sheet, at, 2, None, "date")
        sheet.merge_cells(start_row=at, start_column=1, end_row=at, end_column=2)
        book.put(sheet, at, 3, Formula(column_value(source, course, False)), "text")
        book.put(sheet, at, 4, Formula(words), "text")
        book.put(sheet, at, 5, None, "text")
        sheet.merge_cells(start_row=at, start_column=4, end_row=at, end_column=_SHOWN)
        sheet.row_dimensions[at].height = heights[at - first]
    end = first + _CHECK_ROWS
    more = _more(Name.TO_CHECK, _CHECK_ROWS, REVIEW, "Nothing is left to check.")
    book.put(sheet, end, 1, Formula(more), "note")
    sheet.merge_cells(start_row=end, start_column=1, end_row=end, end_column=3)
    book.put_link(sheet, end, 4, "All of Review", f"{quote_sheet(REVIEW)}!A1", "free_link")
    book.colour_courses(sheet, f"C{first}:C{end - 1}", f"$C{first}")
    return end


def _check_heights(book: Book) -> list[float]:
    """Enough for what is to be checked at first, up to five lines, and for two lines once others move up."""
    width = _WIDTHS[3] + _WIDTHS[4]
    two, five = (row_height([("\n".join("a" * lines), width)]) for lines in (2, 5))
    own = [row_height([(f"{row.title}: {row.why}", width)]) for row in book.rows if row.why]
    return [min(max(two, own[number]), five) if number < len(own) else 17.0 for number in range(_CHECK_ROWS)]


def _write_clashes(book: Book, sheet: Worksheet, row: int) -> int:
    """One line on what gets in each other's way, blank when nothing does. Returns the row."""
    exams, off = (f'COUNTIF({Name.EXAM_WATCH},"{word}")' for word in ("two exams", "day off"))
    words = (
        f'IF({exams}=0,"","Clash: more than one exam on a day, see {EXAMS}. ")'
        f'&IF({off}=0,"","Clash: an exam or quiz on a day off, see {EXAMS}. ")'
        f'&IF(COUNTIF({Name.CLASS_SLOTS},-1)=0,"","Clash: classes overlap, see {TIMETABLE}.")'
    )
    _across(book, sheet, row, Formula(words), "label")
    sheet.row_dimensions[row].height = row_height([("\n", 9)])
    return row


def _write_courses(book: Book, sheet: Worksheet, row: int) -> int:
    """The courses, with their people and a link to their marks. Returns the last row used."""
    book.put(sheet, row, 1, "Courses", "section")
    sheet.row_dimensions[row].height = 22
    _headings(book, sheet, row + 1, ("Course", "Marks", "Credits", "Title, instructor, how to reach them", ""))
    sheet.merge_cells(start_row=row + 1, start_column=4, end_row=row + 1, end_column=_SHOWN)
    first = row + 2
    courses = book.plan.resolved.courses
    grades = grades_sheet_names(course.key for course in courses)
    for at, (course, grades_sheet) in enumerate(zip(courses, grades, strict=True), start=first):
        facts = course.outline.course
        book.put(sheet, at, 1, course.key, "strong", typed=True)
        book.put_link(sheet, at, 2, "Grades", f"{quote_sheet(grades_sheet)}!A1")
        book.put(sheet, at, 3, facts.credits, "entry_number")
        people = ", ".join(part for part in (facts.instructor, facts.email, facts.phone, facts.office) if part)
        hours = f"Office hours: {facts.office_hours}" if facts.office_hours else ""
        about = "\n".join(part for part in (facts.title, people, hours) if part) or "(the outline does not say)"
        book.put(sheet, at, 4, about, "text", typed=True)
        book.put(sheet, at, 5, None, "text")
        sheet.merge_cells(start_row=at, start_column=4, end_row=at, end_column=_SHOWN)
        sheet.row_dimensions[at].height = row_height([(about, _WIDTHS[3] + _WIDTHS[4]), (course.key, _WIDTHS[0])])
    last = max(first, first + len(courses) - 1)
    book.name(Name.COURSES, START, f"A{first}", f"A{last}")
    book.name(Name.CREDITS, START, f"C{first}", f"C{last}")
    book.colour_courses(sheet, f"A{first}:A{last}", f"$A{first}")
    return last


def _write_how(book: Book, sheet: Worksheet, row: int) -> int:
    """Five lines on the use of the rest. Returns the last row used."""
    book.put(sheet, row, 1, "How to use the rest", "section")
    sheet.row_dimensions[row].height = 22
    for at, (label, target, words) in enumerate(_HOW, start=row + 1):
        book.put_link(sheet, at, 1, label, f"{quote_sheet(target)}!A1", "free_link")
        _across(book, sheet, at, words, "free", first=2)
    end = row + len(_HOW) + 1
    for column, (label, target) in enumerate((("Timetable", TIMETABLE), ("Exams", EXAMS), ("Deadlines", DEADLINES)), 1):
        book.put_link(sheet, end, column, label, f"{quote_sheet(target)}!A1", "free_link")
    return end
