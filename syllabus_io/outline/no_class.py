"""Days off as the outline names them: "No class – autumn break", "Spring recess, March 9-13"."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from syllabus_io.outline.columns import weekday_in
from syllabus_io.outline.day_keys import DayKey, day_key
from syllabus_io.outline.due_rules import note_numbers
from syllabus_io.outline.entries import DAY_LABEL, split_entries
from syllabus_io.outline.frames import Frame, Passage, frame_expression
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.listed_days_off import listed_days_off
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.records import Mention, NoClass
from syllabus_io.outline.titles import tidy_title
from syllabus_io.outline.weekday_lines import in_days, labelled_days
from syllabus_io.resolve.expression import (
    CalendarWeek,
    DateExpression,
    FullDate,
    MeetingNumber,
    MonthDay,
    NumericDate,
    Phrase,
    Span,
    Week,
    Weekday,
    WeekdayIn,
    WeekOf,
)

__all__ = ["read_no_class"]

_OFF = re.compile(
    r"\bno (?:class(?:es)?|lectures?|school|students|meetings?|seminar|studio|rehearsals?|tutorials?|clinicals?|"
    r"instruction)\b"
    r"(?! (?:participation|project|time))"
    r"|\bclass(?:es)? (?:is |are |will be )?(?:cancel(?:l)?ed|not held)\b|\bclass (?:does|will) not meet\b"
    r"|\b(?:spring|fall|autumn|winter|summer|mid-?term|mid-?semester|october|thanksgiving|easter|christmas|semester|study|oct\.?)\s+"
    r"(?:break|recess|vacation|holidays?)\b"
    r"|\breading (?:week|days?)\b|\bstudy (?:day|week|period)s?\b|\b(?:stuvac|swotvac|swot vac)\b"
    r"|\bhalf[- ]term\b|\brecess\b|\b(?:federal|public|"
    r"university|bank|school|statutory|monday) holiday\b"
    r"|\b(?:labou?r|memorial|veterans'?|presidents?'?|columbus|indigenous peoples'?|independence|victoria|canada|"
    r"remembrance|family|"
    r"martin luther king,?(?: jr\.?,?)?|mlk,?(?: jr\.?,?)?|cesar chavez|patriots'?|juneteenth|boxing|civic|"
    r"heritage|university|founders'?)[’']?s?[’']?\s*(?:day|holiday)\b"
    r"|\bthanksgiving\b|\bgood friday\b|\beaster monday\b|\bjuneteenth\b|\bholiday\b|\b(?:university|college|"
    r"school|campus) closed\b|\bday off\b|\bteacher workday\b",
    re.IGNORECASE,
)
_WEEK_LONG = re.compile(
    r"\b(?:break|recess|vacation|reading week|study week|half[- ]term|full[- ]week)\b", re.IGNORECASE
)
_KNOWN_NAME = re.compile(
    r"\b(?:(?:spring|fall|autumn|winter|summer|mid-?term|mid-?semester|october|oct\.?|thanksgiving|easter|christmas|study|semester)\s+"
    r"(?:break|recess|vacation|holidays?)|reading (?:week|days?)|thanksgiving(?: day)?|good friday|easter monday|"
    r"[\w.,’']+(?:\s+(?!is\b|on\b)[\w.,’']+){0,4}\s+day|half[- ]term)\b",
    re.IGNORECASE,
)
_NAMED = re.compile(
    r"(?:(?:[A-Z][\w.’'-]*|fall|spring|winter|autumn|summer|mid-?term),?\s+)+"
    r"(?:[Bb]reak|[Rr]ecess|[Vv]acation|[Dd]ay|[Hh]oliday|BREAK|RECESS|VACATION|DAY|HOLIDAY|[Tt]hanksgiving|[Ww]eek)\b"
)
_NOT_OFF = re.compile(
    r"\b(?:policy|policies|religious|observ(?!ed\b)\w+|breakdown|due|if|exam(?:s)? (?:on|during)|after class|"
    r"office hours|make-?up|except(?:ion)?|revision|review|test|assessment|prep)\b"
    r"|\bno class participation\b",
    re.IGNORECASE,
)
_BESIDE = re.compile(r"\b(?:before|after|over|during|since|until)\s+(?:the\s+|our\s+)?$", re.IGNORECASE)
_ONE_STRETCH = re.compile(
    r"(?!.*\b(?!(?:mon|tue|wed|thu|fri|sat|sun|and|through|thru|until|class|ends|resume))[A-Za-z]{4,})[^.;:]{0,30}",
    re.IGNORECASE,
)
_WEEKDAY = r"(?:mon|tues?|wed(?:nes)?|thur?s?|fri)(?:day)?"
_WEEKDAY_RANGE = re.compile(
    rf"\b(?P<first>{_WEEKDAY})\.?\s*(?:-|–|—|/|&|,|\band\b|\bto\b|\bthrough\b)\s*(?P<last>{_WEEKDAY})\b", re.IGNORECASE
)
_DAY_RANGE = re.compile(r"(?<![\d/])(\d{1,2})\s*[-–]\s*(\d{1,2})(?![\d/])")
_NOTE = re.compile(r"^\W*(?:foot)?note\s*#?(\d{1,2})\W+", re.IGNORECASE)
_NO_CLASS_DAY = re.compile(
    r"\bno class(?:es)?\s+(?:on\s+)?((?:mon|tues?|wed(?:nes)?|thur?s?|fri)(?:day)?)\b(?!\s*(?:,|and|or|&|/|-|–))",
    re.IGNORECASE,
)
_WEEKDAY_IS = re.compile(
    r"\b((?:mon|tues|wednes|thurs|fri)day)\s+(?:is|will be)\s+(?:a\s+|the\s+)?(?=[^.;]{0,30}\b(?:holiday|day)\b)",
    re.IGNORECASE,
)  # "Tuesday is Founders' Day"
# Public holidays of the United States that the law puts on a Monday (5 U.S.C. 6103).
_MONDAY_HOLIDAY = re.compile(
    r"\b(?:martin luther king|mlk|presidents?[’']?s?[’']? day|memorial day|labor day|columbus day|"
    r"indigenous peoples?[’']?s?[’']? day)\b",
    re.IGNORECASE,
)
_WEEKDAY_HOLIDAY = re.compile(r"\b(mon|tues|wednes|thurs|fri)day holiday\b", re.IGNORECASE)
_SMALL_LEAD = re.compile(r"^(?:(?:on|at|during|for|over|the|and)\s+)+(?=[A-Z])", re.IGNORECASE)
DAYS_OF_WEEK = 7
SHORT_ENTRY = 60
LONGEST_LIST = 500
LONGEST_ENTRY = 140


def read_no_class(passages: Sequence[Passage]) -> tuple[NoClass, ...]:
    """The days off named in rows, under dates and in running text; consecutive parts of one break are one."""
    found: list[NoClass] = []
    by_class = _schedules_by_class(passages)
    for passage in (*passages, *_noted(passages)):
        if passage.group in by_class and passage.frame.day is not None:
            passage = replace(passage, frame=replace(passage.frame, week=None))
        found.extend(_in_passage(passage))
    return _without_doubles(found)


def _schedules_by_class(passages: Sequence[Passage]) -> set[int]:
    """The schedules with a row for each class, mostly less than a week apart: a break in a row is that class's day."""
    days: dict[int, dict[DayKey, None]] = {}
    for passage in passages:
        if passage.frame.day is not None and passage.group:
            days.setdefault(passage.group, {})[day_key(passage.frame.day)] = None
    return {group for group, found in days.items() if _are_close([key for key in found if len(key) == 3])}


def _are_close(days: Sequence[tuple[str, int, int]]) -> bool:
    """Whether most of the days are followed by one less than a week later."""
    steps = [(b[1] - a[1]) % 12 * 30 + b[2] - a[2] for a, b in itertools.pairwise(days)]
    return len(steps) > 1 and 2 * sum(0 < step < DAYS_OF_WEEK for step in steps) > len(steps)


def _noted(passages: Sequence[Passage]) -> Iterator[Passage]:
    """What numbered notes say, in the rows that refer to them by number."""
    notes: dict[int, str] = {}
    for passage in passages:
        match = _NOTE.match(passage.text) if not passage.frame.is_dated else None
        if match:
            notes[int(match[1])] = passage.text[match.end() :]
    for passage in passages:
        if passage.role is ColumnRole.NOTES and passage.frame.is_dated:
            for number in sorted(note_numbers(passage.text)):
                if number in notes:
                    yield replace(passage, text=notes[number], lines=())


def _in_passage(passage: Passage) -> Iterator[NoClass]:
    if not passage.frame.is_dated:
        yield from _lists(passage)
    if not _OFF.search(passage.text):
        return
    pieces = [entry.text for entry in split_entries(passage)] if passage.frame.is_dated else _sentences(passage.text)
    if passage.frame.is_dated and len(passage.text) < SHORT_ENTRY:
        pieces = [" ".join(passage.text.split())]
    for text in [part for piece in pieces for part in (_sentences(piece) if _NOT_OFF.search(piece) else [piece])]:
        match = _OFF.search(text)
        if (
            match is None
            or len(text) > LONGEST_ENTRY + 60
            or (not passage.frame.is_dated and _is_list(text, passage.section))
        ):
            continue
        expression, words = _dates(text, match, _on_weekday(text, passage.frame))
        if expression is None:
            continue
        is_told = re.search(r"\bno class", text, re.IGNORECASE)
        if not is_told and (_NOT_OFF.search(text) or _BESIDE.search(text[: match.start()])):
            continue
        phrase = Phrase(words, 0, len(words), expression)
        mention = Mention(phrase, passage.place, words, " ".join(text.split()), passage.frame.row)
        yield NoClass(_name(text, match), mention)


def _on_weekday(text: str, frame: Frame) -> Frame:
    """The frame of a week with the weekday that the words name ("Monday: MLK Day", "No class Friday")."""
    if labelled_days(text) is not None:
        return frame
    named = _WEEKDAY_IS.search(text)
    label = DAY_LABEL.match(text) or _NO_CLASS_DAY.search(text) or named
    if frame.stretch is None or label is None or (frame.weekday is not None and named is None):
        return frame
    return replace(frame, weekday=weekday_in(label[1]))


def _is_list(text: str, section: str = "") -> bool:
    """Whether a sentence lists days off; days of one run ("Nov. 25/26/27") are one stretch, not a list."""
    dated = dated_phrases(text)
    one_run = len(dated) > 1 and all(
        re.fullmatch(r"\s*[/,&]\s*", text[a.end : b.start]) and _is_next_day(_expression(a), _expression(b))
        for a, b in itertools.pairwise(dated)
    )
    return not one_run and bool(listed_days_off(text, section))


def _is_next_day(first: DateExpression, second: DateExpression) -> bool:
    a, b = day_key(first), day_key(second)
    if len(a) != 3 or len(b) != 3:
        return False
    return (a[1] == b[1] and b[2] - a[2] == 1) or (b[1] - a[1] in (1, -11) and b[2] == 1 and a[2] >= 28)


def _lists(passage: Passage) -> Iterator[NoClass]:
    """The days off that sentences of running text list."""
    for text in _sentences(passage.text):
        if len(text) > LONGEST_LIST or re.search(r"\b(?:due|office hours)\b", text, re.IGNORECASE):
            continue
        for name, phrase in listed_days_off(text, passage.section) if _is_list(text, passage.section) else ():
            yield NoClass(name, Mention(phrase, passage.place, phrase.text, " ".join(text.split())))


def _sentences(text: str) -> list[str]:
    return [part for part in re.split(r"\n|(?<=[.!?])\s+(?=[A-Z])", text) if part.strip()]


def _dates(text: str, match: re.Match[str], frame: Frame) -> tuple[DateExpression | None, str]:
    own = _in_clause(text, match, [phrase for phrase in dated_phrases(text) if _is_stretch_of_days(phrase)])
    if own and isinstance(week := _expression(own[0]), Week | WeekOf):
        if frame.is_dated or len(own) > 1:
            return None, ""
        return Span(WeekdayIn(week, Weekday.MO), WeekdayIn(week, Weekday.FR)), own[0].text
    is_one = not any(isinstance(_expression(phrase), Span) for phrase in own) and _ONE_STRETCH.fullmatch(
        text[own[0].end : own[-1].start] if own else ""
    )
    if len(own) > 1 and not is_one:
        own = [min(own, key=lambda phrase: max(phrase.start - match.end(), match.start() - phrase.end))]
    if own:
        first, last = _expression(own[0]), _expression(own[-1])
        words = text[own[0].start : own[-1].end]
        listed = re.match(r"(?:\s*[/,&-]\s*\d{1,2})+", text[own[-1].end :])
        if listed and not isinstance(last, Span):
            end = _same_month(last, int(re.findall(r"\d{1,2}", listed[0])[-1]))
            if end is not None:
                return Span(first, end), words + listed[0]
        return (first, words) if len(own) == 1 else (Span(first, last), words)
    if not frame.is_dated or isinstance(frame.day, MeetingNumber):
        return None, ""  # a class that is not held has no day by its number
    if (several := labelled_days(text)) is not None and frame.stretch is not None and frame.weekday is None:
        narrowed = in_days(frame, several[0], several[1])
        return narrowed.stretch, narrowed.words
    ranged = _DAY_RANGE.search(text[: match.end() + 15])
    base = frame.day or (frame.stretch.first if isinstance(frame.stretch, Span) else None)
    if ranged and base is not None and frame.stretch is not None:
        first_day, last_day = _same_month(base, int(ranged[1])), _same_month(base, int(ranged[2]))
        if first_day is not None and last_day is not None:
            return Span(first_day, last_day), ranged[0]
    return _framed(text, frame), frame.words


def _is_stretch_of_days(phrase: Phrase) -> bool:
    expression = _expression(phrase)
    if isinstance(expression, Span):
        return not isinstance(expression.first, Week | WeekOf)
    return isinstance(expression, Week | WeekOf) or day_key(expression)[0] == "date"


def _in_clause(text: str, match: re.Match[str], phrases: Sequence[Phrase]) -> list[Phrase]:
    """The phrases in the clause of the words that tell of a day off, days before weeks; all where it has none."""
    begin = text.rfind(";", 0, match.start()) + 1
    end = text.find(";", match.end())
    inside = [phrase for phrase in phrases if begin <= phrase.start and (end < 0 or phrase.end <= end)] or list(phrases)
    days = [phrase for phrase in inside if not isinstance(phrase.expression, Week | WeekOf)]
    return days or inside


def _framed(text: str, frame: Frame) -> DateExpression | None:
    long = bool(_WEEK_LONG.search(text))
    if (days := _weekdays_of_week(text, frame)) is not None:
        return days
    named = _WEEKDAY_HOLIDAY.search(text)
    if named and frame.week is not None:
        framed = frame_expression(replace(frame, weekday=weekday_in(named[0])), None)
        return framed[0] if framed else None
    gap = frame.day is not None and long and _follows(text)
    if gap and frame.day is not None:
        after = CalendarWeek(frame.day, 1)
        return Span(WeekdayIn(after, Weekday.MO), WeekdayIn(after, Weekday.FR))
    if frame.weekday is not None:
        framed = frame_expression(frame, None)
        return framed[0] if framed else None
    if frame.day is not None and not (frame.week is not None and long):
        return frame.day
    week = WeekOf(frame.day) if frame.day is not None else frame.stretch
    if week is None:
        return None
    if isinstance(week, Span):
        monday = _MONDAY_HOLIDAY.search(text) and not long
        framed = frame_expression(replace(frame, weekday=Weekday.MO), None) if monday else None
        return framed[0] if framed else week
    if not long:
        return week.base if isinstance(week, WeekOf) else None
    return Span(WeekdayIn(week, Weekday.MO), WeekdayIn(week, Weekday.FR))


def _weekdays_of_week(text: str, frame: Frame) -> DateExpression | None:
    """The days of a row's week from one weekday to another ("Fall break Mon-Tue", "Thanksgiving Wed-Fri")."""
    match = _WEEKDAY_RANGE.search(text)
    first, last = (weekday_in(match["first"]), weekday_in(match["last"])) if match else (None, None)
    if first is None or last is None or last <= first:
        return None
    ends = [frame_expression(replace(frame, weekday=day), None) for day in (first, last)]
    return Span(ends[0][0], ends[1][0]) if ends[0] is not None and ends[1] is not None else None


def _follows(text: str) -> bool:
    """Whether a break named behind the topic of a class follows that class: it then takes the week after."""
    match = _WEEK_LONG.search(text)
    before = _NAMED.sub(" ", text[: match.end()]) if match else text
    return len(re.findall(r"[A-Za-z]{3,}", before)) >= 2 and not re.search(r"\bno class", text, re.IGNORECASE)


def _same_month(day: DateExpression, number: int) -> DateExpression | None:
    if not 1 <= number <= 31:
        return None
    match day:
        case MonthDay(month=month):
            return MonthDay(month, number)
        case NumericDate(first=first):
            return MonthDay(first, number)
        case FullDate(day=full):
            try:
                return FullDate(full.replace(day=number))
            except ValueError:
                return None
        case _:
            return None


def _expression(phrase: Phrase) -> DateExpression:
    assert phrase.expression is not None
    return phrase.expression


def _name(text: str, match: re.Match[str]) -> str:
    """The name of a day off: that of a known break or holiday, else what stands capitalized before "day" or "break"."""
    behind = text[match.start() :] if match[0].lower().startswith("no ") else text
    for words in dict.fromkeys((behind, text)):
        plain = re.sub(
            r"\([^)]*\)$|^\W*no (?:class(?:es)?|lectures?|school)\b[\s.:,–—(-]*", "", words, flags=re.IGNORECASE
        )
        for phrase in reversed(dated_phrases(plain)):
            plain = f"{plain[: phrase.start]};{plain[phrase.end :]}" if re.search(r"\d", phrase.text) else plain
        for pattern in (_KNOWN_NAME, _NAMED):
            for found in pattern.finditer(plain):
                name = tidy_title(_SMALL_LEAD.sub("", found[0]))
                if len(name) > 3 and not name.lower().startswith(("no ", "each", "every")) and len(name.split()) <= 6:
                    return name
    return tidy_title(match[0])


def _without_doubles(found: Sequence[NoClass]) -> tuple[NoClass, ...]:
    kept: list[NoClass] = []
    for one in found:
        key = day_key(_expression(one.mention.phrase))
        index = next((i for i, other in enumerate(kept) if day_key(_expression(other.mention.phrase)) == key), None)
        if index is None and (wider := _same_start(one, kept)) is not None:
            kept[wider] = max(kept[wider], one, key=lambda off: isinstance(off.mention.phrase.expression, Span))
        elif index is None:
            kept.append(one)
        elif kept[index].name.lower().startswith("no ") and not one.name.lower().startswith("no "):
            kept[index] = replace(kept[index], name=one.name)
    return tuple(kept)


def _same_start(one: NoClass, kept: Sequence[NoClass]) -> int | None:
    """The day off of the same row that begins on the same day and only one of the two is a stretch; None without."""
    row = one.mention.row
    for index, other in enumerate(kept):
        stretches = [isinstance(off.mention.phrase.expression, Span) for off in (one, other)]
        if row is not None and other.mention.row == row and stretches[0] is not stretches[1]:
            return index
    return None
