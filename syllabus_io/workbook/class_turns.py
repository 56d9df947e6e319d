"""Weekly classes as formulas count them, on the hidden sheet Days: on which weekdays, in which weeks and on which
rotating days each row meets, and where the timetable shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.class_rows import OFFICE_HOURS
from syllabus_io.plan.facts import MINUTES_WITHOUT_END
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import DAYS, Name, column_letter
from syllabus_io.workbook.layout_plan import PlanName
from syllabus_io.workbook.term_dates import class_row_count

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = [
    "office_hours_formula",
    "rotation_prefix",
    "rotation_word",
    "turn_mask",
    "week_phase_formula",
    "write_class_turns",
]

_SHORT = ("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su")
_COLUMNS: tuple[str, ...] = (
    *_SHORT,
    "course",
    "length",
    "hours",
    "begin",
    "phase",
    "word",
    "every",
    "only",
    "week_hours",
)
_COLUMNS += ("layer", "shown", "shown_end")
_NAMES = (
    (PlanName.CLASS_NUMBERS, "course"),
    (PlanName.CLASS_LENGTHS, "hours"),
    (PlanName.CLASS_BEGIN, "begin"),
    (PlanName.CLASS_EVERY, "every"),
    (PlanName.CLASS_PHASE, "phase"),
    (PlanName.CLASS_WORD, "word"),
    (PlanName.CLASS_ONLY, "only"),
    (PlanName.CLASS_WEEK_HOURS, "week_hours"),
    (PlanName.CLASS_LAYER, "layer"),
    (PlanName.CLASS_SHOWN, "shown"),
    (PlanName.CLASS_SHOWN_END, "shown_end"),
)


def write_class_turns(book: Book, sheet: Worksheet, place: tuple[int, int]) -> int:
    """Writes a row for each row of classes from a row and column of Days on, and defines the names; returns the first
    free column."""
    top, left = place
    rows = class_row_count(book)
    for number in range(1, rows + 1):
        at = top + number - 1
        cells = {key: f"${column_letter(left + offset)}{at}" for offset, key in enumerate(_COLUMNS)}
        for offset, formula in enumerate(_formulas(book, number, cells).values()):
            book.put(sheet, at, left + offset, Formula(formula), "hidden")
    last = top + rows - 1
    for name, key in _NAMES:
        letter = column_letter(left + _COLUMNS.index(key))
        book.name(name, DAYS, f"{letter}{top}", f"{letter}{last}")
    book.name(PlanName.CLASS_FLAGS, DAYS, f"{column_letter(left)}{top}", f"{column_letter(left + 6)}{last}")
    free = left + len(_COLUMNS)
    cell = book.put(sheet, top, free, Formula(f"COUNTIF({PlanName.CLASS_EVERY},0)"), "hidden")
    book.name(PlanName.ALTERNATING, DAYS, cell.coordinate)
    return free + 1


def _formulas(book: Book, number: int, cells: dict[str, str]) -> dict[str, str]:
    """The formulas of one row, in the order of the columns."""

    def own(name: str) -> str:
        return f"INDEX({name},{number})"

    rotation = book.plan.resolved.term.rotation
    marks = f'COUNTIF(INDEX({Name.CLASS_DAYS},{number},0),"x")'
    usual = f'IF(AND({cells["word"]}<>"",{marks}=0),1,0)' if rotation else "0"
    made = {
        short: f'IF(INDEX({Name.CLASS_DAYS},{number},{weekday})="x",1,{usual if weekday < 6 else 0})'
        for weekday, short in enumerate(_SHORT, start=1)
    }
    start, end, other = own(Name.CLASS_STARTS), own(Name.CLASS_ENDS), own(Name.CLASS_ALTERNATE)
    minutes = f"ROUND({end}*1440,0)-ROUND({start}*1440,0)"
    length = f"IF(AND(ISNUMBER({start}),ISNUMBER({end})),MAX(0,{minutes})/60,0)"
    monday = f"IF(ISNUMBER({other}),{other}-WEEKDAY({other},2)+1,0)"
    named = '&" "&'.join(
        f'IF(INDEX({Name.CLASS_DAYS},{number},{weekday})="x","{short}","")'
        for weekday, short in enumerate(_SHORT, start=1)
    )
    only = f'IF(OR({cells["word"]}="",{marks}=0),""," ("&TRIM({named})&")")'
    flags = f"SUM({cells['Mo']}:{cells['Su']})"
    share = f'IF({cells["phase"]}<0,1,2)*IF({cells["word"]}="",1,{len(rotation.labels) if rotation else 1})'
    is_office = office_hours_formula(own(Name.CLASS_KINDS))
    shown, lasts = cells["shown"], f"IF({cells['length']}>0,{cells['length']}*60,{MINUTES_WITHOUT_END})"
    return made | {
        "course": f"IFERROR(MATCH({own(Name.CLASS_COURSES)},{Name.COURSES},0),0)",
        "length": length,
        "hours": f"IF({is_office},0,{cells['length']})",
        "begin": f"MAX({Name.FIRST_DAY},{monday})",
        "phase": f"IF(ISNUMBER({other}),{week_phase_formula(other)},-1)",
        "word": f'TRIM({own(Name.CLASS_CYCLE)}&"")' if rotation else '""',
        "every": f'IF(AND({cells["phase"]}<0,{cells["word"]}=""),1,0)',
        "only": only if rotation else '""',
        "week_hours": f"{cells['hours']}*{flags}/({share})",
        "layer": f"IF(AND(ISNUMBER({start}),{flags}>0),IF({is_office},2,1),0)",
        "shown": f'IF({cells["layer"]}=0,"",ROUND({start}*1440,0))',
        "shown_end": f'IF({shown}="","",ROUND({shown}+{lasts},0))',
    }


def office_hours_formula(kind: str) -> str:
    """Whether a sort of class is office hours."""
    return "OR(" + ",".join(f'{kind}="{word}"' for word in sorted(OFFICE_HOURS)) + ")"


def week_phase_formula(day: str) -> str:
    """0 and 1 by turns, from Monday to Monday. Twin: ``plan.day_table.week_phase``."""
    return f"MOD(INT(({day}-2)/7),2)"


def turn_mask(day: str, word: str = "") -> str:
    """Of the rows of classes that are not of every week, those that meet in the week of the day and on its rotating
    day: for use in SUMPRODUCT. ``word`` is the rotating day as a formula, empty where the term has none."""
    phase = f"(({PlanName.CLASS_PHASE}<0)+({PlanName.CLASS_PHASE}={week_phase_formula(day)})>0)"
    mask = f"(1-{PlanName.CLASS_EVERY})*({PlanName.CLASS_BEGIN}<={day})*{phase}"
    if word:
        mask += f'*((({PlanName.CLASS_WORD}="")+({PlanName.CLASS_WORD}={word}))>0)'
    return f"{mask}*INDEX({PlanName.CLASS_FLAGS},0,WEEKDAY({day},2))"


def rotation_word(day: str) -> str:
    """Which day of the rotating timetable a day is; empty for none."""
    return f'IFERROR(INDEX({Name.ROTATION_WORDS},MATCH({day},{Name.DAY_DATES},0))&"","")'


def rotation_prefix(labels: tuple[str, ...]) -> str:
    """What stands before the name of a rotating day, so that "1" is not taken for a date: "day ", or nothing."""
    return "" if any("day" in label.casefold() for label in labels) else "day "
