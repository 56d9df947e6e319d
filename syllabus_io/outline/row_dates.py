"""The date of a schedule row: what its date cell or its opening words say, and what is left of them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from syllabus_io.outline.frames import Frame, is_single_day
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.vocabulary import WEEKDAY_NAMES
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import (
    CalendarWeek,
    DateExpression,
    DayInMonth,
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Span,
    Week,
    WeekdayIn,
    WeekOf,
)
from syllabus_io.resolve.words import FOREIGN_MONTH_NUMBERS

__all__ = ["SHORT_LEAD", "RowDate", "days_of_month", "month_alone", "read_row_date"]

_WEEK = re.compile(
    r"^\W*(?:(?:week|wk\.?)\s*(?:no\.?|number)?\s*#?\s*(\d{1,2})\b|(?:week)\s+(one|two|three|four|five|six|seven|eight|nine|ten))",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"^\W*(?P<what>day|class|lecture|session|meeting|module|unit|lesson|seminar|lec\.?)\s*#?\s*(?P<n>\d{1,3})\b(?!\s*[/.-]\s*\d)",
    re.IGNORECASE,
)
_BARE_NUMBER = re.compile(
    r"^\s*(\d{1,2})\s*[.):]?\s+(?=(?:mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?,?\s+\w|\d{1,2}\s*/\s*\d)",
    re.IGNORECASE,
)
_DAY_LIST = re.compile(r"\s*(?:,|/|&|and|-|–)\s*(\d{1,2})(?![\d/:])(?!\s*(?:am|pm|%|a\.m|p\.m))", re.IGNORECASE)
_DAY_NUMBER = re.compile(
    r"\W*(?:(?:m|t|w|th|f|r|mon|tues?|wed|thu(?:rs?)?|fri|sat|sun)[a-z]*\.?,?\s+)?(\d{1,2})(?:st|nd|rd|th)?\b(?![/:%])",
    re.IGNORECASE,
)
_DAY_LETTER = re.compile(r"^\s*\(?(?:M|Tu?|W|Th|R|F)\)?\s*(?::|[–—-]\s)\s*(?=\S)")  # "3/1 M: Forces"
_WEEK_OF = re.compile(r"week\s+(?:of|beginning|starting)\W*$", re.IGNORECASE)
_WEEKDAY_BEHIND = re.compile(
    r"^[\s,:–—-]*((?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?)\b\.?(?=\s*(?:$|[:,;–—-]\s*(?!(?:mon|tue|wed|thu|"
    r"fri|sat|sun)[a-z]*\b)))",
    re.IGNORECASE,
)
_MONTH_ALONE = re.compile(
    r"^\W*(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|"
    r"nov(?:ember)?|dec(?:ember)?)\.?\W*(?:(?:20\d\d)\W*)?(?:\(?\s*cont(?:inued|'d|\.)?\s*\)?)?$",
    re.IGNORECASE,
)
_DAY_RANGE = re.compile(
    r"\W*(?P<first>\d{1,2})\s*[-–]\s*(?:(?P<month>[A-Za-z]{3,9})\.?\s+)?(?P<last>\d{1,2})\b(?![/:%.]\d|\s*(?:am|pm)\b)",
    re.IGNORECASE,
)
LAST_DAY = 31
_WORD_ALONE = re.compile(r"\W*([^\W\d_]{3,10})\.?\W*(20\d\d)?\W*")
_ENGLISH_TOO = frozenset({"mars", "mayo", "mai"})  # a planet and a sauce
LONGEST_MONTH = 24
_NUMERIC_DAYS = re.compile(r"(?<![\d/])(?P<month>\d{1,2})/(?P<days>\d{1,2}\s*[-–]\s*\d{1,2})(?![\d/]|\s*[-–]\s*\d)")
_NAMED_DAYS = re.compile(
    r"\b(?P<month>jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec)[a-z]*\.?\s+(?P<days>\d{1,2}(?:\s*[/&]\s*\d{1,2})+)(?!\d)",
    re.IGNORECASE,
)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
SHORT_LEAD = 3
_CLASSES = ("class", "day", "session", "meeting", "lesson", "lecture", "seminar")
_NUMBER_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class RowDate:
    """What opens a row: its frame, the words after the date, and the number of a class or session if it has one."""

    frame: Frame
    rest: str
    start: int
    number: int | None = None
    number_kind: str = ""


def month_alone(text: str) -> int | None:
    """The month (1-12) when a text is nothing but a month, as a heading is; None otherwise."""
    match = _MONTH_ALONE.match(text)
    if match:
        return _MONTHS.index(match[1][:3].lower()) + 1
    foreign = _WORD_ALONE.fullmatch(text) if len(text) < LONGEST_MONTH else None
    if foreign is None or (foreign[1].lower() in _ENGLISH_TOO and not foreign[2]):
        return None
    return FOREIGN_MONTH_NUMBERS.get(foreign[1].lower().rstrip("."))


def read_row_date(text: str, month: int | None = None, max_lead: int = 3) -> RowDate | None:
    """The date that opens a text, or None when it does not open with one.

    A week or class number may stand first ("Week 3", "day 14", "5."). ``month`` is that of a heading above, for
    bare day numbers. At most ``max_lead`` letters or digits may stand before the date besides those.
    """
    flat = " ".join(text.split())
    position, week, number, kind = _counters(flat)
    rest = flat[position:]
    found = _over_months(rest, month) or _compact_days(rest, max_lead) or _opening_dates(rest, max_lead)
    if found is None and month is not None:
        found = _day_under_month(rest, month)
    if found is None and number is not None and kind in _CLASSES and week is None:
        frame = Frame(
            day=MeetingNumber(number, "" if kind in ("class", "day", "session", "meeting", "lesson") else kind)
        )
        return RowDate(replace(frame, words=flat[:position].strip()), rest.lstrip(" .:–—-"), position, number, kind)
    if found is None:
        return None if week is None else _week_alone(flat, position, week)
    days, end, of_week = found
    frame = _frame(days, of_week)
    frame = replace(frame, week=week, words=flat[: position + end].strip(" .:–—-("))
    left = _DAY_LETTER.sub("", rest[end:])
    return RowDate(frame, left.lstrip(" .:;,)–—-"), position + end, number, kind)


def _week_alone(text: str, position: int, week: int) -> RowDate:
    """A row that is dated by its week number alone, or by a weekday behind it ("Week 2, Friday")."""
    named = _WEEKDAY_BEHIND.match(text[position:])
    weekday = WEEKDAY_NAMES.get(named[1].lower()) if named else None
    position += named.end() if named and weekday is not None else 0
    frame = Frame(stretch=Week(week), week=week, weekday=weekday, words=text[:position].strip())
    return RowDate(frame, text[position:].lstrip(" .:–—-"), position)


def _counters(text: str) -> tuple[int, int | None, int | None, str]:
    position, week, number, kind = 0, None, None, ""
    match = _WEEK.match(text)
    if match:
        week = int(match[1]) if match[1] else _NUMBER_WORDS.index(match[2].lower()) + 1
        position = match.end()
    counted = _COUNTED.match(text[position:])
    if counted:
        number, kind = int(counted["n"]), counted["what"].lower().rstrip(".")
        position += counted.end()
    elif week is None:
        bare = _BARE_NUMBER.match(text)
        if bare:
            number, position = int(bare[1]), bare.end()
    return position, week, number, kind


def _opening_dates(rest: str, max_lead: int) -> tuple[tuple[DateExpression, ...], int, bool] | None:
    phrases = dated_phrases(rest)
    if not phrases:
        return None
    first = phrases[0]
    if not _is_row_date(first.expression):
        return None
    lead = rest[: first.start]
    of_week = bool(_WEEK_OF.search(lead))
    if len(re.sub(r"[\W_]", "", lead)) > max_lead and not of_week:
        return None
    if max_lead <= SHORT_LEAD and any(not head.is_weak for head in find_heads(lead)):
        return None  # "HW1: 9/14" is no row of 9/14
    expression = first.expression
    assert expression is not None
    days, end = [expression], first.end
    for phrase in phrases[1:]:
        between = rest[end : phrase.start]
        if (
            phrase.expression is not None
            and re.fullmatch(r"[\s,/&()–-]*(?:and)?[\s(]*", between)
            and _is_date(phrase.expression)
        ):
            days.append(phrase.expression)
            end = phrase.end
        else:
            break
    if len(days) == 1:
        match = _DAY_LIST.match(rest, end)
        while match and (other := _sibling(days[-1], int(match[1]))) is not None:
            days.append(other)
            end = match.end()
            match = _DAY_LIST.match(rest, end)
    return tuple(days), end, of_week


def _compact_days(rest: str, max_lead: int) -> tuple[tuple[DateExpression, ...], int, bool] | None:
    """Several days of one month written once: "8/21-23", "Aug. 26/28"."""
    match = _NUMERIC_DAYS.search(rest) or _NAMED_DAYS.search(rest)
    if match is None or len(re.sub(r"[\W_]", "", rest[: match.start()])) > max_lead:
        return None
    numbers = [int(number) for number in re.findall(r"\d+", match["days"])]
    if any(not 1 <= number <= 31 for number in numbers) or numbers != sorted(numbers):
        return None
    month = match["month"]
    if month.isdecimal():
        if not 1 <= int(month) <= 12:
            return None
        days: list[DateExpression] = [
            NumericDate(int(month), number) if number <= 12 else MonthDay(int(month), number) for number in numbers
        ]
    else:
        days = [MonthDay(_MONTHS.index(month[:3].lower()) + 1, number) for number in numbers]
    return tuple(days), match.end(), False


def _sibling(day: DateExpression, number: int) -> DateExpression | None:
    """The later day of the same month that a list such as "Aug. 27, 29" names."""
    if isinstance(day, MonthDay) and day.day < number <= 31:
        return MonthDay(day.month, number)
    if isinstance(day, NumericDate) and day.second < number <= 31:
        return MonthDay(day.first, number)
    if isinstance(day, FullDate) and day.day.day < number <= 31:
        try:
            return FullDate(day.day.replace(day=number))
        except ValueError:
            return None
    return None


def _is_row_date(expression: DateExpression | None) -> bool:
    """Whether a phrase can date a row: a day, a range of days, a numbered week; no month, event or rule."""
    if expression is None:
        return False
    if isinstance(expression, Span):
        return _is_row_date(expression.first) and _is_row_date(expression.last)
    if isinstance(expression, WeekOf):
        return _is_row_date(expression.base)
    if isinstance(expression, WeekdayIn):
        return isinstance(expression.stretch, Week) or _is_row_date(expression.stretch)
    return _is_date(expression) or isinstance(expression, Week | MeetingNumber)


def _is_date(expression: DateExpression) -> bool:
    return isinstance(expression, FullDate | MonthDay | NumericDate | DayInMonth)


def _day_under_month(rest: str, month: int) -> tuple[tuple[DateExpression, ...], int, bool] | None:
    ranged = days_of_month(rest, month)
    if ranged is not None:
        return (ranged[0],), ranged[1], False
    match = _DAY_NUMBER.match(rest)
    if not match or not 1 <= int(match[1]) <= 31:
        return None
    return (MonthDay(month, int(match[1])),), match.end(), False


def _over_months(rest: str, month: int | None) -> tuple[tuple[DateExpression, ...], int, bool] | None:
    """A stretch that begins in the month of the heading and ends in another ("22-Jan 2" under December)."""
    ranged = days_of_month(rest, month) if month is not None else None
    if ranged is None or not re.search(r"[A-Za-z]{3}", rest[: ranged[1]]):
        return None
    return (ranged[0],), ranged[1], False


def days_of_month(text: str, month: int) -> tuple[Span, int] | None:
    """The stretch that two numbers of days open a text with ("15-16", "22-Jan 2"), and where it ends; else None."""
    match = _DAY_RANGE.match(text)
    if match is None:
        return None
    last_month = month_alone(match["month"]) if match["month"] else month
    first, last = int(match["first"]), int(match["last"])
    if last_month is None or not (1 <= first <= LAST_DAY and 1 <= last <= LAST_DAY):
        return None
    if last_month == month and last <= first:
        return None
    return Span(MonthDay(month, first), MonthDay(last_month, last)), match.end()


def _frame(days: tuple[DateExpression, ...], of_week: bool) -> Frame:
    first = days[0]
    if of_week and is_single_day(first):
        return Frame(stretch=WeekOf(first))
    if len(days) > 1 and all(_is_date(day) for day in days):
        return Frame(days=days, stretch=Span(days[0], days[-1]))
    if is_single_day(first):
        return Frame(day=first)
    if isinstance(first, WeekOf | Week | CalendarWeek):
        return Frame(stretch=first, week=first.number if isinstance(first, Week) else None)
    return Frame(stretch=first)
