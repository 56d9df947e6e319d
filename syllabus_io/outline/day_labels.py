"""Weekdays that open an entry as a label: "Wed: Quiz 1" in the row of a week, "Thursday – lab report"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.entries import DAY_LABEL, Entry, split_entries
from syllabus_io.outline.frames import Passage
from syllabus_io.resolve.expression import Weekday

__all__ = ["labelled_entries"]

_INNER_LABEL = re.compile(
    r"(?<=\s)(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\.?:\s(?=\S)", re.IGNORECASE
)


def labelled_entries(passage: Passage) -> Iterator[tuple[Entry, Passage]]:
    """The entries of a passage, each with the passage in the frame that holds for it.

    In a dated row a weekday that opens an entry dates it, and what stands behind it on the same line; the entry comes
    without it.
    """
    weekday: Weekday | None = None
    end = 0
    for entry in _cut_at_labels(passage):
        match = DAY_LABEL.match(entry.text) if passage.frame.is_dated else None
        if match is not None:
            weekday = weekday_in(match[1])
            entry = replace(entry, text=entry.text[match.end() :], start=entry.start + match.end())
        elif "\n" in passage.text[end : entry.start]:
            weekday = None
        end = entry.end
        yield entry, passage if weekday is None else replace(passage, frame=replace(passage.frame, weekday=weekday))


def _cut_at_labels(passage: Passage) -> Iterator[Entry]:
    """The entries of a passage; one that opens with a weekday is cut before every further weekday with a colon."""
    for entry in split_entries(passage):
        cuts = [match.start() for match in _INNER_LABEL.finditer(entry.text)] if DAY_LABEL.match(entry.text) else []
        for begin, end in pairwise([0, *cuts, len(entry.text)]):
            text = entry.text[begin:end].rstrip()
            yield Entry(text, entry.start + begin, entry.start + begin + len(text))
