"""What a cell holds, in the form in which a workbook is compared with itself after another program has saved it.

Dates and times are the numbers by which spreadsheets know them, so that a copy without styles says the same; blank and
empty text are the same; text is compared without the escapes of the file format.
"""

from __future__ import annotations

import hashlib
import math
import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any, TypeAlias

__all__ = [
    "Content",
    "FormulaText",
    "Restored",
    "Stamp",
    "as_typed",
    "content_of",
    "date_of",
    "holds",
    "mark_of",
    "plain_text",
    "same",
    "same_mark",
    "shown",
    "time_of",
    "value_of",
]

_EPOCH = datetime(1899, 12, 30)  # noqa: DTZ001  # spreadsheets know no zones
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_DAY_SECONDS = 86_400
_AFTER_NEVER = 61
_LONGEST_KEPT = 48
_FIRST_DAY, _LAST_DAY = 32_874, 73_415  # 1990 to 2100: what the workbook takes for a day


@dataclass(frozen=True, slots=True)
class FormulaText:
    """A formula with its equals sign, and the cell it was written for."""

    text: str
    cell: str = ""


class Stamp(float):
    """A number that was shown as a date or a time, with the format it was shown in."""

    __slots__ = ("format",)
    format: str

    def __new__(cls, number: float, shown_as: str) -> Stamp:
        stamp = super().__new__(cls, number)
        stamp.format = shown_as
        return stamp


class Restored(str):
    """A text of the program in English that stands in another language in its cell. ``typed`` is what it means where a
    person typed it: the English word for what is chosen from a list, else the cell's own text."""

    __slots__ = ("typed",)
    typed: str

    def __new__(cls, english: str, typed: str) -> Restored:
        restored = super().__new__(cls, english)
        restored.typed = typed
        return restored


Content: TypeAlias = str | float | bool | FormulaText | None


class _Words(str):
    """Text that begins like a formula and is none: it was typed, or written, as text."""

    __slots__ = ()


def value_of(cell: Any) -> object:
    """The value of one of openpyxl's cells, which gives text that begins like a formula just as it gives formulas."""
    value = cell.value
    return _Words(value) if isinstance(value, str) and value.startswith("=") and cell.data_type != "f" else value


def content_of(value: object, cell: str = "", number_format: str = "General") -> Content:
    """What a cell holds, from what :func:`value_of` gives for it."""
    match value:
        case None | "":
            return None
        case bool():
            return value
        case int() | float():
            return float(value)
        case datetime():
            days = _days(value.replace(tzinfo=None) - _EPOCH)
            # Spreadsheets count a 29 February 1900 that never was: the days before it are one less.
            return Stamp(days - 1 if 1 < days < _AFTER_NEVER else days, number_format)
        case date():
            return Stamp((datetime(value.year, value.month, value.day) - _EPOCH).days, number_format)  # noqa: DTZ001
        case time():
            return Stamp((value.hour * 3600 + value.minute * 60 + value.second) / _DAY_SECONDS, number_format)
        case timedelta():
            return Stamp(_days(value), number_format)
        case Restored():
            return value
        case _Words():
            return plain_text(value)
        case str():
            return FormulaText(value, cell) if value.startswith("=") and len(value) > 1 else plain_text(value)
        case _:
            # Array formulas and data tables come as objects that hold their text.
            text = str(getattr(value, "text", "") or "")
            return FormulaText(text if text.startswith("=") else f"={text}", cell)


def plain_text(text: str) -> str:
    """Text as a person sees it in the cell: escapes of the file format undone, one kind of line end."""
    text = _ESCAPED.sub(lambda match: chr(int(match[1], 16)), text)
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _days(length: timedelta) -> float:
    seconds = length.days * _DAY_SECONDS + length.seconds + round(length.microseconds / 1_000_000)
    return seconds / _DAY_SECONDS


def same(first: Content, second: Content) -> bool:
    """Whether two contents are the same but for the last digits that programs keep of a number."""
    if isinstance(first, float) and isinstance(second, float):
        return math.isclose(first, second, rel_tol=1e-11, abs_tol=1e-9)
    if isinstance(first, FormulaText) and isinstance(second, FormulaText):
        return True
    return type(first) is type(second) and first == second


def mark_of(content: Content) -> str | float | bool | None:
    """The content as it is noted for a later comparison: long text by its digest, a formula by an equals sign."""
    match content:
        case FormulaText():
            return "="
        case str():
            if len(content) > _LONGEST_KEPT:
                return "~" + hashlib.sha256(content.encode("utf-8", "replace")).hexdigest()[:20]
            return "'" + content
        case _:
            return content


def same_mark(first: str | float | bool | None, second: str | float | bool | None) -> bool:
    """Whether two marks note the same content."""
    if isinstance(first, float | int) and isinstance(second, float | int):
        return isinstance(first, bool) == isinstance(second, bool) and math.isclose(
            first, second, rel_tol=1e-11, abs_tol=1e-9
        )
    return first == second


def as_typed(content: Content) -> Content:
    """The content of a cell in which a person typed."""
    return content.typed if isinstance(content, Restored) else content


def holds(content: Content, mark: str | float | bool | None) -> bool:
    """Whether a cell holds what was noted by a mark, in English or as it was."""
    return same_mark(mark_of(content), mark) or same_mark(mark_of(as_typed(content)), mark)


def date_of(content: Content) -> date | None:
    """The day a number stands for; None for anything else, also for numbers that are no day of our time."""
    if isinstance(content, bool) or not isinstance(content, float) or not _FIRST_DAY <= content <= _LAST_DAY:
        return None
    return (_EPOCH + timedelta(days=int(content))).date()


def time_of(content: Content) -> time | None:
    """The time of day a fraction of a day stands for; None for anything else."""
    if isinstance(content, bool) or not isinstance(content, float) or not 0 <= content < 1:
        return None
    minutes = round(content * 24 * 60)
    return time(min(minutes // 60, 23), minutes % 60 if minutes < 24 * 60 else 59)


def shown(content: Content) -> str:
    """The content in words, for a report: numbers as they are, formulas with their equals sign."""
    match content:
        case None:
            return ""
        case FormulaText():
            return content.text
        case bool():
            return "yes" if content else "no"
        case Stamp() if (day := date_of(content)) and any(letter in content.format for letter in "dy"):
            return day.isoformat()
        case float():
            return f"{content:.15g}"
        case _:
            return content
