"""Pages of a reading, where its title names them; the pace against the plan, and days read in a row."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

__all__ = ["count_pages", "pages_behind", "reading_streak"]

_PAGES = re.compile(
    r"\bpp?\.?\s*(\d{1,4}(?:\s*[-–]\s*\d{1,4})?(?:\s*,\s*\d{1,4}(?:\s*[-–]\s*\d{1,4})?)*)", re.IGNORECASE
)
_PAGES_WORD = re.compile(r"\bpages?\s+(\d{1,4}(?:\s*(?:[-–]|to)\s*\d{1,4})?)", re.IGNORECASE)
_MOST_PAGES = 2000


def count_pages(title: str) -> int | None:
    """How many pages a reading has, first and last included; None where its title names none.

    >>> count_pages("Harbour tales, pp. 12-34"), count_pages("Chapter 3")
    (23, None)
    """
    total = 0
    for stretch in (*_PAGES.findall(title), *_PAGES_WORD.findall(title)):
        for part in stretch.split(","):
            ends = [int(number) for number in re.findall(r"\d+", part)]
            first, last = ends[0], _whole(ends[0], ends[-1])
            if last < first:
                return None
            total += last - first + 1
    return total if 0 < total <= _MOST_PAGES else None


def _whole(first: int, last: int) -> int:
    """A last page that leaves out the digits it shares with the first: 112-18 is 112 to 118."""
    digits = str(last)
    if last < first and len(digits) < len(str(first)):
        return int(str(first)[: -len(digits)] + digits)
    return last


def pages_behind(planned: Iterable[tuple[date | None, int, bool]], today: date) -> int:
    """Pages that were to be read before today and are not, less those read ahead of their day. Each reading is its
    day, its pages and whether it has been read."""
    behind = 0
    for day, pages, is_read in planned:
        if day is None:
            continue
        behind += pages if day < today and not is_read else 0
        behind -= pages if day >= today and is_read else 0
    return behind


def reading_streak(days_read: Sequence[date], today: date) -> int:
    """How many days in a row something was read, up to today, or up to yesterday when today is still open."""
    read = set(days_read)
    day = today if today in read else today - timedelta(days=1)
    count = 0
    while day in read:
        count, day = count + 1, day - timedelta(days=1)
    return count
