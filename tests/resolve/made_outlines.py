"""Outlines built from records, for tests of what becomes of their dates. School, courses and dates are invented."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, time

from syllabus_io.outline.records import CourseFacts, Item, Kind, Mention, NoClass, Outline
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import ClockTime, DateExpression, FullDate, MonthDay, Phrase, TimePoint, Weekday
from syllabus_io.resolve.outlines import resolve_outline
from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.resolve.term import Meeting, Term

AUTUMN = Term("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11), finals=(date(2026, 12, 14), date(2026, 12, 18)))
"""Monday 31 August to Friday 11 December 2026, examinations 14 to 18 December."""

TUESDAYS_THURSDAYS = Meeting((Weekday.TU, Weekday.TH), time(10), time(11, 15))


def mention(
    expression: DateExpression | None,
    words: str,
    *,
    row: int | None = None,
    page: int = 1,
    at: ClockTime | None = None,
    point: TimePoint | None = None,
    doubts: tuple[str, ...] = (),
) -> Mention:
    """A place that dates something, with the words as written."""
    phrase = Phrase(words, 0, len(words), expression, time=at, time_point=point)
    return Mention(phrase, Place("made.pdf", page, row=row), words, f"… {words} …", row, doubts)


def item(kind: Kind, title: str, *mentions: Mention, **more: object) -> Item:
    """An item with its mentions."""
    return Item(kind, title, mentions, **more)  # type: ignore[arg-type]  # the fields of Item by name


def rows(days: Iterable[date], *, with_weekdays: bool = False) -> tuple[Mention, ...]:
    """Schedule rows, each dated by month and day."""
    made = []
    for number, day in enumerate(days, start=1):
        weekday = Weekday(day.isoweekday()) if with_weekdays else None
        made.append(mention(MonthDay(day.month, day.day, weekday), f"{day:%b} {day.day}", row=number))
    return tuple(made)


def no_class(name: str, first: date) -> NoClass:
    """A day off with its full date."""
    return NoClass(name, mention(FullDate(first), first.isoformat()))


def outline(items: Iterable[Item] = (), file: str = "made.pdf", **more: object) -> Outline:
    """An outline of one course."""
    return Outline(file, "0" * 64, 2, items=tuple(items), **more)  # type: ignore[arg-type]  # the fields of Outline


OCTOBER_6 = MonthDay(10, 6)
MEETS = CourseFacts(code="BOT 210", meetings=(TUESDAYS_THURSDAYS,))
"""A course on Tuesdays and Thursdays; 6 October 2026 is a Tuesday."""


def course(made: Outline) -> ResolvedCourse:
    """The outline resolved in AUTUMN."""
    return resolve_outline(made, AUTUMN, "BOT 210")


def only_item(made: Outline) -> tuple[date | None, tuple[str, ...]]:
    """The day and the reasons of the outline's only item."""
    (found,) = course(made).items
    return found.date, found.reasons
