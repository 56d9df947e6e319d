"""What the hours of a day hold, and what to do on it, in order of what matters.
Twins: ``workbook.hour_cells`` and ``workbook.day``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.plan.agenda import PRIORITY, AgendaEntry
from syllabus_io.plan.day_table import Block, blocks_of
from syllabus_io.plan.facts import PlanningFacts
from syllabus_io.plan.labels import cut

__all__ = ["HOUR_CHARACTERS", "LATE_DAYS", "StudySlot", "TaskEntry", "hour_texts", "task_order"]

HOUR_CHARACTERS = 24
"""Characters that surely fit on a line of an hour; an hour has two lines."""
LATE_DAYS = 14
"""So many days a step or task that was not done stays in the list of a later day."""


@dataclass(frozen=True, slots=True)
class StudySlot:
    """A study session of a day with its words and its length in whole hours."""

    what: str
    hours: int


def hour_texts(
    day: date, hours: Sequence[int], facts: PlanningFacts, study: Sequence[StudySlot], clock_hours: int
) -> tuple[str, ...]:
    """The words of each hour: what begins in it, else what goes on, else the study that fits there, from the hour on
    from which study is shown."""
    blocks = [block for block in blocks_of(facts) if block and block.is_on(day, facts)]
    waiting = [slot.what for slot in study for _ in range(slot.hours)]
    texts = []
    for hour in hours:
        begun = [block for block in blocks if block.start // 60 == hour]
        going = [block for block in blocks if block.start // 60 < hour and block.end > hour * 60]
        if begun or going:
            texts.append(_block_text(begun, going, clock_hours))
        elif hour >= facts.settings.study_hour and waiting:
            texts.append(cut(waiting.pop(0), 2 * HOUR_CHARACTERS - 6))
        else:
            texts.append("")
    return tuple(texts)


def _block_text(begun: Sequence[Block], going: Sequence[Block], clock_hours: int) -> str:
    length = 2 * HOUR_CHARACTERS - 6
    if not begun:
        return cut(f"({going[-1].name})", length)
    if len(begun) == 1 and not going:
        return cut(_label(begun[0], clock_hours, room=True), length)
    other = _label(begun[1], clock_hours) if len(begun) > 1 else f"({going[-1].name})"
    more = len(begun) + len(going) - 2
    tail = f" +{more}" if more > 0 else ""
    return cut(_label(begun[0], clock_hours), HOUR_CHARACTERS) + "\n" + cut(other, HOUR_CHARACTERS - 3) + tail


def _label(block: Block, clock_hours: int, room: bool = False) -> str:
    place = f", {block.room}" if room and block.room else ""
    return f"{_clock(block.start, clock_hours)}–{_clock(block.end, clock_hours)} {block.name}{place}"


def _clock(minutes: int, clock_hours: int) -> str:
    hour = minutes // 60
    return f"{hour if clock_hours == 24 else (hour + 11) % 12 + 1}:{minutes % 60:02}"


@dataclass(frozen=True, slots=True)
class TaskEntry:
    """A thing that may be worked on: its entry, when work on it begins, its last day, whether it is done, whether it
    matters most, and whether it is an item (which is worked on from its start on)."""

    entry: AgendaEntry
    start: date | None = None
    last: date | None = None
    is_done: bool = False
    matters_most: bool = False
    is_item: bool = False


def task_order(day: date, tasks: Sequence[TaskEntry]) -> tuple[AgendaEntry, ...]:
    """What to do on a day: what is due, then own tasks that matter most, then steps, sessions and tasks of the day,
    then what is late, then work that has begun, the nearest day first. Within each, by priority, then as listed.

    The order is a rule of thumb: common practice, no source.
    """
    found = []
    for place, task in enumerate(tasks):
        rank = _rank(day, task)
        if rank is not None:
            found.append((rank, PRIORITY[task.entry.sort], place, task.entry))
    return tuple(entry for *_, entry in sorted(found, key=lambda one: one[:3]))


def _rank(day: date, task: TaskEntry) -> int | None:
    own = task.entry.day
    if task.is_done or task.entry.sort in {"call", "message"}:
        return None
    if task.is_item:
        if (task.start or own) > day or (task.last or own) < day:
            return None
        return 1000 if own <= day else 3000 + (own - day).days
    if own == day:
        return 1500 if task.matters_most else 2000
    late = (day - own).days
    return 2500 + late if 0 < late <= LATE_DAYS and task.entry.sort != "study" else None
