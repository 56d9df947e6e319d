"""How the grade of a course is built: categories with weights or points, letter scale, late policy, rules as text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from syllabus_io.extract.document import Block, Document, Line, Table
from syllabus_io.outline.grading_groups import ShareGroup, choose_group, nested, resolved_group, runs
from syllabus_io.outline.grading_names import category_name
from syllabus_io.outline.grading_rules import counts_stated, late_policy, rules_stated, with_counts, with_drops
from syllabus_io.outline.grading_scale import read_scale
from syllabus_io.outline.grading_shares import Share, line_shares
from syllabus_io.outline.grading_tables import names_work, table_shares
from syllabus_io.outline.grading_told import told_shares
from syllabus_io.outline.headings import SectionKind
from syllabus_io.outline.records import Category, GradingScheme
from syllabus_io.outline.sections import Section, flat_blocks, plain, read_sections

__all__ = ["read_grading"]

_GRADING = re.compile(
    r"\bgrad(?:e|es|ing)\b|evaluation|assessment|weight|\bmark(?:s|ing)?\b|performance|distribution|breakdown|percent",
    re.IGNORECASE,
)
_REQUIREMENTS = re.compile(r"requirements|course ?work|expectations|assignments", re.IGNORECASE)
_ANNOUNCES = re.compile(
    r"\b(?:grades?|marks?)\b[^.]{0,60}\b(?:follow(?:s|ing)|weight|based on|determined|calculated|consist|"
    r"allocated)|weighted as",
    re.IGNORECASE,
)
_TOTAL_POINTS = re.compile(
    r"\b(?:total(?: of| points(?: possible)?:?| possible(?: points)?:?)?|out of(?: a total of)?|"
    r"sum of)\s*(\d{2,4}(?:,\d{3})?)\s*(?:points?|pts)?\b|"
    r"\b(\d{2,4}(?:,\d{3})?)\s*(?:total points|points (?:total|possible|in total|are possible|in all|altogether))",
    re.IGNORECASE,
)
_UNFIT_SECTIONS = {SectionKind.MATERIALS, SectionKind.OBJECTIVES, SectionKind.PREREQUISITES}


def read_grading(document: Document) -> GradingScheme:
    """The grading scheme as the outline states it; what it does not state is empty or None.

    Of all lists of weights found, the one is taken that adds up to 100 percent or to a stated total of points; where
    none does, the most complete is, and a doubt says so.
    """
    sections = read_sections(document)
    groups = _resolved(document, tuple(_groups(document, sections)))
    chosen = choose_group(groups)
    scale = read_scale(document)
    late, rules = late_policy(sections), rules_stated(document)
    if chosen is None:
        return GradingScheme(scale=scale, late_policy=late, rules=rules)
    chosen = _with_extra(nested(chosen, groups), groups)
    categories = tuple(_category(share) for share in chosen.shares)
    categories = with_drops(with_counts(categories, document), sections)
    total = None if chosen.in_percent else (chosen.total or chosen.sum())
    return GradingScheme(categories, scale, total, late, rules, tuple(_doubts(chosen)))


def _with_extra(group: ShareGroup, groups: Sequence[ShareGroup]) -> ShareGroup:
    """The group with extra credit that sentences about grading give in percent and the group does not name."""
    known = {share.name.lower() for share in group.shares}
    told = [share for other in groups if other.source == "told" and other.is_graded for share in other.shares]
    extra = {share.name.lower(): share for share in told if share.is_extra and share.percent}
    added = tuple(share for name, share in extra.items() if name not in known)
    return replace(group, shares=(*group.shares, *added)) if group.in_percent else group


def _category(share: Share) -> Category:
    return Category(
        category_name(share.name),
        weight=share.percent,
        points=share.points,
        count=share.count,
        drop=share.drop,
        extra_credit=share.is_extra,
        place=share.place,
    )


def _doubts(group: ShareGroup) -> Iterator[str]:
    total = group.sum()
    if group.in_percent:
        if abs(total - 100) >= 0.6:
            yield f"the weights of the grade add up to {total:g} %, not to 100 %"
    elif group.total and abs(total - group.total) >= 0.6:
        yield f"the points add up to {total:g}, but the outline states {group.total:g} in total"
    for share in group.shares:
        if share.is_each and share.count is None:
            yield f"the outline does not say how many of {share.name!r} there are"
    yield from group.doubts


def _resolved(document: Document, groups: Sequence[ShareGroup]) -> tuple[ShareGroup, ...]:
    resolved: list[ShareGroup] = []
    for group in groups:
        counts = counts_stated(document, [share.name for share in group.shares]) if _has_open_counts(group) else {}
        resolved.append(resolved_group(group, counts))
    return tuple(resolved)


def _has_open_counts(group: ShareGroup) -> bool:
    """Whether counts matter for the sum: a weight "each" without a number, or sentences that add up to too much."""
    is_open = any(share.is_each and share.count is None for share in group.shares)
    return is_open or (group.source == "told" and group.in_percent and group.sum() > 101)


def _groups(document: Document, sections: Sequence[Section]) -> Iterator[ShareGroup]:
    blocks = flat_blocks(document)
    graded = _graded_orders(sections, blocks)
    totals = tuple(_totals(document))
    lines: list[Share] = []
    pending: tuple[tuple[Share, ...], int] | None = None
    for order, block in enumerate(blocks, 1):
        is_graded = graded.get(order, 0)
        if isinstance(block, Table):
            shares = table_shares(block, order)
            if shares and (is_graded or names_work(shares)):
                yield ShareGroup(shares, "table", is_graded, _before(blocks, order), _stated_total(totals, shares))
            pending = (shares, order) if shares else None
            # a cell may hold a whole list of parts
            for cell in block.cells:
                inner = [share for line in cell.lines for share in line_shares(plain(line.text), line.place, order)]
                if len(inner) >= 2:
                    yield ShareGroup(tuple(inner), "list", is_graded, "", _stated_total(totals, inner))
            continue
        found = line_shares(plain(block.text), block.place, order, _depth(block))
        lines.extend(found)
        if found and pending and order - pending[1] <= 2:
            # a table whose last rows fell out of its rules, or stand on the next page
            joined = (*pending[0], *found)
            yield ShareGroup(joined, "table", is_graded, _before(blocks, pending[1]), _stated_total(totals, joined))
            pending = (joined, order)
        if len(found) >= 2:
            yield ShareGroup(found, "list", is_graded, _before(blocks, order), _stated_total(totals, found))
    for gap in (3, 8, 40):
        for run in runs(lines, gap):
            for part in _parts_of_run(run):
                is_graded = max(graded.get(share.order, 0) for share in part)
                yield ShareGroup(part, "list", is_graded, _before(blocks, part[0].order), _stated_total(totals, part))
    yield from _told(blocks, graded)


def _depth(line: Line) -> int:
    return line.depth * 10 + (1 if line.marker else 0) + round(line.indent / 18)


def _parts_of_run(run: Sequence[Share]) -> Iterator[tuple[Share, ...]]:
    """A run, and where it goes on past its own sum, the stretches that end with a total or reach 100 percent."""
    yield tuple(run)
    start = 0
    total = 0.0
    for number, share in enumerate(run):
        if share.is_total:
            yield tuple(run[start : number + 1])
            start, total = number + 1, 0.0
            continue
        total += (share.percent or 0) * ((share.count or 1) if share.is_each else 1)
        if abs(total - 100) < 0.6 and number + 1 < len(run):
            yield tuple(run[start : number + 1])
            start, total = number + 1, 0.0
    if 0 < start < len(run):
        yield tuple(run[start:])


def _told(blocks: Sequence[Block], graded: dict[int, int]) -> Iterator[ShareGroup]:
    told: list[Share] = []
    for order, block in enumerate(blocks, 1):
        if isinstance(block, Line) and re.search(r"\d\s?%|percent", block.text):
            text = plain(block.text)
            sentences = told_shares(text, block.place, order)
            if not sentences:
                sentences = line_shares(text, block.place, order)
            told.extend(sentences)
    inside = tuple(share for share in told if share.order in graded)
    for run in (inside, *runs(inside, 8), *runs(told, 8), tuple(told)):
        if run:
            yield ShareGroup(tuple(run), "told", graded.get(run[0].order, 0), _before(blocks, run[0].order))


def _graded_orders(sections: Sequence[Section], blocks: Sequence[Block]) -> dict[int, int]:
    """How plainly each block, by its number, stands under grading: 2 in a section about grades or right under a
    sentence that announces weights, 1 in one about requirements; other blocks are left out."""
    found: dict[int, int] = {}
    numbers: dict[int, int] = {id(block): order for order, block in enumerate(blocks, 1)}
    parent, parent_level = 0, 0
    for section in sections:
        own = 2 if _GRADING.search(section.title) else 1 if _REQUIREMENTS.search(section.title) else 0
        if own:
            parent, parent_level = own, section.level or 1
        elif section.level <= parent_level and section.kind is not SectionKind.WORK:
            parent = 0
        value = own or (parent if section.kind in {SectionKind.WORK, SectionKind.OTHER} else 0)
        inside = [*section.blocks, *([section.heading] if section.heading is not None else [])]
        if value:
            found.update({numbers[id(block)]: value for block in inside if id(block) in numbers})
    for order, block in enumerate(blocks, 1):
        if isinstance(block, Line) and _ANNOUNCES.search(block.text):
            found.update(dict.fromkeys(range(order, order + 4), 2))
    return found


def _before(blocks: Sequence[Block], order: int) -> str:
    above = [block for block in blocks[max(0, order - 4) : order] if isinstance(block, Line)]
    own = blocks[order - 1]
    header = " ".join(plain(cell.text) for cell in own.cells if cell.row == 1) if isinstance(own, Table) else ""
    return " ".join([*(plain(line.text) for line in above), header])


def _totals(document: Document) -> Iterator[float]:
    """The totals of points that lines of the outline state."""
    for line in document.lines():
        for match in _TOTAL_POINTS.finditer(line.text):
            yield float((match[1] or match[2]).replace(",", ""))


def _stated_total(totals: Sequence[float], shares: Sequence[Share]) -> float | None:
    """A total of points that the group itself or a sentence of the outline states, and the parts add up to."""
    own = next((share.points for share in shares if share.is_total and share.points), None)
    if own:
        return own
    if any(share.percent is not None for share in shares):
        return None
    total = sum(
        (share.points or 0) * ((share.count or 1) if share.is_each else 1) for share in shares if not share.is_extra
    )
    return total if any(abs(stated - total) < 0.6 for stated in totals) else None
