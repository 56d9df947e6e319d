"""Where a course's grades stand: tables on its own sheet, and its block of the hidden sheet that computes them.

The hidden sheet reads the tables row by row by their position, from the heading to the line under the last row. So
rows may be added between, deleted or sorted on the course's sheet, and every figure follows.
"""

from __future__ import annotations

from dataclasses import dataclass

from syllabus_io.workbook.layout import GRADE_SUMS, MARKS_COLUMNS, TableLayout, column_letter, quote_sheet

__all__ = ["NEXT", "NUMBER", "POINTS", "ROW", "STATES", "GradesBlock", "GradesPlace", "Table"]

STATES = ("now", "low", "high", "try", "full")
"""What open marks are taken to be: left out; zero; full; left out, with what-if marks; full, open extra credit zero."""

ROW = "{row}"
"""Stands for the number of the row in formulas that are the same in every row but for it."""

NEXT = "{next}"
"""Stands for the number of the row below."""

_SINGLES = (
    "marks", "weighted", "off_full", "even_unit", "half_unit", "final", "on_top", "parts", "steps", "last_fixed",
    "last_open", "points", "least", "alone_open_x", "alone_doubt", "alone_mixed",
    "alone_dropped", "alone_full", "alone_l", "alone_s",
    "weights_off", "unclear", "missing_rows", *(f"grade_{state}" for state in STATES), "letter", "letter_try",
)  # fmt: skip
_MARKS = (
    "n", "name", "cat", "poss", "typed", "points", "state", "pen", "whole", "share", "earned", "fin", "extra", "part",
    "flag", "tie", "key_now", "key_low", "key_high", "tried", "tried_share", "tried_earned", "key_try", "next", "limit",
    "sum_earned", "sum_whole", "sum_final", "factor", "base", "part_base", "part_grade", "part_next", "running", "unit",
    "below", "open_x", "rank", "open_rank", "from", "to", "point", "share_of_grade", "shown", "note", "order", "chart",
)  # fmt: skip
_CATEGORIES = (
    "c_n", "c_name", "c_weight", "c_drop", "c_keep", "c_even", "c_extra", "c_flag", "c_part", "c_all", "on_top_of",
    *(f"{key}_{state}" for state in ("now", "high", "try") for key in ("num", "k")),
    *(f"{key}_{state}" for state in STATES[:4] for key in ("lim", "earned", "whole")), "earned_full", "result_now",
    *(f"{key}_{state}" for key in ("over", "base") for state in STATES), "value", "c_unit", "lead", "lead_open",
    "act_from", "act_to", "line_fixed", "line_open", "alone_own", "alone_left", "alone_k",
    "lim_alone", "earned_alone", "alone_sum",
    "alone_base", "alone_value", "alone_lead", "alone_lead_open", "alone_active", "alone_line", "alone_slope",
    "alone_at", "alone_jump", "alone_bend", "alone_grade",
)  # fmt: skip
_PIECES = ("at", "of_unit", "worth", "fixed_after", "open_after", "whole_after", "fixed_before", "open_before",
           "whole_before", "jump", "bend", "grade_at")  # fmt: skip
_PARTS = (
    "p_n", "p_name", "p_weight", "p_sum", *(f"final_{state}" for state in STATES),
    *(f"den_{state}" for state in STATES), *(f"part_{state}" for state in STATES), "p_value", "final_fixed",
    "final_open", "alone_fixed", "alone_open", "alone_den", "alone_part",
)  # fmt: skip
_TARGETS = (
    "t_n", "letter_text", "counts_as", "needs", "last_below", "line", "slope", "next_at", "raw", "answer",
    "alone_below", "alone_line_at", "alone_slope_at", "alone_next", "alone_raw", "alone_answer",
)  # fmt: skip
NUMBER = "{number}"
"""In place of a formula: the number of the row among its kind, which does not change."""
POINTS = 12
"""Rows for points at which a mark comes to be kept or left out; the highest ones are looked at."""


def _letters(keys: tuple[str, ...], first: int = 1) -> dict[str, str]:
    return {key: column_letter(number) for number, key in enumerate(keys, start=first)}


_SINGLE_AT, _MARK_AT, _CATEGORY_AT = _letters(_SINGLES), _letters(_MARKS), _letters(_CATEGORIES)
_PIECE_AT, _PART_AT, _TARGET_AT = _letters(_PIECES), _letters(_PARTS), _letters(_TARGETS)


@dataclass(frozen=True, slots=True)
class Table:
    """A table of the course's sheet: its heading row and the line that closes it; ``columns`` are letters by key."""

    heading: int
    closing: int
    columns: tuple[tuple[str, str], ...]

    def letter(self, key: str) -> str:
        """The column's letter; KeyError when there is none of that key."""
        return dict(self.columns)[key]

    @property
    def first(self) -> int:
        """The first row under the heading."""
        return self.heading + 1

    @property
    def last(self) -> int:
        """The last row above the closing line."""
        return self.closing - 1

    def column(self, key: str) -> str:
        """The rows of a column on its own sheet, fixed."""
        letter = self.letter(key)
        return f"${letter}${self.first}:${letter}${self.last}"


@dataclass(frozen=True, slots=True)
class GradesPlace:
    """Where things stand on the course's sheet: tables, and the cells of settings and figures."""

    sheet: str
    marks_heading: int
    marks_closing: int
    categories: Table
    parts: Table
    scale: Table
    settings: tuple[tuple[str, str], ...]

    @property
    def marks(self) -> TableLayout:
        """The table of marks."""
        return TableLayout(self.sheet, self.marks_heading, MARKS_COLUMNS)

    def setting(self, key: str) -> str:
        """The fixed cell of a setting or figure on its own sheet."""
        return dict(self.settings)[key]

    def far(self, cells: str) -> str:
        """Cells of this sheet as another sheet refers to them."""
        return f"{quote_sheet(self.sheet)}!{cells}"

    def mark_column(self, key: str) -> str:
        """A column of marks from the heading to the closing line, for other sheets."""
        letter = self.marks.letter(key)
        return self.far(f"${letter}${self.marks_heading}:${letter}${self.marks_closing}")

    def table_column(self, table: Table, key: str) -> str:
        """The same of another table."""
        letter = table.letter(key)
        return self.far(f"${letter}${table.heading}:${letter}${table.closing}")


@dataclass(frozen=True, slots=True)
class GradesBlock:
    """A course's block of the hidden sheet: single figures, a row for each mark, category, point, part, and target.

    The first points are those of the categories, in their order. The last target is the student's own. A row is a
    number, or ROW where a formula is made for all of them.
    """

    place: GradesPlace
    top: int
    mark_count: int
    category_count: int
    part_count: int
    step_count: int

    @property
    def first_mark(self) -> int:
        """Row of the first mark."""
        return self.top + 3

    @property
    def first_category(self) -> int:
        """Row of the first category."""
        return self.first_mark + self.mark_count + 1

    @property
    def first_piece(self) -> int:
        """Row of the first point: that of the first category."""
        return self.first_category + self.category_count + 1

    @property
    def piece_count(self) -> int:
        """Rows of points: one a category, then those of marks."""
        return self.category_count + POINTS

    @property
    def first_part(self) -> int:
        """Row of the first part."""
        return self.first_piece + self.piece_count + 1

    @property
    def first_target(self) -> int:
        """Row of the first letter of the scale."""
        return self.first_part + self.part_count + 1

    @property
    def own_target(self) -> int:
        """Row of the target that the student sets."""
        return self.first_target + self.step_count

    @property
    def end(self) -> int:
        """The first row under the block."""
        return self.own_target + 2

    def one(self, key: str) -> str:
        """A single figure."""
        return f"${_SINGLE_AT[key]}${self.top + 1}"

    def mark(self, key: str, row: int | str = ROW) -> str:
        """A cell in the row of a mark."""
        return f"${_MARK_AT[key]}{row}"

    def marks(self, key: str) -> str:
        """A column of the marks."""
        return _range(_MARK_AT[key], self.first_mark, self.mark_count)

    def down(self, key: str) -> str:
        """A column of the marks down to the row."""
        return f"${_MARK_AT[key]}${self.first_mark}:${_MARK_AT[key]}{ROW}"

    def after(self, key: str) -> str:
        """A column of the marks from the next row on; one blank row follows the last."""
        return f"${_MARK_AT[key]}{NEXT}:${_MARK_AT[key]}${self.first_mark + self.mark_count}"

    def category(self, key: str, row: int | str = ROW) -> str:
        """A cell in the row of a category."""
        return f"${_CATEGORY_AT[key]}{row}"

    def categories(self, key: str) -> str:
        """A column of the categories."""
        return _range(_CATEGORY_AT[key], self.first_category, self.category_count)

    def piece(self, key: str, row: int | str = ROW) -> str:
        """A cell in the row of a point."""
        return f"${_PIECE_AT[key]}{row}"

    def pieces(self, key: str) -> str:
        """A column of the points."""
        return _range(_PIECE_AT[key], self.first_piece, self.piece_count)

    def part(self, key: str, row: int | str = ROW) -> str:
        """A cell in the row of a part."""
        return f"${_PART_AT[key]}{row}"

    def parts(self, key: str) -> str:
        """A column of the parts."""
        return _range(_PART_AT[key], self.first_part, self.part_count)

    def target(self, key: str, row: int | str = ROW) -> str:
        """A cell in the row of a letter or of the target."""
        return f"${_TARGET_AT[key]}{row}"

    def steps(self, key: str) -> str:
        """A column of the letters."""
        return _range(_TARGET_AT[key], self.first_target, self.step_count)

    def far(self, cells: str) -> str:
        """Cells of the block as the course's sheet refers to them."""
        return f"{quote_sheet(GRADE_SUMS)}!{cells}"


def _range(letter: str, first: int, count: int) -> str:
    return f"${letter}${first}:${letter}${first + count - 1}"
