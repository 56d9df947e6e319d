"""Looks: contrast, named faces, and a palette made for every kind of colour vision."""

from __future__ import annotations

import io
from datetime import date

import openpyxl
import pytest
from openpyxl.cell.cell import MergedCell

from syllabus_io.workbook.styles import FACE, LOOKS, OKABE_ITO, Look, Pair, contrast
from syllabus_io.workbook.write import WorkbookOptions, collect_workbook
from tests.workbook.plans import usual_plan

look_by_name = pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.name)


def test_contrast_is_that_of_the_guidelines() -> None:
    """WCAG 2.2: black on white is 21 to 1, a colour on itself 1 to 1; #767676 on white is known to be just 4.5 to 1."""
    assert contrast(Pair("000000", "FFFFFF")) == pytest.approx(21)
    assert contrast(Pair("0072B2", "0072B2")) == pytest.approx(1)
    assert contrast(Pair("767676", "FFFFFF")) == pytest.approx(4.54, abs=0.01)


@look_by_name
def test_every_text_can_be_read(look: Look) -> None:
    """WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1."""
    for purpose, pair in look.pairs():
        assert contrast(pair) >= 4.5, f"{look.name}: {purpose} has only {contrast(pair):.2f} to 1"


def test_course_colours_are_the_published_palette() -> None:
    """M. Okabe & K. Ito, Color Universal Design (2008): RGB values as printed there, typed from memory."""
    published = {
        "black": (0, 0, 0),
        "orange": (230, 159, 0),
        "sky blue": (86, 180, 233),
        "bluish green": (0, 158, 115),
        "yellow": (240, 228, 66),
        "blue": (0, 114, 178),
        "vermilion": (213, 94, 0),
        "reddish purple": (204, 121, 167),
    }
    assert {f"{r:02X}{g:02X}{b:02X}" for r, g, b in published.values()} == set(OKABE_ITO)
    clear = LOOKS[0]
    assert {pair.fill for pair in clear.courses} <= set(OKABE_ITO)
    assert len({pair.fill for pair in clear.courses}) == len(clear.courses)


def test_the_plain_look_saves_ink() -> None:
    plain = next(look for look in LOOKS if look.name == "plain")
    assert all(pair.fill is None for _, pair in plain.pairs())
    assert all(pair.ink[:2] == pair.ink[2:4] == pair.ink[4:] for _, pair in plain.pairs()), "greys only"


@look_by_name
def test_every_cell_names_its_face_and_size(look: Look) -> None:
    options = WorkbookOptions(look=look.name, today=date(2026, 9, 28))
    book = openpyxl.load_workbook(io.BytesIO(collect_workbook(usual_plan(), options)))
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.font.name == FACE and cell.font.size, f"{sheet.title}!{cell.coordinate}"


def test_cells_to_fill_in_are_unlocked_and_framed_and_others_are_locked() -> None:
    book = openpyxl.load_workbook(io.BytesIO(collect_workbook(usual_plan(), WorkbookOptions(look="plain"))))
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell, MergedCell):
                    continue
                is_entry = str(cell.style).startswith("entry_")
                assert cell.protection.locked != is_entry, f"{sheet.title}!{cell.coordinate}"
                if is_entry:
                    assert cell.data_type != "f", f"{sheet.title}!{cell.coordinate}: an entry is no formula"


def test_every_sheet_is_protected_without_a_password_and_filters_work() -> None:
    """ECMA-376 part 1, 18.3.1.85: a right that is noted is forbidden."""
    for sheet in openpyxl.load_workbook(io.BytesIO(collect_workbook(usual_plan(), WorkbookOptions()))):
        if sheet.sheet_state != "visible":
            continue
        guard = sheet.protection
        assert guard.sheet and not guard.password, f"{sheet.title}: anyone may lift the protection"
        assert not (guard.autoFilter or guard.sort or guard.formatColumns or guard.formatRows), sheet.title


def test_cells_joined_with_one_to_fill_in_are_open_too() -> None:
    for sheet in openpyxl.load_workbook(io.BytesIO(collect_workbook(usual_plan(), WorkbookOptions()))):
        for cells in sheet.merged_cells.ranges:
            locked = {sheet.cell(row, column).protection.locked for row, column in cells.cells}
            assert len(locked) == 1, f"{sheet.title}!{cells}: some programs refuse to fill it in"
