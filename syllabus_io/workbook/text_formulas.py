"""Formulas that make words of days and times, and cut text to length. No function whose codes hang on a program's
language. Twins: ``plan.labels``."""

from __future__ import annotations

from syllabus_io.plan.labels import MONTHS, WEEKDAYS

__all__ = ["clock_words", "cut_words", "day_words", "short_date_words"]


def day_words(day: str) -> str:
    """A day in a few letters: "Tue 6 Oct"."""
    weekday = f'MID("{WEEKDAYS}",3*WEEKDAY({day},2)-2,3)'
    return f'{weekday}&" "&{short_date_words(day)}'


def short_date_words(day: str) -> str:
    """The day and month alone: "6 Oct"."""
    return f'DAY({day})&" "&MID("{MONTHS}",3*MONTH({day})-2,3)'


def clock_words(minutes: str, hours: int) -> str:
    """A time of day, given in whole minutes, by a clock of 12 or 24 hours."""
    hour = f"INT(({minutes})/60)"
    past = f'":"&RIGHT("0"&MOD({minutes},60),2)'
    if hours == 24:
        return f"{hour}&{past}"
    return f'(MOD({hour}+11,12)+1)&{past}&IF({hour}<12," am"," pm")'


def cut_words(text: str, length: str) -> str:
    """Text cut to length, with a mark where something is missing."""
    return f'IF(LEN({text})>{length},LEFT({text},{length}-1)&"…",{text})'
