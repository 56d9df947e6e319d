"""Hours (hidden): a row for each weekly class and commitment, with its minutes, its weekdays, and whether it takes
place on the days that Week and Day show. Twin: ``plan.day_table.blocks_of``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.day_pages import HOUR_CHARACTERS
from syllabus_io.plan.facts import MINUTES_WITHOUT_END
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.class_turns import office_hours_formula, rotation_word, week_phase_formula
from syllabus_io.workbook.commitments import COMMITMENT_ROWS
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import AGENDA_DAYS, HOURS, PlanName, week_key_name, week_on_name
from syllabus_io.workbook.term_dates import class_row_count
from syllabus_io.workbook.text_formulas import cut_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = [
    "FIRST_ROW",
    "block_count",
    "weekday_letter",
    "write_blocks_shown",
    "write_hours",
]

FIRST_ROW = 2
_COLUMNS: tuple[str, ...] = ("name", "room", "start", "end", "mo", "tu", "we", "th", "fr", "sa", "su")
_COLUMNS += ("first", "last", "course", "hours", "hour", "clash", "clash_key")
_LABELS = ("full", "half", "other", "going", "going_other")
_COLUMNS += _LABELS
_COLUMNS += ("phase", "word")  # only of classes
_FIRST_FLAG = 5
_FIRST_ON = len(_COLUMNS) + 1
_FIRST_KEY = _FIRST_ON + AGENDA_DAYS


def _cell(key: str, at: int) -> str:
    return f"${column_letter(_COLUMNS.index(key) + 1)}{at}"


def block_count(book: Book) -> int:
    """Rows of the sheet: classes, then commitments, those still free included."""
    return class_row_count(book) + COMMITMENT_ROWS


def weekday_letter(weekday: int) -> str:
    """The column that marks a weekday, from 1."""
    return column_letter(_FIRST_FLAG + weekday - 1)


def write_hours(book: Book) -> None:
    """Adds the sheet and defines the names of its columns."""
    sheet = book.add_sheet(HOURS, hidden=True)
    classes = class_row_count(book)
    last = FIRST_ROW + block_count(book) - 1
    for number, key in enumerate(_COLUMNS, start=1):
        book.put(sheet, 1, number, key, "hidden")
    for first, rows in ((FIRST_ROW, classes), (FIRST_ROW + classes, COMMITMENT_ROWS)):
        _fill_rows(book, sheet, first, rows)
    for name, key in (
        (PlanName.BLOCK_NAMES, "name"),
        (PlanName.BLOCK_ROOMS, "room"),
        (PlanName.BLOCK_STARTS, "start"),
        (PlanName.BLOCK_ENDS, "end"),
        (PlanName.BLOCK_FIRST, "first"),
        (PlanName.BLOCK_LAST, "last"),
        (PlanName.BLOCK_COURSES, "course"),
        (PlanName.BLOCK_HOURS, "hours"),
        (PlanName.BLOCK_HOUR, "hour"),
        (PlanName.BLOCK_CLASH, "clash"),
        (PlanName.LABELS_FULL, "full"),
        (PlanName.LABELS_HALF, "half"),
        (PlanName.LABELS_OTHER, "other"),
        (PlanName.LABELS_GOING, "going"),
        (PlanName.LABELS_GOING_OTHER, "going_other"),
        (PlanName.BLOCK_CLASH_KEYS, "clash_key"),
    ):
        letter = column_letter(_COLUMNS.index(key) + 1)
        book.name(name, HOURS, f"{letter}{FIRST_ROW}", f"{letter}{last}")
    length = column_letter(_COLUMNS.index("hours") + 1)
    book.name(PlanName.COMMIT_HOURS, HOURS, f"{length}{FIRST_ROW + classes}", f"{length}{last}")


def _fill_rows(book: Book, sheet: Worksheet, first: int, rows: int) -> None:
    """The rows of the classes, or those of the commitments."""
    is_class = first == FIRST_ROW
    place = f"(ROW()-{first - 1})"
    made = _class_formulas(place, first) if is_class else _commitment_formulas(place, first)
    made |= _labels(first, 24 if book.options.paper == "a4" else 12)
    made |= {"clash_key": f'IF({_cell("clash", first)}>0,ROW()-{FIRST_ROW - 1},"")'}
    for key, formula in made.items():
        book.fill(sheet, first, _COLUMNS.index(key) + 1, rows, Formula(formula))
    clash = _COLUMNS.index("clash") + 1
    if is_class:
        book.put(sheet, first, clash, Formula("0"), "hidden")
        first, rows = first + 1, rows - 1
    if rows:
        book.fill(sheet, first, clash, rows, Formula(_clash(first, is_class)))


def write_blocks_shown(book: Book) -> None:
    """Adds to the sheet which blocks take place on the days that Week and Day show."""
    sheet = book.workbook[HOURS]
    last, classes = FIRST_ROW + block_count(book) - 1, class_row_count(book)
    _write_days(book, sheet, FIRST_ROW, classes)
    _write_days(book, sheet, FIRST_ROW + classes, COMMITMENT_ROWS)
    for day in range(1, AGENDA_DAYS + 1):
        for name, first in ((week_on_name(day), _FIRST_ON), (week_key_name(day), _FIRST_KEY)):
            letter = column_letter(first + day - 1)
            book.name(name, HOURS, f"{letter}{FIRST_ROW}", f"{letter}{last}")


def _labels(at: int, clock_hours: int) -> dict[str, str]:
    """The words of a block in an hour: alone, as one of two, as the other of two, and where it goes on.
    Twin: ``plan.day_pages.hour_texts``."""
    name, room, start, end = (_cell(key, at) for key in ("name", "room", "start", "end"))

    def clock(minutes: str) -> str:
        hour = f"INT({minutes}/60)"
        shown = hour if clock_hours == 24 else f"(MOD({hour}+11,12)+1)"
        return f'{shown}&":"&RIGHT("0"&MOD({minutes},60),2)'

    def known(text: str) -> str:
        return f'IF(ISNUMBER({start}),{text},"")'

    full = f'{clock(start)}&"–"&{clock(end)}&" "&{name}&IF({room}="","",", "&{room})'
    plain = f'{clock(start)}&"–"&{clock(end)}&" "&{name}'
    going = f'"("&{name}&")"'
    most, half = str(2 * HOUR_CHARACTERS - 6), str(HOUR_CHARACTERS)
    other = str(HOUR_CHARACTERS - 3)
    return {
        "full": known(cut_words(full, most)),
        "half": known(cut_words(plain, half)),
        "other": known(cut_words(plain, other)),
        "going": known(cut_words(going, most)),
        "going_other": known(cut_words(going, other)),
    }


def _clash(at: int, is_class: bool) -> str:
    """The place of the last block above that this one overlaps, 0 for none. Twin: ``Block.overlaps``."""

    def above(key: str) -> str:
        letter = column_letter(_COLUMNS.index(key) + 1)
        return f"${letter}${FIRST_ROW}:${letter}{at - 1}"

    here = {key: _cell(key, at) for key in _COLUMNS}
    weekdays = _COLUMNS[_FIRST_FLAG - 1 : _FIRST_FLAG + 6]
    shared = "+".join(f"{above(key)}*{here[key]}" for key in weekdays)
    mask = (
        f'(({shared})>0)*({above("start")}<>"")*({above("start")}<{here["end"]})*({above("end")}>{here["start"]})*'
        f"({above('first')}<={here['last']})*({above('last')}>={here['first']})"
    )
    if is_class:  # only classes are of other weeks or days than others, and above a class stand only classes
        phase, word = here["phase"], here["word"]
        mask += f"*((({above('phase')}<0)+({phase}<0)+({above('phase')}={phase}))>0)"
        mask += f'*((({above("word")}="")+({word}="")+({above("word")}={word}))>0)'
    return f"IF(ISNUMBER({here['start']}),SUMPRODUCT(MAX({mask}*(ROW({above('start')})-{FIRST_ROW - 1}))),0)"


def _times(start: str, end: str, at: int) -> dict[str, str]:
    """Minutes of the day; an hour is shown where no end is known, and none is counted."""
    begins = f"ROUND({start}*1440,0)"
    known = f"IF(ISNUMBER({end}),ROUND({end}*1440,0)>{begins},FALSE)"
    here, there = _cell("start", at), _cell("end", at)
    return {
        "end": f'IF(ISNUMBER({here}),IF({known},ROUND({end}*1440,0),{here}+{MINUTES_WITHOUT_END}),"")',
        "hours": f"IF(ISNUMBER({here}),IF({known},({there}-{here})/60,0),0)",
        "hour": f'IF(ISNUMBER({here}),INT({here}/60),"")',
    }


def _class_formulas(place: str, at: int) -> dict[str, str]:
    def own(name: str) -> str:
        return f"INDEX({name},{place})"

    kind, start = own(Name.CLASS_KINDS), own(Name.CLASS_STARTS)
    flags = {
        key: f"INDEX({PlanName.CLASS_FLAGS},{place},{number})"
        for number, key in enumerate(_COLUMNS[_FIRST_FLAG - 1 : _FIRST_FLAG + 6], start=1)
    }
    return {
        "name": f'TRIM({own(Name.CLASS_COURSES)}&" "&{kind})',
        "room": f'{own(Name.CLASS_ROOMS)}&""',
        "start": f'IF(AND(ISNUMBER({start}),NOT({office_hours_formula(kind)})),ROUND({start}*1440,0),"")',
        "first": own(PlanName.CLASS_BEGIN),
        "last": Name.CLASSES_END,
        "course": own(PlanName.CLASS_NUMBERS),
        "phase": own(PlanName.CLASS_PHASE),
        "word": f'{own(PlanName.CLASS_WORD)}&""',
        **flags,
        **_times(start, own(Name.CLASS_ENDS), at),
    }


def _commitment_formulas(place: str, at: int) -> dict[str, str]:
    def own(name: str) -> str:
        return f"INDEX({name},{place})"

    start, code = own(PlanName.COMMIT_STARTS), own(PlanName.COMMIT_CODES)
    first, last = _cell("first", at), _cell("last", at)

    def flag(weekday: int) -> str:
        by_date = f"AND({last}>={first},MOD({weekday}-WEEKDAY({first},2),7)<={last}-{first})"
        weekly = f"OR({code}={weekday},{code}=9{f',{code}=8' if weekday < 6 else ''})"
        return f"IF(IF({code}>0,{weekly},{by_date}),1,0)"

    flags = {key: flag(number) for number, key in enumerate(_COLUMNS[_FIRST_FLAG - 1 : _FIRST_FLAG + 6], start=1)}
    return {
        "name": f'{own(PlanName.COMMIT_WHAT)}&""',
        "room": '""',
        "start": f'IF(AND(ISNUMBER({start}),{last}>={first}),ROUND({start}*1440,0),"")',
        "first": own(PlanName.COMMIT_FIRST),
        "last": own(PlanName.COMMIT_LAST),
        "course": "-1",
        **flags,
        **_times(start, own(PlanName.COMMIT_ENDS), at),
    }


def _write_days(book: Book, sheet: Worksheet, at: int, rows: int) -> None:
    """Whether the block takes place on each day shown, and its number among those that begin in the same hour."""
    start, hour, course = _cell("start", at), _cell("hour", at), _cell("course", at)
    for number in range(1, AGENDA_DAYS + 1):
        day = f"({PlanName.WEEK_MONDAY}+{number - 1})" if number < AGENDA_DAYS else PlanName.DAY_SHOWN
        flags = f"${weekday_letter(1)}{at}:${weekday_letter(7)}{at}"
        flag = f"INDEX({flags},1,WEEKDAY({day},2))"
        off = f'COUNTIFS({Name.OFF_FIRST},"<="&{day},{Name.OFF_UNTIL},">="&{day},{Name.OFF_FOR}'
        is_open = f"IF({course}<0,TRUE,{off},0)+{off},{course})=0)"
        held = f"AND(ISNUMBER({start}),{flag}=1,{day}>={_cell('first', at)},{day}<={_cell('last', at)})"
        in_turn = _in_turn(book, at, day) if at == FIRST_ROW else ""
        on = f"IF({held},IF({is_open},{in_turn or 1},0),0)"
        letter = column_letter(_FIRST_ON + number - 1)
        book.fill(sheet, at, _FIRST_ON + number - 1, rows, Formula(on))
        earlier = f"COUNTIFS(${letter}${FIRST_ROW}:${letter}{at},1,{_column('hour', at)},{hour})"
        key = f'IF(${letter}{at}=1,{hour}*100+{earlier},"")'
        book.fill(sheet, at, _FIRST_KEY + number - 1, rows, Formula(key))


def _in_turn(book: Book, at: int, day: str) -> str:
    """1 where the class of a row meets in the week of the day and on its rotating day, else 0."""
    phase, word = _cell("phase", at), _cell("word", at)
    week = f"IF({phase}<0,1,IF({phase}={week_phase_formula(day)},1,0))"
    if not book.plan.resolved.term.rotation:
        return week
    return f'IF({word}="",{week},IF({rotation_word(day)}={word},{week},0))'


def _column(key: str, at: int) -> str:
    letter = column_letter(_COLUMNS.index(key) + 1)
    return f"${letter}${FIRST_ROW}:${letter}{at}"
