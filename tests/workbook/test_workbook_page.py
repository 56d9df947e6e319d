"""docs/workbook.md says what the workbook is: sheets, columns, functions, features."""

from __future__ import annotations

import io
import re
import zipfile

from tests.generators.workbook_page import PAGE, make_page, written_workbook


def test_the_page_is_fresh() -> None:
    assert PAGE.read_text(encoding="utf-8") == make_page(), "run: python -m tests.generators.workbook_page"


def test_every_chart_and_picture_says_in_words_what_it_shows() -> None:
    """WCAG 2.2, success criterion 1.1.1: what is not text has a text alternative."""
    found = 0
    with zipfile.ZipFile(io.BytesIO(written_workbook())) as archive:
        for name in archive.namelist():
            if name.startswith("xl/drawings/drawing"):
                for shape in re.findall(r"<(?:xdr:)?cNvPr [^>]*>", archive.read(name).decode("utf-8")):
                    found += 1
                    words = re.search(r'descr="([^"]*)"', shape)
                    assert words and len(words[1]) > 10, f"{name}: {shape} says nothing to those who do not see it"
    assert found, "there are charts"
