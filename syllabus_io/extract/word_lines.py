"""Lines made of the pieces of a paragraph: one line for each line break, blanks joined, emphasis summed up."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from syllabus_io.extract.document import Line, Part
from syllabus_io.extract.word_numbering import BULLET, ListMark
from syllabus_io.extract.word_styles import ParagraphFormat
from syllabus_io.extract.word_text import Piece
from syllabus_io.provenance import Place

__all__ = ["DraftLine", "draft_lines"]

TAB_POINTS = 36.0
"""The distance of tab stops where none are set: ECMA-376 part 1, section 17.15.1.25."""
BLANK_SHARE = 0.25
"""Width of a blank as a share of the type size, near enough for the usual faces."""

MAX_HEADING_CHARACTERS = 120
MAX_HEADING_WORDS = 12

TYPED_BULLET = re.compile(r"(?:[•●▪■◦○‣∙·❖➢➔✓✗□☐–—*-]|o(?=\t))\s+(?=\S)")
TYPED_NUMBER = re.compile(r"(?:\(?(?:\d{1,2}|[A-Za-z]|[ivx]{2,5})[.)])\t\s*(?=\S)")
COLUMN_GAP = re.compile(r"\s*\t[\s\t]*|\s{5,}")


@dataclass(frozen=True, slots=True)
class DraftLine:
    """A line, with what is needed to judge it among its neighbours: underlining, its parts between gaps of tabs or
    blanks, and its parts between single tabs, of which some may be empty."""

    line: Line
    underlined: bool = False
    columns: tuple[str, ...] = ()
    tabbed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Run:
    """Characters of the joined text from ``start``, with the piece they came from."""

    start: int
    text: str
    piece: Piece


def draft_lines(pieces: Sequence[Piece], form: ParagraphFormat, mark: ListMark | None, place: Place) -> list[DraftLine]:
    """The lines of one paragraph; ``place`` is where it begins, its page None when pages are not known."""
    drafts: list[DraftLine] = []
    gap = form.before
    for segment in _segments(pieces):
        draft = _draft(segment, form, None if drafts else mark, replace(place))
        if draft is None:
            continue
        drafts.append(replace(draft, line=replace(draft.line, gap=gap)))
        gap = 0.0
    if not drafts and mark is not None and mark.text != BULLET and mark.text:
        # an empty numbered paragraph still shows its number: the first column of many schedules
        drafts.append(DraftLine(Line(mark.text.rstrip("."), place, gap=gap)))
    return drafts


def _segments(pieces: Sequence[Piece]) -> list[list[Piece]]:
    segments: list[list[Piece]] = [[]]
    for piece in pieces:
        first, *others = piece.text.split("\n")
        segments[-1].append(replace(piece, text=first))
        segments.extend([replace(piece, text=other)] for other in others)
    return segments


def _draft(segment: list[Piece], form: ParagraphFormat, mark: ListMark | None, place: Place) -> DraftLine | None:
    raw = "".join(piece.text for piece in segment)
    if not raw.strip():
        return None
    marker, taken = _typed_marker(raw, mark)
    runs = _joined(segment, taken)
    text = "".join(run.text for run in runs).rstrip()
    if not text:
        return None
    if mark is not None and mark.worded:
        text, runs = f"{mark.text} {text}", _shifted(runs, len(mark.text) + 1)
    letters = Counter[str]()
    sizes = Counter[float]()
    for run in runs:
        count = len("".join(run.text.split()))
        look = run.piece.look
        sizes[look.size] += count
        letters.update({"all": count, "bold": look.bold * count, "italic": look.italic * count})
        letters["underlined"] += look.underlined * count
    level = _level(form, marker, text)
    bold = letters["bold"] * 2 > letters["all"]
    line = Line(
        text=text,
        place=replace(place, page=None if place.page is None else runs[0].piece.page),
        marker=marker,
        level=level,
        depth=0 if level else form.list_level + 1 if mark is not None else int(bool(marker)),
        indent=_indent(raw, form, mark, sizes.most_common(1)[0][0]),
        size=sizes.most_common(1)[0][0],
        bold=bold,
        italic=letters["italic"] * 2 > letters["all"],
        lead="" if letters["bold"] == letters["all"] else _lead(runs),
        parts=_parts(runs, place),
    )
    columns = tuple(part for part in COLUMN_GAP.split(raw.strip()) if part)
    tabbed = tuple(part.strip() for part in raw.strip(" ").split("\t"))
    return DraftLine(line, letters["underlined"] * 2 > letters["all"], columns, tabbed)


def _typed_marker(raw: str, mark: ListMark | None) -> tuple[str, int]:
    """The bullet or number before the text and how many characters of the raw text it takes."""
    if mark is not None and not mark.worded:
        return mark.text, 0
    lead = len(raw) - len(raw.lstrip())
    for pattern in (TYPED_BULLET, TYPED_NUMBER):
        match = pattern.match(raw, lead)
        if match:
            typed = match[0].strip()
            return (typed if pattern is TYPED_NUMBER else BULLET), match.end()
    return "", 0


def _joined(segment: list[Piece], skip: int) -> list[_Run]:
    """The pieces after the first ``skip`` characters, every run of blanks and tabs made one blank."""
    runs: list[_Run] = []
    length = 0
    blank = True
    for piece in segment:
        text = piece.text[skip:]
        skip = max(0, skip - len(piece.text))
        text = re.sub(r"\s+", " ", text)
        if blank:
            text = text.lstrip()
        if text:
            runs.append(_Run(length, text, piece))
            length += len(text)
            blank = text.endswith(" ")
    return runs


def _shifted(runs: list[_Run], by: int) -> list[_Run]:
    return [replace(run, start=run.start + by if number else 0) for number, run in enumerate(runs)]


def _level(form: ParagraphFormat, marker: str, text: str) -> int:
    """The heading level of the style, 0 where a heading's style was used for its looks on a sentence or a bullet."""
    is_sentence = len(text) > MAX_HEADING_CHARACTERS or (text.endswith(".") and len(text.split()) > MAX_HEADING_WORDS)
    return 0 if marker == BULLET or is_sentence else form.outline_level


def _indent(raw: str, form: ParagraphFormat, mark: ListMark | None, size: float) -> float:
    """Where the text begins: paragraph or list indent, the first line's own shift, typed tabs and blanks."""
    left = form.left or 0.0
    if mark is not None:
        return round(left if form.left_is_own or mark.left is None else mark.left, 1)
    lead = raw[: len(raw) - len(raw.lstrip())]
    typed = lead.count("\t") * TAB_POINTS + lead.count(" ") * BLANK_SHARE * size
    return round(max(0.0, left + (form.first_line or 0.0) + typed), 1)


def _lead(runs: list[_Run]) -> str:
    """The words of the bold run that opens the line; blanks between bold runs do not end it."""
    lead = ""
    for run in runs:
        if run.text.strip() and not run.piece.look.bold:
            break
        lead += run.text
    return lead.strip()


def _parts(runs: list[_Run], place: Place) -> tuple[Part, ...]:
    """Where the line goes over to another page, when it does and pages are known."""
    if place.page is None or runs[0].piece.page == runs[-1].piece.page:
        return ()
    parts: list[Part] = []
    for run in runs:
        if not parts or parts[-1].place.page != run.piece.page:
            parts.append(Part(run.start, replace(place, page=run.piece.page)))
    return tuple(parts)
