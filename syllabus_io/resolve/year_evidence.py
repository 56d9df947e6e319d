"""Whether the outline's dates belong to this term at all, or are left over from another year."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.resolve.expression import FullDate, Weekday
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.wording import listed, quoted, weekday_in_words
from syllabus_io.resolve.written_days import (
    DayOrder,
    WrittenDay,
    agrees,
    day_near,
    distance,
    last_day_of,
    month_and_day_of,
)

__all__ = ["YearEvidence", "leftover_by_class_days", "read_years_shown"]

_FEWEST_WEEKDAYS = 3
_YEARS_BACK = 7  # weekdays repeat after 5, 6 or 11 years; nearer years are likelier to be left over
_YEARS_AHEAD = 2
_MOSTLY = 0.75
_ALMOST_ALL = 0.9
_FEWEST_CLASSES = 8


@dataclass(frozen=True, slots=True)
class YearEvidence:
    """What shows the year of dates written without one. ``agreeing`` of ``weekdays`` written weekdays fit the term.

    ``leftover`` is a plain-words reason to check every date, when they consistently belong to another year;
    ``year`` is then that year, None when no near year fits.
    """

    why: str = ""
    agreeing: int = 0
    weekdays: int = 0
    leftover: str = ""
    year: int | None = None
    named: tuple[int, ...] = ()

    @property
    def year_is_known(self) -> bool:
        """Whether the outline itself fixes the year: it names one, or its weekdays agree with the term's."""
        return bool(self.named) or (self.agreeing >= _FEWEST_WEEKDAYS and self.agreeing >= _MOSTLY * self.weekdays)


def read_years_shown(
    days: Sequence[WrittenDay], order: DayOrder, term: Term, named: Sequence[int], heading: str
) -> YearEvidence:
    """The year evidence of an outline's dates; ``named`` are the years it names for its term, ``heading`` the term as
    the outline calls it ("Autumn 2026")."""
    with_weekday = [day for day in days if day.part.weekday is not None]
    readings = [(_in_term(day, order, term), day.part.weekday) for day in with_weekday]
    agreeing = sum(reading is not None and agrees(reading, weekday) for reading, weekday in readings)
    total = len(readings)
    why = f"in the term, {term.name}"
    if agreeing >= _FEWEST_WEEKDAYS and agreeing >= _MOSTLY * total:
        return YearEvidence(
            f"{why}, where {agreeing} of {total} weekdays written beside dates agree",
            agreeing,
            total,
            named=tuple(named),
        )
    written = [day.part.day for day in days if isinstance(day.part, FullDate)]
    leftover, year = _by_weekdays(with_weekday, order, term, agreeing, named)
    if not leftover:
        leftover, year = _by_written_years(written, term)
    if not leftover:
        leftover, year = _by_heading(heading, term, written)
    return YearEvidence(why, agreeing, total, leftover, year, tuple(named))


def _in_term(day: WrittenDay, order: DayOrder, term: Term) -> date | None:
    if isinstance(day.part, FullDate):
        return day.part.day
    pair = month_and_day_of(day.part, order)
    return None if pair is None else day_near(*pair, term)


def _by_weekdays(
    days: Sequence[WrittenDay], order: DayOrder, term: Term, agreeing: int, named: Sequence[int]
) -> tuple[str, int | None]:
    yearless = [day for day in days if not isinstance(day.part, FullDate)]
    if len(yearless) < _FEWEST_WEEKDAYS or agreeing > (1 - _MOSTLY) * len(days):
        return "", None
    start = term.first_day.year
    years = [*named, *sorted(range(start - _YEARS_BACK, start + _YEARS_AHEAD + 1), key=lambda year: abs(year - start))]
    for year in years:
        fitting = sum(_fits_year(day, order, term, year) for day in yearless)
        if fitting >= _MOSTLY * len(yearless):
            return (
                f"{fitting} of the {len(yearless)} weekdays beside its dates fit {year}, not {term.name}: "
                "the outline may be left over from another year",
                year,
            )
    return f"{len(days) - agreeing} of the {len(days)} weekdays beside its dates do not fit {term.name}", None


def _fits_year(day: WrittenDay, order: DayOrder, term: Term, year: int) -> bool:
    """Whether the weekday agrees when the term is moved to begin in ``year``."""
    pair = month_and_day_of(day.part, order)
    near = None if pair is None else day_near(*pair, term)
    if near is None:
        return False
    try:
        return agrees(near.replace(year=near.year + year - term.first_day.year), day.part.weekday)
    except ValueError:
        return False


def _by_written_years(written: Sequence[date], term: Term) -> tuple[str, int | None]:
    outside = [day for day in written if distance(day, term) > 0]
    moved = [day for day in outside if (near := day_near(day.month, day.day, term)) and distance(near, term) == 0]
    if len(moved) < _FEWEST_WEEKDAYS or len(moved) < _MOSTLY * len(written):
        return "", None
    year = max({day.year for day in moved}, key=lambda year: sum(day.year == year for day in moved))
    return f"its dates are written with the year {year}, which is not in {term.name}", year


def _by_heading(heading: str, term: Term, written: Sequence[date]) -> tuple[str, int | None]:
    """Years elsewhere in an outline may be those of books and laws; only the term it names for itself counts."""
    in_term = range(term.first_day.year, last_day_of(term).year + 1)
    years = [int(year) for year in re.findall(r"\b20\d\d\b", heading)]
    if not years or any(year in in_term for year in years) or any(distance(day, term) == 0 for day in written):
        return "", None
    return f"the outline is headed {quoted(heading)}, which is not {term.name}", years[0]


def leftover_by_class_days(days: Sequence[date], classes: frozenset[Weekday], term: Term) -> str:
    """A reason when the dates of a schedule with a row a class miss the days of class in the term, and hit them in
    another near year; empty otherwise. Rows a week say nothing: they may stand on any day."""
    weekdays = {day.isoweekday() for day in days}
    if len(days) < _FEWEST_CLASSES or len(classes) < 2 or len(weekdays) < 2:
        return ""
    if sum(day.isoweekday() in classes for day in days) > (1 - _MOSTLY) * len(days):
        return ""
    start = term.first_day.year
    for year in sorted(range(start - _YEARS_BACK, start + _YEARS_AHEAD + 1), key=lambda year: abs(year - start)):
        moved = [day.replace(year=day.year + year - start) for day in days if (day.month, day.day) != (2, 29)]
        fitting = sum(day.isoweekday() in classes for day in moved)
        if fitting >= _ALMOST_ALL * len(moved):
            said = listed([weekday_in_words(day) for day in sorted(classes)])
            return (
                f"{fitting} of the {len(moved)} dates of its schedule are days of class ({said}) in {year}, "
                f"not in {term.name}: the outline may be left over from another year"
            )
    return ""
