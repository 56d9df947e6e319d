"""Lists of key dates set in a narrow column, where the end of one entry and the next stand on one line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.phrases import phrases_in

__all__ = ["key_date_entries"]

_NEXT_NAME = re.compile(r"\s+(?=[A-Z][\w'’-]*(?:\s+[\w'’(-]+){0,8}\W*\s*)")
_DAY_NAME = re.compile(
    r"\s+(?:mon|tue|wed|thu|fri|sat|sun|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b", re.IGNORECASE
)


def key_date_entries(passage: Passage) -> Iterator[Passage]:
    """The entries of a line in a list of key dates, cut behind each date that another name with a date follows."""
    if section_kind(passage.section) is not SectionKind.KEY_DATES or passage.frame.is_dated:
        yield passage
        return
    text = passage.text
    phrases = phrases_in(text)
    dated = [phrase for phrase in phrases if phrase.expression is not None]
    cuts = []
    for phrase, following in pairwise(dated):
        end = max(one.end for one in phrases if phrase.start <= one.start < following.start)
        between = text[end : following.start]
        if _NEXT_NAME.match(between) and not _DAY_NAME.match(between) and text[phrase.end : end].count("(") == 0:
            cuts.append(end)
    for begin, end in pairwise([0, *cuts, len(text)]):
        part = text[begin:end]
        start = begin + len(part) - len(part.lstrip())
        if not cuts:
            yield passage
        else:
            place = passage.place_of(start, end)
            yield replace(passage, text=part.strip(), place=place, lines=(), grown=(), written="")
