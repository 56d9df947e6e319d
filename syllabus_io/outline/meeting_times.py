"""Meeting patterns in text: "TTh 10:00-11:15", "Mondays 2–4 pm in Hall 3", "18:00–20:50 Wednesdays"."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import time
from itertools import pairwise

from syllabus_io.outline.headings import any_of
from syllabus_io.outline.vocabulary import MEETING_KINDS, WEEKDAY_NAMES, weekdays_of_letters
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.term import Meeting

__all__ = ["find_days", "find_meetings", "find_time_ranges", "has_meeting_words"]

_FULL_NAMES = r"(?:mon|tues|wednes|thurs|fri|satur|sun)days?"
_SHORT_NAMES = r"(?:mon|tues|tue|tu|weds|wed|thurs|thur|thu|th|fri|sat|sun|mo|we|fr)\b\.?"
_NAME = rf"(?:{_FULL_NAMES}|{_SHORT_NAMES})"
_JOIN = r"\s*(?:,\s*and\s+|,\s*&\s*|,|/|&|\+|\band\b|\bor\b|–|—|-|\bthrough\b|\bthru\b|\bto\b|\s)\s*"
_NAMED_DAYS = rf"(?<![A-Za-z]){_NAME}(?:{_JOIN}{_NAME})*(?![A-Za-z])"
# Letters are capitals as timetables print them; "M W F", "M/W", "TTh", "TuTh", "MoWe", "M-F".
_LETTER = r"(?:Mo|MO|Tu|TU|We|WE|Th|TH|Fr|FR|Sa|SA|Su|SU|M|T|W|R|F|S|U)"
_LETTER_DAYS = rf"(?<![A-Za-z0-9.@]){_LETTER}(?:(?:\s?[/&,+-]\s?|\s|,\s?and\s)?{_LETTER}){{0,6}}(?![A-Za-z0-9])"
_DAYS = re.compile(rf"(?i:{_NAMED_DAYS})|{_LETTER_DAYS}")
_RANGE_WORDS = re.compile(r"\s*(?:–|—|-|through|thru|to)\s*", re.IGNORECASE)

_HALF = r"[ap]\.?\s?m\b\.?|[AP]\.?\s?M\b\.?"
_CLOCK = (
    rf"(?:(?P<{{0}}h>[01]?\d|2[0-4])(?:[:.](?P<{{0}}m>[0-5]\d))?\s*(?P<{{0}}x>{_HALF})?|(?P<{{0}}noon>noon|midday))"
)
_TIME_RANGE = re.compile(
    rf"(?<![\d/.:$#-])(?:from\s+)?{_CLOCK.format('a')}\s*(?:-|–|—|−|~|\bto\b|\buntil\b|\btill\b)\s*{_CLOCK.format('b')}"
    rf"(?![\d/%:])(?!\s*(?:%|points|pts|pages|students|minutes|mins|hours|weeks|years))",
    re.IGNORECASE,
)
_MILITARY_RANGE = re.compile(r"(?<![\d-])([01]\d|2[0-3])([0-5]\d)\s?[-–—]\s?([01]\d|2[0-3])([0-5]\d)(?![\d-])")
_AT_TIME = re.compile(rf"(?:\bat\s+|\band\s+|,\s*|@\s*)({_CLOCK.format('a')})(?<=[mM.n\d])(?![\d:/%])", re.IGNORECASE)
_OTHER_HOURS = re.compile(
    r"office|\bhrs?\b|student hours|drop-?in|consult|tutoring|help (?:session|desk|room)|review session|appointment|"
    r"\bexams?\b|\bfinals?\b|midterm|\bdue\b|deadline|available|reply|respond|e-?mail|library|access|open\b|closes?\b",
    re.IGNORECASE,
)
_MEETING_WORDS = re.compile(
    r"\b(?:class(?:es)?|course|lectures?|lec|labs?|laboratory|section|recitations?|discussions?|seminars?|tutorials?|"
    r"meets?|meetings?|times?|when|sessions?|days|studio|schedule)\b",
    re.IGNORECASE,
)
_NEW_CLASS = re.compile(r"[;\n]|\b(?:lab|lecture|recitation|discussion)\b", re.IGNORECASE)
_STATEMENT_END = re.compile(r"[;\n•|]|(?<![ap])\.\s+(?=[A-Z])")
_OWN_LABEL = re.compile(
    r"\b(?:class(?:es)?|lectures?|labs?|recitations?|discussions?|seminars?|section|course|meetings?)\b[\w\s]{0,12}"
    r"(?::|\bmeets?\b|\bis\b|\bare\b|\bhours\b|\btimes?\b)",
    re.IGNORECASE,
)
_KIND = re.compile(rf"(?<![a-z])({any_of(MEETING_KINDS)})(?![a-z])(?!\s*(?:#|no\.?|number)?\s*\d)", re.IGNORECASE)
_ROOM_WORDS = (
    r"(?:hall|room|rm|building|bldg|auditorium|center|centre|theatre|theater|lab|laboratory|studio|gym|library|"
    r"zoom|online)"
)
_ROOM_WORD = r"(?:[A-Z][\w'&-]*(?:\.\w+)*|\d[\w-]*(?:\.\w+)*)"
_ROOM = re.compile(
    r"^[\s,:.(@|–-]*(?:(?:in|at|room:?|rm\.?|location:?|place:?|classroom:?)\s+)*"
    rf"(?P<room>{_ROOM_WORD}(?:[ /](?:{_ROOM_WORD}|[&#]\w+)|\s(?:of|and)\s(?=[A-Z])|\s{_ROOM_WORDS}){{0,5}})",
)


@dataclass(frozen=True, slots=True)
class _Days:
    start: int
    end: int
    days: tuple[Weekday, ...]


@dataclass(frozen=True, slots=True)
class _Hours:
    start: int
    end: int
    first: time
    last: time | None


def has_meeting_words(text: str) -> bool:
    """Whether a label or sentence speaks of classes ("Class time", "The seminar meets ...")."""
    return bool(_MEETING_WORDS.search(text)) and not re.search(r"office|student hours|drop-?in", text, re.IGNORECASE)


def find_days(text: str) -> tuple[tuple[int, int, tuple[Weekday, ...]], ...]:
    """Groups of weekdays in a text: start, end and days. "M-F" and "Monday through Thursday" are filled in.

    Two days joined by a dash ("T-Th") are that pair; only Monday to Thursday and to Friday are stretches
    (common practice, no source).
    """
    return tuple((found.start, found.end, found.days) for found in _find_days(text))


def _find_days(text: str) -> list[_Days]:
    found: list[_Days] = []
    for match in _DAYS.finditer(text):
        days = _days_of(match[0])
        if days and not _is_plain_word(text, match):
            found.append(_Days(match.start(), match.end(), days))
    return found


def _is_plain_word(text: str, match: re.Match[str]) -> bool:
    """Whether a lone short name is an everyday word: "sat", "sun", and "We" before anything but a time."""
    word = match[0].strip(" .")
    if word == "We":
        return not re.match(r"\s*\d", text[match.end() :])
    return word.islower() and len(word) <= 3


def _days_of(words: str) -> tuple[Weekday, ...]:
    names = list(re.finditer(rf"(?i:{_NAME})", words))
    covered = re.sub(rf"(?i:{_NAME}|\band\b|\bor\b|through|thru|\bto\b)|[\s,/&+–—-]", "", words)
    if names and not covered:
        days = [WEEKDAY_NAMES[name[0].lower().rstrip(".")] for name in names]
        joins = [words[left.end() : right.start()] for left, right in pairwise(names)]
    else:
        letters = re.sub(r"\band\b", "", words)
        days = list(weekdays_of_letters(letters))
        parts = re.findall(r"[A-Za-z]+", letters)
        joins = ["-"] if len(days) == 2 and len(parts) == 2 and re.search(r"[-–—]", letters) else []
    if len(days) == 2 and joins and _RANGE_WORDS.fullmatch(joins[0]):
        spelled = bool(re.search(r"[a-z]{2}", joins[0], re.IGNORECASE))
        if days[1] > days[0] and (spelled or (days[0] is Weekday.MO and days[1] >= Weekday.TH)):
            return tuple(Weekday(number) for number in range(days[0], days[1] + 1))
    return tuple(sorted(set(days)))


def find_time_ranges(text: str) -> tuple[tuple[int, int, time, time | None], ...]:
    """Ranges of clock times in a text: start, end, first and last time; am and pm filled in as classes are held."""
    return tuple((hours.start, hours.end, hours.first, hours.last) for hours in _find_hours(text))


def _find_hours(text: str) -> list[_Hours]:
    found: list[_Hours] = []
    for match in _TIME_RANGE.finditer(text):
        bounds = _bounds(match)
        if bounds and (match["ax"] or match["bx"] or match["am"] or match["bm"] or _is_plain_hours(text, match)):
            found.append(_Hours(match.start(), match.end(), *bounds))
    for match in _MILITARY_RANGE.finditer(text):
        first, last = time(int(match[1]), int(match[2])), time(int(match[3]), int(match[4]))
        if first < last and not _is_year(match[1] + match[2]):
            found.append(_Hours(match.start(), match.end(), first, last))
    return sorted(found, key=lambda hours: hours.start)


def _is_year(digits: str) -> bool:
    return digits[:2] in {"19", "20"} and digits[2:] not in {"00", "10", "15", "20", "30", "40", "45", "50"}


def _is_plain_hours(text: str, match: re.Match[str]) -> bool:
    """Whether bare numbers ("M 2-4") stand right behind weekdays; elsewhere they may be pages or sections."""
    return any(0 <= match.start() - days.end <= 8 for days in _find_days(text))


def _bounds(match: re.Match[str]) -> tuple[time, time] | None:
    first = _minutes(match, "a")
    last = _minutes(match, "b")
    if first is None or last is None:
        return None
    first_half, last_half = _half(match, "a"), _half(match, "b")
    written_24 = bool(match["ah"] and (int(match["ah"]) > 12 or match["ah"].startswith("0")))
    if first_half is None and last_half is None:
        if not written_24 and not (match["bh"] and int(match["bh"]) > 12):
            first = _usual_half(first, last)
        last = last + 720 if last <= first and last < 720 else last
    elif first_half is None:
        last = _with_half(last, last_half)
        choices = [first % 720, first % 720 + 720] if first < 780 else [first]
        fitting = [choice for choice in choices if choice < last]
        first = max(fitting) if fitting else first
    else:
        first = _with_half(first, first_half)
        if last_half is not None:
            last = _with_half(last, last_half)
        elif last <= first:
            last += 720
    if not (0 <= first < last < 1440):
        return None
    return time(first // 60, first % 60), time(last // 60, last % 60)


def _minutes(match: re.Match[str], side: str) -> int | None:
    if match[f"{side}noon"]:
        return 720
    hour, minute = int(match[f"{side}h"]), int(match[f"{side}m"] or 0)
    return hour * 60 + minute if hour < 24 else None


def _half(match: re.Match[str], side: str) -> str | None:
    if match[f"{side}noon"]:
        return "pm"
    written = match[f"{side}x"]
    return (written[0].lower() + "m") if written else None


def _with_half(minutes: int, half: str | None) -> int:
    if minutes >= 780:
        return minutes
    return minutes % 720 + (720 if half == "pm" else 0)


def _usual_half(first: int, last: int) -> int:
    """The start as classes are held: 8 to 12 in the day, 1 to 6 after noon, 7 in the evening when it is long.

    Common practice, no source.
    """
    length = (last - first) % 720
    if first < 7 * 60 or (first < 8 * 60 and length >= 100):
        return first + 720
    return first


def find_meetings(text: str, kind: str = "") -> tuple[Meeting, ...]:
    """The weekly meetings that a line or sentence about classes states; several times of one day group are several.

    The text must speak of classes: hours behind words such as "office hours" or "exam" are left out, but nobody
    else's hours can be told apart here.
    """
    days = _find_days(text)
    hours = _find_hours(text)
    meetings: list[Meeting] = []
    for number, span in enumerate(hours):
        if _is_other_hours(text, span.start):
            continue
        group = _group_for(days, span, hours[:number], text)
        if group is None:
            continue
        starts = [*(one.start for one in hours), *(one.start for one in days)]
        limit = min((start for start in starts if start >= span.end), default=len(text))
        room = _room_after(text[max(span.end, group.end if group.start > span.start else 0) : limit])
        meetings.append(
            Meeting(group.days, span.first, span.last, room, _kind_at(text, min(span.start, group.start), kind))
        )
    if not hours:
        meetings = _single_times(text, days, kind)
    return tuple(dict.fromkeys(meetings))


def _single_times(text: str, days: list[_Days], kind: str) -> list[Meeting]:
    """Meetings whose end is not stated: "meets Mondays at 6 pm", "on Mondays and Fridays at 10:00 AM and 11:00 AM"."""
    meetings: list[Meeting] = []
    for number, group in enumerate(days):
        limit = days[number + 1].start if number + 1 < len(days) else len(text)
        if _is_other_hours(text, group.start):
            continue
        for match in _AT_TIME.finditer(text, group.end, limit):
            minutes = _minutes(match, "a")
            half = _half(match, "a")
            if minutes is None or match.start() - group.end > 40 or (half is None and not match["am"]):
                continue
            first = _with_half(minutes, half) if half else _usual_half(minutes, minutes + 60)
            meetings.append(
                Meeting(group.days, time(first // 60, first % 60), None, None, _kind_at(text, group.start, kind))
            )
    return meetings


def _group_for(days: list[_Days], span: _Hours, earlier: list[_Hours], text: str) -> _Days | None:
    """The day group that a time range belongs to: the last before it, else the next right behind it."""
    before = [group for group in days if group.end <= span.start]
    after = [group for group in days if group.start >= span.end]
    behind = after[0] if after and after[0].start - span.end <= 25 else None
    # "6:40-10:05 Mondays": the order of the first pair in the text holds for all of them
    times_first = not before or (earlier and before[-1].start > earlier[0].start and days[0].start > earlier[0].end)
    if behind and times_first and not _NEW_CLASS.search(text[span.end : behind.start]):
        return behind
    if before and span.start - before[-1].end <= 90:
        return before[-1]
    return behind


def _is_other_hours(text: str, position: int) -> bool:
    """Whether the nearest telling word before a time, in the same statement, says that it is not a class."""
    start = max((match.end() for match in _STATEMENT_END.finditer(text, 0, position)), default=0)
    other = [match.end() for match in _OTHER_HOURS.finditer(text, start, position)]
    if not other:
        return False
    own = [match.end() for match in _OWN_LABEL.finditer(text, start, position)]
    return not own or own[-1] < other[-1]


def _kind_at(text: str, position: int, kind: str) -> str:
    named = list(_KIND.finditer(text, 0, position))
    return MEETING_KINDS[" ".join(named[-1][1].lower().split())] if named else kind


def _room_after(text: str) -> str | None:
    match = _ROOM.match(text.replace("\n", " "))
    if not match:
        return None
    room = match["room"].strip(" ,;.()-")
    has_room_word = re.search(rf"\b{_ROOM_WORDS}\b", room, re.IGNORECASE)
    if re.fullmatch(rf"(?i){_ROOM_WORDS}|(?:section|class|course|office|lecture)\b.*", room):
        return None
    if not (has_room_word or re.search(r"\d", room)) or len(room) > 40 or re.fullmatch(r"\d", room):
        return None
    if re.match(r"(?i)(?:jan|feb|mar|apr|may|june?|july?|aug|sep|oct|nov|dec)[a-z]*\b", room):
        return None
    return room


def without_overlap(meetings: tuple[Meeting, ...]) -> tuple[Meeting, ...]:
    """The meetings once each; one that repeats days and start takes what the other knows of end and room."""
    merged: dict[tuple[tuple[Weekday, ...], time | None], Meeting] = {}
    for meeting in meetings:
        key = (meeting.days, meeting.start)
        known = merged.get(key)
        if known is None:
            merged[key] = meeting
        else:
            merged[key] = replace(
                known,
                end=known.end or meeting.end,
                room=known.room or meeting.room,
                kind=known.kind or meeting.kind,
            )
    return tuple(merged.values())
