"""Rules for the bounds of what comes again: from when, until when, how often, what is left out, at what time."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.resolve.expression import (
    CalendarMonth,
    CalendarWeek,
    DateExpression,
    Every,
    IsoWeek,
    NamedDay,
    Offset,
    Reference,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    Weekday,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.readings import Bounds, Reading, join_times
from syllabus_io.resolve.rules import Rule, pass_on

__all__ = ["RULES", "bounded", "merge"]

#: No rule of a term repeats more often.
_MOST = 120


def merge(first: Bounds, rest: Bounds) -> Bounds | None:
    """Two bounds as one; None when both say the same kind of thing."""
    if any(a is not None and b is not None for a, b in ((first.start, rest.start), (first.until, rest.until))):
        return None
    if (first.count is not None and rest.count is not None) or (first.length and rest.length):
        return None
    time = join_times(first.time, rest.time)
    if time is None:
        return None
    return Bounds(
        first.start or rest.start,
        first.until or rest.until,
        first.count if first.count is not None else rest.count,
        first.length or rest.length,
        first.except_in + rest.except_in,
        first.months + rest.months,
        first.week_start or rest.week_start,
        first.without + rest.without,
        time,
    )


def _is_stretch(expression: DateExpression) -> bool:
    stretches = (NamedDay, Week, WeekOf, CalendarWeek, CalendarMonth, WholeMonth, IsoWeek)
    return isinstance(expression, stretches) or expression == TermPoint(TermEdge.FINALS)


def _until(base: DateExpression) -> Bounds:
    """Until a break or a week is until the day before it; until a day includes that day."""
    return Bounds(until=Offset(base, -1, Unit.DAY) if _is_stretch(base) else base)


def _before(base: DateExpression) -> Bounds:
    return Bounds(until=Offset(base, -1, Unit.DAY))


def _after(base: DateExpression) -> Bounds:
    return Bounds(start=Offset(base, 1, Unit.DAY))


def _for_length(count: int, unit: Unit) -> Bounds | None:
    if unit not in (Unit.DAY, Unit.WEEK, Unit.MONTH, Unit.YEAR) or not 1 <= count <= _MOST:
        return None
    return Bounds(length=Offset(Reference(), count, unit))


def _times(count: int) -> Bounds | None:
    return Bounds(count=count) if 1 <= count <= _MOST else None


def _between(span: DateExpression) -> Bounds | None:
    return Bounds(start=span.first, until=span.last) if isinstance(span, Span) else None


def _in_stretch(stretch: DateExpression) -> Bounds | None:
    match stretch:
        case WholeMonth(month, None):
            return Bounds(months=(month,))
        case WholeMonth() | CalendarMonth() | CalendarWeek():
            return Bounds(start=stretch, until=stretch)
    return None


def bounded(rule: Every, bounds: Bounds | None) -> Reading | None:
    """The rule with its bounds; "for five weeks" counts from the start that is written."""
    if bounds is None:
        return Reading(rule)
    until = bounds.until
    if isinstance(bounds.length, Offset):
        if until is not None:
            return None
        until = Offset(replace(bounds.length, base=bounds.start or Reference()), -1, Unit.DAY)
    start = bounds.start
    if bounds.length is not None and start is None:
        start = Reference()
    if bounds.months and rule.months:
        return None
    weekdays = tuple(day for day in rule.weekdays if day not in bounds.without)
    if len(weekdays) != len(rule.weekdays) - len(bounds.without) or (bounds.without and not weekdays):
        return None
    rule = replace(
        rule,
        weekdays=weekdays,
        start=start,
        until=until,
        count=bounds.count,
        except_in=bounds.except_in,
        months=rule.months or bounds.months,
        week_start=Weekday(bounds.week_start) if bounds.week_start else rule.week_start,
    )
    return Reading(rule, bounds.time)


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_BOUNDS = (
    Rule("from <date>", "[,] {from} [on] [with] [in] [the] <limit>", lambda b: Bounds(start=b), "<bound>",
         ("every other Friday from Sept 5", "weekly, starting Week 2")),
    Rule("from <month>", "[,] {from} [in] <monthname>", lambda m: Bounds(start=m), "<bound>",
         ("every Friday starting in October",)),
    Rule("(first one <date>)",
         "[,] [(] [the] first one|class|meeting|session|time [is|being|on|:] [on] <limit> [)]",
         lambda b: Bounds(start=b), "<bound>", ("every other Wednesday (first one September 13)",)),
    Rule("after <date>", "[,] after <limit>", _after, "<bound>", ("every Friday after Sept 2",)),
    Rule("until <date>", "[,] until|till|til|untill|to [the] <limit>", _until, "<bound>",
         ("every Friday until the break",)),
    Rule("until <month>", "[,] until|till [next] <monthname>", _until, "<bound>", ("every Friday until November",)),
    Rule("through <date>", "[,] [and] through|thru|ending|- [on] [the] <limit>", lambda b: Bounds(until=b), "<bound>",
         ("every Friday through Dec 5",)),
    Rule("through <month>", "[,] through|thru <monthname>", lambda b: Bounds(until=b), "<bound>",
         ("every Friday through November",)),
    Rule("before <date>", "[,] before <limit>", _before, "<bound>", ("every Friday before Thanksgiving",)),
    Rule("until the end of <term>",
         "[,] until|till|through|thru|for [the] end|rest|remainder of [the] {term}|classes",
         lambda: Bounds(until=TermPoint(TermEdge.LAST_DAY)), "<bound>",
         ("every Friday for the rest of the semester",)),
    Rule("all <term>", "[,] throughout|during|all [the|this] [whole|entire] {term}", lambda: Bounds(), "<bound>",
         ("every Friday during the semester", "Fridays throughout the term")),
    Rule("of <term>", "[,] of|in [the|this] {term}", lambda: Bounds(), "<bound>", ("every week of the semester",)),
    Rule("from <dates> as bounds", "[,] [from|between] <dayspan>", _between, "<bound>",
         ("every Friday from Sept 5-26",)),
    Rule("between <date> and <date> as bounds", "[,] between <limit> and <limit>",
         lambda a, b: Bounds(start=a, until=b), "<bound>", ("every Friday between week 3 and week 8",)),
    Rule("in <stretch>", "[,] in|during [the] <anymonth>", _in_stretch, "<bound>", ("every Friday in October",)),
    Rule("<weeks> as bounds", "[,] [in|during|from] <weeks>", _between, "<bound>", ("every Friday in weeks 3-8",)),
    Rule("<count> times", "[,] [for] <count> times|x|occurrences", _times, "<bound>",
         ("every Friday, 10 times", "Fridays 3x")),
    Rule("for <count> <unit>", "[,] for [up] [to] [the] [next|first] <count> <unit>", _for_length, "<bound>",
         ("Tuesdays for the next six weeks",)),
    Rule("except <date>", "[,] [(] {except} [for|not|on|in|during] [the] <excepted> [)]",
         lambda e: Bounds(except_in=e), "<bound>",
         ("every Friday except spring break", "every Friday except exam weeks")),
    Rule("except <weekdays>", "[,] {except} [for|on] <dayset>", lambda days: Bounds(without=days), "<bound>",
         ("every weekday except Friday",)),
    Rule("no class <date>", "[,] [(] not|but|no on|in|during|not [in|on|during] [the] <excepted> [)]",
         lambda e: Bounds(except_in=e), "<bound>", ("every Friday but not during finals week",)),
    Rule("weeks start on <weekday>", "[,] weeks start|begin on <weekday>", lambda d: Bounds(week_start=int(d)),
         "<bound>", ("Tuesdays and Sundays every other week, 4 times from Aug 5, 1997, weeks start on Sunday",)),
    Rule("at <time> each time", "[,] <weektime>", lambda t: Bounds(time=t), "<bound>", ("every Friday by 5 pm",)),
    Rule("(<bounds>)", "( <bounds> )", pass_on, "<bound>", ("Wednesdays (Sept 10 - Dec 3)",)),
    Rule("<bound>", "<bound>", pass_on, "<bounds>", ("every Friday by 5 pm",)),
    Rule("<bound> <bound>", "<bound> [and] <bounds>", merge, "<bounds>",
         ("every other Friday from Sept 5 until the break",)),
    Rule("<date> left out", "<limit>", lambda b: (b,), "<excepted>", ("every Friday except Oct 10",)),
    Rule("<weeks> left out", "<weeks>", lambda b: (b,), "<excepted>", ("every Friday except weeks 8-9",)),
    Rule("<dates> left out", "<dayspan>", lambda b: (b,), "<excepted>", ("every Friday except Oct 10-17",)),
    Rule("<month> left out", "<monthname>", lambda b: (b,), "<excepted>", ("every Friday except October",)),
    Rule("exam weeks left out", "exam|test|midterm|examination weeks|week|days", lambda: (NamedDay("exam weeks"),),
         "<excepted>", ("every Friday except exam weeks",)),
    Rule("holidays left out", "holidays|breaks|vacations", lambda: (), "<excepted>",
         ("every Friday except holidays",)),
    Rule("<date> and <date> left out", "<limit> ,|and|&|or [and] <excepted>", lambda a, b: (a, *b), "<excepted>",
         ("every Friday except Oct 10 and Nov 28",)),
)
# fmt: on

RULES = _BOUNDS
