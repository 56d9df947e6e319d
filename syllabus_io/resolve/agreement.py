"""Several mentions of one item brought together: where they agree nothing is asked, else both dates are shown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from syllabus_io.outline.records import Mention
from syllabus_io.resolve.expression import DayInMonth, FullDate, MeetingNumber, MonthDay, NumericDate
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.mention_days import Bench, MentionDay
from syllabus_io.resolve.records import Ambiguous, Candidate, Resolution, Resolved
from syllabus_io.resolve.wording import days_in_words, quoted
from syllabus_io.resolve.written_days import agrees, distance

__all__ = ["Agreed", "agree_on_day", "place_in_words"]

_DUE = re.compile(r"\b(?:due|deadline|submit(?:ted)?|hand(?:ed)? in|turn(?:ed)? in)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Agreed:
    """The date of an item, the mention it was taken from, and every mention that supports it."""

    resolution: Resolution
    mention: Mention
    supporting: tuple[Mention, ...]


@dataclass(frozen=True, slots=True)
class _Day:
    """The day or stretch that one mention gives; ``order`` is the place of the mention among the item's."""

    first: date
    last: date
    source: MentionDay
    order: int

    def meets(self, first: date, last: date | None) -> bool:
        """Whether this stretch lies within the other one, or the other in it."""
        end = last or first
        return (self.first >= first and self.last <= end) or (first >= self.first and end <= self.last)


def agree_on_day(found: Sequence[MentionDay], bench: Bench) -> Agreed:
    """One date for an item from all its mentions.

    A week or stretch that holds another mention's day does not contradict it. A doubt of one mention is gone when
    another mention gives one of its candidates. Days that contradict each other become a question that names both
    places; the most trusted comes first: free of conflicts of its own, written and not counted in classes, on a
    weekday the outline writes beside it, named more often, in a schedule row, or said to be due.
    """
    certain = [
        _Day(each.resolution.date, each.resolution.end_date or each.resolution.date, each, order)
        for order, each in enumerate(found)
        if isinstance(each.resolution, Resolved)
    ]
    open_ones = [(order, each) for order, each in enumerate(found) if isinstance(each.resolution, Ambiguous)]
    if not certain:
        chosen = open_ones[0][1] if open_ones else found[0]
        return Agreed(chosen.resolution, chosen.mention, (chosen.mention,))
    ranked = sorted(_groups(certain), key=lambda group: _trust(group, bench), reverse=True)
    best = ranked[0]
    supporting = [day.source.mention for day in best]
    against = [
        group[0] for group in ranked[1:] if _is_written(group) or not _is_written(best) or bench.calendar.days_off
    ]
    for order, each in open_ones:
        options = each.resolution.candidates if isinstance(each.resolution, Ambiguous) else ()
        if any(best[0].meets(option.date, option.end_date) for option in options):
            supporting.append(each.mention)
        else:
            against.append(_Day(options[0].date, options[0].end_date or options[0].date, each, order))
    source = best[0].source
    resolution = _question(best[0], against) if against else source.resolution
    return Agreed(resolution, source.mention, tuple(dict.fromkeys(supporting)))


def _groups(days: Sequence[_Day]) -> list[list[_Day]]:
    """Days that stand for the same day, the most exact and least doubted first in each group."""
    groups: list[list[_Day]] = []
    for day in sorted(days, key=lambda each: (each.last - each.first, len(_reasons(each)), each.order)):
        group = next((group for group in groups if day.meets(group[0].first, group[0].last)), None)
        if group is None:
            groups.append([day])
        else:
            group.append(day)
    return groups


def _reasons(day: _Day) -> tuple[str, ...]:
    return day.source.resolution.reasons if isinstance(day.source.resolution, Resolved) else ()


def _trust(group: Sequence[_Day], bench: Bench) -> tuple[bool, bool, bool, bool, int, bool, int]:
    clean = any(not day.source.conflict for day in group)
    within = distance(group[0].first, bench.term) == 0
    weekday = any(_states_weekday(day) for day in group)
    in_row = any(day.source.mention.row is not None for day in group)
    says_due = any(_DUE.search(day.source.mention.context) for day in group)
    class_day = group[0].first in bench.calendar.meetings_dates()
    return (
        clean,
        within,
        _is_written(group),
        weekday,
        len({day.order for day in group}) + in_row + says_due,
        class_day,
        -group[0].order,
    )


def _is_written(group: Sequence[_Day]) -> bool:
    """Whether some mention writes the day, and not only the number of a class. A class that is counted with no day off
    known is no witness against a written day."""
    return any(not isinstance(day.source.mention.phrase.expression, MeetingNumber) for day in group)


def _states_weekday(day: _Day) -> bool:
    """Whether the mention writes a weekday beside its date, and it agrees."""
    expression = day.source.mention.phrase.expression
    return expression is not None and any(
        isinstance(part, FullDate | MonthDay | NumericDate | DayInMonth)
        and part.weekday is not None
        and agrees(day.first, part.weekday)
        for part in parts_of(expression)
    )


def _question(best: _Day, against: Sequence[_Day]) -> Resolution:
    days = [best, *against]
    candidates = tuple(Candidate(day.first, day.last if day.last > day.first else None, _said(day)) for day in days)
    said = ", but ".join(f"{days_in_words(day.first, day.last)} {_said(day)}" for day in days)
    resolution = best.source.resolution
    expression = resolution.expression if isinstance(resolution, Resolved) else FullDate(best.first)
    return Ambiguous(candidates, f"the outline gives different dates: {said}", expression, _reasons(best))


def _said(day: _Day) -> str:
    return f"{place_in_words(day.source.mention)} ({quoted(day.source.mention.words)})"


def place_in_words(mention: Mention) -> str:
    """Where a mention stands, for a person who looks it up; without a page where the file does not know its pages."""
    where = "in the schedule" if mention.row is not None else "in the text"
    return f"{where} on page {mention.place.page}" if mention.place.page else where
