"""All rules of the date language, in the order in which they are preferred, and the grammar made of them."""

from __future__ import annotations

from typing import Final

from syllabus_io.resolve import (
    rules_absolute,
    rules_bounds,
    rules_meeting,
    rules_months,
    rules_never,
    rules_phrase,
    rules_recurring,
    rules_relative,
    rules_span,
    rules_time,
    rules_week,
)
from syllabus_io.resolve.grammar import Grammar
from syllabus_io.resolve.rules import Rule

__all__ = ["GRAMMAR", "NEVER", "PHRASE", "RULES"]

RULES: Final[tuple[Rule, ...]] = (
    *rules_absolute.RULES,
    *rules_week.RULES,
    *rules_meeting.RULES,
    *rules_relative.RULES,
    *rules_span.RULES,
    *rules_time.RULES,
    *rules_recurring.RULES,
    *rules_months.RULES,
    *rules_bounds.RULES,
    *rules_phrase.RULES,
    *rules_never.RULES,
)
GRAMMAR: Final = Grammar(RULES)
#: The slot of whole phrases, and that of numbers that are no dates.
PHRASE: Final = "<phrase>"
NEVER: Final = "<never>"
