"""What stands around some words and dates them: the row, the column, the heading above."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from syllabus_io.extract.document import Line
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.records import DAY_NOT_THE_CLASS, Mention, Weight
from syllabus_io.provenance import Place
from syllabus_io.resolve.expression import (
    DateExpression,
    FullDate,
    MonthDay,
    NumericDate,
    Phrase,
    Span,
    Week,
    Weekday,
    WeekdayIn,
    WeekOf,
)

__all__ = [
    "DAY_NOT_WRITTEN",
    "WHILE_IT_LASTS",
    "Frame",
    "Passage",
    "frame_expression",
    "is_single_day",
    "mention_of",
]

WHILE_IT_LASTS = "the outline says how long it is worked on, and not that it is due then"
DAY_NOT_WRITTEN = "it stands in the row of a week, and the day is not written"


@dataclass(frozen=True, slots=True)
class Frame:
    """The date that words get from where they stand.

    ``day`` is one day, ``days`` all of them when the row names several; ``stretch`` a week or other stretch, and
    ``week`` its number. ``weekday`` comes from the column, ``clock`` (a phrase without expression) from the column
    or a rule. ``words`` are the date as written, ``row`` numbers the dated rows of the outline from 1.
    ``weight`` is what the row says its only piece of work counts; ``is_last_day`` that its day is the one on which
    its work closes; ``is_any_day`` that another column of its table has the day of the class, and this one none.
    """

    day: DateExpression | None = None
    days: tuple[DateExpression, ...] = ()
    stretch: DateExpression | None = None
    week: int | None = None
    weekday: Weekday | None = None
    clock: Phrase | None = None
    words: str = ""
    row: int | None = None
    doubts: tuple[str, ...] = ()
    weight: Weight | None = None
    is_last_day: bool = False
    is_any_day: bool = False

    @property
    def is_dated(self) -> bool:
        """Whether it says anything about a day."""
        return self.day is not None or self.stretch is not None


@dataclass(frozen=True, slots=True)
class Passage:
    """Some words of the outline with the frame they stand in: a cell, the lines under a date, or running text.

    ``role`` is that of its column or label, None for running text; ``heading`` the words of that column or label;
    ``section`` the heading above. ``group`` numbers the table or list it belongs to, 0 for running text. ``grown`` says
    where ``text`` spells out what the document abbreviates, and by how many letters it is longer from there on;
    ``written`` is then the text as it stands in the document.
    """

    text: str
    place: Place
    lines: tuple[Line, ...] = ()
    role: ColumnRole | None = None
    heading: str = ""
    section: str = ""
    frame: Frame = Frame()
    group: int = 0
    grown: tuple[tuple[int, int], ...] = ()
    written: str = ""

    def place_of(self, start: int, end: int) -> Place:
        """The place of some characters of ``text``, as narrow as the lines allow."""
        start, end = self._as_written(start), max(self._as_written(start) + 1, self._as_written(end))
        offset = 0
        for line in self.lines:
            if start < offset + len(line.text) + 1:
                inside = max(0, start - offset)
                return line.place_of(inside, min(len(line.text), max(inside + 1, end - offset)))
            offset += len(line.text) + 1
        return self.place.narrowed(start, end)

    def _as_written(self, position: int) -> int:
        """The position in the document's own text of a position in ``text``."""
        return position - sum(letters for where, letters in self.grown if where <= position)


def is_single_day(expression: DateExpression) -> bool:
    """Whether an expression is one day, not a stretch or a rule."""
    from syllabus_io.resolve import expression as e

    match expression:
        case e.Span() | e.Week() | e.WeekOf() | e.IsoWeek() | e.CalendarWeek() | e.WholeMonth() | e.MonthPart():
            return False
        case e.Every() | e.PartOf() | e.CalendarMonth():
            return False
        case e.TermPoint(edge=edge):
            return edge is not e.TermEdge.FINALS
        case _:
            return True


def frame_expression(frame: Frame, only_weekday: Weekday | None) -> tuple[DateExpression, tuple[str, ...]] | None:
    """The date a frame gives to words without one, with the doubts of that reading; None when it gives none.

    ``only_weekday`` is the day of a course that meets once a week: work that stands in a week is then on that day.
    """
    if frame.weekday is not None:
        stretch = frame.stretch or (WeekOf(frame.days[0]) if frame.days else None)
        if stretch is None and frame.day is not None:
            stretch = WeekOf(frame.day)
        if stretch is not None:
            week = _as_week(stretch)
            last = isinstance(week, Span)  # a rule's weekday in a longer stretch is the one that ends it
            return WeekdayIn(week, frame.weekday, -1 if last else 1), frame.doubts
    if frame.day is not None:
        return frame.day, frame.doubts
    if frame.stretch is None:
        return None
    if only_weekday is not None and not frame.is_any_day and isinstance(frame.stretch, Week | WeekOf):
        return WeekdayIn(frame.stretch, only_weekday), frame.doubts
    return frame.stretch, (*frame.doubts, DAY_NOT_THE_CLASS if frame.is_any_day else DAY_NOT_WRITTEN)


def _as_week(stretch: DateExpression) -> DateExpression:
    """A short range of days stands for its week, so that a weekday can be found in it."""
    if isinstance(stretch, Span) and _is_within_week(stretch):
        return WeekOf(stretch.first)
    return stretch


def _is_within_week(span: Span) -> bool:
    first, last = span.first, span.last
    if isinstance(first, FullDate) and isinstance(last, FullDate):
        return (last.day - first.day).days < 7
    if isinstance(first, NumericDate) and isinstance(last, NumericDate):
        return first.first != last.first or abs(last.second - first.second) < 7
    opening, closing = _month_day(first), _month_day(last)
    if opening is None or closing is None:
        return False
    if opening[0] == closing[0]:
        return closing[1] - opening[1] < 7
    return closing[1] < 7 and opening[1] > 24


def _month_day(day: DateExpression) -> tuple[int, int] | None:
    """Month and day; of a numeric date the month first, as in the list with a day past the twelfth it stands in."""
    match day:
        case MonthDay(month=month, day=number):
            return month, number
        case NumericDate(first=month, second=number):
            return month, number
        case _:
            return None


def mention_of(
    passage: Passage,
    phrase: Phrase,
    context: str,
    place: Place,
    doubts: tuple[str, ...] = (),
) -> Mention:
    """A mention in a passage; its words are those of the phrase."""
    return Mention(
        phrase=phrase,
        place=place,
        words=phrase.text or passage.frame.words,
        context=" ".join(context.split()),
        row=passage.frame.row,
        doubts=tuple(dict.fromkeys((*doubts, *phrase.doubts))),
    )


def with_frame(passage: Passage, change: Callable[[Frame], Frame]) -> Passage:
    """The same passage in a changed frame."""
    return replace(passage, frame=change(passage.frame))
