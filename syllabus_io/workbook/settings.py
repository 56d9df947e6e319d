"""The rules of thumb behind the plan, as cells that can be changed, each with its source; they stand on Term dates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.book import Book, row_height
from syllabus_io.workbook.layout import TERM, Name, column_letter
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.term_dates import last_column

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_settings"]

_FIRST = 1  # the column in which the block begins
_LAST = 13  # the last column of Term dates
_SOURCE_WIDTH = 108.0


def write_settings(book: Book, row: int) -> int:
    """Writes the block from ``row`` on; returns the last row used."""
    sheet = book.workbook[TERM]
    settings = book.plan.settings
    book.put(sheet, row, _FIRST, "Settings: when to begin", "section")
    for offset, heading in enumerate(("Kind", "Days ahead", "Hours", "Study sessions")):
        book.put(sheet, row + 1, _FIRST + offset, heading, "heading")
    sheet.row_dimensions[row + 1].height = 30
    top = row + 2
    for number, setting in enumerate(settings.kinds):
        at = top + number
        book.put(sheet, at, _FIRST, setting.kind.value, "text")
        book.put(sheet, at, _FIRST + 1, setting.lead_days, "entry_whole")
        book.put(sheet, at, _FIRST + 2, setting.hours, "entry_number")
        book.put(sheet, at, _FIRST + 3, setting.sessions, "entry_whole")
    last = top + len(settings.kinds) - 1
    for offset, name in enumerate((Name.SET_KINDS, Name.SET_LEADS, Name.SET_HOURS, Name.SET_SESSIONS)):
        letter = column_letter(_FIRST + offset)
        book.name(name, TERM, f"{letter}{top}", f"{letter}{last}")
    book.accept_numbers(sheet, f"{column_letter(_FIRST + 1)}{top}:{column_letter(_FIRST + 2)}{last}", 0, 366)
    book.accept_numbers(sheet, f"{column_letter(_FIRST + 3)}{top}:{column_letter(_FIRST + 3)}{last}", 0, MOST_SESSIONS)
    end = _write_sources(book, sheet, _write_single_cells(book, sheet, last + 2) + 1)
    sheet.print_area = f"A1:{column_letter(last_column(book))}{end}"
    return end


def _write_single_cells(book: Book, sheet: Worksheet, row: int) -> int:
    settings = book.plan.settings
    cells: tuple[tuple[str, str, float, str, float, float], ...] = (
        ("Hours a day for one piece of work", Name.HOURS_PER_DAY, settings.hours_per_day, "entry_number", 0.1, 24),
        ("Heavy work counts at least", Name.HEAVY_FROM, settings.heavy_percent / 100, "entry_percent", 0, 1),
        ("Heavy work gets so many times more", Name.HEAVY_FACTOR, settings.heavy_factor, "entry_number", 0, 10),
        (
            "Widening of gaps between study sessions",
            Name.SESSION_SPREAD,
            settings.session_spread,
            "entry_number",
            0.1,
            5,
        ),
        ("Days that Start here looks ahead", Name.DAYS_AHEAD, settings.days_ahead, "entry_whole", 1, 366),
    )
    cells += (
        ("No study from this many hours of classes", PlanName.FULL_FROM, settings.full_hours, "entry_number", 0, 24),
        ("Study is shown from this hour on", PlanName.STUDY_HOUR, settings.study_hour, "entry_whole", 0, 23),
        ("Class hours for a credit", PlanName.CLASS_PER_CREDIT, settings.class_hours_per_credit, "entry_number", 0, 9),
        ("Own hours for a credit", PlanName.OWN_PER_CREDIT, settings.own_hours_per_credit, "entry_number", 0, 9),
        ("Heavy week: times the average", PlanName.HEAVY_WEEK, settings.heavy_week_factor, "entry_number", 0, 9),
        ("Days to begin earlier where things clash", PlanName.EASE_DAYS, settings.ease_days, "entry_whole", 0, 60),
    )
    for number, (label, name, value, style, low, high) in enumerate(cells):
        at = row + number
        book.put(sheet, at, _FIRST, label, "line")
        entry = book.put(sheet, at, _FIRST + 3, value, style)
        book.name(name, TERM, entry.coordinate)
        book.accept_numbers(sheet, entry.coordinate, low, high)
    at = row + len(cells)
    for label, name, chosen in (
        ("Study sessions on days off", PlanName.STUDY_ON_OFF, settings.study_on_days_off),
        ("No study sessions on days with an exam", PlanName.AVOID_EXAMS, settings.avoid_exam_days),
    ):
        book.put(sheet, at, _FIRST, label, "line")
        entry = book.put(sheet, at, _FIRST + 3, "yes" if chosen else "no", "entry_text")
        book.name(name, TERM, entry.coordinate)
        book.offer(sheet, entry.coordinate, ("yes", "no"))
        at += 1
    return at


def _write_sources(book: Book, sheet: Worksheet, row: int) -> int:
    book.put(sheet, row, _FIRST, "Where these figures come from", "line_label")
    for number, (subject, source) in enumerate(book.plan.settings.sources, start=1):
        text = f"{subject}: {source}"
        book.put(sheet, row + number, _FIRST, text, "note")
        sheet.merge_cells(start_row=row + number, start_column=_FIRST, end_row=row + number, end_column=_LAST)
        sheet.row_dimensions[row + number].height = row_height([(text, _SOURCE_WIDTH)])
    return row + len(book.plan.settings.sources)
