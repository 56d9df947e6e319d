"""Days and lists in plain words, the same in every sentence that a person reads."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from syllabus_io.resolve.expression import Weekday

__all__ = ["ONLY_THE_WEEK", "days_in_words", "in_words", "listed", "month_and_day", "quoted", "weekday_in_words"]

ONLY_THE_WEEK = "the outline names only the week"
"""How the reason begins that a date is a window of a week."""
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_QUOTE_LENGTH = 60


def weekday_in_words(day: date | Weekday) -> str:
    """The English name of a weekday.

    >>> weekday_in_words(date(2026, 10, 6))
    'Tuesday'
    """
    number = day.isoweekday() if isinstance(day, date) else int(day)
    return _WEEKDAYS[number - 1]


def in_words(day: date) -> str:
    """A day that cannot be misread, whatever order of day and month the reader is used to.

    >>> in_words(date(2026, 10, 6))
    'Tue 6 Oct 2026'
    """
    return f"{weekday_in_words(day)[:3]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def month_and_day(month: int, day: int) -> str:
    """A day of no year.

    >>> month_and_day(2, 29)
    '29 Feb'
    """
    return f"{day} {_MONTHS[month - 1]}"


def days_in_words(first: date, last: date | None) -> str:
    """A day, or a stretch with both its ends."""
    return in_words(first) if last is None or last == first else f"{in_words(first)} to {in_words(last)}"


def quoted(words: str) -> str:
    """Words of an outline in quotation marks, on one line, cut to a length that fits a cell."""
    line = " ".join(words.split())
    return f"“{line}”" if len(line) <= _QUOTE_LENGTH else f"“{line[: _QUOTE_LENGTH - 1].rstrip()}…”"


def listed(words: Iterable[str]) -> str:
    """Words joined as in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    parts = list(words)
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}" if parts else ""
