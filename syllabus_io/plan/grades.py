"""How a course's grade comes about, in exact fractions: the twin of the formulas on the grades sheets.

Shares are fractions of one (3/4 is 75 %). A category's marks are added up by what each counts; the lowest are left
out; categories are put together by weight or by points; parts of the course (marking periods) by their weight.
``plan.grades_needed`` says what is still needed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = [
    "EXCUSED_WORDS",
    "ROUNDINGS",
    "Fill",
    "GradeMark",
    "GradePart",
    "GradeStepShare",
    "Gradebook",
    "MarkCategory",
    "Scored",
    "Typed",
    "current_grade",
    "grade_of",
    "highest_grade",
    "is_final_mark",
    "is_in_part",
    "is_open",
    "kept_marks",
    "letter_of",
    "lowest_grade",
    "minimum_share",
    "running_grades",
    "scored_marks",
    "what_if_grade",
]

Typed = Fraction | str | None
"""What stands in the cell of a mark: a number, words ("EX", "B+"), or nothing."""

EXCUSED_WORDS = ("EX", "EXCUSED")
ROUNDINGS = ("not rounded", "to a tenth of a percent", "to a whole percent", "down to a whole percent")
_ZERO, _ONE = Fraction(0), Fraction(1)


@dataclass(frozen=True, slots=True)
class GradePart:
    """A part of the course with its own grade, such as a marking period; ``weight`` as a share."""

    name: str
    weight: Fraction


@dataclass(frozen=True, slots=True)
class MarkCategory:
    """A category of marks. ``weight`` is a share, 0 where points decide.

    ``drop`` lowest marks are left out, or all but the ``keep`` best (0: no such rule). ``even``: its marks count the
    same, whatever their points. ``extra``: it only adds. ``replaced``: the percent of the final of its part
    stands in when higher.
    """

    name: str
    weight: Fraction = Fraction(0)
    drop: int = 0
    keep: int = 0
    even: bool = False
    extra: bool = False
    replaced: bool = False
    part: str = ""


@dataclass(frozen=True, slots=True)
class GradeMark:
    """A row of marks. ``possible`` 0: extra points, never left out. ``counts`` None: it counts its points.

    ``penalty`` is the share taken off for lateness; ``what_if`` a mark that is only tried out.
    """

    work: str
    category: str
    possible: Fraction
    typed: Typed = None
    counts: Fraction | None = None
    penalty: Fraction = Fraction(0)
    what_if: Typed = None


@dataclass(frozen=True, slots=True)
class GradeStepShare:
    """A letter, the lowest share that earns it (None: none does), and what the letter counts when it is typed."""

    letter: str
    minimum: Fraction | None
    counts_as: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Gradebook:
    """Everything on one grades sheet. ``weighted``: categories by weight, else by points.

    ``final`` names the category or the work that is the final; ``on_top`` is added to the grade at the end;
    ``off_full_marks``: a late penalty is a share of the full mark, else of the mark; ``rounding`` one of ROUNDINGS.
    """

    weighted: bool
    categories: tuple[MarkCategory, ...]
    marks: tuple[GradeMark, ...]
    steps: tuple[GradeStepShare, ...] = ()
    parts: tuple[GradePart, ...] = ()
    final: str = ""
    on_top: Fraction = Fraction(0)
    off_full_marks: bool = True
    rounding: str = ROUNDINGS[0]


@dataclass(frozen=True, slots=True)
class Fill:
    """The share of full marks that open marks are taken to get; None leaves them out of account.

    The final may get another than the usual work; work of categories that only add gets ``extra``.
    """

    usual: Fraction | None = None
    extra: Fraction | None = None
    final: Fraction | None = None

    def share(self, category: MarkCategory, is_final: bool) -> Fraction | None:
        """What an open mark of a category gets."""
        if category.extra:
            return self.extra
        return self.final if is_final else self.usual


@dataclass(frozen=True, slots=True)
class Scored:
    """A mark as it enters the sums. ``share`` of its full mark, ``whole`` what it counts, ``earned`` of that."""

    row: int
    category: int
    share: Fraction
    whole: Fraction
    earned: Fraction
    is_final: bool


def typed_share(book: Gradebook, mark: GradeMark, typed: Typed) -> Fraction | None:
    """The points that were typed, letters turned into points; None when it is no mark (blank, excused, other words)."""
    if isinstance(typed, str):
        wanted = typed.strip().casefold()
        steps = [step for step in book.steps if step.letter.strip().casefold() == wanted and wanted]
        counts_as = steps[0].counts_as if steps else None
        return None if counts_as is None else counts_as * mark.possible
    return typed if typed is not None and typed >= 0 else None


def is_open(mark: GradeMark) -> bool:
    """Whether the mark is still to come."""
    return mark.typed is None or (isinstance(mark.typed, str) and not mark.typed.strip())


def scored_marks(book: Gradebook, fill: Fill, *, rows: int | None = None, what_if: bool = False) -> Iterator[Scored]:
    """The marks that count, open ones filled in; of the first ``rows`` only; ``what_if``: with what is tried out."""
    positions = {one.name.strip().casefold(): number for number, one in reversed(list(enumerate(book.categories)))}
    for row, mark in enumerate(book.marks[:rows]):
        number = positions.get(mark.category.strip().casefold()) if mark.category.strip() else None
        if number is None:
            continue
        category = book.categories[number]
        is_final = is_final_mark(book, mark, category)
        tried = typed_share(book, mark, mark.what_if) if what_if else None
        points = tried if tried is not None else typed_share(book, mark, mark.typed)
        if points is None:
            share = fill.share(category, is_final) if is_open(mark) else None
            if share is None:
                continue
        elif mark.possible:
            off = mark.penalty if book.off_full_marks else mark.penalty * points / mark.possible
            share = max(Fraction(0), points / mark.possible - off)
        else:
            share = Fraction(0)
        whole = _whole(mark, category)
        extra_points = (points or Fraction(0)) * (1 - mark.penalty)
        earned = whole * share if mark.possible else extra_points
        yield Scored(row, number, share, whole, earned, is_final)


def _whole(mark: GradeMark, category: MarkCategory) -> Fraction:
    if not mark.possible:
        return Fraction(0)
    if mark.counts is not None:
        return mark.counts
    return Fraction(100) if category.even else mark.possible


def is_final_mark(book: Gradebook, mark: GradeMark, category: MarkCategory) -> bool:
    """Whether the mark belongs to what the gradebook names as the final."""
    wanted = book.final.strip().casefold()
    return bool(wanted) and wanted in (category.name.strip().casefold(), mark.work.strip().casefold())


def kept_marks(category: MarkCategory, marks: Sequence[Scored]) -> list[Scored]:
    """The marks of one category without those left out.

    The lowest percentages go first; of equal ones that which counts more, then the upper row. One always stays.
    Marks that count nothing of themselves (extra points) are never left out.
    """
    counted = sorted((one for one in marks if one.whole > 0), key=lambda one: (one.share, -one.whole, one.row))
    drop = max(category.drop, len(counted) - category.keep if category.keep else 0)
    drop = max(0, min(drop, len(counted) - 1))
    return counted[drop:] + [one for one in marks if one.whole <= 0]


def grade_of(book: Gradebook, marks: Sequence[Scored]) -> Fraction | None:
    """The grade made of these marks; None when nothing counts yet."""
    parts = book.parts or (GradePart("", Fraction(1)),)
    total = weights = Fraction(0)
    for part in parts:
        grade = _part_grade(book, part, marks)
        if grade is not None:
            total += part.weight * grade
            weights += part.weight
    return total / weights + book.on_top if weights else None


def is_in_part(book: Gradebook, category: MarkCategory, part: GradePart) -> bool:
    """Whether a category belongs to a part: all do where the course has no parts."""
    return not book.parts or category.part.strip().casefold() == part.name.strip().casefold()


def _final_share(marks: Sequence[Scored]) -> Fraction | None:
    whole = sum((one.whole for one in marks if one.is_final), Fraction(0))
    return sum((one.earned for one in marks if one.is_final), Fraction(0)) / whole if whole else None


def _part_grade(book: Gradebook, part: GradePart, marks: Sequence[Scored]) -> Fraction | None:
    usual = base = on_top = Fraction(0)
    own = [one for one in marks if is_in_part(book, book.categories[one.category], part)]
    final = _final_share(own)
    for number, category in enumerate(book.categories):
        kept = kept_marks(category, [one for one in own if one.category == number])
        whole = sum((one.whole for one in kept), Fraction(0))
        earned = sum((one.earned for one in kept), Fraction(0))
        if category.replaced and final is not None:
            earned = max(earned, final * whole)
        if not book.weighted:
            usual += earned
            base += 0 if category.extra else whole
        elif whole and category.extra:
            on_top += category.weight * earned / whole
        elif whole:
            usual += category.weight * earned / whole
            base += category.weight
    return usual / base + on_top if base else None


def current_grade(book: Gradebook) -> Fraction | None:
    """The grade over the marks so far: what is blank or excused counts neither way."""
    return grade_of(book, list(scored_marks(book, Fill())))


def what_if_grade(book: Gradebook) -> Fraction | None:
    """The same with the marks that are tried out in place of those on record."""
    return grade_of(book, list(scored_marks(book, Fill(), what_if=True)))


def running_grades(book: Gradebook) -> tuple[Fraction | None, ...]:
    """The grade after each row that holds a mark, from the rows down to it; None for other rows."""
    counted = {one.row for one in scored_marks(book, Fill())}
    return tuple(
        grade_of(book, list(scored_marks(book, Fill(), rows=row + 1))) if row in counted else None
        for row in range(len(book.marks))
    )


def lowest_grade(book: Gradebook) -> Fraction | None:
    """The final grade when every open mark becomes 0."""
    return grade_of(book, list(scored_marks(book, Fill(_ZERO, _ZERO, _ZERO))))


def highest_grade(book: Gradebook) -> Fraction | None:
    """The final grade when every open mark, extra credit too, becomes a full one."""
    return grade_of(book, list(scored_marks(book, Fill(_ONE, _ONE, _ONE))))


def minimum_share(minimum: Fraction, rounding: str) -> Fraction:
    """The lowest grade that reaches ``minimum`` once grades are rounded; halves go up."""
    if rounding == ROUNDINGS[0]:
        return minimum
    unit = Fraction(1, 1000) if rounding == ROUNDINGS[1] else Fraction(1, 100)
    reached = math.ceil(minimum / unit) * unit
    return reached if rounding == ROUNDINGS[3] else reached - unit / 2


def letter_of(book: Gradebook, grade: Fraction | None) -> str:
    """The letter of a grade: the highest step it reaches; "below D" under the lowest; empty without a scale."""
    steps = [step for step in book.steps if step.minimum is not None]
    if grade is None or not steps:
        return ""
    ordered = sorted(steps, key=lambda step: step.minimum or Fraction(0), reverse=True)
    for step in ordered:
        if grade >= minimum_share(step.minimum or Fraction(0), book.rounding):
            return step.letter
    return f"below {ordered[-1].letter}"
