"""Checks of a date against everything else that is known. Each is a function from records to reasons.

A reason is a plain-words sentence that says why to look at a date again; no reason, no mark. The checks are sparing:
a plan in which everything is marked helps nobody.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from syllabus_io.outline.records import Kind
from syllabus_io.resolve.expression import FullDate, Weekday
from syllabus_io.resolve.term import DayOff, Meeting, Term
from syllabus_io.resolve.wording import days_in_words, in_words, listed, quoted, weekday_in_words
from syllabus_io.resolve.written_days import agrees, distance

__all__ = [
    "IN_CLASS",
    "Dated",
    "class_weekdays",
    "day_off_reasons",
    "is_final_after_classes",
    "is_held_in_class",
    "nearest_weekday",
    "no_class_reasons",
    "outside_term_reason",
    "reasons_together",
    "repeated_titles",
    "weekday_reason",
]

IN_CLASS = frozenset({Kind.EXAM, Kind.QUIZ, Kind.PRESENTATION})
_OTHER_PLACE = re.compile(
    r"take[- ]?home|online|on-line|final|common|evening|make[- ]?up|proctor|lab\b|practical", re.IGNORECASE
)

_FINAL = re.compile(r"\bfinals?\b", re.IGNORECASE)
DAYS_OF_FINALS = 14  # common practice, no source: examinations end within two weeks of the last class

_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6"}


@dataclass(frozen=True, slots=True)
class Dated:
    """An item with its day, as the checks see it. ``weekday_written`` and ``time_written`` tell whether the outline
    gives a weekday or an hour of its own for it; ``exact`` whether it names the day, not a week or a stretch."""

    id: str
    kind: Kind
    title: str
    day: date
    end: date | None = None
    number: int | None = None
    weekday_written: bool = False
    time_written: bool = False
    exact: bool = True


def weekday_reason(part: FullDate, words: str) -> str:
    """A reason when the weekday written beside a date is another one than the calendar's."""
    if agrees(part.day, part.weekday) or part.weekday is None:
        return ""
    return (
        f"the outline writes {quoted(words)}, but {in_words(part.day)[4:]} is a {weekday_in_words(part.day)}, "
        f"not a {weekday_in_words(part.weekday)}"
    )


def nearest_weekday(day: date, weekday: Weekday) -> date:
    """The day with that weekday nearest to a day, at most three days away."""
    ahead = (weekday - day.isoweekday()) % 7
    return day + timedelta(days=ahead if ahead <= 3 else ahead - 7)


def outside_term_reason(day: date, end: date | None, term: Term) -> str:
    """A reason when a day, or the end of a stretch, lies outside the term and its examination period."""
    outside = next((each for each in (day, end) if each is not None and distance(each, term) > 0), None)
    if outside is None:
        return ""
    if outside < term.first_day:
        return f"{in_words(outside)} lies before the first day of the term, {in_words(term.first_day)}"
    last, name = (term.finals[1], "examinations") if term.finals else (term.last_day, "the term")
    return f"{in_words(outside)} lies after the last day of {name}, {in_words(max(last, term.last_day))}"


def is_final_after_classes(item: Dated, term: Term) -> bool:
    """Whether an item lies where examinations are held of which the term says nothing: within two weeks after its
    last day, called final, or an exam with a weekday or an hour of its own."""
    end = item.end or item.day
    after = item.day > term.last_day and (end - term.last_day).days <= DAYS_OF_FINALS
    held = item.kind is Kind.EXAM and (item.weekday_written or item.time_written)
    return term.finals is None and after and (held or _FINAL.search(item.title) is not None)


def day_off_reasons(
    items: Iterable[Dated], days_off: Sequence[DayOff], meetings: Sequence[Meeting]
) -> Mapping[str, str]:
    """A reason for what is held in class and falls on a day off.

    What is handed in may well be due on one, and so may everything of a course without classes, or of a kind that is
    not held in class (see :func:`is_held_in_class`).
    """
    found = list(items)
    reasons: dict[str, str] = {}
    for item in found:
        off = next((off for off in days_off if off.first_day <= item.day <= off.last_day), None)
        if off is None or not _needs_a_class(item) or not is_held_in_class(item.kind, found, meetings):
            continue
        reasons[item.id] = f"{in_words(item.day)} is a day off: {off.name}"
    return reasons


def no_class_reasons(items: Iterable[Dated], meetings: Sequence[Meeting]) -> Mapping[str, str]:
    """A reason for what is held in class and falls on a weekday without one, when nothing else supports the day."""
    days = class_weekdays(meetings)
    found = list(items)
    reasons: dict[str, str] = {}
    for item in found:
        if item.day.isoweekday() in days or not item.exact or not _needs_a_class(item):
            continue
        if _OTHER_PLACE.search(item.title) or not is_held_in_class(item.kind, found, meetings):
            continue
        classes = listed([weekday_in_words(day) for day in sorted(days)])
        reasons[item.id] = f"{in_words(item.day)} is not a class day; the class meets on {classes}"
    return reasons


def is_held_in_class(kind: Kind, items: Iterable[Dated], meetings: Sequence[Meeting]) -> bool:
    """Whether work of a kind is held in the classes of a course: the meeting days are known and at most a third of
    its days are others. A lone item is taken to be."""
    days = class_weekdays(meetings)
    peers = [item for item in items if item.kind is kind and not _OTHER_PLACE.search(item.title)]
    elsewhere = sum(item.day.isoweekday() not in days for item in peers)
    return bool(days) and kind in IN_CLASS and (len(peers) <= 1 or 3 * elsewhere <= len(peers))


def class_weekdays(meetings: Iterable[Meeting]) -> frozenset[Weekday]:
    """The weekdays on which a course meets; office hours are no class."""
    return frozenset(day for meeting in meetings for day in meeting.days if "office" not in meeting.kind)


def _needs_a_class(item: Dated) -> bool:
    """Whether nothing but the class supports the day: no hour and no weekday of its own, no stretch of days."""
    return item.kind in IN_CLASS and item.end is None and not item.time_written and not item.weekday_written


def reasons_together(
    items: Sequence[Dated], term: Term, days_off: Sequence[DayOff], meetings: Sequence[Meeting]
) -> Mapping[str, tuple[str, ...]]:
    """Every reason that the items of a course give, by id; the gravest of one kind alone where several say the same."""
    outside = {
        item.id: reason
        for item in items
        if not is_final_after_classes(item, term) and (reason := outside_term_reason(item.day, item.end, term))
    }
    off = day_off_reasons(items, days_off, meetings)
    no_class = no_class_reasons(items, meetings)
    repeated = repeated_titles(items)
    found: dict[str, tuple[str, ...]] = {}
    for item in items:
        day = outside.get(item.id) or off.get(item.id) or no_class.get(item.id, "")
        found[item.id] = tuple(reason for reason in (day, repeated.get(item.id, "")) if reason)
    return found


def repeated_titles(items: Iterable[Dated]) -> Mapping[str, str]:
    """A reason for each numbered item, or final exam, whose kind and title stand on two different days.

    "Midterm 1" and "Midterm Exam I" are the same title.
    """
    groups: dict[tuple[Kind, str, int | None], list[Dated]] = {}
    for item in items:
        title = _bare(item.title)
        if item.number is not None or re.search(r"\d", title) or title == "final":
            groups.setdefault((item.kind, title, item.number), []).append(item)
    reasons: dict[str, str] = {}
    for group in groups.values():
        days = sorted({(item.day, item.end) for item in group}, key=lambda pair: pair[0])
        if len({day for day, _ in days}) > 1:
            said = listed([days_in_words(day, end) for day, end in days])
            reasons |= {item.id: f"the outline has {quoted(item.title)} on {said}" for item in group}
    return reasons


def _bare(title: str) -> str:
    """The telling words of a title; numbers in one spelling, weights in brackets and the word "exam" left out."""
    text = re.sub(r"\(\s*\d+(?:\.\d+)?\s*(?:%|points?|pts|marks?)[^)]*\)", " ", title.casefold())
    words = [_ROMAN.get(word, word) for word in re.findall(r"\w+", text)]
    return " ".join(word for word in words if word not in {"exam", "exams", "examination", "the"})
