"""How many weeks and months of the calendar the sheets show: settled when a workbook is written, from the term and from
what lies near it. What falls outside is counted and said on the sheet."""

from __future__ import annotations

from datetime import date, timedelta

from syllabus_io.plan.facts import planning_facts
from syllabus_io.workbook.book import Book

__all__ = ["DAYS_BEFORE", "shown_month_count", "shown_week_count"]

DAYS_BEFORE = 62
"""How long before the first day of term an item still counts as near."""
_DAYS_AFTER = 62


def _last_day(book: Book) -> date:
    """The last day that is shown: the end of term or finals, or of what is due soon after."""
    term = book.plan.resolved.term
    end = max(term.last_day, term.finals[1]) if term.finals else term.last_day
    near = [row.until or row.read for row in book.rows if row.read and row.read <= end + timedelta(days=_DAYS_AFTER)]
    return max([end, *(day for day in near if day)])


def shown_week_count(book: Book) -> int:
    """Weeks from week 1 to the last day, and one to spare; no more than the week table holds."""
    facts = planning_facts(book.plan)
    weeks = (_last_day(book) - facts.week_one).days // 7 + 2
    return max(1, min(weeks, book.week_count))


def shown_month_count(book: Book) -> int:
    """Months from the first item near the term, or the first day of term, to the last day."""
    first_day = book.plan.resolved.term.first_day
    near = [row.read for row in book.rows if row.read and row.read >= first_day - timedelta(days=DAYS_BEFORE)]
    first, last = min([first_day, *near]), _last_day(book)
    return (last.year - first.year) * 12 + last.month - first.month + 1
