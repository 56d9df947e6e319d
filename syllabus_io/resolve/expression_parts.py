"""The parts of an expression tree: walked, and replaced."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import Any, get_args

from syllabus_io.resolve.expression import DateExpression

__all__ = ["parts_of", "with_parts"]

_NODES: tuple[type[Any], ...] = get_args(DateExpression)


def parts_of(expression: DateExpression) -> Iterator[DateExpression]:
    """The expression itself and every expression inside it, outermost first, in the order they are written."""
    yield expression
    for field in fields(expression):
        value = getattr(expression, field.name)
        for child in value if isinstance(value, tuple) else (value,):
            if isinstance(child, _NODES):
                yield from parts_of(child)


def with_parts(expression: DateExpression, change: Callable[[DateExpression], DateExpression]) -> DateExpression:
    """The same tree with ``change`` applied to every part, innermost first."""
    changed: dict[str, object] = {}
    for field in fields(expression):
        value = getattr(expression, field.name)
        if isinstance(value, _NODES):
            new: object = with_parts(value, change)
        elif isinstance(value, tuple):
            new = tuple(with_parts(child, change) if isinstance(child, _NODES) else child for child in value)
        else:
            continue
        if new != value:
            changed[field.name] = new
    whole: DateExpression = replace(expression, **changed) if changed else expression  # type: ignore[arg-type]  # fields by name
    return change(whole)
