"""What one item counts toward the course grade, in percent, where the outline lets it be known."""

from __future__ import annotations

from syllabus_io.outline.records import Category, GradingScheme, Weight

__all__ = ["find_category", "weight_percent"]


def weight_percent(weight: Weight | None, category: str | None, grading: GradingScheme) -> float | None:
    """The share of the course grade: as stated, or its points out of the course's, or an equal share of its category.

    None when none of these is known.
    """
    total = total_points(grading)
    if weight and weight.percent is not None:
        return weight.percent
    if weight and weight.points is not None and total:
        return 100 * weight.points / total
    found = find_category(category, grading)
    if found is None or not found.count or found.extra_credit:
        return None
    if found.weight is not None:
        return found.weight / found.count
    if found.points is not None and total:
        return 100 * found.points / total / found.count
    return None


def total_points(grading: GradingScheme) -> float | None:
    """The points of the whole course; the sum of its categories' where the outline gives no total."""
    if grading.total_points:
        return grading.total_points
    points = [category.points for category in grading.categories if not category.extra_credit]
    return sum(part for part in points if part) or None if points and all(points) else None


def find_category(name: str | None, grading: GradingScheme) -> Category | None:
    """The category of that name, whatever its case; None when there is none."""
    wanted = (name or "").strip().casefold()
    return next((one for one in grading.categories if one.name.strip().casefold() == wanted), None)
