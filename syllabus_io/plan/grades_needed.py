"""What is still needed for a grade, in exact fractions.

"Needed" is one percentage for every open mark: whoever gets that much, or more, on all of them reaches the target.
Open extra credit is taken as 0, so that nobody is told to count on it. The grade as a function of that percentage
is made of straight pieces: they meet where an open mark overtakes a mark on record that may be left out, and where
the final overtakes a category it can replace. Each piece is found from two points inside it.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from syllabus_io.plan.grades import (
    Fill,
    Gradebook,
    GradeMark,
    GradePart,
    Scored,
    grade_of,
    highest_grade,
    is_final_mark,
    is_in_part,
    is_open,
    kept_marks,
    scored_marks,
)

__all__ = ["Needed", "grade_with_final", "grade_with_open", "needed_for", "needed_on_final"]

_ZERO, _ONE = Fraction(0), Fraction(1)
Status = Literal["secured", "out of reach", "only with extra credit", "needed", "nothing to count"]


@dataclass(frozen=True, slots=True)
class Needed:
    """``share`` of full marks that is enough on every open mark, given when ``status`` is "needed"."""

    status: Status
    share: Fraction | None = None


def _with_open(book: Gradebook, share: Fraction) -> list[Scored]:
    return list(scored_marks(book, Fill(share, _ZERO, share)))


def grade_with_open(book: Gradebook, share: Fraction) -> Fraction | None:
    """The final grade when every open mark gets ``share`` of its full mark, and open extra credit nothing."""
    return grade_of(book, _with_open(book, share))


def needed_for(book: Gradebook, target: Fraction) -> Needed:
    """What is enough on every open mark for a final grade of ``target``."""
    highest = highest_grade(book)
    if highest is None:
        return Needed("nothing to count")
    if highest < target:
        return Needed("out of reach")
    ends = _piece_ends(book)
    for low, high in reversed(list(itertools.pairwise(ends))):
        first, second = _point(book, low + (high - low) / 3), _point(book, low + (high - low) * 2 / 3)
        slope = (second - first) * 3 / (high - low)
        at_low = first - slope * (high - low) / 3
        if at_low >= target:
            continue
        reached = at_low + slope * (high - low)
        if reached < target:
            return _above(book, high, target)
        return Needed("needed", low + (target - at_low) / slope)
    return Needed("secured")


def _above(book: Gradebook, share: Fraction, target: Fraction) -> Needed:
    """The answer where the piece below ``share`` stays under the target: the grade jumps there, or gets no further."""
    enough = share < 1 or _point(book, share) >= target
    return Needed("needed", share) if enough else Needed("only with extra credit")


def _point(book: Gradebook, share: Fraction) -> Fraction:
    grade = grade_with_open(book, share)
    if grade is None:
        raise ValueError("a gradebook that counts nothing has no grade")
    return grade


def _piece_ends(book: Gradebook) -> list[Fraction]:
    ends = {_ZERO, _ONE} | {one.share for one in scored_marks(book, Fill())}
    ordered = sorted(end for end in ends if 0 <= end <= 1)
    crossings = {
        crossing
        for low, high in itertools.pairwise(ordered)
        for number, category in enumerate(book.categories)
        if category.replaced and (crossing := _crossing(book, number, low, high)) is not None
    }
    return sorted({*ordered, *crossings})


def _crossing(book: Gradebook, number: int, low: Fraction, high: Fraction) -> Fraction | None:
    """Where between two ends the final overtakes a category, or is overtaken by it."""
    one, two = low + (high - low) / 3, low + (high - low) * 2 / 3
    first, second = _lead_of_final(book, number, one), _lead_of_final(book, number, two)
    if first is None or second is None or first == second:
        return None
    at = one - first * (two - one) / (second - first)
    return at if low < at < high else None


def _lead_of_final(book: Gradebook, number: int, share: Fraction) -> Fraction | None:
    part = next((part for part in book.parts if is_in_part(book, book.categories[number], part)), GradePart("", _ONE))
    marks = [one for one in _with_open(book, share) if is_in_part(book, book.categories[one.category], part)]
    final = [one for one in marks if one.is_final]
    own = kept_marks(book.categories[number], [one for one in marks if one.category == number])
    final_whole, own_whole = sum((one.whole for one in final), _ZERO), sum((one.whole for one in own), _ZERO)
    if not final_whole or not own_whole:
        return None
    earned = sum((one.earned for one in final), _ZERO), sum((one.earned for one in own), _ZERO)
    return earned[0] / final_whole - earned[1] / own_whole


def grade_with_final(book: Gradebook, share: Fraction) -> Fraction | None:
    """The grade when the final gets ``share`` of its full mark and other open marks are left out of account."""
    return grade_of(book, list(scored_marks(book, Fill(final=share))))


def needed_on_final(book: Gradebook, target: Fraction) -> Needed:
    """What is enough on the final alone, as if no other work were still to come."""
    return needed_for(replace(book, marks=tuple(_without_other_open(book))), target)


def _without_other_open(book: Gradebook) -> Iterator[GradeMark]:
    categories = {one.name.strip().casefold(): one for one in reversed(book.categories)}
    for mark in book.marks:
        category = categories.get(mark.category.strip().casefold())
        if category is None or not is_open(mark) or (is_final_mark(book, mark, category) and not category.extra):
            yield mark
