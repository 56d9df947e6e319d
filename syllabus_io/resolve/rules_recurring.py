"""Rules for what comes again: every Friday, Mondays and Wednesdays, the first Monday of each month, with bounds."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.resolve.expression import (
    DateExpression,
    Every,
    Frequency,
    IsoWeek,
    MonthDay,
    TimePoint,
    Unit,
    Week,
    Weekday,
)
from syllabus_io.resolve.readings import Bounds, Reading, TimeWords
from syllabus_io.resolve.rules import Rule, Scope, pass_on
from syllabus_io.resolve.rules_bounds import bounded, merge

__all__ = ["RULES", "WEEKEND"]

WORKDAYS = (Weekday.MO, Weekday.TU, Weekday.WE, Weekday.TH, Weekday.FR)
WEEKEND = (Weekday.SA, Weekday.SU)
#: No rule of a term skips more periods or repeats more often.
_MOST = 120


def _days(*parts: object) -> tuple[Weekday, ...] | None:
    """Weekdays from single ones and tuples, in order of the week."""
    found: set[Weekday] = set()
    for part in parts:
        for day in part if isinstance(part, tuple) else (part,):
            if isinstance(day, Weekday):
                found.add(day)
    return tuple(sorted(found)) or None


def _more_days(first: object, rest: tuple[Weekday, ...]) -> tuple[Weekday, ...] | None:
    days = _days(first, rest)
    count = (len(first) if isinstance(first, tuple) else 1) + len(rest)
    return days if days is not None and len(days) == count else None


def _day_range(first: Weekday, last: Weekday) -> tuple[Weekday, ...] | None:
    return tuple(Weekday(n) for n in range(first, last + 1)) if first < last else None


def _weekly(days: tuple[Weekday, ...], interval: int = 1) -> Every | None:
    return Every(Frequency.WEEKLY, interval, days) if 1 <= interval <= _MOST else None


def _every(interval: int, unit: Unit) -> Every | None:
    frequency = {
        Unit.DAY: Frequency.DAILY,
        Unit.WEEK: Frequency.WEEKLY,
        Unit.MONTH: Frequency.MONTHLY,
        Unit.YEAR: Frequency.YEARLY,
        Unit.MEETING: Frequency.MEETING,
    }.get(unit)
    if unit in (Unit.WEEKDAY, Unit.SCHOOL_DAY):
        return Every(Frequency.WEEKLY, weekdays=WORKDAYS) if interval == 1 else None
    return Every(frequency, interval) if frequency is not None and 1 <= interval <= _MOST else None


def _on_days(rule: Every, days: tuple[Weekday, ...]) -> Every | None:
    """A weekly rule with its days ("every two weeks on Monday"); a monthly one takes every such day of the month."""
    if rule.weekdays or rule.frequency not in (Frequency.WEEKLY, Frequency.MONTHLY):
        return None
    return replace(rule, weekdays=days)


def _on_date(rule: Every, day: DateExpression) -> Every | None:
    if rule != Every(Frequency.YEARLY):
        return None
    match day:
        case MonthDay(month, number, None):
            return replace(rule, months=(month,), month_days=(number,))
    return None


def _on_nth(rule: Every, numbers: tuple[int, ...], days: tuple[Weekday, ...]) -> Every | None:
    if rule.weekdays or rule.frequency not in (Frequency.MONTHLY, Frequency.YEARLY) or days == WEEKEND:
        return None
    if days == WORKDAYS:
        return replace(rule, weekdays=days, set_positions=numbers)
    return replace(rule, weekdays=days, numbers=numbers)


def _on_month_days(rule: Every, numbers: tuple[int, ...]) -> Every | None:
    if rule.weekdays or not all(1 <= abs(n) <= 366 for n in numbers):
        return None
    if rule.frequency is Frequency.YEARLY:
        return replace(rule, year_days=numbers)
    if rule.frequency is not Frequency.MONTHLY or not all(1 <= abs(n) <= 31 for n in numbers):
        return None
    return replace(rule, month_days=numbers)


def _by_position(rule: Every, numbers: tuple[int, ...], days: tuple[Weekday, ...]) -> Every | None:
    if rule.frequency is not Frequency.MONTHLY or rule.weekdays:
        return None
    return replace(rule, weekdays=days, set_positions=numbers)


def _monthly_nth(numbers: tuple[int, ...], days: tuple[Weekday, ...], interval: int | None) -> Every | None:
    if not all(1 <= abs(n) <= 5 for n in numbers) or days == WEEKEND:
        return None
    if days == WORKDAYS:  # "the last weekday" is one day, not the last of each
        return Every(Frequency.MONTHLY, interval or 1, days, set_positions=numbers)
    return Every(Frequency.MONTHLY, interval or 1, days, numbers)


def _monthly_day(numbers: tuple[int, ...], interval: int | None) -> Every | None:
    if not all(1 <= abs(n) <= 31 for n in numbers):
        return None
    return Every(Frequency.MONTHLY, interval or 1, month_days=numbers)


def _yearly_nth(numbers: tuple[int, ...], days: tuple[Weekday, ...]) -> Every | None:
    return Every(Frequency.YEARLY, weekdays=days, numbers=numbers) if all(abs(n) <= 53 for n in numbers) else None


def _nth_in_month(numbers: tuple[int, ...], days: tuple[Weekday, ...], month: int) -> Every | None:
    if not all(1 <= abs(n) <= 5 for n in numbers):
        return None
    return Every(Frequency.YEARLY, weekdays=days, numbers=numbers, months=(month,))


def _weekday_after_weekday(
    number: int, day: Weekday, other_number: int | None, other: Weekday, month: int | None
) -> Every | None:
    """The first Saturday after the first Sunday of the month: seven days of the month, one of them that weekday."""
    if number != 1 or other_number not in (None, 1):
        return None
    gap = (day - other) % 7 or 7
    span = tuple(range(1 + gap, 8 + gap))
    if month is None:
        return Every(Frequency.MONTHLY, weekdays=(day,), month_days=span)
    return Every(Frequency.YEARLY, weekdays=(day,), month_days=span, months=(month,))


def _workday_of_month(number: int, interval: int | None) -> Every | None:
    return (
        Every(Frequency.MONTHLY, interval or 1, WORKDAYS, set_positions=(number,)) if 1 <= abs(number) <= 23 else None
    )


def _iso_weeks(days: tuple[Weekday, ...], week: DateExpression) -> Every | None:
    number = week.number if isinstance(week, Week | IsoWeek) else None
    if number is None or not 1 <= number <= 53:
        return None
    return Every(Frequency.YEARLY, weekdays=days, iso_weeks=(number,))


def _yearly_on(day: DateExpression) -> Every | None:
    match day:
        case MonthDay(month, number, None):
            return Every(Frequency.YEARLY, months=(month,), month_days=(number,))
    return None


def _yearly_days(day: DateExpression, more: tuple[int, ...]) -> Every | None:
    match day:
        case MonthDay(month, number, None):
            return Every(Frequency.YEARLY, months=(month,), month_days=(number, *more))
    return None


def _classes(kind: str | None = "", shift: int = 0) -> Every:
    return Every(Frequency.MEETING, kind=kind or "", shift_days=shift)


def _before_classes(count: int, unit: Unit, kind: str) -> Reading | None:
    if unit not in (Unit.DAY, Unit.WEEK) or not 1 <= count <= 14:
        return None
    return Reading(_classes(kind, -count * (7 if unit is Unit.WEEK else 1)))


def _rotation(letter: str) -> Every | None:
    return Every(Frequency.DAILY, rotation=letter) if letter in "ABCDEFGH" else None


def _from_first(start: DateExpression, rule: Every, rest: Bounds | None) -> Reading | None:
    return bounded(rule, merge(Bounds(start=start), rest or Bounds()))


def _with_time(time: TimeWords, reading: Reading) -> Reading | None:
    return reading.at(time)


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_DAY_LISTS = (
    Rule("<weekday> in a list", "<wday1>", lambda d: (d,), "<dayset>", ("every Friday",)),
    Rule("<weekdays> and <weekdays>", "<wday1> ,|and|&|/|+|or [and] <dayset>", _more_days, "<dayset>",
         ("every Monday and Wednesday", "every Monday, Wednesday and Friday")),
    Rule("<weekday>-<weekday>", "<weekday> -|to|through|thru <weekday>", _day_range, "<dayset>", ("every Mon-Wed",)),
    Rule("<weekday>s-<weekday>s", "<weekdays> -|to|through|thru <weekdays>", _day_range, "<dayset>",
         ("weekly on Mondays through Thursdays",)),
    Rule("<letters of weekdays> as days", "<pattern>", pass_on, "<patternset>", ("MWF 10:00-10:50",)),
    Rule("<letter>-<letter>", "<letterday> - <lettday>", _day_range, "<patternset>", ("M-F 9:00-10:00",)),
    Rule("<letter>/<letter>", "<lettday> / <letterset>", _more_days, "<patternset>", ("M/W 9:30",)),
    Rule("<letter> in a list", "<lettday>", lambda d: (d,), "<letterset>", ("M/W 9:30",)),
    Rule("<letters> in a list", "<lettday> / <letterset>", _more_days, "<letterset>", ("M/W/F 9:30",)),
    Rule("<letter of a weekday>", "<letterday>", pass_on, "<lettday>", ("M/W 9:30",)),
    Rule("<short weekday> among letters", "<weekday>", pass_on, "<lettday>", ("T/Th 9:30",)),
    Rule("<weekday> alone", "<weekday>", pass_on, "<wday1>", ("every Friday",)),
    Rule("<weekdays> alone", "<weekdays>", pass_on, "<wday1>", ("weekly on Fridays",)),
    Rule("weekdays", "weekday|weekdays", lambda: WORKDAYS, "<dayset>", ("every weekday",)),
    Rule("weekends", "weekend|weekends", lambda: WEEKEND, "<dayset>", ("every weekend",)),
    Rule("<weekdays> in the plural", "<weekdays>", lambda d: (d,), "<pluralset>", ("Mondays at noon",)),
    Rule("<weekdays> and <weekdays> in the plural", "<weekdays> ,|and|&|/|+ [and] <pluralset>", _more_days,
         "<pluralset>", ("Tuesdays and Thursdays",)),
    Rule("<weekday> and <weekdays>", "<weekday> ,|and|&|/|+ [and] <pluralset>", _more_days, "<pluralset>",
         ("Monday and Wednesdays",)),
    Rule("<weekday>s-<weekday>s alone", "<weekdays> -|to|through|thru <weekdays>", _day_range, "<pluralset>",
         ("Mondays-Thursdays",)),
    Rule("weekdays alone", "weekdays", lambda: WORKDAYS, "<pluralset>", ("weekdays at 9 am",)),
    Rule("weekends alone", "weekends", lambda: WEEKEND, "<pluralset>", ("on weekends",)),
    Rule("<weekdays> with a slash", "<weekday> /|&|and <slashset>", _more_days, "<slashset2>",
         ("Mon/Wed/Fri", "Tues & Thurs")),
    Rule("<weekday> after a slash", "<weekday>", lambda d: (d,), "<slashset>", ("Mon/Wed",)),
    Rule("<weekdays> after a slash", "<slashset2>", pass_on, "<slashset>", ("Mon/Wed/Fri",)),
    Rule("<weekday>, <weekday> and <weekday>", "<weekday> , <weekday> [,] and|& <weekday>",
         lambda a, b, c: _more_days(a, (b, c)), "<slashset2>", ("Monday, Wednesday, and Friday",)),
    Rule("<ordinal> in a list", "<ordinal>", lambda n: (n,), "<ordinals>", ("first Monday of each month",)),
    Rule("<ordinals>", "<ordinal> ,|and|& [and] <ordinals>", lambda n, rest: (n, *rest) if n not in rest else None,
         "<ordinals>", ("first and third Monday of each month", "first, second, and third Friday of each month")),
)

_STEPS = (
    Rule("every", "{each}", lambda: 1, "<step>", ("every Friday",)),
    Rule("every other", "every|each other", lambda: 2, "<step>", ("every other Friday",)),
    Rule("alternate", "[on] alternate|alternating", lambda: 2, "<step>", ("alternate Fridays",)),
    Rule("every <ordinal>", "every|each <nth>", pass_on, "<step>", ("every 3rd week",)),
    Rule("every <ordinal word>", "every|each <ordword>", pass_on, "<step>", ("every second Friday",)),
    Rule("every <number>", "every|each <num>", pass_on, "<step>", ("every 3 weeks on Monday",)),
    Rule("every <number word>", "every|each <numword>", pass_on, "<step>", ("every two weeks",)),
    Rule("each month", "{of} <step> month|months", pass_on, "<eachmonth>", ("the first Monday of each month",)),
    Rule("of the month", "of|in the month", lambda: 1, "<eachmonth>",
         ("first Friday of the month, 10 times from Sept 5",)),
    Rule("monthly as a step", "monthly", lambda: 1, "<eachmonth>", ("first Friday monthly",)),
)

_RULES = (
    Rule("every <weekday>", "[on] <step> <dayset>", lambda n, d: _weekly(d, n), "<every>",
         ("every Friday", "every other Friday", "every wed", "each Monday and Wednesday")),
    Rule("<weekdays>", "[on] <pluralset>", _weekly, "<every>", ("Mondays", "Tuesdays and Thursdays", "on weekdays")),
    Rule("<weekday>/<weekday>", "[on] <slashset2>", _weekly, "<weakevery>", ("Mon/Wed/Fri",)),
    Rule("<letters of weekdays> alone", "[on] <patternset>", _weekly, "<weakevery>", ("MWF", "TTh", "M/W")),
    Rule("<weekday>-<weekday> each week", "[on] <weekday> -|to|through|thru <weekday>",
         lambda a, b: _weekly(_day_range(a, b) or ()), "<daysevery>", ("Mon-Fri 9:00-10:15",)),
    Rule("<weekday> of each week", "[the|on] <wday1> of|in each|every week", lambda d: _weekly((d,)), "<every>",
         ("Friday of each week",)),
    Rule("<weekdays> every other week", "[on] <dayset> <step> week|weeks", _weekly, "<every>",
         ("Tuesdays and Sundays every other week", "Friday each week")),
    Rule("every <count> weeks on <weekday>", "<step> week|weeks [,] [on|by] <dayset>", lambda n, d: _weekly(d, n),
         "<every>", ("every other week on Monday, Wednesday and Friday", "every week on Tues")),
    Rule("weekly on <weekday>", "weekly [,] [on|each|every|by] <dayset>", _weekly, "<every>", ("weekly on Fridays",)),
    Rule("<weekdays> weekly", "[on] <dayset> weekly", _weekly, "<every>", ("Fridays weekly",)),
    Rule("biweekly on <weekday>", "bi - weekly [,] [on] <dayset>", lambda d: _weekly(d, 2), "<every>",
         ("bi-weekly on Friday",)),
    Rule("biweekly on <weekdays>", "biweekly|fortnightly [,] [on] <dayset>", lambda d: _weekly(d, 2), "<every>",
         ("biweekly on Fridays",)),
    Rule("once a week on <weekday>", "once|twice a|per|each|every week [,] [on] <dayset>", _weekly, "<every>",
         ("once a week on Sunday",)),
    Rule("every <unit>", "<step> <unitword>", _every, "<every>",
         ("every day", "every week", "every two weeks", "every other day")),
    Rule("every day", "everyday", lambda: Every(Frequency.DAILY), "<every>", ("everyday at 8 am",), Scope.WHOLE),
    Rule("daily", "daily", lambda: Every(Frequency.DAILY), "<adverb>", ("daily",)),
    Rule("weekly", "weekly", lambda: Every(Frequency.WEEKLY), "<adverb>", ("weekly, starting Week 2",)),
    Rule("biweekly", "biweekly|fortnightly", lambda: Every(Frequency.WEEKLY, 2), "<adverb>",
         ("biweekly from Sept 8",)),
    Rule("bi-weekly", "bi - weekly", lambda: Every(Frequency.WEEKLY, 2), "<adverb>", ("bi-weekly from Sept 8",)),
    Rule("monthly", "monthly", lambda: Every(Frequency.MONTHLY), "<adverb>", ("monthly",)),
    Rule("once a week", "once a|per|each|every week", lambda: Every(Frequency.WEEKLY), "<adverb>", ("once a week",)),
    Rule("yearly", "yearly|annually", lambda: Every(Frequency.YEARLY), "<adverb>", ("yearly",)),
    Rule("<period>", "<adverb>", pass_on, "<period>", ("monthly on Friday",)),
    Rule("every <period>", "<step> month|months", lambda n: _every(n, Unit.MONTH), "<period>",
         ("every month on the 4th",)),
    Rule("every <years>", "<step> year|years", lambda n: _every(n, Unit.YEAR), "<period>",
         ("every year on the 1st Friday",)),
    Rule("once a month", "once|twice a|per month", lambda: Every(Frequency.MONTHLY), "<period>",
         ("once a month on the 4th",)),
    Rule("once a year", "once a|per year", lambda: Every(Frequency.YEARLY), "<period>",
         ("once a year on December 25th",)),
    Rule("<period> on <weekday>", "<period> [,] on <dayset>", _on_days, "<every>",
         ("monthly on Fri", "monthly on Tue and Fri")),
    Rule("<period> on the <ordinal> <weekday>", "<period> [,] on [the] <ordinals> <dayset>", _on_nth, "<every>",
         ("every month on the last Monday", "every year on the 1st Friday")),
    Rule("<period> on the <ordinal> day", "<period> [,] on [the] <ordinals> [day]", _on_month_days, "<every>",
         ("every month on the 4th day", "every 3rd month on the 4th")),
    Rule("<period> on the <ordinal> instance",
         "<period> [,] on the <ordinals> instance|instances|occurrence of <dayset>", _by_position, "<every>",
         ("monthly on the first and last instance of Tue and Fri",)),
    Rule("<period> on <date>", "<period> [,] on <date>", _on_date, "<every>", ("once a year on December 25th",)),
    Rule("<period> on <dates>", "<step> year [,] on <date> and|& <nth>",
         lambda n, d, m: _yearly_days(d, (m,)) if n == 1 else None, "<every>",
         ("every year on December 21st and 31st",)),
    Rule("<period> on the <ordinal> <weekday> of <month>",
         "once|every|each a|per|year [year] [,] [on] [the] <ordinals> <dayset> of|in <month>", _nth_in_month,
         "<every>", ("once a year on the fourth Thursday in November",)),
    Rule("every <ordinal> <weekday> of <month>", "every|each <ordinals> <dayset> of|in <month>", _nth_in_month,
         "<every>", ("every fourth Thursday in November",)),
    Rule("<ordinal> <weekday> of each month", "[on] [the] [every|each] <ordinals> <dayset> [day|days] <eachmonth>",
         _monthly_nth, "<every>", ("first Monday of each month", "2nd and last Fridays of each month")),
    Rule("every month, <ordinal> <weekday>", "every|each month [,] [on] [the] <ordinals> <dayset>",
         lambda n, d: _monthly_nth(n, d, 1), "<every>", ("every month the last Friday",)),
    Rule("<ordinal> day of each month", "[on] [the] [every|each] <ordinals> [day|days] <eachmonth>", _monthly_day,
         "<every>", ("first day of each month", "the 15th of every month", "last of each month")),
    Rule("beginning of each month", "[at] [the] beginning|start|begin <eachmonth>", lambda n: _monthly_day((1,), n),
         "<every>", ("beginning of each month",)),
    Rule("end of each month", "[at] [the] end <eachmonth>", lambda n: _monthly_day((-1,), n), "<every>",
         ("the end of each month",)),
    Rule("<ordinal> business day of each month", "[the] <ordinal> business|working day <eachmonth>",
         _workday_of_month, "<every>", ("last business day of each month",)),
    Rule("<ordinal> <weekday> of the year", "[the] <ordinals> <dayset> of the|each|every year", _yearly_nth,
         "<every>", ("20th Monday of the year from May 19, 1997",)),
    Rule("<ordinal> day of the year", "[the] <ordinals> day of every|each|the year",
         lambda n: _on_month_days(Every(Frequency.YEARLY), n), "<every>", ("31st day of every year",)),
    Rule("<weekday> after the first <weekday> of the month",
         "[the] <ordinal> <wday1> after the|a [<ordinal>] <wday1> of|in the|each|every month",
         lambda n, d, m, o: _weekday_after_weekday(n, d, m, o, None), "<every>",
         ("first Saturday after the first Sunday of the month from Sept 13, 1997",)),
    Rule("<weekday> after a <weekday> in <month>",
         "[the] <ordinal> <wday1> after the|a [<ordinal>] <wday1> of|in <month>", _weekday_after_weekday, "<every>",
         ("first Tuesday after a Monday in November, every 4 years from Nov 5, 1996",)),
    Rule("every <weekday> the <number>th", "every|each <weekday> the <nth>",
         lambda d, n: Every(Frequency.MONTHLY, weekdays=(d,), month_days=(n,)), "<every>",
         ("every Friday the 13th",)),
    Rule("every <month> <day>", "every|each <date>", _yearly_on, "<every>", ("every July 4th",)),
    Rule("every year in week <number>", "every|each year in <week>", lambda w: _iso_weeks((), w), "<every>",
         ("every year in week 12",), Scope.WHOLE),
    Rule("every <weekday> in week <number>", "every|each <dayset> in <week>", _iso_weeks, "<every>",
         ("every Fri in week 12",), Scope.WHOLE),
    Rule("<weekday> of week number <number>", "<dayset> of|in week number <num>",
         lambda d, n: _iso_weeks(d, IsoWeek(n)), "<every>", ("Monday of week number 20 from May 12, 1997",)),
    Rule("every class", "[in|at|to|for] each|every <classkind> [meeting|session|period|day]", lambda k: _classes(k),
         "<every>", ("each lab", "at every class")),
    Rule("every A day", "[on] each|every <letter> [-] day", _rotation, "<every>", ("every A day",)),
)

_CLASS_TIMES = (
    Rule("the night before each class", "[on] [the] night|evening before each|every <classkind> [meeting|session]",
         lambda k: Reading(_classes(k, -1), TimeWords(point=TimePoint.NIGHT)), "<everyreading>",
         ("the night before each class",)),
    Rule("the day before each class", "[on] [the] day before each|every <classkind> [meeting|session]",
         lambda k: Reading(_classes(k, -1)), "<everyreading>", ("the day before every class",)),
    Rule("<count> days before each class", "<count> <unit> before each|every <classkind> [meeting|session]",
         _before_classes, "<everyreading>", ("two days before each class",)),
    Rule("<hours> hours before each class", "<count> hours before each|every <classkind> [meeting|session]",
         lambda n, k: Reading(_classes(k, -n // 24)) if n > 0 and n % 24 == 0 else None, "<everyreading>",
         ("24 hours before each class",)),
    Rule("the day after each class", "[on] [the] day after each|every <classkind> [meeting|session]",
         lambda k: Reading(_classes(k, 1)), "<everyreading>", ("the day after each class",)),
    Rule("the start of each class",
         "[by|at] [the] start|beginning of each|every <classkind> [meeting|session|period]",
         lambda k: Reading(_classes(k), TimeWords(point=TimePoint.START_OF_CLASS)), "<everyreading>",
         ("at the beginning of each class",)),
    Rule("before each class", "before|prior|by [to] each|every <classkind> [meeting|session|period]",
         lambda k: Reading(_classes(k), TimeWords(point=TimePoint.START_OF_CLASS)), "<everyreading>",
         ("before each class",)),
    Rule("the end of each class", "[by|at] [the] end of each|every <classkind> [meeting|session|period]",
         lambda k: Reading(_classes(k), TimeWords(point=TimePoint.END_OF_CLASS)), "<everyreading>",
         ("the end of each class",)),
    Rule("every <weekday> class",
         "[at|in|to] [the] [start|beginning] [of] each|every <wday1> class|lecture|meeting|session",
         lambda d: Reading(_weekly((d,))), "<everyreading>", ("every Monday class",)),
    Rule("the end of each week", "[by|at] [the] end of each|every week",
         lambda: Reading(Every(Frequency.WEEKLY), doubts=('"the end of each week" names no day of the week',)),
         "<everyreading>", ("by the end of each week",)),
)

_WHOLE = (
    Rule("<rule>", "<every> [<bounds>]", bounded, "<everyreading>", ("every Friday by 5 pm",)),
    Rule("<weak rule> <bounds>", "<weakevery> <bounds>", bounded, "<everyreading>", ("MWF 10:00-10:50",)),
    Rule("<days> <stretch of time>", "<daysevery> [,] [from] <timerange>", lambda e, t: Reading(e, t), "<classtimes>",
         ("Mon-Fri 9:00-10:15",)),
    Rule("<adverb> <bounds>", "<adverb> <bounds>", bounded, "<everyreading>", ("weekly, starting Week 2",)),
    Rule("<time> <rule>", "<time> [,] [on] <everyreading>", _with_time, "<everytimed>", ("5 pm every Friday",)),
    Rule("by <time> on <rule>", "<athour> <everyreading>", _with_time, "<everytimed>", ("at 5 every Friday",)),
    Rule("<weekday> by <time> each week", "<wday1> <time> <step> week|weeks",
         lambda d, t, n: Reading(_weekly((d,), n), t), "<everyreading>", ("Friday by 5 pm each week",)),
    Rule("<rule>, every <count> years", "<every> [,] every <count> years [<bounds>]",
         lambda e, n, b: bounded(replace(e, interval=n), b) if e.frequency is Frequency.YEARLY else None,
         "<everyreading>", ("first Tuesday after a Monday in November, every 4 years from Nov 5, 1996",)),
    Rule("from <date>, <rule>", "{from} [on] [in] [the] <limit> [on] [,] [on] <every> [<bounds>]", _from_first,
         "<everytimed>", ("starting in week 3, every Wednesday", "from Sept 8 on, every Monday at noon")),
)
# fmt: on

RULES = (*_DAY_LISTS, *_STEPS, *_RULES, *_CLASS_TIMES, *_WHOLE)
