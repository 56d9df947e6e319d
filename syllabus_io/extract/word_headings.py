"""Headings that no style names: short lines that are larger, bold, underlined or in capitals throughout."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from syllabus_io.extract.document import Line
from syllabus_io.extract.word_blocks import Draft
from syllabus_io.extract.word_lines import DraftLine

__all__ = ["with_headings"]

MAX_CHARACTERS = 80
MAX_WORDS = 12
LARGER = 1.1
"""How much larger than the body a line must be set to be a heading for its size alone."""
MAX_LEVEL = 9

LABELLED = re.compile(r":\s+\S")
NUMBERED = re.compile(r"[^\W\d_]+ (?:\d+|[IVXivx]+)\s*:")
"""A label that counts ("Unit 3: ...") opens a part; any other label ("Office: ...") stands before its value."""


def with_headings(blocks: Sequence[Draft]) -> list[Draft]:
    """The blocks with a heading level on every line that looks like a heading.

    Levels that styles give are kept. Larger type ranks above smaller, and both above bold or underlined lines of
    body size; a heading by looks never ranks above a styled one that is set in larger type.
    """
    lines = [block for block in blocks if isinstance(block, DraftLine)]
    body = _body_size(lines)
    candidates = [draft for draft in lines if not draft.line.level and _is_heading(draft, body)]
    larger = sorted({size for draft in candidates if (size := draft.line.size) >= body * LARGER}, reverse=True)
    styled = {
        level: max(draft.line.size for draft in lines if draft.line.level == level)
        for level in {draft.line.level for draft in lines}
        if level
    }

    def level(draft: DraftLine) -> int:
        size = draft.line.size
        rank = larger.index(size) + 1 if size in larger else len(larger) + 1
        above = max((number for number, styled_size in styled.items() if styled_size > size), default=0)
        return min(MAX_LEVEL, max(rank, above + 1))

    chosen = {id(draft) for draft in candidates}
    return [
        replace(block, line=replace(block.line, level=level(block)))
        if isinstance(block, DraftLine) and id(block) in chosen
        else block
        for block in blocks
    ]


def _body_size(lines: Sequence[DraftLine]) -> float:
    letters = Counter[float]()
    for draft in lines:
        letters[draft.line.size] += len(draft.line.text)
    return letters.most_common(1)[0][0] if letters else 0.0


def _is_heading(draft: DraftLine, body: float) -> bool:
    line = draft.line
    text = line.text.rstrip(":").strip()
    if not text or len(text) > MAX_CHARACTERS or len(text.split()) > MAX_WORDS or not any(map(str.isalpha, text)):
        return False
    if line.depth and not (line.bold and line.marker[:1].isalnum()):
        return False
    if text[-1] in ".,;?!" or len(draft.columns) > 1:
        return False
    if line.size >= body * LARGER:
        return True
    if LABELLED.search(text) and not NUMBERED.match(text):
        return False
    return line.bold or draft.underlined or _is_capitals(line)


def _is_capitals(line: Line) -> bool:
    """Whether a line is set in capitals: two words of letters at least, so that no course code or name passes."""
    words = [word for word in re.findall(r"[^\W\d_]+", line.text) if len(word) > 2]
    return len(words) > 1 and line.text == line.text.upper() and not any(map(str.isdigit, line.text))
