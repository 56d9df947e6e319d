"""Letters put together to words and printed lines; word gaps found from each line's own spacing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median
from typing import NamedTuple

from syllabus_io.extract.pdf_marks import Glyph, Rule
from syllabus_io.provenance import Box

__all__ = ["PrintedLine", "Word", "fragments", "printed_line", "printed_lines", "standing_lines"]

BASELINE_SHARE = 0.14
"""Letters of one line differ in baseline by no more than this share of their size."""
WORD_GAP_SHARE = 0.14
"""A gap wider than the line's own letter spacing by this share of the size parts words."""
CROWDED_WORD_LETTERS = 13
"""A line whose words would be longer than this on average was set tightly: narrower gaps part its words."""
CROWDED_GAP_SHARE = 0.08
BLANK_GAP_SHARE = 0.08
"""With a blank character between two letters, so wide a gap parts words."""
OVERLAP_SHARE = 1.2
"""Stretches of letters that overlap by more than this share of their size are two texts, one over the other."""
RAISED_SIZE_SHARE = 0.87
"""Raised or lowered letters are no larger than this share of the letters beside them."""
RAISED_SHARE = 0.15
"""Raised letters stand at least this share of the size above the baseline."""
RAISED_DIGITS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
"""A raised digit is a note's mark or an exponent: it must not become part of the number before it (October 3¹)."""
RAISED_LETTERS = str.maketrans("abcdefgh", "ᵃᵇᶜᵈᵉᶠᵍʰ")
FRAGMENT_GAP_SHARE = 1.1
"""A gap of this share of the size parts a line into fragments: what may be columns."""


class Word(NamedTuple):
    """A word with its box; ``bold`` and ``italic`` hold when most of its letters are, ``spaced`` if letterspaced.

    Words struck through keep their place among the others until rows and columns are known.
    """

    text: str
    left: float
    top: float
    right: float
    bottom: float
    base: float
    size: float
    bold: bool
    italic: bool
    spaced: bool = False
    struck: bool = False


@dataclass(frozen=True, slots=True)
class PrintedLine:
    """Words on one baseline of a page from left to right, with their box, baseline and most common size."""

    page: int
    words: tuple[Word, ...]
    box: Box
    base: float
    size: float

    @property
    def text(self) -> str:
        """The words parted by blanks."""
        return " ".join(word.text for word in self.words)


def printed_line(page: int, words: Iterable[Word]) -> PrintedLine:
    """The line that the words make; there must be one at least."""
    ordered = tuple(sorted(words, key=lambda word: word.left))
    letters: dict[float, int] = {}
    for word in ordered:
        letters[round(word.size, 1)] = letters.get(round(word.size, 1), 0) + len(word.text)
    size = max(letters, key=lambda size: letters[size])
    largest = max(ordered, key=lambda word: len(word.text))
    box = Box(
        min(word.left for word in ordered),
        min(word.top for word in ordered),
        max(word.right for word in ordered),
        max(word.bottom for word in ordered),
    )
    return PrintedLine(page, ordered, box, largest.base, size)


def printed_lines(page: int, glyphs: Iterable[Glyph], down: Sequence[Rule] = ()) -> list[PrintedLine]:
    """The printed lines of a page's letters from top to bottom. A vertical rule in ``down`` parts words."""
    rows = _attach_raised([layer for row in _rows(glyphs) for layer in _layers(row)])
    lines = []
    for row in rows:
        words = _words(
            row, [rule for rule in down if rule.start - 1 <= row[0].base - 0.3 * row[0].size <= rule.end + 1]
        )
        if words:
            lines.append(printed_line(page, words))
    return sorted(lines, key=lambda line: (line.base, line.box.left))


def standing_lines(lines: Iterable[PrintedLine]) -> list[PrintedLine]:
    """The lines without words struck through; lines that hold no others are left out."""
    standing = []
    for line in lines:
        words = [word for word in line.words if not word.struck]
        if len(words) == len(line.words):
            standing.append(line)
        elif words:
            standing.append(printed_line(line.page, words))
    return standing


def fragments(line: PrintedLine) -> list[tuple[Word, ...]]:
    """The words of the line, parted where the gap is wide enough to be a column's."""
    parts: list[list[Word]] = [[line.words[0]]]
    for before, word in zip(line.words, line.words[1:], strict=False):
        if word.left - before.right >= FRAGMENT_GAP_SHARE * max(before.size, word.size):
            parts.append([word])
        else:
            parts[-1].append(word)
    return [tuple(part) for part in parts]


def _rows(glyphs: Iterable[Glyph]) -> list[list[Glyph]]:
    """The letters by baseline from top to bottom, each row in the order of printing."""
    printed = list(glyphs)
    rows: list[list[int]] = []
    last = -1e9
    for number in sorted(range(len(printed)), key=lambda number: printed[number].base):
        glyph = printed[number]
        if rows and glyph.base - last <= max(0.6, BASELINE_SHARE * min(glyph.size, printed[rows[-1][-1]].size)):
            rows[-1].append(number)
        else:
            rows.append([number])
        last = glyph.base
    ordered = ([printed[number] for number in sorted(row)] for row in rows)
    return [row for row in ordered if any(not glyph.text.isspace() for glyph in row)]


def _layers(row: list[Glyph]) -> list[list[Glyph]]:
    """The row's letters, those printed over others on the same baseline apart: a text box laid over a line."""
    runs: list[list[Glyph]] = []
    for glyph in row:
        if glyph.text.isspace():
            if runs:
                runs[-1].append(glyph)
        elif runs and -0.5 * glyph.size <= glyph.left - runs[-1][-1].left <= 3 * glyph.size:
            runs[-1].append(glyph)
        else:
            runs.append([glyph])
    layers: list[list[Glyph]] = []
    for run in sorted(runs, key=lambda run: run[0].left):
        for layer in layers:
            if run[0].left >= _end(layer) - OVERLAP_SHARE * run[0].size:
                layer.extend(run)
                break
        else:
            layers.append(list(run))
    return layers


def _end(glyphs: list[Glyph]) -> float:
    return max((glyph.right for glyph in glyphs if not glyph.text.isspace()), default=-1e9)


def _attach_raised(rows: list[list[Glyph]]) -> list[list[Glyph]]:
    """The rows, with raised and lowered small letters moved to the row they belong to (12 and a raised th)."""
    for row in rows:
        row.sort(key=lambda glyph: glyph.left)
    sizes = [median(glyph.size for glyph in row) for row in rows]
    smallest = [min(glyph.size for glyph in row) for row in rows]
    largest = [max(glyph.size for glyph in row) for row in rows]
    taken: dict[int, list[Glyph]] = {}
    kept: list[list[Glyph]] = []
    for number, row in enumerate(rows):
        hosts = [
            other
            for other in range(max(0, number - 3), min(len(rows), number + 4))
            if other != number
            and abs(rows[other][0].base - row[0].base) < 0.75 * sizes[other]
            and (len(row) <= 6 or smallest[number] <= RAISED_SIZE_SHARE * largest[other])
        ]
        staying = row
        for host in hosts:
            staying = _move_raised(staying, rows[host], taken.setdefault(host, []))
        kept.append(staying)
    return [
        sorted([*row, *taken.get(number, ())], key=lambda glyph: glyph.left)
        for number, row in enumerate(kept)
        if any(not glyph.text.isspace() for glyph in row) or taken.get(number)
    ]


def _move_raised(row: list[Glyph], host: list[Glyph], taken: list[Glyph]) -> list[Glyph]:
    staying: list[Glyph] = []
    for run in _touching_runs(row):
        size = max(glyph.size for glyph in run)
        beside = [
            glyph
            for glyph in host
            if not glyph.text.isspace()
            and (
                -0.25 * glyph.size <= run[0].left - glyph.right <= 0.25 * glyph.size
                or -0.25 * glyph.size <= glyph.left - run[-1].right <= 0.25 * glyph.size
            )
            and (size <= RAISED_SIZE_SHARE * glyph.size or _fits_between(run, host))
        ]
        if beside:
            base = beside[0].base
            raised = size <= RAISED_SIZE_SHARE * beside[0].size and run[0].base < base - RAISED_SHARE * beside[0].size
            signs = _raised_signs(run, beside) if raised else {}
            taken.extend(glyph._replace(base=base, text=glyph.text.translate(signs)) for glyph in run)
        else:
            staying.extend(run)
    return staying


def _raised_signs(run: list[Glyph], beside: list[Glyph]) -> dict[int, int]:
    """How the raised letters are written: digits, and a note's letter behind a word, as raised characters."""
    after_word = any(glyph.right <= run[0].left + 0.25 * glyph.size and not glyph.text.isdigit() for glyph in beside)
    return RAISED_DIGITS | RAISED_LETTERS if len(run) == 1 and after_word else RAISED_DIGITS


def _fits_between(run: list[Glyph], host: list[Glyph]) -> bool:
    """Whether a sign or two of full size, set a little off the line, fall into a gap that the line leaves for them."""
    if len(run) > 2 or abs(run[0].base - host[0].base) > 0.45 * run[0].size:
        return False
    return all(glyph.right <= run[0].left + 0.6 or glyph.left >= run[-1].right - 0.6 for glyph in host)


def _touching_runs(row: list[Glyph]) -> list[list[Glyph]]:
    runs: list[list[Glyph]] = []
    for glyph in row:
        if runs and glyph.left - runs[-1][-1].right <= 0.4 * glyph.size and glyph.size == runs[-1][-1].size:
            runs[-1].append(glyph)
        else:
            runs.append([glyph])
    return runs


def _words(row: list[Glyph], rules: list[Rule]) -> list[Word]:
    letters: list[Glyph] = []
    blank_before: list[bool] = []
    pending = False
    for glyph in row:
        if glyph.text.isspace():
            pending = True
            continue
        letters.append(glyph)
        blank_before.append(pending)
        pending = False
    spacing = _letter_spacing(letters, blank_before)
    words = _parted(letters, blank_before, spacing, rules, WORD_GAP_SHARE)
    if len(letters) > CROWDED_WORD_LETTERS * len(words) and not any("/" in word.text for word in words):
        words = _parted(letters, blank_before, spacing, rules, CROWDED_GAP_SHARE)
    return words


def _parted(
    letters: list[Glyph], blank_before: list[bool], spacing: list[float], rules: list[Rule], share: float
) -> list[Word]:
    words: list[Word] = []
    current: list[Glyph] = []
    for number, glyph in enumerate(letters):
        if current and _parts(current[-1], glyph, blank_before[number], spacing[number], rules, share):
            words.append(_word(current, spacing[number - 1]))
            current = []
        current.append(glyph)
    if current:
        words.append(_word(current, spacing[-1]))
    return words


def _parts(before: Glyph, glyph: Glyph, blank: bool, spacing: float, rules: list[Rule], share: float) -> bool:
    if glyph.struck != before.struck:
        return True
    gap = glyph.left - before.right
    size = (before.size + glyph.size) / 2
    if gap > max(spacing, 0.0) + share * size:
        return True
    if blank and gap > max(spacing, 0.0) + BLANK_GAP_SHARE * size:
        return True
    if gap < -1.5 * size:
        return True
    return any(before.right - 0.5 <= rule.at <= glyph.left + 0.5 for rule in rules) and gap > 0.1 * size


def _letter_spacing(letters: list[Glyph], blank_before: list[bool]) -> list[float]:
    """For each letter the usual gap between letters of the stretch in one style that it belongs to, in points."""
    spacing = [0.0] * len(letters)
    start = 0
    for number in range(1, len(letters) + 1):
        same = (
            number < len(letters)
            and letters[number].style == letters[start].style
            and abs(letters[number].size - letters[start].size) < 0.1
            and letters[number].left - letters[number - 1].right < 1.2 * letters[number].size
        )
        if same:
            continue
        gaps = [letters[k].left - letters[k - 1].right for k in range(start + 1, number) if not blank_before[k]]
        if len(gaps) >= 3:
            usual = _usual_gap(gaps, letters[start].size)
            for k in range(start, number):
                spacing[k] = usual
        start = number
    return spacing


def _usual_gap(gaps: list[float], size: float) -> float:
    """The gap within words: the lower middle of the gaps, nought unless the stretch is letterspaced."""
    ordered = sorted(gaps)
    middle = ordered[(len(ordered) - 1) // 2]
    if middle <= 0.03 * size:
        return 0.0
    return min(middle, 0.5 * size)


def _word(glyphs: list[Glyph], spacing: float) -> Word:
    count = len(glyphs)
    return Word(
        "".join(glyph.text for glyph in glyphs),
        glyphs[0].left,
        min(glyph.top for glyph in glyphs),
        max(glyph.right for glyph in glyphs),
        max(glyph.bottom for glyph in glyphs),
        glyphs[0].base,
        max(glyph.size for glyph in glyphs),
        2 * sum(glyph.style.bold for glyph in glyphs) > count,
        2 * sum(glyph.style.italic for glyph in glyphs) > count,
        spacing > 0,
        glyphs[0].struck,
    )
