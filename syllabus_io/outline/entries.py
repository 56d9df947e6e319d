"""Splitting a cell or block into its entries: one for each thing it names, wrapped lines put together again."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

from syllabus_io.extract.document import Line
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.phrases import dated_phrases
from syllabus_io.outline.work_words import find_heads, word_set

__all__ = ["DAY_LABEL", "Entry", "split_entries"]

_STARTS_AS_CONTINUATION = re.compile(
    r"^(?:[a-z(&+,.;:–—-]|due\b|by\b|on\b|at\b|through\b|until\b|and\b|or\b|p?pp?\.|\d{1,2}(?::\d\d)?\s*(?:am|pm|a\.m|p\.m))",
    re.IGNORECASE,
)
_STARTS_WITH_SMALL = re.compile(r"^(?:[a-z]|[(&+,;:–—])")
_DUE_OPENS = re.compile(
    r"^\W*(?:due|deadline|submit(?:ted)? by|turn(?:ed)? in by|assigned|posted|opens?|closes?|available|"
    r"handed out)\b(?!.*\w+\s+due\b)",
    re.IGNORECASE,
)
_DUE_LABEL = re.compile(r"^\W*(?:due|submit|turn in|hand in)\s*:\s*(?=[A-Z])", re.IGNORECASE)
_LIST_NUMBER = re.compile(r"^\s*(?:\(?\d{1,2}[.)]|\([a-z]\)|[a-h][.)])\s*(?=[A-Za-z“\"])")
_GOVERNS = re.compile(r"\b(?:due|by|deadline|no later than)\b[^.;]{0,12}$", re.IGNORECASE)
_DUE_RUNS_ON = re.compile(
    r"\b(?P<due>due(?:\s*\((?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\))?(?:\s+by\s+[\d:]+\s*[ap]\.?m\.?)?"
    r"|by\s+[\d:]+\s*[ap]\.?m\.?)\s+(?=[A-Z])",
    re.IGNORECASE,
)
_GOES_ON_AFTER_MARK = re.compile(
    r"^\s*(?:(?:and\s+)?closes?\b|ch(?:apters?|s)?\.?\s*\d|pp?\.|§|\d[\d\s,.–-]*(?:$|\)))", re.IGNORECASE
)
_ENDS_OPEN = re.compile(
    r"(?:[,&/(:+–—-]|\b(?:and|or|of|the|a|an|for|to|in|on|by|at|due|with|from|your|chapters?|ch\.?|pp?\.?))\s*$",
    re.IGNORECASE,
)
_LABEL_LEFT = re.compile(
    r"(?:^|;)\s*(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\.?:\s*$", re.IGNORECASE
)
"""A weekday whose entry stands on the next line ("…; Fri:")."""
_STEPS = word_set("draft drafts outline proposal report presentation revision review version part")
_BULLET = re.compile(r"^\s*(?:[•●▪◦○■□‣⁃*·]|[-–—]\s|\(?\d{1,2}[.)]\s|\(?[a-h][.)]\s)")

DAY_LABEL = re.compile(
    r"^\W*((?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?)\.?\s*(?::|\s[–—-]\s|[–—])\s*"
    r"(?!\d|(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\b)(?=\S)",
    re.IGNORECASE,
)
"""A weekday that opens an entry as its label ("Wed: Quiz 1"), not one that opens a date."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a passage: its text on one line, and where it stands in the passage's text."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class _Row:
    text: str
    start: int
    line: Line | None


def split_entries(passage: Passage) -> tuple[Entry, ...]:
    """The entries of a passage in order: split at blank lines, bullets, meant line breaks and semicolons."""
    rows = _rows(passage)
    groups: list[list[_Row]] = []
    for row in rows:
        if not row.text.strip():
            groups.append([])
            continue
        if groups and groups[-1] and _goes_on(groups[-1], row):
            groups[-1].append(row)
        else:
            groups.append([row])
    merged = _attach_due_lines([group for group in groups if group])
    entries: list[Entry] = []
    for group in merged:
        text, start = passage.text, group[0].start
        end = group[-1].start + len(group[-1].text)
        for piece in _split_marks(text[start:end], start):
            entries.extend(part for due in _split_dues(piece) for part in _split_dates(due))
    return tuple(entries)


def _rows(passage: Passage) -> list[_Row]:
    rows: list[_Row] = []
    offset = 0
    texts = passage.text.split("\n")
    lines = passage.lines if len(passage.lines) == len(texts) else ()
    for number, text in enumerate(texts):
        line = lines[number] if lines else None
        cuts = _new_works(line) if line is not None and line.text == text and passage.role is not None else []
        for begin, end in pairwise([0, *cuts, len(text)]):
            rows.append(_Row(text[begin:end].rstrip(), offset + begin, line if begin == 0 else None))
        offset += len(text) + 1
    return rows


def _new_works(line: Line) -> list[int]:
    """Where printed lines open the next numbered work of a cell, though the line above them is full: "Field notes"
    above "Reflection 1", "Quiz 2 (Wed)" above "Thu: Essay 1 is due"."""
    starts = [*(part.start for part in line.parts), len(line.text)]
    cuts: list[int] = []
    for begin, start, end in zip(starts, starts[1:], starts[2:], strict=False):
        before, printed = line.text[begin:start].strip(), line.text[start:end]
        label = DAY_LABEL.match(printed)
        heads = find_heads(printed[label.end() :] if label else printed)
        is_work = bool(heads) and heads[0].start == 0 and (bool(heads[0].number) or label is not None)
        if is_work and heads[0].word.lower() not in _STEPS and (label or _is_whole(before)):
            cuts.append(start)
    return cuts


def _is_whole(text: str) -> bool:
    """Whether a printed line names a work to its end, or says when it is due."""
    heads = [head for head in find_heads(text) if not head.is_weak or head.number]
    if not heads or _ENDS_OPEN.search(text):
        return False
    rest = text[heads[-1].end :]
    return (
        re.fullmatch(r"\W*(?:\([^()]*\)\W*)?", rest) is not None or _GOVERNS.search(text) is not None or "due" in rest
    )


def _goes_on(group: list[_Row], row: _Row) -> bool:
    if (row.line is not None and row.line.marker) or _BULLET.match(row.text) or DAY_LABEL.match(row.text):
        return False
    so_far = " ".join(part.text for part in group)
    text = row.text.strip()
    if re.search(r"\w\W+due\W*$", so_far) and _opens_with_work(text):
        return False  # "HW 5 due", then "Quiz 3" on a line of its own
    if _LABEL_LEFT.search(so_far):
        return True
    if _DUE_LABEL.match(text) and find_heads(text) and find_heads(so_far):
        return False  # "Due: Homework 4", then "Due: Homework 5"
    if _STARTS_WITH_SMALL.match(text) or _DUE_OPENS.match(text) or _ENDS_OPEN.search(so_far):
        return True
    return _opens_with_date(text) and not _is_finished(so_far)


def _opens_with_work(text: str) -> bool:
    heads = find_heads(text)
    return bool(heads) and heads[0].start == 0 and (not heads[0].is_weak or bool(heads[0].number))


def _opens_with_date(text: str) -> bool:
    phrases = dated_phrases(text)
    return bool(phrases) and not re.search(r"\w", text[: phrases[0].start]) and len(text) - phrases[0].end < 14


def _is_finished(text: str) -> bool:
    """Whether an entry already holds its due date: what follows is the next one."""
    return bool(re.search(r"\b(?:due|by|deadline)\b", text, re.IGNORECASE)) and bool(dated_phrases(text))


def _attach_due_lines(groups: list[list[_Row]]) -> list[list[_Row]]:
    """A due line belongs to the last thing named above it, over remarks that stand between."""
    merged: list[list[_Row]] = []
    for group in groups:
        text = " ".join(row.text for row in group)
        if merged and re.search(r"^(?!\s*due\b).*\bdue date\b", text, re.IGNORECASE) and not find_heads(text):
            back = len(merged) - 1
            while back >= 0 and not find_heads(" ".join(row.text for row in merged[back])):
                back -= 1
            if back >= 0 and not dated_phrases(" ".join(row.text for row in merged[back])):
                joined = [row for part in merged[back:] for row in part]
                merged[back:] = [[*joined, *group]]
                continue
        merged.append(group)
    return merged


def _split_dues(entry: Entry) -> list[Entry]:
    """An entry cut where a due work is followed by the next one without a mark: "Essay 2 due Quiz 3 (Thu)"."""
    pieces: list[Entry] = []
    begin = 0
    for match in _DUE_RUNS_ON.finditer(entry.text):
        before, behind = entry.text[begin : match.end("due")], entry.text[match.end() :]
        label = DAY_LABEL.match(behind)
        if find_heads(before) and _opens_with_work(behind[label.end() :] if label else behind):
            pieces.append(Entry(before.strip(), entry.start + begin, entry.start + match.end("due")))
            begin = match.end()
    pieces.append(Entry(entry.text[begin:].strip(), entry.start + begin, entry.end))
    return pieces


def _split_dates(entry: Entry) -> list[Entry]:
    """An entry cut behind each due date that more text follows: "Quiz 1 due May 3 Essay 2 due May 5"."""
    text = entry.text
    governed = [p for p in dated_phrases(text) if _GOVERNS.search(text[: p.start])]
    if len(governed) < 2:
        return [entry]
    pieces: list[Entry] = []
    begin = 0
    for phrase in governed[:-1]:
        after = re.match(r"[\s).,;]*(?:\(\s*[\d:]+\s*[ap]\.?m\.?\s*\))?[\s).,;]*", text[phrase.end :])
        end = phrase.end + (after.end() if after else 0)
        if re.match(r"[A-Z\d#]", text[end:]) and len(text[end:].split()) > 1:
            pieces.append(Entry(text[begin:end].strip(), entry.start + begin, entry.start + end))
            begin = end
    pieces.append(Entry(text[begin:].strip(), entry.start + begin, entry.end))
    return pieces


def _split_marks(text: str, start: int) -> list[Entry]:
    pieces: list[Entry] = []
    depth, begin = 0, 0
    for position, mark in enumerate(text):
        depth += (mark in "([") - (mark in ")]")
        if (mark == ";" and depth <= 0 and not _GOES_ON_AFTER_MARK.match(text[position + 1 :])) or mark in "•●▪":
            pieces.append(_entry(text, begin, position, start))
            begin = position + 1
    pieces.append(_entry(text, begin, len(text), start))
    return [piece for piece in pieces if re.search(r"\w", piece.text)]


def _entry(text: str, begin: int, end: int, offset: int) -> Entry:
    piece = text[begin:end]
    marker = _LIST_NUMBER.match(piece)
    left = marker.end() if marker else len(piece) - len(piece.lstrip())
    piece = piece[left:] if marker else piece
    return Entry(" ".join(piece.split()), offset + begin + left, offset + end)
