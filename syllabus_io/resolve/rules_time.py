"""Rules for times of day: clock times, stretches between two, named times, parts of the day, time zones."""

from __future__ import annotations

from dataclasses import replace

from syllabus_io.resolve.expression import ClockTime, TimePoint
from syllabus_io.resolve.readings import TimeWords, join_times
from syllabus_io.resolve.rules import Rule, Scope, pass_on

__all__ = ["RULES", "time_range"]

_NOON = TimeWords(ClockTime(12))
_MIDNIGHT = TimeWords(ClockTime(0, from_midnight=True))


def clock_time(hour: int, minute: int = 0, half: str | None = None) -> TimeWords | None:
    """The time a clock shows. ``half`` is "am", "pm" or None; 12-hour times without it are loose."""
    if half is not None:
        if not 0 <= hour <= 23 or (hour == 0 and half == "pm"):
            return None
        if hour > 12:  # 15:30 pm: the half says nothing new
            return TimeWords(ClockTime(hour, minute)) if half == "pm" else None
        return TimeWords(ClockTime(hour % 12 + (12 if half == "pm" else 0), minute))
    if hour == 24:
        return _MIDNIGHT if minute == 0 else None
    return TimeWords(ClockTime(hour, minute), loose=1 <= hour <= 12)


def _written_clock(clock: tuple[int, int, bool], half: str | None = None) -> TimeWords | None:
    hour, minute, padded = clock
    time = clock_time(hour, minute, half)
    return replace(time, loose=False) if time is not None and padded else time


def _dotted_clock(hour: int, minute: int, half: str | None = None) -> TimeWords | None:
    return clock_time(hour, minute, half)


def _spaced_clock(hour: int, minute: int) -> TimeWords | None:
    """Two numbers without a sign between them are only read where the half of the day is plain."""
    return clock_time(hour, minute) if hour >= 8 else None


def _packed_clock(clock: tuple[int, int], half: str) -> TimeWords | None:
    return clock_time(clock[0], clock[1], half) if 1 <= clock[0] <= 12 else None


def _four_figures(clock: tuple[int, int]) -> TimeWords:
    return TimeWords(ClockTime(*clock))


def _range_of_four_figures(first: tuple[int, int], last: tuple[int, int]) -> TimeWords | None:
    return TimeWords(ClockTime(*first), ClockTime(*last)) if first < last < (24, 0) else None


def _hour_word(hour: int, half: str | None = None) -> TimeWords | None:
    return clock_time(hour, 0, half) if 1 <= hour <= 12 else None


def _past(minutes: int, hour: TimeWords) -> TimeWords | None:
    if hour.start is None or hour.start.minute or not 0 < minutes < 60:
        return None
    return replace(hour, start=ClockTime(hour.start.hour, minutes))


def _to(minutes: int, hour: TimeWords) -> TimeWords | None:
    if hour.start is None or hour.start.minute or not 0 < minutes < 60:
        return None
    return replace(hour, start=ClockTime((hour.start.hour - 1) % 24, 60 - minutes))


def _minutes_after(clock: ClockTime) -> int:
    return clock.hour * 60 + clock.minute


def _other_half(clock: ClockTime) -> ClockTime:
    return ClockTime((clock.hour + 12) % 24, clock.minute)


def time_range(first: TimeWords, last: TimeWords) -> TimeWords | None:
    """The stretch between two clock times, each taking morning or afternoon from the other where it lacks it."""
    start, end = first.start, last.start
    if start is None or end is None or first.end is not None or last.end is not None:
        return None
    if first.loose and not last.loose and end.hour <= 23:
        twin = _other_half(start)
        choices = [c for c in (start, twin) if _minutes_after(c) < _minutes_after(end) or end.from_midnight]
        if not choices:
            return None
        start = max(choices, key=_minutes_after)
        if start.hour < 12 <= end.hour and twin in choices:
            start = twin
        return TimeWords(start, end, zone=last.zone or first.zone)
    if last.loose:
        if _minutes_after(end) <= _minutes_after(start):
            end = _other_half(end)
        if _minutes_after(end) <= _minutes_after(start):
            return None
        return TimeWords(start, end, zone=last.zone or first.zone, loose=first.loose)
    if first.zone is None and last.zone is None and start == end:
        return None
    return TimeWords(start, end, zone=last.zone or first.zone, loose=first.loose)


def _dotted_range(first: TimeWords, last: TimeWords) -> TimeWords | None:
    """The stretch between two times with a point, unless both may be a day and a month ("13.12 - 17.12")."""
    if all(time.start is not None and 1 <= time.start.minute <= 12 for time in (first, last)):
        return None
    return time_range(first, last)


def _range_of_hours(first: int, last: int) -> TimeWords | None:
    start, end = clock_time(first), clock_time(last)
    if start is None or end is None or not 0 <= first <= 23 or not 0 <= last <= 24:
        return None
    return time_range(start, end)


def _zoned(time: TimeWords, zone: str) -> TimeWords | None:
    return replace(time, zone=zone) if time.start is not None and time.zone is None else None


def _point(point: TimePoint) -> TimeWords:
    return TimeWords(point=point)


# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_CLOCKS = (
    Rule("<hour>:<minute> <am or pm>", "<clock> [-] <ampm>", _written_clock, "<sure>", ("11:59pm", "3:15 p.m.")),
    Rule("<hour>:<minute> <a or p>", "<clock> <ap>", _written_clock, "<sure>", ("12:15p",)),
    Rule("<hour> <am or pm>", "<hh> [h] <ampm>", lambda h, x: clock_time(h, 0, x), "<sure>",
         ("5pm", "5 p.m.", "11 AM")),
    Rule("<hour> <a or p>", "<hh> <ap>", lambda h, x: clock_time(h, 0, x), "<sure>", ("9a", "5p")),
    Rule("<hour>:<minute> p m", "<clock> p m", lambda c: _written_clock(c, "pm"), "<sure>", ("3:30 p m",),
         Scope.WHOLE),
    Rule("<hour>:<minute> a m", "<clock> a m", lambda c: _written_clock(c, "am"), "<sure>", ("3:30 a m",),
         Scope.WHOLE),
    Rule("<hour>.<minute> <am or pm>", "<hh> . <mm> <ampm>", _dotted_clock, "<sure>", ("11.59 p.m.", "8.30pm")),
    Rule("<hour and minute> <am or pm>", "<hhmm> <ampm>", _packed_clock, "<sure>", ("340pm", "1140 a.m.")),
    Rule("<hour> <am or pm> in words", "<numword> [o'clock|oclock] <ampm>", _hour_word, "<sure>", ("six pm",)),
    Rule("<hour> o'clock <am or pm>", "<hh> o'clock|oclock <ampm>", lambda h, x: clock_time(h, 0, x), "<sure>",
         ("3 o'clock pm",)),
    Rule("<hour>h<minute>", "<hh> h <mm>",
         lambda h, m: replace(clock_time(h, m) or _NOON, loose=False) if h <= 23 else None, "<sure>",
         ("17h00", "9h15"), glued=True),
    Rule("<hour> h <minute> <am or pm>", "<hh> h <mm> <ampm>", _dotted_clock, "<sure>", ("10 H 10 pm",)),
    Rule("<hour>h", "<hh> h", lambda h: replace(clock_time(h) or _NOON, loose=False) if h <= 23 else None, "<sure>",
         ("15h",), glued=True),
    Rule("<hour>:<minute> uhr", "<clock> h|hrs|hours|uhr",
         lambda c: replace(clock_time(c[0], c[1]) or _NOON, loose=False), "<sure>", ("17:00 hrs",)),
    Rule("<hour and minute> hours", "<hhmm> h|hrs|hours", lambda c: TimeWords(ClockTime(*c)) if c[0] <= 23 else None,
         "<sure>", ("1700 hrs",)),
    Rule("at <four figures>", "at|@|by|before|until|due <0hhmm>", _four_figures, "<time>", ("due 0800", "at 0930")),
    Rule("<four figures>-<four figures>", "<0hhmm> -|to|until <hhmm>", _range_of_four_figures, "<timerange>",
         ("0900-1150", "MWF 0800-0850")),
    Rule("<day> and <four figures>", "<0hhmm>", _four_figures, "<daytime>", ("Oct 5, 0800",), Scope.WHOLE),
    Rule("noon", "[<hh>] [high] noon", lambda h: _NOON if h in (None, 12) else None, "<sure>", ("noon",)),
    Rule("12:00 noon", "<clock> noon", lambda c: _NOON if c[:2] == (12, 0) else None, "<sure>", ("12:00 noon",)),
    Rule("midnight", "[<hh>] midnight", lambda h: _MIDNIGHT if h in (None, 12) else None, "<sure>",
         ("midnight", "12 midnight")),
    Rule("12:00 midnight", "<clock> midnight", lambda c: _MIDNIGHT if c[:2] in ((12, 0), (0, 0)) else None, "<sure>",
         ("12:00 midnight",)),
    Rule("half past <hour>", "half past <hourword>", lambda h: _past(30, h), "<sure>",
         ("half past three pm", "half past seven")),
    Rule("quarter past <hour>", "[a] quarter past|after <hourword>", lambda h: _past(15, h), "<sure>",
         ("a quarter past noon",)),
    Rule("quarter to <hour>", "[a] quarter to|of|before|till <hourword>", lambda h: _to(15, h), "<sure>",
         ("a quarter to noon",)),
    Rule("<minutes> past <hour>", "<count> [minutes] past <hourword>", _past, "<sure>",
         ("20 past 3pm", "15 past noon")),
    Rule("<minutes> to <hour>", "<num> [minutes] to noon|midnight", lambda n: _to(n, _NOON), "<sure>",
         ("15 to noon",), Scope.WHOLE),
    Rule("<hour word> in half past", "<sure>", pass_on, "<hourword>", ("20 past 3pm",)),
    Rule("<hour> in half past", "<hh>", lambda h: clock_time(h) if 1 <= h <= 12 else None, "<hourword>",
         ("half past 3",)),
    Rule("<number word> in half past", "<numword>", _hour_word, "<hourword>", ("half past three",)),
    Rule("<hour>:<minute>", "<clock>", _written_clock, "<open>", ("9:00", "23:59")),
    Rule("<hour> o'clock", "<hh> o'clock|oclock", clock_time, "<open>", ("8 o'clock",)),
    Rule("<number word> o'clock", "<numword> o'clock|oclock", _hour_word, "<open>", ("eight o'clock",)),
    Rule("<hour>.<minute>", "<hh> . <mm>", _dotted_clock, "<dotted>", ("at 11.59",), glued=True),
    Rule("<hour> <minute>", "<hh> <mm>", _spaced_clock, "<spaced>", ("at 12 15",), Scope.WHOLE),
    Rule("<hour word>-thirty", "<numword> [-] <tens>", lambda h, m: clock_time(h, m) if 1 <= h <= 12 else None,
         "<spaced>", ("five-thirty tomorrow evening",), Scope.WHOLE),
    Rule("<hour word> <minutes> p m", "<numword> <tens> p m", lambda h, m: clock_time(h, m, "pm"), "<sure>",
         ("one thirty p m",), Scope.WHOLE),
    Rule("<sure> clock", "<sure>", pass_on, "<anyclock>", ("5pm",)),
    Rule("<open> clock", "<open>", pass_on, "<anyclock>", ("9:00",)),
    Rule("<hour> alone", "<hh>", clock_time, "<hour>", ("November 18th at 4",)),
    Rule("<hour word> alone", "<numword>", _hour_word, "<hour>", ("tonight at seven",)),
)


_RANGES = (
    Rule("<clock>-<clock>", "<anyclock> {to} <anyclock>", time_range, "<timerange>",
         ("9:00-10:15", "10am to 12pm", "3:30-4:30pm")),
    Rule("<hour>-<sure clock>", "<bare> {to}|and <sure>", time_range, "<timerange>",
         ("12-3pm", "9-10 am", "2 - 5:30pm")),
    Rule("<sure clock>-<hour>", "<sure> {to} <bare>", time_range, "<timerange>", ("1:30p.m. to 4",)),
    Rule("<clock>-<hour>", "<open> to|until|till|- <bare>", time_range, "<looserange>", ("10:30 to 3",)),
    Rule("<hour>-<clock>", "<bare> {to} <open>", time_range, "<looserange>", ("10 to 11:30",)),
    Rule("<hour>-<hour>", "<hh> {to} <hh>", _range_of_hours, "<hourrange>", ("Mondays 2-4",)),
    Rule("<dotted>-<dotted>", "<dotted> {to} <dotted>", _dotted_range, "<looserange>", ("at 9.30-10.45",)),
    Rule("between <clock> and <clock>", "between <anyclock> {to}|and <anyclock>", time_range, "<timerange>",
         ("between 3:30pm and 6 pm",)),
    Rule("between <hour> and <sure clock>", "between <bare> {to}|and <sure>", time_range, "<timerange>",
         ("between 5 and 6pm",)),
    Rule("between <sure clock> and <hour>", "between <sure> {to}|and <bare>", time_range, "<timerange>",
         ("between 3pm and 5",)),
    Rule("between <hour> and <hour>", "between <bare> {to}|and <bare>", time_range, "<hourrange>",
         ("between 3 and 5 on 1/1/2015",)),
    Rule("between <hour> and <clock>", "between <bare> {to}|and <open>", time_range, "<timerange>",
         ("between 10 and 11:30",)),
    Rule("between <hour> <part> and <sure clock>", "between <bare> <dayparts> {to}|and <sure>",
         lambda h, p, e: time_range(t, e) if (t := join_times(h, p)) else None, "<timerange>",
         ("between 3 in the morning and 5pm",)),
    Rule("<hour> in a stretch", "<hour>", pass_on, "<bare>", ("12-3pm",)),
    Rule("<dotted> in a stretch", "<dotted>", pass_on, "<bare>", ("between 9.30 and 4.30pm",)),
)

_PARTS = (
    Rule("in the <part of the day>", "[in|during] [the] [early|late] <part>", _point, "<dayparts>",
         ("Friday in the morning", "Friday evening", "early morning on Tuesday 12.12.2017")),
    Rule("at night", "[late] at night", lambda: _point(TimePoint.NIGHT), "<dayparts>", ("Friday at night",)),
    Rule("early in the <part of the day>", "early|late in the <part>", _point, "<dayparts>",
         ("Monday early in the morning",)),
    Rule("early in the day", "early [in the day]", lambda: _point(TimePoint.MORNING), "<dayparts>",
         ("Saturday early in the day",), Scope.WHOLE),
)

_POINTS = (
    Rule("the start of class",
         "[at] [the] start|beginning of [the|your|our|that] [day's] class|lecture|lab|section|period|session",
         lambda: _point(TimePoint.START_OF_CLASS), "<timepoint>", ("start of class", "at the beginning of class")),
    Rule("before class", "before|by [the] [start of] class|lecture [starts|begins|time]",
         lambda: _point(TimePoint.START_OF_CLASS), "<timepoint>", ("before class", "by class time")),
    Rule("class time", "at|by|before [the] [start] [of] class|lecture time", lambda: _point(TimePoint.START_OF_CLASS),
         "<timepoint>", ("at class time",)),
    Rule("the end of class", "[at|by] [the] end of [the] class|lecture|lab|section|period|session",
         lambda: _point(TimePoint.END_OF_CLASS), "<timepoint>", ("end of class",)),
    Rule("in class", "in|during [-] class|lecture|lab|discussion|recitation|tutorial|seminar",
         lambda: _point(TimePoint.IN_CLASS), "<timepoint>", ("in class", "in discussion")),
    Rule("the end of the day", "[by] [the] end of [the|that] [same] [business|school] day",
         lambda: _point(TimePoint.END_OF_DAY), "<timepoint>", ("end of day", "the end of the day")),
    Rule("end of day in letters", "eod|cob", lambda: _point(TimePoint.END_OF_DAY), "<timepoint>", ("EOD",)),
    Rule("close of business", "[by] [the] close of business|day", lambda: _point(TimePoint.END_OF_DAY), "<timepoint>",
         ("close of business",)),
)

_TIMES = (
    Rule("<clock time>", "<anyclock>", pass_on, "<time>", ("11:59pm",)),
    Rule("<clock time> in the <part of the day>", "<anyclock> [,] <dayparts>", join_times, "<time>",
         ("8:00 in the morning",)),
    Rule("<hour> at night", "<hour> at night", lambda h: join_times(h, _point(TimePoint.NIGHT)), "<time>",
         ("11 at night",)),
    Rule("<hours> in the <part of the day>", "<hourrange> in the <part>", lambda h, p: join_times(h, _point(p)),
         "<time>", ("3 to 5 in the afternoon",)),
    Rule("<hour> in the <part of the day>", "<hour> in the <part>", lambda h, p: join_times(h, _point(p)), "<time>",
         ("4 in the afternoon",)),
    Rule("<part of the day> at <clock time>", "<dayparts> [,] [at|@|around] <anyclock>", join_times, "<time>",
         ("evening at 8:30", "afternoon 7:00")),
    Rule("<part of the day> at <hour>", "<dayparts> at|@|around <hour>", join_times, "<time>", ("afternoon at 7",)),
    Rule("<stretch of time>", "<timerange>", pass_on, "<time>", ("9:00-10:15",)),
    Rule("<stretch of time> in the <part of the day>", "<timerange> <dayparts>", join_times, "<time>",
         ("2:00-3:00 in the afternoon",)),
    Rule("<part of the day>, <stretch of time>", "<dayparts> [,] <timerange>", join_times, "<time>",
         ("afternoon between 1PM and 4 PM",)),
    Rule("from <time> to <time>", "from <timerange>", pass_on, "<time>", ("from 9:30 to 11:00",)),
    Rule("from <loose stretch>", "from|between|at|@ <looserange>", pass_on, "<time>", ("from 10:30 to 3",)),
    Rule("<loose stretch>", "<looserange>", pass_on, "<time>", ("10:30 to 3",), Scope.WHOLE),
    Rule("from <hour> to <hour>", "from|at|@ <hourrange>", pass_on, "<time>", ("from 2 to 4",)),
    Rule("between <hour> and <hour> o'clock", "<hourrange>", pass_on, "<weektime>", ("Mondays 2-4",)),
    Rule("<time> beside weekdays", "<daytime>", pass_on, "<weektime>", ("Mondays at noon",)),
    Rule("<hour>-<hour> beside a day", "<hourrange>", pass_on, "<daytime>", ("27.10.2017 20-21",), Scope.WHOLE),
    Rule("<time> beside a day", "<time>", pass_on, "<daytime>", ("Mondays at noon",)),
    Rule("at <time>", "{at} <time>", pass_on, "<time>", ("at 5pm", "@ 11:59pm", "by noon")),
    Rule("both <time>", "both|each|all <time>", pass_on, "<time>", ("both 6:30–8:00 p.m.", "Nov 9, both at 6:30 pm")),
    Rule("no later than <time>", "no later than|by <time>", pass_on, "<time>", ("no later than 5 pm",)),
    Rule("due at <time>", "[,] due [at|by] <time>", pass_on, "<time>", ("due at 5 pm",), Scope.WHOLE),
    Rule("for <time>", "for <time>", pass_on, "<time>", ("for a quarter past noon",), Scope.WHOLE),
    Rule("<hour>.<minute> beside a day", "<dotted>", pass_on, "<daytime>", ("29.10.2017 21.00",), Scope.WHOLE),
    Rule("at <hour>.<minute>", "at|@|by|before <dotted>", pass_on, "<time>", ("at 11.59",)),
    Rule("<hour> <minute> beside a part of the day", "<spaced>", pass_on, "<time>",
         ("at 12 15", "five-thirty tomorrow evening"), Scope.WHOLE),
    Rule("at <hour>", "at|@|around <hour>", pass_on, "<athour>", ("November 18th at 4",)),
    Rule("at <hour> beside a day", "<athour>", pass_on, "<daytime>", ("November 18th at 4",)),
    Rule("<part of the day>", "<dayparts>", pass_on, "<daytime>", ("Friday evening",)),
    Rule("<named time>", "[,] <timepoint>", pass_on, "<time>", ("start of class",)),
    Rule("<time> <zone>", "<zonable> <zone>", _zoned, "<time>", ("5 pm EST", "11:59 PM ET")),
    Rule("<time> (<zone>)", "<zonable> ( <zone> )", _zoned, "<time>", ("11:59 pm (EST)",)),
    Rule("<time> <region> time", "<zonable> eastern [standard|daylight] [time]", lambda t: _zoned(t, "ET"), "<time>",
         ("5 pm Eastern",)),
    Rule("<time> central time", "<zonable> central [standard|daylight] time", lambda t: _zoned(t, "CT"), "<time>",
         ("5 pm Central time",)),
    Rule("<time> mountain time", "<zonable> mountain [standard|daylight] time", lambda t: _zoned(t, "MT"), "<time>",
         ("5 pm Mountain time",)),
    Rule("<time> pacific time", "<zonable> pacific [standard|daylight] time", lambda t: _zoned(t, "PT"), "<time>",
         ("5 pm Pacific time",)),
    Rule("<clock time> before a zone", "<anyclock>", pass_on, "<zonable>", ("5 pm EST",)),
    Rule("<stretch of time> before a zone", "<timerange>", pass_on, "<zonable>", ("2-3 pm EST",)),
)
# fmt: on

RULES = (*_CLOCKS, *_RANGES, *_PARTS, *_POINTS, *_TIMES)
