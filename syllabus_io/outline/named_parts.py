"""Parts of one work with a day each, behind its name and a colon: "DB 1: post Wed 6/11, replies Sun 6/15"."""

from __future__ import annotations

import re

from syllabus_io.outline.entries import Entry
from syllabus_io.outline.phrases import phrases_in

__all__ = ["named_parts"]

LONGEST_NAME = 40
MOST_WORDS = 6
_NAME = re.compile(rf"\s*(?P<name>[A-Za-z][^:;,]{{1,{LONGEST_NAME}}}):\s+")
_BETWEEN = re.compile(r"\s*(?:[,;]\s*(?:and\s+)?|\band\b\s+)(?=[A-Za-z])", re.IGNORECASE)
_BEFORE_DAY = re.compile(r"[\s,(–—-]*(?:\b(?:due|on|by|is|are)\b\s*)*$", re.IGNORECASE)


def named_parts(entry: Entry) -> tuple[Entry, ...]:
    """The parts of an entry, each under the name of the whole; the entry itself when it is not such a list."""
    match = _NAME.match(entry.text)
    if match is None:
        return (entry,)
    parts: list[Entry] = []
    begin = match.end()
    for phrase in phrases_in(entry.text, weak=True):
        if phrase.expression is None or phrase.start < begin:
            continue
        words = _BEFORE_DAY.sub("", entry.text[begin : phrase.start])
        if not re.search(r"[A-Za-z]{3}", words) or len(words.split()) > MOST_WORDS or re.search(r"[:.;]", words):
            return (entry,)
        behind = _BETWEEN.match(entry.text, phrase.end)
        end = phrase.end if behind is not None else len(entry.text)
        text = f"{match['name'].strip()}: {entry.text[begin:end].strip()}"
        parts.append(Entry(text, entry.start + begin, entry.start + end))
        begin = behind.end() if behind is not None else len(entry.text)
    if len(parts) < 2 or begin < len(entry.text):
        return (entry,)
    return tuple(parts)
