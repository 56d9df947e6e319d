"""Formulas of days told from other days."""

from __future__ import annotations

from syllabus_io.resolve.expression import (
    CalendarMonth,
    CalendarWeek,
    DayOf,
    Direction,
    IsoWeek,
    Offset,
    Part,
    PartOf,
    Span,
    Unit,
    Week,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.formula_days import (
    Days,
    FormulaNames,
    one,
    plus,
    stretch_formulas,
    week_from,
    weekday_inside,
    written,
)
from syllabus_io.resolve.formula_term import class_counts, near_counted

__all__: list[str] = []

# --- days told from other days ----------------------------------------------------------------------------


@written.register
def _(expression: WeekOf, names: FormulaNames) -> Days | None:
    base = stretch_formulas(expression.base, names)
    return week_from(_monday(base.first)) if base else None


@written.register
def _(expression: CalendarWeek, names: FormulaNames) -> Days | None:
    base = stretch_formulas(expression.base, names)
    if base is None:
        return None
    monday = _monday(base.last if expression.count > 0 else base.first)
    return week_from(f"({plus(monday, 7 * expression.count)})")


def _monday(day: str) -> str:
    return f"({day}-WEEKDAY({day},2)+1)"


@written.register
def _(expression: CalendarMonth, names: FormulaNames) -> Days | None:
    base = stretch_formulas(expression.base, names)
    if base is None:
        return None
    year, month = f"YEAR({base.first})", f"MONTH({base.first})"
    first = f"DATE({year},{plus(month, expression.count)},1)"
    last = f"(DATE({year},{plus(month, expression.count + 1)},1)-1)"
    return Days(first, last, last)


@written.register
def _(expression: DayOf, names: FormulaNames) -> Days | None:
    base = stretch_formulas(expression.stretch, names)
    if base is None or not expression.number:
        return None
    if expression.number > 0:
        day = plus(base.first, expression.number - 1)
        return one(f"IF({day}<={base.last},{day},NA())")
    day = plus(base.last, expression.number + 1)
    return one(f"IF({day}>={base.first},{day},NA())")


@written.register
def _(expression: PartOf, names: FormulaNames) -> Days | None:
    base, part = stretch_formulas(expression.stretch, names), expression.part
    if base is None:
        return None
    first, last = base.first, base.end
    if isinstance(expression.stretch, WholeMonth | CalendarMonth):
        return _part_of_month(part, first, last)
    third = f"INT(({last}-{first})/3)"
    match part:
        case Part.EARLY | Part.BEGINNING:
            return Days(first, f"({first}+{third})", f"({first}+{third})")
        case Part.MIDDLE:
            return Days(f"({first}+{third})", f"({last}-{third})", f"({last}-{third})")
        case Part.LATE | Part.END:
            return Days(f"({last}-{third})", last, last)


def _part_of_month(part: Part, first: str, last: str) -> Days:
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
    return Days(ends[0], ends[1], ends[1])


@written.register
def _(expression: WeekdayIn, names: FormulaNames) -> Days | None:
    base = stretch_formulas(expression.stretch, names)
    if base is None or not expression.number:
        return None
    day = weekday_inside(base.first, base.last, expression.weekday, expression.number)
    if expression.number in (1, -1) and isinstance(expression.stretch, Week | WeekOf | CalendarWeek | IsoWeek):
        return one(day)
    return one(f"IF(AND({day}>={base.first},{day}<={base.last}),{day},NA())")


@written.register
def _(expression: WeekdayNear, names: FormulaNames) -> Days | None:
    base, weekday = stretch_formulas(expression.base, names), int(expression.weekday)
    if base is None:
        return None
    more = 7 * (expression.count - 1)
    before = f"{base.first}-MOD(WEEKDAY({base.first},2)-{weekday}-1,7)-1"
    after = f"{base.last}+MOD({weekday}-WEEKDAY({base.last},2)-1,7)+1"
    match expression.direction:
        case Direction.BEFORE:
            return one(f"({plus(before, -more)})")
        case Direction.AFTER:
            return one(f"({plus(after, more)})")
        case Direction.ON_OR_BEFORE:
            return one(f"({plus(f'{base.last}-MOD(WEEKDAY({base.last},2)-{weekday},7)', -more)})")
        case Direction.ON_OR_AFTER:
            return one(f"({plus(f'{base.first}+MOD({weekday}-WEEKDAY({base.first},2),7)', more)})")
        case Direction.NEAREST:
            inside = weekday_inside(base.first, base.last, weekday, 1)
            is_before = f"{base.first}-({before})<=({after})-{base.last}"
            return one(f"IF({inside}<={base.last},{inside},IF({is_before},{before},{after}))")


@written.register
def _(expression: Offset, names: FormulaNames) -> Days | None:
    base, count = stretch_formulas(expression.base, names), expression.count
    if base is None:
        return None
    start = base.last if count > 0 else base.first
    match expression.unit:
        case Unit.DAY:
            return one(f"({plus(start, count)})")
        case Unit.WEEK:
            return one(f"({plus(start, 7 * count)})")
        case Unit.MONTH:
            return one(f"EDATE({start},{count})")
        case Unit.YEAR:
            return one(f"EDATE({start},{12 * count})")
        case Unit.WEEKDAY:
            return one(f"WORKDAY({start},{count})") if count else one(start)
        case Unit.MEETING:
            return _counted_away(base, count, class_counts("", names), names)
        case Unit.SCHOOL_DAY:
            return _counted_away(base, count, names.school_count, names)


def _counted_away(base: Days, count: int, counts: str | None, names: FormulaNames) -> Days | None:
    if not counts:
        return None
    if count == 0:
        return one(base.first)
    direction = Direction.AFTER if count > 0 else Direction.BEFORE
    return one(near_counted(base, direction, abs(count), counts, names))


@written.register
def _(expression: Span, names: FormulaNames) -> Days | None:
    first, last = stretch_formulas(expression.first, names), stretch_formulas(expression.last, names)
    return Days(first.first, last.last, last.end) if first and last else None
