"""The days of an outline's items: items that others hang on first, series expanded, windows closed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from syllabus_io.outline.records import DAY_NOT_THE_CLASS, Item, Kind, Mention, Outline, SeriesException
from syllabus_io.resolve.agreement import agree_on_day
from syllabus_io.resolve.anchors import find_items
from syllabus_io.resolve.cross_check import IN_CLASS
from syllabus_io.resolve.doubles import without_doubles
from syllabus_io.resolve.evaluate import ReadingContext, evaluate, expand
from syllabus_io.resolve.evidence import Reading, readings_of, with_month
from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    DateExpression,
    Direction,
    Every,
    FullDate,
    Span,
    Week,
    WeekOf,
)
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.mention_days import Bench, MentionDay, guessed_year_reasons, resolve_mention, with_reasons
from syllabus_io.resolve.records import Ambiguous, Certainty, Resolution, Resolved, Unresolved
from syllabus_io.resolve.rule_exceptions import made_exception, split_exceptions, week_of, whole_stretch
from syllabus_io.resolve.series import is_dated_one_by_one, number_series, series_size
from syllabus_io.resolve.wording import ONLY_THE_WEEK, days_in_words, in_words, listed, quoted

__all__ = ["ItemDay", "ItemDays"]


@dataclass(frozen=True, slots=True)
class ItemDay:
    """One item, or one of a series, with its date. ``supporting`` are the mentions that give this date."""

    item: Item
    title: str
    number: int | None
    resolution: Resolution
    mention: Mention
    supporting: tuple[Mention, ...]


class ItemDays:
    """Resolves the items of one outline, each once, those that others are dated from first."""

    def __init__(self, outline: Outline, bench: Bench) -> None:
        self._outline = outline
        self._bench = bench
        self._done: dict[int, ItemDay] = {}
        self._open: list[int] = []

    def resolve(self) -> tuple[ItemDay, ...]:
        """Every item in the order of the outline, series expanded in their place."""
        found: list[ItemDay] = []
        for index, item in enumerate(self._outline.items):
            rule = next((each for each in item.mentions if isinstance(each.phrase.expression, Every)), None)
            if rule is None:
                found.append(self._item(index))
            elif not is_dated_one_by_one(item, self._outline.items):
                found += self._series(item, rule)
        return without_doubles(found)

    def _item(self, index: int) -> ItemDay:
        if index not in self._done:
            self._open.append(index)
            self._done[index] = self._resolved(self._outline.items[index])
            self._open.pop()
        return self._done[index]

    def _resolved(self, item: Item) -> ItemDay:
        found = []
        for mention in item.mentions:
            anchors, fault = self._anchors(mention.phrase.expression)
            day = MentionDay(mention, fault) if fault else resolve_mention(mention, self._bench, anchors)
            found.append(replace(day, resolution=self._narrowed(item, mention, day.resolution)))
        agreed = agree_on_day(found, self._bench)
        resolution = self._closed(item, agreed.resolution)
        return ItemDay(item, item.title, item.number, resolution, agreed.mention, agreed.supporting or item.mentions)

    def _anchors(self, expression: DateExpression | None) -> tuple[dict[str, tuple[date, date]], Unresolved | None]:
        """The days of the items that a tree names, or why one of them has none."""
        anchors: dict[str, tuple[date, date]] = {}
        for part in parts_of(expression) if expression is not None else ():
            if not isinstance(part, Anchor):
                continue
            items = find_items(part.words, self._outline.items)
            if len(items) != 1:
                why = "names no dated item" if not items else f"may be {listed([each.title for each in items])}"
                return {}, Unresolved(f"{quoted(part.words)} {why}", f"the date of {part.words}")
            index = next(i for i, each in enumerate(self._outline.items) if each is items[0])
            if index in self._open:
                return {}, Unresolved(
                    f"{quoted(part.words)} is itself dated from this item", f"the date of {part.words}"
                )
            day = self._item(index).resolution
            if not isinstance(day, Resolved):
                return {}, Unresolved(f"{quoted(part.words)} has no certain date itself", f"the date of {part.words}")
            anchors[part.words] = (day.date, day.end_date or day.date)
        return anchors, None

    def _narrowed(self, item: Item, mention: Mention, resolution: Resolution) -> Resolution:
        """For what is held in class: the day of the only class in a week. A stretch that the item only has from its
        schedule row is a reason to check, but not for a reading: that goes with all the classes of its row."""
        if not isinstance(resolution, Resolved) or resolution.end_date is None:
            return resolution
        if item.kind is Kind.READING:
            kept = tuple(reason for reason in resolution.reasons if not reason.startswith(ONLY_THE_WEEK))
            return replace(resolution, reasons=kept)
        stretch = resolution.date, resolution.end_date
        from_row = isinstance(resolution.expression, Span) and mention.row is not None
        if not from_row and not isinstance(resolution.expression, Week | WeekOf):
            return resolution
        classes = [day for day in self._bench.calendar.meetings_dates() if stretch[0] <= day <= stretch[1]]
        if item.kind in IN_CLASS and len(classes) == 1 and DAY_NOT_THE_CLASS not in mention.doubts:
            expression = ClassNear(resolution.expression, Direction.ON_OR_AFTER)
            narrowed = evaluate(expression, self._bench.calendar)
            if isinstance(narrowed, Resolved) and narrowed.date == classes[0]:
                how = f"the only class in {days_in_words(*stretch)}"
                return replace(narrowed, how=how, certainty=Certainty.DERIVED, end_date=None)
        if from_row and not resolution.reasons and self._is_whole_row(mention):
            return with_reasons(
                resolution, [f"the row covers {days_in_words(*stretch)}; the outline does not give the day"]
            )
        return resolution

    def _is_whole_row(self, mention: Mention) -> bool:
        """Whether a mention has nothing but the stretch of its row."""
        return any(
            row.row == mention.row and row.phrase.expression == mention.phrase.expression
            for row in self._outline.row_dates
        )

    def _closed(self, item: Item, resolution: Resolution) -> Resolution:
        """The resolution with the last day of its window."""
        if item.end is None or not isinstance(resolution, Resolved):
            return resolution
        end = resolve_mention(item.end, self._bench, {}).resolution
        if not isinstance(end, Resolved):
            return with_reasons(resolution, [f"the last day, {quoted(item.end.words)}, could not be read"])
        last = end.end_date or end.date
        if last < resolution.date:
            return with_reasons(resolution, [f"its window would end on {in_words(last)}, before it begins"])
        return replace(resolution, end_date=last if last > resolution.date else None)

    def _series(self, item: Item, mention: Mention) -> Iterator[ItemDay]:
        """The items of a rule, or one without a date when the rule gives no day."""
        bench = self._bench
        assert isinstance(mention.phrase.expression, Every)  # chosen by the caller
        exceptions, plain = split_exceptions(item.exceptions, mention.phrase.expression)
        anchors, fault = self._anchors(plain)
        readings = readings_of(with_month(plain, bench.term.first_day), bench.evidence, bench.term)
        rule = readings[0].expression if readings else plain
        context = ReadingContext(bench.evidence.order.order, bench.evidence.row_day(mention.row), anchors)
        days = expand(rule, bench.calendar, context) if isinstance(rule, Every) and fault is None else ()
        if isinstance(rule, Every) and rule.start is None:  # the night before the first class is before the course
            days = tuple(day for day in days if day >= bench.term.first_day)
        days, doubts = self._without_exceptions(days, exceptions, mention)
        if not days or not isinstance(rule, Every):
            nothing = fault or evaluate(rule, bench.calendar, context)
            if not isinstance(nothing, Unresolved):
                nothing = Unresolved(f"{quoted(mention.words)} gives no day in {bench.term.name}", "the dates")
            yield ItemDay(item, item.title, item.number, nothing, mention, item.mentions)
            return
        size = series_size(item, self._outline.items, self._outline.grading)
        doubts = [*doubts, *mention.phrase.doubts, *mention.doubts, *guessed_year_reasons(plain, bench.term)]
        doubts += _open_ends(readings)
        first = evaluate(rule, bench.calendar, context)
        if isinstance(first, Resolved | Ambiguous):
            doubts += [reason for reason in first.reasons if "outside the term" not in reason]
        how = f"{quoted(mention.words)}, days off left out" if rule.open_days_only else quoted(mention.words)
        left_out = tuple(each.stretch for each in exceptions if each.stretch is not None)
        stated = replace(rule, except_in=(*rule.except_in, *left_out))
        for each in number_series(stated, days, size, bench.calendar, bench.school):
            resolution = Resolved(each.day, None, Certainty.DERIVED, each.expression, how, each.reasons)
            yield ItemDay(
                replace(item, number=each.number),
                f"{item.title} {each.number}",
                each.number,
                with_reasons(resolution, doubts),
                mention,
                item.mentions,
            )

    def _without_exceptions(
        self, days: tuple[date, ...], exceptions: Sequence[SeriesException], mention: Mention
    ) -> tuple[tuple[date, ...], list[str]]:
        """The days of a rule with its exceptions made, and a reason for each exception that cannot be placed."""
        bench, reasons = self._bench, list[str]()
        around = {each.around for each in exceptions if each.around}
        held = [self._item(i).resolution for i, item in enumerate(self._outline.items) if self._holds(item, around)]
        exam_days = [each.date for each in held if isinstance(each, Resolved)]
        for exception in exceptions:
            if exception.stretch is None:
                stretches = [(day, day) if exception.same_day else week_of(day) for day in exam_days]
            else:
                anchors, fault = self._anchors(exception.stretch)
                phrase = replace(mention.phrase, expression=exception.stretch, doubts=())
                found = resolve_mention(replace(mention, phrase=phrase, doubts=()), bench, anchors).resolution
                if fault is not None or not isinstance(found, Resolved):
                    reasons.append(f"{quoted(mention.words)} has an exception whose date could not be worked out")
                    continue
                stretches = [whole_stretch(found.date, found.end_date)]
            days = made_exception(days, exception, stretches, bench.calendar)
        return days, reasons

    @staticmethod
    def _holds(item: Item, kinds: set[Kind]) -> bool:
        return item.kind in kinds and not any(isinstance(each.phrase.expression, Every) for each in item.mentions)


def _open_ends(readings: Sequence[Reading]) -> list[str]:
    """The question about days that bound a series when the order of day and month stays open; the first is taken."""
    read = [[part.day for part in parts_of(one.expression) if isinstance(part, FullDate)] for one in readings[:2]]
    if len(read) < 2:
        return []
    return [
        f"a day that bounds the series can be {in_words(first)} or {in_words(other)}; the first of these is taken"
        for first, other in zip(*read, strict=True)
        if first != other
    ]
