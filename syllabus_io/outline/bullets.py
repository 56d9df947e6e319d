"""Schedules without a table: lines or headings that open with a date, and what stands under them."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from syllabus_io.extract.document import Block, Document, Line
from syllabus_io.outline.frames import Frame, Passage, is_single_day
from syllabus_io.outline.headings import ColumnRole, SectionKind, section_kind
from syllabus_io.outline.numbered_classes import numbered_classes
from syllabus_io.outline.phrases import dated_phrases, phrases_in
from syllabus_io.outline.row_dates import SHORT_LEAD, RowDate, month_alone, read_row_date
from syllabus_io.outline.row_labels import dated_label, label_of
from syllabus_io.outline.rows import Rows
from syllabus_io.outline.verdicts import is_breakdown
from syllabus_io.outline.weekday_lines import goes_on_behind_heading
from syllabus_io.outline.work_words import find_heads
from syllabus_io.resolve.expression import ClassNear, Direction, MeetingNumber, Week, WeekOf

__all__ = ["read_lines"]

LONGEST_DATED_LINE = 220
LONGEST_GAP = 40
LEAST_ROWS = 3
NEXT_CLASS = "it stands under a class as its assignment, and is taken to be due at the next class"
_SENTENCE_OPENS = re.compile(r"^\W*(?:on|by|from|since|until|in|for|the|and|to|at|before|after)\b", re.IGNORECASE)
# "A number in italics is the unit that opens on that day; its quiz is due at noon."
_OF_ALL_ROWS = re.compile(
    r"^(?:the|a|an|each|every|all|any)\s+(?:\w+\s+){0,3}(?:is|are|means?|marks?|stands?|shows?|tells?)\b.*"
    r"\b(?:that|the same|each|every|its) (?:day|class|date|week|row|line)\b.*\.\W*$",
    re.IGNORECASE,
)
_EXPLAINS = re.compile(r"^[“\"]?[A-Z][A-Za-z]{0,4}s?[”\"]?\s*(?:=|stands? for|is short for)\s*[A-Za-z]")
_MONTHS = r"(?:January|February|March|April|May|June|July|August|September|October|November|December)"
_WEEKDAYS = r"(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day"
_BROKEN_OFF = (
    (re.compile(r"\b(?:on|by|from|until|before)\s*$"), re.compile(rf"{_WEEKDAYS}|{_MONTHS}")),
    (re.compile(rf"\b{_WEEKDAYS},?\s*$"), re.compile(_MONTHS)),
    (re.compile(rf"\b{_MONTHS}\s*$"), re.compile(r"\d{1,2}\b")),
)
"""How a printed line ends within a date or right before it, and how the next one then begins."""
_VERB = re.compile(r"\b(?:is|are|will|must|held|due|falls?|takes? place)\b", re.IGNORECASE)
_WEEK_NAME = re.compile(r"^\W*week\s+(\d{1,2})\s+[A-Za-z]", re.IGNORECASE)
_DUE_OPENS = re.compile(r"^\W*(?:due|deadline)\b", re.IGNORECASE)
_DUE_HEADING = re.compile(r"\b(?:due|deadlines?|turn in|hand in|submit)\b", re.IGNORECASE)
_GIVEN_OUT = re.compile(r"(?:assignments?|homework|hw|to do|assignments? after class)", re.IGNORECASE)


@dataclass(slots=True)
class _Open:
    """The block that is being read: its frame and the label in force.

    ``labelled_entry`` is the depth of the list entry that the label opened and filled, 0 for other labels.
    """

    frame: Frame
    line: Line
    role: ColumnRole | None = None
    heading: str = ""
    label_frame: Frame | None = None
    left: int = LONGEST_GAP
    labelled_entry: int = 0


def read_lines(document: Document, rows: Rows) -> None:
    """Add to ``rows`` the dated lines of the document, what stands under them, and the other lines as running text."""
    lines = list(document.blocks)
    dated = _dated_lines(lines)
    dated |= {number: row for number, row in numbered_classes(lines).items() if number not in dated}
    runs = _runs(sorted(dated))
    section, lead, open_block, number_of_run, run_end = "", "", None, 0, -1
    for number, block in enumerate(lines):
        if not isinstance(block, Line):
            open_block = None
            continue
        run = next((run for run in runs if number in run), None)
        run_end = run[-1] if run is not None else run_end
        found = dated.get(number)
        if found is not None and (run is not None or not block.level):
            if run is not None and number == run[0]:
                rows.groups += 1
                number_of_run = rows.groups
            in_run = number_of_run if run is not None else 0
            open_block = _open(block, found, rows, section, in_run)
            if run is None:
                open_block = None
                if len(find_heads(section)) == 1 and not find_heads(found.rest):
                    rows.passages.append(Passage(block.text, block.place, (block,), None, "", section))
            elif number == run[-1]:
                open_block.left = _usual_length(run)
            continue
        if _is_heading(block, open_block):
            section = block.text
            if not _is_inside_week(lines, number, open_block):
                open_block = None
            if find_heads(block.text) and dated_phrases(block.text):
                rows.passages.append(Passage(block.text, block.place, (block,), None, "", section))
            continue
        if open_block is not None and number > run_end and (_is_dated_sentence(block) or is_breakdown(block.text)):
            open_block = None  # behind the last row the running text goes on
        if open_block is None or open_block.left <= 0:
            if not block.marker:
                lead = _lead_of(block.text)
            number_in_list = block.marker.strip("().") if lead else ""
            heading = f"{lead} {number_in_list}" if number_in_list.isdecimal() else ""
            before = lines[number - 1] if number else None
            if rows.passages and isinstance(before, Line) and _runs_on(rows.passages[-1], before, block):
                rows.passages[-1] = _with_line(rows.passages[-1], block)
            else:
                rows.passages.append(Passage(block.text, block.place, (block,), None, heading, section))
            continue
        open_block.left -= 1
        _under(block, open_block, rows, section, number_of_run)


def _is_inside_week(blocks: Sequence[Block], number: int, opened: _Open | None) -> bool:
    """Whether a heading stands between two weekdays of one week, which goes on behind it."""
    before = blocks[number - 1] if number else None
    behind = blocks[number + 1] if number + 1 < len(blocks) else None
    if opened is None or not isinstance(before, Line) or not isinstance(behind, Line):
        return False
    return goes_on_behind_heading(before.text, behind.text, opened.frame)


def _dated_lines(blocks: Sequence[Block]) -> dict[int, RowDate]:
    found: dict[int, RowDate] = {}
    month: int | None = None
    week: int | None = None
    for number, block in enumerate(blocks):
        if not isinstance(block, Line):
            continue
        alone = month_alone(block.text)
        if alone is not None:
            month = alone
            continue
        if (len(block.text) > LONGEST_DATED_LINE and not block.level) or _SENTENCE_OPENS.match(block.text):
            continue
        if number and _breaks_off(blocks[number - 1], block):
            continue  # "… Quiz 2 is on" and "Monday, October 11. Quiz 3 …"
        row = read_row_date(block.text, month if _could_be_day(block, month) else None)
        if row is None and block.marker.rstrip(".)").isdecimal() and month is not None:
            row = read_row_date(f"{block.marker} {block.text}", month)
        if row is None or not row.frame.is_dated or not _is_opening(row):
            continue
        if row.frame.day is None and not row.frame.days and row.frame.week is not None and row.frame.week == week:
            continue  # "Week 4 check-in" under the heading of week 4
        week = row.frame.week if row.frame.week is not None else week
        found[number] = row
    return found


def _runs_on(passage: Passage, before: Line, line: Line) -> bool:
    """Whether a line goes on with the sentence of the one above it, as in narrow columns."""
    if not passage.lines or passage.lines[-1] is not before or line.level or before.level or passage.frame.is_dated:
        return False
    if re.search(r"[.!?:;]\W*$", before.text) or abs(line.size - before.size) > 0.5 or line.bold != before.bold:
        return False
    if _breaks_off(before, line):
        return True
    if line.marker.rstrip(".").isdecimal():  # "… on Tue Apr" and "13. Quiz 3 …": the day is no list number
        return month_alone(before.text.split()[-1]) is not None
    return not line.marker and bool(re.match(r"[a-z(]|\d", line.text))


def _breaks_off(before: Block, line: Line) -> bool:
    """Whether a printed line ends within its sentence, right before the day that the next one opens with."""
    if not isinstance(before, Line) or before.level or line.level or line.marker:
        return False
    if abs(line.size - before.size) > 0.5 or line.bold != before.bold:
        return False
    open_end = any(end.search(before.text) and begin.match(line.text) for end, begin in _BROKEN_OFF)
    return open_end and _VERB.search(before.text) is not None


def _with_line(passage: Passage, line: Line) -> Passage:
    marked = f"{line.marker} {line.text}" if line.marker else line.text
    whole = replace(line, text=marked, marker="", parts=()) if line.marker else line
    return replace(passage, text=f"{passage.text} {marked}", lines=(*passage.lines, whole))


def _is_dated_sentence(line: Line) -> bool:
    """Whether a line is a sentence that dates something itself ("The final is on Monday, May 4.")."""
    text = line.text.strip()
    if line.marker or line.level or not re.match(r"[A-Z]", text) or label_of(text)[0] is not None:
        return False
    heads = [head for head in find_heads(text) if not head.is_weak]
    days = [phrase for phrase in dated_phrases(text) if phrase.expression and is_single_day(phrase.expression)]
    if heads and any(re.fullmatch(r"[\s,:(–—-]*", text[head.end : day.start]) for head in heads for day in days):
        return True  # "Exam week: Final Exam Wed., April 28"
    if _OF_ALL_ROWS.search(text) or _EXPLAINS.match(text):
        return True
    verb = re.search(r"\b(?:is|are|will be|takes? place|falls?)\b", text)
    return verb is not None and any(phrase.start > verb.start() for phrase in dated_phrases(text))


def _could_be_day(line: Line, month: int | None) -> bool:
    return month is not None and bool(
        re.match(r"^\W*(?:(?:[A-Za-z]{2,9}|[MTWRF])\.?,?\s+)?\d{1,2}\b(?!\s*(?:%|pts|points|am|pm|:))", line.text)
    )


def _is_opening(row: RowDate) -> bool:
    """Whether a line that begins with a date is a row, not a sentence about that date."""
    rest = row.rest.strip()
    return not re.match(r"^(?:is|are|was|will|at\s+\d|from\s+\d|,?\s*20\d\d\.?$)", rest) or not rest


def _runs(numbers: list[int]) -> list[list[int]]:
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number - runs[-1][-1] <= LONGEST_GAP:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [run for run in map(_without_stray, runs) if len(run) >= LEAST_ROWS]


def _without_stray(run: list[int]) -> list[int]:
    """A run without a first line that stands far before the others: the date of the document, not a row."""
    while len(run) > LEAST_ROWS and run[1] - run[0] > 3 * _usual_length(run[1:]):
        run = run[1:]
    return run


def _usual_length(run: list[int]) -> int:
    gaps = sorted(b - a for a, b in itertools.pairwise(run))
    return max(gaps[(3 * len(gaps)) // 4], 2)


def _open(line: Line, found: RowDate, rows: Rows, section: str, group: int) -> _Open:
    frame = found.frame
    if frame.day is None and isinstance(frame.stretch, Week) and found.number is not None:
        frame = replace(frame, day=MeetingNumber(found.number))
    frame = rows.add_row(frame, line, line.text)
    opened = _Open(frame, line)
    if section_kind(section) is SectionKind.KEY_DATES:
        opened.role = ColumnRole.DUE if _DUE_HEADING.search(section) else ColumnRole.WORK
    is_due = _DUE_OPENS.match(line.text) is not None and not found.rest.strip()
    if is_due:
        clock = next((phrase for phrase in phrases_in(line.text, weak=True) if phrase.time is not None), None)
        opened.role, opened.frame = ColumnRole.DUE, replace(frame, clock=clock and replace(clock, expression=None))
        return opened
    segments = _dated_segments(line.text) if frame.day is not None else []
    if found.rest.strip():
        start = max(0, len(line.text) - len(found.rest))
        end = segments[0][0] if segments else len(line.text)
        _labelled(line, line.text[start:end].rstrip(" ;"), start, opened, rows, section, group)
        opened.role, opened.heading, opened.label_frame = None, "", None
    for begin, row in segments:
        if row is not None:
            opened.frame = replace(row.frame, row=frame.row, week=None)
            _labelled(line, row.rest.rstrip(" ;"), line.text.index(row.rest, begin), opened, rows, section, group)
    return opened


def _dated_segments(text: str) -> list[tuple[int, RowDate | None]]:
    """The parts of a dated line behind a semicolon that open with a day of their own, and where they begin."""
    starts = [match.end() for match in re.finditer(r";\s*", text)]
    opened = [begin for begin in starts if _is_day(read_row_date(text[begin:], max_lead=SHORT_LEAD))]
    ends = [*opened[1:], len(text)][: len(opened)]
    return [
        (begin, read_row_date(text[begin:end].rstrip(" ;"), max_lead=SHORT_LEAD))
        for begin, end in zip(opened, ends, strict=True)
    ]


def _is_day(row: RowDate | None) -> bool:
    return row is not None and row.number is None and row.frame.day is not None and bool(row.rest.strip())


def _is_heading(line: Line, opened: _Open | None) -> bool:
    if opened is not None and (label_of(line.text)[0] is not None or dated_label(line.text, opened.frame) is not None):
        return False
    if line.level:
        return opened is None or not opened.line.level or line.level <= opened.line.level
    if opened is not None:
        return (
            line.bold
            and not opened.line.bold
            and len(line.text) < 60
            and not label_of(line.text)[0]
            and line.size > opened.line.size
        )
    return line.bold and len(line.text) < 80


def _lead_of(text: str) -> str:
    """The singular work word a paragraph opens with, when it tells of several ("Group projects: …": Group project)."""
    match = re.match(r"\s*([A-Z][^.:;()]{2,40}s)\s*:", text)
    return match[1][:-1] if match and find_heads(match[1]) else ""


def _under(line: Line, opened: _Open, rows: Rows, section: str, group: int) -> None:
    if line.marker and opened.labelled_entry and line.depth <= opened.labelled_entry:
        opened.role, opened.heading, opened.label_frame = None, "", None  # the label was that of the entry above
    opened.labelled_entry = 0
    _labelled(line, line.text, 0, opened, rows, section, group)


def _labelled(line: Line, text: str, start: int, opened: _Open, rows: Rows, section: str, group: int) -> None:
    role, heading, rest = label_of(text)
    dated = dated_label(text, opened.frame)
    if dated is not None:
        opened.role, opened.heading, opened.label_frame = ColumnRole.DUE, "", dated.frame
        start += len(text) - len(dated.rest)
        text = dated.rest
    elif role is not None:
        opened.role, opened.heading, opened.label_frame = role, heading, None
        opened.labelled_entry = line.depth if line.marker and rest.strip() else 0
        start += len(text) - len(rest)
        text = rest
    if text.strip():
        place = line.place_of(start, len(line.text))
        passage_lines = (line,) if start == 0 else ()
        role = opened.role or ColumnRole.TOPIC
        frame = opened.label_frame or opened.frame
        if opened.label_frame is None and frame.day is not None and _GIVEN_OUT.fullmatch(opened.heading):
            frame = replace(frame, day=ClassNear(frame.day, Direction.AFTER), doubts=(*frame.doubts, NEXT_CLASS))
            role = ColumnRole.WORK
        if (named := _WEEK_NAME.match(text)) and int(named[1]) == frame.week and opened.frame.day is not None:
            frame = replace(opened.frame, stretch=WeekOf(opened.frame.day), day=None)
            role = ColumnRole.WORK
        rows.passages.append(Passage(text, place, passage_lines, role, opened.heading, section, frame, group))
