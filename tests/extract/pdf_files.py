"""Draws invented PDF pages for the tests; places are points from the page's top left corner."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportlab.lib.pagesizes import LETTER
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from syllabus_io.extract.document import Document, Line, Table

WIDTH, HEIGHT = LETTER


class Sheet:
    """A PDF in the making."""

    def __init__(self, path: Path, encrypt: object = None) -> None:
        self.path = path
        self.canvas = Canvas(str(path), pagesize=LETTER, encrypt=encrypt)

    def text(self, left: float, base: float, text: str, *, size: float = 10, font: str = "Helvetica") -> float:
        """Prints text at a place and returns where it ends."""
        self.canvas.setFont(font, size)
        self.canvas.drawString(left, HEIGHT - base, text)
        return left + float(stringWidth(text, font, size))

    def lines(self, left: float, base: float, texts: Sequence[str], *, leading: float = 12, size: float = 10) -> None:
        """Prints lines below one another."""
        for number, text in enumerate(texts):
            self.text(left, base + number * leading, text, size=size)

    def glued(self, left: float, base: float, text: str, *, gap: float, size: float = 10, spacing: float = 0) -> None:
        """Prints words one by one without blank characters, as typesetters do: ``gap`` points between words."""
        self.canvas.setFont("Times-Roman", size)
        for word in text.split():
            for letter in word:
                self.canvas.drawString(left, HEIGHT - base, letter)
                left += float(stringWidth(letter, "Times-Roman", size)) + spacing
            left += gap

    def across(self, base: float, left: float, right: float, thickness: float = 0.5) -> None:
        """Draws a level rule."""
        self.canvas.setLineWidth(thickness)
        self.canvas.line(left, HEIGHT - base, right, HEIGHT - base)

    def down(self, at: float, top: float, bottom: float) -> None:
        """Draws an upright rule."""
        self.canvas.setLineWidth(0.5)
        self.canvas.line(at, HEIGHT - top, at, HEIGHT - bottom)

    def box(self, left: float, top: float, right: float, bottom: float) -> None:
        """Draws a rectangle's outline."""
        self.canvas.setLineWidth(0.5)
        self.canvas.rect(left, HEIGHT - bottom, right - left, bottom - top)

    def grid(self, lefts: Sequence[float], tops: Sequence[float], rows: Sequence[Sequence[str]]) -> None:
        """Draws a table with rules all round; a line feed in a cell begins a new printed line."""
        for top in tops:
            self.across(top, lefts[0], lefts[-1])
        for left in lefts:
            self.down(left, tops[0], tops[-1])
        for top, row in zip(tops, rows, strict=False):
            for left, cell in zip(lefts, row, strict=False):
                self.lines(left + 4, top + 11, cell.split("\n"))

    def columns(self, lefts: Sequence[float], base: float, rows: Sequence[Sequence[str]], leading: float = 14) -> None:
        """Prints rows of cells without any rule; an empty cell prints nothing."""
        for number, row in enumerate(rows):
            for left, cell in zip(lefts, row, strict=True):
                if cell:
                    self.text(left, base + number * leading, cell)

    def next_page(self) -> None:
        """Goes on to a new page."""
        self.canvas.showPage()

    def save(self) -> Path:
        """Writes the file."""
        self.canvas.save()
        return self.path


def texts(document: Document) -> list[str]:
    """The text of every line outside tables, its marker before it."""
    return [f"{b.marker} {b.text}".strip() for b in document.blocks if isinstance(b, Line)]


def tables(document: Document) -> list[list[list[str]]]:
    """Every table as rows of cell texts; None-cells and empty cells are ''."""
    return [
        [[cell.text if cell else "" for cell in row] for row in block.grid()]
        for block in document.blocks
        if isinstance(block, Table)
    ]


def only_table(document: Document) -> Table:
    """The one table of the document."""
    (table,) = [block for block in document.blocks if isinstance(block, Table)]
    return table


def notes(document: Document, kind: str) -> list[str]:
    """The texts of the notes of one kind."""
    return [note.text for note in document.notes if note.kind == kind]
