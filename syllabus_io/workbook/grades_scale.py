"""The scale of letters of a course in shares of full marks, and what a typed letter counts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from syllabus_io.outline.records import GradingScheme
from syllabus_io.plan.grades import GradeStepShare

__all__ = ["read_steps", "whole_of_scale"]

_WORDS = (("P", Fraction(1)), ("NP", Fraction(0)))  # passed, not passed
_LEVELS = (4, 5, 10)


def whole_of_scale(grading: GradingScheme) -> Fraction:
    """What full marks are on the scale: 100 percent, the course's points, or the highest level of a scale of levels."""
    highest = max((step.minimum for step in grading.scale), default=100.0)
    if highest > 110 and grading.total_points:
        return Fraction(str(grading.total_points))
    levels = [level for level in _LEVELS if 1 < highest <= level]
    return Fraction(levels[0]) if levels else Fraction(100)


def read_steps(grading: GradingScheme) -> tuple[GradeStepShare, ...]:
    """The scale, highest first, then words for work that is only passed or not.

    A typed letter counts the middle of its band, to a tenth of a percent: the sheet lets that be changed.
    """
    return (
        *_letters(grading),
        *(GradeStepShare(word, None, counts) for word, counts in _WORDS if _is_free(word, grading)),
    )


def _letters(grading: GradingScheme) -> Iterator[GradeStepShare]:
    whole = whole_of_scale(grading)
    above = Fraction(1)
    for step in sorted(grading.scale, key=lambda one: one.minimum, reverse=True):
        minimum = Fraction(str(step.minimum)) / whole
        middle = Fraction(round((minimum + max(above, minimum)) / 2 * 1000), 1000)
        yield GradeStepShare(step.letter, minimum, middle)
        above = minimum


def _is_free(word: str, grading: GradingScheme) -> bool:
    return all(step.letter.strip().casefold() != word.casefold() for step in grading.scale)
