"""The date of an entry: its own phrase, else what the row, column or heading around it gives."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from syllabus_io.outline.entries import Entry
from syllabus_io.outline.frames import DAY_NOT_WRITTEN, Frame, Passage, frame_expression
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import DAY_NOT_THE_CLASS, Kind
from syllabus_io.outline.work_words import (
    Head,
    find_heads,
    mentions_due,
)
from syllabus_io.resolve.expression import (
    CalendarWeek,
    DateExpression,
    DayInMonth,
    Direction,
    Every,
    MeetingNumber,
    NamedDay,
    Part,
    PartOf,
    Phrase,
    Reference,
    Span,
    TermEdge,
    TermPoint,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WholeMonth,
)
from syllabus_io.resolve.expression_parts import parts_of

_GOVERNS = re.compile(r"\b(?:due|deadline|by|no later than)\b[^.;]{0,25}$", re.IGNORECASE)
_OPENS = re.compile(r"\b(?:opens?|available|begins?|starts?)\s+(?:on\s+)?$", re.IGNORECASE)
_CLOSES = re.compile(r"\b(?:closes?|due|until|ends?)\s+(?:on\s+)?$", re.IGNORECASE)
__all__ = ["Reading", "date_of", "exam_window", "is_weak_day", "own_phrases", "read_date", "with_clock"]


@dataclass(frozen=True, slots=True)
class Reading:
    """What the reading of passages needs to know about the whole outline: ``names`` are names of work that only this
    course uses, ``texts`` the short names of its books."""

    only_weekday: Weekday | None = None
    names: frozenset[str] = frozenset()
    texts: frozenset[str] = frozenset()


def own_phrases(text: str, heads: Sequence[Head], passage: Passage) -> list[Phrase]:
    """The phrases that date the entry itself, weekdays alone among them where the frame tells the week."""
    frame = passage.frame
    strong = [head for head in heads if not head.is_weak]
    found: list[Phrase] = []
    for phrase in phrases_in(text, weak=frame.is_dated):
        if any(head.start < phrase.end and phrase.start < head.word_end for head in strong):
            continue
        expression = phrase.expression
        if expression is not None and frame.is_dated and is_weak_day(expression):
            weekday = _weekday_alone(phrase, text)
            framed = _weekday_of_frame(frame, weekday) if weekday is not None else None
            if framed is not None:
                found.append(replace(phrase, expression=framed))
            continue
        if expression is None and phrase.time is None and phrase.time_point is None:
            continue
        if expression is None or _is_own_date(expression, passage):
            found.append(phrase)
    return found


def is_weak_day(expression: DateExpression) -> bool:
    """Whether an expression is a bare weekday or day number, which only what stands around it can date."""
    match expression:
        case WeekdayIn(stretch=CalendarWeek(base=Reference(), count=0)) | DayInMonth():
            return True
        case _:
            return False


def _weekday_alone(phrase: Phrase, text: str) -> Weekday | None:
    """The weekday of a bare weekday that a bracket, a due word or the end of the entry marks as a date."""
    if not isinstance(phrase.expression, WeekdayIn):
        return None
    before, after = text[: phrase.start], text[phrase.end :]
    marked = re.search(r"(?:\(|[,:]|\bdue\b,?|\bby\b|\bon\b|[–—-])\s*(?:on|by|this)?\s*$", before, re.IGNORECASE)
    return (
        phrase.expression.weekday
        if marked and re.match(r"\s*(?:[).,;]|$|(?:at|by|in|mid-?night|noon)\b|@)", after)
        else None
    )


def _weekday_of_frame(frame: Frame, weekday: Weekday) -> DateExpression | None:
    if frame.week is None and frame.day is not None and frame.stretch is None:
        return WeekdayNear(frame.day, weekday, Direction.ON_OR_AFTER)
    framed = frame_expression(replace(frame, weekday=weekday), None)
    return framed[0] if framed else None


def _is_own_date(expression: DateExpression, passage: Passage) -> bool:
    """Whether an expression dates the entry it stands in: a week or class number in a dated row is part of a name."""
    if isinstance(expression, Every):
        return False
    frame = passage.frame
    if not frame.is_dated:
        return True
    if expression == TermPoint(TermEdge.FINALS):
        return True
    if isinstance(expression, Span) and isinstance(expression.first, MeetingNumber) and frame.day is not None:
        return False  # "Test 1 (lectures 1-8)" in a row with a day: what it covers
    if isinstance(expression, PartOf) and isinstance(expression.stretch, Week):
        return frame.day is None and frame.weekday is None
    if isinstance(expression, Week | MeetingNumber | PartOf | WholeMonth | NamedDay | TermPoint):
        return isinstance(expression, Week) and frame.day is None and frame.weekday is None and frame.week is None
    relative = any(isinstance(part, Reference) for part in parts_of(expression))
    return not (relative and passage.role is ColumnRole.DUE)


def read_date(text: str, entry: Entry, passage: Passage, reading: Reading) -> tuple[Phrase, tuple[str, ...]] | None:
    """The date of an entry and the doubts of reading it: its own, else that of the frame; None without any."""
    own = own_phrases(text, find_heads(text), passage)
    return date_of(text, own, entry, entry, passage, reading)


def date_of(
    text: str, own: list[Phrase], entry: Entry, clause: Entry, passage: Passage, reading: Reading
) -> tuple[Phrase, tuple[str, ...]] | None:
    frame = passage.frame
    dated = [phrase for phrase in own if phrase.expression is not None]
    own_clock = next((phrase for phrase in own if phrase.time is not None), None)
    clock = own_clock or frame.clock
    chosen = _due_phrase(text, dated)
    if chosen is None and clause.text != entry.text:
        own_later = own_phrases(entry.text, find_heads(entry.text), passage)
        later = [p for p in own_later if p.expression is not None and p.start >= clause.end - entry.start]
        if later and mentions_due(entry.text):
            chosen = later[0]
    window = exam_window(text, dated)
    if window is not None:
        return window, window.doubts
    if chosen is not None:
        chosen = _end_of_week(chosen)
        sits = passage.role is not ColumnRole.EXAM and any(head.kind is Kind.EXAM for head in find_heads(text))
        return with_clock(chosen, own_clock if sits else own_clock or frame.clock), chosen.doubts
    framed = frame_expression(frame, reading.only_weekday)
    if framed is None:
        return None
    expression, doubts = framed
    if re.search(r"\btake[- ]?home\b", text, re.IGNORECASE):
        doubts = tuple(
            doubt for doubt in doubts if doubt not in (DAY_NOT_WRITTEN, DAY_NOT_THE_CLASS)
        )  # the stretch is its window
    return _framed_phrase(frame, expression, clock), doubts


def exam_window(text: str, dated: Sequence[Phrase]) -> Phrase | None:
    """The stretch in which an exam may be taken ("opens Thurs 6/26, 8 am, closes Sun 6/29"), with the hour it opens."""
    heads = [head for head in find_heads(text) if head.kind is Kind.EXAM]
    opens = next((phrase for phrase in dated if _OPENS.search(text[: phrase.start])), None)
    closes = next((phrase for phrase in dated if _CLOSES.search(text[: phrase.start])), None)
    if not heads or opens is None or closes is None or opens.start >= closes.start:
        return None
    assert opens.expression is not None and closes.expression is not None
    words = text[opens.start : closes.end]
    return replace(opens, text=words, end=closes.end, expression=Span(opens.expression, closes.expression))


def _end_of_week(phrase: Phrase) -> Phrase:
    """Work due at the end of a week is due on its Friday, to be checked."""
    match phrase.expression:
        case PartOf(part=Part.END, stretch=Week() as week):
            doubt = f"“{phrase.text}” is read as the Friday of that week"
            return replace(phrase, expression=WeekdayIn(week, Weekday.FR), doubts=(*phrase.doubts, doubt))
        case _:
            return phrase


def _due_phrase(text: str, dated: list[Phrase]) -> Phrase | None:
    """The date that a due word governs, else the last one; a date of handing out is left aside."""
    if not dated:
        return None
    for phrase in dated:
        before = text[: phrase.start]
        if _GOVERNS.search(before) or _CLOSES.search(before):
            return phrase
    rest = [
        p
        for p in dated
        if not re.search(
            r"\b(?:assigned|posted|released|opens|available|out)\b[^.;]{0,20}$", text[: p.start], re.IGNORECASE
        )
    ]
    return rest[0] if rest else None


def with_clock(phrase: Phrase, clock: Phrase | None) -> Phrase:
    if phrase.time is not None or phrase.time_point is not None or clock is None:
        return phrase
    return replace(phrase, time=clock.time, end_time=clock.end_time, time_point=clock.time_point)


def _framed_phrase(frame: Frame, expression: DateExpression, clock: Phrase | None) -> Phrase:
    phrase = Phrase(frame.words, 0, len(frame.words), expression)
    return with_clock(phrase, clock)
