"""Days counted in the term: weeks, classes, rotating days, named days, points of the term, other items."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from syllabus_io.resolve.day_names import normalize_words
from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    Direction,
    FullDate,
    IsoWeek,
    MeetingNumber,
    Reference,
    RotationDay,
    TermEdge,
    TermPoint,
    Week,
)
from syllabus_io.resolve.reading import (
    Found,
    Outcome,
    Reading,
    Scene,
    each,
    one,
    pick_year,
    read_expression,
    weaker,
)
from syllabus_io.resolve.records import Certainty, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar, monday_of
from syllabus_io.resolve.wording import ONLY_THE_WEEK, days_in_words, in_words, listed, quoted

__all__ = ["find_anchor", "iso_week", "no_classes", "no_term"]

_DAY = timedelta(days=1)


def no_term(what: str) -> Unresolved:
    """The answer when something counts in the term and no term is given."""
    return Unresolved(f"{what} counts in the term, and no term is given", "give the first and last day of term")


def no_classes(calendar: TermCalendar, kind: str = "") -> Unresolved:
    """The answer when classes are counted and the days of class are not known."""
    if calendar.meetings_dates():
        return Unresolved(
            f"the outline does not say on which days its {kind} meets", f"find out the days of the {kind}"
        )
    return Unresolved("the outline does not say on which days the course meets", "find out the days of class")


@read_expression.register
def _(expression: Week, scene: Scene) -> Outcome:
    calendar, number = scene.calendar, expression.number
    if calendar is None:
        return no_term(f"week {number}")
    week = calendar.week(number)
    if week is None:
        return Unresolved(f"the term has no week {number}", "ask which week is meant")
    window = f"{ONLY_THE_WEEK} ({in_words(week[0])} to {in_words(week[0] + 4 * _DAY)}); find out the day"
    reasons: tuple[str, ...] = ()
    certainty = Certainty.DERIVED
    if calendar.term.break_weeks_count is None and number > 0 and calendar.passes_unnumbered_week(number):
        certainty = Certainty.ASSUMED
        reasons = (f"week {number} is counted with no number for the week off before it; the outline does not say",)
    how = f"week {number} begins on {in_words(week[0])}"
    # Where the Monday of week 1 is known, an assumed first day of term does not matter.
    counted = calendar.term.week_one is None or number < 0
    return one(Reading(*week, expression, certainty, how, reasons, window, week[0] + 4 * _DAY, counted=counted))


@read_expression.register
def _(expression: IsoWeek, scene: Scene) -> Outcome:
    number = expression.number
    picked = pick_year(lambda year: iso_week(year, number), expression.year, scene, what=f"week {number}")
    if isinstance(picked, Unresolved):
        return picked
    window = f"the outline names only week {number} of the calendar year; find out the day"
    readings = tuple(
        Reading(
            first,
            last,
            replace(expression, year=first.isocalendar().year),
            weaker(picked.certainty, Certainty.DERIVED),
            f"week {number} by ISO 8601 begins on {in_words(first)}",
            picked.reasons,
            window,
            first + 4 * _DAY if scene.calendar else None,
        )
        for first, last in picked.choices
    )
    return Found(readings, f"in which year is week {number}?" if len(readings) > 1 else "")


def iso_week(year: int, number: int) -> tuple[date, date] | None:
    """Monday and Sunday of a week by ISO 8601, None when the year has no such week."""
    try:
        monday = date.fromisocalendar(year, number, 1)
    except ValueError:
        return None
    return monday, monday + 6 * _DAY


@read_expression.register
def _(expression: MeetingNumber, scene: Scene) -> Outcome:
    calendar, number, kind = scene.calendar, expression.number, expression.kind
    if calendar is None:
        return no_term(f"{kind or 'class'} {number}")
    dates = calendar.meetings_dates(kind)
    if not dates:
        return no_classes(calendar, kind)
    day = calendar.meeting(number, kind)
    if day is None:
        return Unresolved(
            f"the course has {len(dates)} {kind or 'class'} days in the term, none is number {number}",
            "ask for the date",
        )
    how = (
        f"number {number} of {len(dates)} class days"
        if number > 0
        else f"number {-number} from the end of {len(dates)} class days"
    )
    return one(Reading(day, day, expression, Certainty.DERIVED, how, _mixed_kinds(calendar, kind), counted=True))


def _mixed_kinds(calendar: TermCalendar, kind: str) -> tuple[str, ...]:
    named = [name for name in calendar.kinds if name]
    if len(calendar.kinds) < 2 or calendar.meetings_dates(kind) != calendar.meetings_dates():
        return ()
    return (f"the course has more than one sort of class ({listed(named)}); all of them are counted",)


@read_expression.register
def _(expression: ClassNear, scene: Scene) -> Outcome:
    calendar = scene.calendar
    if calendar is None:
        return no_term("the next or last class")
    kind = expression.kind
    dates = [day for day in calendar.meetings_dates(kind) if expression.weekday in (None, day.isoweekday())]
    if not dates:
        return no_classes(calendar, kind)

    def near(base: Reading) -> Reading | Unresolved:
        day = _near(dates, base.first, base.last, expression.direction, expression.count)
        if day is None:
            return Unresolved(
                f"no class lies {expression.direction.value.replace('_', ' ')} it in the term", "ask for the date"
            )
        side = expression.direction.value.replace("_", " ")
        how = f"the class {side} {days_in_words(base.first, base.end or base.last)}"
        return Reading(
            day,
            day,
            replace(expression, base=base.expression),
            weaker(base.certainty, Certainty.DERIVED),
            how,
            base.reasons,
            counted=True,
        )

    return each(read_expression(expression.base, scene), near)


def _near(dates: Sequence[date], first: date, last: date, direction: Direction, count: int) -> date | None:
    match direction:
        case Direction.BEFORE:
            side = [day for day in dates if day < first][::-1]
        case Direction.ON_OR_BEFORE:
            side = [day for day in dates if day <= last][::-1]
        case Direction.ON_OR_AFTER:
            side = [day for day in dates if day >= first]
        case Direction.AFTER:
            side = [day for day in dates if day > last]
        case Direction.NEAREST:
            side = sorted(dates, key=lambda day: (max(0, (first - day).days, (day - last).days), day))
    return side[count - 1] if 0 < count <= len(side) else None


@read_expression.register
def _(expression: RotationDay, scene: Scene) -> Outcome:
    calendar, label = scene.calendar, expression.label
    if calendar is None or not calendar.rotation_labels:
        return Unresolved(
            f"the term does not say which days are {label} days", f"give the day on which {label} days begin"
        )
    if label.strip().casefold() not in {name.casefold() for name in calendar.rotation_labels}:
        return Unresolved(
            f"the timetable has no {label} day, only {listed(calendar.rotation_labels)}", "ask which day is meant"
        )

    def count(stretch: Reading | None) -> Reading | Unresolved:
        first, last = (stretch.first, stretch.last) if stretch else (calendar.first_day, calendar.bounds[1])
        days = [day for day in calendar.rotation_dates(label) if first <= day <= last]
        index = expression.number - 1 if expression.number > 0 else len(days) + expression.number
        if not (expression.number and 0 <= index < len(days)):
            return Unresolved(f"{days_in_words(first, last)} holds {len(days)} {label} days", "ask for the date")
        whole = replace(expression, stretch=stretch.expression) if stretch else expression
        certainty = weaker(stretch.certainty, Certainty.DERIVED) if stretch else Certainty.DERIVED
        how = f"{label} day number {index + 1} of {days_in_words(first, last)}"
        return Reading(
            days[index], days[index], whole, certainty, how, stretch.reasons if stretch else (), counted=True
        )

    if expression.stretch is None:
        result = count(None)
        return result if isinstance(result, Unresolved) else one(result)
    return each(read_expression(expression.stretch, scene), count)


@read_expression.register
def _(expression: TermPoint, scene: Scene) -> Outcome:
    calendar, edge = scene.calendar, expression.edge
    if calendar is None:
        return no_term("that point of the term")
    first = last = calendar.first_day
    how, reasons = "the first day of term", ()
    match edge:
        case TermEdge.FIRST_DAY:
            pass
        case TermEdge.LAST_DAY:
            first = last = calendar.last_day
            how = "the last day of term"
        case TermEdge.FINALS:
            if calendar.term.finals is None:
                return Unresolved("the examination period of the term is not given", "give its first and last day")
            first, last = calendar.term.finals
            how = "the examination period"
        case TermEdge.FIRST_MEETING | TermEdge.LAST_MEETING:
            dates = calendar.meetings_dates()
            if not dates:
                return _edge_without_classes(edge, calendar)
            first = last = dates[0 if edge is TermEdge.FIRST_MEETING else -1]
            how = "the first class" if edge is TermEdge.FIRST_MEETING else "the last class"
    window = (
        "the outline names only the examination period; find out the day and time" if edge is TermEdge.FINALS else ""
    )
    return one(Reading(first, last, expression, Certainty.DERIVED, how, reasons, window, counted=True))


def _edge_without_classes(edge: TermEdge, calendar: TermCalendar) -> Found:
    is_first = edge is TermEdge.FIRST_MEETING
    day = calendar.first_day if is_first else calendar.last_day
    point = TermPoint(TermEdge.FIRST_DAY if is_first else TermEdge.LAST_DAY)
    word = "first" if is_first else "last"
    reason = f"the days of class are not known, so the {word} day of term stands for the {word} class"
    return one(Reading(day, day, point, Certainty.ASSUMED, f"the {word} day of term", (reason,), counted=True))


@read_expression.register
def _(_expression: Reference, scene: Scene) -> Outcome:
    day = scene.context.reference
    if day is None:
        return Unresolved("nothing says from which day this is counted", "ask for the date")
    return one(Reading(day, day, FullDate(day), Certainty.DERIVED, f"counted from {in_words(day)}"))


@read_expression.register
def _(expression: Anchor, scene: Scene) -> Outcome:
    words = find_anchor(expression.words, tuple(scene.context.anchors))
    if words is None:
        return Unresolved(
            f"the date of {quoted(expression.words)} is not known", f"find out the date of {quoted(expression.words)}"
        )
    first, last = scene.context.anchors[words]
    how = f"{quoted(expression.words)} is on {days_in_words(first, last)}"
    return one(Reading(first, last, Anchor(words), Certainty.DERIVED, how))


def find_anchor(words: str, known: Sequence[str]) -> str | None:
    """The known words that mean the same item, or None when none or several do.

    Compared without case, articles and possessives; else the one whose words hold all that were asked for.
    """
    asked = normalize_words(words)
    exact = [name for name in known if normalize_words(name) == asked]
    if exact:
        return exact[0]
    wider = [name for name in known if asked and set(asked.split()) <= set(normalize_words(name).split())]
    return wider[0] if len(wider) == 1 else None


def week_of(day: date) -> tuple[date, date]:
    """Monday and Sunday of the week that holds the day."""
    monday = monday_of(day)
    return monday, monday + 6 * _DAY
