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
    "Dated",
    "check_alone",
    "day_off_reason",
    "nearest_weekday",
    "no_class_that_day_reason",
    "outside_term_reason",
    "repeated_titles",
    "weekday_reason",
]

IN_CLASS = frozenset({Kind.EXAM, Kind.QUIZ, Kind.PRESENTATION})
_OTHER_PLACE = re.compile(
    r"take[- ]?home|online|on-line|canvas|final|common|evening|make[- ]?up|proctor|lab\b|practical", re.IGNORECASE
)


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


def day_off_reason(item: Dated, days_off: Iterable[DayOff]) -> str:
    """A reason when something held in class falls on a day off. What is handed in may well be due on one."""
    if item.kind not in IN_CLASS or item.end is not None or item.time_written or item.weekday_written:
        return ""
    off = next((off for off in days_off if off.first_day <= item.day <= off.last_day), None)
    return f"{in_words(item.day)} is a day off: {off.name}" if off else ""


def no_class_that_day_reason(item: Dated, meetings: Sequence[Meeting]) -> str:
    """A reason when something held in class falls on a weekday without one, and nothing else supports the day."""
    days = {day for meeting in meetings for day in meeting.days if meeting.kind != "office hours"}
    if (
        not days
        or item.kind not in IN_CLASS
        or not item.exact
        or item.end is not None
        or item.weekday_written
        or item.time_written
        or _OTHER_PLACE.search(item.title)
        or item.day.isoweekday() in days
    ):
        return ""
    classes = listed([weekday_in_words(day) for day in sorted(days)])
    return f"{in_words(item.day)} is not a class day; the class meets on {classes}"


def check_alone(item: Dated, term: Term, days_off: Sequence[DayOff], meetings: Sequence[Meeting]) -> tuple[str, ...]:
    """Every reason that one item gives by itself."""
    outside = outside_term_reason(item.day, item.end, term)
    off = day_off_reason(item, days_off)
    no_class = "" if outside or off else no_class_that_day_reason(item, meetings)
    return tuple(reason for reason in (outside, off, no_class) if reason)


def repeated_titles(items: Iterable[Dated]) -> Mapping[str, str]:
    """A reason for each numbered item, or final exam, whose kind and title stand on two different days."""
    groups: dict[tuple[Kind, str], list[Dated]] = {}
    for item in items:
        title = " ".join(re.findall(r"\w+", item.title.casefold()))
        if (
            item.number is not None
            or re.search(r"\d", title)
            or title in {"final exam", "final", "midterm", "midterm exam"}
        ):
            groups.setdefault((item.kind, title), []).append(item)
    reasons: dict[str, str] = {}
    for group in groups.values():
        days = sorted({(item.day, item.end) for item in group}, key=lambda pair: pair[0])
        if len(days) > 1 and len({day for day, _ in days}) > 1:
            said = listed([days_in_words(day, end) for day, end in days])
            reasons |= {item.id: f"the outline has {quoted(item.title)} on {said}" for item in group}
    return reasons
