"""Goals: what is aimed at, how it will be known, and next steps with their days; typed by the user."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.layout import Name
from syllabus_io.workbook.layout_plan import GOALS
from syllabus_io.workbook.text_formulas import day_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_STEP", "STEP_ROWS", "write_goals"]

_GOAL_ROWS = 8
STEP_ROWS = 24
_FIRST_GOAL = 6
FIRST_STEP = _FIRST_GOAL + _GOAL_ROWS + 4
_WIDTHS = (8.0, 36.0, 34.0, 16.5, 16.5, 30.0)
_LAST = len(_WIDTHS)
_KEY = _LAST + 1  # hidden: the goal and day of each step that is still to be done


def write_goals(book: Book) -> None:
    """Adds the sheet: the goals, then their steps."""
    sheet = book.add_sheet(GOALS)
    how = "A goal needs a way to know that it is reached, a day, and a next step. Steps show in Week and Day."
    book.head(sheet, GOALS, how, _LAST)
    last_goal, last_step = _FIRST_GOAL + _GOAL_ROWS - 1, FIRST_STEP + STEP_ROWS - 1
    headings = ("Number", "What is aimed at", "How it will be known", "By", "Reached on", "Next step")
    _headings(book, sheet, _FIRST_GOAL - 1, headings)
    for at in range(_FIRST_GOAL, last_goal + 1):
        styles = ("whole_centre", "entry_text", "entry_text", "entry_date", "entry_date", "text")
        values = (at - _FIRST_GOAL + 1, None, None, None, None, Formula(_next_step(at, last_step)))
        for column, (value, style) in enumerate(zip(values, styles, strict=True), start=1):
            book.put(sheet, at, column, value, style)
        sheet.row_dimensions[at].height = 32
    book.put(sheet, FIRST_STEP - 2, 1, "Next steps", "section")
    _headings(book, sheet, FIRST_STEP - 1, ("Goal", "Step", "What it takes", "Day", "Done", "State"))
    for at in range(FIRST_STEP, last_step + 1):
        styles = ("entry_whole", "entry_text", "entry_text", "entry_date", "entry_centre", "text")
        for column, style in enumerate(styles, start=1):
            value = Formula(_state(at)) if column == _LAST else None
            book.put(sheet, at, column, value, style)
        key = f'IF(AND($B{at}<>"",ISNUMBER($A{at}),ISNUMBER($D{at}),$E{at}=""),$A{at}*1000000+$D{at},"")'
        book.put(sheet, at, _KEY, Formula(key), "hidden")
        sheet.row_dimensions[at].height = 18
    book.accept_dates(sheet, f"D{_FIRST_GOAL}:E{last_goal}")
    book.accept_dates(sheet, f"D{FIRST_STEP}:D{last_step}")
    book.accept_numbers(sheet, f"A{FIRST_STEP}:A{last_step}", 1, _GOAL_ROWS)
    book.offer(sheet, f"E{FIRST_STEP}:E{last_step}", ("done",))
    book.mark_where(sheet, f"F{FIRST_STEP}:F{last_step}", f'$F{FIRST_STEP}="late"', book.look.warning, bold=True)
    book.set_widths(sheet, [*_WIDTHS, 10.0], (_KEY,))
    book.set_print_list(sheet, _LAST, (FIRST_STEP, last_step), FIRST_STEP - 1)


def _headings(book: Book, sheet: Worksheet, row: int, words: tuple[str, ...]) -> None:
    for column, word in enumerate(words, start=1):
        book.put(sheet, row, column, word, "heading")
    sheet.row_dimensions[row].height = 18


def _next_step(at: int, last: int) -> str:
    """The words and day of the goal's first step that is not done."""
    keys = f"$G${FIRST_STEP}:$G${last}"
    goal = f"$A{at}*1000000"
    nth = f'COUNTIF({keys},"<"&{goal})+1'
    there = f'COUNTIFS({keys},">="&{goal},{keys},"<"&({goal}+1000000))>0'
    place = f"MATCH(SMALL({keys},{nth}),{keys},0)"
    day = f"INDEX($D${FIRST_STEP}:$D${last},{place})"
    words = f'INDEX($B${FIRST_STEP}:$B${last},{place})&", "&{day_words(day)}'
    return f'IF($B{at}="","",IF(ISNUMBER($E{at}),"reached",IF({there},{words},"none yet: add one below")))'


def _state(at: int) -> str:
    late = f'IF($D{at}<{Name.TODAY},"late","")'
    return f'IF($B{at}="","",IF($E{at}<>"","done",IF(ISNUMBER($D{at}),{late},"no day")))'
