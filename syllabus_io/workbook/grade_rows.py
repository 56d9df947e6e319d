"""What stands on a course's grades sheet: its categories, every graded item, and places for marks not yet listed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from syllabus_io.outline.records import GradeStep, GradingScheme, Kind
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.plan.weights import find_category
from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.resolve.wording import listed
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["GradeCategory", "GradeRow", "GradeTable", "read_grade_table"]

_MOST_PLACES = 40  # marks that are counted but not listed by the outline
_USUAL_POINTS = 100.0
_SMALL_WORDS = frozenset({"a", "an", "and", "each", "of", "or", "the", "to"})
_PLURALS = {
    Kind.ASSIGNMENT: "Assignments",
    Kind.QUIZ: "Quizzes",
    Kind.EXAM: "Exams",
    Kind.PROJECT: "Projects",
    Kind.PRESENTATION: "Presentations",
    Kind.READING: "Readings",
}


@dataclass(frozen=True, slots=True)
class GradeCategory:
    """A category as the sheet shows it. ``weight`` is a share from 0 to 1, None where only marks count."""

    name: str
    weight: float | None
    drop: int
    extra_credit: bool


@dataclass(frozen=True, slots=True)
class GradeRow:
    """A place for a mark. ``review_id`` ties it to Review, from which it takes its date; None when it stands there not.
    ``possible`` are the points of a full mark; ``counts`` what it counts within its category, None: its points."""

    review_id: str | None
    title: str
    category: str | None
    possible: float
    counts: float | None


@dataclass(frozen=True, slots=True)
class GradeTable:
    """A course's grades: ``method`` is "weights" where categories have weights, "marks" where each mark counts what
    it is worth. ``doubts`` are plain words on what is missing or does not add up."""

    method: Literal["weights", "marks"]
    categories: tuple[GradeCategory, ...]
    rows: tuple[GradeRow, ...]
    scale: tuple[GradeStep, ...]
    doubts: tuple[str, ...]


def read_grade_table(course: ResolvedCourse, review: Sequence[ReviewRow]) -> GradeTable:
    """The grades of a course from its scheme and its rows on Review."""
    grading = course.outline.grading
    graded = [row for row in review if row.kind is not Kind.READING or row.category or row.stated]
    graded.sort(key=lambda row: (row.read or date.max, row.title))
    weighted = any(category.weight is not None for category in grading.categories)
    method: Literal["weights", "marks"] = "weights" if weighted else "marks"
    categories = [GradeCategory(one.name, _share(one.weight), one.drop, one.extra_credit) for one in grading.categories]
    rows: list[GradeRow] = []
    for item in graded:
        name = _category_of(item, grading)
        if name is None:
            name = _own_category(item, categories, method)
        rows.append(_row(item, name, grading, method))
    rows += _places(grading, rows)
    rows, uneven = _with_even_counts(rows, method)
    doubts = (*grading.doubts, *_missing(grading, rows), *uneven)
    return GradeTable(method, tuple(categories), tuple(rows), _percent_scale(grading), doubts)


def _share(weight: float | None) -> float | None:
    return None if weight is None else weight / 100


def _category_of(item: ReviewRow, grading: GradingScheme) -> str | None:
    """The category an item belongs to: as read, by its title, by words of its title, or the only one of its kind."""
    found = find_category(item.category, grading) or find_category(item.title, grading)
    if found:
        return found.name
    title = _stems(item.title)
    ranked = [(len(words), one.name) for one in grading.categories if (words := _stems(one.name)) and words <= title]
    best = [name for length, name in ranked if length == max(ranked)[0]]
    if len(best) == 1:
        return best[0]
    kind = [one.name for one in grading.categories if kind_of_work(one.name) is item.kind]
    return kind[0] if len(kind) == 1 else None


def _stems(text: str) -> frozenset[str]:
    """The words of a title or category without numbers, small words and endings: "Unit tests" fits "Unit 3 test"."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(_stem(word) for word in words if word not in _SMALL_WORDS)


def _stem(word: str) -> str:
    if word.endswith("zzes"):
        return word[:-3]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


def _own_category(item: ReviewRow, categories: list[GradeCategory], method: str) -> str | None:
    """A category for work that the scheme does not name: one for each kind where each mark counts by itself, one for
    the item where it states its own weight. None: the person has to choose."""
    if method == "weights" and not (item.stated and item.stated.percent):
        return None
    name = item.title[:60] if method == "weights" else _PLURALS[item.kind]
    if all(one.name.casefold() != name.casefold() for one in categories):
        weight = _share(item.stated.percent) if method == "weights" and item.stated else None
        categories.append(GradeCategory(name, weight, 0, False))
    return name


def _row(item: ReviewRow, category: str | None, grading: GradingScheme, method: str) -> GradeRow:
    stated = item.stated
    found = find_category(category, grading)
    points = stated.points if stated and stated.points else None
    if points is None and found and found.points and found.count and method == "marks":
        points = found.points / found.count
    if points is None and found and found.points and method == "marks" and not found.count:
        points = found.points
    counts = stated.percent if stated and stated.percent else None
    return GradeRow(item.id, item.title, category, points or _USUAL_POINTS, counts)


def _with_even_counts(rows: Sequence[GradeRow], method: str) -> tuple[list[GradeRow], tuple[str, ...]]:
    """Rows whose counts can be added up: percent and points do not mix. Within a category that states the weight of
    some of its marks only, points decide; where each mark counts by itself, one without a weight counts nothing yet."""
    even: list[GradeRow] = []
    doubts: list[str] = []
    for row in rows:
        group = [one for one in rows if method == "marks" or one.category == row.category]
        if all(one.counts is not None for one in group) or all(one.counts is None for one in group):
            even.append(row)
        elif method == "weights":
            even.append(replace(row, counts=None))
        else:
            even.append(replace(row, counts=row.counts or 0.0))
            if row.counts is None:
                doubts.append(f"The outline does not say what “{row.title}” counts: it counts 0 until you type it.")
    return even, tuple(doubts)


def _places(grading: GradingScheme, rows: Sequence[GradeRow]) -> list[GradeRow]:
    """Places for marks that a category counts and the outline does not list one by one; one for a category without
    any, since a category without marks would count for nothing."""
    places: list[GradeRow] = []
    for category in grading.categories:
        listed = sum(row.category == category.name for row in rows)
        wanted = min(category.count or 0, _MOST_PLACES) or (0 if listed else 1)
        points = category.points / (category.count or 1) if category.points else _USUAL_POINTS
        for number in range(listed + 1, wanted + 1):
            title = category.name if wanted == 1 else f"{category.name} {number} of {wanted} (not listed)"
            places.append(GradeRow(None, title, category.name, points, None))
    return places


def _missing(grading: GradingScheme, rows: Sequence[GradeRow]) -> tuple[str, ...]:
    words = []
    stated = sum(row.counts or 0.0 for row in rows)
    if not grading.categories and not stated:
        words.append("The outline gives no grading scheme that could be read: set the categories and what they count.")
    elif not grading.categories and abs(stated - 100) > 0.05:
        words.append(f"What the outline says its work counts adds up to {stated:g} %, not 100 %.")
    if not grading.scale:
        words.append("The outline gives no scale of letters: type it in below if there is one.")
    homeless = [f"“{row.title[:60]}”" for row in rows if row.category is None]
    if homeless:
        words.append(f"No category fits {listed(homeless[:5])}: choose one, or it counts for nothing.")
    return tuple(words)


def _percent_scale(grading: GradingScheme) -> tuple[GradeStep, ...]:
    """The scale in shares from 0 to 1, highest first; a scale written in points is divided by the course's points."""
    steps = sorted(grading.scale, key=lambda step: step.minimum, reverse=True)
    whole = 100.0
    if steps and steps[0].minimum > 110 and grading.total_points:
        whole = grading.total_points
    return tuple(GradeStep(step.letter, step.minimum / whole) for step in steps)
