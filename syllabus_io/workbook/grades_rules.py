"""What the rules of a grading scheme, kept as sentences, say about the sheet's settings. In doubt they say nothing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from syllabus_io.plan.grades import GradePart, MarkCategory

__all__ = ["find_final", "is_replaced", "parts_of"]

_FINAL = re.compile(r"\b(?:final|semester exam|end[- ]of[- ](?:term|course|semester) (?:exam|test))", re.IGNORECASE)
_NOT_FINAL = re.compile(
    r"\b(?:paper|project|essay|portfolio|presentation|draft|report|reflection|proposal|grade|product|performance)",
    re.IGNORECASE,
)
_REPLACES = re.compile(r"\breplac(?:e|es|ed|ing)\b|\bstands? in\b|\bsubstitut", re.IGNORECASE)
_IF_HIGHER = re.compile(
    r"\bif (?:it|that|this|the|your)?[^.]*\b(?:higher|better|greater|improves?)\b|\bexceeds\b", re.IGNORECASE
)
_ONE_MARK = re.compile(r"\blowest\b|\bworst\b|\bone of\b|\bany one\b|\bone\b[^.]*\bexam\b|\bmissed\b", re.IGNORECASE)
_PERIOD = re.compile(
    r"^(?:(?:first|second|third|fourth|1st|2nd|3rd|4th|[1-4])\s+)?(?:(?:marking|grading|reporting)\s+)?"
    r"(?:quarter|period|trimester|six[- ]weeks|nine[- ]weeks|term)\s*(?:[1-6]|one|two|three|four|I{1,3}|IV)?$|^Q[1-4]$",
    re.IGNORECASE,
)


def find_final(categories: Sequence[str], works: Sequence[str]) -> str:
    """The category that is the final, else the work that is; empty when none or more than one could be meant."""
    for names in (categories, works):
        found = {name for name in names if _FINAL.search(name) and not _NOT_FINAL.search(name)}
        if len(found) == 1:
            return found.pop()
        if found:
            return ""
    return ""


def is_replaced(category: str, final: str, rules: Sequence[str]) -> bool:
    """Whether a rule says that the final stands in for the whole category when it is higher.

    A rule about the lowest mark only, or about a missed one, is left to the reader.
    """
    name = _stem(category)
    for rule in rules:
        says_so = _REPLACES.search(rule) and _IF_HIGHER.search(rule) and _FINAL.search(rule)
        if final and says_so and not _ONE_MARK.search(rule) and re.search(rf"\b{re.escape(name)}", rule.casefold()):
            return True
    return False


def _stem(name: str) -> str:
    word = " ".join(name.casefold().split())
    word = re.sub(r"\s+exams?$", "", word)
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


def parts_of(categories: Sequence[MarkCategory]) -> tuple[tuple[GradePart, ...], list[MarkCategory]]:
    """The parts of a course whose categories are marking periods, and what is a category within each.

    Empty, and the categories as they are, unless at least two of them are named as periods and all have weights.
    """
    usual = [one for one in categories if not one.extra]
    periods = [one for one in usual if _PERIOD.match(one.name.strip())]
    if len(periods) < 2 or len(usual) - len(periods) > 2 or not all(one.weight for one in usual):
        return (), list(categories)
    parts = tuple(GradePart(one.name, one.weight) for one in usual)
    inside = [replace(one, weight=Fraction(1), part=one.name) for one in usual]
    return parts, inside + [replace(one, part=usual[-1].name) for one in categories if one.extra]
