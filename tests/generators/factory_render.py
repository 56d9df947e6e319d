"""Outlines from elements, as PDF and as Word, in random but fitting type."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from random import Random
from typing import Any

from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Inches
from reportlab.lib import colors
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph, Table, TableStyle

from tests.generators.factory_elements import Bullet, Element, Entry, Grid, Heading, Line, Title
from tests.generators.outline_pdf import PdfStyles, draw_pages
from tests.generators.outline_word import add_text, add_title, new_word, save_word

__all__ = ["render_pdf", "render_word"]

TEXT_POINTS = 484.0
TEXT_INCHES = 6.5


def render_pdf(path: Path, elements: Sequence[Element], columns: int, rng: Random) -> None:
    """Write elements as a PDF; one column in which tables fit, or two."""
    styles = PdfStyles(rng.choice(("Times", "Helvetica")), rng.choice((9.5, 10, 10.5, 11)))
    story: list[Flowable] = []
    heading: list[Flowable] = []
    for element in elements:
        target = heading if isinstance(element, Title) and columns > 1 else story
        target += _flowables(element, styles)
    draw_pages(path, "Course outline", story, columns=columns, foot=rng.choice(("", "Course outline")), heading=heading)


def _flowables(element: Element, styles: PdfStyles) -> list[Flowable]:
    match element:
        case Title():
            first, *others = element.lines
            return [Paragraph(_markup(first), styles.title), *[Paragraph(_markup(x), styles.subtitle) for x in others]]
        case Heading():
            style = styles.heading if element.level == 1 else ParagraphStyle("second", styles.heading, spaceBefore=5)
            return [Paragraph(_markup(element.text), style)]
        case Line():
            return [Paragraph(_markup(element.text), styles.body)]
        case Bullet():
            return [Paragraph(_markup(element.text), styles.bullet, bulletText="•")]
        case Entry():
            style = ParagraphStyle("entry", styles.body, leftIndent=72, bulletIndent=6, spaceAfter=2)
            return [Paragraph(_markup(element.text), style, bulletText=element.label)]
        case Grid():
            return [_pdf_table(element, styles)]


def _pdf_table(grid: Grid, styles: PdfStyles) -> Table:
    cells: list[list[Any]] = []
    commands: list[tuple[Any, ...]] = [("VALIGN", (0, 0), (-1, -1), "TOP"), ("TOPPADDING", (0, 0), (-1, -1), 2)]
    for number, row in enumerate(grid.rows):
        style = styles.small_bold if grid.head and number == 0 else styles.small
        parts = [Paragraph(_markup(text), style) for text in row]
        if len(row) == 1:
            commands.append(("SPAN", (0, number), (-1, number)))
            parts += [""] * (len(grid.widths) - 1)
        cells.append(parts)
    if grid.ruled:
        commands.append(("GRID", (0, 0), (-1, -1), 0.5, colors.black))
    total = sum(grid.widths)
    table = Table(
        cells,
        colWidths=[width / total * TEXT_POINTS for width in grid.widths],
        repeatRows=1 if grid.head else 0,
        spaceBefore=4,
        spaceAfter=6,
    )
    table.setStyle(TableStyle(commands))
    return table


def _markup(text: str) -> str:
    escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\n", "<br/>")
    return re.sub(r"\*\*(.+?)\*\*", r"<b>\1</b>", escaped)


def render_word(path: Path, elements: Sequence[Element], columns: int, rng: Random) -> None:
    """Write elements as a Word file."""
    document = new_word(rng.choice(("Calibri", "Times New Roman", "Arial")), rng.choice((10, 11, 12)))
    plain_headings = rng.random() < 0.4
    for element in elements:
        _add(document, element, plain_headings)
    if columns > 1:
        properties = document.sections[0]._sectPr
        for old in properties.findall(qn("w:cols")):
            properties.remove(old)
        properties.append(parse_xml(f'<w:cols {nsdecls("w")} w:num="{columns}" w:space="360"/>'))
    save_word(document, path, "Course outline")


def _add(document: Any, element: Element, plain_headings: bool) -> None:
    match element:
        case Title():
            add_title(document, element.lines, 17)
        case Heading():
            if plain_headings:
                add_text(document.add_paragraph(), f"**{element.text}**")
            else:
                document.add_heading(element.text, element.level)
        case Line():
            add_text(document.add_paragraph(), element.text)
        case Bullet():
            add_text(document.add_paragraph(style="List Bullet"), element.text)
        case Entry():
            paragraph = document.add_paragraph()
            paragraph.paragraph_format.left_indent = Inches(0.9)
            paragraph.paragraph_format.first_line_indent = Inches(-0.9)
            add_text(paragraph, f"{element.label}\t{element.text}")
        case Grid():
            _add_table(document, element)


def _add_table(document: Any, grid: Grid) -> None:
    table = document.add_table(len(grid.rows), len(grid.widths), style="Table Grid" if grid.ruled else None)
    total = sum(grid.widths)
    for column, width in zip(table.columns, grid.widths, strict=True):
        column.width = Inches(width / total * TEXT_INCHES)
    for number, (row, texts) in enumerate(zip(table.rows, grid.rows, strict=True)):
        cells = list(row.cells)
        if len(texts) == 1 and len(cells) > 1:
            cells = [cells[0].merge(cells[-1])]
        for cell, text in zip(cells, texts, strict=True):
            for line, part in enumerate(text.split("\n")):
                paragraph = cell.paragraphs[0] if line == 0 else cell.add_paragraph()
                add_text(paragraph, f"**{part}**" if grid.head and number == 0 and part else part)
    document.add_paragraph()
