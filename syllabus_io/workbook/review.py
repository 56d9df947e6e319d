"""Review: a row for each item as read, the one place from which every other sheet takes its dates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.workbook.as_printed import picture_links
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.formulas import order_key, start_by
from syllabus_io.workbook.item_dates import DateFormulas, date_formulas
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE, TERM, Column, Name
from syllabus_io.workbook.review_rows import ReviewRow

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["last_review_row", "review_column", "write_review"]

_LEAST_FREE_ROWS = 30
_TABLE = REVIEW_TABLE


def last_review_row(book: Book) -> int:
    """The last row of the table, rows left free for the user included."""
    count = len(book.rows)
    return _TABLE.heading_row + count + max(_LEAST_FREE_ROWS, count // 8, book.free_rows)


def review_column(book: Book, key: str) -> str:
    """The name of all rows of a column of Review, for formulas on any sheet. By name: a formula that repeats can be
    written once then."""
    name = f"Review_{key}"
    if name not in book.names:
        book.name(name, REVIEW, *(f"{_TABLE.letter(key)}{row}" for row in (_TABLE.first_row, last_review_row(book))))
    return name


def write_review(book: Book) -> None:
    """Adds the sheet: counts, the table of items with free rows below, then days off."""
    sheet = book.add_sheet(REVIEW)
    rows = book.rows
    last = last_review_row(book)
    _write_top(book, sheet, last)
    dates = date_formulas(book.plan.resolved, rows, book.fixed)
    for at, (row, formulas) in enumerate(zip(rows, dates, strict=True), start=_TABLE.first_row):
        _write_item(book, sheet, at, row, formulas)
    _write_links(book, sheet)
    for number, at in enumerate(range(_TABLE.first_row + len(rows), last + 1), start=1):
        _write_free_row(book, sheet, at, number)
    _add_table(sheet, last)
    _add_entries(book, sheet, last)
    _write_days_off(book, sheet, last + 2)
    hidden = tuple(_TABLE.number(column.key) for column in _TABLE.columns if column.hidden)
    book.set_widths(sheet, [column.width for column in _TABLE.columns], hidden)
    sheet.freeze_panes = f"A{_TABLE.first_row}"
    # On paper a tutor needs what was read and room for a date; the columns from Kind on serve the screen.
    filled = _TABLE.heading_row + len(rows)
    book.set_print_list(sheet, _TABLE.number("keep"), (filled, last), _TABLE.heading_row)
    for name, key in (
        (Name.REVIEW_IDS, "id"),
        (Name.REVIEW_TITLES, "title"),
        (Name.REVIEW_USED, "used"),
    ):
        book.name(name, REVIEW, f"{_TABLE.letter(key)}{_TABLE.first_row}", f"{_TABLE.letter(key)}{last}")


def _write_top(book: Book, sheet: Worksheet, last: int) -> None:
    second = _TABLE.number("flag")
    book.put(sheet, 1, second, "Review", "title")
    sheet.row_dimensions[1].height = 28
    how = (
        "Every date comes from here. Rows marked “check” stand first: compare with the outline, then choose a reading, "
        "type a corrected date, or choose keep or skip. Add what is missing in the free rows. "
        "The instructor's outline and announcements govern."
    )
    book.put(sheet, 2, second, how, "note")
    sheet.merge_cells(start_row=2, start_column=second, end_row=2, end_column=_TABLE.number("keep"))
    sheet.row_dimensions[2].height = row_height([(how, sum(column.width for column in _shown_on_paper()))])
    flags = f"{_TABLE.letter('flag')}{_TABLE.first_row}:{_TABLE.letter('flag')}{last}"
    count = f'COUNTIF({flags},"check")+COUNTIF({flags},"not a date")'
    book.put(sheet, 4, second, Formula(count), "count")
    book.name(Name.TO_CHECK, REVIEW, f"{_TABLE.letter('flag')}4")
    done = f'COUNTIF({flags},"checked")'
    words = Formula(
        f'"still to check. "&IF({Name.TO_CHECK}=0,"Nothing is left.","Look at the rows marked check or not a date.")'
        f'&IF({done}=0,""," Checked so far: "&{done}&".")'
    )
    book.put(sheet, 4, second + 1, words, "line_label")
    sheet.row_dimensions[4].height = 20
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 32


def _shown_on_paper() -> tuple[Column, ...]:
    return tuple(column for column in _TABLE.columns[: _TABLE.number("keep")] if not column.hidden)


def _write_item(book: Book, sheet: Worksheet, at: int, row: ReviewRow, dates: DateFormulas) -> None:
    """One item: what was read are constants, or formulas where the date hangs on the term."""
    values: dict[str, tuple[Value, str]] = {
        "id": (row.id, "hidden"),
        "pick": (None, "entry_date" if row.readings else "date"),
        "course": (row.course, "text"),
        "kind": (row.kind.value, "text"),
        "title": (row.title, "strong"),
        "words": (row.words, "text"),
        "page": (row.page, "whole_centre"),
        "see": (None, "text"),
        "read": (dates.first or row.read, "date"),
        "why": (row.why, "text"),
        "time": (row.time, "time"),
        "weight": (row.weight, _weight_style(row.weight)),
        "candidates": (row.candidates, "hidden"),
        "expression": (row.written_expression, "hidden"),
        "covers": (row.covers, "hidden"),
        "until": (_until(row, dates, at), "date"),
    }
    _write_cells(book, sheet, at, values, row.asks)
    shown = [(str(values[key][0] or ""), _TABLE.columns[_TABLE.number(key) - 1].width) for key in _TEXTS]
    sheet.row_dimensions[at].height = row_height(shown)


def _write_links(book: Book, sheet: Worksheet) -> None:
    """From each item to the picture of its place, else to the outline's file."""
    column = _TABLE.number("see")
    pictures = picture_links(book)
    digests = [course.outline.digest for course in book.plan.resolved.courses]
    for at, row in enumerate(book.rows, start=_TABLE.first_row):
        target = book.options.as_printed.links.get(digests[row.course_number - 1])
        if row.id in pictures:
            book.put_link(sheet, at, column, "picture", pictures[row.id])
        elif target:
            book.put_file_link(sheet, at, column, "outline", f"{target}#page={row.page}" if row.page else target)


def _until(row: ReviewRow, dates: DateFormulas, at: int) -> Formula | None:
    """The last day of a window, blank once its first day is corrected, that of the reading once one is chosen; None for
    a single day."""
    corrected, pick = _TABLE.cell("corrected", at), _TABLE.cell("pick", at)
    last = '""'
    if row.until is not None:
        last = dates.last.text if dates.last else f"DATE({row.until.year},{row.until.month},{row.until.day})"
    if row.readings and any(end for _, end in row.readings):
        place = f"MATCH({_TABLE.cell('id', at)},{Name.READING_IDS},0)"
        column = f"MATCH({pick},INDEX({Name.READING_DAYS},{place},0),0)"
        found = f"N(INDEX({Name.READING_ENDS},{place},{column}))"
        last = f'IF(ISNUMBER({pick}),IFERROR(IF({found}=0,"",{found}),""),{last})'
    return Formula(f'IF(ISNUMBER({corrected}),"",{last})') if last != '""' else None


_TEXTS = ("course", "title", "words", "why")


def _weight_style(weight: float | None) -> str:
    return (
        "percent_centre" if weight is None or abs(weight * 100 - round(weight * 100)) < 1e-9 else "percent_fine_centre"
    )


def _write_free_row(book: Book, sheet: Worksheet, at: int, number: int) -> None:
    """A row for the user, in which the formulas already stand."""
    values: dict[str, tuple[Value, str]] = {
        "id": (f"own-{number:03}", "hidden"),
        "pick": (None, "date"),
        "course": (None, "entry_text"),
        "kind": (None, "entry_text"),
        "title": (None, "entry_text"),
        "words": (None, "entry_text"),
        "page": (None, "entry_whole"),
        "see": (None, "text"),
        "read": (None, "date"),
        "why": (None, "text"),
        "time": (None, "entry_time"),
        "weight": (None, "entry_percent"),
        "candidates": (None, "hidden"),
        "expression": (None, "hidden"),
        "covers": (None, "hidden"),
        "until": (None, "entry_date"),
    }
    _write_cells(book, sheet, at, values)
    sheet.row_dimensions[at].height = 18


def _write_cells(
    book: Book, sheet: Worksheet, at: int, values: dict[str, tuple[Value, str]], asks: bool = False
) -> None:
    every = {
        **values,
        "corrected": (None, "entry_date"),
        "keep": (None, "entry_centre"),
        "done": (None, "entry_centre"),
        **{key: (Formula(text), style) for key, (text, style) in _formulas(at, asks).items()},
    }
    for number, column in enumerate(_TABLE.columns, start=1):
        value, style = every[column.key]
        book.put(sheet, at, number, value, style, typed=isinstance(value, str) and not column.hidden)


def _formulas(at: int, asks: bool = False) -> dict[str, tuple[str, str]]:
    """What is computed in a row. One that ``asks`` stays open until “keep” or “skip” is chosen."""

    def cell(key: str) -> str:
        return _TABLE.cell(key, at)

    used, time, done = cell("used"), cell("time"), cell("done")
    corrected, keep, why = cell("corrected"), cell("keep"), cell("why")
    empty = f'AND({cell("title")}="",{cell("course")}="",{corrected}="")'
    pick = cell("pick")
    settled = f'{keep}="keep"' if asks else f'OR(ISNUMBER({corrected}),ISNUMBER({pick}),{keep}="keep")'
    wrong = f'OR(AND({corrected}<>"",NOT(ISNUMBER({corrected}))),AND({pick}<>"",NOT(ISNUMBER({pick}))))'
    flag = (
        f'IF({empty},"",IF({wrong},"not a date",IF({keep}="skip","skipped",'
        f'IF({settled},IF(ISNUMBER({used}),IF({why}="","","checked"),"no date"),'
        f'IF({why}<>"","check",IF(ISNUMBER({used}),"","no date"))))))'
    )
    read = cell("read")
    as_read = f'IF(ISNUMBER({pick}),INT({pick}),IF(ISNUMBER({read}),{read},""))'
    chosen = f'IF({keep}="skip","",IF(ISNUMBER({corrected}),INT({corrected}),{as_read}))'
    kind, course = cell("kind"), cell("course")
    shown = (
        f'AND(ISNUMBER({used}),OR({Name.SHOW_COURSE}="All",{Name.SHOW_COURSE}={course}),'
        f'OR({Name.SHOW_KIND}="All",{Name.SHOW_KIND}={kind},AND({Name.SHOW_KIND}="All but reading",{kind}<>"reading")),'
        f'OR({Name.SHOW_DONE}<>"no",{done}=""))'
    )
    coming = (
        f'AND(ISNUMBER({used}),{done}="",OR(N({used})>={Name.TODAY},N({cell("until")})>={Name.TODAY}),'
        f"N({used})<={Name.TODAY}+{Name.DAYS_AHEAD})"
    )
    weight = cell("weight")
    big = f'OR({kind}="exam",{kind}="project",{kind}="presentation",N({weight})>={Name.HEAVY_FROM})'
    exam = f'AND(ISNUMBER({used}),OR({kind}="exam",{kind}="quiz"))'
    return {
        "flag": (flag, "centre"),
        "used": (chosen, "date"),
        "start": (start_by(used, kind, weight), "hidden_date"),
        "big": (f"IF(AND(ISNUMBER({used}),{big}),1,0)", "hidden"),
        "key_shown": (order_key(shown, used, time), "hidden"),
        "key_exam": (order_key(exam, used, time), "hidden"),
        "key_next": (order_key(coming, used, time), "hidden"),
        "key_check": (f'IF(OR({cell("flag")}="check",{cell("flag")}="not a date"),ROW(),"")', "hidden"),
    }


def _add_table(sheet: Worksheet, last: int) -> None:
    from openpyxl.worksheet.filters import AutoFilter
    from openpyxl.worksheet.table import Table

    area = f"A{_TABLE.heading_row}:{_TABLE.letter(_TABLE.columns[-1].key)}{last}"
    table = Table(displayName="ReviewItems", ref=area, autoFilter=AutoFilter(ref=area))
    sheet.add_table(table)


def _add_entries(book: Book, sheet: Worksheet, last: int) -> None:
    """Drop-downs, checks on what is typed, and colours that follow the state of a row."""

    def cells(key: str) -> str:
        return f"{_TABLE.letter(key)}{_TABLE.first_row}:{_TABLE.letter(key)}{last}"

    def first(key: str) -> str:
        return _TABLE.cell(key, _TABLE.first_row)

    book.offer(sheet, cells("course"), Name.COURSES, strict=False)
    book.offer(sheet, cells("kind"), Name.KIND_LIST)
    book.offer(sheet, cells("keep"), ("keep", "skip"))
    book.offer(sheet, cells("done"), ("done",))
    book.accept_dates(sheet, cells("corrected"))
    _offer_readings(book, sheet)
    flag = first("flag")
    book.mark_where(sheet, cells("flag"), f'OR({flag}="check",{flag}="not a date")', book.look.warning, bold=True)
    book.mark_where(sheet, cells("flag"), f'{flag}="checked"', book.look.good)
    book.mark_where(
        sheet,
        f"{_TABLE.letter('course')}{_TABLE.first_row}:{_TABLE.letter('done')}{last}",
        f'{flag}="skipped"',
        book.look.quiet,
    )
    book.colour_courses(sheet, cells("course"), first("course"))


def _offer_readings(book: Book, sheet: Worksheet) -> None:
    """The days that a date can be, to choose from: found by the row's id, so that it holds when rows are sorted."""
    ats = [at for at, row in enumerate(book.rows, start=_TABLE.first_row) if row.readings]
    for at in ats:
        own = f"MATCH({_TABLE.cell('id', at)},{Name.READING_IDS},0)"
        book.offer(sheet, f"{_TABLE.letter('pick')}{at}", f"INDEX({Name.READING_DAYS},{own},0)")


def _write_days_off(book: Book, sheet: Worksheet, at: int) -> None:
    """Days off, live from Term dates, where they are corrected."""
    first = _TABLE.number("course")
    resolved = book.plan.resolved
    count = len({*resolved.term.no_class, *(off for course in resolved.courses for off in course.no_class)}) + 4
    book.put(sheet, at, first, "Days off", "section")
    book.put_link(sheet, at, _TABLE.number("title"), f"Correct or add them on {TERM}", f"'{TERM}'!A1", "free_link")
    sheet.merge_cells(start_row=at, start_column=_TABLE.number("title"), end_row=at, end_column=_TABLE.number("page"))
    headings = (("course", "Course"), ("title", "Name"), ("read", "First day"), ("why", "Last day"))
    for key, heading in headings:
        book.put(sheet, at + 1, _TABLE.number(key), heading, "heading")
    _join_name(book, sheet, at + 1, "heading")
    for number in range(1, count + 1):
        row = at + 1 + number
        for key, name, style in (
            ("course", Name.OFF_COURSES, "text"),
            ("title", Name.OFF_NAMES, "text"),
            ("read", Name.OFF_FIRST, "date"),
            ("why", Name.OFF_LAST, "date"),
        ):
            found = f"INDEX({name},{number})"
            book.put(sheet, row, _TABLE.number(key), Formula(f'IFERROR(IF({found}="","",{found}),"")'), style)
        _join_name(book, sheet, row, "text")


def _join_name(book: Book, sheet: Worksheet, row: int, style: str) -> None:
    """Joins the cells from the name of a day off to its dates."""
    first, last = _TABLE.number("title"), _TABLE.number("page")
    for column in range(first + 1, last + 1):
        book.put(sheet, row, column, None, style)
    sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=last)
