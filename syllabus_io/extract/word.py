"""Word files: paragraphs and tables in document order, with lists, notes, text boxes and tracked changes.

The format is read directly (ECMA-376 part 1) because what outlines hold goes beyond the object model of the usual
library: computed list numbers, tracked changes, text boxes, content controls, templates, files with dangling parts.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from lxml import etree

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.document import Cell, Document, Line, Note, Table
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits
from syllabus_io.extract.tidy import name_of
from syllabus_io.extract.word_blocks import Draft, numbered, with_joined_tables, with_tabbed_tables
from syllabus_io.extract.word_headings import with_headings
from syllabus_io.extract.word_lines import DraftLine, draft_lines
from syllabus_io.extract.word_numbering import ListMark, Numbering
from syllabus_io.extract.word_package import WordPackage, element_name, relation_id, w
from syllabus_io.extract.word_styles import Styles, TableLook, is_on
from syllabus_io.extract.word_tables import CellShape, read_shape
from syllabus_io.extract.word_text import Inline, Piece, TextWalk
from syllabus_io.provenance import Place

__all__ = ["read_word"]

MAX_NESTING = 12
"""Tables and text boxes inside one another; deeper ones are not read, and a note says so."""

WORD_COUNT_LEEWAY = 0.3
"""Share by which the file's own count of words may differ from ours: it leaves out notes and text boxes."""

TRANSPARENT = {"sdt", "sdtContent", "customXml", "ins", "moveTo", "smartTag"}


def read_word(path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> Document:
    """The document that a Word file holds. ``pages`` is what the file says about itself, 0 when it does not.

    Raises UnreadableDocument for a file that is damaged, protected, no Word file, far too large, or without text.
    """
    with WordPackage(path, limits) as package:
        walk = _Walk(package)
        drafts = walk.document()
    blocks = numbered(with_tabbed_tables(with_headings(with_joined_tables(drafts))))
    if not blocks:
        what = "the Word file holds pictures but no text" if walk.pictures else "the Word file holds no text"
        raise UnreadableDocument(path, what, "give an outline whose words can be selected")
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Document(walk.name, digest, walk.page_count, tuple(blocks), tuple(walk.notes))


@dataclass(frozen=True, slots=True)
class _Where:
    """Where in the document the walk is: the table cell around it, how deep it is nested, what its table makes bold."""

    row: int | None = None
    column: int | None = None
    bold: bool = False
    nesting: int = 0


class _Walk:
    """One reading of one file."""

    def __init__(self, package: WordPackage) -> None:
        self.package = package
        self.name = name_of(package.path)
        self.notes: list[Note] = []
        self.pictures = 0
        self.styles = Styles(package.related("styles"))
        self.numbering = Numbering(package.related("numbering"))
        self.text = TextWalk(self.styles)
        self.page_count = 0
        self.has_pages = False
        self._note_parts = {kind: _notes_of(package, kind) for kind in ("footnote", "endnote")}
        self._note_count = {"footnote": 0, "endnote": 0}
        self._carried: list[Piece] = []
        self._pending_notes: list[DraftLine] = []
        self._space_after = 0.0

    def document(self) -> list[Draft]:
        """The drafts of running heads (once) and of the body."""
        root = self.package.main()
        body = root.find(w("body"))
        if body is None:
            raise self.package.damaged("its main part has no body")
        self.page_count = _page_count(self.package, body)
        self._choose_page_counting(body)
        head = self._running_lines(body)
        drafts = [*head, *self._blocks(body, _Where())]
        return [*drafts, *self._footnotes_due()]

    # --- pages and running heads ------------------------------------------------------------------

    def _choose_page_counting(self, body: etree._Element) -> None:
        """Pages are known when the file records where they broke when last laid out, or when it says it has one."""
        recorded = next(body.iter(w("lastRenderedPageBreak")), None) is not None
        explicit = sum(mark.get(w("type")) == "page" for mark in body.iter(w("br")))
        self.text.counts_recorded_breaks = recorded
        self.has_pages = recorded or (self.page_count > 0 and explicit + 1 == self.page_count)

    def _running_lines(self, body: etree._Element) -> list[DraftLine]:
        """The first section's head, as lines at the start; every other head and foot is noted only."""
        parts: list[tuple[str, list[DraftLine]]] = []
        for section in body.iter(w("sectPr")):
            references = [child for child in section if element_name(child) in ("headerReference", "footerReference")]
            first = is_on(section, "titlePg") or False
            references.sort(key=lambda child: (child.get(w("type")) == "first") != first)
            for reference in references:
                lines = self._running_part(relation_id(reference) or "")
                if lines and (reference.get(w("type")) != "even" or not parts):
                    parts.append((element_name(reference), lines))
        head = next((lines for kind, lines in parts if kind == "headerReference"), [])
        said = {draft.line.text for draft in head}
        for draft in (draft for _, lines in parts for draft in lines):
            if draft.line.text not in said:
                said.add(draft.line.text)
                self.notes.append(Note("running", draft.line.text, Place(self.name)))
        self.notes += [Note("running", draft.line.text, draft.line.place) for draft in head if self.page_count > 1]
        return head

    def _running_part(self, relation: str) -> list[DraftLine]:
        root = self.package.by_relation(relation)
        if root is None:
            return []
        body_walk, self.text = self.text, TextWalk(self.styles, drop_page_numbers=True)
        self.text.counts_recorded_breaks = False
        drafts = self._blocks(root, _Where())
        self.text = body_walk
        lines = [DraftLine(line) for draft in drafts for line in _lines_in(draft)]
        return [draft for draft in lines if not re.fullmatch(r"(?i)[\W\d]*(page)?[\W\d]*(of)?[\W\d]*", draft.line.text)]

    # --- blocks -----------------------------------------------------------------------------------

    def _blocks(self, parent: etree._Element, where: _Where) -> list[Draft]:
        drafts: list[Draft] = []
        for child in parent:
            match element_name(child):
                case "p":
                    drafts += self._paragraph(child, where)
                case "tbl":
                    drafts += self._table(child, where)
                case "AlternateContent":
                    choices = [part for part in child if element_name(part) in ("Choice", "Fallback")]
                    drafts += self._blocks(choices[0], where) if choices else []
                case "altChunk" | "subDoc":
                    self._note("unread", "a part of the document that is kept in another format")
                case "sdt" if child.find(f"{w('sdtPr')}/{w('showingPlcHdr')}") is not None:
                    continue
                case name if name in TRANSPARENT:
                    drafts += self._blocks(child, where)
        return drafts

    def _paragraph(self, paragraph: etree._Element, where: _Where) -> list[Draft]:
        properties = paragraph.find(w("pPr"))
        form = self.styles.paragraph(properties, self.numbering.level_of_style)
        if form.new_page and not self.text.counts_recorded_breaks and where.row is None:
            self.text.page += 1
        inline = self.text.inline(paragraph, form.style, where.bold)
        self._note_left_out(inline)
        pieces = self._carried + inline.pieces
        if _is_mark_gone(properties):
            self._carried = pieces
            return self._boxes(inline, where)
        self._carried = []
        mark: ListMark | None = None
        if form.list_id is not None:
            mark = self.numbering.next_mark(form.list_id, form.list_level)
        place = Place(self.name, self._page(), row=where.row, column=where.column)
        drafts = draft_lines(pieces, replace(form, before=max(form.before, self._space_after)), mark, place)
        self._space_after = form.after if drafts else self._space_after + _blank_height(form.before, form.after)
        self._gather_footnotes(inline)
        due = self._footnotes_due() if where.row is None else []
        return [*drafts, *due, *self._boxes(inline, where)]

    def _boxes(self, inline: Inline, where: _Where) -> list[Draft]:
        """What stands in the text boxes anchored in a paragraph, after it."""
        self.pictures += inline.pictures
        if inline.objects:
            self._note("unread", "an object of another program, shown as a picture")
        drafts: list[Draft] = []
        for box in inline.boxes:
            if where.nesting >= MAX_NESTING:
                self._note("unread", "a text box inside many others")
            else:
                drafts += self._blocks(box, replace(where, nesting=where.nesting + 1))
        return drafts

    def _table(self, table: etree._Element, where: _Where) -> list[Draft]:
        if where.nesting >= MAX_NESTING:
            self._note("unread", "a table inside many others")
            return []
        place = Place(self.name, self._page(), row=where.row, column=where.column)
        shape = read_shape(table)
        for text in shape.deleted:
            self._note("deleted", text)
        look = self.styles.table(table.find(w("tblPr")))
        inside = replace(where, nesting=where.nesting + 1)
        if len(shape.cells) == 1:
            return self._blocks(shape.cells[0].element, replace(inside, bold=look.bold_all))
        cells: list[Cell] = []
        row, row_page, last_page = 0, self.text.page, self.text.page
        for cell in shape.cells:
            if cell.row != row:
                row, row_page = cell.row, last_page
            self.text.page = row_page
            is_first = not cells or cells[-1].row != row
            cells.append(self._cell(cell, look, inside))
            if is_first and cells[-1].place.page not in (None, row_page):
                # the row's first words stand on the next page: the whole row does
                row_page = self.text.page
            last_page = max(last_page, self.text.page)
        self.text.page = last_page
        due = self._footnotes_due() if where.row is None else []
        if not any(cell.text or cell.tables for cell in cells):
            return [*due]
        return [
            Table(place, shape.row_count, shape.column_count, tuple(cells), look.ruled or _has_drawn_cells(table)),
            *due,
        ]

    def _cell(self, shape: CellShape, look: TableLook, where: _Where) -> Cell:
        first_row, first_column = shape.row == 1, shape.column == 1
        bold = look.bold_all or (look.bold_first_row and first_row) or (look.bold_first_column and first_column)
        self._space_after = 0.0
        nested = where.row is not None
        row, column = (where.row, where.column) if nested else (shape.row, shape.column)
        drafts = self._blocks(shape.element, replace(where, row=row, column=column, bold=bold))
        lines = tuple(draft.line for draft in drafts if isinstance(draft, DraftLine))
        page = lines[0].place.page if lines else self._page()
        letters = sum(len(line.text) for line in lines)
        return Cell(
            text="\n".join(line.text for line in lines),
            place=Place(self.name, page, row=row, column=column),
            row=shape.row,
            column=shape.column,
            row_span=shape.row_span,
            column_span=shape.column_span,
            lines=lines,
            tables=tuple(draft for draft in drafts if isinstance(draft, Table)),
            bold=sum(len(line.text) for line in lines if line.bold) * 2 > letters,
        )

    # --- notes ------------------------------------------------------------------------------------

    def _gather_footnotes(self, inline: Inline) -> None:
        for kind, identifier in inline.notes:
            element = self._note_parts[kind].get(identifier)
            if element is None:
                continue
            self._note_count[kind] += 1
            carried, pending = self._carried, self._pending_notes
            self._carried, self._pending_notes = [], []
            drafts = self._blocks(element, _Where(nesting=MAX_NESTING))
            self._carried, self._pending_notes = carried, pending
            lines = [line for draft in drafts for line in _lines_in(draft)]
            for number, line in enumerate(lines):
                marker = "" if number else str(self._note_count[kind])
                self._pending_notes.append(DraftLine(replace(line, marker=marker, level=0, depth=0)))

    def _footnotes_due(self) -> list[DraftLine]:
        due, self._pending_notes = self._pending_notes, []
        return due

    def _note_left_out(self, inline: Inline) -> None:
        for kind, text in (("struck", inline.struck), ("deleted", inline.deleted)):
            if text.strip():
                self._note(kind, " ".join(text.split()))

    def _note(self, kind: str, text: str) -> None:
        self.notes.append(Note(kind, text, Place(self.name, self._page())))

    def _page(self) -> int | None:
        return self.text.page if self.has_pages else None


def _notes_of(package: WordPackage, kind: str) -> dict[str, etree._Element]:
    root = package.related(kind + "s")
    if root is None:
        return {}
    return {note.get(w("id")) or "": note for note in root.findall(w(kind)) if note.get(w("type")) in (None, "normal")}


def _page_count(package: WordPackage, body: etree._Element) -> int:
    """The number of pages the file says it had when it was last laid out, 0 when it does not say.

    The figure counts only when the number of words beside it is about that of the text: files that no word
    processor ever laid out carry figures left over from a template.
    """
    root = package.part("docProps/app.xml")
    said = {element_name(child): (child.text or "").strip() for child in (root if root is not None else ())}
    pages, words = said.get("Pages", ""), said.get("Words", "")
    if not (pages.isdecimal() and words.isdecimal()):
        return 0
    text = " ".join("".join(part.text or "" for part in line.iter(w("t"))) for line in body.iter(w("p")))
    count = len(text.split())
    return int(pages) if abs(count - int(words)) <= WORD_COUNT_LEEWAY * max(count, 1) else 0


def _is_mark_gone(properties: etree._Element | None) -> bool:
    """Whether the end of a paragraph is deleted, moved away or hidden, so that the next one goes on in its line."""
    mark = None if properties is None else properties.find(w("rPr"))
    if mark is None:
        return False
    return any(mark.find(w(name)) is not None for name in ("del", "moveFrom")) or bool(is_on(mark, "specVanish"))


def _blank_height(before: float, after: float) -> float:
    """The height of an empty paragraph, in points, set in ordinary type."""
    return before + after + 12.0


def _has_drawn_cells(table: etree._Element) -> bool:
    """Whether the table or one of its cells draws lines itself."""
    own = table.find(f"{w('tblPr')}/{w('tblBorders')}")
    borders = [*([] if own is None else own), *(edge for part in table.iter(w("tcBorders")) for edge in part)]
    return any((border.get(w("val")) or "none") not in ("none", "nil") for border in borders)


def _lines_in(draft: Draft) -> Iterator[Line]:
    if isinstance(draft, DraftLine):
        yield draft.line
    else:
        yield from (line for cell in draft.cells for line in cell.lines)
