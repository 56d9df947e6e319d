"""Reads the phrase lists: what is expected after "=", then every spelling that must give it, one a line.

A line that begins with "#" is a remark, "calendar: NAME" at the top names a calendar of :mod:`tests.dates.calendars`.
A backslash and n stand for a line break.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from syllabus_io.resolve.expression import ClockTime, Phrase, write_expression

__all__ = ["FOLDER", "Case", "read_cases", "read_lines", "written"]

FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Case:
    """One spelling, what it must give, and where it stands."""

    expected: str
    text: str
    place: str
    calendar: str | None = None

    def __str__(self) -> str:
        return f"{self.place} {self.text}"


def read_lines(path: Path) -> Iterator[tuple[int, str]]:
    """The lines of a list that are neither blank nor remarks, with their numbers."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        if line.strip() and not line.startswith("#"):
            yield number, line.replace("\\n", "\n")


def read_cases(path: Path) -> list[Case]:
    """Every case of a list. ValueError when a spelling stands before any expected value."""
    cases: list[Case] = []
    expected = calendar = None
    for number, line in read_lines(path):
        if line.startswith("calendar:"):
            calendar = line.partition(":")[2].strip()
        elif line.startswith("= "):
            expected = line[2:].strip()
        elif expected is None:
            raise ValueError(f"{path.name}:{number}: a spelling before any expected value")
        else:
            cases.append(Case(expected, line, f"{path.stem}:{number}", calendar))
    return cases


def written(phrase: Phrase) -> str:
    """What a phrase says, as the lists write it: the expression, and "@" with the time, its end and its zone."""
    parts = [write_expression(phrase.expression)] if phrase.expression is not None else []
    time = _clock(phrase.time)
    if phrase.end_time is not None:
        time += f"-{_clock(phrase.end_time)}"
    if phrase.time_point is not None:
        time = f"{time} {phrase.time_point.value}".strip()
    if phrase.zone is not None:
        time += f" {phrase.zone}"
    return " ".join([*parts, f"@ {time}"] if time else parts)


def _clock(time: ClockTime | None) -> str:
    return "" if time is None else f"{time.hour}:{time.minute:02}{'m' if time.from_midnight else ''}"
