"""Rules for days that are written out: month and day, numeric dates, day numbers, with or without weekday and year."""

from __future__ import annotations

import calendar
from dataclasses import replace
from datetime import date

from syllabus_io.resolve.expression import (
    CalendarMonth,
    DateExpression,
    DayInMonth,
    DayOf,
    FullDate,
    MonthDay,
    NumericDate,
    Reference,
    Weekday,
    WholeMonth,
)
from syllabus_io.resolve.rules import Rule, Scope, pass_on

__all__ = ["RULES", "date_in", "numeric_date"]

WrittenDay = FullDate | MonthDay | NumericDate


def date_in(month: int, day: int, year: int | None = None, weekday: Weekday | None = None) -> WrittenDay | None:
    """The day of a month, with its year when there is one; None when the month has no such day."""
    if not 1 <= month <= 12 or not 1 <= day <= 31:
        return None
    if year is None:
        return MonthDay(month, day, weekday) if day <= calendar.monthrange(2000, month)[1] else None
    if day > calendar.monthrange(year, month)[1]:
        return None
    return FullDate(date(year, month, day), weekday)


def numeric_date(first: int, second: int, year: int | None = None) -> WrittenDay | None:
    """Two numbers of which one is the month; a plain date where only one order gives a day."""
    month_first = date_in(first, second, year)
    day_first = date_in(second, first, year)
    if month_first is None or day_first is None or first == second:
        return month_first or day_first
    return NumericDate(first, second, year)


def with_weekday(weekday: Weekday | None, day: DateExpression, other: Weekday | None = None) -> DateExpression | None:
    """The day with the weekday written beside it; None when two different weekdays are written."""
    if weekday is not None and other is not None and weekday != other:
        return None
    found = weekday or other
    if found is None:
        return day
    if isinstance(day, FullDate | MonthDay | NumericDate | DayInMonth) and day.weekday in (None, found):
        return replace(day, weekday=found)
    return None


def _month_day_year(month: int, day: int, year: int | None) -> WrittenDay | None:
    return date_in(month, day, year)


def _month_day_late_year(month: int, day: int, year: int) -> WrittenDay | None:
    """ "Aug 9, 96"; but "Feb 10, 12" are two days."""
    return date_in(month, day, year) if year % 100 > 31 else None


def _day_month_year(day: int, month: int, year: int | None) -> WrittenDay | None:
    return date_in(month, day, year)


def _year_month_day(year: int, month: int, day: int) -> WrittenDay | None:
    return date_in(month, day, year)


def _in_month_of(day: int, month: DateExpression) -> DateExpression | None:
    if not isinstance(month, CalendarMonth | WholeMonth):
        return None
    return DayOf(month, day)


def _weekday_day(weekday: Weekday, day: int) -> DateExpression | None:
    return DayInMonth(day, weekday) if 1 <= day <= 31 else None


def _tens(tens: int, unit: int) -> int | None:
    return tens + unit if 1 <= unit <= 9 else None


def _thousands(thousands: int, rest: int | None) -> int | None:
    if thousands != 2:
        return None
    return 2000 + (rest or 0) if (rest or 0) < 200 else None


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_DAY_NUMBERS = (
    Rule("<day number>", "<dd>", pass_on, "<dom>", ("October 12",)),
    Rule("<day number>th of a month", "<nth>", lambda n: n if 1 <= n <= 31 else None, "<dom>", ("October 12th",)),
    Rule("<day number> th", "<dd> th|st|nd|rd", pass_on, "<dom>", ("December 7 th",)),
    Rule("<ordinal word> of a month", "<ordword>", lambda n: n if 1 <= n <= 31 else None, "<dom>", ("May eighth",)),
    Rule("twenty-<ordinal word>", "<tens> [-] <ordword>", _tens, "<dom>", ("May twenty-first",)),
    Rule("<number word> as a day", "<numword>", pass_on, "<dom>", ("June five 2016",), Scope.WHOLE),
    Rule("twenty-<number word> as a day", "<tens> [-] <numword>", _tens, "<dom>", ("May twenty-five",), Scope.WHOLE),
    Rule("<tens word> as a day", "<tens>", pass_on, "<dom>", ("June thirty",), Scope.WHOLE),
    Rule("<year>", "<year>", pass_on, "<years>", ("October 12, 2025",)),
    Rule("'<two-digit year>", "<'yy>", pass_on, "<years>", ("October 12, '25",)),
    Rule("of <year>", "of|in <year>", pass_on, "<years>", ("4th of July of 1995",)),
    Rule("two thousand", "<numword> thousand [and] [<small>]", _thousands, "<years>",
         ("February 2, two thousand ten",)),
    Rule("<number word> in a year", "<numword>", pass_on, "<small>", ("February 2, two thousand ten",)),
    Rule("<tens> in a year", "<tens>", pass_on, "<small>", ("February 2, two thousand twenty",)),
    Rule("<tens> <number> in a year", "<tens> [-] <numword>", _tens, "<small>", ("May 1, two thousand thirty-two",)),
)

_WITH_MONTH_NAME = (
    Rule("<month> <day>, <year>", "<month> [,] [the] <dom> [of <month>] [,] <years>",
         lambda m, d, again, y: None if again else date_in(m, d, y), "<date>", ("October 12, 2025", "Jan 1,2010")),
    Rule("<month> <day>", "<month> [,] [the] <dom>", lambda m, d: date_in(m, d), "<date>",
         ("October 12", "Oct. 12th", "July, 13th", "April the 22nd")),
    Rule("<day> <month> <year>", "[the] <dom> [day] [of] <month> [,] <years>", _day_month_year, "<date>",
         ("12 October 2025", "2nd of March, 2016")),
    Rule("<day> <month>", "[the] <dom> [day] [of] <month>", lambda d, m: date_in(m, d), "<date>",
         ("12 October", "the 12th of October")),
    Rule("<day>-<month>-<year>", "<dd> -|/|. <month> -|/|.|, <years>", _day_month_year, "<date>",
         ("10-Sep-2015", "8/Oct/2012")),
    Rule("<day>. <month> <year>", "<dd> . <month> [,] <years>", _day_month_year, "<date>", ("16. Nov 2016",)),
    Rule("<day>-<month>-<two-digit year>", "<dd> -|/|. <month> -|/|. <yy>", _day_month_year, "<date>",
         ("10-Sep-15",)),
    Rule("<day>.<month>.<two-digit year>", "<dd> . <month> <yy>", _day_month_year, "<date>", ("12.Sep.25",),
         glued=True),
    Rule("<day> <month> <two-digit year>", "<dom> <month> [,] <yy>", _day_month_year, "<date>", ("9 Aug 96",),
         Scope.WHOLE),
    Rule("<month> <day>, <two-digit year>", "<month> <dom> , <yy>", _month_day_late_year, "<date>", ("Aug 9, 96",),
         Scope.WHOLE),
    # With blanks around the dash the number belongs to the words before it: "Quiz 2 - Oct 6".
    Rule("<day>-<month>", "<dd> -|/|. <month>", lambda d, m: date_in(m, d), "<date>", ("28-Jan", "29.Sept"),
         glued=True),
    Rule("<day>. <month>", "<dd> -|/|. <month>", lambda d, m: date_in(m, d), "<date>", ("29. Sept", "28 - Jan"),
         Scope.WHOLE),
    Rule("<month>-<day>-<year>", "<month> -|/|. <dd> -|/|. <years>", _month_day_year, "<date>", ("Sep-10-2015",)),
    Rule("<month>-<day>-<two-digit year>", "<month> -|/|. <dd> -|/|. <yy>", _month_day_year, "<date>",
         ("Sep-10-15",)),
    Rule("<month>-<day>", "<month> -|/|. <dom>", lambda m, d: date_in(m, d), "<date>", ("Jan-1", "Jan/3")),
    Rule("<year> <month> <day>", "<year> [-|/|.|,] <month> [-|/|.] <dom>", _year_month_day, "<date>",
         ("2019-aug-1", "2009 May 22nd")),
    Rule("<day> of <month of the year>", "[the] <dom> [day] [of|in] <months>", _in_month_of, "<date>",
         ("the 10th of next month",)),
)

_NUMERIC = (
    Rule("<year>-<month number>-<day>", "<year> -|/|. <num> -|/|. <num>", _year_month_day, "<date>",
         ("2025-10-12", "2016/03/13"), glued=True),
    Rule("<year> <month number> <day>", "<year> <mm> <mm>", _year_month_day, "<date>", ("2016 10 16",), Scope.WHOLE),
    Rule("<number>/<number>/<year>", "<dd> / <dd> /|, <year>", numeric_date, "<date>", ("10/12/2025", "25/09/2003")),
    Rule("<number>-<number>-<year>", "<dd> - <dd> - <year>", numeric_date, "<date>", ("12-04-2019",)),
    Rule("<number>.<number>.<year>", "<dd> . <dd> . <year>", numeric_date, "<date>", ("12.10.2025", "26. 10.2021")),
    Rule("<number>/<number>/<two-digit year>", "<dd> / <dd> / <yy>", numeric_date, "<date>", ("10/12/25",)),
    Rule("<number>-<number>-<two-digit year>", "<dd> - <dd> - <yy>", numeric_date, "<date>", ("9-18-15",),
         glued=True),
    Rule("<number>.<number>.<two-digit year>", "<dd> . <dd> . <yy>", numeric_date, "<date>", ("24.11.17",),
         glued=True),
    Rule("<number> . <number> . <two-digit year>", "<dd> . <dd> . <yy>", numeric_date, "<date>", ("26. 10.21",),
         Scope.WHOLE),
    Rule("<number>/<number>/'<two-digit year>", "<dd> / <dd> / <'yy>", numeric_date, "<date>", ("10/12/'25",)),
    Rule("<number>/<number>", "<dd> / <dd>", lambda a, b: None if (a, b) == (24, 7) else numeric_date(a, b), "<date>",
         ("10/12", "10/25", "25/10")),
    Rule("<number>.<number>.", "<dd> . <dd> .", lambda d, m: date_in(m, d), "<date>", ("14.9.",), Scope.WHOLE,
         glued=True),
    Rule("<number>.<number>", "<dd> . <dd>", numeric_date, "<date>", ("16.12",), Scope.WHOLE, glued=True),
)

_WITH_WEEKDAY = (
    Rule("<date>", "<date>", pass_on, "<day>", ("October 12",)),
    Rule("<weekday>, <date>", "<wday> [,|-|:|.] [the] <date>", with_weekday, "<day>",
         ("Mon 10/12", "Tues., Oct 7", "Sunday, March 6, 2016")),
    Rule("<date>, <weekday>", "<date> [,|-] <wday>", lambda d, w: with_weekday(w, d), "<day>",
         ("Jul 18, Fri", "10/12 Mon")),
    Rule("<date> (<weekday>)", "<date> [,] ( <wday> )", lambda d, w: with_weekday(w, d), "<day>", ("Nov 12 (Sun)",)),
    Rule("<date> (<letter of a weekday>)", "<date> ( <letterday> )", lambda d, w: with_weekday(w, d), "<day>",
         ("9/12/25 (F)",)),
    Rule("(<weekday>) <date>", "( <wday> ) <date>", with_weekday, "<day>", ("(Sun) Nov 12",)),
    Rule("<date> (<weekday>", "<date> ( <wday>", lambda d, w: with_weekday(w, d), "<day>", ("Nov 12 (Sun",),
         Scope.WHOLE),
    Rule("<month> <day>, <weekday>, <year>", "<month> <dom> , <wday> , <years>",
         lambda m, d, w, y: date_in(m, d, y, w), "<day>", ("October 12, Sunday, 2025",)),
    Rule("<letter of a weekday> <date>", "<letterday> <date>", with_weekday, "<day>", ("M 9/8", "R Oct 9")),
    Rule("<weekday> the <day number>th", "<wday> [,] [the] <nth>", _weekday_day, "<day>",
         ("Thu 17th", "Tuesday the 19th")),
    Rule("<weekday> the <ordinal word>", "<wday> [,] the <dom>", _weekday_day, "<day>", ("tuesday the thirty first",),
         Scope.WHOLE),
    Rule("<weekday> <day number>", "<wday> [,] [the] <dd>", _weekday_day, "<day>", ("Monday 21",), Scope.WEAK),
    Rule("the <day number>th", "the <nth>", lambda d: DayInMonth(d) if d <= 31 else None, "<daynumber>",
         ("the 12th",)),
    Rule("<day number>th", "<nth>", lambda d: DayInMonth(d) if d <= 31 else None, "<daynumber>", ("25th",),
         Scope.WEAK),
    Rule("the <day number>", "the <dd>", lambda d: DayInMonth(d), "<daynumber>", ("the 27",), Scope.WHOLE),
    Rule("<weekday> beside a date", "<weekday>", pass_on, "<wday>", ("Friday, October 10",)),
)

_MONTHS = (
    Rule("<month> <year>", "<month> [,|of] <years>", lambda m, y: WholeMonth(m, y), "<monthname>",
         ("October 2025", "Sept, 2025")),
    Rule("<month> name", "<month>", lambda m: WholeMonth(m), "<monthname>", ("October",)),
    Rule("this <month>", "this|next|coming <month>", lambda m: WholeMonth(m), "<monthname>", ("this October",),
         Scope.WHOLE),
    Rule("next month", "[the] next|following|coming month", lambda: CalendarMonth(Reference(), 1), "<months>",
         ("next month",)),
    Rule("last month", "[the] last|previous|past month", lambda: CalendarMonth(Reference(), -1), "<months>",
         ("last month",)),
    Rule("this month", "this|current month", lambda: CalendarMonth(Reference(), 0), "<months>", ("this month",)),
    Rule("the current month", "the month || current month", lambda: CalendarMonth(Reference(), 0), "<months>",
         ("the end of the month",), Scope.WHOLE),
    Rule("the month after <date>", "the month after <anyday>", lambda base: CalendarMonth(base, 1), "<months>",
         ("the month after March 3",)),
)
# fmt: on

RULES = (*_DAY_NUMBERS, *_WITH_MONTH_NAME, *_NUMERIC, *_WITH_WEEKDAY, *_MONTHS)
