"""What one item counts, where the outline says so or it follows plainly from the grading scheme."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from syllabus_io.outline.records import Category, GradingScheme, Item, Weight

__all__ = ["weight_of"]


def weight_of(item: Item, scheme: GradingScheme, in_category: Counter[str], undated: Iterable[str]) -> Weight | None:
    """The weight of an item, None when it does not follow plainly.

    The item's own weight is taken first. Else its category's weight is shared evenly: among as many as the scheme
    counts, or given whole to the only item of a category that names one thing ("Final exam"). Dropped marks make the
    share of one item uncertain, so nothing is derived then. ``in_category`` counts the dated items of each category,
    ``undated`` names the categories of undated work.
    """
    if item.weight is not None or item.category is None:
        return item.weight
    category = next((each for each in scheme.categories if each.name == item.category), None)
    if (
        category is None
        or category.drop
        or category.extra_credit
        or (category.weight is None and category.points is None)
    ):
        return None
    dated = in_category[category.name]
    if category.count is not None:
        share = category.count if dated <= category.count else None
    else:
        share = 1 if dated == 1 and category.name not in set(undated) and _names_one(category) else None
    if share is None:
        return None
    return Weight(
        None if category.weight is None else round(category.weight / share, 2),
        None if category.weight is not None or category.points is None else round(category.points / share, 2),
    )


def _names_one(category: Category) -> bool:
    words = re.findall(r"[a-z]+", category.name.casefold())
    return not any(word.endswith("s") and not word.endswith("ss") for word in words)
