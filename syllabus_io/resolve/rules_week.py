"""Rules for weeks, weekdays within them, parts of weeks and months, and the n-th weekday of a month."""

from __future__ import annotations

from syllabus_io.resolve.expression import (
    Anchor,
    CalendarMonth,
    CalendarWeek,
    DateExpression,
    DayOf,
    Direction,
    IsoWeek,
    MonthPart,
    NthWeekday,
    Part,
    PartOf,
    Reference,
    Span,
    TermEdge,
    TermPoint,
    Week,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WeekOf,
    WholeMonth,
)
from syllabus_io.resolve.rules import Rule, Scope, pass_on

__all__ = ["RULES", "nth_weekday"]

#: No term numbers more weeks than a year has.
_MOST_WEEKS = 53
_THIS_WEEK = CalendarWeek(Reference(), 0)
TERM = Span(TermPoint(TermEdge.FIRST_DAY), TermPoint(TermEdge.LAST_DAY))


def _week(number: int) -> Week | None:
    return Week(number) if 0 <= number <= _MOST_WEEKS else None


def _nth_week(number: int) -> Week | None:
    return Week(number) if number == -1 or 1 <= number <= _MOST_WEEKS else None


def _iso_week(number: int, year: int | None = None) -> IsoWeek | None:
    return IsoWeek(number, year) if 1 <= number <= _MOST_WEEKS else None


def _iso_weekday(year: int, number: int, day: int) -> WeekdayIn | None:
    return WeekdayIn(IsoWeek(number, year), Weekday(day)) if 1 <= day <= 7 and 1 <= number <= _MOST_WEEKS else None


def _weeks(first: int, last: int) -> Span | None:
    return Span(Week(first), Week(last)) if 0 <= first < last <= _MOST_WEEKS else None


def _week_of(base: DateExpression) -> DateExpression | None:
    return WeekOf(base)


def _week_from(weekday: Weekday | None, base: DateExpression) -> DateExpression | None:
    """The week that begins with a day; a Sunday opens the week of the Monday after it."""
    if weekday is not None and getattr(base, "weekday", weekday) not in (None, weekday):
        return None
    return WeekOf(base)


def _weekday_in(weekday: Weekday, week: DateExpression) -> DateExpression | None:
    return WeekdayIn(week, weekday)


def nth_weekday(number: int, weekday: Weekday, month: DateExpression) -> DateExpression | None:
    if number == 0 or not -5 <= number <= 5:
        return None
    if isinstance(month, WholeMonth):
        return NthWeekday(number, weekday, month.month, month.year)
    if isinstance(month, CalendarMonth):
        return WeekdayIn(month, weekday, number)
    return None


def _week_of_month(number: int, month: DateExpression) -> DateExpression | None:
    """Seven days of a month, counted from its first day or from its end."""
    if 1 <= number <= 4:
        return Span(DayOf(month, 7 * number - 6), DayOf(month, 7 * number))
    return Span(DayOf(month, -7), DayOf(month, -1)) if number == -1 else None


def _weekend_near(base: DateExpression, direction: Direction) -> DateExpression:
    first, last = WeekdayNear(base, Weekday.SA, direction), WeekdayNear(base, Weekday.SU, direction)
    return Span(first, last)


def _month_part(part: Part, month: DateExpression) -> DateExpression | None:
    if isinstance(month, WholeMonth):
        return MonthPart(part, month.month, month.year)
    return PartOf(part, month)


def _end_of(stretch: DateExpression) -> DateExpression:
    return PartOf(Part.END, stretch)


def _weekend(week: DateExpression) -> DateExpression:
    return Span(WeekdayIn(week, Weekday.SA), WeekdayIn(week, Weekday.SU))


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_PARTS = (
    Rule("early", "early [-]", lambda: Part.EARLY, "<partword>", ("early March",)),
    Rule("mid", "mid|middle [-] [of] [the]", lambda: Part.MIDDLE, "<partword>", ("mid-October",)),
    Rule("the middle of", "the middle of [the]", lambda: Part.MIDDLE, "<partword>", ("the middle of October",)),
    Rule("late [-]", "late", lambda: Part.LATE, "<partword>", ("late November",)),
    Rule("the beginning of", "[the] beginning|start of [the]", lambda: Part.BEGINNING, "<partword>",
         ("the beginning of June",)),
    Rule("the end of", "[the] end of [the]", lambda: Part.END, "<partword>", ("the end of May",)),
)

_NUMBERED = (
    Rule("weeks <number>", "weeks|wks <weeknumber>", _week, "<week>", ("Weeks 3",)),
    Rule("week <number>", "week|wk [-] [no|number|nr [.]] [#] <weeknumber>", _week, "<week>",
         ("Week 5", "Wk. 5", "week five", "Week 0", "Week #7")),
    Rule("<week> of <term>", "<weekword> of [the] {term}", pass_on, "<week>", ("week 5 of the semester",)),
    Rule("<ordinal> week of <term>", "<nthweek> of [the] {term}", pass_on, "<week>", ("last week of the semester",)),
    Rule("<week> of classes", "<weekword> of {classes}", pass_on, "<week>", ("the last week of classes",)),
    Rule("<ordinal> week of classes", "<nthweek> of {classes}", pass_on, "<week>", ("5th week of classes",)),
    Rule("the <ordinal> week", "<weekword>", pass_on, "<week>", ("the fifth week", "the last week")),
    Rule("<ordinal> week", "<nthweek>", lambda week: week if week.number > 0 else None, "<week>", ("5th week",)),
    Rule("the <ordinal> week in words", "the <ordinal> [full] [class] week", _nth_week, "<weekword>",
         ("the last week",)),
    Rule("<ordinal> week in words", "<ordinal> [full] [class] week", _nth_week, "<nthweek>",
         ("5th week of classes",)),
    Rule("week <number> of the term", "week|wk <weeknumber>", _week, "<weekword>", ("week 5 of the semester",)),
    Rule("<number> in digits", "<num>", lambda n: n if n <= _MOST_WEEKS else None, "<weeknumber>", ("Week 5",)),
    Rule("<number> in words", "<numword>", pass_on, "<weeknumber>", ("Week five",)),
    Rule("weeks <number>-<number>", "weeks|wks|week|wk <weeknumber> {to} [week|wk] <weeknumber>", _weeks, "<weeks>",
         ("Weeks 11-12", "weeks 1 through 4")),
    Rule("weeks <number> and <number>", "weeks|wks|week|wk <weeknumber> and|&|/ [week|wk] <weeknumber>",
         lambda a, b: _weeks(a, b) if b == a + 1 else None, "<weeks>", ("weeks 8 and 9",)),
    Rule("ISO week <number>", "iso|calendar week <num> [of] [<year>]", _iso_week, "<week>",
         ("ISO week 37", "calendar week 37 of 2025")),
    Rule("KW <number>", "kw|cw <num>", _iso_week, "<week>", ("KW 37",)),
    Rule("<year>-W<number>", "<year> - w <num>", lambda y, n: _iso_week(n, y), "<week>", ("2025-W37",), glued=True),
    Rule("<year>-W<number>-<day>", "<year> - w <num> - <num>", _iso_weekday, "<point>", ("2025-W37-5",), glued=True),
)

_OF_DAY = (
    Rule("week of <date>", "[the] week|wk of|containing [:] <weekanchor>", _week_of, "<week>",
         ("Week of Sept 8", "the week of October 12")),
    Rule("week beginning <date>", "[the] week|wk beginning|starting|commencing|from [on] [:] <weekanchor>",
         lambda d: _week_from(None, d), "<week>", ("week beginning 8 September", "week starting Monday 10/6")),
    Rule("w/c <date>", "w / c|b [:] <weekanchor>", _week_of, "<week>", ("w/c 8 September",)),
    Rule("week ending <date>", "[the] week ending [on] [:] <weekanchor>", _week_of, "<week>",
         ("week ending Oct 10",)),
    Rule("<date> in a week of", "<day>", pass_on, "<weekanchor>", ("week of Sept 8",)),
    Rule("<day number> in a week of", "<daynumber>", pass_on, "<weekanchor>", ("the week of the 18th",)),
    Rule("<named day> in a week of", "<named>", pass_on, "<weekanchor>", ("the week of Thanksgiving",)),
    Rule("<span> in a week of", "<dayspan>", lambda s: s.first, "<weekanchor>", ("Week of Oct 6-10",)),
    Rule("<named day> week", "<named> week", _week_of, "<week>", ("Thanksgiving week",)),
    Rule("<anchor> in a week of", "<anchor>", pass_on, "<weekanchor>", ("the week of the midterm",)),
    Rule("<class> in a week of", "<meeting>", pass_on, "<weekanchor>", ("the week of the first class",)),
)

_RELATIVE = (
    Rule("this week", "this week", lambda: _THIS_WEEK, "<week>", ("this week",)),
    Rule("the current week", "[the] current week", lambda: _THIS_WEEK, "<week>", ("current week",)),
    Rule("the week", "the [same|current] week", lambda: _THIS_WEEK, "<thisweek>", ("the end of the week",)),
    Rule("that week", "that week", lambda: _THIS_WEEK, "<week>", ("Friday of that week",)),
    Rule("next week", "[the] next|following|coming|upcoming week", lambda: CalendarWeek(Reference(), 1), "<week>",
         ("next week", "the following week")),
    Rule("last week", "last week", lambda: CalendarWeek(Reference(), -1), "<lastweek>", ("Friday of last week",)),
    Rule("the previous week", "[the] previous|prior|past week", lambda: CalendarWeek(Reference(), -1), "<lastweek>",
         ("Friday of the previous week",)),
    Rule("the week after next", "[the] week after next", lambda: CalendarWeek(Reference(), 2), "<week>",
         ("the week after next",)),
    Rule("the week before last", "[the] week before last", lambda: CalendarWeek(Reference(), -2), "<week>",
         ("the week before last",)),
    Rule("the week after <date>", "[the] [first] week {after} <base>", lambda b: CalendarWeek(b, 1), "<week>",
         ("the week after the midterm", "week after spring break")),
    Rule("the week before <date>", "[the] week {before} [to] <base>", lambda b: CalendarWeek(b, -1), "<week>",
         ("the week before finals",)),
    Rule("the <ordinal> week after <date>", "[the] <ordinal> week {after} <base>",
         lambda n, b: CalendarWeek(b, n) if n > 0 else None, "<week>", ("the second week after the break",)),
)

_WEEKDAYS = (
    Rule("<weekday> of <week>", "[the] [on] <wday> [,] {of} <anyweek>", _weekday_in, "<point>",
         ("the Friday of week 5", "Tuesday of the week of 8 September")),
    Rule("<weekday>, <week>", "[on] <wday> [,|-] <week>", _weekday_in, "<point>",
         ("Thursday, week 5", "wednesday next week")),
    Rule("<weekday> (<week>)", "<wday> ( <week> )", _weekday_in, "<point>", ("Thursday (week 5)",)),
    Rule("<week> <weekday>", "<week> [,|-|:] [on] <wday>", lambda s, d: _weekday_in(d, s), "<point>",
         ("Wk 5 Thu", "Week 5, Thursday", "next week on Tuesday")),
    Rule("<week> (<weekday>)", "<week> ( <wday> )", lambda s, d: _weekday_in(d, s), "<point>", ("Week 5 (Thu)",)),
    Rule("this <weekday>", "this|coming [coming] <wday>",
         lambda d: WeekdayNear(Reference(), d, Direction.ON_OR_AFTER), "<point>", ("this Friday",)),
    Rule("the coming <weekday>", "the|this coming|upcoming <wday>",
         lambda d: WeekdayNear(Reference(), d, Direction.AFTER), "<point>", ("the coming Friday",)),
    Rule("next <weekday>", "next <wday>", lambda d: WeekdayIn(CalendarWeek(Reference(), 1), d), "<point>",
         ("next Friday",), doubt='"next" before a weekday may mean the one to come or the one of the week after'),
    Rule("the following <weekday>", "[the|on] [the] following <wday>",
         lambda d: WeekdayNear(Reference(), d, Direction.AFTER), "<point>", ("the following Tuesday",)),
    Rule("the next <weekday>", "the|on [the] next <wday>", lambda d: WeekdayNear(Reference(), d, Direction.AFTER),
         "<point>", ("the next Tuesday",)),
    Rule("the previous <weekday>", "[the] last|previous|past|preceding|prior <wday>",
         lambda d: WeekdayNear(Reference(), d, Direction.BEFORE), "<point>", ("last Friday",), Scope.WHOLE),
    Rule("<weekday> of a month", "[the] <ordinal> [to] <wday> [day] {of} <anymonth>", nth_weekday, "<point>",
         ("second Tuesday of October", "last Friday in November", "the first Friday of next month")),
    Rule("<ordinal> <weekday> this <month>", "[the] <ordinal> <wday> <monthname>", nth_weekday, "<point>",
         ("3rd Thursday this September",), Scope.WHOLE),
    Rule("<weekday> after next", "[the] <wday> after next", lambda d: WeekdayNear(Reference(), d, Direction.AFTER, 2),
         "<point>", ("Wednesday after next",)),
    Rule("<week> in a weekday of", "<week>", pass_on, "<anyweek>", ("Friday of week 5",)),
    Rule("the week in a weekday of", "<thisweek>", pass_on, "<anyweek>", ("Friday of the week",)),
    Rule("last week as a whole", "<lastweek>", pass_on, "<window>", ("last week",), Scope.WHOLE),
    Rule("last week in a weekday of", "<lastweek>", pass_on, "<anyweek>", ("Friday of last week",)),
    Rule("each week in a weekday of", "<finals>", pass_on, "<anyweek>", ("Monday of finals week",)),
    Rule("<month> in a weekday of", "<monthname>", pass_on, "<anymonth>", ("second Tuesday of October",)),
    Rule("<relative month> in a weekday of", "<months>", pass_on, "<anymonth>", ("the first Friday of next month",)),
)

_WINDOWS = (
    Rule("<part> of <month>", "<partword> <anymonth>", _month_part, "<window>",
         ("mid-October", "early March", "the end of May", "the end of next month")),
    Rule("<part> of month", "<partword> month", lambda p: PartOf(p, CalendarMonth(Reference(), 0)), "<window>",
         ("end of month",), Scope.WHOLE),
    Rule("early in <stretch>", "early in [the] <anymonth>", lambda s: _month_part(Part.EARLY, s), "<window>",
         ("early in October",)),
    Rule("late in <stretch>", "late in [the] <anymonth>", lambda s: _month_part(Part.LATE, s), "<window>",
         ("late in October",)),
    Rule("early in <week>", "early in <anyweek>", lambda s: PartOf(Part.EARLY, s), "<window>", ("early in week 4",)),
    Rule("late in <week>", "late in <anyweek>", lambda s: PartOf(Part.LATE, s), "<window>", ("late in week 4",)),
    Rule("<part> of <week>", "<partword> <anyweek>", lambda p, s: PartOf(p, s), "<window>",
         ("end of week 9", "beginning of week 3", "the end of the week", "early next week")),
    Rule("end of <week> without of", "end <week>", _end_of, "<window>", ("end week 9",)),
    Rule("<part> of the term", "<partword> [the] semester|quarter|trimester|course",
         lambda p: PartOf(p, TERM) if p is Part.MIDDLE else None, "<window>",
         ("the middle of the semester", "mid-semester")),
    Rule("the <ordinal> week of <month>", "[the] <ordinal> [full] week {of} <anymonth>", _week_of_month, "<window>",
         ("the second week of October", "the last week of April"),
         doubt="which days make up a numbered week of a month is not fixed"),
    Rule("the first <number> weeks", "the first <weeknumber> weeks [of] [the] [{term}|classes|class]",
         lambda n: _weeks(1, n), "<weeks>", ("the first two weeks", "the first three weeks of the semester"),
         Scope.WEAK),
    Rule("the weekend before <date>", "the weekend {before} [to] <base>",
         lambda b: _weekend_near(b, Direction.BEFORE), "<window>", ("the weekend before finals",)),
    Rule("the weekend after <date>", "the weekend {after} <base>", lambda b: _weekend_near(b, Direction.AFTER),
         "<window>", ("the weekend after the midterm",)),
    Rule("<weekday> of the term", "[the] <ordinal> <wday> {of} [the] {term}",
         lambda n, d: WeekdayIn(TERM, d, n) if n else None, "<point>", ("last Friday of term",)),
    Rule("midterm week", "[the] midterm|midterms week", lambda: WeekOf(Anchor("midterm")), "<week>",
         ("midterm week",)),
    Rule("this weekend", "this [coming] weekend", lambda: _weekend(_THIS_WEEK), "<window>", ("this weekend",)),
    Rule("the weekend", "the [coming] weekend", lambda: _weekend(_THIS_WEEK), "<window>", ("the weekend",),
         Scope.WEAK),
    Rule("next weekend", "next|following weekend", lambda: _weekend(CalendarWeek(Reference(), 1)), "<window>",
         ("next weekend",)),
    Rule("the weekend of <date>", "[the] weekend of <weekanchor>", lambda d: _weekend(WeekOf(d)), "<window>",
         ("the weekend of Dec 3",)),
    Rule("the weekend of <week>", "[the] weekend {of} <week>", _weekend, "<window>", ("the weekend of week 5",)),
    Rule("the <ordinal> day of <stretch>", "[the] <ordinal> day {of} [the] <daystretch>", lambda n, s: DayOf(s, n),
         "<point>", ("the second day of finals week", "the last day of the month")),
    Rule("<month> in a day of", "<anymonth>", pass_on, "<daystretch>", ("the last day of October",)),
    Rule("month in a day of", "month", lambda: CalendarMonth(Reference(), 0), "<daystretch>",
         ("the last day of the month",)),
    Rule("<finals> in a day of", "<finals>", pass_on, "<daystretch>", ("the second day of finals week",)),
    Rule("<break> in a day of", "<named>", pass_on, "<daystretch>", ("the first day of spring break",)),
    Rule("<week> in a day of", "<anyweek>", pass_on, "<daystretch>", ("the first day of week 5",)),
)
# fmt: on

RULES = (*_PARTS, *_NUMBERED, *_OF_DAY, *_RELATIVE, *_WEEKDAYS, *_WINDOWS)
