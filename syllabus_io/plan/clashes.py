"""What gets in each other's way: exams on one day, too much at once, exams on days off, overlapping classes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, time, timedelta
from itertools import combinations, groupby

from syllabus_io.outline.records import Kind
from syllabus_io.plan.class_rows import OFFICE_HOURS
from syllabus_io.plan.day_table import week_phase
from syllabus_io.plan.records import Clash, PlanEntry, PlanSettings
from syllabus_io.resolve.expression import ClockTime, Weekday
from syllabus_io.resolve.records import ResolvedTerm
from syllabus_io.resolve.term import DayOff, Meeting
from syllabus_io.resolve.wording import in_words, listed, weekday_in_words

__all__ = ["BUSY_COUNT", "BUSY_HOURS", "find_clashes"]

BUSY_HOURS = 48
BUSY_COUNT = 3
"""So many things that count much within so many hours are called busy: common practice, no source. Exams, projects and
presentations count much, and so does what counts as heavy; weekly quizzes and homework would make every week busy."""

_BIG = {Kind.EXAM, Kind.PROJECT, Kind.PRESENTATION}


def find_clashes(resolved: ResolvedTerm, entries: Sequence[PlanEntry], settings: PlanSettings) -> tuple[Clash, ...]:
    """Every clash among the entries and classes, in plain words."""
    dated = [entry for entry in entries if entry.item.date is not None]
    return (
        *_exams_on_one_day(dated),
        *_exams_on_days_off(resolved, dated),
        *_busy_stretches(dated, settings.heavy_percent),
        *_overlapping_classes(resolved),
    )


def _name(entry: PlanEntry) -> str:
    return f"{entry.course} {entry.item.title}"


def _exams_on_one_day(entries: Sequence[PlanEntry]) -> Iterator[Clash]:
    exams = [entry for entry in entries if entry.item.kind is Kind.EXAM and entry.item.end_date is None]
    exams.sort(key=lambda entry: (str(entry.item.date), entry.course, entry.item.title))
    for day, group in groupby(exams, key=lambda entry: entry.item.date):
        together = list(group)
        if len(together) > 1 and day:
            names = listed(_name(entry) for entry in together)
            yield Clash(f"{len(together)} exams on {in_words(day)}: {names}", tuple(e.item.id for e in together))


def _exams_on_days_off(resolved: ResolvedTerm, entries: Sequence[PlanEntry]) -> Iterator[Clash]:
    own = {course.key: course.no_class for course in resolved.courses}
    for entry in entries:
        day = entry.item.date
        if entry.item.kind not in {Kind.EXAM, Kind.QUIZ} or day is None or entry.item.end_date:
            continue
        off: DayOff | None = next(
            (one for one in (*resolved.term.no_class, *own[entry.course]) if one.first_day <= day <= one.last_day), None
        )
        if off:
            yield Clash(f"{_name(entry)} falls on a day off, {in_words(day)} ({off.name})", (entry.item.id,))


def _busy_stretches(entries: Sequence[PlanEntry], heavy_percent: float) -> Iterator[Clash]:
    big = [(_moment(entry), entry) for entry in entries if _is_big(entry, heavy_percent)]
    big.sort(key=lambda pair: (pair[0], pair[1].course, pair[1].item.title))
    reached = 0
    for number, (moment, _) in enumerate(big):
        end = number
        while end < len(big) and big[end][0] - moment <= timedelta(hours=BUSY_HOURS):
            end += 1
        if end - number >= BUSY_COUNT and end > reached:
            together = [entry for _, entry in big[number:end]]
            names = listed(_name(entry) for entry in together)
            what = f"{len(together)} things that count much within {BUSY_HOURS} hours from {in_words(moment.date())}"
            yield Clash(f"{what}: {names}", tuple(entry.item.id for entry in together))
            reached = end


def _is_big(entry: PlanEntry, heavy_percent: float) -> bool:
    return entry.item.kind in _BIG or (entry.weight_percent or 0.0) >= heavy_percent


def _moment(entry: PlanEntry) -> datetime:
    clock = entry.item.time or ClockTime(23, 59)
    day = entry.item.date
    assert day is not None, "only dated entries have a moment"
    return datetime.combine(day, time(clock.hour, clock.minute))


def _overlapping_classes(resolved: ResolvedTerm) -> Iterator[Clash]:
    classes = [(course.key, meeting) for course in resolved.courses for meeting in course.outline.course.meetings]
    for (first_key, first), (second_key, second) in combinations(classes, 2):
        shared = [day for day in first.days if day in second.days]
        if not _in_one_week(first, second) or OFFICE_HOURS & {first.kind, second.kind}:
            continue
        if first_key != second_key and shared and _overlap(first, second):
            yield Clash(f"{first_key} and {second_key} meet at the same time on {_weekdays(shared)}", ())


def _in_one_week(first: Meeting, second: Meeting) -> bool:
    """Whether two classes can meet in the same week and on the same day of a rotation."""
    if first.cycle_day and second.cycle_day and first.cycle_day.casefold() != second.cycle_day.casefold():
        return False
    one, other = first.alternate_from, second.alternate_from
    return not (one and other) or week_phase(one) == week_phase(other)


def _overlap(first: Meeting, second: Meeting) -> bool:
    if not (first.start and first.end and second.start and second.end):
        return False
    return first.start < second.end and second.start < first.end


def _weekdays(days: Sequence[Weekday]) -> str:
    return listed(weekday_in_words(day) for day in days)
