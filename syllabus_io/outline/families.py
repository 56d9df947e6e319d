"""Works of one name: what has a proposal, an outline or a draft of its own is a project."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.outline.records import Item, Kind
from syllabus_io.outline.work_words import find_heads

__all__ = ["with_projects"]

_STEP = re.compile(r"^(?P<name>.{4,60}?)[\s:,–—-]+(?:project\s+)?(?:proposal|prospectus)$", re.IGNORECASE)
_LATER_STEP = re.compile(
    r"^(?:[\s:,–—-]+(?:rough|first|second|final|full)?\s*(?:draft|outline|sketch|topic|plan|bibliography))?$",
    re.IGNORECASE,
)


def with_projects(items: Sequence[Item]) -> tuple[Item, ...]:
    """The items, those named by no word for work ("Field guide") made projects where another is their proposal."""
    names = [match["name"].casefold() for item in items if (match := _STEP.match(item.title))]
    return tuple(
        replace(item, kind=Kind.PROJECT) if item.kind is Kind.ASSIGNMENT and _belongs(item.title, names) else item
        for item in items
    )


def _belongs(title: str, names: Sequence[str]) -> bool:
    for name in names:
        is_named = any(not head.is_weak for head in find_heads(title[: len(name)]))
        if title.casefold().startswith(name) and not is_named and _LATER_STEP.match(title[len(name) :]):
            return True
    return False
