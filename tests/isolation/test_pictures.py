"""Pictures of places: they show the words, framed, and a file that cannot be drawn goes without them."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from syllabus_io.extract.pdf_pictures import PICTURE_SCALE
from syllabus_io.isolation.pictures import draw_pictures
from syllabus_io.provenance import Box
from tests.extract.pdf_files import Sheet

WORDS = Box(300, 390, 380, 402)


@pytest.fixture(scope="module")
def outline(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("pictures") / "soil.pdf"
    sheet = Sheet(path)
    sheet.text(72, 100, "Soil Science 101")
    sheet.text(300, 400, "Essay due Oct 6")
    sheet.save()
    return path


def grey_rows(picture: bytes) -> list[bytes]:
    """The rows of a picture's pixels, 0 black to 255 white."""
    grey = Image.open(io.BytesIO(picture)).convert("L")
    pixels = grey.tobytes()
    return [pixels[at : at + grey.width] for at in range(0, len(pixels), grey.width)]


def test_a_picture_shows_the_words_framed_without_the_margins_of_the_page(outline: Path) -> None:
    (picture,) = draw_pictures({outline: [(1, WORDS)]}).values()
    rows = grey_rows(picture)
    printed = [x for x in range(len(rows[0])) if any(row[x] < 128 for row in rows)]
    wide = (WORDS.right - WORDS.left + 6) * PICTURE_SCALE
    assert printed[-1] - printed[0] == pytest.approx(wide, abs=3), "the frame is as wide as the words"
    assert printed[0] == pytest.approx(10, abs=2), "little of the blank margin is left"
    assert len(rows[0]) == pytest.approx(wide + 20, abs=4)
    inside = rows[len(rows) // 2][printed[0] + 4 : printed[-1] - 4]
    assert min(inside) < 100, "the words stand in the frame"


def test_a_place_on_no_page_has_no_picture(outline: Path) -> None:
    drawn = draw_pictures({outline: [(7, WORDS), (0, WORDS), (1, WORDS)]})
    assert list(drawn) == [(outline, (1, WORDS))]


@pytest.mark.parametrize("box", [Box(-50, -20, 9000, 9000), Box(380, 402, 300, 390), Box(10, 791, 20, 792)])
def test_an_odd_box_is_drawn_within_the_page(outline: Path, box: Box) -> None:
    (picture,) = draw_pictures({outline: [(1, box)]}).values()
    assert Image.open(io.BytesIO(picture)).height <= 240 * PICTURE_SCALE


def test_a_file_that_cannot_be_drawn_costs_its_own_pictures_alone(outline: Path, tmp_path: Path) -> None:
    damaged, missing = tmp_path / "damaged.pdf", tmp_path / "missing.pdf"
    damaged.write_bytes(b"%PDF-1.7\nnothing of use\n%%EOF")
    drawn = draw_pictures({damaged: [(1, WORDS)], missing: [(1, WORDS)], outline: [(1, WORDS)]})
    assert list(drawn) == [(outline, (1, WORDS))]
