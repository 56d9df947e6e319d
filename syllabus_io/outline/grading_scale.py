"""Letter scales in text and tables: "A 93-100", "93+ A", "A = 94% to 100%", "B+ < 90% to 87%", "90 ≤ x < 93"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from syllabus_io.extract.document import Block, Cell, Document, Line, Table
from syllabus_io.outline.grading_scale_named import named_scale
from syllabus_io.outline.records import GradeStep
from syllabus_io.outline.sections import flat_blocks, plain

__all__ = ["find_steps", "read_scale"]

_RANKS = ("A+", "A", "A-", "B+", "B", "B-", "C+", "C", "C-", "D+", "D", "D-", "E", "F")
_LETTER = (
    r"(?:(?<![A-Za-z0-9'’&/.@-])|(?<=[A-D][+-]))(?P<letter>[A-DF](?:\s?(?:plus|minus)\b|\s?[+＋]|[-–−]{1,2}(?!\d)|)|"
    r"E)(?:(?<=[+-])(?=[A-F])|(?![A-Za-z0-9'’&/@]|\.\w))"
)
_N = r"(?:\d{1,4}(?:,\d{3})?(?:\.\d+)?|\.\d+)"
_PCT = r"\s?(?:%|percent|pts?\.?|points?)?"
# Expressions of a stretch of marks; the first alternative that fits wins.
_BOUNDS = (
    rf"(?P<lo1>{_N}){_PCT}\s?(?:≤|<=|=<|<)\s?\w+\s?(?:<|≤|<=)\s?(?:{_N}){_PCT}",
    rf"(?P<lo2>{_N}){_PCT}\s?(?:≤|<=|=<)\s?(?:x|grade|score|g|p|n|s)\b",
    rf"(?:x|grade|score)\s?(?:≥|>=|=>)\s?(?P<lo3>{_N}){_PCT}",
    rf"(?:≥|>=|=>|>|at least|no less than|minimum(?: of)?|from)\s?(?P<lo4>{_N}){_PCT}"
    rf"(?:\s?(?:,|and|to|but|-|–)?\s?(?:<|≤|<=|less than|below|under|up to)?\s?(?:{_N}){_PCT})?",
    rf"(?:<|≤|<=|under|below|less than|up to)\s?(?P<hi5>{_N}){_PCT}\s?(?:[-–—−]|to|,|and|but)\s?(?:≥|>=|"
    rf">)?\s?(?P<lo5>{_N}){_PCT}",
    rf"(?P<a6>{_N}){_PCT}\s?(?:[-–—−~]+|to|thru|through|,?\s?but less than|,?\s?and less than)\s?(?:<|≤|less than|"
    rf"just below)?\s?(?P<b6>{_N}){_PCT}",
    rf"(?P<lo7>{_N}){_PCT}\s?(?:\+|[-–—]?\s?(?:and|or|&)\s?(?:above|higher|up|over|better|more|greater)|"
    rf"[-–]?\s?up\b|or more|minimum)",
    rf"(?:<|≤|<=|(?:and |anything |everything )?(?:below|under|less than|lower than))\s?(?P<zero8>{_N}){_PCT}",
    rf"(?P<zero9>{_N}){_PCT}\s?(?:and|or|&)\s?(?:below|lower|under|less)",
    rf"(?:x|grade|score)\s?(?:<|≤|<=)\s?(?P<zero10>{_N}){_PCT}",
    rf"(?P<lo11>{_N}){_PCT}(?:\s?[-–—])?(?=\s|$|[,;)|=:])",
)
_TOKEN = re.compile(
    "|".join([*(f"(?P<e{number}>{pattern})" for number, pattern in enumerate(_BOUNDS)), _LETTER]), re.IGNORECASE
)
_OPENS_STEP = re.compile(
    r"\W{0,3}(?:[A-F](?:[+-]|\s?(?:plus|minus)\b)?(?![A-Za-z])|\d|below|under|less)", re.IGNORECASE
)
# A letter grade and a number: the quick look before the thorough one.
_LETTER_ALONE = re.compile(r"(?<![A-Za-z])[A-F](?![A-Za-z])")
_NUMBER_OR_SIGN = re.compile(r"\d|\b[A-D] (?:plus|minus)")
_FAILING = {"F", "E"}
# "D 60; below 60 is an F": the failing letter told behind its bound, in a scale that has its letters first.
_FAIL_BEHIND = re.compile(
    rf"(?P<bound>(?:<|\b(?:anything |everything |scores? |marks? )?(?:below|under|less than|lower than))\s?{_N}{_PCT})"
    r"(?:\s?[=:–—-]\s?|,?\s(?:is|are|earns?|gets?|receives?|will be|means?)\s(?:an?\s)?"
    r"(?:failing grade(?: of|:)?\s|grade of\s)?)"
    r"[\"“(]?(?P<letter>[FE])(?![A-Za-z0-9+])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class _Bound:
    start: int
    end: int
    minimum: float
    is_range: bool


@dataclass(frozen=True, slots=True)
class _Letter:
    start: int
    end: int
    letter: str


@lru_cache(maxsize=4096)
def find_steps(text: str) -> tuple[GradeStep, ...]:
    """The letters and their minimums in a text, in its order; empty when letters and numbers do not pair up.

    >>> [(step.letter, step.minimum) for step in find_steps("A 93-100, A- 90-92, F < 60")]
    [('A', 93.0), ('A-', 90.0), ('F', 0.0)]
    """
    if not _LETTER_ALONE.search(text) or not _NUMBER_OR_SIGN.search(text):
        return ()
    first = _TOKEN.search(text)
    if first and first["letter"]:
        text = _FAIL_BEHIND.sub(lambda match: f"{match['letter'].upper()}: {match['bound']}", text)
    tokens = _merged(list(_tokens(text)), text)
    letters = [token for token in tokens if isinstance(token, _Letter)]
    bounds = [token for token in tokens if isinstance(token, _Bound)]
    if not letters or not bounds:
        return ()
    stacked = _stacked(text)
    if stacked:
        return stacked
    letter_first = isinstance(tokens[0], _Letter)
    steps: list[GradeStep] = []
    pending: _Letter | _Bound | None = None
    for token in tokens:
        if isinstance(token, _Letter) == letter_first:
            pending = token
        elif pending is not None:
            gap = text[min(pending.end, token.end) : max(pending.start, token.start)]
            if len(gap) <= 24 and not re.search(r"[A-Za-z]{9,}", gap):
                letter, bound = (pending, token) if isinstance(pending, _Letter) else (token, pending)
                if isinstance(letter, _Letter) and isinstance(bound, _Bound):
                    steps.append(GradeStep(letter.letter, bound.minimum))
            pending = None
    return tuple(steps)


def _stacked(text: str) -> tuple[GradeStep, ...]:
    """Two or more letters followed by as many numbers, as a row holds them whose rule was not drawn."""
    tokens = list(_tokens(text))
    half = len(tokens) // 2
    letters, bounds = tokens[:half], tokens[half:]
    if half < 2 or len(bounds) != half:
        return ()
    pairs = list(zip(letters, bounds, strict=True))
    if not all(isinstance(one, _Letter) and isinstance(two, _Bound) for one, two in pairs):
        return ()
    return tuple(
        GradeStep(one.letter, two.minimum) for one, two in pairs if isinstance(one, _Letter) and isinstance(two, _Bound)
    )


def _tokens(text: str) -> Iterator[_Letter | _Bound]:
    for match in _TOKEN.finditer(text):
        if match["letter"]:
            written = match["letter"]
            if written[0].islower():
                continue
            sign = "+" if re.search(r"\+|＋|plus", written, re.IGNORECASE) else "-" if len(written) > 1 else ""
            yield _Letter(match.start(), match.end(), written[0] + sign)
            continue
        groups = {name: value for name, value in match.groupdict().items() if value and not name.startswith("e")}
        numbers = {name: float(value.replace(",", "")) for name, value in groups.items()}
        if any(name.startswith("zero") for name in numbers):
            yield _Bound(match.start(), match.end(), 0.0, is_range=True)
        elif "a6" in numbers:
            yield _Bound(match.start(), match.end(), min(numbers["a6"], numbers["b6"]), is_range=True)
        elif "hi5" in numbers:
            yield _Bound(match.start(), match.end(), min(numbers["hi5"], numbers["lo5"]), is_range=True)
        else:
            minimum = next(value for name, value in numbers.items() if name.startswith("lo"))
            yield _Bound(match.start(), match.end(), minimum, is_range="lo11" not in numbers)


def _merged(tokens: list[_Letter | _Bound], text: str) -> list[_Letter | _Bound]:
    """Bounds side by side ("≥ 60%, < 70%"; "4.0  93-100") made one: a range before a lone number, percent first."""
    merged: list[_Letter | _Bound] = []
    for token in tokens:
        last = merged[-1] if merged else None
        if isinstance(token, _Bound) and isinstance(last, _Bound):
            if last.is_range and not token.is_range:
                continue
            is_grade_point = not last.is_range and last.minimum <= 4.33 < token.minimum
            if (token.is_range and not last.is_range) or is_grade_point:
                merged[-1] = token
            elif token.minimum == 0 and last.minimum > 0:
                merged[-1] = _Bound(last.start, token.end, last.minimum, is_range=True)
            elif last.minimum == 0 and token.minimum > 0 and re.fullmatch(r"[\s,;and]*", text[last.end : token.start]):
                merged[-1] = _Bound(last.start, token.end, token.minimum, is_range=True)
            continue
        merged.append(token)
    return merged


def read_scale(document: Document) -> tuple[GradeStep, ...]:
    """The letter scale, from the highest letter down; empty when the outline gives none.

    Minimums are in percent, or in points where the outline writes only points. The best of all scales found in
    tables, lines and sentences is taken: the one with the most letters, the first of equals.
    """
    blocks = flat_blocks(document)
    named = named_scale(text for block in blocks for text in _texts(block))
    if named:
        return named
    stepped = [(block, _table_steps(block) if isinstance(block, Table) else _line_steps(block)) for block in blocks]
    scales = [_ordered(steps) for block, steps in stepped if isinstance(block, Table)]
    scales.extend(_line_scales(stepped))
    return max((scale for scale in scales if _is_scale(scale)), key=len, default=())


def _texts(block: Block) -> list[str]:
    """The text of a line, or of each row of a table."""
    if isinstance(block, Line):
        return [plain(block.text)]
    rows = (dict.fromkeys(cell for cell in row if cell is not None) for row in block.grid())
    return [" ".join(plain(cell.text).replace("\n", " ") for cell in cells) for cells in rows]


def _line_scales(stepped: Sequence[tuple[Block, tuple[GradeStep, ...]]]) -> Iterator[tuple[GradeStep, ...]]:
    """Scales in runs of lines: a run goes on while lines hold steps, with at most two others between.

    A table that is a scale by itself begins a run of its own.
    """
    run: list[GradeStep] = []
    missed = 0
    for block, steps in stepped:
        if run and isinstance(block, Table) and _is_scale(_ordered(steps)):
            yield _ordered(run)
            run = []
        if steps:
            run.extend(steps)
            missed = 0
            continue
        missed += 1
        if missed > 2 and run:
            yield _ordered(run)
            run = []
    yield _ordered(run)


def _line_steps(line: Line) -> tuple[GradeStep, ...]:
    text = plain(line.text)
    if line.marker and re.fullmatch(r"[A-DF][+-]?[.):]?", line.marker):
        text = f"{line.marker.rstrip('.):')} {text}"
    steps = find_steps(text)
    if len(steps) >= 2 or (steps and len(text) <= 60 and _OPENS_STEP.match(text)):
        return steps
    # one failing grade at the end of a scale: "Below 60% is an F."
    short = re.match(r"[^.]{0,60}\bF\b[^.]{0,40}\.", text)
    return tuple(step for step in find_steps(short[0]) if step.letter in _FAILING) if short else ()


def _table_steps(table: Table) -> tuple[GradeStep, ...]:
    steps: list[GradeStep] = []
    for row in table.grid():
        cells = list(dict.fromkeys(cell for cell in row if cell is not None and cell.text.strip()))
        alone = [find_steps(_cell_text(cell)) for cell in cells]
        together = find_steps("   ".join(_cell_text(cell) for cell in cells))
        by_cell = tuple(step for part in alone for step in part)
        steps.extend(by_cell if len(by_cell) > len(together) else together)
    choices = (tuple(steps), _column_steps(table), _steps_down(table))
    return max(choices, key=lambda found: (_is_scale(_ordered(found)), len(_ordered(found))))


def _steps_down(table: Table) -> tuple[GradeStep, ...]:
    """Steps read down each column, for cells whose text a row's edge cut in two."""
    columns: list[str] = [""] * table.column_count
    for cell in sorted(table.cells, key=lambda cell: cell.row):
        columns[cell.column - 1] += f"  {_cell_text(cell)}"
    return tuple(step for column in columns for step in find_steps(column.strip()))


def _cell_text(cell: Cell) -> str:
    return plain(cell.text).replace("\n", "  ")


def _column_steps(table: Table) -> tuple[GradeStep, ...]:
    """Letters in one row, their numbers in the row below."""
    grid = table.grid()
    for above, below in pairwise(grid):
        pairs = [(one, two) for one, two in zip(above, below, strict=True) if one is not None and two is not None]
        steps = [step for one, two in pairs for step in find_steps(f"{_cell_text(one)}  {_cell_text(two)}")]
        if len(steps) >= 3:
            return tuple(steps)
    return ()


def _ordered(steps: Sequence[GradeStep]) -> tuple[GradeStep, ...]:
    """Each letter once, the first time it stands, from the highest down."""
    first: dict[str, float] = {}
    for step in steps:
        first.setdefault(step.letter, 0.0 if step.letter in _FAILING else step.minimum)
    return tuple(GradeStep(letter, first[letter]) for letter in _RANKS if letter in first)


def _is_scale(scale: Sequence[GradeStep]) -> bool:
    minimums = [step.minimum for step in scale]
    passing = [step for step in scale if step.letter not in _FAILING]
    return (
        len(passing) >= 3
        and any(step.letter in {"A", "A+", "A-"} for step in scale)
        and all(high > low for high, low in pairwise(minimums))
        and max(minimums) >= 50
    )
