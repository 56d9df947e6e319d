"""Weekdays that open an entry as a label ("Wed: Quiz 1", "F: Quiz 1" in a week) or close it ("Lab 2 due W")."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.entries import DAY_LABEL, Entry, split_entries
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.named_parts import named_parts
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.weekday_lines import in_days, labelled_days
from syllabus_io.outline.work_words import find_heads, mentions_due
from syllabus_io.resolve.expression import Weekday

__all__ = ["IN_ORDER", "labelled_entries"]

IN_ORDER = "its row names several days; what stands in it is taken to be in the order of the days"
_INNER_LABEL = re.compile(
    r"(?<=\s)(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\.?:\s(?=\S)", re.IGNORECASE
)


_LETTERS = r"(?-i:M|Tu?|W|Th|R|F|Sa|Su)"
_LETTER_LABEL = re.compile(rf"^\W*({_LETTERS})(?:\.?:\s*|\s+[–—-]\s+)(?=\S)")
_LAST = re.compile(
    r"[\s,:(–—-]+(?:(?:due|on|by)\s+)*((?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?)\.?"
    r"(?:\s*\((?:in|at|during)\s[^()\d]{2,25}\))?\W*$",
    re.IGNORECASE,
)
_LAST_LETTER = re.compile(rf"(?:[\s,(–—-]+(?:due|on|by)\s+|\s*\(|(?<=\d)\s+)({_LETTERS})\b\.?\)?\s*$", re.IGNORECASE)
_INNER_LAST = re.compile(
    rf"\((?:{_LETTERS}|(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?)\.?\)\s*[,;&+/]\s*(?=[A-Z])"
    rf"|\bdue\s+{_LETTERS}\s*[,;&]\s*(?=[A-Z])",
    re.IGNORECASE,
)
_EACH = re.compile(r"\b(?:every|each|next|last|after|before|until|from|no)\s*$", re.IGNORECASE)


def labelled_entries(passage: Passage) -> Iterator[tuple[Entry, Passage]]:
    """The entries of a passage, each with the passage in the frame that holds for it.

    In a dated row a weekday that opens an entry dates it, and what stands behind it on the same line; the entry comes
    without it.
    """
    entries = tuple(_cut_at_labels(passage))
    if len(entries) == len(passage.frame.days) > 1 and _are_topics(entries, passage):
        yield from _in_order(entries, passage)
        return
    weekday: Weekday | None = None
    end = 0
    for entry in entries:
        entry = replace(entry, text=entry.text.rstrip(" ,;&+/")) if _is_week(passage) else entry
        several = labelled_days(entry.text) if _is_week(passage) else None
        if several is not None:
            weekday, end = None, entry.end
            own_frame = in_days(passage.frame, several[0], several[1])
            entry = replace(entry, text=entry.text[several[2] :], start=entry.start + several[2])
            yield entry, replace(passage, frame=own_frame)
            continue
        match = DAY_LABEL.match(entry.text) if passage.frame.is_dated else None
        if match is None and _is_week(passage):
            match = _LETTER_LABEL.match(entry.text)
        last = _last_weekday(entry) if match is None and _is_week(passage) else None
        if match is not None:
            weekday = weekday_in(match[1])
            entry = replace(entry, text=entry.text[match.end() :], start=entry.start + match.end())
        elif "\n" in passage.text[end : entry.start]:
            weekday = None
        end = entry.end
        parts = named_parts(entry) if passage.frame.is_dated else (entry,)
        if len(parts) > 1:
            yield from _on_own_days(parts, passage)
            continue
        own = weekday
        if last is not None:
            own = weekday_in(last[1])
            entry = _without_weekday(entry, last)
        yield entry, passage if own is None else replace(passage, frame=replace(passage.frame, weekday=own))


def _on_own_days(parts: Sequence[Entry], passage: Passage) -> Iterator[tuple[Entry, Passage]]:
    """The parts of a work, each on the weekday or day that closes it."""
    if any(not head.is_weak for head in find_heads(parts[0].text.split(":")[0])):
        passage = replace(passage, role=ColumnRole.WORK if passage.role in (ColumnRole.TOPIC, None) else passage.role)
    for part in parts:
        last = _last_weekday(part) if _is_week(passage) else None
        if last is None:
            yield part, passage
            continue
        frame = replace(passage.frame, weekday=weekday_in(last[1]))
        yield _without_weekday(part, last), replace(passage, frame=frame)


def _are_topics(entries: Sequence[Entry], passage: Passage) -> bool:
    """Whether the entries tell what happens on the days of their row and none names a day of its own."""
    if passage.role not in (ColumnRole.TOPIC, None):
        return False
    return not any(
        DAY_LABEL.match(entry.text)
        or _LETTER_LABEL.match(entry.text)
        or _last_weekday(entry)
        or mentions_due(entry.text)
        or dated_phrases(entry.text)
        for entry in entries
    )


def _in_order(entries: Sequence[Entry], passage: Passage) -> Iterator[tuple[Entry, Passage]]:
    """As many topics as their row names days ("9/28, 9/30: Review; Exam 1"): each on its day, in this order."""
    doubts = (*passage.frame.doubts, IN_ORDER)
    for entry, day in zip(entries, passage.frame.days, strict=True):
        yield entry, replace(passage, frame=replace(passage.frame, day=day, days=(), stretch=None, doubts=doubts))


def _is_week(passage: Passage) -> bool:
    """Whether a passage stands in a week or another stretch, so that a weekday in it is a day of its own."""
    return passage.frame.stretch is not None or (passage.frame.day is not None and passage.frame.week is not None)


def _last_weekday(entry: Entry) -> re.Match[str] | None:
    match = _LAST.search(entry.text) or _LAST_LETTER.search(entry.text)
    if (
        match is None
        or _EACH.search(entry.text[: match.start()])
        or not re.search(r"\w{2}", entry.text[: match.start()])
    ):
        return None
    return match


def _without_weekday(entry: Entry, last: re.Match[str]) -> Entry:
    """The entry without the weekday that closes it; that it is due stays said."""
    due = " due" if re.search(r"\bdue\b", last[0], re.IGNORECASE) else ""
    return replace(entry, text=f"{entry.text[: last.start()]}{due}", end=entry.start + last.start())


def _cut_at_labels(passage: Passage) -> Iterator[Entry]:
    """The entries of a passage; one that opens with a weekday is cut before every further weekday with a colon."""
    for entry in split_entries(passage):
        cuts = [match.start() for match in _INNER_LABEL.finditer(entry.text)] if DAY_LABEL.match(entry.text) else []
        if not cuts and _is_week(passage):
            cuts = [match.end() for match in _INNER_LAST.finditer(entry.text)]
        for begin, end in pairwise([0, *cuts, len(entry.text)]):
            text = entry.text[begin:end].rstrip()
            yield Entry(text, entry.start + begin, entry.start + begin + len(text))
