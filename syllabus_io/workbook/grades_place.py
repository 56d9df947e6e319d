"""The rows of a course's grades sheet from top to bottom: figures, notes, categories, scale, settings, marks."""

from __future__ import annotations

from dataclasses import dataclass

from syllabus_io.workbook.grades_block import GradesPlace, Table
from syllabus_io.workbook.grades_rows import CourseGrades

__all__ = [
    "CATEGORY_COLUMNS",
    "CHART_ROWS",
    "FIRST_NOTE",
    "PART_COLUMNS",
    "SCALE_COLUMNS",
    "SETTINGS",
    "Spare",
    "place_grades",
]

CATEGORY_COLUMNS = (
    ("id", "A", ""),
    ("part", "B", "Part, if the course has parts"),
    ("name", "C", "Category"),
    ("weight", "D", "Weight"),
    ("drop", "E", "Leave out lowest"),
    ("keep", "F", "Keep only best"),
    ("even", "G", "Marks count the same"),
    ("extra", "H", "Only adds (extra credit)"),
    ("replaced", "I", "Final can replace"),
    ("so_far", "J", "So far"),
    ("marks", "K", "Marks"),
)
"""Columns of the categories: key, letter, heading."""

SCALE_COLUMNS = (
    ("letter", "B", "Letter"),
    ("enough", "C", "Enough on what is left"),
    ("alone", "D", "Enough on the final alone"),
    ("minimum", "E", "From"),
    ("counts_as", "F", "A typed letter counts"),
)
PART_COLUMNS = (("name", "C", "Part (marking period, semester exam …)"), ("weight", "D", "Weight"))

SETTINGS = (
    ("method", "Grade made of", "weights: categories by weight; points: all points together"),
    ("final", "The final is", "a category, or the name of one piece of work"),
    ("late", "A late penalty is a share", "of full marks: 10 % takes 10 of 100; of the mark: a tenth of it"),
    ("rounding", "The final grade is", "as the course rounds before it looks up the letter"),
    ("on_top", "Added at the end", "extra credit on the whole grade"),
    ("full", "Full marks on the course's scale", "100 for percent; 4 where levels go from 1 to 4"),
)
"""Settings: key, label, explanation."""

FIRST_NOTE = 8
_FIGURES = (
    ("current", "B3"),
    ("letter", "C3"),
    ("lowest", "D3"),
    ("highest", "E3"),
    ("target", "G3"),
    ("enough", "I3"),
    ("alone", "L3"),
    ("try", "N3"),
    ("letter_try", "N4"),
)
CHART_ROWS = 12
"""Rows that the charts take, under the categories."""


@dataclass(frozen=True, slots=True)
class Spare:
    """Rows that stay free for the user."""

    marks: int = 12
    categories: int = 2
    parts: int = 3
    letters: int = 2
    """Beside what the scale holds; a course without a scale gets more."""


def place_grades(title: str, grades: CourseGrades, spare: Spare) -> GradesPlace:
    """Where everything stands on the sheet of that title."""
    notes = len(grades.doubts) + len(grades.rules)
    book = grades.book
    categories = FIRST_NOTE + notes + 3
    categories_end = categories + len(book.categories) + spare.categories + 1
    scale = categories_end + CHART_ROWS + 2
    scale_end = scale + len(book.steps) + spare.letters + 1
    settings = scale_end + 2
    parts = settings + len(SETTINGS) + 1
    parts_end = parts + max(len(book.parts), spare.parts) + 1
    marks = parts_end + 3
    cells = [(key, f"D{settings + number}") for number, (key, _, _) in enumerate(SETTINGS)]
    fixed = [(key, f"${cell[0]}${cell[1:]}") for key, cell in [*_FIGURES, *cells]]
    return GradesPlace(
        title,
        marks,
        marks + len(book.marks) + spare.marks + 1,
        Table(categories, categories_end, tuple((key, letter) for key, letter, _ in CATEGORY_COLUMNS)),
        Table(parts, parts_end, tuple((key, letter) for key, letter, _ in PART_COLUMNS)),
        Table(scale, scale_end, tuple((key, letter) for key, letter, _ in SCALE_COLUMNS)),
        tuple(fixed),
    )
