"""The sheets of a student's time, and the hidden ones they rest on, in the order in which they stand."""

from __future__ import annotations

from syllabus_io.plan.agenda import MONTH_BOX, WEEK_BOX
from syllabus_io.plan.labels import entry_length
from syllabus_io.workbook.agenda import write_agenda
from syllabus_io.workbook.agenda_data import write_agenda_data, write_priorities
from syllabus_io.workbook.book import Book
from syllabus_io.workbook.commitments import WEEKDAY_WORDS, write_commitments
from syllabus_io.workbook.day import write_day
from syllabus_io.workbook.goals import write_goals
from syllabus_io.workbook.habits import write_habits
from syllabus_io.workbook.hours import write_blocks_shown, write_hours
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.layout_plan import AGENDA_DATA, PlanName
from syllabus_io.workbook.load import write_load
from syllabus_io.workbook.month import write_month
from syllabus_io.workbook.notes import write_notes
from syllabus_io.workbook.planning_days import write_planning_days
from syllabus_io.workbook.projects import write_projects
from syllabus_io.workbook.reading_log import write_reading_log
from syllabus_io.workbook.to_do import write_to_do
from syllabus_io.workbook.week import write_week
from syllabus_io.workbook.workload import write_workload

__all__ = ["write_planning", "write_planning_hidden"]

_LISTS_AT = 12  # the column of Agenda data from which lists stand


def write_planning(book: Book) -> None:
    """Adds the sheets that are seen."""
    write_reading_log(book)
    write_projects(book)
    write_month(book)
    write_week(book)
    write_day(book)
    write_agenda(book)
    write_to_do(book)
    write_commitments(book)
    write_workload(book)
    write_goals(book)
    write_habits(book)
    write_notes(book)


def write_planning_hidden(book: Book) -> None:
    """Adds the hidden sheets."""
    write_planning_days(book)
    write_hours(book)
    write_blocks_shown(book)
    write_load(book)
    write_agenda_data(book)
    lists = book.workbook[AGENDA_DATA]
    write_priorities(book, lists, _LISTS_AT)
    for number, word in enumerate(WEEKDAY_WORDS, start=1):
        book.put(lists, number, _LISTS_AT + 2, word, "hidden")
    for offset, (box, name) in enumerate(((MONTH_BOX, PlanName.MONTH_LENGTHS), (WEEK_BOX, PlanName.WEEK_LENGTHS))):
        column = _LISTS_AT + 3 + offset
        for count in range(1, box.lines + 1):
            book.put(lists, count, column, entry_length(count, box.lines, box.characters), "hidden")
        letter = column_letter(column)
        book.name(name, AGENDA_DATA, f"{letter}1", f"{letter}{box.lines}")
    book.name(PlanName.WEEKDAY_CHOICES, AGENDA_DATA, "N1", f"N{len(WEEKDAY_WORDS)}")
