"""How an outline numbers its weeks: which Monday begins week 1, and whether a week off takes a number."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise

from syllabus_io.resolve.term import DayOff, Term
from syllabus_io.resolve.wording import in_words, listed

__all__ = ["UnnumberedWeek", "WeekEvidence", "monday_of_row", "read_week_numbers"]

_WEEK = timedelta(days=7)
_MOST_EXTRA_WEEKS = 3
UNNUMBERED = "week without a number"


@dataclass(frozen=True, slots=True)
class UnnumberedWeek:
    """A week that takes no number for a reason the outline does not give, somewhere after week ``after_week`` and
    before week ``before_week``. ``first_day`` is the Monday taken for it: the last possible one."""

    after_week: int
    before_week: int
    first_day: date

    def is_between(self, number: int) -> bool:
        """Whether a week's date hangs on where exactly the unnumbered week lies."""
        return self.after_week < number < self.before_week

    @property
    def reason(self) -> str:
        """Why to check a date between the two numbers, in plain words."""
        return (
            f"one week between week {self.after_week} and week {self.before_week} takes no number and the outline does "
            "not say which: the date may be a week later"
        )


@dataclass(frozen=True, slots=True)
class WeekEvidence:
    """The numbering that the dated rows show. None: they show nothing. ``contradictions`` name rows that fit no
    numbering."""

    week_one: date | None = None
    break_weeks_count: bool | None = None
    why: str = ""
    unnumbered: tuple[UnnumberedWeek, ...] = ()
    contradictions: tuple[str, ...] = ()

    def adjusted(self, term: Term) -> Term:
        """The term with its weeks numbered as the outline does."""
        if self.week_one is None:
            return term
        counts = term.break_weeks_count if self.break_weeks_count is None else self.break_weeks_count
        extra = tuple(
            DayOff(UNNUMBERED, week.first_day, week.first_day + timedelta(days=6), UNNUMBERED)
            for week in self.unnumbered
        )
        return replace(
            term,
            week_one=self.week_one,
            break_weeks_count=False if extra else counts,
            no_class=(*term.no_class, *extra),
        )


def monday_of_row(first: date, last: date) -> date:
    """The Monday of the week a row stands for: the week that holds the middle of its days. A lone Sunday opens the
    week after it, as in weeks that run from Sunday to Saturday."""
    middle = first + (last - first) // 2
    if first == last and first.isoweekday() == 7:
        middle += timedelta(days=1)
    return middle - timedelta(days=middle.isoweekday() - 1)


def read_week_numbers(rows: Iterable[tuple[int, date, date]], days_off: Sequence[DayOff]) -> WeekEvidence:
    """The numbering shown by rows of (week number, first day, last day), against the weeks that are wholly off."""
    mondays: dict[int, date] = {}
    for number, first, last in rows:
        mondays.setdefault(number, monday_of_row(first, last))
    pairs, contradictions = _rising(sorted(mondays.items()))
    if not pairs:
        return WeekEvidence(contradictions=contradictions)
    number, monday = pairs[0]
    week_one = monday - (number - 1) * _WEEK
    counted = [name for _, start in pairs if (name := _is_off(start, days_off))]
    uncounted: list[str] = []
    unnumbered: list[UnnumberedWeek] = []
    for (early, start), (late, end) in pairwise(pairs):
        names = _weeks_off(start, end, days_off)
        extra = _extra_weeks((early, start), (late, end))
        uncounted += names[:extra]
        if extra == 0:
            counted += names
        hidden = extra - len(names)
        unnumbered += [UnnumberedWeek(early, late, end - (n + 1) * _WEEK) for n in range(max(0, hidden))]
    return WeekEvidence(
        week_one,
        _counts(counted, uncounted),
        _why(number, monday, counted, uncounted),
        tuple(reversed(unnumbered)),
        contradictions,
    )


def _rising(pairs: Sequence[tuple[int, date]]) -> tuple[tuple[tuple[int, date], ...], tuple[str, ...]]:
    """The most pairs that can stand together, and a sentence for each that cannot."""
    chains: list[tuple[tuple[int, date], ...]] = []
    for pair in pairs:
        before = [chain for chain in chains if 0 <= _extra_weeks(chain[-1], pair) <= _MOST_EXTRA_WEEKS]
        chains.append((*max(before, key=len, default=()), pair))
    kept = max(chains, key=len, default=())
    contradictions = tuple(
        f"week {number} is dated {in_words(monday)}, which does not fit the numbers of the other weeks"
        for number, monday in pairs
        if (number, monday) not in kept
    )
    return kept, contradictions


def _extra_weeks(early: tuple[int, date], late: tuple[int, date]) -> int:
    """How many weeks between two numbered weeks take no number; below 0 when they contradict each other."""
    return (late[1] - early[1]) // _WEEK - (late[0] - early[0])


def _is_off(monday: date, days_off: Sequence[DayOff]) -> str:
    """What a week is called whose Monday to Friday is wholly off; empty for any other."""
    days = [monday + timedelta(days=n) for n in range(5)]
    covering = [[off for off in days_off if off.first_day <= day <= off.last_day] for day in days]
    return covering[0][0].name if all(covering) else ""


def _weeks_off(start: date, end: date, days_off: Sequence[DayOff]) -> list[str]:
    """What the weeks strictly between two Mondays are called that are wholly off."""
    mondays = (start + n * _WEEK for n in range(1, (end - start) // _WEEK))
    return [name for monday in mondays if (name := _is_off(monday, days_off))]


def _counts(counted: Sequence[str], uncounted: Sequence[str]) -> bool | None:
    return None if bool(counted) == bool(uncounted) else bool(counted)


def _why(number: int, monday: date, counted: Sequence[str], uncounted: Sequence[str]) -> str:
    words = [f"week {number} is the week of {in_words(monday)} in the outline's own schedule"]
    if counted and not uncounted:
        words.append(f"{listed(counted)} takes a week number there")
    if uncounted and not counted:
        words.append(f"{listed(uncounted)} takes no week number there")
    return "; ".join(words)
