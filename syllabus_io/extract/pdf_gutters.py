"""Gutters between columns of text: strips that stay blank over several lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from statistics import median
from typing import NamedTuple

from syllabus_io.extract.pdf_words import PrintedLine, Word, fragments

__all__ = ["Gutter", "column_words", "inked", "shared_gutters", "wide_parts"]

GUTTER_SHARE = 0.38
"""A gutter stays blank over at least this share of the type size ..."""
USUAL_GAP_SHARE = 0.8
"""... and three in four of the gaps across it, line by line, are at least this share (a typewriter's blank is 0.6)."""
HEADER_LINES = 3
CROSSING_SHARE = 0.12
"""Of the lines of a table, so many may run across a gutter (spanning entries)."""
FEWEST_LINES = 3
"""So many lines with text on both sides of a gutter make columns."""
BULLET = re.compile(r"^[^\w\s–—%$#…-]$")
"""A sign alone: a bullet, or a letter of a font of small pictures."""
NUMBERING = re.compile(r"^(?:[•◦▪▫●○■□◆◇·∙‣⁃➢➤✓❖–—*-]|\(?(?:\d{1,2}|[ivx]{1,4}|[A-Za-z])[.)]|\(\d{1,2}\))$")


class Gutter(NamedTuple):
    """A blank strip between two columns."""

    left: float
    right: float

    @property
    def middle(self) -> float:
        """The line down its middle."""
        return (self.left + self.right) / 2


def wide_parts(line: PrintedLine) -> list[tuple[Word, ...]]:
    """The fragments of a line; a bullet or number stays with the text it opens."""
    parts = fragments(line)
    joined: list[tuple[Word, ...]] = []
    pending: tuple[Word, ...] = ()
    for number, part in enumerate(parts):
        alone = len(part) == 1 and number + 1 < len(parts)
        opens = alone and (
            BULLET.match(part[0].text) or (number == 0 and len(parts) == 2 and NUMBERING.match(part[0].text))
        )
        if opens:
            pending += part
            continue
        joined.append(pending + part)
        pending = ()
    return joined


def shared_gutters(lines: Sequence[PrintedLine], fewest: int = FEWEST_LINES) -> tuple[Gutter, ...]:
    """The gutters that the lines keep blank; those that too few lines use, or only as a word gap, are left out."""
    if len(lines) < 2:
        return ()
    left = int(min(line.box.left for line in lines)) - 1
    right = int(max(line.box.right for line in lines)) + 2
    size = median(line.size for line in lines)
    covered = _coverage(lines, left, right)
    many = [line for line in lines if len(wide_parts(line)) > 1]
    gutters: list[Gutter] = []
    for allowed in sorted({0, int(CROSSING_SHARE * len(lines)) if len(many) >= 4 else 0}, reverse=True):
        for start, end in _blank_strips(covered, allowed):
            gutter = _narrowed(covered, left, start, end)
            known = any(other.left < gutter.right and other.right > gutter.left for other in gutters)
            wide = gutter.right - gutter.left >= GUTTER_SHARE * size
            if wide and not known and _is_used(lines, gutter, size, fewest):
                gutters.append(gutter)
    return tuple(sorted(gutters))


def _coverage(lines: Sequence[PrintedLine], left: int, right: int) -> list[int]:
    """For each point across the page, over how many lines a word or the blank within a phrase stands there."""
    change = [0] * (right - left + 2)
    for line in lines:
        for start, end in inked(line):
            change[max(0, round(start) - left)] += 1
            change[min(len(change) - 1, max(round(end), round(start) + 1) - left)] -= 1
    total, covered = 0, []
    for step in change:
        total += step
        covered.append(total)
    return covered


def inked(line: PrintedLine) -> list[tuple[float, float]]:
    """The stretches of the line without any gap that could be a narrow gutter."""
    stretches: list[list[float]] = []
    marker = NUMBERING.match(line.words[0].text) is not None or BULLET.match(line.words[0].text) is not None
    for number, word in enumerate(line.words):
        limit = GUTTER_SHARE * word.size
        if stretches and (word.left - stretches[-1][1] < limit or (marker and number == 1 and len(line.words) > 1)):
            stretches[-1][1] = max(stretches[-1][1], word.right)
        else:
            stretches.append([word.left, word.right])
    return [(start, end) for start, end in stretches]


def _blank_strips(covered: list[int], allowed: int) -> list[tuple[int, int]]:
    strips: list[tuple[int, int]] = []
    start: int | None = None
    inside = False
    for point, count in enumerate(covered):
        if count > allowed:
            if inside and start is not None:
                strips.append((start, point))
            inside, start = True, None
        elif inside and start is None:
            start = point
    return strips


def _narrowed(covered: list[int], left: int, start: int, end: int) -> Gutter:
    """The part of the strip that the fewest lines cross."""
    least = min(covered[start:end])
    best = (0, start, start)
    begin = None
    for point in range(start, end + 1):
        if point < end and covered[point] == least:
            begin = point if begin is None else begin
        elif begin is not None:
            best = max(best, (point - begin, begin, point))
            begin = None
    return Gutter(left + best[1], left + best[2])


def _is_used(lines: Sequence[PrintedLine], gutter: Gutter, size: float, fewest: int) -> bool:
    """Whether enough lines have text on both sides of the gutter, well apart; a header's line speaks for others."""
    gaps = {number: gap for number, line in enumerate(lines) if (gap := _gap_across(line, gutter)) is not None}
    ordered = sorted(gaps.values())
    if len(ordered) >= fewest and ordered[len(ordered) // 4] >= USUAL_GAP_SHARE * size:
        return True
    headed = any(gap >= USUAL_GAP_SHARE * size for number, gap in gaps.items() if number < HEADER_LINES)
    return headed and len(lines) > HEADER_LINES and gutter.right - gutter.left >= USUAL_GAP_SHARE * size


def _gap_across(line: PrintedLine, gutter: Gutter) -> float | None:
    """How far the line's words left and right of the gutter stand apart; None when one side is blank."""
    before = [word.right for word in line.words if (word.left + word.right) / 2 < gutter.middle]
    after = [word.left for word in line.words if (word.left + word.right) / 2 > gutter.middle]
    return min(after) - max(before) if before and after else None


def column_words(line: PrintedLine, gutters: Sequence[Gutter]) -> dict[int, list[Word]]:
    """The line's words by column (from 0). A phrase that runs across a gutter counts to the column it begins in."""
    columns: dict[int, list[Word]] = {}
    for part in _phrases(line, gutters):
        first = sum(gutter.middle < part[0].left + 0.25 * part[0].size for gutter in gutters)
        columns.setdefault(first, []).extend(part)
    return columns


def _phrases(line: PrintedLine, gutters: Sequence[Gutter]) -> list[list[Word]]:
    """The words parted where a gutter lies blank between two of them."""
    parts = [[line.words[0]]]
    for before, word in zip(line.words, line.words[1:], strict=False):
        gap = word.left - before.right
        between = any(before.right - 1.5 <= gutter.middle <= word.left + 1.5 for gutter in gutters)
        if between and gap >= GUTTER_SHARE * word.size:
            parts.append([word])
        else:
            parts[-1].append(word)
    return parts
