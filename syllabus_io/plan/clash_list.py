"""What gets in each other's way, with what would help: an earlier start, never another due date.

Twins: ``workbook.load`` (where a clash begins) and ``workbook.workload`` (its words).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from syllabus_io.plan.clashes import BUSY_COUNT, BUSY_HOURS
from syllabus_io.plan.day_table import blocks_of, minutes_of
from syllabus_io.plan.facts import DatedItem, PlanningFacts
from syllabus_io.plan.labels import day_label
from syllabus_io.plan.workload import ItemPlan

__all__ = ["MOST_NAMES", "ListedClash", "list_block_clashes", "list_clashes"]

MOST_NAMES = 4
"""The most items that a line names."""
_BIG = frozenset({"exam", "project", "presentation"})
_LAST_MINUTE = 1439


@dataclass(frozen=True, slots=True)
class ListedClash:
    """One line: the day on which it begins, what clashes, what would help."""

    day: date
    what: str
    help: str


def list_clashes(facts: PlanningFacts, plans: Sequence[ItemPlan]) -> tuple[ListedClash, ...]:
    """Exams on one day, exams on a day off, much within 48 hours; in order of day, then in this order."""
    starts = {plan.item.row: plan.start for plan in plans}
    found = [
        *((clash.day, 1, row, clash) for row, clash in _exam_days(facts, starts)),
        *((clash.day, 2, row, clash) for row, clash in _days_off(facts)),
        *((clash.day, 3, row, clash) for row, clash in _busy_stretches(facts, starts)),
    ]
    return tuple(clash for *_, clash in sorted(found, key=lambda one: one[:3]))


def _name(item: DatedItem) -> str:
    return f"{item.course} {item.title}"


def _names(items: Sequence[DatedItem]) -> str:
    more = f" and {len(items) - MOST_NAMES} more" if len(items) > MOST_NAMES else ""
    return ", ".join(_name(item) for item in items[:MOST_NAMES]) + more


def _help(item: DatedItem, starts: dict[int, date], facts: PlanningFacts) -> str:
    ease = facts.settings.ease_days
    if ease <= 0:
        return ""
    start = max(min(facts.first_day, starts[item.row]), starts[item.row] - timedelta(days=ease))
    return f"Begin {_name(item)} by {day_label(start)}."


def _exam_days(facts: PlanningFacts, starts: dict[int, date]) -> Iterator[tuple[int, ListedClash]]:
    exams = [item for item in facts.items if item.kind == "exam" and item.until is None]
    for day in {item.day for item in exams}:
        together = [item for item in exams if item.day == day]
        if len(together) > 1:
            what = f"{len(together)} exams on one day: {_names(together)}"
            yield together[0].row, ListedClash(day, what, _help(together[1], starts, facts))


def _days_off(facts: PlanningFacts) -> Iterator[tuple[int, ListedClash]]:
    numbers = {course.key: number for number, course in enumerate(facts.courses, start=1)}
    for item in facts.items:
        tested = item.kind in {"exam", "quiz"} and item.until is None
        if tested and facts.off_for(item.day, numbers.get(item.course, 0)):
            what = f"{_name(item)} falls on a day off"
            yield item.row, ListedClash(item.day, what, "Ask whether the date or the day off is right.")


def _busy_stretches(facts: PlanningFacts, starts: dict[int, date]) -> Iterator[tuple[int, ListedClash]]:
    heavy = facts.settings.heavy_percent / 100
    big = [item for item in facts.items if item.kind in _BIG or (item.weight or 0.0) >= heavy]
    big.sort(key=lambda item: (_moment(item), item.row))
    reached = 0
    for number, first in enumerate(big):
        end = number
        while end < len(big) and _moment(big[end]) <= _moment(first) + BUSY_HOURS * 60:
            end += 1
        if end - number >= BUSY_COUNT and end > reached:
            together = big[number:end]
            what = f"{len(together)} things that count much within {BUSY_HOURS} hours: {_names(together)}"
            yield first.row, ListedClash(first.day, what, _help(together[-1], starts, facts))
            reached = end


def _moment(item: DatedItem) -> int:
    return item.day.toordinal() * 1440 + (minutes_of(item.time) if item.time else _LAST_MINUTE)


def list_block_clashes(facts: PlanningFacts) -> tuple[str, ...]:
    """Classes and commitments that overlap, each with the last one above it that it overlaps."""
    lines = []
    blocks = blocks_of(facts)
    for number, block in enumerate(blocks):
        above = [other for other in blocks[:number] if block and other and block.overlaps(other)]
        if block and above:
            lines.append(f"{above[-1].name} and {block.name}")
    return tuple(lines)
