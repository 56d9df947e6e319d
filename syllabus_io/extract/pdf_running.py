"""Running heads and feet: what stands at the same place at the edge of page after page, digits aside."""

from __future__ import annotations

import re
from collections.abc import Sequence

from syllabus_io.extract.pdf_words import PrintedLine, fragments

__all__ = ["running_lines"]

EDGE_SHARE = 0.16
"""Running heads and feet stand within this share of the page's height from its edge."""
SAME_PLACE_POINTS = 4.0
PAGES_SHARE = 0.4
"""They stand on at least this share of the pages (left and right pages may differ) ..."""
CLEAR_SHARE = 1.6
"""... and this share of their size clear of the text."""
MOST_LINES = 4

PAGE_NUMBER = re.compile(
    r"^(?:[-–—|\s]*(?:page|p\.|pg\.?)?\s*(?:\d{1,3}|[ivxlc]{1,6})(?:\s*(?:/|of|\|)\s*\d{1,3})?[-–—|\s]*)$",
    re.IGNORECASE,
)
PAGE_WORD = re.compile(r"\b(?:page|pg\.?|p\.)\s*\d", re.IGNORECASE)


def running_lines(pages: Sequence[tuple[float, Sequence[PrintedLine]]]) -> set[int]:
    """The ``id`` of every line that is a running head, a running foot or a page number.

    Each page is given as its height in points and its lines.
    """
    running: set[int] = set()
    for upward in (False, True):
        edges = [_edge(height, lines, upward) for height, lines in pages]
        for number, edge in enumerate(edges):
            running.update(_running_of(edge, number, edges))
    return running


def _edge(height: float, lines: Sequence[PrintedLine], upward: bool) -> list[PrintedLine]:
    """The lines near the page's edge, from it inward, and one more: the text they must be clear of."""
    ordered = sorted(lines, key=lambda line: -line.base if upward else line.base)[: MOST_LINES + 1]
    near = sum(line.base > (1 - EDGE_SHARE) * height if upward else line.base < EDGE_SHARE * height for line in ordered)
    return ordered[: min(near, MOST_LINES) + 1] if near else []


def _running_of(edge: Sequence[PrintedLine], number: int, edges: Sequence[Sequence[PrintedLine]]) -> list[int]:
    found: list[PrintedLine] = []
    for line in edge[:-1] or edge:
        if not _is_repeated(line, number, edges):
            break
        found.append(line)
    while found and not _is_clear(found, edge):
        found.pop()
    if not found and edge and PAGE_NUMBER.match(edge[0].text) and _counts(edge[0], number):
        found = [edge[0]]
    return [id(line) for line in found]


def _is_repeated(line: PrintedLine, number: int, edges: Sequence[Sequence[PrintedLine]]) -> bool:
    if len(fragments(line)) > 3:
        return False
    pages = sum(
        any(abs(other.base - line.base) <= SAME_PLACE_POINTS and _is_alike(line, other) for other in edge[:MOST_LINES])
        for other_number, edge in enumerate(edges)
        if other_number != number
    )
    return pages + 1 >= max(2, PAGES_SHARE * len(edges))


def _is_alike(line: PrintedLine, other: PrintedLine) -> bool:
    """Whether the lines say the same; numbers may differ only where they are page numbers (not "Week 1", "Week 2")."""
    if line.text == other.text:
        return True
    if re.sub(r"\d+", "#", line.text.lower()) != re.sub(r"\d+", "#", other.text.lower()):
        return False
    parts = [" ".join(word.text for word in part) for part in fragments(line)]
    return any(PAGE_NUMBER.match(part) for part in parts) or bool(PAGE_WORD.search(line.text))


def _is_clear(found: Sequence[PrintedLine], edge: Sequence[PrintedLine]) -> bool:
    """Whether the lines stand clear of the next one inward; page numbers need not."""
    if PAGE_NUMBER.match(found[-1].text):
        return True
    last = found[-1]
    inward = edge[len(found)] if len(edge) > len(found) else None
    return inward is not None and abs(inward.base - last.base) >= CLEAR_SHARE * max(last.size, inward.size)


def _counts(line: PrintedLine, number: int) -> bool:
    """Whether the line is this page's own number."""
    figures = re.findall(r"\d+", line.text)
    return bool(figures) and int(figures[0]) == number + 1
