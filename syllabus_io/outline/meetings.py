"""The weekly classes of a course, found in labels, tables, sentences, side bars and the schedule's own columns."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from syllabus_io.extract.document import Cell, Document, Line, Table
from syllabus_io.outline.headings import ColumnRole, column_role
from syllabus_io.outline.labels import LabelKind, find_labels
from syllabus_io.outline.meeting_times import find_days, find_meetings, find_time_ranges, without_overlap
from syllabus_io.outline.sections import LabelledValue, body_size, flat_blocks, is_heading, plain, read_labels
from syllabus_io.outline.vocabulary import MEETING_KINDS, WEEKDAY_NAMES
from syllabus_io.resolve.expression import Weekday
from syllabus_io.resolve.term import Meeting

__all__ = ["read_meetings"]

_TOP_BLOCKS = 40
_SECTIONS = frozenset({"recitation", "lab"})
_OFFICE = re.compile(r"office|student hours|drop-?in|consult|tutor|help session|\bTA\b|appointment", re.IGNORECASE)
_MEETS = re.compile(
    r"\b(?:class(?:es)?|course|lectures?|labs?|laboratory|sections?|recitations?|discussions?|seminars?|tutorials?|"
    r"we|sessions?)\b"
    r"[^.;]{0,60}?\b(?:meets?|meeting|held|takes? place|taught|scheduled|run|runs|is|are|on)\b",
    re.IGNORECASE,
)
_ONE_DAY = re.compile(
    r"\b(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?\b\.?,?\s+(?:the\s+)?(?:"
    r"(?:\d{1,2}(?:st|nd|rd|th)?\s+)?(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\b|\d{1,2}/\d)",
    re.IGNORECASE,
)  # "Mon., Dec. 12, 8-10 am" is one day, no weekly class
_SEPARATORS = frozenset(",.;:|·•—–(")
_SENTENCE_END = re.compile(r"(?<![ap]\.m)(?<!\b[A-Za-z])\.\s+(?=[A-Z])|\n")


def read_meetings(document: Document, labels: Sequence[LabelledValue] | None = None) -> tuple[Meeting, ...]:
    """The weekly classes that the outline states, each time of each day group once; empty when it states none.

    Labels and tables are trusted before bare lines at the top, those before sentences; where no time is stated
    anywhere, the weekdays of the schedule's columns are taken without a time. Of labs and recitations that are
    offered at several times under several people, none is taken: a student goes to one of them.
    """
    labels = read_labels(document) if labels is None else labels
    sources = (_labelled(labels), _tabled(document), _bare(document), _told(document))
    meetings: tuple[Meeting, ...] = ()
    for source in sources:
        if not any(one.kind not in _SECTIONS for one in meetings):
            meetings = without_overlap((*meetings, *source))
    if meetings:
        return _without_choices(meetings)
    return _schedule_days(document)


def _labelled(labels: Sequence[LabelledValue]) -> Iterator[Meeting]:
    for position, fact in enumerate(labels):
        if fact.kind is not LabelKind.MEETINGS or _OFFICE.search(fact.label):
            continue
        if (
            position
            and labels[position - 1].kind is LabelKind.OFFICE_HOURS
            and fact.label.lower() in {"times", "time", "days", "hours"}
        ):
            continue
        if _ONE_DAY.search(fact.value):
            continue
        kind = _kind_of_label(fact.label)
        found = find_meetings(fact.value, kind)
        if not found and position + 1 < len(labels):
            # "Days: MWF" on one line, "Time: 9:00-9:50" on the next
            following = labels[position + 1]
            if following.kind is LabelKind.MEETINGS and following.order - fact.order <= 2:
                found = find_meetings(f"{fact.value} {following.value}", kind)
        yield from found


def _kind_of_label(label: str) -> str:
    named = [MEETING_KINDS[word] for word in re.findall(r"[a-z]+", label.lower()) if MEETING_KINDS.get(word)]
    return named[0] if len(set(named)) == 1 else ""


def _tabled(document: Document) -> Iterator[Meeting]:
    above = ""
    for block in flat_blocks(document):
        is_office, above = bool(_OFFICE.search(above)), block.text if isinstance(block, Line) else ""
        if not isinstance(block, Table) or block.row_count < 2 or is_office:
            continue
        grid = block.grid()
        for number, row in enumerate(grid[:2]):
            columns = _time_columns(row)
            if columns:
                for below in grid[number + 1 :]:
                    yield from _row_meetings(below, columns)
                break


def _time_columns(header: Sequence[Cell | None]) -> dict[str, int]:
    columns: dict[str, int] = {}
    for position, cell in enumerate(header):
        text = plain(cell.text).lower().replace("\n", " ") if cell else ""
        role = column_role(text)
        if re.fullmatch(
            r"(?:class |meeting )?days?\s?(?:&|and|/)\s?times?|(?:class|meeting) times?|times?\s?(?:&|and|/)\s?days?",
            text,
        ):
            columns.setdefault("both", position)
        elif role is ColumnRole.WEEKDAY or text in {"meeting days", "class days"}:
            columns.setdefault("days", position)
        elif role is ColumnRole.TIME:
            columns.setdefault("time", position)
        elif role is ColumnRole.ROOM:
            columns.setdefault("room", position)
        elif role is ColumnRole.TOPIC or role is ColumnRole.DATE or role is ColumnRole.WEEK or "office" in text:
            return {}
        elif text in {"type", "component", "activity", "class", "section", ""}:
            columns.setdefault("kind", position)
    return columns if "both" in columns or {"days", "time"} <= columns.keys() else {}


def _row_meetings(row: Sequence[Cell | None], columns: dict[str, int]) -> Iterator[Meeting]:
    def text(name: str) -> str:
        cell = row[columns[name]] if name in columns and columns[name] < len(row) else None
        return plain(cell.text).replace("\n", " ") if cell else ""

    whole = " ".join(plain(cell.text) for cell in dict.fromkeys(row) if cell)
    if _OFFICE.search(whole) or re.search(r"\b(?:final|exam)\b", whole, re.IGNORECASE):
        return
    words = text("both") or f"{text('days')} {text('time')}"
    kind = next((MEETING_KINDS[word] for word in re.findall(r"[a-z]+", whole.lower()) if MEETING_KINDS.get(word)), "")
    for meeting in find_meetings(words):
        yield replace(meeting, room=text("room") or meeting.room, kind=kind)


def _bare(document: Document) -> Iterator[Meeting]:
    """Lines at the top that are hardly more than days, time and room; those under office hours are not classes."""
    under_office = False
    body = body_size(document)
    for block in flat_blocks(document)[:_TOP_BLOCKS]:
        lines = [block] if isinstance(block, Line) else [line for cell in block.cells for line in cell.lines]
        if isinstance(block, Table) and block.row_count > 12:
            continue
        for line in lines:
            text = plain(line.text)
            found_labels = find_labels(text)
            if _OFFICE.search(text):
                under_office = True
            elif is_heading(line, body) or found_labels or not re.search(r"\d", text):
                under_office = False
            is_other = (
                bool(found_labels) and found_labels[0][2] is None and not re.search(r"\b20\d\d", found_labels[0][3])
            )
            if under_office or is_other:
                continue
            for part in _SENTENCE_END.split(text):
                if len(part) <= 100:
                    yield from _bare_meetings(part)


def _bare_meetings(text: str) -> Iterator[Meeting]:
    days, times = find_days(text), find_time_ranges(text)
    if _ONE_DAY.search(text):
        return
    if not days or not times or re.search(r"\b(?:due|exam|final|midterm|quiz|deadline)\b", text, re.IGNORECASE):
        return
    covered = sum(group[1] - group[0] for group in days) + sum(span[1] - span[0] for span in times)
    first = min(days[0][0], times[0][0])
    starts_with = first <= 25 or text[:first].rstrip()[-1:] in _SEPARATORS
    if starts_with and (covered * 2 >= len(text) or covered >= 10):
        yield from find_meetings(text)


def _told(document: Document) -> Iterator[Meeting]:
    for block in flat_blocks(document):
        if not isinstance(block, Line):
            continue
        for sentence in _SENTENCE_END.split(plain(block.text)):
            if not sentence or _OFFICE.search(sentence.split("meet")[0]) or not _MEETS.search(sentence):
                continue
            if re.search(
                r"\b(?:due|exams?|finals?|midterms?|quiz(?:zes)?|submit|deadline|posted|library)\b",
                sentence,
                re.IGNORECASE,
            ):
                continue
            meetings = [one for one in find_meetings(sentence) if one.start]
            room = re.search(r"\b(?:in|at)\s+((?:Room\s+)?\d{1,4}[A-Z]?\s+[A-Z]\w+(?:\s[A-Z]\w+){0,3})\b", sentence)
            for meeting in meetings:
                yield replace(meeting, room=meeting.room or (room[1] if room else None))


def _without_choices(meetings: tuple[Meeting, ...]) -> tuple[Meeting, ...]:
    sections = [one for one in meetings if one.kind in _SECTIONS]
    plain_classes = [one for one in meetings if one not in sections]
    if not plain_classes or len(sections) < 2:
        return meetings
    kept = [
        one
        for one in sections
        if sum(other.kind == one.kind and len(other.days) == len(one.days) for other in sections) < 2
    ]
    return tuple(one for one in meetings if one in plain_classes or one in kept)


def _schedule_days(document: Document) -> tuple[Meeting, ...]:
    """The weekdays of a schedule that gives them a column each, or one column that holds them, without times."""
    for block in flat_blocks(document):
        if not isinstance(block, Table) or block.row_count < 4:
            continue
        grid = block.grid()
        for row in grid[:2]:
            names = [plain(cell.text).lower() if cell else "" for cell in row]
            headed = [WEEKDAY_NAMES[name] for name in names if len(name) >= 3 and name in WEEKDAY_NAMES]
            if 2 <= len(set(headed)) <= 4:
                return (Meeting(tuple(sorted(set(headed)))),)
            if len(set(headed)) >= 5:
                return ()
        days = _weekday_column(grid)
        if days:
            return (Meeting(days),)
    return ()


def _weekday_column(grid: Sequence[Sequence[Cell | None]]) -> tuple[Weekday, ...]:
    """The weekdays of a column whose cells are hardly anything but weekdays; each at least twice."""
    for column in range(min(3, len(grid[0]))):
        cells = [cell for row in grid if (cell := row[column]) is not None]
        names = [plain(cell.text).lower().rstrip(".") for cell in cells if plain(cell.text)]
        days = [WEEKDAY_NAMES[name] for name in names if name in WEEKDAY_NAMES]
        if len(days) >= 6 and 2 * len(days) >= len(names):
            often = {day for day in days if days.count(day) * 8 >= len(days)}
            return tuple(sorted(often)) if len(often) <= 4 else ()
    return ()
