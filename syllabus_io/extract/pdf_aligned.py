"""Stretches of lines that stand in columns without any rule down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from syllabus_io.extract.pdf_gutters import (
    FEWEST_LINES,
    GUTTER_SHARE,
    Gutter,
    column_words,
    inked,
    shared_gutters,
    wide_parts,
)
from syllabus_io.extract.pdf_rows import NEW_ROW_GAP_SHARE, SHORT_KEY_LETTERS, usual_leading
from syllabus_io.extract.pdf_words import PrintedLine

__all__ = ["Run", "find_runs", "headed_run", "lines_that_continue"]

FARTHEST_LINE_SHARE = 4.5
"""Lines farther apart than this share of their size belong to different tables."""


@dataclass(frozen=True, slots=True)
class Run:
    """Lines ``first`` up to ``last`` (not included) of a region that stand in columns."""

    first: int
    last: int
    gutters: tuple[Gutter, ...]


def find_runs(lines: Sequence[PrintedLine], stops: Sequence[float] = ()) -> list[Run]:
    """The stretches of lines that stand in columns. ``stops`` are heights that no stretch goes over."""
    runs: list[Run] = []
    start = 0
    while start < len(lines):
        if len(wide_parts(lines[start])) < 2:
            start += 1
            continue
        end = _grown(lines, start, stops)
        run = _accepted(lines, start, end)
        if run is None:
            start += 1
        else:
            runs.append(run)
            start = run.last
    return runs


def _grown(lines: Sequence[PrintedLine], start: int, stops: Sequence[float]) -> int:
    """Where the run that begins at ``start`` ends: the number of the first line that leaves its gutters."""
    gutters = _gaps(lines[start])
    end = start + 1
    for number in range(start + 1, len(lines)):
        line, above = lines[number], lines[number - 1]
        if line.base - above.base > FARTHEST_LINE_SHARE * max(line.size, above.size):
            break
        if any(above.base < stop < line.base for stop in stops):
            break
        left_over = _kept_gaps(gutters, line)
        if left_over and (len(left_over) == len(gutters) or len(left_over) >= 2 or len(wide_parts(line)) > 1):
            if len(left_over) == len(gutters) or number - start <= 2:
                gutters = left_over
            end = number + 1
            continue
        if not _goes_on_after(lines, number, gutters):
            break
    return end


def _goes_on_after(lines: Sequence[PrintedLine], number: int, gutters: list[Gutter]) -> bool:
    """Whether the two lines below one that runs across all gutters stand in columns again."""
    below = lines[number + 1 : number + 3]
    return (
        len(below) == 2
        and all(
            len(_kept_gaps(gutters, line)) == len(gutters) and line.base - above.base <= FARTHEST_LINE_SHARE * line.size
            for above, line in zip(lines[number:], below, strict=False)
        )
        and any(len(wide_parts(line)) > 1 for line in below)
    )


def headed_run(lines: Sequence[PrintedLine], header: int) -> tuple[tuple[Gutter, ...], int]:
    """The gutters of a table whose first ``header`` lines are its header, and where it ends (no gutters: none)."""
    opening = next((number for number in range(header - 1, -1, -1) if len(wide_parts(lines[number])) > 1), None)
    if opening is None:
        return (), 0
    end = _grown(lines, opening, ())
    gutters = shared_gutters(lines[:end], fewest=2)
    used = [number for number in range(header, end) if len(column_words(lines[number], gutters)) > 1]
    if gutters and not used and header < end == len(lines):
        return gutters, end
    if not gutters or not used:
        return (), 0
    return gutters, _trimmed(lines, used[-1], end, gutters)


def lines_that_continue(lines: Sequence[PrintedLine], gutters: Sequence[Gutter], leading: float) -> int:
    """How many of the lines, from the first on, go on with a table that has the gutters."""
    end, last = 0, 0
    for number, line in enumerate(lines):
        far = number > 0 and line.base - lines[number - 1].base > FARTHEST_LINE_SHARE * line.size
        if far or len(_kept_gaps(list(gutters), line)) < len(gutters):
            break
        end = number + 1
        if len(column_words(line, gutters)) > 1:
            last = end
    return _trimmed(lines, last - 1, end, gutters, leading) if last else 0


def _gaps(line: PrintedLine) -> list[Gutter]:
    parts = wide_parts(line)
    return [Gutter(before[-1].right, after[0].left) for before, after in pairwise(parts)]


def _kept_gaps(gutters: list[Gutter], line: PrintedLine) -> list[Gutter]:
    """What the line leaves blank of the gutters."""
    kept = []
    stretches = inked(line)
    for gutter in gutters:
        blank = [gutter]
        for start, end in stretches:
            blank = [
                piece
                for strip in blank
                for piece in (Gutter(strip.left, min(strip.right, start)), Gutter(max(strip.left, end), strip.right))
                if piece.right - piece.left > 0
            ]
        widest = max(blank, key=lambda strip: strip.right - strip.left, default=None)
        if widest is not None and widest.right - widest.left >= GUTTER_SHARE * line.size:
            kept.append(widest)
    return kept


def _accepted(lines: Sequence[PrintedLine], start: int, end: int) -> Run | None:
    """The run over the lines, cut to those that stand in columns; None when these are too few."""
    several = [number for number in range(start, end) if len(wide_parts(lines[number])) > 1]
    if len(several) < 2:
        return None
    stretch = lines[start:end]
    header = all(word.bold for word in lines[start].words) and not all(word.bold for word in lines[start + 1].words)
    fewest = 2 if header and len(several) <= 3 else FEWEST_LINES
    gutters = shared_gutters(stretch, fewest)
    if not gutters:
        return None
    used = [number for number in range(start, end) if len(column_words(lines[number], gutters)) > 1]
    if len(used) < fewest:
        return None
    last = _trimmed(lines, used[-1], end, gutters)
    return Run(used[0], last, gutters)


def _trimmed(
    lines: Sequence[PrintedLine], last: int, end: int, gutters: Sequence[Gutter], leading: float | None = None
) -> int:
    """The run's end: lines below the last one with several columns stay only when they continue it."""
    leading = leading or usual_leading(lines[max(0, last - 16) : last + 1], gutters)
    while last + 1 < end:
        line, above = lines[last + 1], lines[last]
        columns = column_words(line, gutters)
        if (
            line.base - above.base > NEW_ROW_GAP_SHARE * leading
            or len(columns) != 1
            or abs(line.size - above.size) > 0.6
        ):
            break
        column = next(iter(columns))
        begins_like = column == 0 and _looks_like_key(line, lines[: last + 1], gutters)
        if column == 0 and not begins_like:
            break
        last += 1
    return last + 1


def _looks_like_key(line: PrintedLine, above: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> bool:
    """Whether the line reads like the entries of the first column above it: with a digit where they have one."""
    keys = [words[0] for words in (column_words(other, gutters) for other in above[-8:]) if 0 in words]
    digits = sum(any(letter.isdigit() for word in key for letter in word.text) for key in keys)
    own = any(letter.isdigit() for word in line.words for letter in word.text)
    return bool(keys) and own and 2 * digits > len(keys) and len(line.text) <= SHORT_KEY_LETTERS
