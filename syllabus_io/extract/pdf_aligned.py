"""Columns of text without vertical rules: gutters that stay blank over several lines, and the rows between them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import NamedTuple

from syllabus_io.extract.pdf_words import PrintedLine, Word, fragments

__all__ = [
    "Gutter",
    "Run",
    "column_words",
    "find_runs",
    "headed_run",
    "lines_that_continue",
    "shared_gutters",
    "text_rows",
    "usual_leading",
    "wide_parts",
]

GUTTER_SHARE = 0.38
"""A gutter stays blank over at least this share of the type size ..."""
USUAL_GAP_SHARE = 0.8
"""... and three in four of the gaps across it, line by line, are at least this share (a typewriter's blank is 0.6)."""
HEADER_LINES = 3
CROSSING_SHARE = 0.12
"""Of the lines of a table, so many may run across a gutter (spanning entries)."""
FARTHEST_LINE_SHARE = 4.5
"""Lines farther apart than this share of their size belong to different tables."""
FEWEST_LINES = 3
"""So many lines with text on both sides of a gutter make columns."""
NEW_ROW_GAP_SHARE = 1.3
"""A line farther below the one above than this share of the usual distance begins a new row."""
SHORT_KEY_LETTERS = 14
"""Leading columns whose entries are no longer than this tell where rows begin."""

BULLET = re.compile(r"^[^\w\s–—%$#…-]$")
"""A sign alone: a bullet, or a letter of a font of small pictures."""
NUMBERING = re.compile(r"^(?:[•◦▪▫●○■□◆◇·∙‣⁃➢➤✓❖–—*-]|\(?(?:\d{1,2}|[ivx]{1,4}|[A-Za-z])[.)]|\(\d{1,2}\))$")
OPEN_END = re.compile(r"(?:[\s\d][-–—]|[a-z]-|[,&/]|\b(?:and|to|of|the|for|through))$", re.IGNORECASE)


class Gutter(NamedTuple):
    """A blank strip between two columns."""

    left: float
    right: float

    @property
    def middle(self) -> float:
        """The line down its middle."""
        return (self.left + self.right) / 2


@dataclass(frozen=True, slots=True)
class Run:
    """Lines ``first`` up to ``last`` (not included) of a region that stand in columns."""

    first: int
    last: int
    gutters: tuple[Gutter, ...]


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
        for start, end in _inked(line):
            change[max(0, round(start) - left)] += 1
            change[min(len(change) - 1, max(round(end), round(start) + 1) - left)] -= 1
    total, covered = 0, []
    for step in change:
        total += step
        covered.append(total)
    return covered


def _inked(line: PrintedLine) -> list[tuple[float, float]]:
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
    inked = _inked(line)
    for gutter in gutters:
        blank = [gutter]
        for start, end in inked:
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


def usual_leading(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> float:
    """The usual distance of a line from the one above it in the same column (columns may be set independently)."""
    last: dict[int, PrintedLine] = {}
    steps = []
    for line in lines:
        for column in column_words(line, gutters):
            above = last.get(column)
            if above is not None and above.page == line.page and line.base - above.base > 1:
                steps.append(line.base - above.base)
            last[column] = line
    steps.sort()
    return steps[len(steps) // 4] if steps else 1.3 * (lines[0].size if lines else 10.0)


def text_rows(
    lines: Sequence[PrintedLine], gutters: Sequence[Gutter], separators: Sequence[float] = ()
) -> list[list[PrintedLine]]:
    """The lines grouped to rows: by rules, by entries in the leading columns, and by wider gaps."""
    if not lines:
        return []
    columns = [column_words(line, gutters) for line in lines]
    rows = _Rows(lines, columns, _key_columns(columns, len(gutters) + 1), usual_leading(lines, gutters), separators)
    return [[lines[number] for number in row] for row in rows.grouped()]


@dataclass(frozen=True, slots=True)
class _Rows:
    """Finds where rows begin among lines whose words are known by column."""

    lines: Sequence[PrintedLine]
    columns: Sequence[dict[int, list[Word]]]
    keys: Sequence[int]
    leading: float
    separators: Sequence[float]

    def grouped(self) -> list[list[int]]:
        """The numbers of the lines, row by row."""
        rows: list[list[int]] = [[0]]
        for number in range(1, len(self.lines)):
            if self.begins(rows[-1], number):
                rows.append([number])
            else:
                rows[-1].append(number)
        return self.with_lines_above(rows)

    def begins(self, row: Sequence[int], number: int) -> bool:
        """Whether the line begins a row and does not go on with the given one."""
        line, above, own = self.lines[number], self.lines[number - 1], self.columns[number]
        if line.page != above.page or any(above.base < place < line.base for place in self.separators):
            return True
        wide = line.base - above.base > NEW_ROW_GAP_SHARE * self.leading
        if not wide and any(self.is_cut(row, number, column) for column in own):
            return False
        filled = [key for key in self.keys if key in own]
        if not filled:
            return wide and min(own) <= 1 and len(own) > 1
        first = filled[0]
        if wide:
            return True
        if len(own) == 1 and (first > 0 or _is_wrapped_key(self.columns, number, first)):
            return False
        return not (len(own) == 1 and self.text(number, first)[:1].islower())

    def is_cut(self, row: Sequence[int], number: int, column: int) -> bool:
        """Whether the row's last entry in the column breaks off within a phrase that the line goes on with."""
        entries = [other for other in row if column in self.columns[other]]
        if not entries or self.lines[number].base - self.lines[entries[-1]].base > NEW_ROW_GAP_SHARE * self.leading:
            return False
        own = self.text(number, column)
        return bool(OPEN_END.search(self.text(entries[-1], column))) or own[:1] in "-–—)"

    def text(self, number: int, column: int) -> str:
        """The line's text in the column."""
        return " ".join(word.text for word in self.columns[number][column])

    def with_lines_above(self, rows: list[list[int]]) -> list[list[int]]:
        """Rows whose key stands at half height take lines above it that lie nearer to them than to the row before."""
        for above, below in pairwise(rows):
            while len(above) > 1:
                last, first = above[-1], below[0]
                line, next_line = self.lines[last], self.lines[first]
                if any(key in self.columns[last] for key in self.keys) or line.page != next_line.page:
                    break
                up, gap = line.base - self.lines[above[-2]].base, next_line.base - line.base
                if gap >= 0.75 * up or any(line.base < place < next_line.base for place in self.separators):
                    break
                below.insert(0, above.pop())
        return rows


def _is_wrapped_key(columns: Sequence[dict[int, list[Word]]], number: int, key: int) -> bool:
    """Whether an entry alone in its line goes on from the one above: that one holds a digit, this one none."""
    before = "".join(word.text for word in columns[number - 1].get(key, ()))
    after = "".join(word.text for word in columns[number][key])
    return any(letter.isdigit() for letter in before) and not any(letter.isdigit() for letter in after)


def _key_columns(columns: Sequence[dict[int, list[Word]]], count: int) -> list[int]:
    """The leading columns whose entries tell where rows begin: the first, and short ones after it."""
    keys = [0]
    for column in range(1, count - 1):
        entries = [" ".join(word.text for word in own[column]) for own in columns[1:] if column in own]
        short = sum(len(entry) <= SHORT_KEY_LETTERS for entry in entries)
        numbered = sum(any(letter.isdigit() for letter in entry) for entry in entries)
        if not entries or short < 0.8 * len(entries) or numbered < 0.6 * len(entries):
            break
        keys.append(column)
    return keys
