"""Writing an outline as a Word file through python-docx; the same words give the same bytes."""

from __future__ import annotations

import zipfile
from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import Any

import docx
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Inches, Pt, RGBColor

__all__ = ["add_text", "add_title", "new_word", "save_word", "shade", "word_table"]

FIXED_TIME = (1980, 1, 1, 0, 0, 0)
"""The earliest time an archive can hold: a file made twice must be the same file."""


def new_word(face: str, size: float, heading_color: str | None = None) -> Any:
    """An empty document in one face, with margins of one inch and plain headings."""
    document = docx.Document()
    section = document.sections[0]
    section.page_width, section.page_height = Inches(8.5), Inches(11)
    for side in ("left_margin", "right_margin", "top_margin", "bottom_margin"):
        setattr(section, side, Inches(1))
    document.styles["Normal"].font.name = face
    document.styles["Normal"].font.size = Pt(size)
    document.styles["Normal"].paragraph_format.space_after = Pt(5)
    for number, more in ((1, 3), (2, 1)):
        style = document.styles[f"Heading {number}"]
        style.font.name, style.font.size, style.font.bold = face, Pt(size + more), True
        style.font.color.rgb = RGBColor.from_string(heading_color or "000000")
        style.element.rPr.rFonts.attrib.pop(qn("w:asciiTheme"), None)
        style.element.rPr.rFonts.attrib.pop(qn("w:hAnsiTheme"), None)
        style.paragraph_format.space_before = Pt(10)
        style.paragraph_format.space_after = Pt(3)
    return document


def add_title(document: Any, lines: Sequence[str], size: float) -> None:
    """Centred lines at the top: the first large and bold, the others plain."""
    for number, text in enumerate(lines):
        paragraph = document.add_paragraph()
        paragraph.alignment = WD_ALIGN_PARAGRAPH.CENTER
        paragraph.paragraph_format.space_after = Pt(0 if number + 1 < len(lines) else 8)
        run = paragraph.add_run(text)
        run.bold = number == 0
        run.font.size = Pt(size if number == 0 else size - 4)


def add_text(paragraph: Any, text: str) -> Any:
    """Add text to a paragraph, what stands between double asterisks in bold, what stands between tildes struck."""
    for number, part in enumerate(text.split("**")):
        for inner_number, inner in enumerate(part.split("~~")):
            if inner:
                run = paragraph.add_run(inner)
                run.bold = True if number % 2 else None
                run.font.strike = True if inner_number % 2 else None
    return paragraph


def word_table(
    document: Any, rows: Sequence[Sequence[str]], widths: Sequence[float], *, head: bool = True, size: float = 9.5
) -> Any:
    """A ruled table; widths in inches, line feeds in a text begin a new paragraph in its cell."""
    table = document.add_table(len(rows), len(widths), style="Table Grid")
    table.autofit = False
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Inches(width)
    for row, texts in zip(table.rows, rows, strict=True):
        for cell, text, width in zip(row.cells, texts, widths, strict=True):
            cell.width = Inches(width)
            for number, part in enumerate(text.split("\n")):
                paragraph = cell.paragraphs[0] if number == 0 else cell.add_paragraph()
                paragraph.paragraph_format.space_after = Pt(1)
                add_text(paragraph, part)
                for run in paragraph.runs:
                    run.font.size = Pt(size)
    if head:
        for cell in table.rows[0].cells:
            shade(cell, "E6E6E6")
            for run in cell.paragraphs[0].runs:
                run.bold = True
        properties = table.rows[0]._tr.get_or_add_trPr()
        properties.append(parse_xml(f"<w:tblHeader {nsdecls('w')}/>"))
    return table


def shade(cell: Any, color: str) -> None:
    """Give a cell a background."""
    cell._tc.get_or_add_tcPr().append(parse_xml(f'<w:shd {nsdecls("w")} w:val="clear" w:fill="{color}"/>'))


def save_word(document: Any, path: Path, title: str) -> None:
    """Write the document with fixed times, so that the same words give the same bytes."""
    properties = document.core_properties
    properties.title, properties.author, properties.comments = title, "", ""
    properties.created = properties.modified = datetime(2026, 8, 3)  # noqa: DTZ001 - the format stores no zone
    buffer = BytesIO()
    document.save(buffer)
    with zipfile.ZipFile(buffer) as made, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for member in made.infolist():
            entry = zipfile.ZipInfo(member.filename, FIXED_TIME)
            archive.writestr(entry, made.read(member.filename), zipfile.ZIP_DEFLATED)
