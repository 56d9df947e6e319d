"""A plan holds every item, in order of date, with its weight where the outline lets it be known."""

from __future__ import annotations

import pytest

from syllabus_io.outline.records import Category, GradingScheme, Weight
from syllabus_io.plan.weights import weight_percent
from tests.workbook.plans import usual_plan

SCHEME = GradingScheme(
    categories=(
        Category("Quizzes", 20, count=10),
        Category("Final", 30),
        Category("Bonus", 5, count=5, extra_credit=True),
    ),
)
POINTS = GradingScheme(categories=(Category("Labs", points=200, count=8), Category("Final", points=200)))


@pytest.mark.parametrize(
    ("weight", "category", "scheme", "percent"),
    [
        (Weight(percent=12), "Quizzes", SCHEME, 12),
        (None, "quizzes ", SCHEME, 2),
        (None, "Final", SCHEME, None),  # how many marks it holds is not said
        (None, "Bonus", SCHEME, None),
        (None, None, SCHEME, None),
        (Weight(points=100), None, SCHEME, None),
        (Weight(points=100), None, POINTS, 25),
        (None, "Labs", POINTS, 6.25),
    ],
)
def test_weights(weight: Weight | None, category: str | None, scheme: GradingScheme, percent: float | None) -> None:
    assert weight_percent(weight, category, scheme) == (None if percent is None else pytest.approx(percent))


def test_every_item_is_in_the_plan_in_order_of_date() -> None:
    plan = usual_plan()
    assert len(plan.entries) == sum(len(course.items) for course in plan.resolved.courses)
    dated = [entry.item.date for entry in plan.entries if entry.item.date]
    assert dated == sorted(dated)
    assert plan.entries[-1].item.date is None and plan.entries[-1].why == "no date yet"
    for entry in plan.entries:
        if entry.item.date:
            assert entry.start and plan.resolved.term.first_day <= entry.start <= entry.item.date
            assert entry.why
