"""Class numbers to which the outline itself gives a day ("Lecture 8 | Sep 22"): work due at a class has that day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.mentions import Draft
from syllabus_io.resolve.expression import DateExpression, MeetingNumber
from syllabus_io.resolve.expression_parts import with_parts

__all__ = ["drafts_on_class_days", "with_class_days"]

LEAST_CLASSES = 4
_ANY_CLASS = ("", "lecture")


def with_class_days(passages: Sequence[Passage], days: Mapping[int, DateExpression]) -> tuple[Passage, ...]:
    """The passages with class numbers replaced by the days that the outline itself gives those classes."""
    return tuple(
        replace(passage, frame=replace(passage.frame, day=days.get(day.number, day)))
        if isinstance(day := passage.frame.day, MeetingNumber) and days
        else passage
        for passage in passages
    )


def drafts_on_class_days(drafts: Sequence[Draft], days: Mapping[int, DateExpression]) -> list[Draft]:
    """The drafts with the class numbers of their dates ("due at Lecture 8") replaced likewise."""
    return [_on_class_day(draft, days) if len(days) >= LEAST_CLASSES else draft for draft in drafts]


def _on_class_day(draft: Draft, days: Mapping[int, DateExpression]) -> Draft:
    mention = draft.mention
    if mention.phrase.expression is None:
        return draft
    found = with_parts(mention.phrase.expression, lambda part: _day_of(part, days))
    if found == mention.phrase.expression:
        return draft
    changed = replace(mention, phrase=replace(mention.phrase, expression=found))
    return replace(draft, item=replace(draft.item, mentions=(changed,)))


def _day_of(part: DateExpression, days: Mapping[int, DateExpression]) -> DateExpression:
    is_class = isinstance(part, MeetingNumber) and part.kind in _ANY_CLASS
    return days.get(part.number, part) if is_class and isinstance(part, MeetingNumber) else part
