"""The marks on a course's grades sheet, and its two charts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.grades import GradeMark, Typed
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.charts import bar_chart, column_chart, place_chart
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.grades_place import CHART_ROWS
from syllabus_io.workbook.grades_rows import CourseGrades
from syllabus_io.workbook.layout import MARKS_COLUMNS, Name

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["write_charts", "write_marks"]

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
    "penalty": "entry_percent",
    "what_if": "entry_number",
    "percent": "percent_fine",
    "note": "text",
    "running": "percent_fine",
    "category_id": "hidden",
}
_SHOWN = {"share": "share_of_grade", "percent": "shown", "note": "note", "running": "running"}
_CLOSING = "Insert further rows above this line; then copy Percent, Note and Running grade down from the row above."
_ROW = 16.0


def write_marks(book: Book, sheet: Worksheet, block: GradesBlock, grades: CourseGrades) -> None:
    """Writes the table of marks: listed ones, then free rows, then the line that closes it."""
    place = block.place
    _cells = enumerate(MARKS_COLUMNS, start=1)
    for number, column in _cells:
        book.put(sheet, place.marks_heading, number, column.heading, "hidden" if column.hidden else "heading")
    sheet.row_dimensions[place.marks_heading].height = 44
    known = [one.name.strip().casefold() for one in grades.book.categories]
    for row in range(place.marks_heading + 1, place.marks_closing):
        offset = row - place.marks_heading - 1
        mark = grades.book.marks[offset] if offset < len(grades.book.marks) else None
        review_id = grades.review_ids[offset] if offset < len(grades.review_ids) else None
        own = f"mark-{offset + 1}" if mark else f"own-mark-{offset - len(grades.book.marks) + 1:03}"
        values, typed = _values(block, row, mark, review_id)
        values["id"] = review_id or own
        name = mark.category.strip().casefold() if mark else ""
        values["category_id"] = f"category-{known.index(name) + 1}" if name in known else None
        _write_row(book, sheet, row, values, typed, from_review=review_id is not None)
        texts = [(mark.work, MARKS_COLUMNS[2].width), (mark.category, MARKS_COLUMNS[3].width)] if mark else []
        sheet.row_dimensions[row].height = row_height(texts)
    book.put(sheet, place.marks_closing, 2, _CLOSING, "note")
    sheet.merge_cells(start_row=place.marks_closing, start_column=2, end_row=place.marks_closing, end_column=14)
    _guard(book, sheet, block)


def _values(
    block: GradesBlock, row: int, mark: GradeMark | None, review_id: str | None
) -> tuple[dict[str, Value], set[str]]:
    """What stands in the row of a mark by column key, and the keys whose text is an outline's or a person's."""
    place = block.place
    at = f"ROW()-ROW($B${place.marks_heading})"
    values: dict[str, Value] = {
        key: Formula(f'IFERROR(INDEX({block.far(block.marks(source))},{at}),"")') for key, source in _SHOWN.items()
    }
    if mark is None:
        return values, set()
    table = place.categories
    rows = f"${table.heading}:${{}}${table.closing}"
    ids, names = (f"${letter}{rows.format(letter)}" for letter in ("A", table.letter("name")))
    found = f"INDEX({names},MATCH({place.marks.cell('category_id', row)},{ids},0))"
    values |= {
        "work": mark.work,
        "category": Formula(f'IFERROR({found}&"","")') if mark.category else None,
        "possible": _number(mark.possible),
        "counts": _number(mark.counts),
        "points": _number(mark.typed),
        "penalty": float(mark.penalty) or None,
        "what_if": _number(mark.what_if),
    }
    if review_id is not None:
        position = f"MATCH({place.marks.cell('id', row)},{Name.REVIEW_IDS},0)"
        values["due"] = Formula(f'IFERROR(INDEX({Name.REVIEW_USED},{position}),"")')
        values["work"] = Formula(f'IFERROR(INDEX({Name.REVIEW_TITLES},{position})&"","")')
    return values, {"work", "points", "what_if"}


def _number(value: Typed) -> Value:
    if value is None or isinstance(value, str):
        return value
    return int(value) if value.denominator == 1 else float(value)


def _write_row(
    book: Book, sheet: Worksheet, row: int, values: dict[str, Value], typed: set[str], from_review: bool
) -> None:
    styles = _STYLES if from_review else _STYLES | {"due": "entry_date", "work": "entry_text"}
    if isinstance(values.get("category"), Formula):
        styles = styles | {"category": "text"}
    for number, column in enumerate(MARKS_COLUMNS, start=1):
        value = values.get(column.key)
        is_text = column.key in typed and isinstance(value, str)
        book.put(sheet, row, number, value, styles[column.key], typed=is_text)


def _guard(book: Book, sheet: Worksheet, block: GradesBlock) -> None:
    """What may be typed, and what stands out."""
    place = block.place
    first, last = place.marks_heading + 1, place.marks_closing - 1
    book.offer(sheet, f"D{first}:D{last}", place.categories.column("name"), strict=False)
    book.accept_dates(sheet, f"H{first}:H{last}")
    book.accept_numbers(sheet, f"J{first}:J{last}", 0, 1)
    note = place.marks.cell("note", first)
    book.mark_where(sheet, f"L{first}:M{last}", f'RIGHT({note},1)="?"', book.look.warning, bold=True)
    book.mark_where(sheet, f"L{first}:M{last}", f'{note}="left out"', book.look.quiet)
    sheet.auto_filter.ref = f"A{place.marks_heading}:O{last}"


def write_charts(sheet: Worksheet, block: GradesBlock, grades: CourseGrades) -> None:
    """The running grade and, beside it, the averages of the categories, between the categories and the scale."""
    place = block.place
    count = max(len(grades.book.marks), 1)
    last = block.first_mark + count - 1
    values, labels = (block.far(_rows(block.marks(key), last)) for key in ("chart", "n"))
    columns = column_chart("Running grade after each mark", values, labels)
    top, height = place.categories.closing + 1, (CHART_ROWS - 0.5) * _ROW
    words = f"Column chart of {place.sheet}: the running grade after each mark, in the order of the table of marks."
    place_chart(sheet, columns, f"B{top}", (_width(2, 6), height), words)
    table = place.categories
    end = table.heading + max(len(grades.book.categories), 1)
    values, labels = (
        place.far(f"${table.letter(key)}${table.first}:${table.letter(key)}${end}") for key in ("so_far", "name")
    )
    bars = bar_chart("Average of each category so far", values, labels)
    words = f"Bar chart of {place.sheet}: the average of each category over its marks so far, as in the table above."
    place_chart(sheet, bars, f"G{top}", (_width(7, 14), height), words)
    for row in range(top, top + CHART_ROWS):
        sheet.row_dimensions[row].height = _ROW


def _rows(cells: str, last: int) -> str:
    start = cells.split(":")[0]
    return f"{start}:${start.split('$')[1]}${last}"


def _width(first: int, last: int) -> float:
    """The width of columns in points, a little less than they take: 7 pixels a character and 5 more a column."""
    return sum(column.width * 7 + 5 for column in MARKS_COLUMNS[first - 1 : last]) * 0.74
