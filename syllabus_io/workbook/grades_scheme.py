"""The upper part of a course's grades sheet: where the grade stands, what to watch, categories, scale, settings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.grades import ROUNDINGS, GradeStepShare
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.grades_block import GradesBlock, Table
from syllabus_io.workbook.grades_place import CATEGORY_COLUMNS, FIRST_NOTE, PART_COLUMNS, SCALE_COLUMNS, SETTINGS
from syllabus_io.workbook.grades_rows import CourseGrades
from syllabus_io.workbook.layout import MARKS_COLUMNS

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["CAUTION", "write_scheme"]

CAUTION = "The institution's rules and the instructor's record decide. Marks are private: think before you share them."
_HOW = (
    "Type the date and the points of each mark in the table of marks below. A blank is not a zero; 0 is a mark; EX is "
    "excused. Rows may be added between, deleted and sorted."
)
_SHOWN = 14  # columns up to the running grade
_NOTE_LENGTH = 600
_CLOSING_HEIGHT = 6.0


def write_scheme(book: Book, sheet: Worksheet, block: GradesBlock, heading: str, grades: CourseGrades) -> None:
    """Writes everything above the marks."""
    _write_figures(book, sheet, block, heading, grades)
    notes = [(f"To check: {doubt}", "doubt") for doubt in grades.doubts]
    notes += [(f"Watch: {rule}", "free") for rule in grades.rules]
    for offset, (words, style) in enumerate(notes):
        _across(book, sheet, FIRST_NOTE + offset, words[:_NOTE_LENGTH], style)
    _write_checks(book, sheet, block, FIRST_NOTE + len(notes))
    _write_categories(book, sheet, block, grades)
    _write_scale(book, sheet, block, grades.book.steps)
    _write_settings(book, sheet, block, grades)
    _write_parts(book, sheet, block, grades)


def _across(book: Book, sheet: Worksheet, row: int, words: str | Formula, style: str) -> None:
    """Text over all columns that a person sees."""
    book.put(sheet, row, 2, words, style, typed=isinstance(words, str))
    sheet.merge_cells(start_row=row, start_column=2, end_row=row, end_column=_SHOWN)
    width = sum(column.width for column in MARKS_COLUMNS[1:_SHOWN])
    sheet.row_dimensions[row].height = row_height([(words if isinstance(words, str) else "", width)])


def _cell(book: Book, sheet: Worksheet, at: str, value: Value, style: str, typed: bool = False) -> None:
    cell = sheet[at.replace("$", "")]
    book.put(sheet, cell.row, cell.column, value, style, typed)


def _write_figures(book: Book, sheet: Worksheet, block: GradesBlock, heading: str, grades: CourseGrades) -> None:
    place = block.place
    _cell(book, sheet, "B1", heading, "title", typed=True)
    sheet.row_dimensions[1].height = 28
    labels = (
        ("current", "B", "B", "Current grade"),
        ("letter", "C", "C", "Letter"),
        ("lowest", "D", "D", "Lowest possible"),
        ("highest", "E", "F", "Highest possible"),
        ("target", "G", "H", "Target"),
        ("enough", "I", "K", "Enough on all that is left"),
        ("alone", "L", "M", "Enough on the final alone"),
        ("try", "N", "N", "With what-if"),
    )
    far, own = block.far, block.own_target
    scale = f"{place.setting('full')}"
    figures = {
        "current": far(block.one("grade_now")),
        "letter": f'IF({far(block.one("grade_now"))}="","no marks yet",{far(block.one("letter"))})',
        "lowest": far(block.one("grade_low")),
        "highest": far(block.one("grade_high")),
        "enough": _shown_answer(far(block.target("answer", own)), "set a target"),
        "alone": _shown_answer(far(block.target("alone_answer", own)), "set a target"),
        "try": far(block.one("grade_try")),
    }
    for key, first, last, label in labels:
        _cell(book, sheet, f"{first}2", label, "label")
        for row in (2, 3):
            if first != last:
                sheet.merge_cells(f"{first}{row}:{last}{row}")
        value: Value = Formula(figures[key]) if key in figures else float(grades.target)
        style = {"target": "entry_percent_fine", "enough": "figure", "alone": "figure"}.get(key, "big")
        _cell(book, sheet, f"{first}3", value, style)
    _cell(book, sheet, "H3", None, "entry_percent_fine")
    book.accept_numbers(sheet, "G3", 0, 5)
    sheet.row_dimensions[2].height = 30
    sheet.row_dimensions[3].height = 24
    current = place.setting("current")
    level = f'IF(OR({current}="",N({scale})=100,N({scale})=0),"",ROUND({current}*{scale},2)&" of "&{scale})'
    _cell(book, sheet, "B4", Formula(level), "free")
    _cell(book, sheet, place.setting("letter_try"), Formula(far(block.one("letter_try"))), "free")
    _across(book, sheet, 5, CAUTION, "note")
    _across(book, sheet, 6, _HOW, "note")
    book.put_link(sheet, 4, 3, "Go to the marks", f"{place.far(f'B{place.marks_heading}')}", "free_link")


def _shown_answer(answer: str, without: str = "") -> str:
    """What is enough, to a tenth of a percent and never rounded down; words as they are."""
    return f'IF({answer}="","{without}",IF(ISNUMBER({answer}),ROUNDUP(ROUND({answer},9),3),{answer}))'


def _write_checks(book: Book, sheet: Worksheet, block: GradesBlock, row: int) -> None:
    """Two lines that speak up when the weights do not add up, or when a mark cannot be counted."""
    sums = block.far(block.parts("p_sum"))
    weights = (
        f'IF({block.far(block.one("weights_off"))}=0,"","To check: the weights add up to "&ROUND(MAX({sums})*100,2)'
        f'&" %, not 100 %. The grade is computed over what they add up to.")'
    )
    unclear, missing = block.far(block.one("unclear")), block.far(block.one("missing_rows"))
    marks = (
        f'IF({unclear}=0,"","To check: rows of marks that do not count as they stand: "&{unclear}&" (see Note). ")'
        f'&IF({missing}=0,"","More rows were inserted than this workbook can count: "&{missing}&" too many.")'
    )
    for offset, words in enumerate((weights, marks)):
        _across(book, sheet, row + offset, Formula(words), "label")
        book.mark_where(
            sheet, f"B{row + offset}:N{row + offset}", f'$B{row + offset}<>""', book.look.warning, bold=True
        )


def _head(book: Book, sheet: Worksheet, table: Table, columns: tuple[tuple[str, str, str], ...]) -> None:
    for _, letter, heading in columns:
        if heading:
            _cell(book, sheet, f"{letter}{table.heading}", heading, "heading")
    sheet.row_dimensions[table.heading].height = 44
    sheet.row_dimensions[table.closing].height = _CLOSING_HEIGHT


def _write_categories(book: Book, sheet: Worksheet, block: GradesBlock, grades: CourseGrades) -> None:
    table = block.place.categories
    _head(book, sheet, table, CATEGORY_COLUMNS)
    _cell(book, sheet, f"A{table.heading}", "Category id", "hidden")
    at = f"ROW()-ROW($B${table.heading})"

    def figure(key: str) -> str:
        return f"INDEX({block.far(block.categories(key))},{at})"

    so_far = f'IF({figure("whole_now")}=0,"",{figure("result_now")}/{figure("whole_now")})'
    marks = f'IF({figure("c_name")}="","",{figure("num_now")}&" of "&{figure("num_high")})'
    for offset in range(table.last - table.heading):
        row = table.first + offset
        one = grades.book.categories[offset] if offset < len(grades.book.categories) else None
        weight = float(one.weight) if one and grades.book.weighted else None
        values: dict[str, tuple[Value, str]] = {
            "id": (f"category-{offset + 1}", "hidden"),
            "part": (one.part or None if one else None, "entry_text"),
            "name": (one.name if one else None, "entry_text"),
            "weight": (weight, "entry_percent_fine" if _is_fine(weight) else "entry_percent"),
            "drop": (one.drop or None if one else None, "entry_whole"),
            "keep": (one.keep or None if one else None, "entry_whole"),
            "even": ("yes" if one and one.even else None, "entry_centre"),
            "extra": ("yes" if one and one.extra else None, "entry_centre"),
            "replaced": ("yes" if one and one.replaced else None, "entry_centre"),
            "so_far": (Formula(so_far), "percent_fine"),
            "marks": (Formula(marks), "centre"),
        }
        for key, letter, _ in CATEGORY_COLUMNS:
            value, style = values[key]
            _cell(book, sheet, f"{letter}{row}", value, style, typed=key in ("name", "part") and value is not None)
        sheet.row_dimensions[row].height = row_height([(one.name if one else "", MARKS_COLUMNS[2].width)])
    book.accept_numbers(sheet, f"D{table.first}:D{table.last}", 0, 10)
    book.accept_numbers(sheet, f"E{table.first}:F{table.last}", 0, 99)
    book.offer(sheet, f"G{table.first}:I{table.last}", ("yes", "no"))
    book.offer(sheet, f"B{table.first}:B{table.last}", block.place.parts.column("name"), strict=False)


def _is_fine(share: float | None) -> bool:
    return share is not None and abs(share * 100 - round(share * 100)) > 1e-9


def _write_scale(book: Book, sheet: Worksheet, block: GradesBlock, steps: tuple[GradeStepShare, ...]) -> None:
    table = block.place.scale
    _head(book, sheet, table, SCALE_COLUMNS)
    at = f"ROW()-ROW($B${table.heading})"
    for offset in range(table.last - table.heading):
        row = table.first + offset
        step = steps[offset] if offset < len(steps) else None
        minimum = float(step.minimum) if step and step.minimum is not None else None
        counts = float(step.counts_as) if step and step.counts_as is not None else None
        _cell(book, sheet, f"B{row}", step.letter if step else None, "entry_centre", typed=step is not None)
        for letter, key in (("C", "answer"), ("D", "alone_answer")):
            answer = f"INDEX({block.far(block.steps(key))},{at})"
            _cell(book, sheet, f"{letter}{row}", Formula(_shown_answer(answer)), "percent_fine")
        _cell(book, sheet, f"E{row}", minimum, "entry_percent_fine" if _is_fine(minimum) else "entry_percent")
        _cell(book, sheet, f"F{row}", counts, "entry_percent_fine")
        sheet.row_dimensions[row].height = 16
    book.accept_numbers(sheet, f"E{table.first}:F{table.last}", 0, 10)


def _write_settings(book: Book, sheet: Worksheet, block: GradesBlock, grades: CourseGrades) -> None:
    content, place = grades.book, block.place
    values: dict[str, tuple[Value, str]] = {
        "method": ("weights" if content.weighted else "points", "entry_text"),
        "final": (content.final or None, "entry_text"),
        "late": ("of full marks" if content.off_full_marks else "of the mark", "entry_text"),
        "rounding": (content.rounding, "entry_text"),
        "on_top": (float(content.on_top) or None, "entry_percent_fine"),
        "full": (float(grades.full), "entry_number"),
    }
    first = sheet[place.setting("method").replace("$", "")].row
    _cell(book, sheet, f"B{first - 1}", "Settings", "label")
    for offset, (key, label, about) in enumerate(SETTINGS):
        row = first + offset
        value, style = values[key]
        _cell(book, sheet, f"B{row}", label, "line")
        _cell(book, sheet, f"D{row}", value, style, typed=isinstance(value, str))
        _cell(book, sheet, f"E{row}", about, "note")
        sheet.merge_cells(f"E{row}:H{row}")
        sheet.row_dimensions[row].height = row_height([(about, 42.0), (str(value or ""), MARKS_COLUMNS[3].width)])
    book.offer(sheet, place.setting("method").replace("$", ""), ("weights", "points"))
    book.offer(sheet, place.setting("final").replace("$", ""), place.categories.column("name"), strict=False)
    book.offer(sheet, place.setting("late").replace("$", ""), ("of full marks", "of the mark"))
    book.offer(sheet, place.setting("rounding").replace("$", ""), ROUNDINGS)
    book.accept_numbers(sheet, place.setting("on_top").replace("$", ""), -1, 1)
    book.accept_numbers(sheet, place.setting("full").replace("$", ""), 0, 100_000)


def _write_parts(book: Book, sheet: Worksheet, block: GradesBlock, grades: CourseGrades) -> None:
    table = block.place.parts
    _head(book, sheet, table, PART_COLUMNS)
    words = "Leave this empty where the course has one grade. A school's semester grade: for example two marking "
    words += "periods of 40 % and an exam of 20 %, each category named with its part above."
    _cell(book, sheet, f"E{table.heading}", words, "note")
    sheet.merge_cells(f"E{table.heading}:H{table.heading}")
    sheet.row_dimensions[table.heading].height = row_height([(words, 42.0)])
    for offset in range(table.last - table.heading):
        part = grades.book.parts[offset] if offset < len(grades.book.parts) else None
        row = table.first + offset
        _cell(book, sheet, f"C{row}", part.name if part else None, "entry_text", typed=part is not None)
        _cell(book, sheet, f"D{row}", float(part.weight) if part else None, "entry_percent")
        sheet.row_dimensions[row].height = 16
    book.accept_numbers(sheet, f"D{table.first}:D{table.last}", 0, 10)
