"""Rows of tables without rules between them: told from leading entries, wider gaps and broken-off phrases."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from syllabus_io.extract.pdf_gutters import (
    Gutter,
    column_words,
)
from syllabus_io.extract.pdf_words import PrintedLine, Word

__all__ = ["text_rows", "told_rows", "usual_leading"]

NEW_ROW_GAP_SHARE = 1.3
"""A line farther below the one above than this share of the usual distance begins a new row."""
ONE_ENTRY_SHARE = 0.9
FEWEST_TILES = 4
UNEVEN_SHARE = 0.3
SHORT_KEY_LETTERS = 14
"""Leading columns whose entries are no longer than this tell where rows begin."""
OPEN_END = re.compile(r"(?:[\s\d][-–—]|[a-z]-|[,&/]|\b(?:and|to|of|the|for|through))$", re.IGNORECASE)
ENDS_WITH_MONTH = re.compile(r"\b(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?$", re.IGNORECASE)


def usual_leading(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> float:
    """The usual distance of a line from the one above it in the same column (columns may be set independently)."""
    steps = _steps(lines, gutters)
    return steps[len(steps) // 4] if steps else 1.3 * (lines[0].size if lines else 10.0)


def _tightest_leading(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> float:
    """The smallest distance of lines in one column that recurs; 0 where none does."""
    steps = _steps(lines, gutters)
    return next((first for first, third in zip(steps, steps[2:], strict=False) if third - first <= 1.0), 0.0)


def _steps(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> list[float]:
    """The distances of lines from those above them in the same column, the smallest first."""
    last: dict[int, PrintedLine] = {}
    steps = []
    for line in lines:
        for column in column_words(line, gutters):
            above = last.get(column)
            if above is not None and above.page == line.page and line.base - above.base > 1:
                steps.append(line.base - above.base)
            last[column] = line
    return sorted(steps)


def text_rows(
    lines: Sequence[PrintedLine], gutters: Sequence[Gutter], separators: Sequence[float] = ()
) -> list[list[PrintedLine]]:
    """The lines grouped to rows: by rules, by entries in the leading columns, and by wider gaps."""
    return told_rows(lines, gutters, separators)[0]


def told_rows(
    lines: Sequence[PrintedLine], gutters: Sequence[Gutter], separators: Sequence[float] = ()
) -> tuple[list[list[PrintedLine]], bool]:
    """The lines grouped to rows, and whether a line may belong to the row beside the one it was put in: its leading
    entries stand lower than the top of their rows, and neither blank space nor their places tell the rows apart."""
    if not lines:
        return [], False
    columns = [column_words(line, gutters) for line in lines]
    leadings = usual_leading(lines, gutters), _tightest_leading(lines, gutters)
    rows = _Rows(lines, columns, _key_columns(columns, len(gutters) + 1), *leadings, separators)
    found = rows.set_apart() or rows.tiled()
    is_loose = found is None and rows.has_low_keys()
    return [[lines[number] for number in row] for row in found or rows.grouped()], is_loose


@dataclass(frozen=True, slots=True)
class _Rows:
    """Finds where rows begin among lines whose words are known by column."""

    lines: Sequence[PrintedLine]
    columns: Sequence[dict[int, list[Word]]]
    keys: Sequence[int]
    leading: float
    tightest: float
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

    def set_apart(self) -> list[list[int]] | None:
        """The rows by the blank space between them, where a table has entries that are not set to the top of their row.

        None where all are, or where the space does not leave one leading entry in each row.
        """
        rows: list[list[int]] = [[0]]
        for number in range(1, len(self.lines)):
            line, above = self.lines[number], self.lines[number - 1]
            cut = any(above.base < place < line.base for place in self.separators)
            if cut or line.page != above.page or line.base - above.base > NEW_ROW_GAP_SHARE * self.tightest:
                rows.append([number])
            else:
                rows[-1].append(number)
        key = self.keys[0]
        lower = sum(key not in self.columns[row[0]] and any(key in self.columns[one] for one in row) for row in rows)
        single = sum(self.has_one_entry(row, key) for row in rows)
        return rows if 4 * lower >= len(rows) >= 3 and single >= ONE_ENTRY_SHARE * len(rows) else None

    def tiled(self) -> list[list[int]] | None:
        """The rows of a table set solid whose dates stand at the foot or the middle of their rows, told from the places
        of the dates: the rows follow one another without a gap, so each ends where its date says. None where the first
        row has its date on top, or where the rows do not come out even."""
        body = self.body()
        dated = [number for number in body if self.is_dated(number)]
        if len(dated) < FEWEST_TILES or body[0] in dated or self.tightest <= 0 or self.separators:
            return None
        if self.lines[body[0]].page != self.lines[body[-1]].page:
            return None
        keys, top, last = [self.lines[n].base for n in dated], self.lines[body[0]].base, self.lines[body[-1]].base
        bounds = self.middle_ends(keys, top)
        if not bounds or abs(bounds[-1] - last) > UNEVEN_SHARE * self.tightest:
            bounds = keys if dated[-1] == body[-1] and all(self.is_whole(key - top) for key in keys) else []
        if not bounds:
            return None
        rows: list[list[int]] = [[] for _ in bounds]
        for number in body:
            base = self.lines[number].base
            rows[next(i for i, end in enumerate(bounds) if base <= end + UNEVEN_SHARE * self.tightest)].append(number)
        return [[number] for number in range(body[0])] + rows if all(rows) else None

    def middle_ends(self, keys: Sequence[float], top: float) -> list[float]:
        """Where rows end whose dates stand in their middle; empty where some row would not hold whole lines."""
        ends: list[float] = []
        for key in keys:
            end = 2 * key - top
            if end < top - UNEVEN_SHARE * self.tightest or not self.is_whole(end - top):
                return []
            ends.append(end)
            top = end + self.tightest
        return ends

    def is_whole(self, height: float) -> bool:
        """Whether a height is that of whole lines."""
        lines = height / self.tightest
        return abs(lines - round(lines)) <= UNEVEN_SHARE

    def body(self) -> list[int]:
        """The numbers of the lines below the header, which is the first line where its leading entry is no date."""
        first = 1 if self.keys[0] in self.columns[0] and not self.is_dated(0) else 0
        return list(range(first, len(self.lines)))

    def is_dated(self, number: int) -> bool:
        """Whether a leading entry of the line holds a digit, as dates and numbers of weeks do."""
        own = [key for key in self.keys if key in self.columns[number]]
        return any(letter.isdigit() for key in own for letter in self.text(number, key))

    def has_low_keys(self) -> bool:
        """Whether the table begins with lines above its first date, so that dates stand lower than their rows' tops."""
        body = self.body()
        dated = [number for number in body if self.is_dated(number)]
        return len(dated) >= FEWEST_TILES and not any(key in self.columns[body[0]] for key in self.keys)

    def has_one_entry(self, row: Sequence[int], column: int) -> bool:
        """Whether the lines hold one entry in the column, be it wrapped."""
        own = [number for number in row if column in self.columns[number]]
        return (
            bool(own)
            and own[-1] - own[0] == len(own) - 1
            and (len(own) == 1 or sum(any(letter.isdigit() for letter in self.text(one, column)) for one in own) <= 1)
        )

    def begins(self, row: Sequence[int], number: int) -> bool:
        """Whether the line begins a row and does not go on with the given one."""
        line, above, own = self.lines[number], self.lines[number - 1], self.columns[number]
        if line.page != above.page or any(above.base < place < line.base for place in self.separators):
            return True
        wide = line.base - above.base > NEW_ROW_GAP_SHARE * self.leading
        if self.counts_on(row, number):
            return True
        if not wide and any(self.is_cut(row, number, column) for column in own):
            return False
        filled = [key for key in self.keys if key in own]
        if not filled:
            return wide and min(own) <= 1 and len(own) > 1
        first = filled[0]
        if wide:
            return True
        if len(own) == 1 and (
            first > 0 or _is_wrapped_key(self.columns, number, first) or _completes_key(self.columns, number, first)
        ):
            return False
        return not (len(own) == 1 and self.text(number, first)[:1].islower())

    def counts_on(self, row: Sequence[int], number: int) -> bool:
        """Whether the first column holds a whole number and, for the given row, a smaller one: days or weeks."""
        entries = [self.text(other, 0) if 0 in self.columns[other] else "" for other in (row[0], number)]
        numbers = [int(entry) for entry in entries if re.fullmatch(r"\d{1,3}", entry)]
        return len(numbers) == 2 and numbers[0] < numbers[1]

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


def _completes_key(columns: Sequence[dict[int, list[Word]]], number: int, key: int) -> bool:
    """Whether a number alone in its line is the day of the month that the entry above ends with."""
    before = " ".join(word.text for word in columns[number - 1].get(key, ()))
    after = " ".join(word.text for word in columns[number][key])
    return re.fullmatch(r"\d{1,2}(?:st|nd|rd|th)?,?", after) is not None and ENDS_WITH_MONTH.search(before) is not None


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
