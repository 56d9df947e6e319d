"""A document as JSON and back, and as text for a person to read."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from syllabus_io.extract.document import Block, Cell, Document, Line, Note, Part, Table
from syllabus_io.provenance import Box, Place

__all__ = ["document_from_json", "document_to_json", "show"]

FORMAT = "syllabus-io/document"
VERSION = 1


def document_to_json(document: Document) -> str:
    """The document as JSON text: every field of every record, so that reading it back gives an equal document."""
    return json.dumps(
        {
            "format": FORMAT,
            "version": VERSION,
            "name": document.name,
            "digest": document.digest,
            "pages": document.pages,
            "blocks": [_block_out(block) for block in document.blocks],
            "notes": [
                {"kind": note.kind, "text": note.text, "place": _place_out(note.place)} for note in document.notes
            ],
        },
        ensure_ascii=False,
        indent=1,
    )


def document_from_json(text: str) -> Document:
    """The document that :func:`document_to_json` wrote. Raises ValueError for JSON of another kind."""
    data = json.loads(text)
    if not isinstance(data, dict) or data.get("format") != FORMAT or data.get("version") != VERSION:
        raise ValueError(f"the text is no {FORMAT} of version {VERSION}")
    return Document(
        data["name"],
        data["digest"],
        data["pages"],
        tuple(_block_in(block) for block in data["blocks"]),
        tuple(Note(note["kind"], note["text"], _place_in(note["place"])) for note in data["notes"]),
    )


def _place_out(place: Place) -> dict[str, Any]:
    fields = {
        "document": place.document,
        "page": place.page,
        "block": place.block,
        "row": place.row,
        "column": place.column,
        "box": list(place.box) if place.box else None,
        "span": list(place.span) if place.span else None,
    }
    return {key: value for key, value in fields.items() if value is not None}


def _place_in(data: dict[str, Any]) -> Place:
    box, span = data.get("box"), data.get("span")
    return Place(
        data["document"],
        data.get("page"),
        data.get("block", 0),
        data.get("row"),
        data.get("column"),
        Box(*box) if box else None,
        (span[0], span[1]) if span else None,
    )


def _line_out(line: Line) -> dict[str, Any]:
    return {
        "text": line.text,
        "place": _place_out(line.place),
        "marker": line.marker,
        "level": line.level,
        "depth": line.depth,
        "indent": line.indent,
        "size": line.size,
        "bold": line.bold,
        "italic": line.italic,
        "lead": line.lead,
        "gap": line.gap,
        "parts": [{"start": part.start, "place": _place_out(part.place)} for part in line.parts],
    }


def _line_in(data: dict[str, Any]) -> Line:
    plain = {key: value for key, value in data.items() if key not in ("place", "parts", "kind")}
    parts = tuple(Part(part["start"], _place_in(part["place"])) for part in data["parts"])
    return Line(place=_place_in(data["place"]), parts=parts, **plain)


def _block_out(block: Block) -> dict[str, Any]:
    if isinstance(block, Line):
        return {"kind": "line", **_line_out(block)}
    return {"kind": "table", **_table_out(block)}


def _block_in(data: dict[str, Any]) -> Block:
    return _line_in(data) if data["kind"] == "line" else _table_in(data)


def _table_out(table: Table) -> dict[str, Any]:
    return {
        "place": _place_out(table.place),
        "row_count": table.row_count,
        "column_count": table.column_count,
        "ruled": table.ruled,
        "cells": [_cell_out(cell) for cell in table.cells],
    }


def _table_in(data: dict[str, Any]) -> Table:
    return Table(
        _place_in(data["place"]),
        data["row_count"],
        data["column_count"],
        tuple(_cell_in(cell) for cell in data["cells"]),
        data["ruled"],
    )


def _cell_out(cell: Cell) -> dict[str, Any]:
    return {
        "text": cell.text,
        "place": _place_out(cell.place),
        "row": cell.row,
        "column": cell.column,
        "row_span": cell.row_span,
        "column_span": cell.column_span,
        "bold": cell.bold,
        "lines": [_line_out(line) for line in cell.lines],
        "tables": [_table_out(table) for table in cell.tables],
    }


def _cell_in(data: dict[str, Any]) -> Cell:
    return Cell(
        data["text"],
        _place_in(data["place"]),
        data["row"],
        data["column"],
        data["row_span"],
        data["column_span"],
        tuple(_line_in(line) for line in data["lines"]),
        tuple(_table_in(table) for table in data["tables"]),
        data["bold"],
    )


def show(document: Document) -> str:
    """The document as text: lines with page, level and marker; tables as rows of cells; notes at the end."""
    out = [f"{document.name}: {document.pages} pages, {len(document.blocks)} blocks"]
    page: int | None = None
    for block in document.blocks:
        if block.place.page != page:
            page = block.place.page
            out.append(f"--- page {page}")
        out.extend(_show_line(block) if isinstance(block, Line) else _show_table(block))
    out.extend(f"note ({note.kind}, page {note.place.page}): {note.text}" for note in document.notes)
    return "\n".join(out) + "\n"


def _show_line(line: Line) -> Iterable[str]:
    marks = "#" * line.level + ("b" if line.bold else "") + ("i" if line.italic else "")
    lead = f" <{line.lead}>" if line.lead else ""
    marker = f"{line.marker} " if line.marker else ""
    yield f"{line.place.block:4} {marks:4}{'  ' * line.depth}{marker}{line.text}{lead}"


def _show_table(table: Table) -> Iterable[str]:
    kind = "ruled" if table.ruled else "aligned"
    yield f"{table.place.block:4} table of {table.row_count} rows, {table.column_count} columns, {kind}"
    for row in range(1, table.row_count + 1):
        cells = sorted((cell for cell in table.cells if cell.row == row), key=lambda cell: cell.column)
        yield "     | " + " | ".join(_show_cell(cell) for cell in cells)
        for cell in cells:
            for inner in cell.tables:
                yield from ("        " + text for text in _show_table(inner))


def _show_cell(cell: Cell) -> str:
    spans = (f"+{cell.column_span - 1}c" if cell.column_span > 1 else "") + (
        f"+{cell.row_span - 1}r" if cell.row_span > 1 else ""
    )
    text = cell.text.replace("\n", " // ")
    return f"{cell.column}{spans}{'*' if cell.bold else ''}: {text}"
