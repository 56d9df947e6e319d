"""Plans of classes that are numbered and not dated: "Plan of classes", then "1. Soils", "2. Rivers. Quiz 1" …"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.extract.document import Block, Line
from syllabus_io.outline.frames import Frame, Passage
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.row_dates import RowDate
from syllabus_io.resolve.expression import MeetingNumber

__all__ = ["COUNTS_A_DAY_OFF", "numbered_classes", "with_doubted_numbers"]

COUNTS_A_DAY_OFF = "the numbered classes count one that is not held, and may run ahead of the days"

FEWEST_CLASSES = 6
FARTHEST_LINES = 8  # from one number to the next: headings of parts, wrapped lines, what to read
LONGEST_ENTRY = 220
LONGEST_OFF = 70
_NOT_HELD = re.compile(
    r"\bno (?:class|meeting|lecture|session|seminar|school)\b|\b(?:class(?:es)?|lecture|meeting) (?:is )?cancel"
    r"|^\W*(?:(?!after|before|over)\w+\s+){0,3}(?:holiday|recess|break)\b",
    re.IGNORECASE,
)
_MARKER = re.compile(r"\(?(\d{1,2})[.)]?")
_SET_SOLID = re.compile(r"(\d{1,2})[.)](?=[A-Z“\"])")  # "10.Roads": the number fills its hanging indent
_CLASS = r"(?:class(?:es)?|class meetings?|sessions?|meetings?|lectures?|seminars?|lessons?)"
_PLAN = re.compile(
    rf"^\W*(?:\d+\W+)?(?:the\s+)?{_CLASS}\W*$"
    rf"|\b(?:plan|schedule|calendar|outline|list|programme?|sequence|topics|overview|order)\b.*\b{_CLASS}\b"
    rf"|\b{_CLASS}\b.*\b(?:plan|schedule|calendar|outline|list|programme?|sequence|topics|by {_CLASS})\b",
    re.IGNORECASE,
)
_COUNTS = re.compile(
    rf"\b(?:class|session|meeting|lecture|seminar|lesson)\s+(?:no\.?\s*|#\s*)?(?:1|one)\b"
    rf"|\bnumber(?:s|ed)?\s+(?:the\s+|of\s+(?:the\s+)?|are\s+(?:those\s+of\s+)?)*{_CLASS}\b|\b{_CLASS}\s+are\s+numbered\b"
    rf"|\b{_CLASS}\s+1\s*(?:-|–|to|through)\s*\d",
    re.IGNORECASE,
)
_NO_PLAN = re.compile(
    r"\b(?:polic(?:y|ies)|rules?|expectations?|goals?|objectives?|outcomes?|requirements?)\b", re.IGNORECASE
)


def numbered_classes(blocks: Sequence[Block]) -> dict[int, RowDate]:
    """The entries of such plans, by the place of their line, each on the class of its number.

    The numbers must run from 1 without a gap, no entry have a date of its own, and the heading or the lines above the
    first entry must say that it is classes that are numbered.
    """
    found: dict[int, RowDate] = {}
    for run in _runs(blocks):
        if len(run) >= FEWEST_CLASSES and _is_plan(blocks, run[0]):
            for count, place in enumerate(run, 1):
                line = blocks[place]
                assert isinstance(line, Line)  # runs hold lines alone
                text = line.text if line.marker else _SET_SOLID.sub("", line.text)
                start = len(line.text) - len(text)
                found[place] = RowDate(Frame(day=MeetingNumber(count), words=f"{count}."), text, start, count, "class")
    return found


def with_doubted_numbers(passages: Sequence[Passage]) -> list[Passage]:
    """The passages with a doubt on each numbered class from the one on that the outline says is not held
    ("Meeting 5: no class, Labor Day"): whether the count goes on over it is not said."""
    first_off: dict[int, int] = {}
    for passage in passages:
        number = _number(passage)
        if number is not None and len(passage.text) < LONGEST_OFF and _NOT_HELD.search(passage.text):
            first_off[passage.group] = min(number, first_off.get(passage.group, number))
    if not first_off:
        return list(passages)
    return [_doubted(passage, first_off.get(passage.group)) for passage in passages]


def _number(passage: Passage) -> int | None:
    day = passage.frame.day
    return day.number if isinstance(day, MeetingNumber) and passage.group else None


def _doubted(passage: Passage, first_off: int | None) -> Passage:
    number = _number(passage)
    if number is None or first_off is None or number < first_off:
        return passage
    return replace(passage, frame=replace(passage.frame, doubts=(*passage.frame.doubts, COUNTS_A_DAY_OFF)))


def _runs(blocks: Sequence[Block]) -> list[list[int]]:
    runs: list[list[int]] = []
    for place, block in enumerate(blocks):
        if not isinstance(block, Line) or len(block.text) > LONGEST_ENTRY:
            continue
        match = _MARKER.fullmatch(block.marker) if block.marker else _SET_SOLID.match(block.text)
        if match is None or (not block.marker and not runs):
            continue
        number = int(match[1])
        if runs and number == len(runs[-1]) + 1 and place - runs[-1][-1] <= FARTHEST_LINES:
            runs[-1].append(place)
        elif number == 1 and block.marker:
            runs.append([place])
    return [run for run in runs if not any(_opens_with_date(blocks[place]) for place in run)]


def _opens_with_date(block: Block) -> bool:
    phrases = dated_phrases(block.text) if isinstance(block, Line) else ()
    return bool(phrases) and phrases[0].start <= 3


def _is_plan(blocks: Sequence[Block], first: int) -> bool:
    """Whether what stands above the first entry says that classes are numbered."""
    for place in range(first - 1, max(first - 1 - FARTHEST_LINES, -1), -1):
        block = blocks[place]
        if not isinstance(block, Line):
            return False
        if _COUNTS.search(block.text):
            return True
        if block.level or block.bold:
            if _NO_PLAN.search(block.text):
                return False
            if _PLAN.search(block.text):
                return True
    return False
