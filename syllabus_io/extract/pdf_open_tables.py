"""Tables with rules across but none down, also when a page break cuts off their last rule."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from syllabus_io.extract.pdf_aligned import headed_run, lines_that_continue
from syllabus_io.extract.pdf_gutters import (
    column_words,
    wide_parts,
)
from syllabus_io.extract.pdf_marks import Rule
from syllabus_io.extract.pdf_raw_tables import (
    RawTable,
    box_of,
    from_bands,
    from_rows,
    parted,
)
from syllabus_io.extract.pdf_rows import text_rows, usual_leading
from syllabus_io.extract.pdf_words import PrintedLine
from syllabus_io.provenance import Box

__all__ = ["open_tables"]

SAME_ENDS_POINTS = 5.0
"""Rules whose ends differ by no more than this belong to one table without vertical rules."""
MOST_HEADER_LINES = 4
NEAR_SHARE = 3.0
"""Lines that go on below a table's last rule begin no farther from it than this share of their size."""


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
        inside, outside = parted(lines, box)
        if len(inside) < 2:
            continue
        table = from_bands(page, box, inside, places[first : last + 1])
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
    box = box_of([line for row in rows for line in row])
    return from_rows(table.page, rows, gutters, box, ruled=True), rest


def _continued_below(
    table: RawTable, lines: list[PrintedLine], left: float, right: float
) -> tuple[list[PrintedLine], list[PrintedLine]]:
    """The lines that go on with the table below its last rule, and the rest."""
    below, rest = parted(lines, Box(left - 3, table.box.bottom, right + 3, 1e9))
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
    above, rest = parted(lines, Box(left - 3, -1e9, right + 3, table.box.top))
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
    header, rest = parted(lines, Box(left, top, right, under))
    below, rest = parted(rest, Box(left, under, right, 1e9))
    if not 0 < len(header) <= MOST_HEADER_LINES or not any(len(wide_parts(line)) > 1 for line in header):
        return None, lines
    stretch = sorted([*header, *below], key=lambda line: line.base)
    gutters, last = headed_run(stretch, len(header))
    if not gutters:
        return None, lines
    rows = [stretch[: len(header)], *text_rows(stretch[len(header) : last], gutters)]
    table = from_rows(page, rows, gutters, box_of(stretch[:last]), ruled=True)
    return table, [*rest, *stretch[last:]]
