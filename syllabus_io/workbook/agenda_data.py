"""Agenda data (hidden): a row for everything that stands on a day: items, study sessions, steps, own tasks, goals.
Twin: ``plan.agenda``."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from syllabus_io.plan.agenda import PRIORITY, TASK_PREFIX
from syllabus_io.plan.projects import MOST_STEPS
from syllabus_io.plan.start_dates import MOST_SESSIONS
from syllabus_io.workbook.book import Book, Formula
from syllabus_io.workbook.exams import exam_row_count
from syllabus_io.workbook.goals import FIRST_STEP, STEP_ROWS
from syllabus_io.workbook.layout import REVIEW_TABLE, column_letter
from syllabus_io.workbook.layout_plan import AGENDA_DATA, GOALS, TO_DO_TABLE, PlanName
from syllabus_io.workbook.projects import project_blocks, step_cells
from syllabus_io.workbook.review import last_review_row, review_column
from syllabus_io.workbook.text_formulas import clock_words, short_date_words
from syllabus_io.workbook.to_do import TO_DO_ROWS

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["FIRST_ROW", "LATE_DAYS", "agenda_row_count", "write_agenda_data", "write_priorities"]

FIRST_ROW = 2
LATE_DAYS = 14
"""So many days a step or task that was not done stays in the list of a later day."""
_COLUMNS = ("day", "sort", "what", "hours", "key", "task_key", "study_key", "slots", "slots_end")


@dataclass(frozen=True, slots=True)
class _Entry:
    """The formulas of a row, and in how many rows they stand, references moved along; ``task`` is its number in the
    list of a day, before its own priority is added."""

    day: str
    sort: str
    what: str
    hours: str
    task: str
    rows: int = 1


def agenda_row_count(book: Book) -> int:
    """Rows of the sheet."""
    items = last_review_row(book) - REVIEW_TABLE.heading_row
    sessions, steps = exam_row_count(book) * MOST_SESSIONS, len(project_blocks(book)) * MOST_STEPS
    return items + sessions + steps + TO_DO_ROWS + STEP_ROWS


def write_agenda_data(book: Book) -> None:
    """Adds the sheet and defines the names of its columns."""
    sheet = book.add_sheet(AGENDA_DATA, hidden=True)
    for number, key in enumerate(_COLUMNS, start=1):
        book.put(sheet, 1, number, key, "hidden")
    items = last_review_row(book) - REVIEW_TABLE.heading_row
    first_study = FIRST_ROW + items
    last_study = first_study + exam_row_count(book) * MOST_SESSIONS - 1
    at = FIRST_ROW
    for entry in _entries(book):
        _write_entry(book, sheet, at, entry)
        at += entry.rows
    _write_study(book, sheet, first_study, last_study - first_study + 1)
    for key, name in (
        ("day", PlanName.AGENDA_DAY),
        ("sort", PlanName.AGENDA_SORT),
        ("what", PlanName.AGENDA_WHAT),
        ("hours", PlanName.AGENDA_HOURS),
        ("key", PlanName.AGENDA_KEYS),
        ("task_key", PlanName.AGENDA_TASK_KEYS),
    ):
        book.name(name, AGENDA_DATA, f"{_letter(key)}{FIRST_ROW}", f"{_letter(key)}{at - 1}")
    for key, name in (
        ("day", PlanName.STUDY_DAY),
        ("what", PlanName.STUDY_WHAT),
        ("study_key", PlanName.STUDY_KEYS),
        ("slots", PlanName.STUDY_SLOTS),
        ("slots_end", PlanName.STUDY_SLOTS_END),
    ):
        book.name(name, AGENDA_DATA, f"{_letter(key)}{first_study}", f"{_letter(key)}{last_study}")


def _letter(key: str) -> str:
    return column_letter(_COLUMNS.index(key) + 1)


def _cell(key: str, at: int) -> str:
    return f"${_letter(key)}{at}"


def _write_entry(book: Book, sheet: Worksheet, at: int, entry: _Entry) -> None:
    day, sort = _cell("day", at), _cell("sort", at)
    rank = f"INDEX({PlanName.SORT_PRIORITY},MATCH({sort},{PlanName.SORT_LIST},0))/20+ROW()/1000000"
    formulas = {
        "day": entry.day,
        "sort": f'IF({day}="","",{entry.sort})',
        "what": f'IF({day}="","",{entry.what})',
        "hours": f'IF({day}="",0,{entry.hours})',
        "key": f'IF({day}="","",IFERROR({day}+{rank},{day}+0.9))',
        "task_key": f'IF({day}="","",IFERROR({entry.task}+{rank},""))',
    }
    for key, formula in formulas.items():
        book.fill(sheet, at, _COLUMNS.index(key) + 1, entry.rows, Formula(formula))


def _write_study(book: Book, sheet: Worksheet, first: int, rows: int) -> None:
    """The place of a session among those of its day, and the hours it takes, in whole hours."""
    at = first
    day, slots = _cell("day", at), _cell("slots", at)
    days, above = f"{_cell('day', 0)[:-1]}${first}:{day}", f"{_cell('slots', 0)[:-1]}${first}:{slots}"
    formulas = {
        "study_key": f'IF({day}="","",{day}*100+COUNTIF({days},{day}))',
        "slots": f'IF({day}="",0,MAX(1,ROUND(ROUND({_cell("hours", at)},6),0)))',
        "slots_end": f'IF({day}="",0,SUMIFS({above},{days},{day}))',
    }
    for key, formula in formulas.items():
        book.fill(sheet, at, _COLUMNS.index(key) + 1, rows, Formula(formula))


def _entries(book: Book) -> Iterator[_Entry]:
    items = last_review_row(book) - REVIEW_TABLE.heading_row
    yield replace(_item(book, 24 if book.options.paper == "a4" else 12), rows=items)
    yield replace(_study(book, FIRST_ROW + items), rows=exam_row_count(book) * MOST_SESSIONS)
    for block in range(len(project_blocks(book))):
        yield replace(_step(block, 0), rows=MOST_STEPS)
    yield replace(_task(TO_DO_TABLE.first_row), rows=TO_DO_ROWS)
    yield replace(_goal(FIRST_STEP), rows=STEP_ROWS)


def _on_day(day: str, done: str, first: str = "2000") -> str:
    """The number of something that has its own day: that day, or late for some time; no number once done."""
    shown = PlanName.DAY_SHOWN
    late = f"AND({day}<{shown},{day}>={shown}-{LATE_DAYS})"
    return f"IF({done},NA(),IF({day}={shown},{first},IF({late},2500+{shown}-{day},NA())))"


def _item(book: Book, hours: int) -> _Entry:
    place = f"(ROW()-{FIRST_ROW - 1})"

    def cell(key: str) -> str:
        return f"INDEX({review_column(book, key)},{place})"

    used, kind, time, until = cell("used"), cell("kind"), cell("time"), cell("until")
    prefix = f'IF({kind}="exam","Exam: ",IF({kind}="reading","Read: ",""))'
    clock = f'IF(ISNUMBER({time})," "&{clock_words(f"ROUND({time}*1440,0)", hours)},"")'
    window = f'IF(N({until})>{used}," (to "&{short_date_words(until)}&")","")'
    what = f'{prefix}&{cell("course")}&" "&{cell("title")}&{clock}&{window}'
    shown = PlanName.DAY_SHOWN
    begun = f'AND({cell("done")}="",N({cell("start")})<={shown},MAX({used},N({until}))>={shown})'
    task = f"IF({begun},IF({used}<={shown},1000,3000+{used}-{shown}),NA())"
    return _Entry(f'IF(ISNUMBER({used}),{used},"")', f'{kind}&""', what, f"INDEX({PlanName.LOAD_HOURS},{place})", task)


def _study(book: Book, first: int) -> _Entry:
    number, session = f"INT((ROW()-{first})/{MOST_SESSIONS})+1", f"MOD(ROW()-{first},{MOST_SESSIONS})+1"
    day = f"INDEX({PlanName.EXAM_SESSIONS},{number},{session})"
    source = f"INDEX({PlanName.EXAM_SOURCES},{number})"

    def of(key: str) -> str:
        return f"INDEX({review_column(book, key)},{source})"

    what = f'"Study: "&{of("course")}&" "&{of("title")}'
    task = f'IF({of("done")}<>"",NA(),IF({day}={PlanName.DAY_SHOWN},2000,NA()))'
    return _Entry(f'IF(ISNUMBER({day}),{day},"")', '"study"', what, f"INDEX({PlanName.SESSION_HOURS},{number})", task)


def _step(block: int, step: int) -> _Entry:
    cells = step_cells(block, step)
    day = f'IF(AND({cells.step}<>"",ISNUMBER({cells.day})),{cells.day},"")'
    what = f'"Step: "&{cells.course}&" "&{cells.step}&": "&{cells.title}'
    return _Entry(day, '"step"', what, "0", _on_day(cells.day, f'{cells.done}<>""'))


def _task(row: int) -> _Entry:
    def cell(key: str) -> str:
        return f"'{TO_DO_TABLE.sheet}'!{TO_DO_TABLE.cell(key, row)}"

    day, sort, who = cell("day"), cell("sort"), cell("who")
    listed = f'OR({sort}="task",{sort}="call",{sort}="message")'
    prefix = (
        f'IF({sort}="call","{TASK_PREFIX["call"]}",IF({sort}="message","{TASK_PREFIX["message"]}",'
        f'"{TASK_PREFIX["task"]}"))'
    )
    what = f'{prefix}&{cell("what")}&IF({who}="",""," ("&{who}&")")'
    done = f'OR({cell("done")}<>"",{sort}<>"task")'
    return _Entry(
        f'IF(AND(ISNUMBER({day}),{listed}),{day},"")',
        sort,
        what,
        "0",
        _on_day(day, done, f"IF({cell('matters')}=1,1500,2000)"),
    )


def _goal(row: int) -> _Entry:
    step, day, done = (f"'{GOALS}'!${letter}{row}" for letter in "BDE")
    return _Entry(
        f'IF(AND({step}<>"",ISNUMBER({day})),{day},"")',
        '"goal"',
        f'"{TASK_PREFIX["goal"]}"&{step}',
        "0",
        _on_day(day, f'{done}<>""'),
    )


def write_priorities(book: Book, sheet: Worksheet, column: int) -> None:
    """The list of sorts and their priorities, two columns of a hidden sheet."""
    for number, (sort, priority) in enumerate(PRIORITY.items(), start=1):
        book.put(sheet, number, column, sort, "hidden")
        book.put(sheet, number, column + 1, priority, "hidden")
    for name, offset in ((PlanName.SORT_LIST, 0), (PlanName.SORT_PRIORITY, 1)):
        letter = column_letter(column + offset)
        book.name(name, sheet.title, f"{letter}1", f"{letter}{len(PRIORITY)}")
