"""Holidays and days off by name: the term's own days first, then those of its region, then feasts kept everywhere."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from syllabus_io.resolve.day_names import (
    NameFit,
    compare_names,
    day_after_thanksgiving,
    feast_day,
    is_break,
    names_nothing,
)
from syllabus_io.resolve.expression import DateExpression, FullDate, NamedDay, Span
from syllabus_io.resolve.public_holidays import observances, public_holidays
from syllabus_io.resolve.reading import Found, Outcome, Reading, Scene, Yearly, pick_year, read_expression, weaker
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.term import DayOff
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import days_in_words, quoted

__all__ = ["holiday_of"]

_DAY = timedelta(days=1)
_OF_A_COUNTRY = {"american": "US", "us": "US", "canadian": "CA-ON", "british": "GB-ENG", "uk": "GB-ENG", "irish": "IE"}
_TRIED = ("US", "CA-ON", "GB-ENG", "IE", "AU-NSW", "NZ", "SG", "IN")
"""Whose holidays a lone phrase may mean when nothing says where, in this order; the reason names the one taken."""
_PLACES = {
    "US": "the United States",
    "CA-ON": "Ontario",
    "GB-ENG": "England",
    "IE": "Ireland",
    "AU-NSW": "New South Wales",
    "NZ": "New Zealand",
    "SG": "Singapore",
    "IN": "India",
}


@read_expression.register
def _(expression: NamedDay, scene: Scene) -> Outcome:
    calendar = scene.calendar
    if calendar is not None:
        found = calendar.all_named(expression.name)
        if expression.year is not None:
            found = tuple(off for off in found if expression.year in (off.first_day.year, off.last_day.year))
        if found:
            return _days_off(expression, found, calendar, scene.context.reference)
        if names_nothing(expression.name) or is_break(expression.name):
            return _not_in_term(expression.name)
    region = (calendar.term.holidays if calendar else None) or scene.context.region
    if region is not None:
        return _in_region(expression, region, scene, ())
    if feast_day(expression.name, 2000) is not None:
        name = expression.name
        return _picked(lambda year: _one_day(feast_day(name, year)), expression, scene, "the same day everywhere", ())
    if calendar is not None:
        return _not_in_term(expression.name)
    return _anywhere(expression, scene)


def _not_in_term(name: str) -> Unresolved:
    if names_nothing(name) or is_break(name):
        return Unresolved(f"{quoted(name)} is not among the days off of the term", "add it to the days off of the term")
    settle = "add it to the days off of the term, or give the term's holiday region"
    return Unresolved(f"{quoted(name)} is not among the days off of the term", settle)


def _days_off(expression: NamedDay, found: Sequence[DayOff], calendar: TermCalendar, reference: date | None) -> Found:
    if len(found) > 1 and reference is not None and expression.year is None:
        found = [off for off in found if off.last_day >= reference][:1] or found
    readings: list[Reading] = []
    for off in found:
        how = f"{off.name} is {days_in_words(off.first_day, off.last_day)} ({off.origin})"
        reasons = tuple(_doubts(expression.name, off))
        certainty = Certainty.ASSUMED if reasons else Certainty.DERIVED
        readings.append(Reading(off.first_day, off.last_day, _by_name(off, calendar), certainty, how, reasons))
    return Found(tuple(readings), f"which {quoted(expression.name)} is meant?" if len(readings) > 1 else "")


def _doubts(asked: str, off: DayOff) -> Iterator[str]:
    fit = compare_names(asked, off.name)
    if fit is NameFit.OTHER_SORT and off.last_day > off.first_day and not is_break(asked):
        days = days_in_words(off.first_day, off.last_day)
        yield f"{quoted(asked)} is taken as the whole of {off.name}, {days}"
    elif fit in (NameFit.PART, NameFit.MISSPELT):
        yield f"{quoted(asked)} is taken to be {off.name}"


def _by_name(off: DayOff, calendar: TermCalendar) -> DateExpression:
    """The day off by its own name, or its dates where another day off has that name too."""
    if calendar.all_named(off.name) == (off,):
        return NamedDay(off.name)
    first, last = FullDate(off.first_day), FullDate(off.last_day)
    return first if off.first_day == off.last_day else Span(first, last)


def _in_region(expression: NamedDay, region: str, scene: Scene, reasons: tuple[str, ...]) -> Outcome:
    name = expression.name
    return _picked(
        lambda year: _one_day(holiday_of(name, region, year)), expression, scene, f"a named day of {region}", reasons
    )


def _anywhere(expression: NamedDay, scene: Scene) -> Outcome:
    """A lone phrase: no term and no region. The first country that knows the day is taken, and the reason says so."""
    first_word, _, rest = re.sub(r"[.’']", "", expression.name).strip().partition(" ")
    named = _OF_A_COUNTRY.get(first_word.casefold())
    if named and rest:
        return _in_region(NamedDay(rest, expression.year), named, scene, ())
    for region in _TRIED:
        reason = f"no holiday region is given; {quoted(expression.name)} is read as in {_PLACES[region]}"
        outcome = _in_region(expression, region, scene, (reason,))
        if isinstance(outcome, Found):
            return outcome
    settle = "give the term or the holiday region"
    return Unresolved(f"{quoted(expression.name)} is no holiday that is known without a term", settle)


def holiday_of(name: str, region: str, year: int) -> date | None:
    """The day that a name has in a region in a year: a public holiday, else a day without one, else a feast that has
    the same date everywhere. The day itself, not the one on which it is observed. None when the name is not known."""
    start, end = date(year, 1, 1), date(year, 12, 31)
    for offered in (public_holidays(region, start, end), observances(region, start, end)):
        ranked = [(fit, off) for off in offered if (fit := compare_names(name, off.name)) > NameFit.PART]
        best = max((fit for fit, _ in ranked), default=NameFit.NONE)
        days = [off.first_day for fit, off in ranked if fit is best and "observed" not in off.name]
        if days:
            return days[0]
    if region.startswith("US") and day_after_thanksgiving(name):
        eve = holiday_of("Thanksgiving", region, year)
        return eve + _DAY if eve else None
    return feast_day(name, year)


def _one_day(day: date | None) -> tuple[date, date] | None:
    return (day, day) if day else None


def _picked(make: Yearly, expression: NamedDay, scene: Scene, how: str, reasons: tuple[str, ...]) -> Outcome:
    picked = pick_year(make, expression.year, scene, what=quoted(expression.name))
    if isinstance(picked, Unresolved):
        return picked
    certainty = Certainty.ASSUMED if reasons else weaker(picked.certainty, Certainty.DERIVED)
    readings = tuple(
        Reading(first, last, FullDate(first), certainty, how, (*picked.reasons, *reasons))
        for first, last in picked.choices
    )
    return Found(readings, f"in which year is {quoted(expression.name)} meant?" if len(readings) > 1 else "")
