"""Review in a tutor's hands: what is left to check falls to zero, readings are offered, what is no date is refused."""

from __future__ import annotations

from datetime import date

import pytest
from openpyxl.utils.cell import coordinate_to_tuple

from syllabus_io.workbook.layout import LISTS, REVIEW, REVIEW_TABLE, Name
from syllabus_io.workbook.review_rows import review_rows
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import Sheets, day, deadlines, iron

AMBIGUOUS = "Field notes talk"


def _to_check(sheets: Sheets) -> object:
    sheet, cell = sheets.cell_of(Name.TO_CHECK)
    return iron(sheets)[sheet][cell]


def test_what_is_left_falls_to_zero_as_rows_are_settled() -> None:
    sheets = Sheets.of(usual_plan())
    left = [row for row in review_rows(usual_plan()) if row.why]
    assert _to_check(sheets) == len(left) > 3
    sheets.put_review(AMBIGUOUS, "pick", date(2026, 9, 10))
    sheets.put_review("Map test", "corrected", date(2026, 10, 19), "HIS 204")
    assert _to_check(sheets) == len(left) - 2
    for row in left:
        if row.title not in {AMBIGUOUS, "Map test"}:
            sheets.put_review(row.title, "keep", "keep", row.course)
    assert _to_check(sheets) == 0


@pytest.mark.parametrize("key", ["pick", "corrected"])
def test_a_word_where_a_date_belongs_stays_open(key: str) -> None:
    sheets = Sheets.of(usual_plan())
    before = _to_check(sheets)
    sheets.put_review(AMBIGUOUS, key, "ask her")
    row = sheets.row_of(REVIEW_TABLE, AMBIGUOUS)
    assert iron(sheets)[REVIEW][f"{REVIEW_TABLE.letter('flag')}{row}"] == "not a date"
    assert _to_check(sheets) == before


def test_a_chosen_reading_moves_the_item_and_a_typed_date_beats_it() -> None:
    sheets = Sheets.of(usual_plan())
    sheets.put_review(AMBIGUOUS, "pick", date(2026, 9, 10))
    assert _day_in_deadlines(sheets) == date(2026, 9, 10)
    sheets.put_review(AMBIGUOUS, "corrected", date(2026, 9, 17))
    assert _day_in_deadlines(sheets) == date(2026, 9, 17)


def _day_in_deadlines(sheets: Sheets) -> date | None:
    return next(one.day for one in deadlines(iron(sheets)) if one.title == AMBIGUOUS)


def test_every_doubtful_date_offers_its_readings() -> None:
    sheets = Sheets.of(usual_plan())
    book = sheets.book
    rules = {str(rule.sqref): rule for rule in book[REVIEW].data_validations.dataValidation}
    doubtful = [row for row in review_rows(usual_plan()) if row.readings]
    assert doubtful, "the plan has a date that can be two days"
    ids = book.defined_names[Name.READING_IDS].attr_text.split("!")[1].replace("$", "").split(":")[0]
    first_row, id_column = coordinate_to_tuple(ids)
    for number, row in enumerate(doubtful):
        at = sheets.row_of(REVIEW_TABLE, row.title, row.course)
        rule = rules[f"{REVIEW_TABLE.letter('pick')}{at}"]
        assert rule.type == "list" and rule.showErrorMessage, f"{row.title}: only its readings can be chosen"
        assert Name.READING_DAYS in str(rule.formula1)
        assert book[LISTS].cell(first_row + number, id_column).value == row.id
        offered = [book[LISTS].cell(first_row + number, id_column + k).value for k in range(1, len(row.readings) + 1)]
        assert [one.date() for one in offered] == [first for first, _ in row.readings]


def test_the_corrected_date_refuses_what_is_no_date() -> None:
    sheet = Sheets.of(usual_plan()).book[REVIEW]
    letter = REVIEW_TABLE.letter("corrected")
    rule = next(one for one in sheet.data_validations.dataValidation if str(one.sqref).startswith(f"{letter}7:"))
    assert (rule.type, rule.showErrorMessage, rule.errorStyle or "stop") == ("date", True, "stop")


def test_a_window_keeps_its_end_until_another_day_is_typed() -> None:
    sheets = Sheets.of(usual_plan())
    row = sheets.row_of(REVIEW_TABLE, "Final exam", "BIO 110")
    until = f"{REVIEW_TABLE.letter('until')}{row}"
    assert day(iron(sheets)[REVIEW][until]) == date(2026, 12, 18)
    sheets.put_review("Final exam", "corrected", date(2026, 12, 16), "BIO 110")
    assert iron(sheets)[REVIEW][until] == ""
