"""Rules that belong to text: those that strike letters out, and those that underline them."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from syllabus_io.extract.pdf_marks import Glyph, Rule

__all__ = ["mark_struck"]

LOWEST_STRIKE_SHARE = 0.12
HIGHEST_STRIKE_SHARE = 0.42
"""A rule that strikes letters out runs at such a height above their baseline, as a share of their size."""
THICKEST_SHARE = 0.16
COVERED_SHARE = 0.55
"""The letters on a rule that strikes out or underlines take up this share of its length."""
OVERHANG_SHARE = 0.6
"""Such a rule ends no farther than this share of the size beyond its letters."""
UNDERLINE_SHARE = 0.3
"""An underline runs no farther than this share of the size below the baseline."""


def mark_struck(glyphs: Sequence[Glyph], across: Sequence[Rule]) -> tuple[list[Glyph], list[Rule]]:
    """The letters, those struck through marked so, and the rules that neither strike through nor underline."""
    places = sorted(range(len(glyphs)), key=lambda number: glyphs[number].base)
    bases = [glyphs[number].base for number in places]
    struck: set[int] = set()
    rules = []
    for rule in across:
        near = [
            number
            for number in places[bisect_left(bases, rule.at - 8) : bisect_right(bases, rule.at + 24)]
            if rule.start - 1 <= (glyphs[number].left + glyphs[number].right) / 2 <= rule.end + 1
        ]
        through = [number for number in near if _runs_through(rule, glyphs[number])]
        under = [
            glyphs[number]
            for number in near
            if -0.5 <= rule.at - glyphs[number].base <= UNDERLINE_SHARE * glyphs[number].size
        ]
        if _fits([glyphs[number] for number in through], rule):
            struck.update(through)
        elif not (_fits(under, rule) and _ends_with(under, rule)):
            rules.append(rule)
    marked = [glyph._replace(struck=True) if number in struck else glyph for number, glyph in enumerate(glyphs)]
    return marked, rules


def _runs_through(rule: Rule, glyph: Glyph) -> bool:
    height = glyph.base - rule.at
    return (
        LOWEST_STRIKE_SHARE * glyph.size <= height <= HIGHEST_STRIKE_SHARE * glyph.size
        and rule.thickness <= THICKEST_SHARE * glyph.size
        and glyph.text not in "-–—−_=~≈·"
    )


def _fits(glyphs: Sequence[Glyph], rule: Rule) -> bool:
    """Whether the letters fill the rule and the rule ends where they end."""
    letters = [glyph for glyph in glyphs if not glyph.text.isspace()]
    if len(letters) < 2:
        return False
    size = max(glyph.size for glyph in letters)
    covered = sum(glyph.right - glyph.left for glyph in letters)
    return (
        covered >= COVERED_SHARE * (rule.end - rule.start)
        and min(glyph.left for glyph in letters) - rule.start <= OVERHANG_SHARE * size
        and rule.end - max(glyph.right for glyph in letters) <= OVERHANG_SHARE * size
    )


def _ends_with(glyphs: Sequence[Glyph], rule: Rule) -> bool:
    """Whether the rule begins and ends at the letters' own ends: an underline and not the rule of a table."""
    left, right = min(glyph.left for glyph in glyphs), max(glyph.right for glyph in glyphs)
    return abs(left - rule.start) <= 1.5 and abs(right - rule.end) <= 1.5
