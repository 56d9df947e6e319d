"""What evaluation works with: the context given, the readings found, and the choice of a year."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import MAXYEAR, MINYEAR, date
from functools import singledispatch
from types import MappingProxyType
from typing import Literal, TypeAlias

from syllabus_io.resolve.expression import DateExpression, Weekday
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import in_words, listed, weekday_in_words

__all__ = [
    "Found",
    "Outcome",
    "Picked",
    "Reading",
    "ReadingContext",
    "Scene",
    "Yearly",
    "each",
    "one",
    "pick_year",
    "read_expression",
    "weaker",
]

_YEARS = range(MINYEAR, MAXYEAR + 1)
_MOST_YEARS_AHEAD = 12
"""How far a lone date without a year is looked for: leap days lie up to eight years apart."""


@dataclass(frozen=True, slots=True)
class ReadingContext:
    """What is known beside the phrase, from the rest of the outline. Nothing here comes from a clock.

    ``order`` is the order of day and month in dates such as 3/4, None when nothing decides it. ``reference`` is
    the day from which "tomorrow" or "the 12th" is read. ``anchors`` are the days of other items by their words.
    ``years`` are the calendar years that the outline names, the most telling first. ``region`` is an ISO 3166
    country or subdivision for holidays when there is no term to say it.
    """

    order: Literal["mdy", "dmy"] | None = None
    reference: date | None = None
    anchors: Mapping[str, tuple[date, date]] = field(default_factory=lambda: MappingProxyType({}))
    years: tuple[int, ...] = ()
    region: str | None = None


@dataclass(frozen=True, slots=True)
class Scene:
    """Where a phrase is read: the calendar of the course, None for a lone phrase, and the context.

    ``not_before`` is the day before which an incomplete date is not looked for, in place of the reference day: the
    end of a stretch lies after its first day.
    """

    calendar: TermCalendar | None
    context: ReadingContext
    not_before: date | None = None

    @property
    def search_from(self) -> date | None:
        """The day from which incomplete dates are looked for."""
        return self.not_before or self.context.reference

    def seen_from(self, day: date) -> Scene:
        """The same scene with another reference day."""
        return replace(self, context=replace(self.context, reference=day), not_before=None)


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of an expression: its first and last day, and ``expression`` with all evidence applied.

    ``end`` is the last day to show where it differs from the last day to count from: a week runs to its Sunday,
    but is shown to its Friday. ``window`` is the reason that a stretch is not a day. ``counted`` tells that the
    days were counted in the term.
    """

    first: date
    last: date
    expression: DateExpression
    certainty: Certainty
    how: str = ""
    reasons: tuple[str, ...] = ()
    window: str = ""
    end: date | None = None
    counted: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """One reading, or several with the question that would settle which; the likeliest stands first."""

    readings: tuple[Reading, ...]
    question: str = ""


Outcome: TypeAlias = Found | Unresolved

_STRENGTH = {Certainty.ASSUMED: 0, Certainty.DERIVED: 1, Certainty.STATED: 2, Certainty.CONFIRMED: 3}


def weaker(*certainties: Certainty) -> Certainty:
    """The least certain of them."""
    return min(certainties, key=_STRENGTH.__getitem__)


@singledispatch
def read_expression(expression: object, scene: Scene) -> Outcome:
    """The readings of an expression in a scene. One function is registered for each kind of expression."""
    raise TypeError(f"no way to read {expression!r} in {scene!r}")


def one(reading: Reading) -> Found:
    """A single reading."""
    return Found((reading,))


def each(outcome: Outcome, change: Callable[[Reading], Reading | Unresolved]) -> Outcome:
    """The outcome with every reading changed. Readings that come to nothing fall away while others remain."""
    if isinstance(outcome, Unresolved):
        return outcome
    changed = [change(reading) for reading in outcome.readings]
    kept: dict[tuple[date, date], Reading] = {}
    for reading in changed:
        if isinstance(reading, Reading):
            kept.setdefault((reading.first, reading.last), reading)
    if not kept:
        return next(nothing for nothing in changed if isinstance(nothing, Unresolved))
    readings = tuple(kept.values())
    return Found(readings, outcome.question if len(readings) > 1 else "")


@dataclass(frozen=True, slots=True)
class Picked:
    """The stretches that an expression without a year can mean, the likeliest first, and why."""

    choices: tuple[tuple[date, date], ...]
    certainty: Certainty
    how: str = ""
    reasons: tuple[str, ...] = ()


Yearly: TypeAlias = Callable[[int], "tuple[date, date] | None"]


def pick_year(
    make: Yearly, year: int | None, scene: Scene, weekday: Weekday | None = None, what: str = "day"
) -> Picked | Unresolved:
    """The stretch that ``make`` gives for the year that the evidence fixes.

    ``make`` returns None for a year in which the stretch does not exist. A written year stands. Else the year is
    the one that puts it into the term; where none does, the nearest, ASSUMED. Without a term it is the first on or
    after the reference day, ASSUMED, or the year that the outline names. ``weekday`` chooses between years.
    """
    if year is not None:
        stretch = make(year) if year in _YEARS else None
        if stretch is None:
            return Unresolved(f"{year} has no such {what}", "ask which day is meant")
        return Picked((stretch,), Certainty.STATED)
    if scene.calendar is not None:
        return _year_of_term(make, scene.calendar, scene, weekday, what)
    return _year_of_reference(make, scene, weekday, what)


def _year_of_term(
    make: Yearly, calendar: TermCalendar, scene: Scene, weekday: Weekday | None, what: str
) -> Picked | Unresolved:
    first, last = calendar.bounds
    years = range(first.year, last.year + 1)
    if not any(make(year) for year in years):
        return Unresolved(f"there is no {what} in {listed(map(str, years))}", "ask which day is meant")
    around = range(max(MINYEAR, first.year - 1), min(MAXYEAR, last.year + 1) + 1)
    made = [stretch for year in around if (stretch := make(year))]
    inside = [stretch for stretch in made if calendar.holds(*stretch)]
    if len(inside) > 1 and weekday is not None:
        inside = [stretch for stretch in inside if stretch[0].isoweekday() == weekday] or inside
    reference = scene.search_from
    if len(inside) > 1 and reference is not None:
        inside = [stretch for stretch in inside if stretch[0] >= reference][:1] or inside[-1:]
    if inside:
        certainty = Certainty.ASSUMED if calendar.term.assumed and not scene.context.years else Certainty.STATED
        return Picked(tuple(inside), certainty)
    nearest = min(made, key=lambda stretch: calendar.distance(*stretch))
    return Picked((nearest,), Certainty.ASSUMED, "in no year does it lie in the term; the nearest year is taken")


def _year_of_reference(make: Yearly, scene: Scene, weekday: Weekday | None, what: str) -> Picked | Unresolved:
    for year in scene.context.years:
        stretch = make(year)
        if stretch and (weekday is None or stretch[0].isoweekday() == weekday):
            return Picked((stretch,), Certainty.STATED, f"the year {year} is the one that the outline names")
    reference = scene.search_from
    if reference is None:
        return Unresolved(
            f"the {what} has no year, and no term is given", "give the term or the day from which to read it"
        )
    later = [
        stretch
        for year in range(reference.year - 1, reference.year + _MOST_YEARS_AHEAD)
        if year in _YEARS and (stretch := make(year)) and stretch[1] >= reference
    ]
    fitting = [stretch for stretch in later if weekday is None or stretch[0].isoweekday() == weekday] or later
    if not fitting:
        return Unresolved(f"there is no such {what} in the years after {in_words(reference)}", "ask which day is meant")
    chosen = fitting[0]
    also = (
        f" that is a {weekday_in_words(weekday)}" if weekday is not None and chosen[0].isoweekday() == weekday else ""
    )
    reason = f"no year is written; the next {what}{also} from {in_words(reference)} on is taken"
    return Picked((chosen,), Certainty.ASSUMED, reasons=(reason,))
