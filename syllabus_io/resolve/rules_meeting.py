"""Rules for classes by number or order, the first and last days of a term, rotating days, and days off by name."""

from __future__ import annotations

import re

from syllabus_io.resolve.expression import (
    ClassNear,
    DateExpression,
    Direction,
    MeetingNumber,
    NamedDay,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Weekday,
)
from syllabus_io.resolve.rules import Rule, Scope, pass_on
from syllabus_io.resolve.words import BREAK_NAME, HOLIDAYS

__all__ = ["RULES"]

#: No course meets more often in a term.
_MOST_CLASSES = 200
_ROTATION_LETTERS = "ABCDEFGH"


def _meeting(kind: str, number: int) -> MeetingNumber | None:
    return MeetingNumber(number, kind) if 1 <= number <= _MOST_CLASSES else None


def _nth_meeting(number: int, kind: str) -> DateExpression | None:
    if kind == "" and number in (1, -1):
        return TermPoint(TermEdge.FIRST_MEETING if number == 1 else TermEdge.LAST_MEETING)
    return MeetingNumber(number, kind) if number else None


def _day_of_class(number: int) -> DateExpression | None:
    return _nth_meeting(number, "")


def _class_after(number: int | None, kind: str, base: DateExpression) -> DateExpression | None:
    count = 1 if number is None else number
    return ClassNear(base, Direction.AFTER, count, kind=kind) if count > 0 else None


def _class_before(number: int | None, kind: str, base: DateExpression) -> DateExpression | None:
    count = 1 if number in (None, -1) else number
    return ClassNear(base, Direction.BEFORE, count, kind=kind) if count is not None and count > 0 else None


def _class_in(number: int, kind: str, stretch: DateExpression) -> DateExpression | None:
    if number > 0:
        return ClassNear(stretch, Direction.ON_OR_AFTER, number, kind=kind)
    return ClassNear(stretch, Direction.ON_OR_BEFORE, -number, kind=kind) if number < 0 else None


def _weekday_class(weekday: Weekday, base: DateExpression) -> DateExpression:
    return ClassNear(base, Direction.AFTER, weekday=weekday)


def _rotation(number: int | None, letter: str, stretch: DateExpression | None = None) -> DateExpression | None:
    if letter not in _ROTATION_LETTERS or number == 0:
        return None
    return RotationDay(letter, 1 if number is None else number, stretch)


def _cycle_day(number: int) -> DateExpression | None:
    return RotationDay(str(number)) if 1 <= number <= 10 else None


def _edge(edge: TermEdge) -> DateExpression:
    return TermPoint(edge)


def _first_or_last(number: int, first: TermEdge, last: TermEdge) -> DateExpression | None:
    return TermPoint(first) if number == 1 else TermPoint(last) if number == -1 else None


def _holiday_rules() -> tuple[Rule, ...]:
    """A rule a name, made from the table of names; its pattern is every spelling."""
    spellings: dict[str, list[str]] = {}
    for spelling, name in HOLIDAYS.items():
        spellings.setdefault(name, []).append(spelling)
    return tuple(_holiday_rule(name, tuple(words)) for name, words in spellings.items())


def _holiday_rule(name: str, spellings: tuple[str, ...]) -> Rule:
    pattern = " || ".join(dict.fromkeys(map(_as_pattern, spellings)))
    if name == BREAK_NAME:
        return Rule(
            name, pattern, lambda: NamedDay(name), "<bareoff>", tuple(f"the class after {s}" for s in spellings)
        )
    return Rule(name, pattern, lambda: NamedDay(name), "<named>", spellings)


def _as_pattern(spelling: str) -> str:
    """A spelling as the tokeniser parts it: no stop after an abbreviation, signs between blanks."""
    words = re.sub(r"(?<=[a-z])\.", "", spelling)
    return re.sub(r"(-|,|'(?!s\b))", r" \1 ", words)


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_NUMBERED = (
    Rule("class <number>", "<numberedclass> [no|number [.]] [#] <meetingnumber>", _meeting, "<meeting>",
         ("Class 12", "Lecture 7", "Session 3", "Meeting #5")),
    Rule("classes <number>-<number>", "<manyclasses> <num> {to} <num>",
         lambda _, a, b: Span(MeetingNumber(a), MeetingNumber(b)) if a < b <= _MOST_CLASSES else None, "<classspan>",
         ("Classes 3-5",)),
    Rule("classes <number> and <number>", "<manyclasses> <num> and|& <num>",
         lambda _, a, b: Span(MeetingNumber(a), MeetingNumber(b)) if b == a + 1 else None, "<classspan>",
         ("Sessions 4 and 5",)),
    Rule("classes", "class|classes|lecture|lectures|session|sessions|meeting|meetings|day|days", lambda: True,
         "<manyclasses>", ("Classes 3-5",)),
    Rule("<meeting number> in digits", "<num>", pass_on, "<meetingnumber>", ("Class 12",)),
    Rule("<meeting number> in words", "<numword>", pass_on, "<meetingnumber>", ("Session three",)),
    Rule("class as a kind", "class|meeting|mtg|session", lambda: "", "<numberedclass>", ("Class 12",)),
    Rule("class meeting as a kind", "class meeting|session|day|period", lambda: "", "<numberedclass>",
         ("Class meeting 5",)),
    Rule("lecture as a kind", "lecture|lec|lect", lambda: "lecture", "<numberedclass>", ("Lecture 7", "Lec. 7")),
    Rule("day <number>", "day [#] <num>", lambda n: _meeting("", n), "<meeting>", ("Day 14",)),
    Rule("lab <number>", "<classkind> [#] <num>", lambda k, n: _meeting(k, n) if k not in ("", "lecture") else None,
         "<labmeeting>", ("Lab 3",)),
)

_ORDERED = (
    Rule("the <ordinal> class",
         "[the] [our] <ordinal> [course] <classkind> [meeting|session|period] [of [the] {term}|classes]",
         _nth_meeting, "<meeting>", ("the last class", "the first class meeting", "the second lab", "12th class")),
    Rule("the <ordinal> day of class", "[the] [our] <ordinal> day of [our|this] class", _day_of_class, "<meeting>",
         ("first day of class", "last day of class")),
    Rule("the <ordinal> class day", "[the] <ordinal> class day", _day_of_class, "<meeting>",
         ("the third class day",)),
    Rule("the <ordinal> meeting of class", "[the] <ordinal> meeting of [the|our] class", _day_of_class, "<meeting>",
         ("the last meeting of the class",)),
    Rule("the first day of classes",
         "[the] [very] <ordinal> day of [the|all|regular] [fall|spring|autumn|summer|winter] classes|"
         "instruction|lectures|teaching|school", lambda n: _first_or_last(n, TermEdge.FIRST_DAY, TermEdge.LAST_DAY),
         "<meeting>", ("first day of classes", "last day of instruction")),
    Rule("the first day of <term>",
         "[the] <ordinal> [class] day of [the|this] [fall|spring|autumn|summer|winter] {term}",
         lambda n: _first_or_last(n, TermEdge.FIRST_DAY, TermEdge.LAST_DAY), "<meeting>",
         ("last day of the semester", "the first day of term")),
    Rule("classes begin", "classes|instruction|school begin|begins|start|starts", lambda: _edge(TermEdge.FIRST_DAY),
         "<meeting>", ("classes begin",), Scope.WHOLE),
    Rule("classes end", "classes|instruction|school end|ends", lambda: _edge(TermEdge.LAST_DAY), "<meeting>",
         ("classes end",), Scope.WHOLE),
    Rule("the start of <term>",
         "[the] start|beginning of [the|this] [fall|spring|autumn|summer|winter] {term}|classes",
         lambda: _edge(TermEdge.FIRST_DAY), "<meeting>", ("the start of the semester", "the beginning of classes")),
    Rule("the end of <term>", "[the] end of [the|this] [fall|spring|autumn|summer|winter] {term}|classes",
         lambda: _edge(TermEdge.LAST_DAY), "<meeting>", ("the end of the semester", "end of classes")),
    Rule("the next class", "[the|our|your] next|following <classkind> [meeting|session|period|day]",
         lambda k: ClassNear(Reference(), Direction.AFTER, kind=k), "<meeting>",
         ("next class", "the following class meeting")),
    Rule("the previous class", "the|our previous|preceding <classkind> [meeting|session|period]",
         lambda k: ClassNear(Reference(), Direction.BEFORE, kind=k), "<meeting>", ("the previous class",)),
    Rule("the class after <date>", "[the] [<ordinal>] [next] <classkind> [meeting|session|period|day] {after} <base>",
         _class_after, "<meeting>",
         ("the class after the break", "the first class after spring break", "second class after Oct 10")),
    Rule("the class before <date>", "[the] [<ordinal>] <classkind> [meeting|session|period|day] {before} [to] <base>",
         _class_before, "<meeting>", ("the class before the midterm", "the last class before spring break")),
    Rule("the <ordinal> class of <stretch>",
         "[the|our] <ordinal> <classkind> [meeting|session|period] {of} [the] <daystretch>", _class_in, "<meeting>",
         ("the second class of week 5", "the last class in October", "first class of the week")),
    Rule("<weekday>'s class after <date>", "[the] <wday> class {after} <base>", _weekday_class, "<meeting>",
         ("the Tuesday class after the break",)),
    Rule("finals week", "[the] finals|final|exam|examination|exams [exam|examination|exams] week|period",
         lambda: _edge(TermEdge.FINALS), "<finals>", ("finals week", "final exam week", "the exam period")),
    Rule("week of finals", "[the] week of final|finals [exams]", lambda: _edge(TermEdge.FINALS), "<finals>",
         ("the week of finals",)),
    Rule("finals", "finals|exams [begin|start]", lambda: _edge(TermEdge.FINALS), "<finalsbase>",
         ("the Friday before finals",)),
    Rule("final exams", "[the] final exams|examinations", lambda: _edge(TermEdge.FINALS), "<finalsbase>",
         ("the week before final exams",)),
)

_ROTATING = (
    Rule("<letter> day", "[the|a|an] [next] <letter> [-] day", lambda a: _rotation(None, a), "<meeting>",
         ("A day", "the next B-day"), Scope.WEAK),
    Rule("day <letter>", "day <letter>", lambda a: _rotation(None, a), "<meeting>", ("Day B",), Scope.WEAK),
    Rule("the <ordinal> <letter> day", "[the] <ordinal> <letter> [-] day", _rotation, "<meeting>",
         ("the third A day",)),
    Rule("the <ordinal> <letter> day of <stretch>", "[the] <ordinal> <letter> [-] day {of} [the] <daystretch>",
         _rotation, "<meeting>", ("the first A day of October", "second B day of week 5")),
    Rule("day <number> of the cycle", "[the] day <num> of|in the|a|our [<hh>] [-] [day] cycle|rotation",
         lambda n, _: _cycle_day(n), "<meeting>", ("Day 4 of the cycle", "day 2 of the 6-day cycle")),
    Rule("cycle day <number>", "cycle|rotation day <num>", _cycle_day, "<meeting>", ("cycle day 4",)),
    Rule("the next day <number> of the cycle", "the next day <num>", _cycle_day, "<meeting>", ("the next Day 3",)),
)


_NAMED = (
    Rule("<holiday> <year>", "<named> [,] [of|in] <year>", lambda d, y: NamedDay(d.name, y), "<namedyear>",
         ("Thanksgiving 2025",)),
    Rule("<holiday> of this year", "<named> of|in this year", pass_on, "<namedyear>", ("Black Friday of this year",),
         Scope.WHOLE),
    Rule("next <holiday>", "next|this|following <named>", pass_on, "<namedyear>", ("next Easter",), Scope.WHOLE),
    Rule("<holiday> in words of year", "<named> <years>", lambda d, y: NamedDay(d.name, y), "<namedyear>",
         ("Easter Sunday two thousand ten",), Scope.WHOLE),
    Rule("the break", "the|our <bareoff>", pass_on, "<named>", ("the class after the break",)),
    Rule("<break> without the", "<bareoff>", pass_on, "<offbase>", ("the week after break",)),
)
# fmt: on

RULES = (*_NUMBERED, *_ORDERED, *_ROTATING, *_holiday_rules(), *_NAMED)
