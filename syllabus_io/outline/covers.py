"""What exams are about: "Exam 2 covers chapters 5-8", also said in another cell of the exam's row."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.items import title_numbers, title_words
from syllabus_io.outline.records import Item, Kind
from syllabus_io.outline.titles import tidy_title

__all__ = ["with_covers"]

_SAID = re.compile(
    r"\b(?P<exam>(?:(?:first|second|third|final|midterm|mid-term|unit|class|the)\s+)*(?:exam|midterm|test|quiz|final)"
    r"(?:\s+(?:exam|#?\s?\d{1,2}|[IVX]{1,4})\b)?)\s+(?:will\s+|is\s+|only\s+)*(?:covers?|covering|includes?)\s+"
    r"(?P<what>[^.;|\n]{4,90})",
    re.IGNORECASE,
)

_FURTHER = re.compile(r"\s+and\s+(?:is|will|takes?|counts?)\b|\s+on\s+(?:mon|tue|wed|thu|fri|sat|sun)", re.IGNORECASE)


def with_covers(items: Sequence[Item], passages: Sequence[Passage]) -> tuple[Item, ...]:
    """The items with what sentences and notes say that an exam covers, where its own entry does not say it."""
    said = [(match, passage) for passage in passages for match in _SAID.finditer(passage.text)]
    return tuple(_with_what(item, said) if item.kind in (Kind.EXAM, Kind.QUIZ) else item for item in items)


def _with_what(item: Item, said: Sequence[tuple[re.Match[str], Passage]]) -> Item:
    if item.covers is not None:
        return item
    rows = {mention.row for mention in item.mentions if mention.row is not None}
    for match, passage in said:
        numbers = title_numbers(match["exam"])
        same_row = passage.frame.row is not None and passage.frame.row in rows
        named = title_words(match["exam"]) <= title_words(item.title) and numbers == title_numbers(item.title)
        if (same_row and (not numbers or named)) or (
            named and passage.frame.row is None and (numbers or _is_one(match))
        ):
            return replace(item, covers=tidy_title(_FURTHER.split(match["what"])[0]))
    return item


def _is_one(match: re.Match[str]) -> bool:
    """Whether the words name an exam of which a course has one."""
    return bool(title_words(match["exam"]) & {"final", "midterm"})
