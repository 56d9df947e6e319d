"""Rules that put whole phrases together: a day with its time, a stretch with its time, and the weak readings."""

from __future__ import annotations

from syllabus_io.resolve.expression import (
    ClassNear,
    DateExpression,
    DayInMonth,
    Direction,
    Every,
    FullDate,
    MeetingNumber,
    MonthDay,
    NamedDay,
    NumericDate,
    Offset,
    Reference,
    TimePoint,
    Unit,
    Weekday,
    WeekdayIn,
    WeekdayNear,
    WholeMonth,
)
from syllabus_io.resolve.readings import NO_TIME, Reading, TimeWords
from syllabus_io.resolve.rules import Rule, Scope, pass_on
from syllabus_io.resolve.rules_absolute import with_weekday
from syllabus_io.resolve.rules_recurring import WEEKEND
from syllabus_io.resolve.rules_time import time_range
from syllabus_io.resolve.rules_week import nth_weekday

__all__ = ["RULES"]


def _day_at(day: DateExpression, time: TimeWords | None = None) -> Reading | None:
    return Reading(day).at(time)


def _half(half: str) -> TimeWords:
    return TimeWords(point=TimePoint.MORNING if half == "am" else TimePoint.AFTERNOON)


def _start_of(day: DateExpression) -> Reading | None:
    if not isinstance(day, ClassNear | MeetingNumber):
        return None
    return Reading(day, TimeWords(point=TimePoint.START_OF_CLASS))


def _today(point: TimePoint) -> Reading:
    return Reading(Reference(), TimeWords(point=point))


def _coming(weekday: Weekday) -> Reading:
    return Reading(WeekdayNear(Reference(), weekday, Direction.AFTER))


def _coming_at(weekday: Weekday, time: TimeWords) -> Reading | None:
    return _coming(weekday).at(time)


def _strong(reading: Reading) -> Reading | None:
    """The reading, unless its words alone hardly name a day: a holiday in passing, a day number, a month, "today"."""
    weak = isinstance(reading.expression, NamedDay | DayInMonth | WholeMonth | Reference)
    if weak and reading.time == TimeWords():
        named_well = getattr(reading.expression, "year", None) or getattr(reading.expression, "weekday", None)
        return reading if named_well else None
    return reading


def _strong_rule(reading: Reading) -> Reading | None:
    """The reading, unless it is a bare "every day", "each class" or "weekends", as prose is full of."""
    rule = reading.expression
    if not isinstance(rule, Every) or reading.time != NO_TIME or rule.shift_days:
        return reading
    bare = rule in (Every(rule.frequency, rule.interval), Every(rule.frequency, rule.interval, kind=rule.kind))
    return None if bare or rule.weekdays == WEEKEND else reading


def _agreeing(relative: DateExpression, day: DateExpression) -> DateExpression | None:
    """ "Tomorrow, 16 November": the written day counts."""
    return (
        day if isinstance(relative, Reference | Offset) and isinstance(day, FullDate | MonthDay | NumericDate) else None
    )


def _this_or_next_year(day: DateExpression, count: int) -> DateExpression | None:
    return Offset(day, count, Unit.YEAR) if isinstance(day, MonthDay) and count else day


def _ordinal_weekday_at(number: int, weekday: Weekday, time: TimeWords, month: DateExpression) -> Reading | None:
    day = nth_weekday(number, weekday, month)
    return Reading(day).at(time) if day is not None else None


def _weekday_at_date(weekday: Weekday, time: TimeWords, day: DateExpression) -> Reading | None:
    found = with_weekday(weekday, day)
    return Reading(found).at(time) if found is not None else None


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_DAYS = (
    *(
        Rule(f"{slot} as a day", slot, pass_on, "<dayish>", (example,))
        for slot, example in (
            ("<day>", "October 12"),
            ("<daynumber>", "the 12th"),
            ("<point>", "the Friday of week 5"),
            ("<meeting>", "Class 12"),
            ("<namedyear>", "Thanksgiving 2025"),
            ("<window>", "mid-October"),
            ("<week>", "Week 5"),
            ("<finals>", "finals week"),
        )
    ),
    Rule("<holiday> as a day", "[the] <named> [holiday]", pass_on, "<dayish>",
         ("Labor Day", "the Thanksgiving holiday")),
    Rule("<relative day>, <date>", "<point> [,|-|(] <day> [)]", _agreeing, "<dayish>", ("Tomorrow, 16 Nov",),
         Scope.WHOLE),
    Rule("<date> this year", "<date> this year", lambda d: _this_or_next_year(d, 0), "<dayish>",
         ("November 10th this year",), Scope.WHOLE),
    Rule("next <date>", "next|this <date>", pass_on, "<dayish>", ("next 5/12",), Scope.WHOLE),
    Rule("<month to come>", "<months>", pass_on, "<dayish>", ("next month",)),
)

_TIMED = (
    Rule("<day>", "<dayish>", _day_at, "<timed>", ("October 12",)),
    Rule("<day> at <time>", "<dayish> [,|-|:|.|;] <daytime>", _day_at, "<timed>",
         ("Oct 7 @ 11:59pm", "27 Oct 2006 7:30pm", "tomorrow at noon")),
    Rule("<day> (<time>)", "<dayish> [,] ( <daytime> )", _day_at, "<timed>", ("Oct 7 (11:59pm)",)),
    Rule("<day> T<time>", "<date> t <anyclock>", _day_at, "<timed>", ("2025-10-12T23:59",), glued=True),
    Rule("<day> T<hour>", "<date> t <hour>", _day_at, "<timed>", ("2003-09-25T10",), glued=True),
    Rule("<time> on <day>", "<daytime> [,] [on|of] [,] [the] <dayish>", lambda t, d: Reading(d).at(t), "<timed>",
         ("5pm on Oct 7", "10:06am Dec 11, 2014", "Evening of 16 Nov", "noon tomorrow")),
    Rule("<time> <day> to <time>", "<anyclock> [on] <dayish> {to} <anyclock>",
         lambda a, d, z: Reading(d).at(t) if (t := time_range(a, z)) else None, "<timed>", ("16:00 Nov 6 to 17:00",)),
    Rule("<time> on <day> <time>", "<daytime> [,] [on|of] <dayish> [,] <daytime>",
         lambda a, d, b: r.at(b) if (r := Reading(d).at(a)) else None, "<timed>", ("at 5 tomorrow afternoon",)),
    Rule("<ordinal> <weekday> <time> of <month>", "[the] <ordinal> <wday> <daytime> of|in <anymonth>",
         _ordinal_weekday_at, "<timed>", ("first Monday evening of next month",)),
    Rule("<weekday> <time> of <week>", "<wday> <daytime> [of] <week>", lambda w, t, s: Reading(WeekdayIn(s, w)).at(t),
         "<timed>", ("Wednesday evening next week",)),
    Rule("<weekday> <time>, <date>", "<wday> [,] <daytime> [,] <date>", _weekday_at_date, "<timed>",
         ("Wed afternoon 29 Nov",)),
    Rule("the start of <class>", "[at|by] [the] start|beginning of <meeting>", _start_of, "<timed>",
         ("the beginning of the next class", "at the start of Class 5")),
    Rule("this <part of the day>", "this <part>", _today, "<timed>", ("this morning",)),
    Rule("this <part of the day> at <time>", "this <part> [,] <daytime>", lambda p, t: _today(p).at(t), "<timed>",
         ("this evening at 8",)),
    Rule("<time> this <part of the day>", "<daytime> this <part>", lambda t, p: _today(p).at(t), "<timed>",
         ("8pm this evening",)),
    Rule("tonight", "tonight", lambda: _today(TimePoint.NIGHT), "<timed>", ("tonight",)),
    Rule("tonight at <time>", "tonight [,] <daytime>", lambda t: _today(TimePoint.NIGHT).at(t), "<timed>",
         ("tonight at 8", "tonight 8pm")),
    Rule("<time> tonight", "<daytime> tonight", lambda t: _today(TimePoint.NIGHT).at(t), "<timed>", ("8pm tonight",)),
)

_PHRASES = (
    Rule("<weekday>", "<weekday>", _coming, "<phrase>", ("Friday",), Scope.WEAK),
    Rule("<weekday> am", "<weekday> <ampm>", lambda w, half: _coming_at(w, _half(half)), "<phrase>", ("Saturday am",),
         Scope.WHOLE),
    Rule("<day> am", "<point> <ampm>", lambda d, half: _day_at(d, _half(half)), "<phrase>", ("today pm",),
         Scope.WHOLE),
    Rule("<weekday> at <time>", "<wday> [,|-|:] <daytime>", _coming_at, "<phrase>",
         ("Friday at 4pm", "Friday evening"), Scope.WEAK),
    Rule("<time> on <weekday>", "<daytime> [,] [on] <wday>", lambda t, w: _coming_at(w, t), "<phrase>",
         ("12:30 pm on Friday",), Scope.WEAK),
    Rule("<time> on <weekday> <time>", "<daytime> [,] [on] <wday> [,] <daytime>",
         lambda a, w, b: r.at(b) if (r := _coming_at(w, a)) else None, "<phrase>",
         ("in the afternoon on Friday between 1PM and 4 PM",), Scope.WEAK),
    Rule("<time>", "<time>", lambda t: Reading(None, t), "<phrase>", ("11:59pm", "start of class"), Scope.WEAK),
    Rule("<dates>", "<dayspan>", lambda s: Reading(s), "<phrase>", ("Oct 3-5",)),
    Rule("<day with time>", "<timed>", _strong, "<phrase>", ("Oct 7 @ 11:59pm",)),
    Rule("<weak day>", "<timed>", pass_on, "<phrase>", ("Labor Day", "the 12th"), Scope.WEAK),
    Rule("on <holiday>", "on|by [the] <named>", lambda d: Reading(d), "<phrase>", ("on Labor Day",)),
    Rule("<dates> at <time>", "<dayspan> [,|:] <daytime>", _day_at, "<phrase>", ("Oct 3-5 at 9:00 am",)),
    Rule("<time>, <dates>", "<daytime> [,] [on] <dayspan>", lambda t, s: Reading(s).at(t), "<phrase>",
         ("9:00 am, Oct 3-5",)),
    Rule("<days>", "<weekspan>", lambda s: Reading(s), "<phrase>", ("Week 3 to Week 5",)),
    Rule("<days with times>", "<timedspan>", pass_on, "<phrase>",
         ("from 12-04-2019 6:00am until 12-05-2019 8:00pm",)),
    Rule("<classes>", "<classspan>", lambda s: Reading(s), "<phrase>", ("Classes 3-5",)),
    Rule("<months>", "<monthspan>", lambda s: Reading(s), "<phrase>", ("September to November 2025",), Scope.WEAK),
    Rule("<weeks>", "<weeks>", lambda s: Reading(s), "<phrase>", ("Weeks 11-12",)),
    Rule("<recurring>", "<everyreading>", _strong_rule, "<phrase>", ("every Friday by 5 pm",)),
    Rule("<weak recurring>", "<everyreading>", pass_on, "<phrase>", ("every day", "each class"), Scope.WEAK),
    Rule("<time> <recurring>", "<everytimed>", pass_on, "<phrase>", ("5 pm every Friday",)),
    Rule("<class times>", "<classtimes>", pass_on, "<phrase>", ("Mon-Fri 9:00-10:15",), Scope.WEAK),
    Rule("<adverb>", "<adverb>", lambda e: Reading(e), "<phrase>", ("daily",), Scope.WEAK),
    Rule("<letters of weekdays>", "<weakevery>", lambda e: Reading(e), "<phrase>", ("MWF",), Scope.WEAK),
    Rule("<month and year>", "<monthname>", lambda m: Reading(m) if m.year is not None else None, "<phrase>",
         ("October 2025",)),
    Rule("<month>", "<monthname>", lambda m: Reading(m), "<phrase>", ("October",), Scope.WEAK),
    Rule("<lab>", "<labmeeting>", lambda m: Reading(m), "<phrase>", ("Lab 3",), Scope.WEAK),
    Rule("due <phrase>", "due|deadline|on|by|for|at|@|before|until|in|starting|is|: <phrase>", pass_on, "<phrase>",
         ("due on the 6th",), Scope.WHOLE),
)
# fmt: on

RULES = (*_DAYS, *_TIMED, *_PHRASES)
