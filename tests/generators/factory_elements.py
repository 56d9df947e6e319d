"""What an outline is made of, before it becomes a PDF or a Word file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

__all__ = ["Bullet", "Element", "Entry", "Grid", "Heading", "Line", "Sheet", "Title"]


@dataclass(frozen=True, slots=True)
class Title:
    """Lines at the top of the first page."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 or 2."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Line:
    """A paragraph; what stands between double asterisks is bold."""

    text: str


@dataclass(frozen=True, slots=True)
class Bullet:
    """A list entry."""

    text: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A label at the margin and its text beside it: a day number and what happens then."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Grid:
    """A table. ``widths`` are shares of the width of the text; a row with one cell spans all columns."""

    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    ruled: bool = True
    head: bool = True


Element: TypeAlias = Title | Heading | Line | Bullet | Entry | Grid


@dataclass(frozen=True, slots=True)
class Sheet:
    """The schedule of an outline. ``resolve`` names, as the answers do, how its dates are written; ``off_named``
    tells whether days off are named; ``columns`` how many columns of text a page has."""

    elements: tuple[Element, ...]
    resolve: str
    off_named: bool = True
    columns: int = 1
