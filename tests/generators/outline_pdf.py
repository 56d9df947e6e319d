"""Drawing an outline as a PDF: page frames, running feet and styles; the same words give the same bytes."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from reportlab.lib import colors
from reportlab.lib.enums import TA_CENTER
from reportlab.lib.pagesizes import LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph, Spacer, Table, TableStyle

__all__ = ["PdfStyles", "blank", "draw_pages", "ruled_table"]

MARGIN_POINTS = 64
GUTTER_POINTS = 22


class PdfStyles:
    """The paragraph styles of one outline in one family of type."""

    def __init__(self, face: str = "Times", size: float = 10.5) -> None:
        regular, bold, italic = {
            "Times": ("Times-Roman", "Times-Bold", "Times-Italic"),
            "Helvetica": ("Helvetica", "Helvetica-Bold", "Helvetica-Oblique"),
        }[face]
        leading = round(size * 1.25, 2)
        self.body = ParagraphStyle(
            "body", fontName=regular, bulletFontName=regular, fontSize=size, leading=leading, spaceAfter=5
        )
        self.small = ParagraphStyle("small", self.body, fontSize=size - 1, leading=leading - 1, spaceAfter=0)
        self.small_bold = ParagraphStyle("small bold", self.small, fontName=bold)
        self.bullet = ParagraphStyle("bullet", self.body, leftIndent=16, bulletIndent=4, spaceAfter=2)
        self.title = ParagraphStyle(
            "title", self.body, fontName=bold, fontSize=size + 6, leading=leading + 8, alignment=TA_CENTER, spaceAfter=2
        )
        self.subtitle = ParagraphStyle("subtitle", self.body, alignment=TA_CENTER, fontName=italic, spaceAfter=10)
        self.heading = ParagraphStyle(
            "heading", self.body, fontName=bold, fontSize=size + 2, leading=leading + 2, spaceBefore=9, spaceAfter=3
        )
        self.heading.keepWithNext = 1


def draw_pages(
    path: Path,
    title: str,
    story: Sequence[Flowable],
    *,
    columns: int = 1,
    foot: str = "",
    heading: Sequence[Flowable] = (),
) -> None:
    """Write a PDF. ``heading`` stands over both columns of the first page; ``foot`` is printed on every page."""
    width, height = LETTER
    inner = width - 2 * MARGIN_POINTS
    head_height = 0.0
    for part in heading:
        head_height += part.wrap(inner, height)[1] + part.getSpaceAfter()

    def decorate(canvas: Any, template: Any) -> None:
        canvas.saveState()
        canvas.setFont("Helvetica", 8)
        canvas.drawString(MARGIN_POINTS, 36, foot)
        canvas.drawRightString(width - MARGIN_POINTS, 36, f"Page {template.page}")
        if template.page == 1:
            top = height - MARGIN_POINTS
            for part in heading:
                top -= part.wrap(inner, height)[1]
                part.drawOn(canvas, MARGIN_POINTS, top)
                top -= part.getSpaceAfter()
        canvas.restoreState()

    def frames(room_for_head: float) -> list[Frame]:
        column = (inner - GUTTER_POINTS * (columns - 1)) / columns
        return [
            Frame(
                MARGIN_POINTS + number * (column + GUTTER_POINTS),
                MARGIN_POINTS,
                column,
                height - 2 * MARGIN_POINTS - room_for_head,
                leftPadding=0,
                rightPadding=0,
                topPadding=0,
                bottomPadding=0,
            )
            for number in range(columns)
        ]

    document = BaseDocTemplate(
        str(path), pagesize=LETTER, title=title, author="", subject="", invariant=1, pageCompression=0
    )
    document.addPageTemplates(
        [
            PageTemplate("first", frames(head_height), onPage=decorate, autoNextPageTemplate="later"),
            PageTemplate("later", frames(0), onPage=decorate),
        ]
    )
    document.build(list(story))


def ruled_table(
    rows: Sequence[Sequence[str]], widths: Sequence[float], styles: PdfStyles, *, repeat_head: bool = True
) -> Table:
    """A table with drawn lines, its first row a shaded head that is repeated on the next page."""
    cells = [
        [Paragraph(text, styles.small_bold if number == 0 else styles.small) for text in row]
        for number, row in enumerate(rows)
    ]
    table = Table(cells, colWidths=list(widths), repeatRows=1 if repeat_head else 0)
    table.setStyle(
        TableStyle(
            [
                ("GRID", (0, 0), (-1, -1), 0.5, colors.black),
                ("BACKGROUND", (0, 0), (-1, 0), colors.HexColor("#E6E6E6")),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
                ("LEFTPADDING", (0, 0), (-1, -1), 4),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
            ]
        )
    )
    return table


def blank(points: float) -> Spacer:
    """Blank space between two parts of a page."""
    return Spacer(1, points)
