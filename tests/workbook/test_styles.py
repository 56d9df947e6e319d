"""Looks: contrast, named faces, and a palette made for every kind of colour vision."""

from __future__ import annotations

import io
import math
import zipfile
from itertools import combinations

import pytest
from lxml import etree
from openpyxl.cell.cell import MergedCell

from syllabus_io.workbook.styles import FACE, LOOKS, OKABE_ITO, Look, Pair, contrast
from syllabus_io.workbook.write import WorkbookOptions
from tests.workbook.plans import small_plan, usual_plan
from tests.workbook.sheets import TODAY, collected, opened

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
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


# G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A physiologically-based model for simulation of color vision
# deficiency", IEEE Transactions on Visualization and Computer Graphics 15(6), 2009: the published matrices of full
# strength, on linear RGB; typed from memory, each row adds up to 1 so that greys stay grey.
VISION = {
    "usual": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
LEAST_DISTANCE = (
    15.0  # CIE 1976 colour difference; 2.3 can just be told (M. Mahy and others, 1994), large areas need more
)


def _seen(colour: str, kind: str) -> tuple[float, float, float]:
    """The colour in CIE L*a*b* (CIE 15:2004, sRGB primaries of IEC 61966-2-1) as that kind of vision sees it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    red, green, blue = (
        min(1.0, max(0.0, sum(weight * part for weight, part in zip(row, linear, strict=True)))) for row in VISION[kind]
    )
    x, y, z = (
        _root(value)
        for value in (
            (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047,
            0.2126729 * red + 0.7151522 * green + 0.0721750 * blue,
            (0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883,
        )
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _root(value: float) -> float:
    return float(value ** (1 / 3)) if value > 216 / 24389 else (24389 / 27 * value + 16) / 116


def test_simulated_vision_leaves_greys_alone() -> None:
    for kind in VISION:
        _, a, b = _seen("808080", kind)
        assert abs(a) < 0.1 and abs(b) < 0.1, kind
    assert math.dist(_seen("FF0000", "deuteranopia"), _seen("FF0000", "usual")) > 30, "red looks different"


@pytest.mark.parametrize("kind", VISION)
@look_by_name
def test_course_colours_can_be_told_apart_with_any_common_vision(look: Look, kind: str) -> None:
    fills = [pair.fill for pair in look.courses if pair.fill]
    for one, other in combinations(fills, 2):
        distance = math.dist(_seen(one, kind), _seen(other, kind))
        assert distance >= LEAST_DISTANCE, f"{look.name}, {kind}: {one} and {other} are only {distance:.1f} apart"


def test_there_are_three_looks_with_names_of_their_own() -> None:
    assert len({look.name for look in LOOKS}) == len(LOOKS) >= 3
    assert len({look.heading for look in LOOKS}) == len(LOOKS), "looks differ at first sight"


def test_the_plain_look_saves_ink() -> None:
    plain = next(look for look in LOOKS if look.name == "plain")
    assert all(pair.fill is None for _, pair in plain.pairs())
    assert all(pair.ink[:2] == pair.ink[2:4] == pair.ink[4:] for _, pair in plain.pairs()), "greys only"


@look_by_name
def test_every_cell_names_its_face_and_size(look: Look) -> None:
    """Cells take their fonts from one part of the file; a font without a name is drawn in whatever a program likes."""
    content = collected(small_plan(), WorkbookOptions(look=look.name, today=TODAY))
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        styles = etree.fromstring(archive.read("xl/styles.xml"))
    fonts = styles.findall(f"{MAIN}fonts/{MAIN}font")
    assert len(fonts) > 5, "there are fonts to look at"
    for font in fonts:
        name, size = font.find(f"{MAIN}name"), font.find(f"{MAIN}sz")
        assert name is not None and name.get("val") == FACE, etree.tostring(font)
        assert size is not None and float(size.get("val", "0")) >= 6, etree.tostring(font)


def test_cells_to_fill_in_are_unlocked_and_framed_and_others_are_locked() -> None:
    book = opened(collected(usual_plan(), WorkbookOptions(today=TODAY)))
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
    for sheet in opened(collected(usual_plan(), WorkbookOptions(today=TODAY))):
        if sheet.sheet_state != "visible":
            continue
        guard = sheet.protection
        assert guard.sheet and not guard.password, f"{sheet.title}: anyone may lift the protection"
        assert not (guard.autoFilter or guard.sort or guard.formatColumns or guard.formatRows), sheet.title


def test_cells_joined_with_one_to_fill_in_are_open_too() -> None:
    for sheet in opened(collected(usual_plan(), WorkbookOptions(today=TODAY))):
        for cells in sheet.merged_cells.ranges:
            locked = {sheet.cell(row, column).protection.locked for row, column in cells.cells}
            assert len(locked) == 1, f"{sheet.title}!{cells}: some programs refuse to fill it in"
