"""Readings tied to a date: reading columns, "Read" lines, chapters named in a topic column."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from syllabus_io.outline.day_labels import labelled_entries
from syllabus_io.outline.entries import Entry
from syllabus_io.outline.entry_dates import Reading, read_date
from syllabus_io.outline.frames import Passage
from syllabus_io.outline.headings import ColumnRole
from syllabus_io.outline.phrases import phrases_in
from syllabus_io.outline.records import Item, Kind, Mention
from syllabus_io.outline.text_names import texts_cited
from syllabus_io.outline.titles import entry_title, tidy_title
from syllabus_io.outline.work_words import find_heads, mentions_due

__all__ = ["read_readings"]

_READ = re.compile(
    r"^\W*(?:please\s+)?(?:required\s+)?read(?:ings?)?(?:\s+assignments?)?\b"
    r"(?!\s+(?:log|response|journal|quiz|reflection|report|notes|guide|questions?|summar))\s*[:.–—-]?\s*",
    re.IGNORECASE,
)
_ABOUT_READING = re.compile(
    r"^\W*(?i:reading)\s+(?!(?:ch|chs|chap|chapters?|pp?|pages?|secs?|sections?|parts?|assignments?|due|for|from|by|to|"
    r"in|is|of|up|no)\b)[a-z]"
)
"""What a class is about ("Reading a map closely"): the word goes on in a sentence, and names no text."""
_READ_INSIDE = re.compile(
    r"(?:[.;,]|\s[–—-])\s+(?:required\s+)?readings?\s*:\s*"
    r"|\(\s*(?:please\s+)?read:?\s+(?!by\b|before\b|for\b|in class)(?=[^()]+\))"
    r"|(?:[.;]|(?<=[a-z?!])(?=\s+(?-i:Read)\s))\s+(?:please\s+)?read\s+(?=(?:ch|pp?|chapters?|pages?|sections?|secs?|articles?)\b|[\d§“\"]|(?-i:[A-Z]))",
    re.IGNORECASE,
)
_CHAPTER = re.compile(r"\b(?:ch(?:apter|apters|s)?\.?\s*\d|pp?\.\s*\d|pages\s+\d)|§", re.IGNORECASE)
_WEEKDAY_NOTE = re.compile(r"\s*\((?:by |for )?(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?\)", re.IGNORECASE)
_EMPTY = re.compile(
    r"^\W*(?:none|n/?a|tba|tbd|no readings?\b.*|no class\b.*|.*\b(?:break|recess)\b.*|study for\b.*|prepare\b.*|"
    r"exam.*|handouts?)?\W*$",
    re.IGNORECASE,
)
LONGEST_READING = 160


def read_readings(passage: Passage, reading: Reading) -> Iterator[Item]:
    """The readings of a passage that has a date."""
    if not passage.frame.is_dated or passage.role is ColumnRole.ASSIGNED:
        return
    in_column = passage.role is ColumnRole.READING
    goes_on = False
    for entry, framed in labelled_entries(passage):
        text = entry.text
        opened = (None if _ABOUT_READING.match(text) else _READ.match(text)) or _READ_INSIDE.search(text)
        goes_on = bool(opened) or (goes_on and passage.text[: entry.start].rstrip().endswith(";"))
        if not in_column and (cited := texts_cited(text, reading.texts)):
            yield from _cited(cited, entry, framed, reading)
            continue
        if not in_column and not goes_on and not (passage.role is ColumnRole.TOPIC and _is_chapter(text)):
            continue
        if _EMPTY.match(text) or (mentions_due(text) and not opened):
            continue
        heads = [head for head in find_heads(text) if not head.is_weak]
        if heads and not _CHAPTER.search(text):
            continue
        title = _title(text, opened, passage.heading)
        if not re.search(r"\w", title):
            continue
        dated = read_date(text, entry, framed, reading)
        if dated is None:
            continue
        phrase, _ = dated
        place = passage.place_of(entry.start, entry.end)
        mention = Mention(phrase, place, phrase.text, " ".join(text.split()), passage.frame.row)
        yield Item(Kind.READING, title, (mention,))


def _cited(places: Sequence[tuple[int, int]], entry: Entry, passage: Passage, reading: Reading) -> Iterator[Item]:
    """The readings of an entry that cites the books of the course by their short names."""
    dated = read_date(entry.text, entry, passage, reading)
    for start, end in places if dated is not None else ():
        assert dated is not None  # nothing is cited without it
        words = entry.text[start:end].strip(" ,;&")
        place = passage.place_of(entry.start + start, entry.start + end)
        mention = Mention(dated[0], place, dated[0].text, " ".join(entry.text.split()), passage.frame.row)
        yield Item(Kind.READING, words, (mention,))


def _is_chapter(text: str) -> bool:
    match = _CHAPTER.search(text)
    return bool(match) and match is not None and match.start() < 25 and not find_heads(text[: match.start()])


def _title(text: str, opened: re.Match[str] | None, heading: str) -> str:
    body = text[opened.end() :] if opened else text
    if opened and opened[0].startswith("("):
        body = body.split(")")[0]
    if opened and re.fullmatch(r"\W*\d{0,2}\W*", body):
        return tidy_title(text)
    body = entry_title(
        body, [(phrase.start, phrase.end) for phrase in phrases_in(body) if phrase.expression is not None]
    )
    body = _WEEKDAY_NOTE.sub("", body)
    if not re.sub(r"\b(?:read|before|by|for)\b|\W", "", body, flags=re.IGNORECASE):
        return "Reading"
    body = re.sub(r"^for\s+(?:next\s+)?(?:day|class|week)\s*\d*\s*", "", body, flags=re.IGNORECASE)
    title = tidy_title(body)
    plain = re.sub(r"\([^)]*\)", "", heading).strip()
    if re.fullmatch(r"[\d\s,&.–-]+", title) and re.search(r"[A-Za-z]", plain):
        title = f"{plain} {title}"
    return title[:LONGEST_READING]
