"""Printed lines put together to paragraphs, list entries and headings."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from syllabus_io.extract.document import Line, Part
from syllabus_io.extract.pdf_words import PrintedLine, Word, standing_lines
from syllabus_io.extract.tidy import join_wrapped, split_marker, tidy_text
from syllabus_io.provenance import Place, union

__all__ = ["BodyText", "Flow", "body_text", "paragraphs"]

SAME_SIZE_POINTS = 0.6
SAME_LEFT_POINTS = 3.0
FIRST_INDENT_POINTS = 48.0
"""A paragraph's first line is indented, or its other lines hang, by no more than this."""
NEW_PARAGRAPH_SHARE = 1.25
"""A line farther below the one above than this share of the usual distance begins a new paragraph."""
AFTER_SENTENCE_SHARE = 1.08
"""Behind the end of a sentence so little more is enough."""
LOOSE_SHARE = 1.85
"""Lines set farther apart than this share of their size are entries of their own, unless they go on in lower case."""
BLANK_SHARE = 0.28
FIT_SLACK_SHARE = 0.35
"""A word that had room behind the line above, this share of the size to spare, begins a new line on purpose."""
JUSTIFIED_LETTERS = 45
NARROW_SHARE = 24.0
"""A column no wider than this share of the type size is narrow ..."""
FULL_SHARE = 0.8
"""... and a line that fills less than this share of it ends early."""
SET_OFF_SHARE = 2.0
"""Type sizes between the beginning of an entry and the words that a tab sets off from it."""
BOLD_SHARE = 0.9
HEADING_SIZE_SHARE = 1.12
LONGEST_HEADING = 110
HIGHEST_LEVELS = 4

MONTHS = r"jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec"
OPENING = re.compile(
    rf"""(?:
        (?:mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun)(?:day|sday|nesday|rsday|urday)?s?\b
      | (?:{MONTHS})[a-z]*\.?\s+\d{{1,2}}
      | \d{{1,2}}\.?\s+(?:{MONTHS})
      | \d{{1,2}}[/.]\d{{1,2}}(?:[/.]\d{{2,4}})?\b
      | \d{{4}}-\d{{2}}-\d{{2}}
      | (?:week|day|class|lecture|session|module|unit|lab|meeting|chapter|part)\s+\#?\d+
    )""",
    re.IGNORECASE | re.VERBOSE,
)
LABEL = re.compile(r"^[A-Z(][\w’'&/ ()-]{0,34}:(?:\s|$)")
CONNECTIVE = re.compile(r"\b(?:of|the|and|or|to|for|in|an|with|by|from|at)$")
OPEN_DATE = re.compile(r"\b(?:due|on|by|and|or|before|until|from|to|the)$|[,(–—-]$", re.IGNORECASE)
"""The end of a line that a date goes on with."""
LEADERS = re.compile(r"(?:\.\s?){5,}|…{2,}|(?:_\s?){5,}")
"""Dots that lead from an entry to what belongs to it."""
SENTENCE_END = re.compile(r"[.!?:;][\"”’)\]]*$")


@dataclass(frozen=True, slots=True)
class BodyText:
    """What is usual in a document: its type size, the sizes of its headings (largest first), its words.

    ``leading`` is the smallest distance in points between baselines that recurs in type of that size, 0 if none does.
    """

    size: float
    heading_sizes: tuple[float, ...]
    words: frozenset[str]
    leading: float = 0.0


@dataclass(frozen=True, slots=True)
class Flow:
    """Printed lines that follow one another between a left and a right edge, in points.

    ``even`` is where the right margin would be as wide as the left one, 0 where that is of no account (in cells).
    """

    lines: tuple[PrintedLine, ...]
    left: float
    right: float
    even: float = 0.0


def body_text(lines: Sequence[PrintedLine]) -> BodyText:
    """What is usual in all the lines of a document."""
    letters: Counter[float] = Counter()
    lengths: dict[float, list[int]] = {}
    words: set[str] = set()
    for line in lines:
        count = sum(len(word.text) for word in line.words)
        size = round(line.size * 2) / 2
        letters[size] += count
        lengths.setdefault(size, []).append(count)
        words.update(word.text.strip(".,;:!?()[]\"'“”‘’").lower() for word in line.words)
    size = max(letters, key=lambda size: (letters[size], size), default=10.0)
    larger = sorted((other for other in letters if other > HEADING_SIZE_SHARE * size), reverse=True)
    headings = [other for other in larger if sum(lengths[other]) <= LONGEST_HEADING * len(lengths[other])]
    leading = _leadings([line for line in lines if abs(line.size - size) <= SAME_SIZE_POINTS]).get(round(size))
    return BodyText(size, tuple(headings), frozenset(words), leading.tightest if leading else 0.0)


def paragraphs(flow: Flow, place: Place, body: BodyText, *, in_cell: bool = False) -> list[Line]:
    """The paragraphs of a flow. Lines are joined only where the next word did not fit on the line above."""
    lines = standing_lines(flow.lines)
    flow = replace(flow, right=_right_margin(lines, flow))
    leadings = _with_document(_leadings(lines), body)
    groups: list[list[PrintedLine]] = []
    for line in lines:
        goes_on = bool(groups) and _goes_on(groups[-1], line, flow, leadings)
        if goes_on and (in_cell or not _is_short_entry(groups[-1][-1], line, flow)):
            groups[-1].append(line)
        else:
            groups.append([line])
    built: list[Line] = []
    above: PrintedLine | None = None
    for group in groups:
        paragraph = _paragraph(group, flow, place, body, above)
        built.append(paragraph if in_cell else replace(paragraph, level=_level(paragraph, group, body)))
        above = group[-1]
    return _with_depths(built)


def _right_margin(lines: Sequence[PrintedLine], flow: Flow) -> float:
    """Where lines were broken: at even margins unless a line contradicts it, as short paragraphs do not show it."""
    wrapped_early = any(
        below.words[0].text[0].islower()
        and abs(below.box.left - above.box.left) <= SAME_LEFT_POINTS
        and (below.page != above.page or 0 < below.base - above.base < 2 * above.size)
        and _has_room(above, below.words[0], flow.even)
        for above, below in pairwise(lines)
    )
    return flow.right if wrapped_early else max(flow.right, flow.even)


@dataclass(frozen=True, slots=True)
class _Leading:
    """Distances between baselines of lines of one size, in points: the usual one and the smallest that recurs."""

    usual: float
    tightest: float


def _leadings(lines: Sequence[PrintedLine]) -> dict[int, _Leading]:
    """The distances for each type size (rounded to points); under 0 as shares of the size, for all sizes together."""
    steps: dict[int, list[float]] = {0: []}
    for above, below in pairwise(lines):
        step = below.base - above.base
        beside = abs(above.box.left - below.box.left) > FIRST_INDENT_POINTS
        if below.page == above.page and not beside and below.size > 0 and 0.8 * above.size < step < 2.4 * above.size:
            steps[0].append(step / below.size)
            if abs(above.size - below.size) <= SAME_SIZE_POINTS:
                steps.setdefault(round(below.size), []).append(step)
    leadings = {}
    for size, own in steps.items():
        own.sort()
        pairs = [first for first, second in pairwise(own) if second - first <= 0.05 * max(first, 1.0)]
        if own:
            leadings[size] = _Leading(own[len(own) // 3], pairs[0] if pairs else own[0])
    return leadings


def _may_cross(above: PrintedLine, line: PrintedLine, flow: Flow) -> bool:
    """Whether a paragraph may go on over a page break; in a cell it may, elsewhere only with a sign that it does."""
    return not flow.even or line.text[0].islower() or bool(CONNECTIVE.search(above.text))


def _with_document(leadings: Mapping[int, _Leading], body: BodyText) -> dict[int, _Leading]:
    """The distances, with the document's own as the tightest of its usual type size."""
    own = leadings.get(round(body.size))
    if own is None or not 0.0 < body.leading < own.tightest:
        return dict(leadings)
    return {**leadings, round(body.size): _Leading(own.usual, body.leading)}


def _goes_on(group: Sequence[PrintedLine], line: PrintedLine, flow: Flow, leadings: Mapping[int, _Leading]) -> bool:
    """Whether the line goes on with the paragraph."""
    first, above = group[0], group[-1]
    if abs(line.size - above.size) > SAME_SIZE_POINTS or _changes_weight(above, line):
        return False
    if line.page == above.page:
        step = line.base - above.base
        if step < 0.5 * line.size or step > _longest_step(above, line, leadings):
            return False
        if step > LOOSE_SHARE * line.size and not line.text[0].islower():
            return False
    elif SENTENCE_END.search(above.text) or not _may_cross(above, line, flow):
        return False
    if LEADERS.search(above.text) or LEADERS.search(line.text):
        return False
    if not _is_indented_alike(group, line):
        return False
    if (
        above.text[-1] in "-\u2010\u00ad"
        and len(above.text) > 2
        and above.text[-2].isalpha()
        and line.text[0].islower()
    ):
        return True
    if _opens(first, above, line, flow):
        return False
    if CONNECTIVE.search(above.text):
        return True
    return not _would_fit(above, line.words[0], flow) or _is_justified(group, line)


def _is_short_entry(above: PrintedLine, line: PrintedLine, flow: Flow) -> bool:
    """Whether the line above ends early in a narrow column and a capital begins the next: entries, as in a side bar."""
    width = flow.right - flow.left
    fresh = line.text[0].isupper() or "@" in line.words[0].text or "//" in line.words[0].text
    if width > NARROW_SHARE * line.size or not fresh or CONNECTIVE.search(above.text):
        return False
    return above.box.right - flow.left < FULL_SHARE * width and above.text[-1] not in ",-"


def _is_justified(group: Sequence[PrintedLine], line: PrintedLine) -> bool:
    """Whether long lines end at the same place: text set between margins of its own."""
    above = group[-1]
    others = [line, *(group[-2:-1])]
    return len(above.text) >= JUSTIFIED_LETTERS and any(abs(other.box.right - above.box.right) <= 1 for other in others)


def _longest_step(above: PrintedLine, line: PrintedLine, leadings: Mapping[int, _Leading]) -> float:
    """How far below the line above a line of the same paragraph may stand."""
    leading = leadings.get(round(line.size))
    if leading is None:
        share = leadings.get(0, _Leading(1.3, 1.3))
        leading = _Leading(share.usual * line.size, share.tightest * line.size)
    if SENTENCE_END.search(above.text) and not line.text[0].islower():
        return min(AFTER_SENTENCE_SHARE * leading.usual, NEW_PARAGRAPH_SHARE * leading.tightest)
    return NEW_PARAGRAPH_SHARE * leading.usual


def _changes_weight(above: PrintedLine, line: PrintedLine) -> bool:
    """Whether bold type begins or ends between the lines as between a heading and its text."""
    if all(word.bold for word in above.words) and not line.words[0].bold:
        return True
    begins = all(word.bold for word in line.words) and not above.words[-1].bold
    fresh = line.text[:1].isupper() and not OPENING.match(line.text)
    return begins and (fresh or bool(SENTENCE_END.search(above.text)))


def _is_indented_alike(group: Sequence[PrintedLine], line: PrintedLine) -> bool:
    first, above = group[0], group[-1]
    if _is_centred_pair(above, line):
        return True
    marker, _ = split_marker(first.text)
    if marker and len(first.words) > 1:
        hang = first.words[len(marker.split())].left
        return min(abs(line.box.left - hang), abs(line.box.left - first.box.left)) <= SAME_LEFT_POINTS or (
            len(group) > 1 and abs(line.box.left - above.box.left) <= SAME_LEFT_POINTS
        )
    if len(group) == 1:
        return abs(line.box.left - above.box.left) <= FIRST_INDENT_POINTS
    return abs(line.box.left - above.box.left) <= SAME_LEFT_POINTS


def _is_centred_pair(above: PrintedLine, line: PrintedLine) -> bool:
    middles = abs((above.box.left + above.box.right) - (line.box.left + line.box.right)) / 2
    return middles <= 1.5 and abs(above.box.left - line.box.left) > SAME_LEFT_POINTS


def _would_fit(above: PrintedLine, word: Word, flow: Flow) -> bool:
    """Whether the word would have had room at the end of the line above."""
    room = flow.right
    left_over, right_over = above.box.left - flow.left, flow.right - above.box.right
    if left_over > 6 and abs(left_over - right_over) <= 2.5:
        room += left_over
    return _has_room(above, word, room)


def _has_room(line: PrintedLine, word: Word, right: float) -> bool:
    """Whether the word has room between the end of the line and a right margin, a blank and some slack included."""
    needed = line.box.right + BLANK_SHARE * line.size + (word.right - word.left)
    return needed <= right - FIT_SLACK_SHARE * line.size


def _opens(first: PrintedLine, above: PrintedLine, line: PrintedLine, flow: Flow) -> bool:
    """Whether the line opens something new: a list entry, a date among dates, a label."""
    text = line.text
    if _is_set_off_alike(first, line):
        return True
    marker, _ = split_marker(text)
    if marker:
        inline = not split_marker(first.text)[0] and marker[-1:] in ".)" and not SENTENCE_END.search(above.text)
        return not (inline and abs(line.box.left - above.box.left) <= SAME_LEFT_POINTS)
    if OPENING.match(text):
        among = bool(OPENING.match(_unmarked(first))) and not _hangs(first, line) and not OPEN_DATE.search(above.text)
        if above.text.endswith(":") and not _would_fit(above, line.words[0], flow):
            return among  # "… Final exam:" at the end of a full line
        return among or bool(SENTENCE_END.search(above.text))
    if LABEL.match(text):
        bold = line.words[0].bold and not above.words[-1].bold
        after_label = bool(LABEL.match(_unmarked(first))) and not above.text.endswith(",")
        return bold or after_label or bool(SENTENCE_END.search(above.text))
    return False


def _is_set_off_alike(first: PrintedLine, line: PrintedLine) -> bool:
    """Whether both lines begin with something set off from the rest by a wide gap that ends at one place: entries, as
    of a list with the day before a tab."""
    one, other = _behind_gap(first), _behind_gap(line)
    return one is not None and other is not None and abs(one - other) <= SAME_LEFT_POINTS


def _behind_gap(line: PrintedLine) -> float | None:
    """Where the words behind the first wide gap of a line begin."""
    for word, following in pairwise(line.words):
        if following.left - word.right > SET_OFF_SHARE * line.size:
            return following.left
    return None


def _hangs(first: PrintedLine, line: PrintedLine) -> bool:
    """Whether the line stands under the words of a list entry or hanging paragraph, and not under its beginning."""
    return FIRST_INDENT_POINTS >= line.box.left - first.box.left > SAME_LEFT_POINTS


def _unmarked(line: PrintedLine) -> str:
    return split_marker(line.text)[1]


def _paragraph(
    group: Sequence[PrintedLine], flow: Flow, place: Place, body: BodyText, above: PrintedLine | None
) -> Line:
    first = group[0]
    text, parts, box = "", [], None
    for line in group:
        own = tidy_text(line.text)
        text, start = join_wrapped(text, own, body.words) if text else (own, 0)
        parts.append(Part(start, replace(place, page=line.page, box=line.box)))
        if line.page == first.page:
            box = union(box, line.box)
    marker, rest = split_marker(text)
    shift = len(text) - len(rest)
    words = [word for line in group for word in line.words]
    letters = sum(len(word.text) for word in words)
    bold = sum(len(word.text) for word in words if word.bold) >= BOLD_SHARE * letters
    return Line(
        text=rest,
        place=replace(place, page=first.page, box=box),
        marker=marker,
        indent=round(max(0.0, _text_left(first, marker) - flow.left), 1),
        size=round(first.size, 1),
        bold=bold,
        italic=2 * sum(len(word.text) for word in words if word.italic) > letters,
        lead="" if bold else _lead(words, marker),
        gap=_gap(first, above),
        parts=tuple(Part(max(0, part.start - shift), part.place) for part in parts),
    )


def _lead(words: Sequence[Word], marker: str) -> str:
    """The bold run that opens the text."""
    run = []
    for word in words[len(marker.split()) :]:
        if not word.bold:
            break
        run.append(word.text)
    return tidy_text(" ".join(run))


def _text_left(line: PrintedLine, marker: str) -> float:
    number = len(marker.split())
    return line.words[number].left if number < len(line.words) else line.box.left


def _gap(line: PrintedLine, above: PrintedLine | None) -> float:
    if above is None or above.page != line.page:
        return 0.0
    return round(max(0.0, line.box.top - above.box.bottom), 1)


def _level(line: Line, group: Sequence[PrintedLine], body: BodyText) -> int:
    """The heading level: by size first, then by bold, capital or italic lines that stand alone."""
    if not any(letter.isalpha() for letter in line.text) or len(line.text) > LONGEST_HEADING:
        return 0
    if line.marker and not any(letter.isalnum() for letter in line.marker):
        return 0
    size = round(group[0].size * 2) / 2
    if size in body.heading_sizes:
        return min(body.heading_sizes.index(size) + 1, HIGHEST_LEVELS)
    below = min(len(body.heading_sizes), HIGHEST_LEVELS - 2)
    if line.text.endswith((".", ",", ";")) or len(group) > 2 or line.size < 0.9 * body.size:
        return 0
    capital = line.text.upper() == line.text and sum(letter.isalpha() for letter in line.text) > 3
    spaced = all(word.spaced for printed in group for word in printed.words if len(word.text) > 3)
    spaced = spaced and any(len(word.text) > 3 for word in group[0].words)
    if all(word.bold for printed in group for word in printed.words) or ((capital or spaced) and line.gap > 1):
        return below + 1
    if all(word.italic for printed in group for word in printed.words) and line.gap > 0.3 * line.size:
        return below + 2
    return 0


def _with_depths(lines: Sequence[Line]) -> list[Line]:
    """The lines with the nesting of list entries, told from how far each entry is indented."""
    levels: list[float] = []
    deep: list[Line] = []
    for line in lines:
        if not line.marker:
            if levels and line.indent < levels[0] - SAME_LEFT_POINTS:
                levels = []
            deep.append(line)
            continue
        while levels and line.indent < levels[-1] - SAME_LEFT_POINTS:
            levels.pop()
        if not levels or line.indent > levels[-1] + SAME_LEFT_POINTS:
            levels.append(line.indent)
        deep.append(replace(line, depth=len(levels)))
    return deep
