"""Grades of one course: its categories, every graded item with room for the mark, and where it all stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.resolve.records import ResolvedCourse
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.grade_formulas import Block, category_formulas, mark_formulas, summary_formulas
from syllabus_io.workbook.grade_rows import GradeRow, GradeTable, read_grade_table
from syllabus_io.workbook.layout import GRADES_COLUMNS, Name, TableLayout, column_letter, grades_sheet_names

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["CAUTION", "write_grades"]

CAUTION = "The institution's rules and the instructor's record decide. Marks are private: think before you share them."
_HOW = "Type the date and the points of each mark. A blank is not a zero; 0 is a mark; EX is excused."
_USUAL_TARGET = 0.9
_FREE_CATEGORIES = 2
_FREE_MARKS = 8
_SHOWN = 11  # columns that a person sees, A included
_METHOD_ROW = 8
_FIRST_DOUBT = 9


def write_grades(book: Book) -> tuple[Block, ...]:
    """Adds a sheet for each course; returns where its figures stand, in the plan's order."""
    rows = book.rows
    courses = book.plan.resolved.courses
    blocks = []
    for course, sheet in zip(courses, grades_sheet_names(course.key for course in courses), strict=True):
        own = [row for row in rows if row.course == course.key]
        blocks.append(_write_course(book, sheet, course, read_grade_table(course, own)))
    return tuple(blocks)


def _write_course(book: Book, title: str, course: ResolvedCourse, table: GradeTable) -> Block:
    sheet = book.add_sheet(title)
    notes = _notes(course, table)
    block = _place(title, table, len(notes))
    _write_top(book, sheet, course, block, table)
    for offset, (words, style) in enumerate(notes):
        _across(book, sheet, _FIRST_DOUBT + offset, words, style)
    _write_weights_check(book, sheet, block, _FIRST_DOUBT + len(notes))
    _write_categories(book, sheet, block, table)
    _write_scale(book, sheet, block, table)
    _write_marks(book, sheet, block, table)
    _finish(book, sheet, block)
    return block


def _notes(course: ResolvedCourse, table: GradeTable) -> list[tuple[str, str]]:
    """What is doubtful about the scheme, then its rules and late policy as the outline words them."""
    grading = course.outline.grading
    notes = [(f"To check: {doubt}", "doubt") for doubt in table.doubts]
    notes += [(f"Watch: {rule}", "free") for rule in grading.rules]
    if grading.late_policy:
        named = grading.late_policy.casefold().startswith("late")
        notes.append((grading.late_policy if named else f"Late work: {grading.late_policy}", "free"))
    return [(words if len(words) <= 600 else f"{words[:599]}…", style) for words, style in notes]


def _place(title: str, table: GradeTable, notes: int) -> Block:
    """Rows from top to bottom: figures, notes, categories beside the scale, marks."""
    first_category = _FIRST_DOUBT + notes + 3
    last_category = first_category + len(table.categories) + _FREE_CATEGORIES - 1
    last_scale = max(last_category, first_category + max(len(table.scale), 1) - 1)
    heading = last_scale + 4
    return Block(
        marks=TableLayout(title, heading, GRADES_COLUMNS),
        last_mark=heading + len(table.rows) + _FREE_MARKS,
        first_category=first_category,
        last_category=last_category,
        last_scale=last_scale,
    )


def _across(book: Book, sheet: Worksheet, row: int, words: str | Formula, style: str) -> None:
    """Text over all columns that a person sees."""
    book.put(sheet, row, 2, words, style, typed=isinstance(words, str))
    sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=_SHOWN)
    width = sum(column.width for column in GRADES_COLUMNS[1:_SHOWN])
    if isinstance(words, str):
        sheet.row_dimensions[row].height = row_height([(words, width)])


def _write_top(book: Book, sheet: Worksheet, course: ResolvedCourse, block: Block, table: GradeTable) -> None:
    title = course.outline.course.title
    book.put(sheet, 1, 2, f"{course.key}: {title}" if title and title != course.key else course.key, "title")
    sheet.row_dimensions[1].height = 28
    _across(book, sheet, 2, CAUTION, "note")
    _across(book, sheet, 3, _HOW, "note")
    labels = (
        (2, 2, "Current grade"),
        (3, 3, "Letter"),
        (4, 4, "Lowest still possible"),
        (5, 6, "Highest still possible"),
        (7, 8, "Target"),
        (9, 11, "Enough on what is left"),
    )
    for first, last, label in labels:
        book.put(sheet, 5, first, label, "label")
        for row in (5, 6):
            if last > first:
                sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=last)
    for cell, formula in summary_formulas(block).items():
        at = sheet[cell.replace("$", "")]
        book.put(sheet, at.row, at.column, Formula(formula), "big" if at.column <= _SHOWN else "hidden")
    target = _usual_target(table)
    book.put(sheet, 6, 7, target, "entry_percent_fine")
    book.put(sheet, 6, 8, None, "entry_percent_fine")
    book.accept_numbers(sheet, "G6", 0, 5)
    sheet.row_dimensions[5].height = 30
    sheet.row_dimensions[6].height = 22
    book.put(sheet, _METHOD_ROW, 2, "Grade made of", "label")
    book.put(sheet, _METHOD_ROW, 3, table.method, "entry_text")
    book.offer(sheet, f"C{_METHOD_ROW}", ("weights", "marks"))
    words = "weights: categories by their weight; marks: each mark by what it counts"
    book.put(sheet, _METHOD_ROW, 4, words, "note")
    sheet.merge_cells(start_row=_METHOD_ROW, start_column=4, end_row=_METHOD_ROW, end_column=_SHOWN)


def _usual_target(table: GradeTable) -> float:
    """What earns the best letter that is an A of any sort, else nine tenths."""
    best = [step.minimum for step in table.scale if step.letter.strip().upper().startswith("A")]
    return min(best) if best else _USUAL_TARGET


def _write_weights_check(book: Book, sheet: Worksheet, block: Block, row: int) -> None:
    total = f"SUMPRODUCT((1-{block.held('extra')})*{block.held('weight')})"
    words = (
        f'IF({block.method}="weights",IF(ABS({total}-1)<0.0005,"","To check: the weights add up to "'
        f'&ROUND({total}*100,1)&" %, not 100 %. The grade is computed over what they add up to."),"")'
    )
    _across(book, sheet, row, Formula(words), "label")
    sheet.row_dimensions[row].height = 16


def _write_categories(book: Book, sheet: Worksheet, block: Block, table: GradeTable) -> None:
    heading = block.first_category - 1
    for column, word in (
        (2, "Category"),
        (4, "Weight"),
        (5, "Drop lowest"),
        (6, "Extra credit"),
        (7, "So far"),
        (8, "Marks"),
    ):
        book.put(sheet, heading, column, word, "heading")
    book.put(sheet, heading, 3, None, "heading")
    sheet.merge_cells(start_row=heading, start_column=2, end_row=heading, end_column=3)
    sheet.row_dimensions[heading].height = 32
    for number in range(1, block.category_count + 1):
        row = block.first_category + number - 1
        category = table.categories[number - 1] if number <= len(table.categories) else None
        book.put(sheet, row, 2, category.name if category else None, "entry_text", typed=category is not None)
        book.put(sheet, row, 3, None, "entry_text")
        sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=3)
        weight = category.weight if category else None
        fine = weight is not None and abs(weight * 100 - round(weight * 100)) > 1e-9
        book.put(sheet, row, 4, weight, "entry_percent_fine" if fine else "entry_percent")
        book.put(sheet, row, 5, category.drop or None if category else None, "entry_whole")
        book.put(sheet, row, 6, "yes" if category and category.extra_credit else None, "entry_centre")
        for letter, formula in category_formulas(block, number).items():
            style = {"G": "percent_fine", "H": "centre"}.get(letter, "hidden")
            book.put(sheet, row, sheet[f"{letter}{row}"].column, Formula(formula), style)
        name = category.name if category else ""
        sheet.row_dimensions[row].height = row_height([(name, GRADES_COLUMNS[1].width + GRADES_COLUMNS[2].width)])
    last = block.last_category
    book.accept_numbers(sheet, f"D{block.first_category}:D{last}", 0, 10)
    book.accept_numbers(sheet, f"E{block.first_category}:E{last}", 0, 99)
    book.offer(sheet, f"F{block.first_category}:F{last}", ("yes", "no"))


def _write_scale(book: Book, sheet: Worksheet, block: Block, table: GradeTable) -> None:
    """Letters and the lowest grade that earns each, beside the categories."""
    heading = block.first_category - 1
    book.put(sheet, heading, 10, "Letter", "heading")
    book.put(sheet, heading, 11, "From", "heading")
    for offset, row in enumerate(range(block.first_category, block.last_scale + 1)):
        step = table.scale[offset] if offset < len(table.scale) else None
        book.put(sheet, row, 10, step.letter if step else None, "entry_centre", typed=step is not None)
        fine = step is not None and abs(step.minimum * 100 - round(step.minimum * 100)) > 1e-9
        book.put(sheet, row, 11, step.minimum if step else None, "entry_percent_fine" if fine else "entry_percent")
    book.accept_numbers(sheet, f"K{block.first_category}:K{block.last_scale}", 0, 10)


def _write_marks(book: Book, sheet: Worksheet, block: Block, table: GradeTable) -> None:
    heading = block.marks.heading_row
    for number, column in enumerate(GRADES_COLUMNS, start=1):
        book.put(sheet, heading, number, column.heading, "heading")
    sheet.row_dimensions[heading].height = 44
    for number in range(1, block.category_count + 1):
        letter = block.sum_letters(number)[0]
        column = sheet[f"{letter}1"].column
        row = block.first_category + number - 1
        # Weight and extra credit of each category once more, side by side, for the sums that run across.
        for at, key in ((heading - 2, "weight"), (heading - 1, "extra")):
            source = block.held(key).split(":")[0].rstrip("0123456789")
            book.put(sheet, at, column, Formula(f"{source}{row}"), "hidden")
    for offset, at in enumerate(range(block.marks.first_row, block.last_mark + 1)):
        mark = table.rows[offset] if offset < len(table.rows) else None
        _write_mark(book, sheet, block, at, mark, offset - len(table.rows) + 1)


_STYLES = {
    "id": "hidden",
    "due": "date",
    "work": "text",
    "category": "entry_text",
    "possible": "entry_number",
    "counts": "entry_number",
    "share": "percent_fine",
    "date": "entry_date",
    "points": "entry_number",
    "percent": "percent_fine",
    "running": "percent_fine",
}


def _write_mark(book: Book, sheet: Worksheet, block: Block, at: int, row: GradeRow | None, number: int) -> None:
    """A row for one mark: what the outline says, what the student types, and what is computed."""
    values: dict[str, Value] = {"id": row.review_id if row and row.review_id else None}
    styles = dict(_STYLES)
    if row is None or row.review_id is None:
        values |= {"id": f"mark-{at}" if row else f"own-mark-{number:03}", "work": row.title if row else None}
        styles |= {"due": "entry_date", "work": "entry_text"}
    else:
        found = f"MATCH({block.marks.cell('id', at)},{Name.REVIEW_IDS},0)"
        values["due"] = Formula(f'IFERROR(INDEX({Name.REVIEW_USED},{found}),"")')
        values["work"] = Formula(f'IFERROR(INDEX({Name.REVIEW_TITLES},{found})&"","")')
    if row is not None:
        values |= {"category": row.category, "possible": row.possible, "counts": row.counts}
    formulas = mark_formulas(block, at)
    values |= {key: Formula(text) for key, text in formulas.items()}
    for column_number, column in enumerate(GRADES_COLUMNS, start=1):
        value = values.get(column.key)
        style = styles.get(column.key, "hidden")
        book.put(sheet, at, column_number, value, style, typed=isinstance(value, str) and not column.hidden)
    for category in range(1, block.category_count + 1):
        for letter in block.sum_letters(category):
            book.put(sheet, at, sheet[f"{letter}1"].column, Formula(formulas[letter]), "hidden")
    title = row.title if row else ""
    sheet.row_dimensions[at].height = row_height(
        [(title, GRADES_COLUMNS[2].width), (row.category or "" if row else "", GRADES_COLUMNS[3].width)]
    )


def _finish(book: Book, sheet: Worksheet, block: Block) -> None:
    first, last = block.marks.first_row, block.last_mark
    book.offer(sheet, f"D{first}:D{last}", f"$B${block.first_category}:$B${block.last_category}", strict=False)
    book.accept_dates(sheet, f"H{first}:H{last}")
    percent = block.marks.cell("percent", first)
    problem = f'OR({percent}="no mark",{percent}="category?")'
    book.mark_where(sheet, f"J{first}:J{last}", problem, book.look.warning, bold=True)
    last_letter = block.last_column
    columns = sheet[f"{last_letter}1"].column
    widths = [column.width for column in GRADES_COLUMNS] + [9.0] * (columns - len(GRADES_COLUMNS))
    book.set_widths(sheet, widths, (1, *range(_SHOWN + 1, columns + 1)))
    sheet.freeze_panes = f"A{first}" if first < 26 else None
    repeat = f"{block.marks.heading_row}:{block.marks.heading_row}"
    book.set_print(sheet, f"A1:{column_letter(_SHOWN)}{last}", repeat_rows=repeat)
