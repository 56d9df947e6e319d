"""Labels that say what the words behind them are: "Due: …", "IN CLASS …", "Read. …"."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from syllabus_io.outline.frames import Frame, frame_expression
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import ClassNear, DateExpression, Direction, Reference, WeekdayIn, WeekdayNear
from syllabus_io.resolve.expression_parts import parts_of, with_parts

__all__ = ["DatedLabel", "dated_label", "label_of"]

LONGEST_LABEL = 70
_DATED_LABEL = re.compile(
    r"^\W*(?:(?:assignments?|homework|hw|work)\b[^:]{0,20}?\b(?:due|for)|due|to do|for)\b([^:]{2,45})(?::\s*|$)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class DatedLabel:
    """A label that dates what stands behind it ("Assignment due next class (Apr 1):"), and the rest of its line."""

    frame: Frame
    rest: str


def dated_label(text: str, frame: Frame) -> DatedLabel | None:
    """The label with a date that a line opens with; None when it opens with none. ``frame`` is that of the block."""
    match = _DATED_LABEL.match(text)
    if match is None or match.end() > LONGEST_LABEL or not frame.is_dated:
        return None
    if ":" not in match[0] and any(head.number for head in find_heads(match[0])):
        return None  # "HW 3 due Friday" is work, no label over what follows
    said = match[1]
    best: DateExpression | None = None
    words = ""
    for phrase in phrases_in(said, weak=True):
        if phrase.expression is None:
            continue
        best, words = _of_block(phrase.expression, frame), phrase.text
    if (
        best is None
        and re.search(r"\bnext\s+(?:class|time|meeting|session)", said, re.IGNORECASE)
        and frame.day is not None
    ):
        best, words = ClassNear(frame.day, Direction.AFTER), said.strip()
    if best is None:
        return None
    return DatedLabel(replace(frame, day=best, stretch=None, weekday=None, days=(), words=words), text[match.end() :])


def _of_block(expression: DateExpression, frame: Frame) -> DateExpression | None:
    """The expression with the day of the block put in where it speaks of "next class" or a weekday alone."""
    base = frame.day
    if isinstance(expression, WeekdayIn) and expression.stretch != Reference() and _is_relative(expression):
        if base is not None:
            return WeekdayNear(base, expression.weekday, Direction.AFTER)
        framed = frame_expression(replace(frame, weekday=expression.weekday), None)
        return framed[0] if framed else None
    if _is_relative(expression):
        return with_parts(expression, lambda part: base if isinstance(part, Reference) and base else part)
    return expression


def _is_relative(expression: DateExpression) -> bool:
    return any(isinstance(part, Reference) for part in parts_of(expression))


_LABELS: tuple[tuple[ColumnRole, str], ...] = (
    (
        ColumnRole.DUE,
        r"(?:assignments?|homework|hw|work|papers?)?\s*due(?:\s+(?:today|in class|this week|dates?))?|to hand in|"
        r"hand in|turn in",
    ),
    (
        ColumnRole.ASSIGNED,
        r"assign|assigned|hand(?:ed)?[\s-]?out|for next (?:class|time|week)|(?:homework|"
        r"assignments?) for next (?:class|time|week)",
    ),
    (ColumnRole.READING, r"read|readings?|required readings?|reading assignments?|text|prepare|preparation"),
    (
        ColumnRole.WORK,
        r"assignments?(?:\s+after class)?|homework|hw|quiz(?:zes)?|labs?|exams?|tests?|problem sets?|to do|task",
    ),
    (
        ColumnRole.TOPIC,
        r"topics?|in[\s-]class|activit(?:y|ies)(?: in class)?|lecture|discussion|class|agenda|content|subject|theme",
    ),
    (ColumnRole.NOTES, r"notes?|reminders?|announcements?"),
)
_LABEL = re.compile("|".join(rf"(?P<{role.name}>^(?:{pattern})\b)" for role, pattern in _LABELS), re.IGNORECASE)


def label_of(text: str) -> tuple[ColumnRole | None, str, str]:
    """The role, words and rest of a line that opens with a label ("Due: …", "IN CLASS …", "Read. …")."""
    match = _LABEL.match(text)
    if match is None or match.lastgroup is None:
        return None, "", text
    label, rest = match[0], text[match.end() :]
    if not rest.strip() and re.fullmatch(
        r"exams?|tests?|quiz(?:zes)?|labs?|class|lecture|discussion", label, re.IGNORECASE
    ):
        return None, "", text
    marked = re.match(r"\s*[:.–—-]\s*|\s*$|\s*\([^)]*\)\s*:\s*", rest)
    if marked:
        return ColumnRole[match.lastgroup], label, rest[marked.end() :]
    if label.isupper() and len(label) > 2 and re.match(r"\s+\S", rest) and match.lastgroup != "WORK":
        return ColumnRole[match.lastgroup], label, rest.lstrip()
    return None, "", text
