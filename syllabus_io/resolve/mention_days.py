"""One mention of an item: its date under all evidence, or the question it raises."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from syllabus_io.outline.records import Mention
from syllabus_io.resolve.cross_check import class_weekdays, nearest_weekday, weekday_reason
from syllabus_io.resolve.evaluate import ReadingContext, evaluate
from syllabus_io.resolve.evidence import Evidence, Reading, readings_of, with_month
from syllabus_io.resolve.expression import DateExpression, FullDate, MeetingNumber, NumericDate, Span, Week, WeekdayIn
from syllabus_io.resolve.expression_parts import parts_of, with_parts
from syllabus_io.resolve.records import Ambiguous, Candidate, Certainty, Resolution, Resolved, Unresolved
from syllabus_io.resolve.term import Term
from syllabus_io.resolve.term_calendar import TermCalendar
from syllabus_io.resolve.week_numbers import WeekEvidence
from syllabus_io.resolve.wording import in_words, listed, quoted
from syllabus_io.resolve.written_days import agrees, day_near, distance, settled

__all__ = ["Bench", "MentionDay", "guessed_year_reasons", "pinned", "resolve_mention", "with_reasons"]

Anchors = Mapping[str, tuple[date, date]]
_FAR_OUTSIDE = 60  # days; nearer dates may well be meant as written


@dataclass(frozen=True, slots=True)
class Bench:
    """What the dates of one outline are read with. ``calendar`` is the course's own, its weeks numbered as the outline
    does; ``school`` the term as given, which the workbook shows."""

    calendar: TermCalendar
    school: TermCalendar
    evidence: Evidence
    weeks: WeekEvidence

    @property
    def term(self) -> Term:
        """The term as given."""
        return self.school.term


@dataclass(frozen=True, slots=True)
class MentionDay:
    """A mention and what became of it. ``conflict`` tells that its own words disagree (weekday, row, year)."""

    mention: Mention
    resolution: Resolution
    conflict: bool = False


@dataclass(frozen=True, slots=True)
class _Doubt:
    """Readings in place of one, the likeliest first, and the sentence that says why."""

    readings: tuple[Reading, ...]
    reason: str


def resolve_mention(mention: Mention, bench: Bench, anchors: Anchors) -> MentionDay:
    """The date of one mention. Every doubt that lies in its own words is a reason or a question."""
    expression = mention.phrase.expression
    if expression is None:
        return MentionDay(mention, Unresolved(f"{quoted(mention.words)} gives a time but no day", "the day"))
    row_day = bench.evidence.row_day(mention.row)
    expression = with_month(expression, row_day or bench.term.first_day)
    readings = tuple(
        replace(reading, expression=with_parts(reading.expression, _end_of_row))
        for reading in readings_of(expression, bench.evidence, bench.term)
    )
    if not readings:
        fault = f"{quoted(mention.words)} is not a day of the calendar in {bench.term.name}"
        return MentionDay(mention, Unresolved(fault, "the right date"))
    doubt = _doubt(mention, expression, readings, bench)
    context = ReadingContext(order=bench.evidence.order.order, reference=row_day, anchors=anchors)
    found = [
        (reading, evaluate(_without_wrong_weekdays(reading.expression), bench.calendar, context))
        for reading in doubt.readings
    ]
    resolution = _joined(found, doubt.reason)
    if bench.term.assumed and not bench.evidence.year.year_is_known:
        resolution = _assumed(resolution, readings[0].expression, expression)
    resolution = with_reasons(resolution, guessed_year_reasons(expression, bench.term))
    reasons = [
        *_said_once([*mention.phrase.doubts, *mention.doubts], resolution),
        *_week_doubts(expression, bench.weeks),
        *_class_doubts(expression, bench),
    ]
    if bench.evidence.year.leftover and any(isinstance(part, FullDate) for part in parts_of(readings[0].expression)):
        reasons.append(bench.evidence.year.leftover)
    return MentionDay(mention, with_reasons(resolution, reasons), conflict=bool(doubt.reason))


def guessed_year_reasons(written: DateExpression, term: Term) -> tuple[str, ...]:
    """The reason to check a date that is written without its year, when nothing shows the year of the term."""
    parts = list(parts_of(written))
    if not term.guessed_year or all(isinstance(part, FullDate) for part in parts):
        return ()
    return (f"no outline names the year; {term.first_day.year} is a guess",)


def _said_once(doubts: list[str], resolution: Resolution) -> list[str]:
    """The doubts without the one that the day is not written, where a window says it with its days."""
    given = () if isinstance(resolution, Unresolved) else resolution.reasons
    if not any("find out the day" in reason for reason in given):
        return doubts
    return [doubt for doubt in doubts if "day is not written" not in doubt]


def _assumed(resolution: Resolution, settled_tree: DateExpression, written: DateExpression) -> Resolution:
    """The resolution as ASSUMED when its year is not written but taken from a term that is itself inferred."""
    if isinstance(resolution, Resolved) and settled_tree != written:
        return replace(resolution, certainty=Certainty.ASSUMED)
    return resolution


def with_reasons(resolution: Resolution, reasons: list[str] | tuple[str, ...]) -> Resolution:
    """The same resolution with more reasons to check, each once."""
    if isinstance(resolution, Unresolved) or not reasons:
        return resolution
    return replace(resolution, reasons=tuple(dict.fromkeys([*resolution.reasons, *reasons])))


def _doubt(mention: Mention, expression: DateExpression, readings: tuple[Reading, ...], bench: Bench) -> _Doubt:
    """The doubt of a mention's words, the gravest first; one at a time is enough to have it looked at."""
    if len(readings) > 1:
        reason = (
            f"{quoted(mention.words)} can be read with the month or with the day first; the outline does not show which"
        )
        return _Doubt(readings, reason)
    reading = readings[0]
    for doubt in (
        _slip(mention, reading, bench.evidence),
        _wrong_weekday(mention, expression, reading, bench),
        _wrong_year(mention, reading, bench),
    ):
        if doubt is not None:
            return doubt
    return _Doubt(readings, "")


def _slip(mention: Mention, reading: Reading, evidence: Evidence) -> _Doubt | None:
    slip = evidence.slip(mention.row)
    if slip is None or slip.printed not in {part.day for part in _full_dates(reading.expression)}:
        return None
    if slip.likely is None:
        return _Doubt((reading,), slip.reason)
    mended = _replaced(reading.expression, slip.printed, slip.likely)
    return _Doubt(
        (Reading(mended, "the day that fits between its neighbours"), replace(reading, why="as printed")), slip.reason
    )


def _wrong_weekday(mention: Mention, expression: DateExpression, reading: Reading, bench: Bench) -> _Doubt | None:
    if bench.evidence.year.leftover:
        return None
    wrong = next((part for part in _full_dates(reading.expression) if not agrees(part.day, part.weekday)), None)
    if wrong is None or wrong.weekday is None:
        return None
    printed = replace(reading, why="the date as written")
    other = _other_order(expression, bench)
    if other is None:
        day = nearest_weekday(wrong.day, wrong.weekday)
        other = Reading(_replaced(reading.expression, wrong.day, day), "the nearest day with the weekday as written")
    pair = (other, printed) if _is_class_day(other, bench) and not _is_class_day(printed, bench) else (printed, other)
    return _Doubt(pair, weekday_reason(wrong, mention.words))


def _is_class_day(reading: Reading, bench: Bench) -> bool:
    """Whether a reading is one day on which the course meets."""
    days = list(_full_dates(reading.expression))
    return len(days) == 1 and days[0].day.isoweekday() in class_weekdays(bench.calendar.meetings)


def _other_order(expression: DateExpression, bench: Bench) -> Reading | None:
    """The date with day and month exchanged, when its weekday then agrees and it lies in the term."""
    if not any(isinstance(part, NumericDate) for part in parts_of(expression)):
        return None
    tree = settled(expression, "dmy" if bench.evidence.order.order != "dmy" else "mdy", bench.term)
    if tree is None or any(
        distance(part.day, bench.term) or not agrees(part.day, part.weekday) for part in _full_dates(tree)
    ):
        return None
    return Reading(tree, "day and month exchanged, so that the weekday agrees")


def _wrong_year(mention: Mention, reading: Reading, bench: Bench) -> _Doubt | None:
    if bench.evidence.year.leftover:
        return None
    for part in _full_dates(reading.expression):
        near = day_near(part.day.month, part.day.day, bench.term)
        if distance(part.day, bench.term) > _FAR_OUTSIDE and near and distance(near, bench.term) == 0:
            moved = Reading(_replaced(reading.expression, part.day, near), f"the same day in {bench.term.name}")
            reason = (
                f"{quoted(mention.words)} is written with the year {part.day.year}, which is not in {bench.term.name}"
            )
            return _Doubt((moved, replace(reading, why="as written")), reason)
    return None


def _full_dates(expression: DateExpression) -> Iterator[FullDate]:
    return (part for part in parts_of(expression) if isinstance(part, FullDate))


def _replaced(expression: DateExpression, old: date, new: date) -> DateExpression:
    """The tree with one day in place of another, its weekday no longer in doubt."""
    return with_parts(
        expression, lambda part: FullDate(new) if isinstance(part, FullDate) and part.day == old else part
    )


def _without_wrong_weekdays(expression: DateExpression) -> DateExpression:
    """The tree without the weekdays that disagree: the doubt about them has been raised here, once."""
    return with_parts(
        expression,
        lambda part: FullDate(part.day) if isinstance(part, FullDate) and not agrees(part.day, part.weekday) else part,
    )


def _joined(found: list[tuple[Reading, Resolution]], reason: str) -> Resolution:
    """One resolution from the readings of a doubt."""
    days = [(reading, each) for reading, each in found if not isinstance(each, Unresolved)]
    if not days:
        return found[0][1]
    if len(days) == 1:
        return with_reasons(days[0][1], [reason] if reason else [])
    candidates: dict[tuple[date, date | None], Candidate] = {}
    reasons: list[str] = []
    for reading, each in days:
        reasons += each.reasons
        options = [Candidate(each.date, each.end_date, reading.why)] if isinstance(each, Resolved) else each.candidates
        for option in options:
            candidates.setdefault((option.date, option.end_date), option)
    first = days[0][1]
    if len(candidates) < 2:
        return with_reasons(first, [reason] if reason else [])
    said = " or ".join(in_words(option.date) for option in candidates.values())
    return Ambiguous(tuple(candidates.values()), f"{reason}: {said}?", first.expression, tuple(dict.fromkeys(reasons)))


def _end_of_row(part: DateExpression) -> DateExpression:
    """A weekday in a stretch that begins and ends on it is the last day: the first one ends the stretch before."""
    match part:
        case WeekdayIn(stretch=Span(first=FullDate(day=first), last=FullDate(day=last)), weekday=weekday, number=1):
            if first < last and first.isoweekday() == last.isoweekday() == weekday:
                return replace(part, number=-1)
    return part


def _week_doubts(expression: DateExpression, weeks: WeekEvidence) -> Iterator[str]:
    for part in parts_of(expression):
        if isinstance(part, Week):
            yield from (gap.reason for gap in weeks.unnumbered if gap.is_between(part.number))


def _class_doubts(expression: DateExpression, bench: Bench) -> Iterator[str]:
    """A class counted from the first is no surer than the days off that were left out."""
    for part in parts_of(expression):
        if isinstance(part, MeetingNumber) and part.number > 1 and not bench.calendar.days_off:
            yield (
                f"class {part.number} is counted from the first day of term with no day off known; "
                "a day without class would move it"
            )


def pinned(resolution: Resolution, bench: Bench) -> Resolution:
    """The resolution with its expression made a fixed date where a tree would not give the same day in the workbook:
    where the outline numbers its weeks differently from the term, and where the day is a question."""
    match resolution:
        case Ambiguous(candidates=candidates):
            return replace(resolution, expression=_fixed(candidates[0].date, candidates[0].end_date))
        case Resolved():
            numbers = {part.number for part in parts_of(resolution.expression) if isinstance(part, Week)}
            if all(bench.calendar.week(number) == bench.school.week(number) for number in numbers):
                return resolution
            said = f"{listed([f'week {number}' for number in sorted(numbers)])} as the outline numbers it"
            how = f"{resolution.how}; {said}" if resolution.how else said
            return replace(resolution, expression=_fixed(resolution.date, resolution.end_date), how=how)
        case Unresolved():
            return resolution


def _fixed(first: date, last: date | None) -> DateExpression:
    return FullDate(first) if last is None or last == first else Span(FullDate(first), FullDate(last))
