"""Formulas of fixed days and of days counted in the term."""

from __future__ import annotations

from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    Direction,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthPart,
    NamedDay,
    NthWeekday,
    RotationDay,
    TermEdge,
    TermPoint,
    Week,
    WholeMonth,
)
from syllabus_io.resolve.formula_days import (
    Days,
    FormulaNames,
    date_formula,
    one,
    plus,
    stretch_formulas,
    week_from,
    weekday_inside,
    written,
)
from syllabus_io.resolve.read_dates import month_stretch, part_stretch
from syllabus_io.resolve.read_term import find_anchor, iso_week
from syllabus_io.resolve.term_calendar import class_kind

__all__ = ["class_counts", "near_counted"]

# --- fixed days inside other expressions ------------------------------------------------------------------


@written.register
def _(expression: FullDate, _names: FormulaNames) -> Days | None:
    return one(date_formula(expression.day))


@written.register
def _(expression: WholeMonth, _names: FormulaNames) -> Days | None:
    if expression.year is None:
        return None
    first, last = map(date_formula, month_stretch(expression.year, expression.month))
    return Days(first, last, last)


@written.register
def _(expression: MonthPart, _names: FormulaNames) -> Days | None:
    if expression.year is None:
        return None
    first, last = map(date_formula, part_stretch(expression.part, expression.year, expression.month))
    return Days(first, last, last)


@written.register
def _(expression: IsoWeek, _names: FormulaNames) -> Days | None:
    week = iso_week(expression.year, expression.number) if expression.year else None
    return week_from(date_formula(week[0])) if week else None


@written.register
def _(expression: NthWeekday, _names: FormulaNames) -> Days | None:
    if expression.year is None:
        return None
    first, last = map(date_formula, month_stretch(expression.year, expression.month))
    day = weekday_inside(first, last, expression.weekday, expression.number)
    return one(f"IF(MONTH({day})={expression.month},{day},NA())")


# --- days counted in the term -----------------------------------------------------------------------------


@written.register
def _(expression: Week, names: FormulaNames) -> Days | None:
    number = expression.number
    if number == 0:
        return week_from(f"({names.week_one}-7)")
    wanted = str(number)
    if number < 0:
        taught = f'COUNTIFS({names.week_mondays},"<="&{names.classes_end},{names.week_numbers},">0")'
        wanted = plus(taught, number + 1)
    return week_from(f"INDEX({names.week_mondays},MATCH({wanted},{names.week_numbers},0))")


@written.register
def _(expression: TermPoint, names: FormulaNames) -> Days | None:
    match expression.edge:
        case TermEdge.FIRST_DAY:
            return one(names.first_day)
        case TermEdge.LAST_DAY:
            return one(names.last_day)
        case TermEdge.FINALS:
            first = f"IF(ISNUMBER({names.finals_first}),{names.finals_first},NA())"
            last = f"MAX({first},{names.finals_last})"
            return Days(first, last, last)
        case TermEdge.FIRST_MEETING:
            return stretch_formulas(MeetingNumber(1), names)
        case TermEdge.LAST_MEETING:
            return stretch_formulas(MeetingNumber(-1), names)


@written.register
def _(expression: MeetingNumber, names: FormulaNames) -> Days | None:
    counts = class_counts(expression.kind, names)
    if not counts or not expression.number:
        return None
    number = expression.number
    return one(_counted(str(number) if number > 0 else plus(f"MAX({counts})", number + 1), counts, names))


def class_counts(kind: str, names: FormulaNames) -> str | None:
    return names.class_counts.get(class_kind(kind))


def _counted(number: str, counts: str, names: FormulaNames) -> str:
    """The day on which a running count reaches a number. A count is "" before its first day, so that 0 is nowhere."""
    return f"INDEX({names.day_dates},MATCH({number},{counts},0))"


def _count_at(day: str, counts: str, names: FormulaNames) -> str:
    """The running count up to and on a day. Classes are counted as none before the day table and as all after it;
    school days are not known there."""
    if counts == names.school_count:
        return f"N(INDEX({counts},MATCH({day},{names.day_dates},0)))"
    return f"N(INDEX({counts},MATCH(MAX({day},INDEX({names.day_dates},1)),{names.day_dates},1)))"


@written.register
def _(expression: ClassNear, names: FormulaNames) -> Days | None:
    base, counts = stretch_formulas(expression.base, names), class_counts(expression.kind, names)
    if base is None or not counts or expression.weekday is not None or expression.direction is Direction.NEAREST:
        return None
    return one(near_counted(base, expression.direction, expression.count, counts, names))


def near_counted(base: Days, direction: Direction, count: int, counts: str, names: FormulaNames) -> str:
    match direction:
        case Direction.BEFORE:
            number = plus(_count_at(f"{base.first}-1", counts, names), 1 - count)
        case Direction.ON_OR_BEFORE:
            number = plus(_count_at(base.last, counts, names), 1 - count)
        case Direction.ON_OR_AFTER:
            number = plus(_count_at(f"{base.first}-1", counts, names), count)
        case _:
            number = plus(_count_at(base.last, counts, names), count)
    return _counted(number, counts, names)


@written.register
def _(expression: RotationDay, names: FormulaNames) -> Days | None:
    labels = [label.casefold() for label in names.rotation_labels]
    label, counts, number = expression.label.strip().casefold(), names.rotation_count, expression.number
    if labels.count(label) != 1 or not counts or not number:
        return None
    place, cycle = labels.index(label) + 1, len(labels)
    term_end = f"MAX({names.last_day},{names.finals_last})"
    within = Days(names.first_day, term_end, term_end)
    if expression.stretch is not None:
        stretch = stretch_formulas(expression.stretch, names)
        if stretch is None:
            return None
        within = stretch
    if number > 0:
        before = _count_at(f"{within.first}-1", counts, names)
        wanted = plus(f"{before}+MOD({place - 1}-{before},{cycle})", 1 + (number - 1) * cycle)
        day = _counted(wanted, counts, names)
        return one(f"IF({day}<={within.last},{day},NA())")
    upto = _count_at(within.last, counts, names)
    wanted = plus(f"{upto}-MOD({upto}-{place},{cycle})", (number + 1) * cycle)
    day = _counted(wanted, counts, names)
    return one(f"IF({day}>={within.first},{day},NA())")


@written.register
def _(expression: NamedDay, names: FormulaNames) -> Days | None:
    listed = names.days_off.get(expression.name)
    if listed is None or expression.year is not None:
        return None
    row = f"MATCH({_text(listed)},{names.off_names},0)"
    first, last = f"INDEX({names.off_first},{row})", f"INDEX({names.off_last},{row})"
    return Days(first, last, last)


@written.register
def _(expression: Anchor, names: FormulaNames) -> Days | None:
    words = find_anchor(expression.words, tuple(names.anchors))
    if words is None:
        return None
    cell = names.anchors[words]
    first = f"IF(ISNUMBER({cell}),{cell},NA())"
    if words not in names.anchor_ends:
        return one(first)
    last = f"MAX({first},{names.anchor_ends[words]})"
    return Days(first, last, last)


def _text(words: str) -> str:
    return '"' + words.replace('"', '""') + '"'
