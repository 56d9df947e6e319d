"""PDF files: letters with their places, put together to lines, paragraphs and tables in reading order."""

from __future__ import annotations

import gc
import hashlib
import io
import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.document import Block, Cell, Document, Line, Note, Table
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.extract.pdf_joined import join_over_pages
from syllabus_io.extract.pdf_lines import BodyText, Flow, body_text, paragraphs
from syllabus_io.extract.pdf_marks import PageMarks, read_marks
from syllabus_io.extract.pdf_pages import PageText, Piece, page_pieces, page_text
from syllabus_io.extract.pdf_raw_tables import RawCell, RawTable
from syllabus_io.extract.pdf_running import running_lines
from syllabus_io.extract.pdf_words import PrintedLine
from syllabus_io.extract.tidy import name_of, tidy_text
from syllabus_io.provenance import Place

__all__ = ["read_pdf"]

LONGEST_NOTE = 300
LOOSE_ROWS = "the rows of a table without rules stand so close that a line may belong to the next one"


def read_pdf(path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> Document:
    """The document that a PDF holds: text and tables in reading order, running heads and struck-out text in notes.

    Raises UnreadableDocument when the file is damaged, needs a password, or holds no text.
    """
    name, data = name_of(path), path.read_bytes()
    pages, unread, count = _read_pages(path, data, limits.pages)
    notes = [Note("unread", text, Place(name, page)) for page, text in unread]
    if not any(page.marks.glyphs for page in pages):
        raise _no_text(path, pages, bool(unread))
    running = running_lines([(page.marks.height, page.lines) for page in pages])
    pieces = join_over_pages([page_pieces(page, running) for page in pages])
    notes.extend(_notes(name, pages, running))
    loose = (piece for piece in pieces if isinstance(piece, RawTable) and piece.is_loose)
    notes.extend(Note("loose", LOOSE_ROWS, Place(name, table.page, box=table.box)) for table in loose)
    lines = [line for page in pages for line in page.lines if id(line) not in running]
    blocks = _blocks(name, pieces, body_text([*lines, *_table_lines(pieces)]))
    return Document(name, hashlib.sha256(data).hexdigest(), count, tuple(blocks), tuple(notes))


def _read_pages(path: Path, data: bytes, most: int) -> tuple[list[PageText], list[tuple[int, str]], int]:
    """The pages' text, what could not be read (page number and sentence), and how many pages there are."""
    import pdfplumber
    from pdfplumber.utils.exceptions import MalformedPDFException, PdfminerException

    faults = (PdfminerException, MalformedPDFException)
    texts: list[PageText] = []
    unread: list[tuple[int, str]] = []
    with _quiet():
        try:
            pdf = pdfplumber.open(io.BytesIO(data))
            pages = pdf.pages
        except Exception as error:
            raise _cannot_open(path, error) from error
        for page in pages[:most]:
            try:
                marks = read_marks(page)
            except faults as error:
                unread.append(
                    (page.page_number, f"page {page.page_number} is damaged and was not read ({_reason(error)})")
                )
                continue
            finally:
                page.close()
            texts.append(page_text(marks))
        if len(pages) > most:
            unread.append((most + 1, f"only the first {most} of {len(pages)} pages were read"))
        pdf.close()
    return texts, unread, len(pages)


@contextmanager
def _quiet() -> Iterator[None]:
    """Holds back the remarks of the PDF library on odd but readable files, and the search for garbage."""
    logger = logging.getLogger("pdfminer")
    level = logger.level
    logger.setLevel(logging.CRITICAL)
    collects = gc.isenabled()
    gc.disable()  # hundreds of thousands of letters are made here and kept; searching them for garbage finds none
    try:
        yield
    finally:
        logger.setLevel(level)
        if collects:
            gc.enable()


def _reason(error: BaseException) -> str:
    inner: Any = error.args[0] if error.args else error
    text = tidy_text(str(inner)) or type(inner).__name__
    return text if len(text) <= 80 else type(inner).__name__


def _cannot_open(path: Path, error: Exception) -> UnreadableDocument:
    from pdfminer.pdfdocument import PDFPasswordIncorrect

    inner = error.args[0] if error.args else error
    if isinstance(inner, PDFPasswordIncorrect) or isinstance(error, PDFPasswordIncorrect):
        return UnreadableDocument(
            path,
            "the PDF is locked with a password",
            "open it with the password, save or print it as a PDF without one",
        )
    return UnreadableDocument(
        path, f"the PDF is damaged ({_reason(error)})", "fetch the outline again or save it anew as a PDF"
    )


def _no_text(path: Path, pages: Sequence[PageText], damaged: bool) -> UnreadableDocument:
    if not pages:
        fault = "the PDF is damaged, none of its pages can be read" if damaged else "the PDF has no pages"
        return UnreadableDocument(path, fault, "fetch the outline again or save it anew as a PDF")
    if any(page.marks.nameless or page.marks.turned for page in pages):
        return UnreadableDocument(
            path,
            "the PDF's letters carry no readable text",
            "save the outline anew as a PDF with text or as a Word document (.docx)",
        )
    if any(page.marks.has_picture for page in pages):
        return UnreadableDocument(
            path,
            "the PDF is a scan: it holds pictures of pages and no text",
            "ask for the outline as a PDF with text or as a Word document (.docx), or run text recognition over it",
        )
    return UnreadableDocument(
        path, "the PDF holds no text", "check that it is the right file, or save the outline anew"
    )


def _notes(name: str, pages: Sequence[PageText], running: set[int]) -> Iterator[Note]:
    for page in pages:
        number = page.marks.number
        for line in page.lines:
            if id(line) in running:
                yield Note("running", tidy_text(line.text), Place(name, number, box=line.box))
        for line in page.struck:
            yield Note("struck", tidy_text(line.text), Place(name, number, box=line.box))
        yield from _unread_notes(name, page.marks)


def _unread_notes(name: str, marks: PageMarks) -> Iterator[Note]:
    place = Place(name, marks.number)
    if marks.turned:
        text = tidy_text(marks.turned)
        yield Note("unread", f"turned text left out: {text[:LONGEST_NOTE]}", place)
    if marks.nameless:
        yield Note("unread", f"{marks.nameless} signs without a readable meaning left out", place)
    if marks.cut_short:
        yield Note("unread", f"page {marks.number} holds too much to be read whole", place)


def _table_lines(pieces: Sequence[Piece]) -> Iterator[PrintedLine]:
    for piece in pieces:
        if isinstance(piece, RawTable):
            for cell in piece.cells:
                yield from cell.lines


def _blocks(name: str, pieces: Sequence[Piece], body: BodyText) -> list[Block]:
    blocks: list[Block] = []
    for piece in pieces:
        if isinstance(piece, Flow):
            for line in paragraphs(piece, Place(name), body):
                blocks.append(_numbered(line, len(blocks) + 1))
        else:
            blocks.append(_table(name, piece, body, len(blocks) + 1))
    return blocks


def _numbered(line: Line, block: int) -> Line:
    from dataclasses import replace

    return replace(
        line,
        place=replace(line.place, block=block),
        parts=tuple(replace(part, place=replace(part.place, block=block)) for part in line.parts),
    )


def _table(name: str, raw: RawTable, body: BodyText, block: int) -> Table:
    place = Place(name, raw.page, block, box=raw.box)
    cells = sorted((_cell(name, cell, raw, body, block) for cell in raw.cells), key=lambda c: (c.row, c.column))
    return Table(place, raw.row_count, raw.column_count, tuple(cells), raw.ruled)


def _cell(name: str, raw: RawCell, table: RawTable, body: BodyText, block: int) -> Cell:
    page = raw.lines[0].page if raw.lines else table.page
    place = Place(name, page, block, raw.row + 1, raw.column + 1, raw.box)
    lines = tuple(paragraphs(Flow(raw.lines, raw.left, raw.right), place, body, in_cell=True)) if raw.lines else ()
    return Cell(
        "\n".join(f"{line.marker} {line.text}" if line.marker else line.text for line in lines),
        place,
        raw.row + 1,
        raw.column + 1,
        raw.row_span,
        raw.column_span,
        lines,
        bold=bool(lines) and all(line.bold for line in lines),
    )
