"""Sheet names and references."""

from __future__ import annotations

import pytest

from syllabus_io.workbook.layout import (
    DEADLINES_TABLE,
    EXAMS_TABLE,
    MARKS_COLUMNS,
    OVERVIEW_TABLE,
    REVIEW_TABLE,
    column_letter,
    grades_sheet_names,
)


def test_grades_sheets_have_names_of_their_own() -> None:
    names = grades_sheet_names(["overview", "BIO 110", "bio 110", "A/B: [x]*?", "", "y" * 40, "y" * 41])
    assert len({name.casefold() for name in names}) == len(names)
    assert all(0 < len(name) <= 31 for name in names)
    assert names[0] != "Grades overview"


@pytest.mark.parametrize(
    ("number", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (702, "ZZ"), (703, "AAA")]
)
def test_column_letters(number: int, letters: str) -> None:
    assert column_letter(number) == letters


@pytest.mark.parametrize(
    "columns",
    [REVIEW_TABLE.columns, DEADLINES_TABLE.columns, EXAMS_TABLE.columns, OVERVIEW_TABLE.columns, MARKS_COLUMNS],
)
def test_columns_have_keys_and_headings_of_their_own(columns: tuple[object, ...]) -> None:
    assert len({column.key for column in columns}) == len(columns)  # type: ignore[attr-defined]
    assert len({column.heading.casefold() for column in columns}) == len(columns)  # type: ignore[attr-defined]
