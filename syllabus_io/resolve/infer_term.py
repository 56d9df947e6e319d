"""The term, worked out from the outlines when nobody states it. Every fact found so is marked as assumed."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from syllabus_io.errors import BadSetting
from syllabus_io.outline.records import Outline
from syllabus_io.resolve.cross_check import class_weekdays
from syllabus_io.resolve.day_order import read_order
from syllabus_io.resolve.expression import FullDate, MonthDay, Span, Weekday
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.row_order import RowDay, find_slips, usual_step
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.term_year import around_year, choose_year, unrolled
from syllabus_io.resolve.week_numbers import monday_of_row
from syllabus_io.resolve.wording import in_words, listed
from syllabus_io.resolve.written_days import (
    DayOrder,
    WrittenDay,
    settled,
    written_days,
)

__all__ = ["infer_term"]

_REMEDY = "give a term file with --term (first and last day of the term)"
_FEWEST_WEEKDAYS = 3
_MOSTLY = 0.75
_LONGEST = timedelta(days=330)
_LONG_STEP_BACK = 120  # days; a row so much earlier than the one before it lies in the next year
# Usual bounds of a term, month and day: common practice, no source. Taken only where no outline dates a class.
_SEASONS = {
    "fall": ((8, 25), (12, 15)),
    "autumn": ((8, 25), (12, 15)),
    "winter": ((1, 6), (4, 10)),
    "spring": ((1, 15), (5, 10)),
    "summer": ((6, 1), (8, 15)),
}


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The days one outline covers. ``from_schedule`` tells that schedule rows show them, not only due dates."""

    file: str
    year: int
    year_why: str
    first: date
    last: date
    from_schedule: bool
    first_why: str
    guessed_year: bool


def infer_term(outlines: Sequence[Outline], near: date | None = None, name: str | None = None) -> Term:
    """The term that the outlines show: its year, first and last day, each in ``assumed`` with what shows it.

    Outlines of another term than most are left out of account. ``near`` is a day to choose the year by when no
    outline names one; ``name`` is the term's name ("Autumn 2026") when somebody gave one. Outlines that date nothing
    at all get the usual bounds of the season named, else the calendar year of ``near``. Raises BadSetting, asking
    for a term file, when nothing can be inferred.
    """
    stretches = [stretch for outline in outlines if (stretch := _stretch(outline, near))]
    if not stretches:
        return _by_season(outlines, name) or _by_calendar_year(outlines, near)
    together = _largest_group(stretches)
    scheduled = [stretch for stretch in together if stretch.from_schedule] or together
    first = min(scheduled, key=lambda stretch: stretch.first)
    last = max(together, key=lambda stretch: stretch.last)
    name = _name(outlines, together) or f"{in_words(first.first)[4:]} to {in_words(last.last)[4:]}"
    assumed = [
        f"the year {first.year}: {first.year_why}",
        f"the first day of term, {in_words(first.first)}: {first.first_why} in {first.file}",
        f"the last day of term, {in_words(last.last)}: the last date in {last.file}",
    ]
    others = [stretch.file for stretch in stretches if stretch not in together]
    if others:
        assumed.append(f"{listed(others)} may belong to another term")
    guessed = all(stretch.guessed_year for stretch in together)
    return Term(name, first.first, last.last, assumed=tuple(assumed), guessed_year=guessed)


def _stretch(outline: Outline, near: date | None) -> _Stretch | None:
    days = (*written_days(outline), *_week_rows(outline))
    if not days:
        return None
    chosen = choose_year(outline, days, near)
    if chosen is None:
        return None
    year, why = chosen.year, chosen.why
    order = read_order(days, around_year(year)).order or "mdy"
    rows = _rows(days, order, year)
    slips = {slip.row for slip in find_slips(rows)}
    scheduled = [row.first for row in rows if row.row not in slips]
    dated = _placed(days, order, year, scheduled)
    first, first_why = min(scheduled or dated), "the first dated row of the schedule" if scheduled else "the first date"
    week_one = _week_one(outline, order, min(scheduled or dated), year)
    if week_one is not None and (not scheduled or week_one + timedelta(days=6) < first):
        first, first_why = week_one, "the Monday of week 1, counted back from a numbered week"
    ends = [_row_end(row, rows, class_weekdays(outline.course.meetings)) for row in rows if row.row not in slips]
    last = max((day for day in [*ends, *dated] if day - first < _LONGEST), default=first)
    return _Stretch(outline.file, year, why, first, max(first, last), bool(scheduled), first_why, chosen.guessed)


def _rows(days: Sequence[WrittenDay], order: DayOrder, year: int) -> list[RowDay]:
    rows: dict[int, RowDay] = {}
    for day, placed in unrolled(days, order, year):
        if day.row is not None:
            row = rows.setdefault(day.row, RowDay(day.row, placed, placed, day.words))
            rows[day.row] = replace(row, last=max(row.last, placed))
    return [rows[row] for row in sorted(rows)]


def _row_end(row: RowDay, rows: Sequence[RowDay], class_days: frozenset[Weekday]) -> date:
    """The last day of a row; where a schedule has a row a week and dates it by its Monday, the last class day of that
    week, Friday when the class days are not known."""
    weekly = usual_step(rows) == timedelta(days=7)
    if not weekly or row.first != row.last or row.first.isoweekday() != 1:
        return row.last
    return row.first + timedelta(days=max(class_days, default=Weekday.FR) - 1)


def _week_rows(outline: Outline) -> list[WrittenDay]:
    """Schedule rows of five days, which are weeks from Monday to Friday: as good as a written weekday."""
    found: list[WrittenDay] = []
    for mention in outline.row_dates:
        match mention.phrase.expression:
            case Span(first=MonthDay(day=start, weekday=None) as first, last=MonthDay(day=end)) if end - start == 4:
                found.append(WrittenDay(replace(first, weekday=Weekday.MO), mention.words, mention.row))
            case _:
                continue
    return found


def _placed(days: Sequence[WrittenDay], order: DayOrder, year: int, scheduled: Sequence[date]) -> list[date]:
    """The dates beside the schedule that can belong to the same term: none before it, none long after it."""
    placed = [found for day, found in unrolled(days, order, year) if day.row is None]
    if not scheduled:
        return placed
    end = max(scheduled)
    return [day for day in placed if min(scheduled) <= day <= end + timedelta(days=21)]


def _week_one(outline: Outline, order: DayOrder, first: date, year: int) -> date | None:
    """The Monday of week 1, counted back from the first numbered week with a date."""
    bounds = Term(str(year), first, first + timedelta(days=120))
    for number, expression in outline.week_rows:
        tree = settled(expression, order, bounds)
        days = [part.day for part in parts_of(tree) if isinstance(part, FullDate)] if tree else []
        if days:
            return monday_of_row(min(days), max(days)) - timedelta(weeks=number - 1)
    return None


def _largest_group(stretches: Sequence[_Stretch]) -> list[_Stretch]:
    """The outlines whose days overlap with those of as many others as possible."""
    groups = [
        [other for other in stretches if other.first <= stretch.last and other.last >= stretch.first]
        for stretch in stretches
    ]
    return max(groups, key=len)


def _name(outlines: Sequence[Outline], together: Sequence[_Stretch]) -> str | None:
    files = {stretch.file for stretch in together}
    names = Counter(
        outline.course.term for outline in outlines if outline.course.term and (outline.file in files or not files)
    )
    return names.most_common(1)[0][0] if names else None


def _by_season(outlines: Sequence[Outline], given: str | None) -> Term | None:
    """The usual bounds of a named season, where no outline dates a class."""
    named = [(given, (), "named in the term file")] if given else []
    for term, years, source in [
        *named,
        *((each.course.term, each.years, f"named in {each.file}") for each in outlines),
    ]:
        words = (term or "").casefold()
        season = next((name for name in _SEASONS if name in words), None)
        year = next((int(found) for found in re.findall(r"\b20\d\d\b", words)), next(iter(years), None))
        if term and season and year:
            first, last = (date(year, *bound) for bound in _SEASONS[season])
            first += timedelta(days=(1 - first.isoweekday()) % 7)
            assumed = (
                f"the term, {term}: {source}",
                f"the first day of term, {in_words(first)}: usual for the season; no outline dates a class",
                f"the last day of term, {in_words(last)}: usual for the season; no outline dates a class",
            )
            return Term(name=term, first_day=first, last_day=last, assumed=assumed)
    return None


def _by_calendar_year(outlines: Sequence[Outline], near: date | None) -> Term:
    """A whole calendar year, where the outlines date nothing; a date that lacks its year asks for a term file."""
    if near is None or any(written_days(outline) for outline in outlines):
        subject = outlines[0].file if len(outlines) == 1 else "the outlines"
        raise BadSetting(subject, "no term can be worked out: no year is named beside the dates", _REMEDY)
    term = around_year(near.year)
    assumed = f"the term, {near.year}: the outlines give no date at all; type the first and last day"
    return Term(term.name, term.first_day, term.last_day, assumed=(assumed,), guessed_year=True)
