"""Projects: a page for each project or large assignment: what is asked, steps laid back from its day, needs, a log.
Twin: ``plan.projects``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from syllabus_io.plan.projects import MOST_STEPS, ProjectPlan, plan_projects
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.layout import Name, column_letter
from syllabus_io.workbook.layout_plan import PROJECTS, PlanName
from syllabus_io.workbook.review import review_column
from syllabus_io.workbook.spans import put_across

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["BLOCK_ROWS", "StepCells", "first_step_row", "project_blocks", "step_cells", "write_projects"]

_SPARE_BLOCKS = 2
_WIDTHS = (25.0, 8.0, 16.5, 16.5, 8.0, 8.0, 17.0)
_LAST = len(_WIDTHS)
_ID = _LAST + 1  # hidden columns from here
_KEYS = (
    "step",
    "share",
    "by",
    "own",
    "state",
    "done",
    "note",
    "id",
    "milestone",
    "fixed",
    "from_share",
    "from_day",
    "to_share",
    "to_day",
    "after_fixed",
    "laid",
    "moved",
    "open",
    "done_share",
)
_STEPS_AT, _NEEDS_AT, _LOG_AT = 8, 18, 26  # rows of a block, from 0
_NEEDS, _LOG = 6, 8
BLOCK_ROWS = _LOG_AT + _LOG
_TOP = 3


@dataclass(frozen=True, slots=True)
class StepCells:
    """Where the agenda finds a step: its course, its project's title, its words, its day and whether it is done."""

    course: str
    title: str
    step: str
    day: str
    done: str


def project_blocks(book: Book) -> tuple[ProjectPlan | None, ...]:
    """The planners in order; None for those left free."""
    return (*plan_projects(book.plan), *[None] * _SPARE_BLOCKS)


def _block_row(number: int) -> int:
    return _TOP + number * BLOCK_ROWS


def first_step_row(number: int) -> int:
    """The row of the first step of block ``number``, counted from 0."""
    return _block_row(number) + _STEPS_AT


def step_cells(number: int, step: int) -> StepCells:
    """The cells of a step, both counted from 0, as formulas on another sheet write them."""
    top, at = _block_row(number), first_step_row(number) + step

    def cell(letter: str, row: int, fixed: str = "") -> str:
        return f"'{PROJECTS}'!${letter}{fixed}{row}"

    helper = column_letter(_ID + 2)
    return StepCells(cell(helper, top, "$"), cell(helper, top + 1, "$"), cell("A", at), cell("C", at), cell("F", at))


def write_projects(book: Book) -> None:
    """Adds the sheet, a page a block."""
    sheet = book.add_sheet(PROJECTS)
    how = (
        "Steps are laid back from the day it is due: a rule of thumb. Change shares, type own days, tick what is done."
    )
    book.head(sheet, PROJECTS, how, _LAST)
    blocks = project_blocks(book)
    areas = []
    for number, block in enumerate(blocks):
        top = _block_row(number)
        _write_block(book, sheet, top, number, block)
        areas.append(f"A{top if number else 1}:{column_letter(_LAST)}{top + BLOCK_ROWS - 1}")
    hidden = tuple(range(_ID, len(_KEYS) + 1))
    book.set_widths(sheet, [*_WIDTHS, *[11.0] * len(hidden)], hidden)
    book.set_print(sheet, ",".join(areas))


def _write_block(book: Book, sheet: Worksheet, top: int, number: int, block: ProjectPlan | None) -> None:
    id_cell, source = f"${column_letter(_ID)}${top}", f"${column_letter(_ID + 1)}${top}"
    if block:
        book.put(sheet, top, _ID, block.item, "hidden")
        title = (
            f'IF({source}="","(no longer in the plan)",{_of(book, "course", source)}&": "&{_of(book, "title", source)})'
        )
        put_across(book, sheet, top, (1, _LAST), Formula(title), "section")
    else:
        found = f'IFERROR(INDEX({Name.REVIEW_IDS},MATCH($A${top},{Name.REVIEW_TITLES},0)),"")'
        book.put(sheet, top, _ID, Formula(f'IF($A${top}="","",{found})'), "hidden")
        put_across(book, sheet, top, (1, _LAST), None, "entry_text")
        book.offer(sheet, f"A{top}", Name.REVIEW_TITLES)
    sheet.row_dimensions[top].height = 26
    book.put(sheet, top, _ID + 1, Formula(f'IFERROR(MATCH({id_cell},{Name.REVIEW_IDS},0),"")'), "hidden")
    for offset, key in enumerate(("course", "title")):
        words = f'IF({source}="","",{_of(book, key, source)}&"")'
        book.put(sheet, top + offset, _ID + 2, Formula(words), "hidden")
    _write_facts(book, sheet, top, source, free=block is None)
    put_across(book, sheet, top + 4, (1, _LAST), "What is asked", "section")
    put_across(book, sheet, top + 5, (1, _LAST), block.asked if block else None, "entry_text", typed=bool(block))
    asked = block.asked if block else ""
    sheet.row_dimensions[top + 5].height = max(60.0, min(130.0, row_height([(asked, sum(_WIDTHS))])))
    _write_steps(book, sheet, top, number, block)
    _write_rows(book, sheet, top + _NEEDS_AT - 2, "What it needs", _NEED_COLUMNS, _NEEDS)
    _write_rows(book, sheet, top + _LOG_AT - 2, "Log", _LOG_COLUMNS, _LOG)
    first, last = top + _NEEDS_AT, top + _NEEDS_AT + _NEEDS - 1
    book.offer(sheet, f"A{first}:A{last}", ("book", "tool", "person", "link", "other"), strict=False)


_NEED_COLUMNS: tuple[tuple[int, int, str, str], ...] = (
    (1, 1, "Book, tool, person, link", "entry_text"),
    (2, 4, "What", "entry_text"),
)
_NEED_COLUMNS += ((5, 6, "Have it", "entry_centre"), (7, 7, "Where", "entry_text"))
_LOG_COLUMNS: tuple[tuple[int, int, str, str], ...] = (
    (1, 1, "Day", "entry_date"),
    (2, 5, "What was done", "entry_text"),
)
_LOG_COLUMNS += ((6, 6, "Minutes", "entry_whole"), (7, 7, "What next", "entry_text"))


def _write_rows(
    book: Book, sheet: Worksheet, row: int, title: str, columns: tuple[tuple[int, int, str, str], ...], count: int
) -> None:
    """A small table to fill in: its title, its headings, its rows."""
    put_across(book, sheet, row, (1, _LAST), title, "section")
    for first, last, heading, style in columns:
        put_across(book, sheet, row + 1, (first, last), heading, "heading")
        for at in range(row + 2, row + 2 + count):
            put_across(book, sheet, at, (first, last), None, style)
            sheet.row_dimensions[at].height = 17


def _of(book: Book, key: str, source: str) -> str:
    return f"INDEX({review_column(book, key)},{source})"


def _write_facts(book: Book, sheet: Worksheet, top: int, source: str, free: bool) -> None:
    """When it is due and what is left; the cells B and D to G of two rows."""
    due, hours = f"$C${top + 1}", f"$F${top + 1}"
    left = f"$F${top + 2}"

    def known(formula: str) -> str:
        return f'IF({source}="","",{formula})'

    def number(key: str) -> str:
        return known(f'IF(ISNUMBER({_of(book, key, source)}),{_of(book, key, source)},"")')

    if free:
        book.put(sheet, top + 3, 1, "Choose a piece of work in the framed cell above.", "note")
    letter, first = column_letter(len(_KEYS)), top + _STEPS_AT
    steps = f"${letter}${first}:${letter}${first + MOST_STEPS - 1}"
    is_done = f'{_of(book, "done", source)}<>""'
    cells: tuple[tuple[int, int, str, str, str], ...] = (
        (1, 1, "Due", number("used"), "date"),
        (2, 1, "Begin by", number("start"), "date"),
        (1, 4, "Hours, estimated", known(f"INDEX({PlanName.LOAD_HOURS},{source})"), "number"),
        (2, 4, "Hours left", known(f"IF({is_done},0,{hours}*(1-MAX({steps})))"), "number"),
    )
    for row, column, label, formula, style in cells:
        put_across(book, sheet, top + row, (column, column + 1), label, "label")
        book.put(sheet, top + row, column + 2, Formula(formula), style)
    if not free:
        slack = Formula(f'IF({source}="","",{_slack_words(_slack(due, left))})')
        put_across(book, sheet, top + 3, (1, _LAST), slack, "free")


def _slack(due: str, left: str) -> str:
    first, rows = f"INDEX({PlanName.PLAN_DAYS},1)", f"ROWS({PlanName.PLAN_DAYS})"
    held = f"AND({Name.TODAY}>{first},{due}-{first}<={rows})"
    until = f"INDEX({PlanName.WORK_COUNT},{due}-{first})"
    before = f"INDEX({PlanName.WORK_COUNT},{Name.TODAY}-{first})"
    needed = f"ROUNDUP(ROUND({left}/{Name.HOURS_PER_DAY},6),0)"
    return f'IF(ISNUMBER({due}),IF({due}<{Name.TODAY},"",IF({held},{until}-{before}-{needed},"")),"")'


def _slack_words(slack: str) -> str:
    spare = (
        f'"Slack: "&{slack}&IF({slack}=1," day"," days")&", if "&{Name.HOURS_PER_DAY}&" hours are worked on each '
        'open day."'
    )
    short = (
        f'"No slack: "&-{slack}&IF({slack}=-1," day is"," days are")&" missing. Begin at once, or work longer days."'
    )
    return f'IF(ISNUMBER({slack}),IF({slack}<0,{short},{spare}),"")'


# --- steps ------------------------------------------------------------------------------------------------

_HEADINGS = ("Step", "Share of time", "By", "Your own day", "State", "Done", "Note")
_STYLES = ("entry_text", "entry_percent", "date", "entry_date", "strong", "entry_centre", "entry_text")


def _write_steps(book: Book, sheet: Worksheet, top: int, number: int, block: ProjectPlan | None) -> None:
    put_across(book, sheet, top + _STEPS_AT - 2, (1, _LAST), "Steps", "section")
    for column, heading in enumerate(_HEADINGS, start=1):
        book.put(sheet, top + _STEPS_AT - 1, column, heading, "heading")
    sheet.row_dimensions[top + _STEPS_AT - 1].height = 30
    steps = block.steps if block else ()
    first, last = top + _STEPS_AT, top + _STEPS_AT + MOST_STEPS - 1
    for at in range(first, last + 1):
        step = steps[at - first] if at - first < len(steps) else None
        made = _step_formulas(at, top, (first, last))
        note = "set by the outline" if step and step.milestone else None
        values: dict[str, Value] = {
            "step": step.name if step else None,
            "share": step.share if step else None,
            "own": None,
            "done": None,
            "note": note,
            "id": f"step-{number + 1:02}-{at - first + 1}",
            "milestone": step.milestone if step else "",
        }
        for column, key in enumerate(_KEYS, start=1):
            style = _STYLES[column - 1] if column <= _LAST else "hidden"
            value = values[key] if key in values else Formula(made[key])
            book.put(sheet, at, column, value, style, typed=isinstance(value, str) and column <= _LAST)
        sheet.row_dimensions[at].height = 17
    book.offer(sheet, f"F{first}:F{last}", ("done",))
    book.accept_dates(sheet, f"D{first}:D{last}")
    book.accept_numbers(sheet, f"B{first}:B{last}", 0, 1)
    book.mark_where(sheet, f"E{first}:E{last}", f'$E{first}="late"', book.look.warning, bold=True)
    book.mark_where(sheet, f"E{first}:E{last}", f'$E{first}="done"', book.look.good)


def _step_formulas(at: int, top: int, bounds: tuple[int, int]) -> dict[str, str]:
    """The day of a step: its own, that of its milestone, or one laid between those around it."""
    first, last = bounds
    due, start = f"$C${top + 1}", f"$C${top + 2}"

    def cell(key: str, row: int = at) -> str:
        return f"${column_letter(_KEYS.index(key) + 1)}{row}"

    used = f"INDEX({Name.REVIEW_USED},MATCH({cell('milestone')},{Name.REVIEW_IDS},0))"
    milestone = f'IF({cell("milestone")}="","",IFERROR(IF(ISNUMBER({used}),{used},""),""))'
    above, below = at - 1, at + 1
    fixed_above, fixed_below = f"ISNUMBER({cell('fixed', above)})", f"ISNUMBER({cell('fixed', below)})"
    share_below = f"IF(ISNUMBER({cell('share', below)}),{cell('share', below)},1)"
    span = f"({cell('to_share')}-{cell('from_share')})"
    part = f"IF({span}>0,MIN(1,MAX(0,({cell('share')}-{cell('from_share')})/{span})),1)"
    days = f"(MAX({cell('from_day')},{cell('to_day')})-{cell('from_day')})"
    laid = f"MIN({cell('from_day')}+ROUND(ROUND({days}*{part},6),0),{due}-1)"
    place = f"({cell('laid')}-INDEX({PlanName.PLAN_DAYS},1)+1)"
    count = f"INDEX({PlanName.WORK_COUNT},{place})"
    found = f"IF({count}=0,{cell('laid')},INDEX({PlanName.PLAN_DAYS},MATCH({count},{PlanName.WORK_COUNT},0)))"
    held = f"AND({place}>=1,{place}<=ROWS({PlanName.PLAN_DAYS}))"
    can = f"AND(ISNUMBER({cell('share')}),ISNUMBER({due}))"
    by = f'IF({can},IF({cell("after_fixed")}=1,MAX({cell("moved")},{cell("from_day")}),{cell("moved")}),"")'
    undone = f"SUM({cell('open', first)}:{cell('open')})"
    return {
        "by": f"IF(ISNUMBER({cell('fixed')}),{cell('fixed')},{by})",
        "state": f'IF(OR({cell("step")}="",NOT(ISNUMBER({cell("by")}))),"",IF({cell("done")}<>"","done",'
        f'IF({cell("by")}<{Name.TODAY},"late",IF({undone}=1,"next",""))))',
        "fixed": f"IF(ISNUMBER({cell('own')}),{cell('own')},{milestone})",
        "from_share": "0"
        if at == first
        else f"IF({fixed_above},N({cell('share', above)}),{cell('from_share', above)})",
        "from_day": start if at == first else f"IF({fixed_above},{cell('fixed', above)},{cell('from_day', above)})",
        "to_share": "1" if at == last else f"IF({fixed_below},{share_below},{cell('to_share', below)})",
        "to_day": due if at == last else f"IF({fixed_below},{cell('fixed', below)},{cell('to_day', below)})",
        "after_fixed": "0" if at == first else f"IF({fixed_above},1,{cell('after_fixed', above)})",
        "laid": f'IF({can},{laid},"")',
        "moved": f'IF(ISNUMBER({cell("laid")}),IF({held},{found},{cell("laid")}),"")',
        "open": f'IF(AND({cell("step")}<>"",ISNUMBER({cell("by")}),{cell("done")}=""),1,0)',
        "done_share": f'IF(AND({cell("done")}<>"",ISNUMBER({cell("share")})),{cell("share")},0)',
    }
