"""From an expression and a term to a day: the Python half of the date language. No clock is asked here.

:mod:`syllabus_io.resolve.formula` writes the same expression as a spreadsheet formula; both give the same day.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from syllabus_io.resolve import read_dates, read_named, read_relative, recurrence
from syllabus_io.resolve.expression import ClockTime, DateExpression, Every, Phrase
from syllabus_io.resolve.reading import Reading, ReadingContext, Scene, read_expression
from syllabus_io.resolve.records import Ambiguous, Candidate, Certainty, Resolution, Resolved, Unresolved
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.wording import days_in_words

__all__ = ["ReadingContext", "due_time", "evaluate", "expand", "resolve_phrase"]

_KINDS_READ = (read_dates, read_named, read_relative, recurrence)
"""Each registers how its kinds of expression are read."""


def evaluate(
    expression: DateExpression, calendar: TermCalendar | None, context: ReadingContext | None = None
) -> Resolution:
    """What an expression comes to in a term. Pure: the same input gives the same answer.

    A stretch has its last day in ``end_date``. A week of the term runs from its Monday, ``date``, to its Friday,
    ``end_date``, and carries the reason that the outline names only the week; so do a month and a part of one.
    A recurring rule gives the first of its days. A date outside the term always carries a reason. Without a
    calendar only what needs no term is resolved, counted from ``context.reference``.
    """
    scene = Scene(calendar, context or ReadingContext())
    try:
        outcome = read_expression(expression, scene)
    except OverflowError:
        return Unresolved("the date lies beyond the years that a calendar holds", "ask for the date")
    if isinstance(outcome, Unresolved):
        return outcome
    readings = outcome.readings
    if len(readings) == 1:
        reading = readings[0]
        reasons = _reasons(reading, calendar)
        certainty = Certainty.ASSUMED if _rests_on_assumed_term(reading, calendar) else reading.certainty
        return Resolved(reading.first, _end(reading), certainty, reading.expression, reading.how, reasons)
    candidates = tuple(
        Candidate(reading.first, _end(reading), "; ".join(filter(None, (reading.how, *_outside(reading, calendar)))))
        for reading in readings
    )
    shared = [reason for reason in readings[0].reasons if all(reason in reading.reasons for reading in readings)]
    return Ambiguous(candidates, outcome.question or "which of these days is meant?", expression, tuple(shared))


def expand(rule: Every, calendar: TermCalendar | None, context: ReadingContext | None = None) -> tuple[date, ...]:
    """The days of a recurring rule in the term, in order; empty when its bounds cannot be worked out.

    See :func:`syllabus_io.resolve.recurrence.expand_rule` for what bounds it; :func:`evaluate` gives the reasons to
    check the days.
    """
    try:
        found = recurrence.expand_rule(rule, Scene(calendar, context or ReadingContext()))
    except OverflowError:  # a rule without an end beside the last year of the calendar
        return ()
    return () if isinstance(found, Unresolved) else found.days


def resolve_phrase(
    text: str, calendar: TermCalendar | None = None, context: ReadingContext | None = None
) -> tuple[Phrase, Resolution] | None:
    """The phrase that ``text`` is as a whole, with what it comes to; None when it is no date phrase.

    Midnight is given as 23:59 of the named day, and the answer says so. A phrase that is only a time of day is
    unresolved. Doubts that lie in the phrase itself join the reasons.
    """
    from syllabus_io.resolve.parse import parse_phrase

    phrase = parse_phrase(text)
    if phrase is None:
        return None
    time, note = due_time(phrase)
    phrase = replace(phrase, time=time)
    if phrase.expression is None:
        return phrase, Unresolved("only a time of day is written", "ask for the day")
    resolution = evaluate(phrase.expression, calendar, context)
    match resolution:
        case Resolved():
            how = "; ".join(filter(None, (resolution.how, note)))
            return phrase, replace(resolution, how=how, reasons=(*phrase.doubts, *resolution.reasons))
        case Ambiguous():
            return phrase, replace(resolution, reasons=(*phrase.doubts, *resolution.reasons))
        case Unresolved():
            return phrase, resolution


def due_time(phrase: Phrase) -> tuple[ClockTime | None, str]:
    """The time at which something is due, and what to say about it: midnight is the end of the named day, 23:59."""
    if phrase.time is not None and phrase.time.from_midnight:
        return ClockTime(23, 59, from_midnight=True), "midnight is read as the end of the named day, 23:59"
    return phrase.time, ""


def _end(reading: Reading) -> date | None:
    end = reading.end or reading.last
    return end if end > reading.first else None


def _rests_on_assumed_term(reading: Reading, calendar: TermCalendar | None) -> bool:
    return reading.counted and calendar is not None and bool(calendar.term.assumed)


def _reasons(reading: Reading, calendar: TermCalendar | None) -> tuple[str, ...]:
    reasons = [*reading.reasons, *filter(None, [reading.window]), *_outside(reading, calendar)]
    if _rests_on_assumed_term(reading, calendar):
        assert calendar is not None  # said by the condition
        reasons.append(f"it is counted in a term whose facts are assumed: {'; '.join(calendar.term.assumed)}")
    return tuple(dict.fromkeys(reasons))


def _outside(reading: Reading, calendar: TermCalendar | None) -> tuple[str, ...]:
    if calendar is None or calendar.holds(reading.first, reading.end or reading.last):
        return ()
    day = days_in_words(reading.first, reading.end or reading.last)
    return (f"{day} lies outside the term ({days_in_words(*calendar.bounds)})",)
