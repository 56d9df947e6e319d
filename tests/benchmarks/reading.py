"""Reading outlines, beside plain text and tables of the same files: ``python -m tests.benchmarks.reading [FOLDER]``."""

from __future__ import annotations

import logging
import sys
from datetime import date
from pathlib import Path

from syllabus_io.extract.document import Document
from syllabus_io.extract.reader import outline_files, read_document
from syllabus_io.outline.read import read_outline
from syllabus_io.outline.records import Outline
from syllabus_io.pipeline import resolve_outlines
from tests.benchmarks.timing import Timing, median_seconds, print_table

__all__ = ["main"]

SAMPLES = Path(__file__).parents[2] / "samples"


def plain_pdf(path: Path) -> int:
    """Text and tables of every page by pdfplumber; how many pages."""
    import pdfplumber

    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            page.extract_text()
            page.extract_tables()
        return len(pdf.pages)


def fast_pdf(path: Path) -> int:
    """Text of every page by pdfium; how many letters."""
    import pypdfium2

    pdf = pypdfium2.PdfDocument(path)
    letters = sum(len(page.get_textpage().get_text_range()) for page in pdf)
    pdf.close()
    return letters


def plain_word(path: Path) -> int:
    """Text of paragraphs and tables by python-docx; how many letters."""
    import docx

    document = docx.Document(str(path))
    letters = sum(len(paragraph.text) for paragraph in document.paragraphs)
    cells = (cell for table in document.tables for row in table.rows for cell in row.cells)
    return letters + sum(len(cell.text) for cell in cells)


def main() -> None:
    """Prints what reading costs, by form of file, and what the stages after it cost."""
    logging.disable()
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else SAMPLES
    files = outline_files([folder])
    pdfs = [path for path in files if path.suffix.lower() == ".pdf"]
    words = [path for path in files if path.suffix.lower() == ".docx"]
    reading = 0.0
    if pdfs:
        ours = median_seconds(lambda: [read_document(path) for path in pdfs])
        reading += ours
        fast = Timing("pypdfium2, text only", median_seconds(lambda: [fast_pdf(path) for path in pdfs]))
        plain = Timing("pdfplumber, text and tables", median_seconds(lambda: [plain_pdf(path) for path in pdfs]))
        print_table(f"{len(pdfs)} PDF files", [Timing("syllabus-io, a document", ours), fast, plain])
    if words:
        ours = median_seconds(lambda: [read_document(path) for path in words])
        reading += ours
        plain = Timing("python-docx, text and tables", median_seconds(lambda: [plain_word(path) for path in words]))
        print_table(f"{len(words)} Word files", [Timing("syllabus-io, a document", ours), plain])
    documents = [read_document(path) for path in files]
    outlines = [read_outline(document) for document in documents]
    print_table("Stages", [*stages(documents, outlines), Timing("reading the files", reading)])


def stages(documents: list[Document], outlines: list[Outline]) -> list[Timing]:
    """What the stages after reading cost, texts worked through before being forgotten first."""

    def read() -> None:
        forget()
        for document in documents:
            read_outline(document)

    def resolve() -> None:
        for outline in outlines:
            resolve_outlines([outline], None, date(2026, 9, 1))

    return [Timing("outline", median_seconds(read)), Timing("resolve", median_seconds(resolve))]


def forget() -> None:
    """Empties what the outline stage remembers of texts, so that every round starts alike."""
    for name, module in list(sys.modules.items()):
        if name.startswith("syllabus_io."):
            for value in vars(module).values():
                if hasattr(value, "cache_clear") and getattr(value, "__module__", "") == name:
                    value.cache_clear()


if __name__ == "__main__":
    main()
