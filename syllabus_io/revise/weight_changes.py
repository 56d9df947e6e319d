"""What a revised outline changes about the grade, in sentences: each change once, where it was made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from syllabus_io.outline.records import Category, Weight
from syllabus_io.plan.weights import find_category, total_points
from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.workbook.review_rows import ReviewRow

__all__ = ["weight_changes"]


def weight_changes(
    before: ResolvedCourse, now: ResolvedCourse, pairs: Iterable[tuple[ReviewRow, ReviewRow]]
) -> Iterator[str]:
    """Categories and works that count otherwise than before. Works whose share changes only because their category, or
    the total of points, does are counted in one sentence."""
    changed, sentences = _category_changes(before, now)
    yield from sentences
    totals = (total_points(before.outline.grading), total_points(now.outline.grading))
    if totals[0] != totals[1] and totals[0] and totals[1]:
        yield f"the course had {totals[0]:g} points in all, now {totals[1]:g}"
    own_before, own_now = _own_weights(before), _own_weights(now)
    others = 0
    for row, twin in pairs:
        first, second = own_before.get(row.id), own_now.get(twin.id)
        category = find_category(twin.category, now.outline.grading)
        is_category = category is not None and category.name.casefold() in changed
        if first == second:
            others += row.weight != twin.weight and not is_category
        elif not (is_category and category and second == Weight(category.weight, category.points)):
            yield f"{twin.title}: {_stated(first, row)}, now {_stated(second, twin)}"
    if others:
        yield f"{others} other work{'s have' if others > 1 else ' has'} another share of the grade because of this"


def _category_changes(before: ResolvedCourse, now: ResolvedCourse) -> tuple[set[str], list[str]]:
    """The names of the categories that count otherwise, and the sentences that say so."""
    old = {category.name.casefold(): category for category in before.outline.grading.categories}
    new = {category.name.casefold(): category for category in now.outline.grading.categories}
    changed = {name for name in {*old, *new} if name not in old or name not in new or _facts(old[name], new[name])}
    sentences = []
    for name, category in new.items():
        if name in old and name in changed:
            sentences.append(f"{category.name} counted {_counts(old[name])}, now {_counts(category)}")
        elif name not in old:
            sentences.append(f"{category.name} counts {_counts(category)}, which is new")
    for name, category in old.items():
        if name not in new:
            sentences.append(f"{category.name} ({_counts(category)}) is no longer in the grade")
    return changed, sentences


def _facts(one: Category, other: Category) -> bool:
    """Whether two categories count differently."""
    return (one.weight, one.points, one.count, one.drop, one.extra_credit) != (
        other.weight,
        other.points,
        other.count,
        other.drop,
        other.extra_credit,
    )


def _counts(category: Category) -> str:
    if category.weight is not None:
        text = f"{category.weight:g} %"
    else:
        text = f"{category.points:g} points" if category.points is not None else "without a weight"
    text += f" for {category.count}" if category.count and category.count > 1 else ""
    text += f" without the lowest{f' {category.drop}' if category.drop > 1 else ''}" if category.drop else ""
    return f"{text} as extra credit" if category.extra_credit else text


def _own_weights(course: ResolvedCourse) -> dict[str, Weight | None]:
    """What the outline itself says of single works, by row id."""
    found = {item.id: item.item.weight for item in course.items}
    found |= {f"{course.key}:undated:{work.kind.value}:{work.title}": work.weight for work in course.undated}
    return found


def _stated(weight: Weight | None, row: ReviewRow) -> str:
    if weight and weight.percent is not None:
        return f"{weight.percent:g} %"
    if weight and weight.points is not None:
        return f"{weight.points:g} points"
    return "no weight of its own" if row.weight is None else f"{row.weight * 100:.4g} %"
