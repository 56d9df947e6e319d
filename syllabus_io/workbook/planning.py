"""The sheets of a student's time, and the hidden ones they rest on, in the order in which they stand."""

from __future__ import annotations

from syllabus_io.workbook.book import Book
from syllabus_io.workbook.commitments import WEEKDAY_WORDS, write_commitments
from syllabus_io.workbook.hours import write_hours
from syllabus_io.workbook.layout import LISTS
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.load import write_load
from syllabus_io.workbook.planning_days import write_planning_days
from syllabus_io.workbook.workload import write_workload

__all__ = ["write_planning", "write_planning_hidden"]

_WEEKDAY_COLUMN = 4  # of Lists


def write_planning(book: Book) -> None:
    """Adds the sheets that are seen."""
    write_commitments(book)
    write_workload(book)


def write_planning_hidden(book: Book) -> None:
    """Adds the hidden sheets; Days and Lists are there already."""
    for number, word in enumerate(WEEKDAY_WORDS, start=1):
        book.put(book.workbook[LISTS], number, _WEEKDAY_COLUMN, word, "hidden")
    book.name(PlanName.WEEKDAY_CHOICES, LISTS, "D1", f"D{len(WEEKDAY_WORDS)}")
    write_planning_days(book)
    write_hours(book)
    write_load(book)
