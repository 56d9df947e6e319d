"""PDF files: words with boxes, put together to lines, paragraphs and tables."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path
from typing import Any

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.document import Block, Cell, Document, Line, Part, Table
from syllabus_io.provenance import Box, Place

__all__ = ["read_pdf"]

MARKER = re.compile(r"^([•◦▪●○■□–·∙‣⁃*-]|\(?[0-9]{1,2}[.)]|\(?[a-zA-Z][.)])\s+(?=\S)")


def read_pdf(path: Path) -> Document:
    """The document a PDF holds."""
    import pdfplumber

    data = path.read_bytes()
    blocks: list[Block] = []
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            blocks.extend(_page_blocks(page, path.name, len(blocks)))
        pages = len(pdf.pages)
    if not blocks:
        raise UnreadableDocument(
            path, "the PDF holds no text, it seems to be a scan", "give a PDF with text or a Word document"
        )
    return Document(path.name, hashlib.sha256(data).hexdigest(), pages, tuple(blocks))


def _page_blocks(page: Any, name: str, before: int) -> list[Block]:
    words = page.extract_words(x_tolerance_ratio=0.15, y_tolerance=3, extra_attrs=["fontname", "size"])
    tables = [table for table in page.find_tables() if len(table.rows) > 1 and len(table.rows[0].cells) > 1]
    free = [w for w in words if not any(_inside(w, t.bbox) for t in tables)]
    found: list[tuple[float, Any]] = [(row[0]["top"], row) for row in _rows(free)]
    found += [(table.bbox[1], table) for table in tables]
    blocks: list[Block] = []
    for _, what in sorted(found, key=lambda pair: pair[0]):
        place = Place(name, page.page_number, before + len(blocks) + 1)
        blocks.append(_line(what, place) if isinstance(what, list) else _table(what, words, place))
    return blocks


def _inside(word: Any, box: Any) -> bool:
    x, y = (word["x0"] + word["x1"]) / 2, (word["top"] + word["bottom"]) / 2
    return bool(box[0] <= x <= box[2] and box[1] <= y <= box[3])


def _rows(words: list[Any]) -> list[list[Any]]:
    rows: list[list[Any]] = []
    for word in sorted(words, key=lambda w: (w["bottom"], w["x0"])):
        if rows and abs(rows[-1][-1]["bottom"] - word["bottom"]) < 3:
            rows[-1].append(word)
        else:
            rows.append([word])
    return [sorted(row, key=lambda w: w["x0"]) for row in rows]


def _line(row: list[Any], place: Place) -> Line:
    text = " ".join(w["text"] for w in row)
    box = Box(row[0]["x0"], min(w["top"] for w in row), row[-1]["x1"], max(w["bottom"] for w in row))
    where = Place(place.document, place.page, place.block, place.row, place.column, box)
    match = MARKER.match(text)
    marker = match.group(1) if match else ""
    text = text[match.end() :] if match else text
    bold = all("bold" in w["fontname"].lower() for w in row)
    size = float(max(w["size"] for w in row))
    return Line(text, where, marker=marker, depth=1 if marker else 0, size=size, bold=bold, parts=(Part(0, where),))


def _table(table: Any, words: list[Any], place: Place) -> Table:
    cells: list[Cell] = []
    edges_x = sorted({round(cell[i]) for row in table.rows for cell in row.cells if cell for i in (0, 2)})
    edges_y = sorted({round(cell[i]) for row in table.rows for cell in row.cells if cell for i in (1, 3)})
    for box in sorted({cell for row in table.rows for cell in row.cells if cell}, key=lambda b: (b[1], b[0])):
        row, column = edges_y.index(round(box[1])) + 1, edges_x.index(round(box[0])) + 1
        where = Place(place.document, place.page, place.block, row, column, Box(*box))
        lines = tuple(_line(r, where) for r in _rows([w for w in words if _inside(w, box)]))
        cells.append(
            Cell(
                "\n".join(line.text for line in lines),
                where,
                row,
                column,
                edges_y.index(round(box[3])) + 1 - row,
                edges_x.index(round(box[2])) + 1 - column,
                lines,
                bold=bool(lines) and all(line.bold for line in lines),
            )
        )
    where = Place(place.document, place.page, place.block, box=Box(*table.bbox))
    return Table(where, len(edges_y) - 1, len(edges_x) - 1, tuple(cells))
