"""Schedule rows in order: which printed date breaks the rise of its neighbours, and what it likely should be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from syllabus_io.resolve.wording import in_words

__all__ = ["RowDay", "RowSlip", "find_slips", "usual_step"]

_FEWEST_ROWS = 4
_MOST_SLIPS = 0.15  # a list with more falls than this is not in date order at all


@dataclass(frozen=True, slots=True)
class RowDay:
    """A schedule row, numbered from 1, its first and last day, and the words that date it."""

    row: int
    first: date
    last: date
    words: str


@dataclass(frozen=True, slots=True)
class RowSlip:
    """A row whose date cannot be right where it stands. ``likely`` is the day that would fit, None when unclear."""

    row: int
    printed: date
    likely: date | None
    before: date
    after: date

    @property
    def reason(self) -> str:
        """Why to check, in plain words."""
        return (
            f"the date printed is {in_words(self.printed)}, but its row stands between {in_words(self.before)} "
            f"and {in_words(self.after)}"
        )


def find_slips(rows: Sequence[RowDay]) -> tuple[RowSlip, ...]:
    """The rows that break the rising order of the rows on both sides of them.

    Nothing is found in a list that is not in date order, nor where a second list begins: there the neighbours
    themselves do not rise.
    """
    if len(rows) < _FEWEST_ROWS:
        return ()
    step = usual_step(rows)
    slips: dict[int, RowSlip] = {}
    for index, (before, row, after) in enumerate(zip(rows, rows[1:], rows[2:], strict=False)):
        if before.first <= after.first and not before.first <= row.first <= after.first:
            likely = _likely_day(before.first, row.first, after.first, step)
            slips[index] = RowSlip(row.row, row.first, likely, before.first, after.first)
    falls = sum(later.first < earlier.first for earlier, later in pairwise(rows))
    if falls > max(1, _MOST_SLIPS * len(rows)):
        return ()
    # One wrong date makes its neighbour look wrong too; the one that can be mended is the wrong one.
    return tuple(
        slip
        for index, slip in slips.items()
        if slip.likely is not None
        or not any(near in slips and slips[near].likely is not None for near in (index - 1, index + 1))
    )


def usual_step(rows: Sequence[RowDay]) -> timedelta | None:
    """The step between most neighbouring rows, None when there is none."""
    if len(rows) < 2:
        return None
    steps = Counter(later.first - earlier.first for earlier, later in pairwise(rows))
    step, times = steps.most_common(1)[0]
    return step if times >= len(rows) / 2 and step.days > 0 else None


def _likely_day(before: date, printed: date, after: date, step: timedelta | None) -> date | None:
    """The one day strictly between the neighbours that differs from the printed one in month or year alone; else the
    day one usual step after the row before, where that is also one step before the row after."""
    fitting: set[date] = set()
    for year in range(before.year, after.year + 1):
        for month in range(1, 13):
            try:
                day = date(year, month, printed.day)
            except ValueError:
                continue
            if before < day < after:
                fitting.add(day)
    if len(fitting) == 1:
        return fitting.pop()
    if not fitting and step is not None and before + 2 * step == after:
        return before + step
    return None
