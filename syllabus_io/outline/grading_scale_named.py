"""Scales of named grades with their short forms: "HD (High Distinction): 80 and above", "D: 70–79"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from syllabus_io.outline.records import GradeStep

__all__ = ["named_scale"]

FEWEST_STEPS = 3
_HIGHEST = re.compile(r"(?<![A-Za-z])HD(?![A-Za-z])")
_LETTER = re.compile(r"(?<![A-Za-z])(?P<letter>HD|DN|DI|CR|PS|NN|D|C|P|N|F)(?![A-Za-z’'])")
_BOUND = re.compile(
    r"(?P<low>\d{1,3})(?:\.\d+)?\s?%?\s?(?:-|–|—|to)\s?(?P<high>\d{1,3})(?:\.\d+)?\s?%?"
    r"|(?P<over>\d{1,3})\s?%?\s?(?:\+|(?:and|or) (?:above|over|more|higher))"
    r"|(?:below|under|less than|<)\s?(?P<under>\d{1,3})\s?%?"
)


def named_scale(texts: Iterable[str]) -> tuple[GradeStep, ...]:
    """The steps of the first text or run of lines that names a High Distinction and its marks; empty without one."""
    lines = list(texts)
    for number, text in enumerate(lines):
        if not _HIGHEST.search(text):
            continue
        for joined in (text, " ; ".join(lines[number : number + 8])):
            steps = _steps(joined)
            if len(steps) >= FEWEST_STEPS:
                return steps
    return ()


def _steps(text: str) -> tuple[GradeStep, ...]:
    letters = list(_LETTER.finditer(text))
    bounds = list(_BOUND.finditer(text))
    if not letters or not bounds:
        return ()
    first, second = (letters, bounds) if letters[0].start() < bounds[0].start() else (bounds, letters)
    found: dict[str, float] = {}
    for one in first:
        behind = next((other for other in second if other.start() >= one.end()), None)
        following = next((other.start() for other in first if other.start() > one.start()), len(text))
        if behind is None or behind.start() > following:
            continue
        letter, bound = (one, behind) if first is letters else (behind, one)
        if letter["letter"] in found or (found and _minimum(bound) >= min(found.values())):
            break  # another list begins
        found[letter["letter"]] = _minimum(bound)
    return tuple(GradeStep(letter, minimum) for letter, minimum in found.items())


def _minimum(bound: re.Match[str]) -> float:
    if bound["under"]:
        return 0.0
    return float(bound["over"]) if bound["over"] else float(min(int(bound["low"]), int(bound["high"])))
