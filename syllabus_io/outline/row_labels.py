"""Labels that say what the words behind them are: "Due: …", "IN CLASS …", "Read. …"."""

from __future__ import annotations

import re

from syllabus_io.outline.headings import ColumnRole

__all__ = ["label_of"]

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
    (ColumnRole.WORK, r"assignments?|homework|hw|quiz(?:zes)?|labs?|exams?|tests?|problem sets?|to do|task"),
    (
        ColumnRole.TOPIC,
        r"topics?|in[\s-]class|activit(?:y|ies)(?: in class)?|lecture|discussion|class|agenda|content|subject|theme",
    ),
    (ColumnRole.NOTES, r"notes?|reminders?|announcements?"),
)
_LABEL = re.compile("|".join(rf"(?P<{role.name}>^(?:{pattern}))" for role, pattern in _LABELS), re.IGNORECASE)


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
