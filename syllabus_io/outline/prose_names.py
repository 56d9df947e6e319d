"""Names that running text gives work: the lead of a paragraph, the name of a list entry, the steps of a project."""

from __future__ import annotations

import re

from syllabus_io.outline.clauses import is_lead
from syllabus_io.outline.items import title_words
from syllabus_io.outline.records import Kind
from syllabus_io.outline.titles import singular, tidy_title
from syllabus_io.outline.work_words import Head, find_heads, word_set

__all__ = ["full_title", "is_step", "lead_of", "within_entry", "without_count"]

_LEAD = re.compile(r"^\s*([A-Z][^.:;()]{2,45})(?::(?!\d)|\.\s+(?=[A-Z]))")
_ENTRY_NAME = re.compile(r"^\W*([A-Z][^(–—:;.]{3,50}?)\s*(?:\([^)]*(?:%|points?|pts)[^)]*\)|\s[–—-]\s|:(?!\d))")
_COUNT = re.compile(r"^\W*(?:two|three|four|five|six|seven|eight|nine|ten|\d{1,2})\s+(?=[A-Za-z])", re.IGNORECASE)
_STAGES = word_set("proposal draft outline bibliography abstract revision presentation report prospectus")


def lead_of(text: str) -> re.Match[str] | None:
    """The name a paragraph opens with; None where it opens with a sentence."""
    match = _LEAD.match(text)
    return match if match is not None and is_lead(match[1]) else None


def without_count(title: str) -> str:
    """A title without the number of works it opens with ("Two essays": essays)."""
    return _COUNT.sub("", title)


def is_step(title: str, head: Head) -> bool:
    """Whether a title is that of a step of a project: its name, then the step ("Data project report")."""
    return head.kind is Kind.ASSIGNMENT and any(one.kind is Kind.PROJECT for one in find_heads(title)[:1])


def within_entry(title: str, text: str) -> str:
    """A bare title with the name of its list entry ("Term paper (35%) – proposal due …": Term paper proposal)."""
    entry = _ENTRY_NAME.match(text)
    if entry is None or len(title.split()) > 1 or not find_heads(entry[1]):
        return title
    name = tidy_title(without_count(tidy_title(entry[1])))
    words = title_words(title)
    if words <= title_words(name):
        return name
    return f"{name} {singular(title.lower())}" if words <= _STAGES else title


def full_title(title: str) -> str:
    return "Final exam" if title.lower() in ("final", "the final") else title
