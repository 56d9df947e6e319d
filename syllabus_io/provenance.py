"""Where words came from: carried by every line, cell, mention and item to the very end."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

__all__ = ["Box", "PagePlace", "Place", "union"]


class Box(NamedTuple):
    """A rectangle on a page, in points (1/72 inch) from the page's top left corner."""

    left: float
    top: float
    right: float
    bottom: float


PagePlace: TypeAlias = tuple[int, Box]
"""A page, counted from 1, and a box on it."""


def union(first: Box | None, second: Box | None) -> Box | None:
    """The smallest box that holds both; a missing box is left out of account.

    >>> union(Box(0, 0, 10, 10), Box(5, 5, 20, 8))
    Box(left=0, top=0, right=20, bottom=10)
    """
    if first is None or second is None:
        return first or second
    return Box(
        min(first.left, second.left),
        min(first.top, second.top),
        max(first.right, second.right),
        max(first.bottom, second.bottom),
    )


@dataclass(frozen=True, slots=True)
class Place:
    """Where some words stand in a document. Page, block, row and column count from 1.

    ``page`` and ``box`` are missing for Word documents, whose pages exist only once printed; ``page`` is
    given there when the file itself records its page breaks. ``span`` is the half-open range of characters
    within the text of the line or cell.
    """

    document: str
    page: int | None = None
    block: int = 0
    row: int | None = None
    column: int | None = None
    box: Box | None = None
    span: tuple[int, int] | None = None

    def narrowed(self, start: int, end: int) -> Place:
        """The same place, narrowed to a range of its characters."""
        return replace(self, span=(start, end))
