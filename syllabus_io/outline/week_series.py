"""Work of one weekday in a run of numbered weeks: "Weeks 3–8, each due by Saturday 8 pm"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.mentions import Draft
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.policies import speaks_of_rules
from syllabus_io.outline.prose_names import lead_of
from syllabus_io.outline.records import Item, Mention
from syllabus_io.outline.sentences import sentences_of
from syllabus_io.outline.titles import noun_phrase, singular
from syllabus_io.outline.vocabulary import WEEKDAY_NAMES
from syllabus_io.outline.work_words import find_heads, is_negated, is_passed_over
from syllabus_io.resolve.expression import Phrase, Week, WeekdayIn

__all__ = ["WeekSeries", "read_week_series", "week_series"]

_WEEKS = re.compile(
    r"\b(?:weeks|wks\.?|week)\s*(?P<first>\d{1,2})\s*(?:(?:-|–|—|to|through|until)\s*(?:week\s*)?(?P<last>\d{1,2})|"
    r"(?P<more>(?:\s*,\s*\d{1,2})*\s*,?\s*(?:and|&)\s*\d{1,2}))\b(?!\s*[%:/])",
    re.IGNORECASE,
)
_DAY = r"(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?"
_EACH = re.compile(
    rf"\b(?:each|every)\s+(?:week\s+(?:by|on|before)\s+)?(?P<each>{_DAY})\b"
    rf"|\b(?:each|every|all)\b[^;]{{0,60}}?\b(?:closes?|due|submitted|handed in|completed|by|on|before)\s+"
    rf"(?:by\s+|on\s+)?(?:the\s+)?(?P<due>{_DAY})\b"
    rf"|\b(?:closes?|due|submit(?:ted)?|hand(?:ed)? in|by|on|before)\s+(?:by\s+|on\s+)?(?:the\s+)?(?P<own>{_DAY})\b"
    r"(?=[^;]{0,40}\b(?:of|in)\s+(?:that|the|each|the same)\s+week)"
    rf"|^(?=\W*(?:weeks|wks)\b)[^;]*?\b(?:by|on|due|before)\s+(?P<plain>{_DAY})\b"
    rf"|\b(?P<many>{_DAY}s)\b(?<=days)|\b(?P<of>{_DAY})s?\s+(?:of|in)\s+weeks\b",
    re.IGNORECASE,
)
_EXCEPT = re.compile(
    r"\b(?:except|excluding|not|but not|no \w+)\s+(?:in\s+|for\s+)?weeks?\s*(?P<left>\d[\d\s,&and/]*)", re.IGNORECASE
)
_NOT_WORK = re.compile(
    r"\b(?:office hours?|meets?\b|meetings?|lectures?|tutorials? (?:run|are)|consultation|drop-in|helps?)\b",
    re.IGNORECASE,
)
MOST_WEEKS = 20


@dataclass(frozen=True, slots=True)
class WeekSeries:
    """The day of each week of a run, as phrases that share the time of day, by the number of the week."""

    days: tuple[tuple[int, Phrase], ...]
    start: int
    end: int


def week_series(text: str) -> WeekSeries | None:
    """The days that a text fixes by naming a run of weeks and a weekday of each; None where it does not say both."""
    weeks = _WEEKS.search(text)
    day = _EACH.search(text)
    if weeks is None or day is None:
        return None
    numbers = _numbers(weeks)
    named = (day["each"] or day["due"] or day["own"] or day["plain"] or day["many"] or day["of"]).lower()
    weekday = WEEKDAY_NAMES.get(named) or WEEKDAY_NAMES.get(named.removesuffix("s"))
    if weekday is None or not 1 < len(numbers) <= MOST_WEEKS:
        return None
    clock = next((phrase for phrase in phrases_in(text, weak=True) if phrase.time is not None), None)
    start, end = min(weeks.start(), day.start()), max(weeks.end(), day.end())
    left_out = set(_left_out(text))
    days = []
    for number in numbers:
        phrase = Phrase(text[start:end], start, end, WeekdayIn(Week(number), weekday))
        if clock is not None:
            phrase = replace(phrase, time=clock.time, end_time=clock.end_time, time_point=clock.time_point)
        days += [] if number in left_out else [(number, phrase)]
    return WeekSeries(tuple(days), start, end)


def _numbers(weeks: re.Match[str]) -> list[int]:
    first = int(weeks["first"])
    if weeks["last"]:
        return list(range(first, int(weeks["last"]) + 1))
    return [first, *(int(number) for number in re.findall(r"\d+", weeks["more"]))]


def _left_out(text: str) -> Iterator[int]:
    for match in _EXCEPT.finditer(text):
        yield from (int(number) for number in re.findall(r"\d+", match["left"]))


def read_week_series(passage: Passage) -> Iterator[Draft]:
    """The work that sentences of running text fix by a run of weeks and a weekday, each called by its week."""
    for sentence in sentences_of(passage.text):
        text = sentence.text
        series = week_series(text)
        if series is None or speaks_of_rules(text) or is_negated(text) or _NOT_WORK.search(text):
            continue
        lead = lead_of(passage.text)
        for words in (text, lead[1] if lead is not None else "", passage.section):
            heads = [head for head in find_heads(words) if not is_passed_over(words, head)]
            heads = [head for head in heads if words is not text or not head.is_weak]
            if heads:
                break
        else:
            continue
        title = singular(noun_phrase(words, heads[0]))
        place = passage.place_of(sentence.start + series.start, sentence.start + series.end)
        for number, phrase in series.days:
            mention = Mention(phrase, place, phrase.text, " ".join(text.split()), None, phrase.doubts)
            yield Draft(Item(heads[0].kind, f"{title}, week {number}", (mention,)), 0, None, passage.section, True)
