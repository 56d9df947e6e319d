"""Bad input gets one clear line and exit status 2; the other files are still read; nothing half-written stays."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from docx import Document as WordDocument
from PIL import Image
from pypdf import PdfWriter
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from syllabus_io.cli.main import main

TERM = '[term]\nname = "Autumn 2026"\nfirst_day = 2026-08-31\nlast_day = 2026-12-11\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "term.toml").write_text(TERM, encoding="utf-8")
    return tmp_path


def write_outline(path: Path) -> Path:
    """A small outline that can be read."""
    document = WordDocument()
    document.add_heading("BOT 110 Plants of the Shore, Autumn 2026", 1)
    document.add_paragraph("Essay 1 is due on Friday, October 9, 2026.")
    document.save(str(path))
    return path


def draw_pdf(path: Path, text: str = "") -> Path:
    canvas = Canvas(str(path), invariant=True)
    if text:
        canvas.drawString(72, 720, text)
    else:
        canvas.drawImage(ImageReader(Image.new("L", (60, 80), "gray")), 72, 100, 400, 600)
    canvas.showPage()
    canvas.save()
    return path


def encrypt(path: Path) -> Path:
    writer = PdfWriter(clone_from=str(draw_pdf(path, "Essay 1 is due October 9.")))
    writer.encrypt("a password nobody has", algorithm="AES-256")
    writer.write(str(path))
    return path


def make_bad_file(kind: str, folder: Path) -> Path:
    path = folder / {"a Word file that is text": "text.docx"}.get(kind, "bad.pdf")
    match kind:
        case "missing":
            pass
        case "empty":
            path.write_bytes(b"")
        case "a PDF that is text" | "a Word file that is text":
            path.write_text("Essay 1 is due October 9.", encoding="utf-8")
        case "encrypted":
            encrypt(path)
        case "without a text layer":
            draw_pdf(path)
        case "cut off":
            whole = draw_pdf(path, "Essay 1 is due October 9.").read_bytes()
            path.write_bytes(whole[: len(whole) // 3])
    return path


BAD_FILES = [
    ("missing", "no such file"),
    ("empty", "empty"),
    ("a PDF that is text", "PDF"),
    ("a Word file that is text", "Word"),
    ("encrypted", "password"),
    ("without a text layer", "scan"),
    ("cut off", "damaged"),
]


@pytest.mark.parametrize(("kind", "words"), BAD_FILES, ids=[kind for kind, _ in BAD_FILES])
def test_a_bad_outline_costs_one_line(kind: str, words: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bad = make_bad_file(kind, folder)
    before = sorted(folder.iterdir())
    status = main(["extract", str(bad), "--term", str(folder / "term.toml"), "--json", str(folder / "out.json")])
    error = capsys.readouterr().err
    assert status == 2, f"{kind}: exit status {status}"
    assert error.count("\n") == 1, f"{kind}: {error!r} is not one line"
    assert bad.name in error
    assert words in error
    assert "Traceback" not in error
    assert sorted(folder.iterdir()) == before, "something was left behind"


@pytest.mark.parametrize(
    ("kind", "words"), [row for row in BAD_FILES if row[0] != "missing"], ids=lambda value: value.replace(" ", "-")
)
def test_the_other_outlines_are_still_read(
    kind: str, words: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    outlines = folder / "outlines"
    outlines.mkdir()
    write_outline(outlines / "botany.docx")
    make_bad_file(kind, outlines)
    output = folder / "plan.xlsx"
    status = main(["build", str(outlines), "-o", str(output), "--term", str(folder / "term.toml")])
    said = capsys.readouterr()
    assert status == 2
    assert words in said.err
    assert said.err.count("\n") == 1
    assert "1 outline read" in said.out
    assert output.stat().st_size > 1000


def one_line(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(arguments) == 2
    error = capsys.readouterr().err
    assert error.count("\n") == 1, f"{error!r} is not one line"
    assert "Traceback" not in error
    return error


def test_a_folder_without_outlines(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "none").mkdir()
    assert "none" in one_line(["build", str(folder / "none"), "-o", str(folder / "plan.xlsx")], capsys)
    assert not (folder / "plan.xlsx").exists()


def test_a_malformed_term_file(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outline = write_outline(folder / "botany.docx")
    (folder / "term.toml").write_text("[term", encoding="utf-8")
    arguments = ["build", str(outline), "-o", str(folder / "plan.xlsx"), "--term", str(folder / "term.toml")]
    assert "not valid TOML" in one_line(arguments, capsys)
    assert not (folder / "plan.xlsx").exists()


def test_an_output_folder_that_is_missing_and_one_that_is_a_file(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    outline = str(write_outline(folder / "botany.docx"))
    term = ["--term", str(folder / "term.toml")]
    assert "folder" in one_line(["build", outline, "-o", str(folder / "no" / "plan.xlsx"), *term], capsys)
    assert "folder" in one_line(["extract", outline, "--json", str(folder / "no" / "out.json"), *term], capsys)
    assert "named as a workbook" in one_line(["build", outline, "-o", str(folder), *term], capsys)
    assert "ends in .xlsx" in one_line(["build", outline, "-o", str(folder / "plan.txt"), *term], capsys)


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may write everywhere")
def test_an_output_folder_without_permission(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outline = str(write_outline(folder / "botany.docx"))
    closed = folder / "closed"
    closed.mkdir(mode=0o500)
    arguments = ["build", outline, "-o", str(closed / "plan.xlsx"), "--term", str(folder / "term.toml")]
    assert "cannot be written" in one_line(arguments, capsys)


def test_an_existing_workbook_is_never_overwritten_silently(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    outline = str(write_outline(folder / "botany.docx"))
    plan = folder / "plan.xlsx"
    plan.write_bytes(b"what somebody typed")
    arguments = ["build", outline, "-o", str(plan), "--term", str(folder / "term.toml")]
    assert "exists already" in one_line(arguments, capsys)
    assert plan.read_bytes() == b"what somebody typed"
    assert main([*arguments, "--replace"]) == 0
    assert "earlier" in capsys.readouterr().out
    assert plan.read_bytes() != b"what somebody typed"
    kept = list(folder.glob("plan.earlier-*.xlsx"))
    assert [path.read_bytes() for path in kept] == [b"what somebody typed"]


def test_phrases_and_lines_that_are_none(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "needs phrases" in one_line(["resolve"], capsys)
    lines = folder / "lines.jsonl"
    lines.write_text('{"id": 1}\n', encoding="utf-8")
    assert "line 1" in one_line(["resolve", "--lines", str(lines)], capsys)
    assert "cannot be read" in one_line(["resolve", "--lines", str(folder / "none.jsonl")], capsys)
