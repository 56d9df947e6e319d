"""Workload: what each week holds, with a chart; hours against credits; what clashes and what would help.
Twins: ``plan.workload`` and ``plan.clash_list``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.clash_list import MOST_NAMES
from syllabus_io.plan.clashes import BUSY_COUNT, BUSY_HOURS
from syllabus_io.plan.workload import CREDIT_WEEKS
from syllabus_io.workbook.book import Book, Formula, row_height
from syllabus_io.workbook.charts import column_chart, place_chart
from syllabus_io.workbook.layout import TERM, Name, column_letter
from syllabus_io.workbook.layout_plan import WORKLOAD, PlanName
from syllabus_io.workbook.load import FIRST_ROW as FIRST_LOAD_ROW
from syllabus_io.workbook.load import load_column
from syllabus_io.workbook.review import review_column
from syllabus_io.workbook.spans import put_across
from syllabus_io.workbook.term_weeks import shown_week_count
from syllabus_io.workbook.text_formulas import day_words, short_date_words

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["CLASH_ROWS", "FIRST_WEEK_ROW", "write_workload"]

_WIDTHS = (7.0, 17.0, 21.0, 8.0, 8.0, 10.0, 10.0, 12.0, 10.0, 10.0)
_LAST = len(_WIDTHS)
FIRST_WEEK_ROW = 6
CLASH_ROWS = 10
_BLOCK_CLASH_ROWS = 6
_KEY = _LAST + 1  # a hidden column: the clash, as a number
_HEADINGS = (
    "Week",
    "Monday",
    "What it is",
    "Items due",
    "Of these exams",
    "Hours of work",
    "Hours in class",
    "Commit-ments",
    "Together",
    "Load",
)


def write_workload(book: Book) -> None:
    """Adds the sheet."""
    sheet = book.add_sheet(WORKLOAD)
    book.set_widths(sheet, [*_WIDTHS, 10.0], (_KEY,))
    how = (
        "Hours of work are estimates by kind and weight, spread from the start of each item to its day, or over its "
        f"study sessions. Change them under Settings on {TERM}."
    )
    book.head(sheet, WORKLOAD, how, _LAST)
    sheet.row_dimensions[2].height = row_height([(how, sum(_WIDTHS))])
    weeks = shown_week_count(book)
    last = FIRST_WEEK_ROW + weeks - 1
    _write_weeks(book, sheet, last)
    row = _write_chart(book, sheet, last)
    _break_before(sheet, row + 1)
    row = _write_clashes(book, sheet, row + 1)
    _break_before(sheet, row + 2)
    end = _write_credits(book, sheet, row + 2)
    sheet.freeze_panes = f"A{FIRST_WEEK_ROW}"
    book.set_print(sheet, f"A1:{column_letter(_LAST)}{end}")


def _break_before(sheet: Worksheet, row: int) -> None:
    from openpyxl.worksheet.pagebreak import Break

    sheet.row_breaks.append(Break(id=row - 1))


def _write_weeks(book: Book, sheet: Worksheet, last: int) -> None:
    book.put(sheet, 3, 1, Formula(_outside(last)), "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=3, end_column=_LAST)
    for number, heading in enumerate(_HEADINGS, start=1):
        book.put(sheet, FIRST_WEEK_ROW - 1, number, heading, "heading")
    sheet.row_dimensions[FIRST_WEEK_ROW - 1].height = 32
    styles = ("whole_centre", "date", "text", *["whole_centre"] * 2, *["number"] * 4, "strong")
    for at in range(FIRST_WEEK_ROW, last + 1):
        formulas = _week_formulas(book, at, last)
        for number, (formula, style) in enumerate(zip(formulas, styles, strict=True), start=1):
            cell = book.put(sheet, at, number, Formula(formula), style)
            if style == "number":
                cell.number_format = "0.0"
        sheet.row_dimensions[at].height = 17
    load = f"$J{FIRST_WEEK_ROW}"
    book.mark_where(sheet, f"F{FIRST_WEEK_ROW}:J{last}", f'{load}="heavy"', book.look.warning, bold=True)
    rule = (
        f'IF(N({PlanName.HEAVY_WEEK})>0,"A week is heavy from "&{PlanName.HEAVY_WEEK}&" times the average hours of '
        'work: a rule of thumb, set on Term dates.","No week is called heavy: the rule is switched off.")'
    )
    book.put(sheet, last + 1, 1, Formula(rule), "note")
    sheet.merge_cells(start_row=last + 1, start_column=1, end_row=last + 1, end_column=_LAST)


def _outside(last: int) -> str:
    """What the weeks below do not show."""
    shown = f"SUM($D${FIRST_WEEK_ROW}:$D${last})"
    count = f"COUNT({Name.REVIEW_USED})-{shown}"
    return f'IF({count}=0,"Every dated item is in one of these weeks.",{count}&" dated items are outside these weeks.")'


def _week_formulas(book: Book, at: int, last: int) -> tuple[str, ...]:
    place = f"ROWS($A${FIRST_WEEK_ROW}:$A{at})"
    monday, work = f"$B{at}", f"$F{at}"
    used, kind = Name.REVIEW_USED, review_column(book, "kind")
    within = f'{used},">="&{monday},{used},"<="&{monday}+6'

    def days(name: str) -> str:
        return f'SUMIFS({name},{PlanName.PLAN_DAYS},">="&{monday},{PlanName.PLAN_DAYS},"<="&{monday}+6)'

    hours = f"$F${FIRST_WEEK_ROW}:$F${last}"
    limit = f'ROUND({PlanName.HEAVY_WEEK}*SUM({hours})/COUNTIF({hours},">0"),6)'
    heavy = f'IF(COUNTIF({hours},">0")=0,FALSE,ROUND({work},6)>={limit})'
    return (
        f"INDEX({Name.WEEK_NUMBERS},{place})",
        f"INDEX({Name.WEEK_MONDAYS},{place})",
        f'INDEX({PlanName.WEEK_LABELS},{place})&""',
        f"COUNTIFS({within})",
        f'COUNTIFS({within},{kind},"exam")',
        _work_hours(monday),
        days(PlanName.DAY_CLASS_HOURS),
        days(PlanName.DAY_COMMIT_HOURS),
        f"SUM($F{at}:$H{at})",
        f'IF(N({PlanName.HEAVY_WEEK})>0,IF({heavy},"heavy",""),"")',
    )


def _work_hours(monday: str) -> str:
    """Hours that fall in the week: those of even spread by the days shared with it, and those of study sessions."""
    first, last, sunday = PlanName.LOAD_FIRST, PlanName.LOAD_LAST, f"({monday}+6)"
    end = f"({last}-({last}>{sunday})*({last}-{sunday}))"
    begin = f"({first}+({first}<{monday})*({monday}-{first}))"
    shared = f"({end}>={begin})*({end}-{begin}+1)"
    sessions = f"({PlanName.EXAM_SESSIONS}>={monday})*({PlanName.EXAM_SESSIONS}<={sunday})"
    return f"SUMPRODUCT({PlanName.LOAD_RATE}*{shared})+SUMPRODUCT({sessions}*{PlanName.SESSION_HOURS})"


def _write_chart(book: Book, sheet: Worksheet, last: int) -> int:
    """Bars of the hours of work; returns the last row that the chart covers."""
    row = last + 3
    title = "Hours of work, week by week"
    values = f"'{WORKLOAD}'!$F${FIRST_WEEK_ROW}:$F${last}"
    letter = column_letter(_KEY)
    labels = f"'{WORKLOAD}'!${letter}${FIRST_WEEK_ROW}:${letter}${last}"
    for at in range(FIRST_WEEK_ROW, last + 1):
        label = f'IF(ISNUMBER($B{at}),{short_date_words(f"$B{at}")},"")'
        book.put(sheet, at, _KEY, Formula(label), "hidden")
    chart = column_chart(title, values, labels)
    chart.y_axis.number_format = "0"
    height = 210.0
    words = "Bars: the estimated hours of work in each week, as listed in the table above."
    place_chart(sheet, chart, f"A{row}", (500.0, height), words)
    return row + round(height / 15.0) + 1


# --- clashes ----------------------------------------------------------------------------------------------


def _write_clashes(book: Book, sheet: Worksheet, row: int) -> int:
    """What gets in each other's way, in order of day. Returns the last row used."""
    keys = _clash_keys(book)
    book.put(sheet, row, 1, Formula(f'"Clashes: "&COUNT({keys})'), "section")
    for column, word, until in ((1, "From", 2), (3, "What", 6), (7, "What would help: an earlier start", _LAST)):
        put_across(book, sheet, row + 1, (column, until), word, "heading")
    for number in range(1, CLASH_ROWS + 1):
        at = row + 1 + number
        key = f"${column_letter(_KEY)}{at}"
        book.put(sheet, at, _KEY, Formula(f'IF(COUNT({keys})>={number},SMALL({keys},{number}),"")'), "hidden")
        put_across(book, sheet, at, (1, 2), Formula(f'IF({key}="","",INT({key}))'), "date")
        put_across(book, sheet, at, (3, 6), Formula(f'IF({key}="","",{_what(book, key)})'), "text")
        put_across(book, sheet, at, (7, _LAST), Formula(f'IF({key}="","",{_help(book, key)})'), "text")
        sheet.row_dimensions[at].height = row_height([("a\nb\nc", 9.0)])
    row += CLASH_ROWS + 2
    more = f'IF(COUNT({keys})>{CLASH_ROWS},"and "&COUNT({keys})-{CLASH_ROWS}&" more","")'
    rule = (
        f'"{BUSY_COUNT} things that count much within {BUSY_HOURS} hours are called a clash: common practice, '
        'no source. "&'
    )
    put_across(book, sheet, row, (1, _LAST), Formula(rule + more), "note")
    return _write_block_clashes(book, sheet, row + 1)


def _clash_keys(book: Book) -> str:
    first, last = load_column(book, "clash_exams"), load_column(book, "clash_busy")
    return f"{first.split(':')[0]}:{last.split(':')[1]}"


def _sort(key: str) -> str:
    return f"INT(ROUND(({key}-INT({key}))*10,4))"


def _place(key: str) -> str:
    """The place on Review of the item with which the clash begins."""
    return f"(ROUND(({key}-INT({key})-{_sort(key)}/10)*1000000,0)-{FIRST_LOAD_ROW - 1})"


def _name_at(book: Book, place: str) -> str:
    return f'INDEX({review_column(book, "course")},{place})&" "&INDEX({review_column(book, "title")},{place})'


def _nth(book: Book, key: str, kind: str, number: str) -> str:
    """The place on Review of the n-th exam of the day, or of the n-th thing of the stretch."""
    if kind == "exam":
        return f"MATCH(INT({key})*100+{number},{load_column(book, 'exam_key')},0)"
    ranks = load_column(book, "rank")
    return f"MATCH(INDEX({ranks},{_place(key)})+{number}-1,{ranks},0)"


def _count(book: Book, key: str, kind: str) -> str:
    if kind == "exam":
        return f"COUNTIF({PlanName.LOAD_EXAM_DAY},INT({key}))"
    return f"INDEX({load_column(book, 'busy')},{_place(key)})"


def _what(book: Book, key: str) -> str:
    def named(kind: str) -> str:
        count = _count(book, key, kind)
        parts = [_name_at(book, _nth(book, key, kind, "1"))]
        parts += [
            f'IF({count}>={number},", "&{_name_at(book, _nth(book, key, kind, str(number)))},"")'
            for number in range(2, MOST_NAMES + 1)
        ]
        more = f'IF({count}>{MOST_NAMES}," and "&{count}-{MOST_NAMES}&" more","")'
        return "&".join((*parts, more))

    exams = f'{_count(book, key, "exam")}&" exams on one day: "&{named("exam")}'
    off = f'{_name_at(book, _place(key))}&" falls on a day off"'
    busy = f'{_count(book, key, "busy")}&" things that count much within {BUSY_HOURS} hours: "&{named("busy")}'
    return f"IF({_sort(key)}=1,{exams},IF({_sort(key)}=2,{off},{busy}))"


def _help(book: Book, key: str) -> str:
    def begin(place: str) -> str:
        start = f"INDEX({review_column(book, 'start')},{place})"
        day = f"MAX(MIN({Name.FIRST_DAY},{start}),{start}-{PlanName.EASE_DAYS})"
        return f'IF(N({PlanName.EASE_DAYS})>0,"Begin "&{_name_at(book, place)}&" by "&{day_words(day)}&".","")'

    last = _nth(book, key, "busy", _count(book, key, "busy"))
    off = '"Ask whether the date or the day off is right."'
    return f"IF({_sort(key)}=1,{begin(_nth(book, key, 'exam', '2'))},IF({_sort(key)}=2,{off},{begin(last)}))"


def _write_block_clashes(book: Book, sheet: Worksheet, row: int) -> int:
    """Classes and commitments at the same time. Returns the last row used."""
    keys = PlanName.BLOCK_CLASH_KEYS
    title = Formula(f'"Classes and commitments at the same time: "&COUNT({keys})')
    book.put(sheet, row, 1, title, "section")
    for number in range(1, _BLOCK_CLASH_ROWS + 1):
        at = row + number
        place = f"SMALL({keys},{number})"
        other = f"INDEX({PlanName.BLOCK_NAMES},INDEX({PlanName.BLOCK_CLASH},{place}))"
        words = f'IF(COUNT({keys})<{number},"",{other}&" and "&INDEX({PlanName.BLOCK_NAMES},{place}))'
        put_across(book, sheet, at, (1, 6), Formula(words), "text")
        help_words = f'IF(COUNT({keys})<{number},"","Ask which of the two can move.")'
        put_across(book, sheet, at, (7, _LAST), Formula(help_words), "text")
        sheet.row_dimensions[at].height = 17
    return row + _BLOCK_CLASH_ROWS


# --- credits ----------------------------------------------------------------------------------------------

_CREDIT_HEADINGS = (
    (1, 2, "Course"),
    (3, 3, "Credits"),
    (4, 5, "Class hours a week"),
    (6, 6, "for its credits"),
    (7, 8, "Own work planned, a week"),
    (9, 9, "for its credits"),
    (10, 10, f"In {CREDIT_WEEKS} weeks"),
)


def _write_credits(book: Book, sheet: Worksheet, row: int) -> int:
    """A check line for each course and one for all. Returns the last row used."""
    book.put(sheet, row, 1, "Hours against credits", "section")
    for first, last, word in _CREDIT_HEADINGS:
        put_across(book, sheet, row + 1, (first, last), word, "heading")
    sheet.row_dimensions[row + 1].height = 45
    count = max(1, len(book.plan.resolved.courses))
    first = row + 2
    for number in range(1, count + 1):
        _write_credit_row(book, sheet, first + number - 1, _credit_formulas(book, number), "text")
    last = first + count - 1
    letters = ("C", "D", "F", "G", "I", "J")
    sums = tuple(f"SUM({letter}{first}:{letter}{last})" for letter in letters)
    _write_credit_row(book, sheet, last + 1, ('"All courses"', *sums), "strong")
    words = (
        "A credit stands for an hour of class and at least two of own work a week, over about 15 weeks (US federal "
        "definition, 34 CFR 600.2, cited from memory); schools elsewhere count otherwise. Own work planned is what the "
        "dated items are estimated to take: reading and practice without a date come on top. Only a check; change or "
        f"switch off the figures on {TERM}."
    )
    put_across(book, sheet, last + 2, (1, _LAST), words, "note")
    sheet.row_dimensions[last + 2].height = row_height([(words, sum(_WIDTHS))])
    return last + 2


def _write_credit_row(book: Book, sheet: Worksheet, at: int, formulas: tuple[str, ...], style: str) -> None:
    for (first, last, _), formula in zip(_CREDIT_HEADINGS, formulas, strict=True):
        put_across(book, sheet, at, (first, last), Formula(formula), style if first == 1 else "number")
        if first > 3:
            sheet.cell(at, first).number_format = "0.0"
    sheet.row_dimensions[at].height = 17


def _credit_formulas(book: Book, number: int) -> tuple[str, ...]:
    key, held = f"INDEX({Name.COURSES},{number})", f"INDEX({Name.CREDITS},{number})"
    weeks = f'MAX(1,COUNTIFS({Name.WEEK_NUMBERS},">0",{Name.WEEK_MONDAYS},"<="&{Name.LAST_DAY}))'
    own = f"SUMPRODUCT(({review_column(book, 'course')}={key})*{PlanName.LOAD_HOURS})/{weeks}"

    def expected(rate: str) -> str:
        return f'IF(AND(N({held})>0,N({rate})>0),{held}*{rate},"")'

    total = f"{CREDIT_WEEKS}*{held}*(N({PlanName.CLASS_PER_CREDIT})+N({PlanName.OWN_PER_CREDIT}))"
    return (
        f'{key}&""',
        f'IF(ISNUMBER({held}),{held},"")',
        f"SUMIF({PlanName.CLASS_NUMBERS},{number},{PlanName.CLASS_WEEK_HOURS})",
        expected(PlanName.CLASS_PER_CREDIT),
        own,
        expected(PlanName.OWN_PER_CREDIT),
        f'IF(N({held})>0,{total},"")',
    )
