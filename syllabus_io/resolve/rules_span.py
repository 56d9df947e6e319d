"""Rules for stretches of days: from one day to another, several days of one month, weeks from and to."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.resolve.expression import (
    CalendarMonth,
    DateExpression,
    DayInMonth,
    DayOf,
    Direction,
    FullDate,
    MeetingNumber,
    MonthDay,
    NamedDay,
    NumericDate,
    Offset,
    Reference,
    Span,
    Unit,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WholeMonth,
)
from syllabus_io.resolve.readings import NO_TIME, Reading, TimeWords
from syllabus_io.resolve.rules import Rule, Scope, pass_on
from syllabus_io.resolve.rules_absolute import date_in, numeric_date

__all__ = ["RULES", "span_between"]


def _in_year_of(first: MonthDay, last: FullDate) -> FullDate | None:
    """The first day of a span whose year stands only at its end, a year earlier where the span crosses New Year."""
    late = (first.month, first.day) > (last.day.month, last.day.day)
    found = date_in(first.month, first.day, last.day.year - late, first.weekday)
    return found if isinstance(found, FullDate) else None


def _with_order_of(first: DateExpression, last: DateExpression) -> tuple[DateExpression, DateExpression]:
    """Two numeric dates are written in the same order: what fixes one fixes the other ("5/12-15/12")."""
    if isinstance(first, NumericDate) and isinstance(last, MonthDay | FullDate):
        month, day = (last.month, last.day) if isinstance(last, MonthDay) else (last.day.month, last.day.day)
        fits = [
            (m, d)
            for m, d in ((first.first, first.second), (first.second, first.first))
            if (m, d) <= (month, day) and (month, day) <= (m + 1, d)
        ]
        if len(fits) == 1:
            found = date_in(*fits[0], first.year, first.weekday)
            return (found, last) if found is not None else (first, last)
    return first, last


def span_between(first: DateExpression, last: DateExpression) -> DateExpression | None:
    """The stretch from one day to another; None when it would end before it begins."""
    if isinstance(first, MonthDay) and isinstance(last, FullDate):
        first = _in_year_of(first, last) or first
    if isinstance(first, NumericDate) and isinstance(last, NumericDate) and first.year is None:
        first = replace(first, year=last.year)
    if isinstance(first, NumericDate) and first.year is None and isinstance(last, FullDate):
        first = replace(first, year=last.day.year)
    if isinstance(first, FullDate) and isinstance(last, MonthDay):
        late = (first.day.month, first.day.day) > (last.month, last.day)
        last = date_in(last.month, last.day, first.day.year + late, last.weekday) or last
    first, last = _with_order_of(first, last)
    if isinstance(first, FullDate) and isinstance(last, FullDate) and last.day <= first.day:
        return None
    return Span(first, last) if first != last else None


def _days_of_month(month: int, first: int, last: int, year: int | None = None) -> Span | None:
    start, end = date_in(month, first, year), date_in(month, last, year)
    return Span(start, end) if start is not None and end is not None and first < last else None


def _to_month_day(first: int, last: DateExpression) -> DateExpression | None:
    """ "3 to October 7": the first day takes the month of the last."""
    match last:
        case MonthDay():
            return _days_of_month(last.month, first, last.day)
        case FullDate():
            return _days_of_month(last.day.month, first, last.day.day, last.day.year)
        case NumericDate():
            return None
    return None


def _from_month_day(first: DateExpression, weekday: Weekday | None, last: int) -> DateExpression | None:
    """ "Mon Sept 29-Fri 3": the last day takes the month of the first, or the month after it."""
    if not isinstance(first, MonthDay):
        return None
    if first.day < last:
        end = date_in(first.month, last, None, weekday)
        return Span(first, end) if end is not None else None
    return None


def _numeric_days(first: int, second: int, last: int, year: int | None = None) -> DateExpression | None:
    """ "9/18-20": the second part goes on counting."""
    start = numeric_date(first, second, year)
    match start:
        case MonthDay(month, day):
            return _days_of_month(month, day, last) if day == second else None
        case FullDate(day):
            return _days_of_month(day.month, day.day, last, year) if day.day == second else None
        case NumericDate() if last > 12 and second < last and date_in(first, last, year) is not None:
            return _days_of_month(first, second, last, year)
        case NumericDate() if second < last:
            return Span(start, NumericDate(first, last, year)) if date_in(first, last, year) else None
    return None


def _numeric_span(a: int, b: int, c: int, d: int, year: int) -> DateExpression | None:
    first, last = numeric_date(a, b, year), numeric_date(c, d, year)
    return span_between(first, last) if first is not None and last is not None else None


def _numeric_to(day: int, numbers: DateExpression) -> DateExpression | None:
    """ "3. to 5.10.2017": the first number is a day of the month of the second date, day first."""
    match numbers:
        case NumericDate(first, second, year):
            return _days_of_month(second, day, first, year)
        case MonthDay() | FullDate():
            return _to_month_day(day, numbers)
    return None


def _points(first: DateExpression, last: DateExpression) -> DateExpression | None:
    """ "today - next Friday"; a date beside the name of a holiday ("January 19 – MLK Day") is one day."""
    return None if _is_date_named(first, last) or _is_date_named(last, first) else Span(first, last)


def _is_date_named(date: DateExpression, name: DateExpression) -> bool:
    return isinstance(date, FullDate | MonthDay | NumericDate) and isinstance(name, NamedDay)


def _weekdays(first: Weekday, last: Weekday) -> DateExpression | None:
    start = WeekdayNear(Reference(), first, Direction.ON_OR_AFTER)
    return Span(start, WeekdayNear(Reference(), last, Direction.AFTER)) if first != last else None


def _to_weekday(first: DateExpression, last: Weekday) -> DateExpression | None:
    return Span(first, WeekdayNear(Reference(), last, Direction.AFTER))


def _weekdays_in(first: Weekday, last: Weekday, week: DateExpression) -> DateExpression | None:
    return Span(WeekdayIn(week, first), WeekdayIn(week, last)) if first < last else None


def _this_month(first: DateExpression, last: DateExpression) -> DateExpression | None:
    match first, last:
        case DayInMonth(a), DayInMonth(b) if a < b:
            month = CalendarMonth(Reference(), 0)
            return Span(DayOf(month, a), DayOf(month, b))
    return None


def _day_numbers(first: DateExpression, last: DateExpression) -> DateExpression | None:
    match first, last:
        case DayInMonth(a), DayInMonth(b) if a < b:
            return Span(first, last)
    return None


def _timed_span(first: Reading, last: Reading) -> Reading | None:
    if first.expression is None or last.expression is None:
        return None
    if first.time == last.time == NO_TIME and isinstance(last.expression, MeetingNumber):
        return None  # "3/7 - Lecture 9" is a row of a schedule
    if _is_date_named(first.expression, last.expression) or _is_date_named(last.expression, first.expression):
        return None
    days = span_between(first.expression, last.expression)
    if days is None:
        return None
    time = first.time
    if last.time.start is not None:
        time = replace(time, end=last.time.start) if time.start is not None else TimeWords(None, last.time.start)
    return Reading(days, time, (*first.doubts, *last.doubts))


def _from_time(time: TimeWords, last: Reading) -> Reading | None:
    if last.expression is None or time.start is None or time.end is not None:
        return None
    return Reading(Span(Reference(), last.expression), replace(time, end=last.time.start))


def _whole_span(first: DateExpression, last: DateExpression) -> DateExpression | None:
    if isinstance(first, WholeMonth) and isinstance(last, WholeMonth):
        if first.year is None and last.year is not None:
            first = WholeMonth(first.month, last.year - (first.month > last.month))
        return Span(first, last) if first != last else None
    return Span(first, last)


def _for_weeks(count: int, unit: Unit, first: DateExpression) -> DateExpression | None:
    if unit not in (Unit.DAY, Unit.WEEK, Unit.MONTH) or count < 1:
        return None
    return Span(first, Offset(Offset(first, count, unit), -1, Unit.DAY))


def _with_weekdays(first: Weekday, last: Weekday, days: DateExpression) -> DateExpression | None:
    match days:
        case Span(FullDate() | MonthDay() | NumericDate() as start, FullDate() | MonthDay() | NumericDate() as end):
            return Span(replace(start, weekday=first), replace(end, weekday=last))
    return None


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_MONTH_NAME = (
    Rule("<month> <day>-<day>, <year>", "<month> [the] <dom> {to}|/ [the] <dom> [,] <years>", _days_of_month,
         "<dayspan>", ("Oct 3-5, 2025", "August 10 to 22, 2012")),
    Rule("<month> <day>-<day>", "<month> [the] <dom> {to} [the] <dom>", _days_of_month, "<dayspan>",
         ("Oct 3-5", "Dec 8–12", "July 13 through 15")),
    Rule("<month> <day>, <year>-<day>", "<month> <dom> - <dom> <month>",
         lambda m, a, b, n: _days_of_month(m, a, b) if m == n else None, "<dayspan>", ("Oct 3-5 Oct",), Scope.WHOLE),
    Rule("<month> between <day> and <day>", "<month> between [the] <dom> and [the] <dom>", _days_of_month,
         "<dayspan>", ("November between 19 and 20",), Scope.WHOLE),
    Rule("<month> from <day> to <day>", "<month> from|between [the] <dom> {to} [the] <dom>", _days_of_month,
         "<dayspan>", ("November from 19 to 20",), Scope.WHOLE),
    Rule("<day>-<day> <month> <year>", "[the] <dom> [.] {to} [the] <dom> [.] [of] <month> [,] <years>",
         lambda a, b, m, y: _days_of_month(m, a, b, y), "<dayspan>",
         ("10 - 22 August 2012", "from 16 to 17 November 2017")),
    Rule("<day>-<day> <month>", "[the] <dom> [.] {to} [the] <dom> [.] [of] <month>",
         lambda a, b, m: _days_of_month(m, a, b), "<dayspan>",
         ("3-5 October", "12 to 16 September", "13th to 15th of July")),
    Rule("between <day> and <day> <month>", "between [the] <dom> and [the] <dom> [of] <month> [[,] <years>]",
         lambda a, b, m, y: _days_of_month(m, a, b, y), "<dayspan>",
         ("between 2 and 7 Feb", "between 2 and 7 Feb 2018")),
    Rule("<day> and <day> <month>", "[the] <dom> and|& [the] <dom> [of] <month> [[,] <years>]",
         lambda a, b, m, y: _days_of_month(m, a, b, y) if b == a + 1 else None, "<dayspan>",
         ("10th & 11th December",), Scope.WHOLE),
    Rule("<day> / <day> <month>", "<dd> / <dd> <month> [[,] <years>]",
         lambda a, b, m, y: _days_of_month(m, a, b, y) if b == a + 1 else None, "<dayspan>", ("29 / 30 August",)),
    Rule("<month> <day>/<day>", "<month> <dd> /|&|and <dom> [[,] <years>]",
         lambda m, a, b, y: _days_of_month(m, a, b, y) if b == a + 1 else None, "<dayspan>",
         ("Sept 9/10", "May 4 and 5"), Scope.WHOLE),
    Rule("<day number> to <date>", "<dom> to|through|thru|until|till [the] <day>", _to_month_day, "<dayspan>",
         ("from 02 to April 07", "from 4 to January 22, 1995")),
    Rule("<date> to <weekday> <day>", "<day> {to} <wday> [the] <dom>", _from_month_day, "<dayspan>",
         ("Mon Sept 22 - Fri 26",)),
)

_NUMERIC = (
    Rule("<number>/<number>-<number>", "<dd> / <dd> - <dd>", _numeric_days, "<dayspan>", ("9/18-20",)),
    Rule("<number>/<number>-<number>/<year>", "<dd> / <dd> - <dd> / <year>", _numeric_days, "<dayspan>",
         ("9/18-20/2025",)),
    Rule("<number>/<number>-<number>, <year>", "<dd> / <dd> - <dd> , <year>", _numeric_days, "<dayspan>",
         ("9/18-20, 2025",)),
    Rule("<day>. to <number>.<number>.<year>", "<dd> . {to} <date>", _numeric_to, "<dayspan>",
         ("from 3. to 5.10.2017",)),
    Rule("<number>/<number>-<number>/<number>, <year>", "<dd> / <dd> {to} <dd> / <dd> , <year>", _numeric_span,
         "<dayspan>", ("5/1-5/7, 2020",)),
)

_GENERAL = (
    Rule("<date>-<date>", "<day> {to} [the] <day>", span_between, "<dayspan>",
         ("Sept 29 – Oct 3", "9/15–9/19", "Feb 28th to March 1st")),
    Rule("<date>, to <date>", "<day> , to|through|thru|until|till [the] <day>", span_between, "<dayspan>",
         ("from Monday, December 14, to Wednesday, December 16",)),
    Rule("<weekday>, <date>-<weekday>, <date>", "<wday> - <wday> [,|:] <dayspan>",
         lambda a, b, s: _with_weekdays(a, b, s), "<dayspan>", ("Mon-Fri, Oct 6-10",)),
    Rule("between <dates>", "between [the] <day> {to}|and [the] <day>", span_between, "<dayspan>",
         ("between Oct. 2 and October 22",)),
    Rule("from <dates>", "from [the] <dayspan>", pass_on, "<weekspan>", ("from March 1 until March 15",)),
    Rule("on <date> to <date>", "on [the] <dayspan>", pass_on, "<weekspan>", ("on the 22nd - 29th of August",),
         Scope.WHOLE),
    Rule("between <date>-<date>", "between <dayspan>", pass_on, "<weekspan>", ("between 4-22 January, 1995",),
         Scope.WHOLE),
    Rule("between <date> and inclusive", "[from] <dayspan> inclusive", pass_on, "<weekspan>", ("Oct 3-5 inclusive",)),
    Rule("<weekday> to <weekday>", "<wday> {to} <wday> || between <wday> and <wday> || from <wday> {to} <wday>",
         _weekdays, "<weekspan>", ("Wed - Thu",), Scope.WHOLE),
    Rule("<week>, <weekday>-<weekday>", "<week> [,|:] <wday> {to} <wday>", lambda s, a, b: _weekdays_in(a, b, s),
         "<weekspan>", ("Week 5, Mon-Wed",)),
    Rule("<day> to <weekday>", "[from] <point> {to} <wday>", _to_weekday, "<weekspan>",
         ("This Sunday till Tuesday", "from next Monday to Friday")),
    Rule("<day> to <day>", "[from] <point> {to} <point>", _points, "<weekspan>", ("today - next Friday",)),
    Rule("<day> to <date>", "[from] <point> to|through|thru|until|till <day>", Span, "<weekspan>",
         ("from tomorrow until Oct 3",)),
    Rule("<date> to <day>", "[from] <day> to|through|thru|until|till <point>", Span, "<weekspan>",
         ("from Oct 3 until next Friday",)),
    Rule("<class> to <class>", "[from] <meeting> to|through|thru|until|till [the] <meeting>", Span, "<weekspan>",
         ("from the first day of classes to the last day of classes",)),
    Rule("<date> to <class>", "[from] <day> to|through|thru|until|till [the] <meeting>", Span, "<weekspan>",
         ("from Oct 3 until the last day of classes",)),
    Rule("<class> to <date>", "[from] <meeting> to|through|thru|until|till <day>", Span, "<weekspan>",
         ("from the first class until Oct 3",)),
    Rule("<date> to <holiday>", "from <day> to|through|thru|until|till [the] <named>", Span, "<weekspan>",
         ("from Nov 3 through Thanksgiving",)),
    Rule("<weekday>-<weekday> of <week>", "[from] <wday> {to} <wday> [,] [of|in] <anyweek>", _weekdays_in,
         "<weekspan>", ("Mon-Wed of week 5",)),
    Rule("<week> to <week>", "[from] <week> {to} [the] <week>", Span, "<weekspan>",
         ("week of Oct 6 to week of Oct 20", "Week 3 to Week 5")),
    Rule("<weekday> <day> to <weekday> <day> this month", "[from] <day> {to} <day> this month", _this_month,
         "<weekspan>", ("From Tuesday 19th to Saturday 23 this month",), Scope.WHOLE),
    Rule("<day number> to <day number>", "[from] <daynumber> {to} <daynumber>", _day_numbers, "<weekspan>",
         ("the 12th to the 15th",)),
    Rule("<month> to <month>", "[from] <monthname> {to} <monthname>", _whole_span, "<monthspan>",
         ("September to November 2025",)),
    Rule("<day> for <count> <unit>", "<day> for <count> <unit>", lambda d, n, u: _for_weeks(n, u, d), "<weekspan>",
         ("Oct 3 for two weeks",), Scope.WHOLE),
    Rule("<dates> (<week>)", "<dayspan> [,|:|-] [(] <week> [)]", lambda s, _: s, "<weekspan>",
         ("Sept 8-12 (Week 2)",), Scope.WHOLE),
    Rule("<week> (<dates>)", "<week> [,|:|-] [(] <dayspan> [)]", lambda _, s: s, "<weekspan>",
         ("Week 3 (9/15–9/19)",), Scope.WHOLE),
)


_TIMED = (
    Rule("<timed date> to <timed date>", "[from] <timed> {to} <timed>", _timed_span, "<timedspan>",
         ("from 12-04-2019 6:00am until 12-05-2019 8:00pm",)),
    Rule("from <time> to <timed date>", "from <time> {to} <timed>", _from_time, "<timedspan>",
         ("from 2pm till tomorrow 4:30pm",), Scope.WHOLE),
)
# fmt: on

RULES = (*_MONTH_NAME, *_NUMERIC, *_GENERAL, *_TIMED)
