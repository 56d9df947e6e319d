"""Makes docs/date-language.md from the rules: ``python -m tests.generators.date_language``."""

from __future__ import annotations

from pathlib import Path

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
from syllabus_io.resolve.parse import parse_phrase
from syllabus_io.resolve.rules import Rule, Scope
from syllabus_io.resolve.words import FOREIGN_MONTHS
from tests.dates.phrase_lists import written

PAGE = Path(__file__).parents[2] / "docs" / "date-language.md"

_HEAD = """# The date language

Every way of writing a date or time that is read, made from the rules themselves; change them there.

A rule's name is what it reads, with slots in angle brackets that other rules fill. The examples are whole phrases in
which the rule has a part; beside the first stands what it says, in the notation of the JSON records: an expression, and
after "@" the time. What an expression comes to is decided by the term: see the types in
`syllabus_io/resolve/expression.py`.

In running text some phrases are too weak to stand for a date by themselves ("Friday", "the 12th", "October", "9:00");
they are read where a table cell or a heading gives them their place, and are marked **weak** below. Those marked
**whole** are only read when nothing else stands beside them.
"""
_SECTIONS: tuple[tuple[str, str, tuple[Rule, ...]], ...] = (
    ("Days that are written out", "", rules_absolute.RULES),
    ("Weeks, and days and parts of them", "", rules_week.RULES),
    ("Classes, the ends of a term, rotating days, holidays", "", rules_meeting.RULES),
    (
        "Days told from other days",
        "Days may also be counted after a thing that no rule knows (“two days after the site visit”): it is looked for "
        "among the items of the outline, and without one the day stays open.",
        rules_relative.RULES,
    ),
    ("Stretches of days", "", rules_span.RULES),
    (
        "Times of day",
        "Without a.m. or p.m. 1:00 to 6:59 is the afternoon. Midnight is kept as such; for a deadline it is the end of "
        "the named day.",
        rules_time.RULES,
    ),
    ("What comes again", "", (*rules_recurring.RULES, *rules_months.RULES, *rules_bounds.RULES)),
    ("Whole phrases", "", rules_phrase.RULES),
    (
        "What is no date",
        "In running text these are passed over: pages, rooms, chapters, scores, fractions, telephone numbers, stamps "
        "and citations.",
        rules_never.RULES,
    ),
)
_LANGUAGES = {"es": "Spanish", "fr": "French", "de": "German", "pt": "Portuguese", "it": "Italian"}
_MARKS = {Scope.ANY: "", Scope.WEAK: " **weak**", Scope.WHOLE: " **whole**"}


def make_page() -> str:
    """The page's text."""
    parts = [_HEAD]
    for title, remark, rules in _SECTIONS:
        parts.append(f"\n## {title}\n\n" + (f"{remark}\n\n" if remark else ""))
        parts.append("| rule | examples | the first says |\n|---|---|---|\n")
        parts += [_row(rule) for rule in rules]
    named = ", ".join(_LANGUAGES[code] for code in FOREIGN_MONTHS)
    parts.append(
        "\n## Other languages\n\nA phrase with a month or weekday word of another language is turned into English "
        f"words by the `dateparser` library and then read by the rules above. Tested: {named}.\n"
    )
    return "".join(parts)


def _row(rule: Rule) -> str:
    examples = "; ".join(f"“{_escaped(example)}”" for example in rule.examples[:4])
    phrase = parse_phrase(rule.examples[0])
    says = f"`{_escaped(written(phrase))}`" if phrase is not None and rule.gives != "<never>" else "–"
    return f"| `{_escaped(rule.name)}`{_MARKS[rule.scope]} | {examples} | {says} |\n"


def _escaped(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


if __name__ == "__main__":
    PAGE.write_text(make_page(), encoding="utf-8")
