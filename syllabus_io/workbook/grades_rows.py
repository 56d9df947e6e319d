"""What stands on a course's grades sheet: its categories, every graded item, and places for marks not yet listed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from syllabus_io.outline.records import Category, GradingScheme, Kind
from syllabus_io.outline.vocabulary import kind_of_work
from syllabus_io.plan.grades import Gradebook, GradeMark, MarkCategory
from syllabus_io.plan.weights import find_category
from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.resolve.wording import listed
from syllabus_io.workbook.grades_rules import find_final, is_replaced, parts_of
from syllabus_io.workbook.grades_scale import read_steps, whole_of_scale
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["CourseGrades", "read_course_grades"]

_MOST_PLACES = 40  # marks that are counted but not listed by the outline
_USUAL_POINTS = 100.0
_USUAL_TARGET = Fraction(9, 10)
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
class CourseGrades:
    """A course's grades as its sheet begins.

    ``review_ids`` tie marks, one for one, to Review, from which they take their dates; None where they stand there not.
    ``full`` is what full marks are on the course's own scale: 100 (percent), 4 (levels), or a course's points.
    ``doubts`` are plain words on what is missing or does not add up, ``rules`` what to watch.
    """

    book: Gradebook
    review_ids: tuple[str | None, ...] = ()
    target: Fraction = _USUAL_TARGET
    full: Fraction = Fraction(100)
    doubts: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()


def read_course_grades(course: ResolvedCourse, review: Sequence[ReviewRow]) -> CourseGrades:
    """The grades of a course from its scheme and its rows on Review."""
    grading = course.outline.grading
    weighted = any(category.weight is not None for category in grading.categories)
    categories = [
        MarkCategory(one.name, _exact(one.weight or 0) / 100, drop=one.drop, extra=one.extra_credit)
        for one in grading.categories
    ]
    full = whole_of_scale(grading)
    usual = float(full) if full <= 10 else _USUAL_POINTS
    rows = [_row(item, grading, categories, weighted, usual) for item in _graded(review)]
    rows += _places(grading, rows, usual)
    rows, uneven = _with_even_counts(rows, weighted)
    rows, shared = (rows, ()) if weighted else _with_shared_points(grading, rows, review)
    final = find_final([one.name for one in categories], [row.mark.work for row in rows])
    replaced = [one.name for one in categories if one.name != final and is_replaced(one.name, final, grading.rules)]
    parts, categories = parts_of([replace(one, replaced=one.name in replaced) for one in categories])
    steps = read_steps(grading)
    best = [step.minimum for step in steps if step.minimum is not None and step.letter.strip().upper().startswith("A")]
    book = Gradebook(weighted, tuple(categories), tuple(row.mark for row in rows), steps, parts, final)
    doubts = (
        *grading.doubts,
        *_missing(grading, rows, full),
        *uneven,
        *shared,
        *_set_by_reading(replaced, bool(parts)),
    )
    rules = (*grading.rules, *([f"Late work: {grading.late_policy}"] if grading.late_policy else []))
    target = min(best) if best else _USUAL_TARGET
    return CourseGrades(book, tuple(row.review_id for row in rows), target, full, doubts, rules)


@dataclass(frozen=True, slots=True)
class _Row:
    review_id: str | None
    mark: GradeMark


def _exact(value: float) -> Fraction:
    """The number as it is written in decimals."""
    return Fraction(str(value))


def _graded(review: Sequence[ReviewRow]) -> list[ReviewRow]:
    graded = [row for row in review if row.kind is not Kind.READING or row.category or row.stated]
    return sorted(graded, key=lambda row: (row.read or date.max, row.title))


def _category_of(item: ReviewRow, grading: GradingScheme) -> Category | None:
    """The category an item belongs to: as read, by its title, by words of its title, or the only one of its kind."""
    found = find_category(item.category, grading) or find_category(item.title, grading)
    if found:
        return found
    title = _stems(item.title)
    ranked = [(len(words), one) for one in grading.categories if (words := _stems(one.name)) and words <= title]
    best = [one for length, one in ranked if length == max(length for length, _ in ranked)]
    if len(best) == 1:
        return best[0]
    kind = [one for one in grading.categories if kind_of_work(one.name) is item.kind]
    return kind[0] if len(kind) == 1 else None


def _stems(text: str) -> frozenset[str]:
    """The words of a title or category without numbers, small words and endings: "Unit tests" fits "Unit 3 test"."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(_stem(word) for word in words if word not in _SMALL_WORDS)


def _stem(word: str) -> str:
    if word.endswith("zzes"):
        return word[:-3]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


def _row(item: ReviewRow, grading: GradingScheme, categories: list[MarkCategory], weighted: bool, usual: float) -> _Row:
    found = _category_of(item, grading)
    name = found.name if found else _own_category(item, categories, weighted)
    points = item.stated.points if item.stated and item.stated.points else None
    if points is None and found and found.points and not weighted:
        points = found.points / (found.count or 1)
    counts = item.stated.percent if item.stated and item.stated.percent else None
    mark = GradeMark(item.title, name or "", _exact(points or usual), counts=None if counts is None else _exact(counts))
    return _Row(item.id, mark)


def _own_category(item: ReviewRow, categories: list[MarkCategory], weighted: bool) -> str | None:
    """A category for work that the scheme does not name: one for each kind where points decide, one for the item where
    it states its own weight. None: the person has to choose."""
    if weighted and not (item.stated and item.stated.percent):
        return None
    name = item.title[:60] if weighted else _PLURALS[item.kind]
    if all(one.name.casefold() != name.casefold() for one in categories):
        percent = item.stated.percent if weighted and item.stated and item.stated.percent else 0
        categories.append(MarkCategory(name, _exact(percent) / 100))
    return name


def _with_even_counts(rows: Sequence[_Row], weighted: bool) -> tuple[list[_Row], tuple[str, ...]]:
    """Rows whose counts can be added up: percent and points do not mix. Within a category that states the weight of
    some of its marks only, points decide; where each mark counts by itself, one without a weight counts nothing yet."""
    even: list[_Row] = []
    doubts: list[str] = []
    for row in rows:
        group = [one.mark.counts for one in rows if not weighted or one.mark.category == row.mark.category]
        if all(counts is not None for counts in group) or all(counts is None for counts in group):
            even.append(row)
        elif weighted:
            even.append(replace(row, mark=replace(row.mark, counts=None)))
        else:
            even.append(replace(row, mark=replace(row.mark, counts=row.mark.counts or Fraction(0))))
            if row.mark.counts is None:
                doubts.append(f"The outline does not say what “{row.mark.work}” counts: it counts 0 until you type it.")
    return even, tuple(doubts)


def _with_shared_points(
    grading: GradingScheme, rows: Sequence[_Row], review: Sequence[ReviewRow]
) -> tuple[list[_Row], tuple[str, ...]]:
    """Rows in which the points of a category are shared evenly among several marks that state none of their own."""
    stated = {row.id for row in review if row.stated and row.stated.points}
    changed = list(rows)
    doubts = []
    for category in grading.categories:
        own = [number for number, row in enumerate(rows) if row.mark.category == category.name]
        is_known = any(rows[number].review_id in stated for number in own)
        if category.points is None or is_known or len(own) <= (category.count or 1):
            continue
        share = _exact(category.points) / len(own)
        for number in own:
            changed[number] = replace(rows[number], mark=replace(rows[number].mark, possible=share))
        doubts.append(
            f"The outline does not say how the {category.points:g} points of “{category.name}” are shared among its "
            f"{len(own)} marks: evenly until you change it."
        )
    return changed, tuple(doubts)


def _places(grading: GradingScheme, rows: Sequence[_Row], usual: float) -> list[_Row]:
    """Places for marks that a category counts and the outline does not list one by one; one for a category without
    any, since a category without marks would count for nothing."""
    places: list[_Row] = []
    for category in grading.categories:
        known = sum(row.mark.category == category.name for row in rows)
        wanted = min(category.count or 0, _MOST_PLACES) or (0 if known else 1)
        points = category.points / (category.count or 1) if category.points else usual
        for number in range(known + 1, wanted + 1):
            title = category.name if wanted == 1 else f"{category.name} {number} of {wanted} (not listed)"
            places.append(_Row(None, GradeMark(title, category.name, _exact(points))))
    return places


def _missing(grading: GradingScheme, rows: Sequence[_Row], full: Fraction) -> Iterator[str]:
    stated = float(sum((row.mark.counts or 0 for row in rows), Fraction(0)))
    if not grading.categories and not stated:
        yield "The outline gives no grading scheme that could be read: set the categories and what they count."
    elif not grading.categories and abs(stated - 100) > 0.05:
        yield f"What the outline says its work counts adds up to {stated:g} %, not 100 %."
    if not grading.scale:
        yield "The outline gives no scale of letters: type it in below if there is one."
    if full <= 10:
        yield f"The scale's numbers are read as levels out of {float(full):g}: marks are typed as levels."
    homeless = [f"“{row.mark.work[:60]}”" for row in rows if not row.mark.category]
    if homeless:
        yield f"No category fits {listed(homeless[:5])}: choose one, or it counts for nothing."


def _set_by_reading(replaced: Sequence[str], has_parts: bool) -> Iterator[str]:
    if replaced:
        names = listed([f"“{name}”" for name in replaced])
        yield f"A sentence of the outline is read so that a higher final stands in for {names}: see the categories."
    if has_parts:
        yield "The grade is read as made of parts, each with a grade of its own: see the table of parts."
