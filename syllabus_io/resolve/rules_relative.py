"""Rules for days told from another day: tomorrow, two days before the final, the Friday before spring break."""

from __future__ import annotations

from syllabus_io.resolve.expression import (
    Anchor,
    ClassNear,
    DateExpression,
    Direction,
    Offset,
    Reference,
    Unit,
    Weekday,
    WeekdayNear,
)
from syllabus_io.resolve.rules import Rule, Scope, pass_on

__all__ = ["RULES"]

_HOURS_A_DAY = 24
#: What an offset counts at most; longer ones are no dates of a term.
_MOST = 400


def _offset(count: int, unit: Unit, base: DateExpression) -> DateExpression | None:
    return Offset(base, count, unit) if 0 < abs(count) <= _MOST else None


def _later(count: int, unit: Unit, base: DateExpression | None = None) -> DateExpression | None:
    return _offset(count, unit, base or Reference())


def _earlier(count: int, unit: Unit, base: DateExpression | None = None) -> DateExpression | None:
    return _offset(-count, unit, base or Reference())


def _hours(count: int, base: DateExpression | None, sign: int) -> DateExpression | None:
    if count <= 0 or count % _HOURS_A_DAY:
        return None
    return _offset(sign * count // _HOURS_A_DAY, Unit.DAY, base or Reference())


def _weekday_from(
    weekday: Weekday, direction: Direction, base: DateExpression, count: int | None
) -> DateExpression | None:
    number = 1 if count is None else count
    if number == -1:  # the last Friday before a day is the one next to it
        number = 1
    return WeekdayNear(base, weekday, direction, number) if 1 <= number <= _MOST else None


def _after(count: int | None, weekday: Weekday, base: DateExpression) -> DateExpression | None:
    return None if count == -1 else _weekday_from(weekday, Direction.AFTER, base, count)


def _before(count: int | None, weekday: Weekday, base: DateExpression) -> DateExpression | None:
    return _weekday_from(weekday, Direction.BEFORE, base, count)


def _week_on(count: int, weekday: Weekday) -> DateExpression:
    """A week on Tuesday: the Tuesday to come, and a week more."""
    return Offset(WeekdayNear(Reference(), weekday, Direction.AFTER), count, Unit.WEEK)


def _anchor(words: str, *_: object) -> Anchor:
    first, _blank, rest = words.partition(" ")
    return Anchor(rest if first in _ARTICLES and rest else words)


def _day(days: int) -> DateExpression:
    return Offset(Reference(), days, Unit.DAY)


_ARTICLES = frozenset(["the", "your", "our", "this", "that", "my", "each", "their"])
_ITEMS = (
    "exam|midterm|final|quiz|test|presentation|paper|essay|project|proposal|draft|report|homework|assignment|debate|"
    "performance|recital|concert|conference|interview|visit|trip|workshop|deadline|submission|screening|symposium|"
    "showcase|portfolio|practical|viva|assessment|oral|defense|appointment|consultation|experiment|event|critique|"
    "exhibition|rehearsal|observation|placement|hearing|simulation|game|competition|tournament|show|premiere|"
    "examination|finals|mid-term|dissertation|thesis|worksheet|set|lesson|demonstration|demo|milestone|date"
)
_KINDS_OF_ITEM = (
    "midterm|mid|term|final|first|second|third|fourth|last|research|group|oral|written|lab|due|field|team|class|"
    "problem|reading|take|home|peer|unit|chapter|rough|original|scheduled|assigned|comprehensive|individual|course|"
    "project|paper|exam|quiz|essay|in|assignment|presentation|posted|published|listed|submission|actual|official|"
    "draft|semester|big|long|short|guest|museum|poster"
)

# A table: rules are easier to compare with their neighbours on one line or two.
# fmt: off
_COUNTS = (
    Rule("<count> in digits", "<num>", pass_on, "<count>", ("3 days ago",)),
    Rule("<count> in words", "<numword>", pass_on, "<count>", ("three days later",)),
    Rule("a", "a|an", lambda: 1, "<count>", ("a week from today",)),
    Rule("a couple of", "[a] couple [of]", lambda: 2, "<count>", ("in a couple of days",)),
    Rule("<tens word>", "<tens>", pass_on, "<count>", ("in twenty days",)),
    Rule("<count> full", "<num> full|whole|calendar", pass_on, "<count>", ("2 full days after the exam",)),
    Rule("<count word> full", "<numword> full|whole|calendar", pass_on, "<count>", ("two full days after the exam",)),
    Rule("<count> (<count>)", "<numword> ( <num> )", lambda a, b: a if a == b else None, "<count>",
         ("two (2) days before the exam",)),
    Rule("<unit>", "<unit>", pass_on, "<unitword>", ("3 days ago",)),
    Rule("class", "class|classes|meeting|meetings", lambda: Unit.MEETING, "<unitword>",
         ("two classes after the midterm",)),
    Rule("class meeting", "class day|days|meeting|meetings|period|periods|session|sessions", lambda: Unit.MEETING,
         "<unitword>", ("two class meetings after the midterm",)),
    Rule("school day", "school day|days", lambda: Unit.SCHOOL_DAY, "<unitword>",
         ("three school days after the test",)),
    Rule("business day", "business|working|week day|days", lambda: Unit.WEEKDAY, "<unitword>",
         ("two business days before the exam",)),
)

_NAMED_DAYS = (
    Rule("today", "today", Reference, "<point>", ("today",)),
    Rule("the day itself", "[the] same day", Reference, "<point>", ("the same day",)),
    Rule("tomorrow", "tomorrow|tmrw|tmr|tomorow", lambda: _day(1), "<point>", ("tomorrow",)),
    Rule("yesterday", "yesterday", lambda: _day(-1), "<point>", ("yesterday",)),
    Rule("the day after tomorrow", "[the] day after tomorrow|next", lambda: _day(2), "<point>",
         ("the day after tomorrow",)),
    Rule("the day before yesterday", "[the] day before yesterday", lambda: _day(-2), "<point>",
         ("the day before yesterday",)),
    Rule("<count> <unit> before", "<count> <unitword> before|prior", _earlier, "<point>", ("two days before",),
         Scope.WHOLE),
    Rule("next day", "next day", lambda: _day(1), "<point>", ("next day",), Scope.WEAK),
    Rule("the next day", "the next|following day", lambda: _day(1), "<point>", ("the next day",)),
    Rule("the previous day", "the previous|preceding day", lambda: _day(-1), "<point>", ("the previous day",)),
)

_OFFSETS = (
    Rule("in <count> <unit>", "in [exactly] <count> <unitword> [time] ['] [time]", _later, "<point>",
         ("in 2 weeks", "in three weeks time")),
    Rule("in a fortnight", "in <count> fortnight|fortnights", lambda n: _later(2 * n, Unit.WEEK), "<point>",
         ("in a fortnight",)),
    Rule("<count> <unit> later", "[the] <count> <unitword> later|hence|after|thereafter|afterwards", _later,
         "<point>", ("2 days later",)),
    Rule("<count> <unit> from now", "<count> <unitword> from now|then", _later, "<point>", ("two weeks from now",)),
    Rule("a fortnight later", "<count> fortnight|fortnights later|hence", lambda n: _later(2 * n, Unit.WEEK),
         "<point>", ("a fortnight later",)),
    Rule("<count> fortnights after <date>", "<count> fortnight|fortnights after|from|following <base>",
         lambda n, b: _later(2 * n, Unit.WEEK, b), "<point>", ("a fortnight from today",)),
    Rule("<count> <weekdays> from now", "<count> <weekdays> from now|today", lambda n, w: _after(n, w, Reference()),
         "<point>", ("two Fridays from now",), Scope.WHOLE),
    Rule("<count> <unit> ago", "<count> <unitword> ago|earlier|previously|beforehand", _earlier, "<point>",
         ("3 days ago", "two days earlier")),
    Rule("a fortnight ago", "<count> fortnight|fortnights ago|earlier", lambda n: _earlier(2 * n, Unit.WEEK),
         "<point>", ("a fortnight ago",)),
    Rule("<count> <unit> after <date>", "[exactly] <count> <unitword> after|following|from|past <base>", _later,
         "<point>", ("one week after the midterm", "a week from this Friday")),
    Rule("<count> <unit> before <date>", "[at] [least] <count> <unitword> before|preceding <base>", _earlier,
         "<point>", ("two days before the final", "2 weeks before Christmas")),
    Rule("<count> <unit> prior to <date>", "[at] [least] <count> <unitword> prior|previous to <base>", _earlier,
         "<point>", ("three days prior to your presentation",)),
    Rule("<count> <unit> in advance of <date>", "[at] [least] <count> <unitword> in advance|ahead of <base>",
         _earlier, "<point>", ("two days in advance of the exam",)),
    Rule("<count> <unit> ahead of <date>", "[at] [least] <count> <unitword> ahead of <base>", _earlier, "<point>",
         ("two days ahead of the exam",)),
    Rule("within <count> <unit> of <date>",
         "within|no|not [later] [than] <count> <unitword> of|after|following|from <base>", _later, "<point>",
         ("within two days of your presentation",)),
    Rule("within <count> hours of <date>", "within [the] <count> hours|hour|hrs of|after|following|from <base>",
         lambda n, b: _hours(n, b, 1), "<point>", ("within 48 hours of your presentation",)),
    Rule("<count> hours after <date>", "<count> hours|hrs after|following|from <base>", lambda n, b: _hours(n, b, 1),
         "<point>", ("24 hours after the exam",)),
    Rule("<count> hours before <date>", "[at] [least] <count> hours|hrs before|preceding <base>",
         lambda n, b: _hours(n, b, -1), "<point>", ("24 hours before the exam",)),
    Rule("<count> hours prior to <date>", "[at] [least] <count> hours|hrs prior to <base>",
         lambda n, b: _hours(n, b, -1), "<point>", ("48 hours prior to the exam",)),
    Rule("in <count> hours", "in <count> hours", lambda n: _hours(n, None, 1), "<point>", ("in 48 hours",)),
    Rule("the day after <date>", "the|on day|morning after|following <base>", lambda b: _later(1, Unit.DAY, b),
         "<point>", ("the day after the exam",)),
    Rule("the day before <date>", "the|on day|night|evening|afternoon before|preceding <base>",
         lambda b: _earlier(1, Unit.DAY, b), "<point>", ("the day before the exam", "the night before the exam")),
    Rule("the last school day before <date>", "the last school day before|preceding <base>",
         lambda b: _earlier(1, Unit.SCHOOL_DAY, b), "<point>", ("the last school day before winter break",)),
    Rule("the first school day after <date>", "the first|next school day after|following <base>",
         lambda b: _later(1, Unit.SCHOOL_DAY, b), "<point>", ("the first school day after winter break",)),
    Rule("the day of <date>", "the day|morning|evening|night|date of <base>", pass_on, "<point>",
         ("the day of the exam",)),
    Rule("the <unit> after next", "[the] month after next", lambda: _later(2, Unit.MONTH), "<point>",
         ("the month after next",), Scope.WHOLE),
    Rule("<count> week on <weekday>", "<count> week|weeks on <wday>", lambda n, w: _week_on(n, w), "<point>",
         ("a week on Tuesday",)),
)

_WEEKDAYS_NEAR = (
    Rule("the <weekday> after <date>", "[the|on] [the] [first|next|very] [next] <wday> after|following <base>",
         lambda w, b: _after(None, w, b), "<point>",
         ("the Monday after Thanksgiving", "the first Friday after the break")),
    Rule("the <weekday> before <date>", "[the|on] [the] <wday> before|preceding <base>",
         lambda w, b: _before(None, w, b), "<point>", ("the Friday before spring break",)),
    Rule("the <weekday> prior to <date>", "[the|on] [the] <wday> prior to <base>", lambda w, b: _before(None, w, b),
         "<point>", ("the Friday prior to the exam",)),
    Rule("the <ordinal> <weekday> after <date>", "[the] <ordinal> <wday> after|following <base>", _after, "<point>",
         ("the second Monday after the break",)),
    Rule("the <ordinal> <weekday> before <date>", "[the] <ordinal> <wday> before|preceding <base>", _before,
         "<point>", ("the 2nd Monday before May 25",)),
    Rule("<count> <weekdays> after <date>", "<count> <weekdays> after|from <base>", _after, "<point>",
         ("3 Mondays after May 25",), Scope.WHOLE),
    Rule("<count> <weekdays> before <date>", "<count> <weekdays> before <base>", _before, "<point>",
         ("3 Mondays before May 25",), Scope.WHOLE),
    Rule("the <weekday> on or after <date>", "[the] [first] <wday> on or after|following <base>",
         lambda w, b: _weekday_from(w, Direction.ON_OR_AFTER, b, None), "<point>",
         ("the first Monday on or after September 1",)),
    Rule("the <weekday> on or before <date>", "[the] [last] <wday> on or before|preceding <base>",
         lambda w, b: _weekday_from(w, Direction.ON_OR_BEFORE, b, None), "<point>",
         ("the last Monday on or before May 25",)),
    Rule("the <weekday> nearest <date>", "[the] <wday> nearest|closest [to] <base>",
         lambda w, b: _weekday_from(w, Direction.NEAREST, b, None), "<point>", ("the Friday nearest to October 1",)),
)

_ANCHORS = (
    Rule("the <event>", "{article} <item>", _anchor, "<anchor>",
         ("one week after the midterm", "within two days of your presentation"), words=True),
    Rule("<event> <number>", "<numbereditem>", lambda words, _: Anchor(words), "<anchor>", ("one week after Exam 2",),
         words=True),
    Rule("<event> in an item", "<itemword>", pass_on, "<item>", ("one week after the midterm",)),
    Rule("<numbered event> in an item", "<numbereditem>", pass_on, "<item>", ("the day after the Exam 2",)),
    Rule("<kind> <event>", f"{_KINDS_OF_ITEM} [-] <item>", lambda *_: True, "<item>",
         ("two days before the final exam", "a week after the take-home exam")),
    Rule("<event> word", _ITEMS, lambda: True, "<itemword>", ("one week after the midterm",)),
    Rule("<event> with its number", f"{_ITEMS} [#] <num>", lambda n: True if n < 100 else None, "<numbereditem>",
         ("one week after Exam 2",)),
    Rule("<event> <event>", "<itemword> <itemword>", lambda *_: True, "<item>",
         ("one week after the proposal deadline",)),
    Rule("<event> <number> <event>", "<numbereditem> <itemword>", lambda *_: True, "<item>",
         ("one day before the Quiz 2 deadline",)),
    Rule("<kind> <event> <number>", f"{_KINDS_OF_ITEM} <numbereditem>", lambda words, _: Anchor(words), "<anchor>",
         ("one week after Lab Report 2",), words=True),
    Rule("it is due", "it is due || they are due", lambda: Anchor("due date"), "<anchor>",
         ("two days before it is due",)),
    Rule("the <event> is due", "{article} <item> is due|assigned|returned|posted", _anchor, "<anchor>",
         ("one week after the draft is due",), words=True),
)

_BASES = (
    Rule("<written day> as a limit", "<day>", pass_on, "<limit>", ("two days after May 26",)),
    Rule("<day number> as a limit", "<daynumber>", pass_on, "<limit>", ("two days after the 12th",)),
    Rule("<week> as a limit", "<week>", pass_on, "<limit>", ("the Friday after week 5",)),
    Rule("<day> as a limit", "<point>", pass_on, "<limit>", ("two days after tomorrow",)),
    Rule("<holiday> as a limit", "[the] <named>", pass_on, "<limit>", ("the Monday after Thanksgiving",)),
    Rule("<holiday of a year> as a limit", "<namedyear>", pass_on, "<limit>",
         ("two weeks after Thanksgiving, 2018",)),
    Rule("<break> as a limit", "<offbase>", pass_on, "<limit>", ("the week after break",)),
    Rule("<class> as a limit", "<meeting>", pass_on, "<limit>", ("one week after the first class",)),
    Rule("<lab> as a limit", "<labmeeting>", pass_on, "<limit>", ("one week after Lab 3",)),
    Rule("<finals> as a limit", "<finals>", pass_on, "<limit>", ("the Friday before finals week",)),
    Rule("finals as a limit", "<finalsbase>", pass_on, "<limit>", ("the Friday before finals",)),
    Rule("<event> as a limit", "<anchor>", pass_on, "<limit>", ("one week after the midterm",)),
    Rule("<month> as a limit", "<months>", pass_on, "<limit>", ("the week after next month",)),
    Rule("<limit> as a base", "<limit>", pass_on, "<base>", ("two days after May 26",)),
    Rule("class as a base", "class|lecture", lambda: ClassNear(Reference(), Direction.ON_OR_AFTER), "<base>",
         ("24 hours before class",)),
    Rule("<weekday> as a base", "<wday>", lambda w: WeekdayNear(Reference(), w, Direction.AFTER), "<base>",
         ("two days after Tuesday",)),
    Rule("<day> as any day", "<day>", pass_on, "<anyday>", ("the month after March 3",)),
)

_ORDINALS = (
    Rule("<number>th", "<nth>", pass_on, "<ordinal>", ("5th week",)),
    Rule("<ordinal word>", "<ordword>", pass_on, "<ordinal>", ("the fifth week",)),
    Rule("last", "last|final", lambda: -1, "<ordinal>", ("the last class",)),
    Rule("second to last", "<ordordinal> [-] to [the] [-] last", lambda n: -n, "<ordinal>",
         ("the second-to-last class",)),
    Rule("next to last", "next [-] to [-] last", lambda: -2, "<ordinal>", ("the next-to-last class",)),
    Rule("<ordinal> last", "<ordordinal> [-] last", lambda n: -n, "<ordinal>", ("third last Tuesday of October",)),
    Rule("penultimate", "penultimate", lambda: -2, "<ordinal>", ("the penultimate class",)),
    Rule("<ordinal word> from the end", "<ordword>", pass_on, "<ordordinal>", ("the second-to-last class",)),
    Rule("<number>th from the end", "<nth>", pass_on, "<ordordinal>", ("the 2nd-to-last class",)),
)
# fmt: on

RULES = (*_COUNTS, *_ORDINALS, *_NAMED_DAYS, *_OFFSETS, *_WEEKDAYS_NEAR, *_ANCHORS, *_BASES)
