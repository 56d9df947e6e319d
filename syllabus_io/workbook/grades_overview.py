"""Grades overview: every course on one page, grade points by a scale that can be changed, and averages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from syllabus_io.plan.grades_points import PRESETS
from syllabus_io.workbook.book import Book, Formula, Value, row_height
from syllabus_io.workbook.grades import CAUTION
from syllabus_io.workbook.grades_block import GradesBlock
from syllabus_io.workbook.layout import GRADE_SUMS, OVERVIEW, OVERVIEW_TABLE, Name, column_letter, quote_sheet

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

__all__ = ["PRESET_COLUMN", "fill_grades_overview", "write_grades_overview", "write_point_scales"]

_TABLE = OVERVIEW_TABLE
_STYLES = {
    "course": "strong",
    "title": "text",
    "letter": "centre",
    "marks": "centre",
    "credits": "number",
    "advanced": "entry_centre",
    "points": "number",
}
_LETTERS = tuple(dict.fromkeys(letter for scale in PRESETS for letter, _ in scale.letters))
_FREE_LETTERS = 3
_ONE_PAGE = 9  # courses whose rows, with the scale below, can still be read on one page
PRESET_COLUMN = 120
"""The column of the hidden sheet from which the scales of grade points stand, one beside the other."""

_FIRST_SCALE_ROW = 3
_NAMES, _PER_SHARE, _ADVANCED, _FIRST_LETTER = range(4)  # rows of that table
_NO_SCHOOL = (
    "No scale here is any school's: they are forms in common use. Choose one, or type what your school counts for each "
    "letter; what you type wins. An advanced class that is passed adds the points given beside “Advanced class adds”."
)


def write_grades_overview(book: Book) -> None:
    """Adds the sheet in its place, before those of the courses; it is filled once they stand."""
    sheet = book.add_sheet(OVERVIEW)
    book.head(sheet, "Grades overview", CAUTION, len(_TABLE.columns))
    how = "Figures come from each course's sheet; set the target there. Current: over the marks so far."
    book.put(sheet, 3, 1, how, "note")
    sheet.merge_cells(start_row=3, start_column=1, end_row=3, end_column=len(_TABLE.columns))
    for number, column in enumerate(_TABLE.columns, start=1):
        book.put(sheet, _TABLE.heading_row, number, column.heading, "heading")
    sheet.row_dimensions[_TABLE.heading_row].height = 32
    book.set_widths(sheet, [column.width for column in _TABLE.columns])
    sheet.freeze_panes = f"A{_TABLE.first_row}"


def fill_grades_overview(book: Book, blocks: tuple[GradesBlock, ...]) -> None:
    """Writes a row for each course from where its figures stand, then averages and the scale of grade points."""
    sheet = book.workbook[OVERVIEW]
    last = _TABLE.heading_row + max(1, len(blocks))
    scale = _Scale(last + 3)
    for number, (course, block) in enumerate(zip(book.plan.resolved.courses, blocks, strict=True), start=1):
        _write_course(book, sheet, number, course.outline.course.title or "", block, scale)
    book.offer(sheet, f"{_TABLE.letter('advanced')}{_TABLE.first_row}:{_TABLE.letter('advanced')}{last}", ("yes", "no"))
    book.colour_courses(sheet, f"A{_TABLE.first_row}:A{last}", f"$A{_TABLE.first_row}")
    end = _write_averages(book, sheet, scale, last)
    _write_scale(book, sheet, scale)
    area = f"A1:{_TABLE.letter('sheet')}{max(end, scale.last)}"
    book.set_print(sheet, area, landscape=True, one_page=len(blocks) <= _ONE_PAGE)


class _Scale:
    """Where the scale of grade points stands: letters in F, the chosen scale's in G, the user's in H, used in I."""

    def __init__(self, heading: int) -> None:
        self.heading = heading
        self.first = heading + 1
        self.last = heading + len(_LETTERS) + _FREE_LETTERS
        self.choice = f"$C${heading}"
        self.adds = f"IF(ISNUMBER($D${heading + 1}),$D${heading + 1},$C${heading + 1})"

    def column(self, letter: str) -> str:
        """A column of the table, fixed."""
        return f"${letter}${self.first}:${letter}${self.last}"


def _write_course(book: Book, sheet: Worksheet, number: int, title: str, block: GradesBlock, scale: _Scale) -> None:
    at = _TABLE.heading_row + number
    place = block.place
    graded, waiting = (f"COUNTIF({block.far(block.marks('state'))},{state})" for state in (1, 2))
    letter, current = _TABLE.cell("letter", at), _TABLE.cell("current", at)
    values: dict[str, Value] = {
        "course": Formula(f'INDEX({Name.COURSES},{number})&""'),
        "title": title,
        "current": Formula(block.far(block.one("grade_now"))),
        "letter": Formula(f'IF({current}="","–",{block.far(block.one("letter"))})'),
        "lowest": Formula(block.far(block.one("grade_low"))),
        "highest": Formula(block.far(block.one("grade_high"))),
        "target": Formula(f'IF({place.far(place.setting("target"))}="","",{place.far(place.setting("target"))})'),
        "enough": Formula(place.far(place.setting("enough"))),
        "marks": Formula(f'{graded}&" of "&{graded}+{waiting}'),
        "credits": Formula(f'IF(ISNUMBER(INDEX({Name.CREDITS},{number})),INDEX({Name.CREDITS},{number}),"")'),
        "advanced": None,
        "points": Formula(_points(scale, letter, current, _TABLE.cell("advanced", at))),
    }
    for column_number, column in enumerate(_TABLE.columns, start=1):
        if column.key == "sheet":
            book.put_link(sheet, at, column_number, "Open", place.far("A1"))
            continue
        style = _STYLES.get(column.key, "percent_fine")
        book.put(sheet, at, column_number, values[column.key], style, typed=column.key == "title")
    key = book.plan.resolved.courses[number - 1].key
    texts = [(title, _TABLE.width("title")), (f"{key} ", _TABLE.width("course") / 1.08)]  # the course is bold
    sheet.row_dimensions[at].height = row_height(texts, least=20)


def _points(scale: _Scale, letter: str, current: str, advanced: str) -> str:
    """Grade points: by the grade itself where the scale counts so, else by letter; "letter?" when it has none."""
    per_share = f'INDEX({_presets(_PER_SHARE)},MATCH({scale.choice}&"",{_presets(_NAMES)},0))'
    found = f"SUMPRODUCT(MAX(({scale.column('F')}={letter})*(1000-ROW({scale.column('F')}))))"
    used = f"INDEX({scale.column('I')},1000-{found}-{scale.heading})"
    plus = f'IF({advanced}="yes",{scale.adds},0)'
    by_letter = f'IF({found}=0,"letter?",IF(ISNUMBER({used}),{used}+IF({used}>0,{plus},0),"letter?"))'
    by_grade = f"{current}*{per_share}+IF({current}>0,{plus},0)"
    return f'IF({current}="","",IF(IFERROR({per_share},0)>0,{by_grade},{by_letter}))'


def _write_averages(book: Book, sheet: Worksheet, scale: _Scale, last: int) -> int:
    """Writes the averages beside the scale; returns the last row used."""
    row = scale.heading
    points, credit = (
        f"${letter}${_TABLE.first_row}:${letter}${last}" for letter in map(_TABLE.letter, ("points", "credits"))
    )
    sums = "+".join(
        f"N({_TABLE.cell('points', at)})*N({_TABLE.cell('credits', at)})" for at in range(_TABLE.first_row, last + 1)
    )
    counted = f'COUNTIFS({points},">=0",{credit},">0")'
    unplaced = f'COUNTIF({points},"letter~?")+COUNTIF({points},">=0")-{counted}'
    total, earlier, earlier_credits = (f"$C${row + offset}" for offset in (2, 4, 5))
    both = f"({total}+N({earlier_credits}))"
    cumulative = (
        f'IF(OR(NOT(ISNUMBER({earlier})),N({earlier_credits})<=0),"",(N({earlier})*N({earlier_credits})+{sums})/{both})'
    )
    adds = f'IFERROR(INDEX({_presets(_ADVANCED)},MATCH({scale.choice}&"",{_presets(_NAMES)},0)),0)'
    lines: tuple[tuple[str, Value, str], ...] = (
        ("Scale of grade points", PRESETS[0].name, "entry_text"),
        ("Advanced class adds; at my school", Formula(adds), "number"),
        ("Credits counted this term", Formula(f'SUMIFS({credit},{points},">=0")'), "number"),
        ("Average this term", Formula(f'IF({total}=0,"",({sums})/{total})'), "points"),
        ("Average of earlier terms", None, "entry_number"),
        ("Credits of earlier terms", None, "entry_number"),
        ("Average with earlier terms", Formula(cumulative), "points"),
        ("Left out of the average", Formula(f'IF({unplaced}=0,"",{unplaced}&" without credits or points")'), "text"),
    )
    for offset, (label, value, style) in enumerate(lines):
        book.put(sheet, row + offset, 1, label, "line")
        book.put(sheet, row + offset, 3, value, style, typed=isinstance(value, str))
        is_pair = offset == 1
        book.put(sheet, row + offset, 4, None, "entry_number" if is_pair else style)
        if not is_pair:
            sheet.merge_cells(start_row=row + offset, start_column=3, end_row=row + offset, end_column=4)
    book.offer(sheet, f"C{row}", tuple(one.name for one in PRESETS))
    book.accept_numbers(sheet, f"D{row + 1}", 0, 1000)
    book.accept_numbers(sheet, f"C{row + 4}:C{row + 5}", 0, 1000)
    return row + len(lines)


def _write_scale(book: Book, sheet: Worksheet, scale: _Scale) -> None:
    for column, heading in (("F", "Letter"), ("G", "This scale"), ("H", "My school"), ("I", "Counts")):
        cell = sheet[f"{column}{scale.heading}"]
        book.put(sheet, cell.row, cell.column, heading, "heading")
    chosen = f'MATCH({scale.choice}&"",{_presets(_NAMES)},0)'
    for offset in range(scale.last - scale.heading):
        row = scale.first + offset
        letter = _LETTERS[offset] if offset < len(_LETTERS) else None
        preset = f"INDEX({_presets(_FIRST_LETTER + offset)},{chosen})"
        found = Formula(f'IFERROR(IF({preset}="","",{preset}),"")') if letter is not None else None
        book.put(sheet, row, 6, letter, "entry_centre", typed=letter is not None)
        book.put(sheet, row, 7, found, "number")
        book.put(sheet, row, 8, None, "entry_number")
        book.put(sheet, row, 9, Formula(f'IF(ISNUMBER($H{row}),$H{row},IF(ISNUMBER($G{row}),$G{row},""))'), "number")
    book.accept_numbers(sheet, f"H{scale.first}:H{scale.last}", 0, 1000)
    book.put(sheet, scale.heading, 11, _NO_SCHOOL, "note")
    sheet.merge_cells(start_row=scale.heading, start_column=11, end_row=scale.heading + 12, end_column=13)


def _presets(row: int) -> str:
    """A row of the hidden table of scales: their names, points for full marks, what advanced classes add, letters."""
    first, last = column_letter(PRESET_COLUMN), column_letter(PRESET_COLUMN + len(PRESETS) - 1)
    at = _FIRST_SCALE_ROW + row
    return f"{quote_sheet(GRADE_SUMS)}!${first}${at}:${last}${at}"


def write_point_scales(book: Book) -> None:
    """Writes the scales of grade points on the hidden sheet, beside what is computed there."""
    sheet = book.workbook[GRADE_SUMS]
    for number, scale in enumerate(PRESETS):
        points = dict(scale.letters)
        values: list[str | float | None] = [scale.name, float(scale.per_share or 0), float(scale.advanced)]
        values += [float(points[letter]) if letter in points else None for letter in _LETTERS]
        for offset, value in enumerate(values):
            cell = sheet.cell(_FIRST_SCALE_ROW + offset, PRESET_COLUMN + number)
            cell.value = value
            if isinstance(value, str):
                cell.data_type = "s"
