"""Everything that stands on a day, in order of what matters: what is due, steps, study sessions, own tasks.
Twins: ``workbook.agenda_data`` and ``workbook.agenda``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.plan.facts import DatedItem, OwnTask
from syllabus_io.plan.labels import clock_label, cut, day_label, entry_length

__all__ = [
    "MONTH_BOX",
    "PRIORITY",
    "SEE_MORE",
    "TASK_PREFIX",
    "WEEK_BOX",
    "AgendaEntry",
    "Box",
    "box_text",
    "item_entry",
    "step_entry",
    "study_entry",
    "task_entry",
]

PRIORITY = {
    "exam": 1,
    "quiz": 2,
    "presentation": 3,
    "project": 4,
    "assignment": 5,
    "step": 6,
    "study": 7,
    "task": 8,
    "call": 8,
    "message": 8,
    "goal": 9,
    "reading": 10,
}
"""What comes first on a day: a rule of thumb, common practice, no source."""
TASK_PREFIX = {"task": "To do: ", "call": "Call: ", "message": "Write: ", "goal": "Goal: "}
_ITEM_PREFIX = {"exam": "Exam: ", "reading": "Read: "}
SEE_MORE = " more: see Agenda"


@dataclass(frozen=True, slots=True)
class Box:
    """How much text a box holds: lines, and characters that surely fit on a line."""

    lines: int
    characters: int


MONTH_BOX = Box(7, 25)
WEEK_BOX = Box(12, 25)


@dataclass(frozen=True, slots=True)
class AgendaEntry:
    """One thing on a day."""

    day: date
    sort: str
    what: str

    @property
    def priority(self) -> int:
        """Its place among the things of a day."""
        return PRIORITY[self.sort]


def item_entry(item: DatedItem, clock_hours: int) -> AgendaEntry:
    """A dated item, on its first day."""
    clock = f" {clock_label(item.time, clock_hours)}" if item.time else ""
    until = f" (to {day_label(item.until)[4:]})" if item.until and item.until > item.day else ""
    what = f"{_ITEM_PREFIX.get(item.kind, '')}{item.course} {item.title}{clock}{until}"
    return AgendaEntry(item.day, item.kind, what)


def study_entry(item: DatedItem, day: date) -> AgendaEntry:
    """A study session for an exam or quiz."""
    return AgendaEntry(day, "study", f"Study: {item.course} {item.title}")


def step_entry(course: str, title: str, step: str, day: date) -> AgendaEntry:
    """A step of a project."""
    return AgendaEntry(day, "step", f"Step: {course} {step}: {title}")


def task_entry(task: OwnTask) -> AgendaEntry:
    """A task, call or message of one's own, or a step toward a goal."""
    who = f" ({task.who})" if task.who else ""
    return AgendaEntry(task.day, task.sort, f"{TASK_PREFIX[task.sort]}{task.what}{who}")


def box_text(entries: Sequence[str], box: Box) -> str:
    """What stands in a day's box: each entry on as many lines as there is room for, and how many more there are."""
    count = len(entries)
    shown = count if count <= box.lines else box.lines - 1
    length = entry_length(count, box.lines, box.characters)
    lines = [cut(entry, length) for entry in entries[:shown]]
    if count > shown:
        lines.append(f"+{count - shown}{SEE_MORE}")
    return "\n".join(lines)
