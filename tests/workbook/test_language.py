"""The workbook in another language: every text is in the catalogue, and what is typed comes back in English."""

from __future__ import annotations

import io
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.plan.records import Plan
from syllabus_io.revise.standing import standing_plan
from syllabus_io.revise.update import Updated, update_workbook
from syllabus_io.workbook.cached_values import ErrorValue
from syllabus_io.workbook.language import ENGLISH, LANGUAGES, find_language
from syllabus_io.workbook.layout import REVIEW, REVIEW_TABLE
from syllabus_io.workbook.own_texts import own_texts
from syllabus_io.workbook.write import WorkbookOptions, collect_book, make_workbook
from tests.workbook.plans import usual_plan

TODAY = date(2026, 9, 28)
OTHERS = [code for code in LANGUAGES if code != ENGLISH]


@pytest.fixture(scope="module")
def plan() -> Plan:
    return usual_plan()


@pytest.fixture(scope="module")
def spanish(plan: Plan) -> bytes:
    return make_workbook(plan, WorkbookOptions(today=TODAY, language="es"))


def opened(content: bytes, **options: Any) -> Any:
    return openpyxl.load_workbook(io.BytesIO(content), **options)


@pytest.mark.parametrize("code", OTHERS)
def test_every_text_of_the_workbook_is_in_the_catalogue(code: str, plan: Plan) -> None:
    language = find_language(code)
    book = collect_book(plan, WorkbookOptions(today=TODAY)).workbook
    missing = sorted({text for text in own_texts(book) if text not in language.texts and language.text(text) == text})
    assert not missing, f"languages/{code}.json lacks these texts"


@pytest.mark.parametrize("code", OTHERS)
def test_no_two_texts_are_translated_alike(code: str) -> None:
    texts = find_language(code).texts
    twice = [text for text, times in Counter(texts.values()).items() if times > 1]
    assert not twice, "the way back to English must be clear"
    broken = [english for english, text in texts.items() if english.count("{}") != text.count("{}")]
    assert not broken, "each place for words must be kept"
    padded = [e for e, t in texts.items() if (e[:1] == " ", e[-1:] == " ") != (t[:1] == " ", t[-1:] == " ")]
    assert not padded, "blanks at the ends join a text to what stands beside it"


def test_sheets_are_named_in_the_language_and_no_formula_breaks(spanish: bytes) -> None:
    book = opened(spanish, data_only=True)
    assert {"Empezar aquí", "Revisión", "Entregas", "Exámenes", "Mes"} <= set(book.sheetnames)
    errors = [
        f"{sheet.title}!{cell.coordinate}"
        for sheet in book.worksheets
        for cell in sheet._cells.values()
        if cell.data_type == "e"
    ]
    assert not errors


def test_a_formula_counts_the_same_in_both_languages(plan: Plan, spanish: bytes) -> None:
    english = opened(make_workbook(plan, WorkbookOptions(today=TODAY)), data_only=True)
    other = opened(spanish, data_only=True)
    differ = []
    for one, two in zip(english.worksheets, other.worksheets, strict=True):
        if one.sheet_state == "veryHidden":
            continue
        for at, cell in one._cells.items():
            value, twin = cell.value, two._cells[at].value
            if isinstance(value, int | float) and not isinstance(value, bool) and value != twin:
                differ.append(f"{one.title}!{cell.coordinate}: {value!r} and {twin!r}")
    assert not differ


def typed_in(content: bytes) -> bytes:
    """The Spanish workbook after a person has skipped one item, renamed another, and added a row of their own."""
    book = opened(content)
    sheet = book["Revisión"]
    first = REVIEW_TABLE.first_row

    def put(row: int, key: str, value: object) -> None:
        sheet.cell(row, REVIEW_TABLE.number(key)).value = value

    put(first, "keep", "quitar")
    put(first + 1, "title", "Notas")  # a text of the catalogue, typed as a title
    free = next(row for row in range(first, sheet.max_row + 1) if str(sheet.cell(row, 1).value).startswith("own-"))
    put(free, "course", sheet.cell(first, REVIEW_TABLE.number("course")).value)
    put(free, "title", "Ensayo sobre Notas")
    put(free, "kind", "examen")
    put(free, "corrected", date(2026, 10, 7))
    packed = io.BytesIO()
    book.save(packed)
    return packed.getvalue()


@pytest.fixture(scope="module")
def updated(spanish: bytes) -> Updated:
    return update_workbook(Path("plan.xlsx"), typed_in(spanish), today=TODAY)


def test_what_was_typed_comes_back_in_english(updated: Updated) -> None:
    standing = standing_plan(Path("plan.xlsx"), updated)
    own = next(item for item in standing.items if item.title == "Ensayo sobre Notas")
    assert (own.kind.value if own.kind else None, own.day) == ("exam", date(2026, 10, 7))
    assert [item.is_skipped for item in standing.items][:1] == [True]
    assert standing.items[1].title == "Notas"


def test_what_was_typed_stays_in_the_language(updated: Updated) -> None:
    sheet = opened(updated.content)["Revisión"]
    first = REVIEW_TABLE.first_row
    shown = [sheet.cell(first + row, REVIEW_TABLE.number(key)).value for row, key in ((0, "keep"), (1, "title"))]
    assert shown == ["quitar", "Notas"]
    again = update_workbook(Path("plan.xlsx"), updated.content, today=TODAY)
    assert again.content == updated.content, "a second update changes nothing"
    assert not again.left
    assert not any(isinstance(value, ErrorValue) for value in again.values[REVIEW].values())


def test_an_unknown_language_is_refused() -> None:
    with pytest.raises(BadSetting, match="choose from en, es"):
        find_language("xx")


def test_the_command_line_names_every_language() -> None:
    page = (Path(__file__).parents[2] / "docs" / "cli.md").read_text(encoding="utf-8")
    named = next(line for line in page.splitlines() if "--language" in line)
    assert [code for code in LANGUAGES if f" {code}" not in named] == []
