"""The hours of a day, as Week and Day show them: classes and commitments where they are, study where room is left.
Twin: ``plan.day_pages.hour_texts``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from syllabus_io.plan.day_pages import HOUR_CHARACTERS
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import column_letter
from syllabus_io.workbook.layout_plan import PlanName, week_key_name, week_on_name
from syllabus_io.workbook.text_formulas import cut_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["HELPER_COLUMNS", "HourColumn", "write_hour_cells"]

HELPER_COLUMNS = 3
"""Hidden columns for each day: how much begins in the hour, how much goes on, hours open for study so far."""


@dataclass(frozen=True, slots=True)
class HourColumn:
    """The hours of one day: ``number`` is 1 to 7 for the chosen week, 8 for the chosen day, ``day`` a formula for its
    date, ``first_hour`` a name; ``rows`` are the first row and their number, ``column`` where the words stand and
    ``helper`` the first hidden column."""

    number: int
    day: str
    first_hour: str
    rows: tuple[int, int]
    column: int
    helper: int


def write_hour_cells(book: Book, sheet: Worksheet, hours: HourColumn) -> None:
    """Writes the words of each hour, and the hidden figures they rest on."""
    first, count = hours.rows
    begun, going, free = (column_letter(hours.helper + offset) for offset in range(HELPER_COLUMNS))
    keys, on = week_key_name(hours.number), week_on_name(hours.number)
    for offset in range(count):
        at = first + offset
        hour = f"(N({hours.first_hour})+ROW()-{first})"
        before = f"${free}{at - 1}" if offset else "0"
        helpers = (
            f'COUNTIFS({keys},">"&{hour}*100,{keys},"<"&{hour}*100+100)',
            f'COUNTIFS({on},1,{PlanName.BLOCK_HOUR},"<"&{hour},{PlanName.BLOCK_ENDS},">"&{hour}*60)',
            f"{before}+IF(AND(${begun}{at}+${going}{at}=0,{hour}>=N({PlanName.STUDY_HOUR})),1,0)",
        )
        for number, formula in enumerate(helpers):
            book.put(sheet, at, hours.helper + number, Formula(formula), "hidden")
        counts = (f"${begun}{at}", f"${going}{at}")
        study = f'IF(${free}{at}>{before},{_study(hours, f"${free}{at}")},"")'
        words = f"IF({counts[0]}+{counts[1]}>0,{_blocks(hours, hour, counts)},{study})"
        book.put(sheet, at, hours.column, Formula(words), "small")
    letter = column_letter(hours.column)
    cells = f"{letter}{first}:{letter}{first + count - 1}"
    book.mark_where(sheet, cells, f"${begun}{first}+${going}{first}>0", book.look.quiet)
    book.mark_where(sheet, cells, f'LEFT(${letter}{first},6)="Study:"', book.look.good)


def _study(hours: HourColumn, slot: str) -> str:
    """The session to which the open hour of that number belongs."""
    days = PlanName.STUDY_DAY
    number = f'COUNTIFS({days},{hours.day},{PlanName.STUDY_SLOTS_END},"<"&{slot})+1'
    what = f"INDEX({PlanName.STUDY_WHAT},MATCH({hours.day}*100+{number},{PlanName.STUDY_KEYS},0))"
    planned = f"SUMIFS({PlanName.STUDY_SLOTS},{days},{hours.day})"
    return f'IF({slot}<={planned},{cut_words(what, str(2 * HOUR_CHARACTERS - 6))},"")'


def _blocks(hours: HourColumn, hour: str, counts: tuple[str, str]) -> str:
    """What begins in the hour, and what goes on in it."""
    begun, going = counts
    keys, names = week_key_name(hours.number), PlanName.BLOCK_NAMES
    mask = f"({week_on_name(hours.number)}=1)*({PlanName.BLOCK_HOUR}<{hour})*({PlanName.BLOCK_ENDS}>{hour}*60)"
    last = f"SUMPRODUCT(MAX({mask}*(ROW({names})-MIN(ROW({names}))+1)))"

    def words(column: str, number: int) -> str:
        return f"INDEX({column},MATCH({hour}*100+{number},{keys},0))"

    other = f"IF({begun}>1,{words(PlanName.LABELS_OTHER, 2)},INDEX({PlanName.LABELS_GOING_OTHER},{last}))"
    more = f'IF({begun}+{going}>2," +"&({begun}+{going}-2),"")'
    both = f"{words(PlanName.LABELS_HALF, 1)}&CHAR(10)&{other}&{more}"
    alone = f"IF({begun}+{going}=1,{words(PlanName.LABELS_FULL, 1)},{both})"
    return f"IF({begun}=0,INDEX({PlanName.LABELS_GOING},{last}),{alone})"
