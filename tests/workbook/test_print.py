"""The printed workbook, page by page: paper, room for holes, no blank page, nothing cut off at the side."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

import pdfplumber
import pytest

from syllabus_io.workbook.write import WorkbookOptions, collect_workbook
from tests.workbook.plans import usual_plan
from tests.workbook.sheets import TODAY, needs_office
from tests.workbook.term_workbook import soffice

PAPER = {"letter": (612, 792), "a4": (595, 842)}  # points: ANSI/ASME Y14.1, ISO 216


@pytest.mark.office
@pytest.mark.slow
@needs_office
@pytest.mark.parametrize(("paper", "look"), [("letter", "clear"), ("a4", "plain")])
def test_printed_pages(paper: str, look: str) -> None:
    program = soffice()
    assert program
    options = WorkbookOptions(paper=paper, look=look, today=TODAY)  # type: ignore[arg-type]  # both are papers
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "plan.xlsx")
        path.write_bytes(collect_workbook(usual_plan(), options))
        profile = f"-env:UserInstallation={Path(folder, 'profile').as_uri()}"
        command = [program, profile, "--headless", "--convert-to", "pdf", "--outdir", folder, str(path)]
        subprocess.run(command, check=True, capture_output=True, timeout=300)
        with pdfplumber.open(path.with_suffix(".pdf")) as document:
            sheets = [_check_page(page, PAPER[paper]) for page in document.pages]
    assert sheets[0] == "Start here"
    assert "Days" not in sheets and "Lists" not in sheets, "hidden sheets are not printed"
    assert set(sheets) >= {
        "Term dates",
        "Timetable",
        "Review",
        "Deadlines",
        "Exams",
        "Grades overview",
        "Grades BIO 110",
    }


def _check_page(page: pdfplumber.page.Page, paper: tuple[int, int]) -> str:
    """Looks at one page; returns the name of the sheet in its footer."""
    sides = tuple(sorted((round(page.width), round(page.height))))
    assert all(abs(side - asked) <= 1 for side, asked in zip(sides, paper, strict=True)), f"paper {sides}"
    words = page.extract_words()
    foot = [word for word in words if word["top"] > page.height - 45]
    # What stands in a hidden column is drawn as such marks too, clipped away at the right end of the table.
    edge = max((line["x1"] for line in (*page.lines, *page.rects)), default=page.width)
    above = (word for word in words if word["top"] <= page.height - 45)
    body = [word for word in above if word["text"] != "###" or word["x0"] < edge - 2]
    assert body, f"page {page.page_number} is blank"
    landscape = page.width > page.height
    nearest = min(word["top"] if landscape else word["x0"] for word in body)
    assert nearest >= 68, f"page {page.page_number}: text {nearest} points from the punched side"
    assert max(word["x1"] for word in body) <= page.width - 30, f"page {page.page_number}: text leaves the page"
    assert "###" not in {word["text"] for word in body}, f"page {page.page_number}: a column is too narrow"
    footer = " ".join(word["text"] for word in foot)
    assert "Page" in footer, f"page {page.page_number} has no footer"
    return footer.split(" Page ")[0]
