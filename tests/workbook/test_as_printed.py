"""From the workbook back to the outlines: pictures of the places to check, and links to the files."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from syllabus_io.pipeline import outlines_as_printed, read_outlines, resolve_outlines
from syllabus_io.plan.build import make_plan
from syllabus_io.plan.records import Plan
from syllabus_io.resolve.term import TermFacts
from syllabus_io.revise.share import share_workbook
from syllabus_io.revise.update import update_workbook
from syllabus_io.workbook.layout import AS_PRINTED, AS_PRINTED_TABLE, REVIEW, REVIEW_TABLE
from syllabus_io.workbook.printed_places import AsPrinted, file_link, is_file_link
from syllabus_io.workbook.write import WorkbookOptions, collect_workbook
from tests.extract.pdf_files import Sheet
from tests.extract.word_files import paragraph, write_word

TODAY = date(2026, 9, 28)
FACTS = TermFacts(source="term.toml", first_day=date(2026, 8, 31), last_day=date(2026, 12, 11))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two outlines, each with a date to check (the weekday is not that of the date) and one that is right."""
    folder = tmp_path_factory.mktemp("outlines")
    sheet = Sheet(folder / "soil science.pdf")
    sheet.text(72, 100, "Soil Science 101")
    sheet.text(72, 140, "Essay 1 is due on Monday, October 6, 2026.")
    sheet.text(72, 180, "Essay 2 is due on Tuesday, November 10, 2026.")
    sheet.save()
    words = ("Rocks 201", "Report 1 is due on Monday, October 6, 2026.", "Report 2 is due on October 20, 2026.")
    write_word(folder / "rocks.docx", "".join(paragraph(text) for text in words))
    return folder


@pytest.fixture(scope="module")
def paths(folder: Path) -> Mapping[str, Path]:
    return read_outlines(sorted(folder.iterdir())).paths


@pytest.fixture(scope="module")
def plan(folder: Path) -> Plan:
    read = read_outlines(sorted(folder.iterdir()))
    assert not read.faults
    return make_plan(resolve_outlines(read.outlines, FACTS))


@pytest.fixture(scope="module")
def content(plan: Plan, paths: Mapping[str, Path], folder: Path) -> bytes:
    as_printed = outlines_as_printed(plan, paths, folder.parent / "plan.xlsx")
    return collect_workbook(plan, WorkbookOptions(today=TODAY, as_printed=as_printed))


def opened(content: bytes) -> Any:
    return openpyxl.load_workbook(io.BytesIO(content))


def links_of(content: bytes) -> dict[str, tuple[str, str]]:
    """The words and the target of the link beside each item of Review."""
    sheet = opened(content)[REVIEW]
    found = {}
    for row in range(REVIEW_TABLE.first_row, sheet.max_row + 1):
        cell, title = (sheet.cell(row, REVIEW_TABLE.number(key)) for key in ("see", "title"))
        if cell.hyperlink and title.value:
            found[str(title.value)] = (str(cell.value), str(cell.hyperlink.location or cell.hyperlink.target))
    return found


def test_what_is_to_be_checked_in_a_pdf_has_its_picture(content: bytes) -> None:
    sheet = opened(content)[AS_PRINTED]
    row = AS_PRINTED_TABLE.first_row
    (picture,) = sheet._images
    shown = [sheet.cell(row, AS_PRINTED_TABLE.number(key)).value for key in ("title", "page")]
    assert shown == ["Essay 1", 1]
    assert picture.anchor._from.row + 1 == row, "the picture stands beside its item"
    assert b'descr="Page 1 of the outline of ' in b"".join(parts_of(content)), "words for a screen reader"


def test_review_leads_to_the_picture_else_to_the_file(content: bytes, folder: Path) -> None:
    links = links_of(content)
    place = f"'{AS_PRINTED}'!{AS_PRINTED_TABLE.letter('course')}{AS_PRINTED_TABLE.first_row}"
    assert links["Essay 1"] == ("picture", place)
    assert links["Essay 2"] == ("outline", f"{folder.name}/soil%20science.pdf#page=1")
    assert links["Report 1"] == ("outline", f"{folder.name}/rocks.docx")


def test_a_workbook_without_pictures_has_no_such_sheet(plan: Plan, paths: Mapping[str, Path], folder: Path) -> None:
    as_printed = outlines_as_printed(plan, paths, folder / "plan.xlsx", pictures=False)
    content = collect_workbook(plan, WorkbookOptions(today=TODAY, as_printed=as_printed))
    assert AS_PRINTED not in opened(content).sheetnames
    assert links_of(content)["Essay 1"] == ("outline", "soil%20science.pdf#page=1")


def test_pictures_and_links_come_back(content: bytes, tmp_path: Path) -> None:
    updated = update_workbook(tmp_path / "plan.xlsx", content, today=TODAY)
    assert links_of(updated.content) == links_of(content)
    before, after = (opened(one)[AS_PRINTED]._images[0]._data() for one in (content, updated.content))
    assert after == before


def test_a_shared_copy_names_no_folder(content: bytes, folder: Path, tmp_path: Path) -> None:
    shared = share_workbook(tmp_path / "plan.xlsx", content, today=TODAY)
    assert {words for words, _ in links_of(shared).values()} == {"picture"}
    assert folder.name.encode() not in b"".join(parts_of(shared))


def parts_of(content: bytes) -> list[bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return [archive.read(name) for name in archive.namelist()]


def test_a_link_is_a_relative_reference(tmp_path: Path) -> None:
    workbook = tmp_path / "plans" / "plan.xlsx"
    assert file_link(tmp_path / "plans" / "a#1 100%.pdf", workbook) == "a%231%20100%25.pdf"
    assert file_link(tmp_path / "outlines" / "b.pdf", workbook) == "../outlines/b.pdf"
    assert file_link(tmp_path / "plans" / "file:c.pdf", workbook) == "file%3Ac.pdf"


@pytest.mark.parametrize(
    "link",
    ["https://example.org/a.pdf", "file:///a.pdf", "//server/a.pdf", "/a.pdf", r"\\server\a.pdf", "run:a", "", None, 3],
)
def test_nothing_else_is_taken_for_such_a_link(link: object) -> None:
    assert not is_file_link(link)


def test_a_link_to_elsewhere_is_not_written(plan: Plan) -> None:
    digest = plan.resolved.courses[0].outline.digest
    bad = WorkbookOptions(today=TODAY, as_printed=AsPrinted({digest: "https://example.org/a.pdf"}))
    with pytest.raises(ValueError, match="no relative reference"):
        collect_workbook(plan, bad)
