"""From an expression to a spreadsheet formula over the term sheet: the workbook's half of the date language.

The twin of :mod:`syllabus_io.resolve.evaluate`: over a sheet that says what the term calendar says, a formula gives
the day that evaluation gives, and moves when the sheet is changed. Formulas use only functions that every common
spreadsheet program has, and none of the forms on which programs disagree (arrays made by INDEX, dynamic arrays).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import singledispatch
from types import MappingProxyType

from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    ClassNear,
    DateExpression,
    DayInMonth,
    DayOf,
    Direction,
    Every,
    FullDate,
    IsoWeek,
    MeetingNumber,
    MonthDay,
    MonthPart,
    NamedDay,
    NthWeekday,
    NumericDate,
    Offset,
    Part,
    PartOf,
    Reference,
    RotationDay,
    Span,
    TermEdge,
    TermPoint,
    Unit,
    Week,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.expression_parts import parts_of
from syllabus_io.resolve.read_dates import month_stretch, part_stretch
from syllabus_io.resolve.read_term import find_anchor, iso_week
from syllabus_io.resolve.term_calendar import class_kind

__all__ = ["FormulaNames", "write_end_formula", "write_formula"]

_LONGEST = 8000
"""A formula may have 8,192 characters (ECMA-376 part 1, 18.17); longer ones are not written."""
_UNWRITTEN = (MonthDay, NumericDate, DayInMonth, Reference, Every)
"""What no formula can follow."""
_MOVING = (Week, MeetingNumber, ClassNear, RotationDay, NamedDay, TermPoint, Anchor)
"""What moves with the term sheet or with another date."""


def _no_names() -> Mapping[str, str]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class FormulaNames:
    """Where a formula of one course finds the facts of the term.

    ``class_counts`` names, by kind of class ("" is any), the column of the day table that counts the classes up to
    each day. ``days_off`` gives for each name of a day off as the calendar has it the name under which the table of
    days off lists it. ``anchors`` gives for the words of another item the cell of its date; ``anchor_ends`` the cell
    of its last day where it is a stretch. ``school_count`` and ``rotation_count`` are columns of the day table that
    count school days and days of the rotating timetable; empty when the sheet has none.
    """

    class_counts: Mapping[str, str] = field(default_factory=_no_names)
    days_off: Mapping[str, str] = field(default_factory=_no_names)
    anchors: Mapping[str, str] = field(default_factory=_no_names)
    anchor_ends: Mapping[str, str] = field(default_factory=_no_names)
    school_count: str = ""
    rotation_count: str = ""
    rotation_labels: tuple[str, ...] = ()
    first_day: str = "FirstDay"
    last_day: str = "LastDay"
    classes_end: str = "ClassesEnd"
    finals_first: str = "FinalsFirst"
    finals_last: str = "FinalsLast"
    week_one: str = "WeekOne"
    week_numbers: str = "WeekNumbers"
    week_mondays: str = "WeekMondays"
    day_dates: str = "DayDates"
    off_names: str = "OffNames"
    off_first: str = "OffFirst"
    off_last: str = "OffUntil"


def write_formula(expression: DateExpression, names: FormulaNames) -> str | None:
    """The formula, without equals sign, for the first day of an expression as evaluation gave it back.

    None for what cannot move, which stays a constant: a fixed date, also one told from other fixed dates. None too
    for what no formula can follow: a date whose year is not settled, a recurring rule, the nearest class. The formula
    gives "" where the sheet has no such day.
    """
    if not _moves(expression.first if isinstance(expression, Span) else expression):
        return None
    stretch = _stretch(expression, names)
    return _guarded(stretch.first) if stretch else None


def write_end_formula(expression: DateExpression, names: FormulaNames) -> str | None:
    """The formula for the last day of a stretch, a week shown to its Friday; None for a single day or a fixed one."""
    if not _moves(expression.last if isinstance(expression, Span) else expression):
        return None
    stretch = _stretch(expression, names)
    return _guarded(stretch.end) if stretch and stretch.end != stretch.first else None


def _moves(expression: DateExpression) -> bool:
    """Whether some part of the expression hangs on the term sheet or on another date."""
    return any(
        isinstance(part, _MOVING) or (isinstance(part, Offset) and part.unit in (Unit.MEETING, Unit.SCHOOL_DAY))
        for part in parts_of(expression)
    )


def _guarded(formula: str) -> str | None:
    guarded = f'IFERROR({formula},"")'
    return guarded if len(guarded) <= _LONGEST else None


@dataclass(frozen=True, slots=True)
class _Days:
    """Formulas of a stretch: its first and last day, and the last day that is shown."""

    first: str
    last: str
    end: str


def _one(formula: str) -> _Days:
    return _Days(formula, formula, formula)


def _date(day: date) -> str:
    return f"DATE({day.year},{day.month},{day.day})"


def _plus(formula: str, days: int) -> str:
    return f"{formula}{days:+d}" if days else formula


def _week_from(monday: str) -> _Days:
    return _Days(monday, f"({monday}+6)", f"({monday}+4)")


def _text(words: str) -> str:
    return '"' + words.replace('"', '""') + '"'


def _stretch(expression: DateExpression, names: FormulaNames) -> _Days | None:
    """The formulas of an expression, None when it has none or they would be too long to build on."""
    days = _written(expression, names)
    return days if days and len(days.first) + len(days.last) <= _LONGEST else None


@singledispatch
def _written(expression: object, names: FormulaNames) -> _Days | None:
    if isinstance(expression, _UNWRITTEN):
        return None
    raise TypeError(f"no way to write {expression!r} over {names!r}")


# --- fixed days inside other expressions ------------------------------------------------------------------


@_written.register
def _(expression: FullDate, _names: FormulaNames) -> _Days | None:
    return _one(_date(expression.day))


@_written.register
def _(expression: WholeMonth, _names: FormulaNames) -> _Days | None:
    if expression.year is None:
        return None
    first, last = map(_date, month_stretch(expression.year, expression.month))
    return _Days(first, last, last)


@_written.register
def _(expression: MonthPart, _names: FormulaNames) -> _Days | None:
    if expression.year is None:
        return None
    first, last = map(_date, part_stretch(expression.part, expression.year, expression.month))
    return _Days(first, last, last)


@_written.register
def _(expression: IsoWeek, _names: FormulaNames) -> _Days | None:
    week = iso_week(expression.year, expression.number) if expression.year else None
    return _week_from(_date(week[0])) if week else None


@_written.register
def _(expression: NthWeekday, _names: FormulaNames) -> _Days | None:
    if expression.year is None:
        return None
    first, last = map(_date, month_stretch(expression.year, expression.month))
    day = _weekday_inside(first, last, expression.weekday, expression.number)
    return _one(f"IF(MONTH({day})={expression.month},{day},NA())")


# --- days counted in the term -----------------------------------------------------------------------------


@_written.register
def _(expression: Week, names: FormulaNames) -> _Days | None:
    number = expression.number
    if number == 0:
        return _week_from(f"({names.week_one}-7)")
    wanted = str(number)
    if number < 0:
        taught = f'COUNTIFS({names.week_mondays},"<="&{names.classes_end},{names.week_numbers},">0")'
        wanted = _plus(taught, number + 1)
    return _week_from(f"INDEX({names.week_mondays},MATCH({wanted},{names.week_numbers},0))")


@_written.register
def _(expression: TermPoint, names: FormulaNames) -> _Days | None:
    match expression.edge:
        case TermEdge.FIRST_DAY:
            return _one(names.first_day)
        case TermEdge.LAST_DAY:
            return _one(names.last_day)
        case TermEdge.FINALS:
            first = f"IF(ISNUMBER({names.finals_first}),{names.finals_first},NA())"
            last = f"MAX({first},{names.finals_last})"
            return _Days(first, last, last)
        case TermEdge.FIRST_MEETING:
            return _stretch(MeetingNumber(1), names)
        case TermEdge.LAST_MEETING:
            return _stretch(MeetingNumber(-1), names)


@_written.register
def _(expression: MeetingNumber, names: FormulaNames) -> _Days | None:
    counts = _class_counts(expression.kind, names)
    if not counts or not expression.number:
        return None
    number = expression.number
    return _one(_counted(str(number) if number > 0 else _plus(f"MAX({counts})", number + 1), counts, names))


def _class_counts(kind: str, names: FormulaNames) -> str | None:
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


@_written.register
def _(expression: ClassNear, names: FormulaNames) -> _Days | None:
    base, counts = _stretch(expression.base, names), _class_counts(expression.kind, names)
    if base is None or not counts or expression.weekday is not None or expression.direction is Direction.NEAREST:
        return None
    return _one(_near_counted(base, expression.direction, expression.count, counts, names))


def _near_counted(base: _Days, direction: Direction, count: int, counts: str, names: FormulaNames) -> str:
    match direction:
        case Direction.BEFORE:
            number = _plus(_count_at(f"{base.first}-1", counts, names), 1 - count)
        case Direction.ON_OR_BEFORE:
            number = _plus(_count_at(base.last, counts, names), 1 - count)
        case Direction.ON_OR_AFTER:
            number = _plus(_count_at(f"{base.first}-1", counts, names), count)
        case _:
            number = _plus(_count_at(base.last, counts, names), count)
    return _counted(number, counts, names)


@_written.register
def _(expression: RotationDay, names: FormulaNames) -> _Days | None:
    labels = [label.casefold() for label in names.rotation_labels]
    label, counts, number = expression.label.strip().casefold(), names.rotation_count, expression.number
    if labels.count(label) != 1 or not counts or not number:
        return None
    place, cycle = labels.index(label) + 1, len(labels)
    term_end = f"MAX({names.last_day},{names.finals_last})"
    within = _Days(names.first_day, term_end, term_end)
    if expression.stretch is not None:
        stretch = _stretch(expression.stretch, names)
        if stretch is None:
            return None
        within = stretch
    if number > 0:
        before = _count_at(f"{within.first}-1", counts, names)
        wanted = _plus(f"{before}+MOD({place - 1}-{before},{cycle})", 1 + (number - 1) * cycle)
        day = _counted(wanted, counts, names)
        return _one(f"IF({day}<={within.last},{day},NA())")
    upto = _count_at(within.last, counts, names)
    wanted = _plus(f"{upto}-MOD({upto}-{place},{cycle})", (number + 1) * cycle)
    day = _counted(wanted, counts, names)
    return _one(f"IF({day}>={within.first},{day},NA())")


@_written.register
def _(expression: NamedDay, names: FormulaNames) -> _Days | None:
    listed = names.days_off.get(expression.name)
    if listed is None or expression.year is not None:
        return None
    row = f"MATCH({_text(listed)},{names.off_names},0)"
    first, last = f"INDEX({names.off_first},{row})", f"INDEX({names.off_last},{row})"
    return _Days(first, last, last)


@_written.register
def _(expression: Anchor, names: FormulaNames) -> _Days | None:
    words = find_anchor(expression.words, tuple(names.anchors))
    if words is None:
        return None
    cell = names.anchors[words]
    first = f"IF(ISNUMBER({cell}),{cell},NA())"
    if words not in names.anchor_ends:
        return _one(first)
    last = f"MAX({first},{names.anchor_ends[words]})"
    return _Days(first, last, last)


# --- days told from other days ----------------------------------------------------------------------------


@_written.register
def _(expression: WeekOf, names: FormulaNames) -> _Days | None:
    base = _stretch(expression.base, names)
    return _week_from(_monday(base.first)) if base else None


@_written.register
def _(expression: CalendarWeek, names: FormulaNames) -> _Days | None:
    base = _stretch(expression.base, names)
    if base is None:
        return None
    monday = _monday(base.last if expression.count > 0 else base.first)
    return _week_from(f"({_plus(monday, 7 * expression.count)})")


def _monday(day: str) -> str:
    return f"({day}-WEEKDAY({day},2)+1)"


@_written.register
def _(expression: CalendarMonth, names: FormulaNames) -> _Days | None:
    base = _stretch(expression.base, names)
    if base is None:
        return None
    year, month = f"YEAR({base.first})", f"MONTH({base.first})"
    first = f"DATE({year},{_plus(month, expression.count)},1)"
    last = f"(DATE({year},{_plus(month, expression.count + 1)},1)-1)"
    return _Days(first, last, last)


@_written.register
def _(expression: DayOf, names: FormulaNames) -> _Days | None:
    base = _stretch(expression.stretch, names)
    if base is None or not expression.number:
        return None
    if expression.number > 0:
        day = _plus(base.first, expression.number - 1)
        return _one(f"IF({day}<={base.last},{day},NA())")
    day = _plus(base.last, expression.number + 1)
    return _one(f"IF({day}>={base.first},{day},NA())")


@_written.register
def _(expression: PartOf, names: FormulaNames) -> _Days | None:
    base, part = _stretch(expression.stretch, names), expression.part
    if base is None:
        return None
    first, last = base.first, base.end
    if isinstance(expression.stretch, WholeMonth | CalendarMonth):
        return _part_of_month(part, first, last)
    third = f"INT(({last}-{first})/3)"
    match part:
        case Part.EARLY | Part.BEGINNING:
            return _Days(first, f"({first}+{third})", f"({first}+{third})")
        case Part.MIDDLE:
            return _Days(f"({first}+{third})", f"({last}-{third})", f"({last}-{third})")
        case Part.LATE | Part.END:
            return _Days(f"({last}-{third})", last, last)


def _part_of_month(part: Part, first: str, last: str) -> _Days:
    match part:
        case Part.EARLY:
            ends = first, f"({first}+9)"
        case Part.MIDDLE:
            ends = f"({first}+10)", f"({first}+19)"
        case Part.LATE:
            ends = f"({first}+20)", last
        case Part.BEGINNING:
            ends = first, f"({first}+6)"
        case Part.END:
            ends = f"({last}-6)", last
    return _Days(ends[0], ends[1], ends[1])


@_written.register
def _(expression: WeekdayIn, names: FormulaNames) -> _Days | None:
    base = _stretch(expression.stretch, names)
    if base is None or not expression.number:
        return None
    day = _weekday_inside(base.first, base.last, expression.weekday, expression.number)
    if expression.number in (1, -1) and isinstance(expression.stretch, Week | WeekOf | CalendarWeek | IsoWeek):
        return _one(day)
    return _one(f"IF(AND({day}>={base.first},{day}<={base.last}),{day},NA())")


def _weekday_inside(first: str, last: str, weekday: int, number: int) -> str:
    if number > 0:
        return f"({_plus(f'{first}+MOD({weekday}-WEEKDAY({first},2),7)', 7 * (number - 1))})"
    return f"({_plus(f'{last}-MOD(WEEKDAY({last},2)-{weekday},7)', 7 * (number + 1))})"


@_written.register
def _(expression: WeekdayNear, names: FormulaNames) -> _Days | None:
    base, weekday = _stretch(expression.base, names), int(expression.weekday)
    if base is None:
        return None
    more = 7 * (expression.count - 1)
    before = f"{base.first}-MOD(WEEKDAY({base.first},2)-{weekday}-1,7)-1"
    after = f"{base.last}+MOD({weekday}-WEEKDAY({base.last},2)-1,7)+1"
    match expression.direction:
        case Direction.BEFORE:
            return _one(f"({_plus(before, -more)})")
        case Direction.AFTER:
            return _one(f"({_plus(after, more)})")
        case Direction.ON_OR_BEFORE:
            return _one(f"({_plus(f'{base.last}-MOD(WEEKDAY({base.last},2)-{weekday},7)', -more)})")
        case Direction.ON_OR_AFTER:
            return _one(f"({_plus(f'{base.first}+MOD({weekday}-WEEKDAY({base.first},2),7)', more)})")
        case Direction.NEAREST:
            inside = _weekday_inside(base.first, base.last, weekday, 1)
            is_before = f"{base.first}-({before})<=({after})-{base.last}"
            return _one(f"IF({inside}<={base.last},{inside},IF({is_before},{before},{after}))")


@_written.register
def _(expression: Offset, names: FormulaNames) -> _Days | None:
    base, count = _stretch(expression.base, names), expression.count
    if base is None:
        return None
    start = base.last if count > 0 else base.first
    match expression.unit:
        case Unit.DAY:
            return _one(f"({_plus(start, count)})")
        case Unit.WEEK:
            return _one(f"({_plus(start, 7 * count)})")
        case Unit.MONTH:
            return _one(f"EDATE({start},{count})")
        case Unit.YEAR:
            return _one(f"EDATE({start},{12 * count})")
        case Unit.WEEKDAY:
            return _one(f"WORKDAY({start},{count})") if count else _one(start)
        case Unit.MEETING:
            return _counted_away(base, count, _class_counts("", names), names)
        case Unit.SCHOOL_DAY:
            return _counted_away(base, count, names.school_count, names)


def _counted_away(base: _Days, count: int, counts: str | None, names: FormulaNames) -> _Days | None:
    if not counts:
        return None
    if count == 0:
        return _one(base.first)
    direction = Direction.AFTER if count > 0 else Direction.BEFORE
    return _one(_near_counted(base, direction, abs(count), counts, names))


@_written.register
def _(expression: Span, names: FormulaNames) -> _Days | None:
    first, last = _stretch(expression.first, names), _stretch(expression.last, names)
    return _Days(first.first, last.last, last.end) if first and last else None
