"""One outline and a term in, its course with every date out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from syllabus_io.outline.records import Item, Mention, Outline, UndatedWork
from syllabus_io.resolve.benches import make_bench
from syllabus_io.resolve.cross_check import Dated, is_final_after_classes, reasons_together
from syllabus_io.resolve.due_times import read_due_time
from syllabus_io.resolve.expression import DayInMonth, FullDate, MonthDay, NumericDate, WeekdayIn, WeekdayNear
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.item_days import ItemDay, ItemDays
from syllabus_io.resolve.item_ids import ItemIds
from syllabus_io.resolve.item_weights import weight_of
from syllabus_io.resolve.mention_days import Bench, pinned, with_reasons
from syllabus_io.resolve.numbered_work import count_notes, number_order_reasons
from syllabus_io.resolve.records import Ambiguous, Resolved, ResolvedCourse, ResolvedItem, Unresolved
from syllabus_io.resolve.repeats import merge_repeats, without_dated
from syllabus_io.resolve.term import DayOff, Term
from syllabus_io.resolve.written_days import agrees

__all__ = ["resolve_outline"]

_OUTSIDE = "outside the term"


def resolve_outline(outline: Outline, term: Term, key: str) -> ResolvedCourse:
    """The course of one outline with its dates, each with the reasons to check it.

    ``term`` is left as it is; how this outline numbers its weeks and what it has off count for this course alone.
    ``key`` is the short name of the course. Items without a day are listed as undated work, with the reason.
    """
    made = make_bench(outline, term, key)
    bench, days_off = made.bench, made.days_off
    days = ItemDays(outline, bench).resolve()
    items = _checked(_resolved_items(outline, days, key, bench), bench, days_off)
    dated = tuple(item for item in merge_repeats(items) if not isinstance(item.resolution, Unresolved))
    open_items = [_undated(item) for item in items if isinstance(item.resolution, Unresolved)]
    return ResolvedCourse(
        key,
        outline,
        tuple(sorted(dated, key=lambda item: (item.date or date.max, str(item.time or "")))),
        days_off,
        without_dated([*outline.undated, *open_items], dated),
        (*made.notes, *count_notes(dated, outline.grading)),
    )


def _resolved_items(outline: Outline, days: Sequence[ItemDay], key: str, bench: Bench) -> list[ResolvedItem]:
    ids = ItemIds(key)
    dated = Counter(
        day.item.category for day in days if day.item.category and not isinstance(day.resolution, Unresolved)
    )
    undated = [work.category for work in outline.undated if work.category]
    found = []
    for day in days:
        due = read_due_time(day.supporting)
        found.append(
            ResolvedItem(
                id=ids.next_id(day.item.kind, day.title, day.number),
                kind=day.item.kind,
                title=day.title,
                resolution=pinned(with_reasons(day.resolution, day.item.doubts), bench),
                mention=day.mention,
                item=day.item,
                time=due.time,
                time_note=due.note,
                weight=weight_of(day.item, outline.grading, dated, undated),
            )
        )
    return found


def _checked(items: Sequence[ResolvedItem], bench: Bench, days_off: Sequence[DayOff]) -> list[ResolvedItem]:
    """The items with the reasons of every cross-check added."""
    dated = [each for item in items if (each := _dated(item)) is not None]
    off = (*bench.term.no_class, *days_off)
    reasons = reasons_together(dated, bench.term, off, bench.calendar.meetings)
    out_of_order = number_order_reasons(dated)
    finals = {each.id for each in dated if is_final_after_classes(each, bench.term)}
    checked: list[ResolvedItem] = []
    for item in items:
        if item.id in finals and isinstance(item.resolution, Resolved):
            kept = tuple(reason for reason in item.resolution.reasons if _OUTSIDE not in reason)
            item = replace(item, resolution=replace(item.resolution, reasons=kept))
        own = (*reasons.get(item.id, ()), *filter(None, [out_of_order.get(item.id)]))
        if any(_OUTSIDE in reason for reason in item.reasons):
            own = tuple(reason for reason in own if " lies " not in reason)
        checked.append(replace(item, resolution=with_reasons(item.resolution, own)))
    return checked


def _dated(item: ResolvedItem) -> Dated | None:
    if item.date is None:
        return None
    return Dated(
        id=item.id,
        kind=item.kind,
        title=item.title,
        day=item.date,
        end=item.end_date,
        number=item.item.number,
        weekday_written=_writes_weekday(item.mention, item.date),
        time_written=item.time is not None,
        exact=not isinstance(item.resolution, Ambiguous),
    )


def _writes_weekday(mention: Mention, day: date) -> bool:
    expression = mention.phrase.expression
    return expression is not None and any(
        isinstance(part, WeekdayIn | WeekdayNear)
        or (
            isinstance(part, FullDate | MonthDay | NumericDate | DayInMonth)
            and part.weekday is not None
            and agrees(day, part.weekday)
        )
        for part in parts_of(expression)
    )


def _undated(item: ResolvedItem) -> UndatedWork:
    assert isinstance(item.resolution, Unresolved)  # chosen by the caller
    reason = item.resolution.reason
    if item.resolution.settle:
        reason = f"{reason}; {item.resolution.settle} would settle it"
    source: Item = item.item
    return UndatedWork(
        item.kind, item.title, reason, item.mention.place, item.mention.context, item.weight, source.category
    )
