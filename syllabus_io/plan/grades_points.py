"""Grade points: scales as data, and averages over courses weighted by their credits.

No scale here is any school's: they are forms in common use, to begin from and to change.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["PRESETS", "CoursePoints", "PointScale", "average", "cumulative_average", "points_for"]


@dataclass(frozen=True, slots=True)
class PointScale:
    """Points for letters, or, where ``per_share`` is given, for the grade itself: that many for full marks.

    ``advanced`` is what a passed course at an advanced level adds.
    """

    name: str
    letters: tuple[tuple[str, Fraction], ...] = ()
    per_share: Fraction | None = None
    advanced: Fraction = Fraction(0)


def _scale(text: str) -> tuple[tuple[str, Fraction], ...]:
    pairs = (pair.split() for pair in text.split(","))
    return tuple((letter, Fraction(points)) for letter, points in pairs)


_FOUR = "A 4.0, A- 3.7, B+ 3.3, B 3.0, B- 2.7, C+ 2.3, C 2.0, C- 1.7, D+ 1.3, D 1.0, D- 0.7, F 0"

# From memory, common practice in the United States; the ten-point letters as India's University Grants Commission
# proposed them for choice-based credit (from memory). Passing marks and plus and minus differ from school to school.
PRESETS = (
    PointScale("4.0", _scale("A+ 4.0, " + _FOUR)),
    PointScale("4.3", _scale("A+ 4.3, " + _FOUR)),
    PointScale("5.0 weighted", _scale("A+ 4.0, " + _FOUR), advanced=Fraction(1)),
    PointScale("100 points", per_share=Fraction(100)),
    PointScale("10 points by letter", _scale("O 10, A+ 9, A 8, B+ 7, B 6, C 5, P 4, F 0")),
    PointScale("10 points by percent", per_share=Fraction(10)),
)


@dataclass(frozen=True, slots=True)
class CoursePoints:
    """A course as an average takes it in."""

    credits: Fraction
    points: Fraction


def points_for(scale: PointScale, letter: str, grade: Fraction | None, is_advanced: bool = False) -> Fraction | None:
    """The points of a course; None when the scale has none for its letter, or there is no grade yet."""
    if scale.per_share is not None:
        points = None if grade is None else grade * scale.per_share
    else:
        wanted = letter.strip().casefold()
        points = next((points for name, points in scale.letters if name.casefold() == wanted), None)
    return points + scale.advanced if points and is_advanced else points


def average(courses: Sequence[CoursePoints]) -> Fraction | None:
    """The mean of the points, weighted by credits; None when there are no credits."""
    whole = sum((one.credits for one in courses), Fraction(0))
    return sum((one.credits * one.points for one in courses), Fraction(0)) / whole if whole else None


def cumulative_average(
    courses: Sequence[CoursePoints], earlier: Fraction, earlier_credits: Fraction
) -> Fraction | None:
    """The average with earlier terms, of which the average and the credits are known."""
    return average([*courses, CoursePoints(earlier_credits, earlier)])
