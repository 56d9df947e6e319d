"""Tables of a page: drawn with rules all round, with rules across only, or with none but blank gutters."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from syllabus_io.extract.pdf_aligned import (
    Gutter,
    column_words,
    find_runs,
    headed_run,
    lines_that_continue,
    shared_gutters,
    text_rows,
    usual_leading,
    wide_parts,
)
from syllabus_io.extract.pdf_grids import Grid, GridCell, find_grids
from syllabus_io.extract.pdf_marks import Rule
from syllabus_io.extract.pdf_words import PrintedLine, Word, printed_line
from syllabus_io.provenance import Box, union

__all__ = ["RawCell", "RawTable", "aligned_tables", "drawn_tables", "from_rows", "open_tables"]

SAME_ENDS_POINTS = 5.0
"""Rules whose ends differ by no more than this belong to one table without vertical rules."""
FEW_BANDS = 3
"""A table with so few bands between its rules does not have a rule between all its rows."""
SHORT_ENTRY_LETTERS = 26
MOST_HEADER_LINES = 4
NEAR_SHARE = 3.0
"""Lines that go on below a table's last rule begin no farther from it than this share of their size."""


@dataclass(frozen=True, slots=True)
class RawCell:
    """A cell with its printed lines; rows and columns count from 0. ``left`` and ``right`` bound its text."""

    row: int
    column: int
    row_span: int
    column_span: int
    lines: tuple[PrintedLine, ...]
    box: Box
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class RawTable:
    """A table of one page, before tables that go on over pages are joined. ``lefts`` are its columns' left ends.

    Where gutters and not rules part the columns, ``rows`` holds the printed lines row by row, and ``gutters`` those.
    """

    page: int
    box: Box
    row_count: int
    lefts: tuple[float, ...]
    cells: tuple[RawCell, ...]
    ruled: bool
    rows: tuple[tuple[PrintedLine, ...], ...] = ()
    gutters: tuple[Gutter, ...] = ()

    @property
    def column_count(self) -> int:
        """How many columns it has."""
        return len(self.lefts)


def drawn_tables(
    page: int, lines: Sequence[PrintedLine], across: Sequence[Rule], down: Sequence[Rule]
) -> tuple[list[RawTable], list[PrintedLine]]:
    """The tables drawn with rules all round, and the lines that stand in none of them."""
    tables: list[RawTable] = []
    rest = list(lines)
    for grid in find_grids(across, down):
        if len(grid.cells) < 2:
            continue
        inside, outside = _parted(rest, grid.box)
        if not inside:
            continue
        table = _from_grid(page, grid, inside)
        if table is not None:
            tables.append(table)
            rest = outside
    return tables, rest


def _parted(lines: Iterable[PrintedLine], box: Box) -> tuple[list[PrintedLine], list[PrintedLine]]:
    """The lines inside the box and those outside; a line that crosses its side is parted between words."""
    inside, outside = [], []
    for line in lines:
        height = line.base - 0.3 * line.size
        if not box.top <= height <= box.bottom:
            outside.append(line)
            continue
        within = [word for word in line.words if box.left - 1 <= (word.left + word.right) / 2 <= box.right + 1]
        beyond = [word for word in line.words if not box.left - 1 <= (word.left + word.right) / 2 <= box.right + 1]
        if within:
            inside.append(printed_line(line.page, within))
        if beyond:
            outside.append(printed_line(line.page, beyond))
    return inside, outside


def _from_grid(page: int, grid: Grid, lines: Sequence[PrintedLine]) -> RawTable | None:
    """The table in a grid; None when it is no more than a frame round text."""
    if len(grid.lefts) == 2:
        return _from_bands(page, grid.box, lines, grid.tops)
    filled = _filled_cells(grid, lines)
    kept = [cell for cell in grid.cells if filled.get((cell.row, cell.column))]
    if len({cell.column for cell in kept}) < 2 or len(kept) < 2:
        return None
    bands = len(grid.tops) - 1
    if bands <= FEW_BANDS and all(cell.row_span == 1 for cell in kept):
        gutters = tuple(Gutter(left, left) for left in grid.lefts[1:-1])
        rows = _band_rows(lines, gutters, grid.tops, closed=True)
        if len(rows) > bands:
            return from_rows(page, rows, gutters, grid.box, ruled=True)
    pads = _paddings(grid, filled)
    cells = tuple(
        RawCell(
            cell.row,
            cell.column,
            cell.row_span,
            cell.column_span,
            tuple(filled.get((cell.row, cell.column), ())),
            cell.box,
            cell.box.left + pads[cell.column],
            cell.box.right - pads[cell.column],
        )
        for cell in grid.cells
    )
    return _compact(RawTable(page, grid.box, bands, grid.lefts[:-1], cells, True))


def _filled_cells(grid: Grid, lines: Sequence[PrintedLine]) -> dict[tuple[int, int], list[PrintedLine]]:
    owners: dict[tuple[int, int], GridCell] = {}
    for cell in grid.cells:
        for row in range(cell.row, cell.row + cell.row_span):
            for column in range(cell.column, cell.column + cell.column_span):
                owners[row, column] = cell
    filled: dict[tuple[int, int], list[PrintedLine]] = {}
    for line in lines:
        row = _slot(grid.tops, line.base - 0.3 * line.size)
        shares: dict[tuple[int, int], list[Word]] = {}
        for word in line.words:
            cell = owners[row, _slot(grid.lefts, (word.left + word.right) / 2)]
            shares.setdefault((cell.row, cell.column), []).append(word)
        for key, words in shares.items():
            filled.setdefault(key, []).append(printed_line(line.page, words))
    return filled


def _slot(places: Sequence[float], value: float) -> int:
    return min(max(bisect_right(places, value) - 1, 0), len(places) - 2)


def _paddings(grid: Grid, filled: dict[tuple[int, int], list[PrintedLine]]) -> dict[int, float]:
    """For each column the blank between its left side and its leftmost text."""
    pads: dict[int, float] = {}
    for cell in grid.cells:
        for line in filled.get((cell.row, cell.column), ()):
            pad = max(0.0, line.box.left - cell.box.left)
            pads[cell.column] = min(pads.get(cell.column, 12.0), pad)
    return {column: pads.get(column, 4.0) for column in range(len(grid.lefts))}


def _compact(table: RawTable) -> RawTable:
    """The table without rows and columns that no cell begins in or that hold nothing at all."""
    used_rows = sorted({cell.row for cell in table.cells if cell.lines} | _spaced_rows(table))
    used_columns = sorted({cell.column for cell in table.cells if cell.lines} | _headed_columns(table))
    rows = {old: new for new, old in enumerate(used_rows)}
    columns = {old: new for new, old in enumerate(used_columns)}
    cells = []
    for cell in table.cells:
        own_rows = [rows[row] for row in range(cell.row, cell.row + cell.row_span) if row in rows]
        own_columns = [columns[c] for c in range(cell.column, cell.column + cell.column_span) if c in columns]
        if own_rows and own_columns:
            cells.append(
                replace(
                    cell, row=own_rows[0], column=own_columns[0], row_span=len(own_rows), column_span=len(own_columns)
                )
            )
    return replace(
        table,
        row_count=len(used_rows),
        lefts=tuple(table.lefts[column] for column in used_columns),
        cells=tuple(cells),
    )


def _spaced_rows(table: RawTable) -> set[int]:
    """Rows in which an empty cell begins that is high enough to be a row and not a double rule."""
    return {cell.row for cell in table.cells if cell.row_span == 1 and cell.box.bottom - cell.box.top > 7}


def _headed_columns(table: RawTable) -> set[int]:
    return {cell.column for cell in table.cells if cell.column_span == 1 and cell.box.right - cell.box.left > 7}


def open_tables(
    page: int, lines: Sequence[PrintedLine], across: Sequence[Rule]
) -> tuple[list[RawTable], list[PrintedLine]]:
    """The tables with rules across but none down, and the lines that stand in none of them."""
    tables: list[RawTable] = []
    rest = list(lines)
    for group in _rule_groups(across):
        table, left_over = _open_table(page, rest, group)
        if table is not None:
            tables.append(table)
            rest = left_over
    return tables, rest


def _rule_groups(across: Sequence[Rule]) -> list[list[Rule]]:
    """Rules with the same ends, from top to bottom."""
    groups: list[list[Rule]] = []
    for rule in sorted(across, key=lambda rule: rule.at):
        for group in groups:
            if (
                abs(group[-1].start - rule.start) <= SAME_ENDS_POINTS
                and abs(group[-1].end - rule.end) <= SAME_ENDS_POINTS
            ):
                group.append(rule)
                break
        else:
            groups.append([rule])
    return [group for group in groups if len(group) > 1]


def _open_table(page: int, lines: list[PrintedLine], group: list[Rule]) -> tuple[RawTable | None, list[PrintedLine]]:
    places = [rule.at for rule in group]
    left, right = group[0].start, group[0].end
    for first, last in _stretches(len(places)):
        box = Box(left - 3, places[first], right + 3, places[last])
        inside, outside = _parted(lines, box)
        if len(inside) < 2:
            continue
        table = _from_bands(page, box, inside, places[first : last + 1])
        if table is not None and _fills(table, places[first : last + 1]):
            return _extended(table, outside, left, right)
    return _headed_table(page, lines, group)


def _extended(
    table: RawTable, lines: list[PrintedLine], left: float, right: float
) -> tuple[RawTable, list[PrintedLine]]:
    """The table with the lines that belong to it beyond its first and last rule."""
    below, rest = _continued_below(table, lines, left, right)
    above, rest = _continued_above(table, rest, left, right)
    if not below and not above:
        return table, lines
    gutters = table.gutters
    rows = [*text_rows(above, gutters), *table.rows, *text_rows(below, gutters)]
    box = _box([line for row in rows for line in row])
    return from_rows(table.page, rows, gutters, box, ruled=True), rest


def _continued_below(
    table: RawTable, lines: list[PrintedLine], left: float, right: float
) -> tuple[list[PrintedLine], list[PrintedLine]]:
    """The lines that go on with the table below its last rule, and the rest."""
    below, rest = _parted(lines, Box(left - 3, table.box.bottom, right + 3, 1e9))
    if not below or below[0].base - table.box.bottom > NEAR_SHARE * below[0].size:
        return [], lines
    leading = usual_leading([line for row in table.rows for line in row], table.gutters)
    count = lines_that_continue(below, table.gutters, leading)
    return (below[:count], [*rest, *below[count:]]) if count else ([], lines)


def _continued_above(
    table: RawTable, lines: list[PrintedLine], left: float, right: float
) -> tuple[list[PrintedLine], list[PrintedLine]]:
    """The lines above the first rule that belong to the table, and the rest.

    These are a header line right above the rule, or all lines from the top of the page on.
    """
    above, rest = _parted(lines, Box(left - 3, -1e9, right + 3, table.box.top))
    if not above:
        return [], lines
    leading = usual_leading([line for row in table.rows for line in row], table.gutters)
    last = above[-1]
    columns = len(column_words(last, table.gutters))
    if columns == len(table.gutters) + 1 and table.box.top - last.base <= leading:
        return [last], [*rest, *above[:-1]]
    if any(line.base < table.box.top for line in rest):
        return [], lines
    count = lines_that_continue(above, table.gutters, leading)
    return (above, rest) if count == len(above) else ([], lines)


def _stretches(count: int) -> list[tuple[int, int]]:
    """First and last rule of the stretches worth trying: all, then without the first ones, then without the last."""
    return [
        (first, last)
        for first, last in ((0, count - 1), (1, count - 1), (0, count - 2), (1, count - 2), (2, count - 1))
        if 0 <= first < last
    ]


def _fills(table: RawTable, places: Sequence[float]) -> bool:
    """Whether most bands between the rules use more than one column."""
    used = 0
    for top, bottom in pairwise(places):
        columns = {
            cell.column
            for cell in table.cells
            if any(top <= line.base <= bottom for line in cell.lines) or cell.column_span > 1
        }
        used += len(columns) > 1
    return 2 * used >= len(places) - 1


def _headed_table(page: int, lines: list[PrintedLine], group: list[Rule]) -> tuple[RawTable | None, list[PrintedLine]]:
    """A table with a rule over and under its header that is cut off by the end of the page or has no last rule."""
    top, under = group[-2].at, group[-1].at
    left, right = group[-1].start - 3, group[-1].end + 3
    header, rest = _parted(lines, Box(left, top, right, under))
    below, rest = _parted(rest, Box(left, under, right, 1e9))
    if not 0 < len(header) <= MOST_HEADER_LINES or not any(len(wide_parts(line)) > 1 for line in header):
        return None, lines
    stretch = sorted([*header, *below], key=lambda line: line.base)
    gutters, last = headed_run(stretch, len(header))
    if not gutters:
        return None, lines
    rows = [stretch[: len(header)], *text_rows(stretch[len(header) : last], gutters)]
    table = from_rows(page, rows, gutters, _box(stretch[:last]), ruled=True)
    return table, [*rest, *stretch[last:]]


def _from_bands(page: int, box: Box, lines: Sequence[PrintedLine], places: Sequence[float]) -> RawTable | None:
    """The table whose rows are parted by rules across and whose columns by gutters only; None without gutters."""
    ordered = sorted(lines, key=lambda line: line.base)
    gutters = shared_gutters(ordered, fewest=2)
    if not gutters or len(places) < 2:
        return None
    rows = _band_rows(ordered, gutters, places, closed=False)
    if len(rows) < 2:
        return None
    return from_rows(page, rows, gutters, box, ruled=True)


def _band_rows(
    lines: Sequence[PrintedLine], gutters: Sequence[Gutter], places: Sequence[float], *, closed: bool
) -> list[list[PrintedLine]]:
    """The lines as rows: a band between two rules is one, unless its own lines are rows without rules.

    ``closed`` tells that rules down part the columns.
    """
    bands: dict[int, list[PrintedLine]] = {}
    for line in sorted(lines, key=lambda line: line.base):
        bands.setdefault(_slot(places, line.base - 0.3 * line.size), []).append(line)
    few = len(bands) <= FEW_BANDS
    labels = Counter(text for band in bands.values() for text in {_first_entry(line, gutters) for line in band} if text)
    rows: list[list[PrintedLine]] = []
    for number, band in enumerate(bands.values()):
        entries = [text for line in band if (text := _first_entry(line, gutters))]
        repeated = sum(labels[text] > 2 for text in entries)
        alone = few and not closed and len(entries) <= 1 and number > 0
        if alone or (len(entries) > 1 and (2 * repeated >= len(entries) or _is_list(band, gutters, few))):
            rows.extend(text_rows(band, gutters))
        else:
            rows.append(band)
    return rows


def _first_entry(line: PrintedLine, gutters: Sequence[Gutter]) -> str:
    words = column_words(line, gutters).get(0, ())
    return " ".join(word.text for word in words)


def _is_list(band: Sequence[PrintedLine], gutters: Sequence[Gutter], few: bool) -> bool:
    """Whether the band's lines are rows of their own: short first entries, most with a neighbour in their line."""
    columns = [column_words(line, gutters) for line in band]
    first = [own for own in columns if 0 in own]
    if len(first) < (2 if few else 3):
        return False
    lengths = sum(sum(len(word.text) + 1 for word in own[0]) for own in first)
    paired = sum(len(own) > 1 for own in first)
    return lengths <= SHORT_ENTRY_LETTERS * len(first) and 5 * paired >= 3 * len(first)


def aligned_tables(
    page: int, lines: Sequence[PrintedLine], across: Sequence[Rule]
) -> tuple[list[RawTable], list[PrintedLine]]:
    """The tables that only gutters show, and the lines that stand in none of them."""
    ordered = sorted(lines, key=lambda line: (line.base, line.box.left))
    tables: list[RawTable] = []
    taken: set[int] = set()
    for run in find_runs(ordered):
        own = ordered[run.first : run.last]
        if _is_labelled(own, run.gutters) or _is_wrapped_prose(own, run.gutters):
            continue
        separators = [
            rule.at
            for rule in across
            if any(rule.start < gutter.left and rule.end > gutter.right for gutter in run.gutters)
        ]
        rows = text_rows(own, run.gutters, separators)
        if len(rows) < 2:
            continue
        tables.append(from_rows(page, rows, run.gutters, _box(own), ruled=False))
        taken.update(range(run.first, run.last))
    return tables, [line for number, line in enumerate(ordered) if number not in taken]


def _is_labelled(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> bool:
    """Whether the lines are labels with a colon and what they label: text, not a table."""
    if len(gutters) != 1:
        return False
    entries = [entry for line in lines if (entry := _first_entry(line, gutters))]
    return 5 * sum(entry.endswith(":") for entry in entries) >= 3 * len(entries)


def _is_wrapped_prose(lines: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> bool:
    """Whether both sides of a single gutter are running text: long lines that go on in lower case."""
    if len(gutters) != 1 or len(lines) < 6:
        return False
    columns = [column_words(line, gutters) for line in lines]
    for side in (0, 1):
        texts = [" ".join(word.text for word in own[side]) for own in columns if side in own]
        running = sum(text[:1].islower() for text in texts)
        if len(texts) < 0.6 * len(lines) or sum(map(len, texts)) < 22 * len(texts) or 4 * running < len(texts):
            return False
    return True


def _box(lines: Sequence[PrintedLine]) -> Box:
    box: Box | None = None
    for line in lines:
        box = union(box, line.box)
    return box or Box(0, 0, 0, 0)


def from_rows(
    page: int, rows: Sequence[Sequence[PrintedLine]], gutters: Sequence[Gutter], box: Box, *, ruled: bool
) -> RawTable:
    """The table of rows of printed lines whose columns the gutters part."""
    shares = [_row_cells(row, gutters) for row in rows]
    extents: dict[int, tuple[float, float]] = {}
    for share in shares:
        for column, (lines, span) in share.items():
            if span == 1:
                left = min(line.box.left for line in lines)
                right = max(line.box.right for line in lines)
                old = extents.get(column, (left, right))
                extents[column] = (min(old[0], left), max(old[1], right))
    edges = [box.left, *(gutter.middle for gutter in gutters)]
    cells = []
    for number, share in enumerate(shares):
        for column, (lines, span) in share.items():
            own = _box(lines)
            left, right = extents.get(column, (own.left, own.right))
            cells.append(RawCell(number, column, 1, span, tuple(lines), own, left, max(right, own.right)))
    parted = tuple(tuple(row) for row in rows)
    return RawTable(page, box, len(rows), tuple(edges), tuple(cells), ruled, parted, tuple(gutters))


def _row_cells(row: Sequence[PrintedLine], gutters: Sequence[Gutter]) -> dict[int, tuple[list[PrintedLine], int]]:
    lines: dict[int, list[PrintedLine]] = {}
    for line in row:
        for column, words in column_words(line, gutters).items():
            lines.setdefault(column, []).append(printed_line(line.page, words))
    cells = {}
    for column, own in lines.items():
        right = max(line.box.right for line in own)
        last = sum(gutter.middle < right - 1 for gutter in gutters)
        while last > column and any(other in lines for other in range(column + 1, last + 1)):
            last -= 1
        cells[column] = (own, max(last, column) - column + 1)
    return cells
