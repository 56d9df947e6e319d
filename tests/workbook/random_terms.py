"""Random terms: courses, classes, items and days off as an outline might have them. Everything in them is invented."""

from __future__ import annotations

import random
from datetime import date, time, timedelta

from syllabus_io.outline.records import Category, CourseFacts, GradingScheme, Kind, Weight
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.expression import ClockTime, Weekday
from syllabus_io.resolve.records import ResolvedCourse, ResolvedItem, ResolvedTerm
from syllabus_io.resolve.term import DayOff, Meeting, Rotation, Term
from tests.workbook.plans import make_course, make_item

__all__ = ["random_plan"]

_KEYS = ("BIO 110", "MAT 131", "HIS 204", "GEO 5")
_PATTERNS = ((Weekday.MO, Weekday.WE, Weekday.FR), (Weekday.TU, Weekday.TH), (Weekday.WE,), (Weekday.SA,))
_TITLES = {
    Kind.ASSIGNMENT: "Problem set",
    Kind.QUIZ: "Quiz",
    Kind.EXAM: "Test",
    Kind.PROJECT: "Survey of a tide pool with maps and a written account",
    Kind.PRESENTATION: "Talk",
    Kind.READING: "Chapter",
}


def random_plan(seed: int) -> Plan:
    """A term of two to four courses with up to a dozen items each; the same for the same seed. The first two courses
    are always those that :func:`tests.workbook.planned.change_at_random` adds to."""
    dice = random.Random(f"term {seed}")
    first = date(2026, 8, 24) + timedelta(days=dice.randrange(14))
    last = first + timedelta(days=dice.randrange(60, 120))
    finals = (last + timedelta(days=2), last + timedelta(days=6)) if dice.random() < 0.7 else None
    offs = tuple(_day_off(dice, number, first, last) for number in range(dice.randrange(4)))
    rotation = None
    if dice.random() < 0.35:
        labels = dice.choice((("A", "B"), ("1", "2", "3", "4", "5", "6"), ("Day 1", "Day 2", "Day 3", "Day 4")))
        rotation = Rotation(labels, first)
    term = Term(
        f"Term {seed}",
        first,
        last,
        finals=finals,
        no_class=offs,
        break_weeks_count=dice.random() < 0.5,
        rotation=rotation,
    )
    keys = _KEYS[: dice.randrange(2, len(_KEYS) + 1)]
    return make_plan(ResolvedTerm(term, tuple(_course(dice, key, term) for key in keys)))


def _day_off(dice: random.Random, number: int, first: date, last: date) -> DayOff:
    begin = first + timedelta(days=dice.randrange((last - first).days))
    return DayOff(f"Off {number}", begin, begin + timedelta(days=dice.choice((0, 0, 1, 4, 6))))


def _course(dice: random.Random, key: str, term: Term) -> ResolvedCourse:
    meetings = tuple(_meeting(dice, term) for _ in range(dice.randrange(1, 3)))
    own = (_day_off(dice, 9, term.first_day, term.last_day),) if dice.random() < 0.3 else ()
    grading = GradingScheme(categories=(Category("Quizzes", weight=20, count=4), Category("Rest", weight=80)))
    credit = dice.choice((None, 1.0, 3.0, 4.5))
    words = dice.choice((None, "Tuesdays 1-2 pm", "By appointment"))
    facts = CourseFacts(code=key, meetings=meetings, credits=credit, office_hours=words, instructor="Dr. N. Reed")
    items = [_item(dice, key, number, term) for number in range(dice.randrange(3, 13))]
    return make_course(facts, items, grading=grading, no_class=own)


def _meeting(dice: random.Random, term: Term) -> Meeting:
    start = dice.randrange(8 * 4, 18 * 4) * 15
    length = dice.choice((50, 75, 110, 170))
    end = time(*divmod(start + length, 60)) if dice.random() < 0.9 else None
    other = term.first_day + timedelta(days=dice.randrange(20)) if dice.random() < 0.25 else None
    cycle = dice.choice(term.rotation.labels) if term.rotation and dice.random() < 0.5 else ""
    days = () if cycle and dice.random() < 0.6 else dice.choice(_PATTERNS)
    kind = dice.choice(("", "", "lab", "recitation"))
    return Meeting(days, time(*divmod(start, 60)), end, dice.choice((None, "Attic 3")), kind, other, cycle)


def _item(dice: random.Random, key: str, number: int, term: Term) -> ResolvedItem:
    kind = dice.choice(tuple(_TITLES))
    when = term.first_day + timedelta(days=dice.randrange(-2, (term.last_day - term.first_day).days + 8))
    end = when + timedelta(days=dice.randrange(1, 6)) if dice.random() < 0.1 else None
    clock = ClockTime(dice.choice((9, 10, 17, 23)), dice.choice((0, 30, 59))) if dice.random() < 0.5 else None
    weight = Weight(percent=dice.choice((2.0, 5.0, 15.0, 30.0))) if dice.random() < 0.6 else None
    return make_item(key, kind, f"{_TITLES[kind]} {number}", when, end=end, clock=clock, weight=weight)
