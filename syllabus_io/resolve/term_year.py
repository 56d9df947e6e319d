"""The calendar year in which an outline's term begins, when no term file says it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.outline.records import Outline
from syllabus_io.resolve.cross_check import class_weekdays
from syllabus_io.resolve.day_order import read_order
from syllabus_io.resolve.expression import FullDate, Weekday
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.written_days import DayOrder, WrittenDay, agrees, day_near, month_and_day_of

__all__ = ["TermYear", "around_year", "choose_year", "unrolled"]

_FEWEST_DAYS = 3
_MOSTLY = 0.75
_YEARS_BACK, _YEARS_AHEAD = 4, 2
_LONG_STEP_BACK = 120  # days; a row so much earlier than the one before it lies in the next year


@dataclass(frozen=True, slots=True)
class TermYear:
    """A year and what shows it. ``guessed`` tells that nothing in the outline does."""

    year: int
    why: str
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class _Support:
    """How many of an outline's days agree with a year: with the weekdays beside them, or with the days of class."""

    agreeing: int
    total: int
    what: str

    @property
    def share(self) -> float:
        """The share that agrees, 0 when too few days say anything."""
        return self.agreeing / self.total if self.total >= _FEWEST_DAYS else 0.0

    @property
    def said(self) -> str:
        """The support in words; empty without any."""
        return f"{self.agreeing} of {self.total} {self.what}" if self.total else ""


def choose_year(outline: Outline, days: Sequence[WrittenDay], near: date | None) -> TermYear | None:
    """The year that the outline names and its weekdays or days of class support best; None when nothing shows one.

    Without a named year it is the one around ``near`` that they support, else that of ``near`` itself: a guess.
    """
    written = Counter(day.part.day.year for day in days if isinstance(day.part, FullDate))
    named = list(dict.fromkeys([*outline.years, *(year for year, _ in written.most_common())]))
    classes = class_weekdays(outline.course.meetings)
    if not named:
        return None if near is None else _year_around(near, days, classes)
    fits = {year: _support(days, year, classes) for year in named}
    best = max(named, key=lambda year: (fits[year].agreeing, -named.index(year)))
    source = f"named in {outline.file}"
    if fits[best].total >= _FEWEST_DAYS and fits[best].share < 1 - _MOSTLY and fits[best].what == _BESIDE_DATES:
        for other in (best + 1, best - 1, best + 2, best - 2):
            support = _support(days, other, classes)
            if support.share >= _MOSTLY:
                return TermYear(other, f"{support.said} agree with it, not with {best}, {source}")
    said = f"; {fits[best].said} agree" if fits[best].total and fits[best].what == _BESIDE_DATES else ""
    return TermYear(best, f"{source}{said}")


def _year_around(near: date, days: Sequence[WrittenDay], classes: frozenset[Weekday]) -> TermYear:
    years = sorted(range(near.year - _YEARS_BACK, near.year + _YEARS_AHEAD + 1), key=lambda year: abs(year - near.year))
    fits = {year: _support(days, year, classes) for year in years}
    best = max(years, key=lambda year: (fits[year].share, -years.index(year)))
    if fits[best].share >= _MOSTLY:
        why = f"no outline names it; of the years around {near.year} it is the one in which {fits[best].said} agree"
        return TermYear(best, why)
    return TermYear(near.year, "no outline names a year; the present one is taken", guessed=True)


_BESIDE_DATES = "weekdays beside dates"
_ON_CLASS_DAYS = "dates on class days"
_CHANCE = 0.02  # at which so many school days would all fall on class days in any year at all


def _support(days: Sequence[WrittenDay], year: int, classes: frozenset[Weekday]) -> _Support:
    order = read_order(days, around_year(year)).order or "mdy"
    placed = unrolled(days, order, year)
    with_weekday = [(day, found) for day, found in placed if day.part.weekday is not None]
    if len(with_weekday) >= _FEWEST_DAYS or not classes:
        agreeing = sum(agrees(found, day.part.weekday) for day, found in with_weekday)
        return _Support(agreeing, len(with_weekday), _BESIDE_DATES)
    found_days = {found for _, found in placed}
    if (len(classes) / 5) ** len(found_days) > _CHANCE:
        return _Support(0, 0, _ON_CLASS_DAYS)
    return _Support(sum(day.isoweekday() in classes for day in found_days), len(found_days), _ON_CLASS_DAYS)


def around_year(year: int) -> Term:
    return Term(name=str(year), first_day=date(year, 1, 1), last_day=date(year, 12, 31))


def unrolled(days: Sequence[WrittenDay], order: DayOrder, year: int) -> list[tuple[WrittenDay, date]]:
    """Every written day with its date. Rows go forward from ``year``, over New Year where their months begin anew;
    other days lie near the rows."""
    found: list[tuple[WrittenDay, date]] = []
    current, before = year, date.min
    in_rows = sorted((each for each in days if each.row is not None), key=lambda each: each.row or 0)
    for index, day in enumerate(in_rows):
        placed = _in_year(day, order, current)
        if placed is None:
            continue
        if found and (before - placed).days > _LONG_STEP_BACK and not _goes_on(in_rows[index + 1 :], order, before):
            current += 1
            placed = _in_year(day, order, current) or placed
        found.append((day, placed))
        before = max(before, placed) if (before - placed).days > _LONG_STEP_BACK else placed
    rows = [placed for _, placed in found]
    bounds = Term(str(year), min(rows), max(rows)) if rows else around_year(year)
    for day in days:
        if day.row is None:
            pair = None if isinstance(day.part, FullDate) else month_and_day_of(day.part, order)
            placed = day.part.day if isinstance(day.part, FullDate) else day_near(*pair, bounds) if pair else None
            if placed is not None:
                found.append((day, placed))
    return found


def _goes_on(later: Sequence[WrittenDay], order: DayOrder, before: date) -> bool:
    """Whether the rows after one that falls back go on from the row before it: then that one is a slip."""
    placed = _in_year(later[0], order, before.year) if later else None
    return placed is not None and 0 <= (placed - before).days <= _LONG_STEP_BACK


def _in_year(day: WrittenDay, order: DayOrder, year: int) -> date | None:
    if isinstance(day.part, FullDate):
        return day.part.day
    pair = month_and_day_of(day.part, order)
    try:
        return date(year, *pair) if pair else None
    except ValueError:
        return None
