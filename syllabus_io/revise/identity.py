"""Which work of a revised outline is which of the earlier one, also when it was renamed, renumbered or moved."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from syllabus_io.outline.records import Outline
from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["Pairing", "find_course", "pair_rows"]

_LEAST_COURSE = 85.0  # of 100: how alike two names of a course must be
_LEAST = 0.6
_TITLE, _DATE, _NUMBER, _PAGE, _KIND = 0.55, 0.2, 0.1, 0.05, 0.1
_NEAR_PAGES = 1


@dataclass(frozen=True, slots=True)
class Pairing:
    """Rows of the earlier and the revised outline that are the same work, and those that are alone."""

    pairs: tuple[tuple[ReviewRow, ReviewRow], ...]
    gone: tuple[ReviewRow, ...]
    new: tuple[ReviewRow, ...]


def find_course(outline: Outline, courses: Sequence[ResolvedCourse]) -> ResolvedCourse | None:
    """The course that an outline is a revision of: the same code, else nearly the same title, else the same file."""
    from rapidfuzz import fuzz

    code = _bare(outline.course.code)
    for course in courses:
        if code and code == _bare(course.outline.course.code):
            same_code = [one for one in courses if _bare(one.outline.course.code) == code]
            return max(same_code, key=lambda one: _section_fits(outline, one))
    title = (outline.course.title or "").casefold()
    for course in courses:
        other = (course.outline.course.title or "").casefold()
        codes_differ = bool(code) and bool(_bare(course.outline.course.code))
        if title and other and not codes_differ and fuzz.ratio(title, other) >= _LEAST_COURSE:
            return course
    if not code and not title:
        return next((course for course in courses if course.outline.file == outline.file), None)
    return None


def _section_fits(outline: Outline, course: ResolvedCourse) -> int:
    return int(outline.course.section == course.outline.course.section)


def _bare(code: str | None) -> str:
    return "".join(re.findall(r"\w+", (code or "").casefold()))


def pair_rows(earlier: Sequence[ReviewRow], revised: Sequence[ReviewRow]) -> Pairing:
    """Every row of a course with its twin: first by kind and title, then by the likest.

    Titles that differ only in their number are the same work only when the day is the same too: Quiz 3 is not Quiz 4
    moved, but what was Quiz 3 on that day may now be called Quiz 4.
    """
    pairs: list[tuple[ReviewRow, ReviewRow]] = []
    old, new = list(earlier), list(revised)
    for same in (_same_work_and_day, _same_work):
        for row in list(old):
            twin = next((other for other in new if same(row, other)), None)
            if twin:
                pairs.append((row, twin))
                old.remove(row)
                new.remove(twin)
    scored = [(_score(row, other), number, row, other) for number, row in enumerate(old) for other in new]
    for score, _, row, other in sorted(scored, key=lambda one: (-one[0], one[1])):
        if score >= _LEAST and row in old and other in new:
            pairs.append((row, other))
            old.remove(row)
            new.remove(other)
    return Pairing(tuple(pairs), tuple(old), tuple(new))


def _same_work_and_day(row: ReviewRow, other: ReviewRow) -> bool:
    return _same_work(row, other) and row.read == other.read


def _same_work(row: ReviewRow, other: ReviewRow) -> bool:
    return row.kind is other.kind and _words(row.title) == _words(other.title)


def _words(title: str) -> str:
    return " ".join(re.findall(r"\w+", title.casefold()))


def _score(row: ReviewRow, other: ReviewRow) -> float:
    """How surely two rows are the same work, from 0 to 1."""
    from rapidfuzz import fuzz

    first, second = _words(row.title), _words(other.title)
    alike = fuzz.token_sort_ratio(first, second) / 100
    numbers = (re.findall(r"\d+", first), re.findall(r"\d+", second))
    same_day = row.read is not None and row.read == other.read
    if numbers[0] and numbers[1] and numbers[0] != numbers[1] and not same_day:
        return 0.0
    near = row.page is not None and other.page is not None and abs(row.page - other.page) <= _NEAR_PAGES
    return (
        _TITLE * alike
        + _DATE * same_day
        + _NUMBER * (numbers[0] == numbers[1])
        + _PAGE * near
        + _KIND * (row.kind is other.kind)
    )
