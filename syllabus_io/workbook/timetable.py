"""Timetable: the weekly grid of classes, live from the classes on Term dates, overlaps marked; office hours where there
is no class. Where the term has a rotating timetable, a second grid has a column for each of its days."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import time
from typing import TYPE_CHECKING

from syllabus_io.plan.class_rows import class_rows
from syllabus_io.plan.facts import MINUTES_WITHOUT_END
from syllabus_io.resolve.term import Meeting
from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.class_turns import rotation_prefix, rotation_word
from syllabus_io.workbook.layout import TERM, TIMETABLE, Name, column_letter
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.term_dates import class_row_count
from syllabus_io.workbook.text_formulas import day_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_timetable"]

_HEADING = 5
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_USUAL_HOURS = (8, 17)
_HALF_HOUR = 30
_ROW_HEIGHT = 27.0
_WIDTH = 170.0  # characters of all days together: as wide as the page is where its height sets the scale
_OFFICE = 1000  # added to the place of office hours, where a hidden column tells what stands in a half hour
_CLASH, _BY_TURNS = -1, -2  # what stands there where classes overlap, and where two meet in alternate weeks


@dataclass(frozen=True, slots=True)
class _Grid:
    """A grid: its heading row, its first row and how many half hours it has, the words over its columns, a formula for
    each column that tells which classes are on that day, and where the hidden columns begin."""

    heading: int
    slots: int
    first_hour: int
    words: tuple[str | Formula, ...]
    masks: tuple[str, ...]
    minutes: int

    @property
    def first(self) -> int:
        """Its first half hour."""
        return self.heading + 1

    @property
    def last(self) -> int:
        """Its last half hour."""
        return self.heading + self.slots

    @property
    def helper(self) -> int:
        """The first hidden column that tells what stands in a half hour."""
        return self.minutes + 1


def write_timetable(book: Book) -> None:
    """Adds the sheet: half hours down, weekdays across."""
    sheet = book.add_sheet(TIMETABLE)
    first_hour, last_hour = _hours(book)
    days = _shown_days(book)
    rotation = book.plan.resolved.term.rotation
    labels = rotation.labels if rotation else ()
    columns = max(days, len(labels))
    hidden = columns + 3
    slots = (last_hour - first_hour) * 2
    every = f'({PlanName.CLASS_WORD}="")' if rotation else "1"
    week = _Grid(
        _HEADING,
        slots,
        first_hour,
        _DAYS[:days],
        tuple(f"INDEX({PlanName.CLASS_FLAGS},0,{day})*{every}" for day in range(1, days + 1)),
        hidden,
    )
    _write_top(book, sheet, week, last_hour)
    _write_grid(book, sheet, week)
    end = _write_notes(book, sheet, week.last + 1, columns)
    last = week.last
    breaks = (end,) if labels else ()
    if labels:
        cycle = _cycle_grid(book, sheet, week, labels, end + 1)
        _write_grid(book, sheet, cycle)
        end = last = cycle.last
    first, right = column_letter(week.helper), column_letter(week.helper + columns - 1)
    book.name(Name.CLASS_SLOTS, TIMETABLE, f"{first}{week.first}", f"{right}{last}")
    width = max(13.0, _WIDTH / columns)
    widths = [10.0, *[width] * columns, *[9.0] * (columns + 3)]
    book.set_widths(sheet, widths, tuple(range(columns + 2, len(widths) + 1)))
    sheet.freeze_panes = f"B{week.first}"
    book.set_print(
        sheet, f"A1:{column_letter(columns + 1)}{end}", landscape=True, one_page=not breaks, breaks=breaks, scale=70
    )


def _meetings(book: Book) -> Iterator[Meeting]:
    return (meeting for _, meeting in class_rows(book.plan.resolved))


def _hours(book: Book) -> tuple[int, int]:
    """The first and last full hour of the grid: usual hours, or more where a class needs it."""
    first, last = _USUAL_HOURS
    for meeting in _meetings(book):
        if meeting.start:
            end = meeting.start.hour * 60 + meeting.start.minute + MINUTES_WITHOUT_END
            if meeting.end:
                end = meeting.end.hour * 60 + meeting.end.minute
            first, last = min(first, meeting.start.hour), max(last, -(-end // 60))
    return first, min(last, 24)


def _shown_days(book: Book) -> int:
    """Monday to Friday, or to the last day of the weekend on which there is a class."""
    return max([5, *(int(day) for meeting in _meetings(book) for day in meeting.days)])


def _write_top(book: Book, sheet: Worksheet, week: _Grid, last_hour: int) -> None:
    columns = len(week.words) + 1
    book.head(sheet, "Timetable", f"Classes of a usual week. Correct or add them on {TERM}: the grid follows.", columns)
    on_shown = "+".join(f"INDEX({PlanName.CLASS_FLAGS},0,{day})" for day in range(1, len(week.words) + 1))
    further = "+".join(f"INDEX({PlanName.CLASS_FLAGS},0,{day})" for day in range(len(week.words) + 1, len(_DAYS) + 1))
    early, late = f"{PlanName.CLASS_SHOWN}<{week.first_hour * 60}", f"{PlanName.CLASS_SHOWN_END}>{last_hour * 60}"
    outside = f"({on_shown}>0)*(({early})+({late})>0)"
    count = f"SUMPRODUCT(({PlanName.CLASS_LAYER}>0)*(({outside}+{further or '0'})>0))"
    words = f'IF({count}=0,"","Not shown, or not in full, being outside these hours or days: "&{count}&".")'
    book.put(sheet, 3, 1, Formula(words), "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=3, end_column=columns)


def _cycle_grid(book: Book, sheet: Worksheet, week: _Grid, labels: tuple[str, ...], row: int) -> _Grid:
    """The grid of the rotating days, with a line on what today is."""
    columns = len(labels) + 1
    book.put(sheet, row, 1, "Rotating days", "section")
    sheet.row_dimensions[row].height = 22
    today, word = Name.TODAY, rotation_word(Name.TODAY)
    count = f'COUNTIFS({Name.DAY_DATES},">"&{today},{Name.ROTATION_WORDS},"?*")'
    after = f'COUNTIFS({Name.DAY_DATES},"<="&{today},{Name.ROTATION_WORDS},"?*")'
    following = f"INDEX({Name.ROTATION_LABELS},MOD({after},{len(labels)})+1)"
    day = rotation_prefix(labels)
    words = (
        f'IF({word}="","Today has no rotating day.","Today is {day}"&{word}&".")'
        f'&IF({count}=0,""," Next comes {day}"&{following}&".")'
        '&" Days off and weekends use no day up; every date has its day on Month, Week and Day."'
    )
    book.put(sheet, row + 1, 1, Formula(words), "note")
    across = max(columns, len(week.words) + 1)
    sheet.merge_cells(start_row=row + 1, start_column=1, end_row=row + 1, end_column=across)
    masks = tuple(f"({PlanName.CLASS_WORD}=INDEX({Name.ROTATION_LABELS},{n}))" for n in range(1, columns))
    headings: tuple[str | Formula, ...] = labels
    if day:
        headings = tuple(Formula(f'"Day "&INDEX({Name.ROTATION_LABELS},{n})') for n in range(1, columns))
    return _Grid(row + 2, week.slots, week.first_hour, headings, masks, week.minutes)


def _write_grid(book: Book, sheet: Worksheet, grid: _Grid) -> None:
    hours = 24 if book.options.paper == "a4" else 12  # as the number formats of times are chosen
    book.put(sheet, grid.heading, 1, "Time", "heading_centre")
    for number, word in enumerate(grid.words):
        typed = word not in _DAYS and isinstance(word, str)  # a label of the term's own
        book.put(sheet, grid.heading, number + 2, word, "heading_centre", typed=typed)
        # The grid's formulas look at the row above; the heading of the hidden columns must not look like a class.
        book.put(sheet, grid.heading, grid.helper + number, 0, "hidden")
    sheet.row_dimensions[grid.heading].height = 22
    for slot in range(grid.slots):
        row = grid.first + slot
        book.put(sheet, row, 1, time(grid.first_hour + slot // 2, _HALF_HOUR * (slot % 2)), "time")
        book.put(sheet, row, grid.minutes, grid.first_hour * 60 + _HALF_HOUR * slot, "hidden")
        for number in range(len(grid.words)):
            mask = _mask(grid, row, number)
            helper = book.put(sheet, row, grid.helper + number, Formula(_what_in_slot(mask)), "hidden")
            words = _slot_text(grid, row, (helper.column_letter, mask), hours)
            book.put(sheet, row, number + 2, Formula(words), "centre")
        sheet.row_dimensions[row].height = _ROW_HEIGHT
    _colour(book, sheet, grid)


def _mask(grid: _Grid, row: int, number: int) -> str:
    """Which rows of classes are on in the half hour of the row."""
    minutes = f"${column_letter(grid.minutes)}{row}"
    within = f"({PlanName.CLASS_SHOWN}<{minutes}+{_HALF_HOUR})*({PlanName.CLASS_SHOWN_END}>{minutes})"
    return f"({PlanName.CLASS_LAYER}>0)*{within}*{grid.masks[number]}"


def _places() -> str:
    return f"(ROW({PlanName.CLASS_SHOWN})-MIN(ROW({PlanName.CLASS_SHOWN}))+1)"


def _what_in_slot(mask: str) -> str:
    """The place of the class in a half hour, of two that follow each other the later one; a number below 0 where
    classes overlap or take turns; office hours where there is no class."""
    classes = f"{mask}*({PlanName.CLASS_LAYER}=1)"
    count = f"SUMPRODUCT({classes})"
    # A row without hours holds text: N() and products of it must not be met, so only its order against numbers is used.
    pair = f"{count}=2"
    first, last = f"SUMPRODUCT(MAX({classes}*{_places()}))", f"(1000-SUMPRODUCT(MAX({classes}*(1000-{_places()}))))"
    starts, ends = PlanName.CLASS_SHOWN, PlanName.CLASS_SHOWN_END
    follows = f"INDEX({starts},{first})>=INDEX({ends},{last})"
    precedes = f"INDEX({starts},{last})>=INDEX({ends},{first})"
    phases = f"INDEX({PlanName.CLASS_PHASE},{first})+INDEX({PlanName.CLASS_PHASE},{last})=1"
    by_turns = f"IF({phases},{_BY_TURNS},{_CLASH})"
    two = f"IF({follows},{first},IF({precedes},{last},{by_turns}))"
    office = f"SUMPRODUCT(MAX({mask}*({PlanName.CLASS_LAYER}=2)*({_places()}+{_OFFICE})))"
    return f"IF({count}=0,{office},IF({count}=1,{first},IF({pair},{two},{_CLASH})))"


def _slot_text(grid: _Grid, row: int, code: tuple[str, str], hours: int) -> str:
    """The class on its first half hour, its room and instructor on the second; a clash by the names of both."""
    helper, mask = code
    here, above, below = f"${helper}{row}", f"${helper}{row - 1}", f"${helper}{row + 1}"
    place = f"MOD({here},{_OFFICE})"

    def own(column: str) -> str:
        return f"INDEX({column},{place})"

    start, end = own(PlanName.CLASS_SHOWN), own(PlanName.CLASS_SHOWN_END)
    until = f'IF({own(PlanName.CLASS_LENGTHS)}+({here}>{_OFFICE})>0,"–"&{_clock(end, hours)},"")'
    times = f"{_clock(start, hours)}&{until}"
    room, teacher = own(Name.CLASS_ROOMS), own(Name.CLASS_TEACHERS)
    first = f"{_name(place)}&CHAR(10)&IF({below}={here},{times},{room})"
    second = f'{room}&IF(OR({room}="",{teacher}=""),"",CHAR(10))&{teacher}'
    two_above = f"${helper}{row - 2}" if row - 2 >= grid.heading else "0"
    classes = f"{mask}*({PlanName.CLASS_LAYER}=1)"
    one = _name(f"SUMPRODUCT(MAX({classes}*{_places()}))")
    other = _name(f"(1000-SUMPRODUCT(MAX({classes}*(1000-{_places()}))))")
    clash = f'"clash: "&{other}&CHAR(10)&"and "&{one}'
    by_turns = f'IF({above}={here},"",{other}&CHAR(10)&{one})'
    shown = f'IF({above}<>{here},{first},IF({two_above}<>{here},{second},""))'
    return f'IF({here}=0,"",IF({here}={_CLASH},{clash},IF({here}<0,{by_turns},{shown})))'


def _name(place: str) -> str:
    """The name of a class, with the weekdays that narrow a rotating day, and a star where it is not of every week."""
    star = f'IF(INDEX({PlanName.CLASS_PHASE},{place})<0,""," *")'
    kind = f'TRIM(INDEX({Name.CLASS_COURSES},{place})&" "&INDEX({Name.CLASS_KINDS},{place}))'
    return f"{kind}&INDEX({PlanName.CLASS_ONLY},{place})&{star}"


def _clock(minutes: str, hours: int) -> str:
    """A time as text that no program's language changes, by a clock of 12 or 24 hours."""
    hour = f"INT({minutes}/60)" if hours == 24 else f"(MOD(INT({minutes}/60)+11,12)+1)"
    return f'{hour}&":"&RIGHT("0"&MOD({minutes},60),2)'


def _write_notes(book: Book, sheet: Worksheet, row: int, columns: int) -> int:
    """What the stars mean, and office hours in the words of the outlines; returns the last row."""
    parts = []
    for place in range(1, class_row_count(book) + 1):
        name = f'TRIM(INDEX({Name.CLASS_COURSES},{place})&" "&INDEX({Name.CLASS_KINDS},{place}))'
        since = day_words(f"INDEX({PlanName.CLASS_BEGIN},{place})")
        known = f"INDEX({PlanName.CLASS_PHASE},{place})>=0"
        parts.append(f'IF({known}," "&{name}&" from "&{since}&".","")')
    turns = f'COUNTIF({PlanName.CLASS_PHASE},">=0")'
    words = f'IF({turns}=0,"","* every other week:"&{"&".join(parts)})'
    lines: list[Formula | str] = [Formula(words)]
    for course in book.plan.resolved.courses:
        facts = course.outline.course
        if facts.office_hours:
            teacher = f" ({facts.instructor})" if facts.instructor else ""
            lines.append(f"Office hours {course.key}{teacher}, as the outline has them: {facts.office_hours}")
    for line in lines:
        book.put(sheet, row, 1, line, "note", typed=isinstance(line, str))
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=columns + 1)
        sheet.row_dimensions[row].height = row_height([(line if isinstance(line, str) else "a", 130.0)])
        row += 1
    return row - 1


def _colour(book: Book, sheet: Worksheet, grid: _Grid) -> None:
    first = f"{column_letter(grid.helper)}{grid.first}"
    cells = f"B{grid.first}:{column_letter(len(grid.words) + 1)}{grid.last}"
    book.mark_where(sheet, cells, f"{first}={_CLASH}", book.look.warning, bold=True)
    book.mark_where(sheet, cells, f"OR({first}={_BY_TURNS},{first}>{_OFFICE})", book.look.quiet)
    if len(book.look.courses) < 2:
        return
    for number in range(1, len(book.plan.resolved.courses) + 1):
        same = f"INDEX({PlanName.CLASS_NUMBERS},{first})={number}"
        book.mark_where(sheet, cells, f"IF(AND({first}>0,{first}<{_OFFICE}),{same},FALSE)", book.look.course(number))
