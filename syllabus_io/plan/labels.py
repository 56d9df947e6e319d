"""Words for days and times as lists and boxes show them. Twins: ``workbook.text_formulas``."""

from __future__ import annotations

from datetime import date, time

__all__ = ["MONTHS", "WEEKDAYS", "clock_label", "cut", "day_label", "entry_length"]

WEEKDAYS = "MonTueWedThuFriSatSun"
MONTHS = "JanFebMarAprMayJunJulAugSepOctNovDec"


def day_label(day: date) -> str:
    """A day in a few letters that no order of day and month can upset.

    >>> day_label(date(2026, 10, 6))
    'Tue 6 Oct'
    """
    weekday, month = 3 * day.weekday(), 3 * (day.month - 1)
    return f"{WEEKDAYS[weekday : weekday + 3]} {day.day} {MONTHS[month : month + 3]}"


def clock_label(clock: time, hours: int) -> str:
    """A time of day by a clock of 12 or 24 hours.

    >>> clock_label(time(23, 59), 24), clock_label(time(0, 5), 12)
    ('23:59', '12:05 am')
    """
    if hours == 24:
        return f"{clock.hour}:{clock.minute:02}"
    return f"{(clock.hour + 11) % 12 + 1}:{clock.minute:02} {'am' if clock.hour < 12 else 'pm'}"


def cut(text: str, length: int) -> str:
    """The text, or so much of it as fits, with a mark that something is missing.

    >>> cut("Shore survey", 8)
    'Shore s…'
    """
    return text if len(text) <= length else text[: length - 1] + "…"


def entry_length(count: int, lines: int, characters: int) -> int:
    """How many characters each of ``count`` entries gets in a box of that many lines: several lines while there is
    room, else one. A line of text broken between words holds some letters less."""
    own = max(1, min(5, lines // max(1, min(count, lines))))
    return own * characters - (own - 1) * 6
