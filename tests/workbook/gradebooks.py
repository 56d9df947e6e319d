"""Gradebooks drawn at random, and what their grades are by exact arithmetic: the independent half of the comparison."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Gradebook", "Mark", "Part", "draw_gradebook"]

EXCUSED = "EX"


@dataclass(frozen=True, slots=True)
class Part:
    """A category: weight in percent (None where each mark counts what it is worth), drops, extra credit."""

    name: str
    weight: int | None
    drop: int
    extra: bool


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark in its row: ``points`` is None while it is open, EXCUSED, or a number; ``counts`` None: its points."""

    part: int
    possible: int
    counts: int | None
    points: Fraction | str | None

    @property
    def whole(self) -> Fraction:
        """What it counts within its category."""
        return Fraction(self.counts if self.counts is not None else self.possible) if self.possible else Fraction(0)


@dataclass(frozen=True, slots=True)
class Gradebook:
    """Categories and marks of one course; ``target`` in percent."""

    weighted: bool
    parts: tuple[Part, ...]
    marks: tuple[Mark, ...]
    target: int

    def current(self, upto: int | None = None) -> Fraction | None:
        """The grade over the marks so far, or over those of the first rows."""
        rows = self.marks if upto is None else self.marks[:upto]
        return self._grade([self._scored(mark) for mark in rows])

    def lowest(self) -> Fraction | None:
        """The grade when every open mark becomes a zero."""
        return self.with_open_at(Fraction(0))

    def highest(self) -> Fraction | None:
        """The grade when every open mark becomes a full one, extra credit too."""
        return self.with_open_at(Fraction(1), extra_too=True)

    def with_open_at(self, share: Fraction, extra_too: bool = False) -> Fraction | None:
        """The grade when every open mark gets that share of its points; of extra credit nothing, unless asked."""
        scored: list[tuple[Mark, Fraction | None, Fraction]] = []
        for mark in self.marks:
            if mark.points is None:
                filled = share if extra_too or not self.parts[mark.part].extra else Fraction(0)
                scored.append((mark, filled, filled * mark.whole))
            else:
                scored.append(self._scored(mark))
        return self._grade(scored)

    def has_open(self) -> bool:
        """Whether a mark that counts in the usual way is still open."""
        return any(m.points is None and m.possible and not self.parts[m.part].extra for m in self.marks)

    def _scored(self, mark: Mark) -> tuple[Mark, Fraction | None, Fraction]:
        """A mark with its share of full points (None: not graded) and what it earns."""
        if not isinstance(mark.points, Fraction):
            return mark, None, Fraction(0)
        if not mark.possible:
            return mark, Fraction(9), mark.points
        share = mark.points / mark.possible
        return mark, share, share * mark.whole

    def _grade(self, scored: Sequence[tuple[Mark, Fraction | None, Fraction]]) -> Fraction | None:
        earned: dict[int, Fraction] = {}
        whole: dict[int, Fraction] = {}
        for number, part in enumerate(self.parts):
            own = [
                (share, row, e, m.whole)
                for row, (m, share, e) in enumerate(scored)
                if m.part == number and share is not None
            ]
            own.sort(key=lambda one: (one[0], one[1]))
            kept = own[min(part.drop, max(len(own) - 1, 0)) :]
            earned[number] = sum((one[2] for one in kept), Fraction(0))
            whole[number] = sum((one[3] for one in kept), Fraction(0))
        usual = [n for n, part in enumerate(self.parts) if not part.extra]
        if not self.weighted:
            total = sum((whole[n] for n in usual), Fraction(0))
            return sum(earned.values(), Fraction(0)) / total if total else None
        base = sum(Fraction(self.parts[n].weight or 0) for n in usual if whole[n])
        if not base:
            return None
        grade = sum((self.parts[n].weight or 0) * earned[n] / whole[n] for n in usual if whole[n]) / base
        extra = [n for n, part in enumerate(self.parts) if part.extra and whole[n]]
        return grade + sum(Fraction(self.parts[n].weight or 0, 100) * earned[n] / whole[n] for n in extra)


def draw_gradebook(draw: random.Random) -> Gradebook:
    """A gradebook with blanks, zeros, excused and above-maximum marks, drops, and sometimes extra credit."""
    weighted = draw.random() < 0.6
    count = draw.randint(1, 5)
    weights = [draw.randint(5, 60) for _ in range(count)]
    parts = [
        Part(f"Part {n + 1}", weights[n] if weighted else None, draw.choice((0, 0, 1, 2, 3)), False)
        for n in range(count)
    ]
    if draw.random() < 0.35:
        parts.append(Part("Bonus", draw.randint(1, 8) if weighted else None, 0, True))
    own_counts = [weighted and draw.random() < 0.2 for _ in parts]
    marks = []
    for _ in range(draw.randint(1, 24)):
        part = draw.randrange(len(parts))
        possible = draw.choice((10, 20, 25, 50, 100, 100, 160))
        counts = draw.randint(1, 40) if own_counts[part] else None
        marks.append(Mark(part, possible, counts, _draw_points(draw, possible)))
    return Gradebook(weighted, tuple(parts), tuple(marks), draw.choice((60, 70, 80, 90, 93)))


def _draw_points(draw: random.Random, possible: int) -> Fraction | str | None:
    chance = draw.random()
    if chance < 0.3:
        return None
    if chance < 0.36:
        return EXCUSED
    if chance < 0.42:
        return Fraction(0)
    if chance < 0.47:
        return Fraction(possible + draw.randint(1, 5))
    return Fraction(draw.randint(0, possible * 2), 2)
