"""The parts of an outline: sections under their headings, and facts written as "label: value"."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from syllabus_io.extract.document import Block, Cell, Document, Line, Table
from syllabus_io.outline.headings import SectionKind, section_kind
from syllabus_io.outline.labels import LabelKind, find_labels, label_kind
from syllabus_io.provenance import Place

__all__ = [
    "OPENED_LEVEL",
    "LabelledValue",
    "Section",
    "body_size",
    "flat_blocks",
    "is_heading",
    "plain",
    "read_labels",
    "read_sections",
]

# A cell that holds this many lines is a column of the page, not a cell of a table.
_LAYOUT_CELL_LINES = 7
_TOP_BLOCKS = 30
_GOES_ON = re.compile(r"\s*(?:is|are|was|were|will|may|can|must|should|and|or|for|in)\b")
# What the value must look like for a label without a colon to be believed.
_PLAIN_VALUES: dict[LabelKind | None, str] = {
    LabelKind.INSTRUCTOR: (
        r"(?:(?:Dr|Prof|Professor|Ms|Mr|Mrs|Mx)\.? )?[A-Z][\w'’.-]+ (?:[A-Z]\.? )?[A-Z][\w'’-]+(?:,|$| \S+@)"
    ),
    LabelKind.ASSISTANT: r"[A-Z][\w'’.-]+ (?:[A-Z]\.? )?[A-Z][\w'’-]+(?:,|$| \S+@)",
    LabelKind.OFFICE_HOURS: r"(?:(?:Mon|Tues|Wednes|Thurs|Fri)days?\b|[MTWRF]{1,5} \d|[Bb]y appointment)",
    LabelKind.ROOM: r"(?:[A-Z]{2,}\s?\d+\w*$|[A-Z][a-z]+ (?:Hall|Building)?\s?\d+\w*$|\d+ [A-Z])",
    LabelKind.EMAIL: r"\S+@\S+$",
    LabelKind.PHONE: r"[\d(+][\d ().-]{6,}$",
    LabelKind.TERM: r"(?:Fall|Spring|Summer|Winter|Autumn)\b.{0,20}\d{4}$",
    LabelKind.CREDITS: r"\d(?:\.\d+)?$",
}
# The level of a section opened within running text ("Late work: ...") or by a row of a table.
OPENED_LEVEL = 9


@dataclass(frozen=True, slots=True)
class Section:
    """A titled part of an outline and its blocks; ``title`` is empty before the first heading.

    ``level`` is the heading's level, 1 highest; 0 for the part before the first heading. Blocks hold neither the
    heading nor what stands under a following heading, deeper or not.
    """

    title: str
    kind: SectionKind
    level: int
    blocks: tuple[Block, ...]
    heading: Line | None = None


@dataclass(frozen=True, slots=True)
class LabelledValue:
    """A fact as the outline labels it ("Office hours: Tuesdays 2-3"). ``order`` counts blocks from 1."""

    kind: LabelKind
    label: str
    value: str
    place: Place
    order: int


@lru_cache(maxsize=16384)
def plain(text: str) -> str:
    """The text with ligatures and wide forms written out and blanks single, line feeds kept."""
    text = unicodedata.normalize("NFKC", text).replace("\u00ad", "")
    return "\n".join(" ".join(line.split()) for line in text.split("\n")).strip()


def flat_blocks(document: Document) -> tuple[Block, ...]:
    """The blocks in reading order, tables that only lay out the page replaced by what their cells hold."""
    blocks: list[Block] = []
    for block in document.blocks:
        blocks.extend(_flattened(block))
    return tuple(blocks)


def _flattened(block: Block) -> Iterator[Block]:
    if isinstance(block, Line) or not _is_layout(block):
        yield block
        if isinstance(block, Table):
            for cell in block.cells:
                for table in cell.tables:
                    yield from _flattened(table)
        return
    for cell in sorted(block.cells, key=lambda cell: (cell.column, cell.row)):
        yield from cell.lines
        for table in cell.tables:
            yield from _flattened(table)


def _is_layout(table: Table) -> bool:
    """Whether a table is a frame for the page: very few cells, most of them long or holding headings of their own."""
    filled = [cell for cell in table.cells if cell.text.strip()]
    if len(filled) == 1:
        return True
    if len(filled) > 6 or table.row_count > 3:
        return False
    long = [cell for cell in filled if len(cell.lines) >= _LAYOUT_CELL_LINES or _has_headed_lines(cell)]
    return bool(filled) and 2 * len(long) >= len(filled)


def _has_headed_lines(cell: Cell) -> bool:
    return len(cell.lines) >= 2 and cell.lines[0].text.strip().endswith(":")


def body_size(document: Document) -> float:
    """The type size in points that most letters of the document have; 0 when unknown."""
    sizes: Counter[float] = Counter()
    for line in document.lines():
        sizes[round(line.size, 1)] += len(line.text)
    return sizes.most_common(1)[0][0] if sizes else 0.0


def is_heading(line: Line, body: float = 0.0) -> bool:
    """Whether a line is a heading: by its style, its type, capitals, a colon at its end, or known words alone.

    ``body`` is the document's usual type size in points.
    """
    text = line.text.strip()
    words = text.split()
    if not re.search(r"[A-Za-z]{3}", text) or len(text) > 90 or len(words) > 12:
        return False
    if line.level:
        return not (text.endswith(".") and len(words) > 6)
    if text.endswith((".", ",", ";")) or "@" in text:
        return False
    if line.bold or text.isupper() or (body and line.size >= body + 1.4):
        return len(text) <= 70
    if line.marker and not re.fullmatch(r"\(?(?:\d+(?:\.\d+)*|[IVX]+|[A-Z])[.)]?", line.marker):
        return False
    if text.endswith(":") and len(words) <= 6:
        return True
    return (
        len(words) <= 4
        and text[0].isupper()
        and not line.marker
        and not re.search(r"[\d%:]", text)
        and section_kind(text) is not SectionKind.OTHER
    )


def read_sections(document: Document) -> tuple[Section, ...]:
    """The sections of a document in reading order, the untitled beginning first.

    A line "Late work: ..." opens a section of its own, and so does each row of a table whose first column holds
    section titles; such a section's blocks begin with the line, or with the lines of the row's other cells.
    """
    body = body_size(document)
    sections: list[Section] = []
    title, level, heading, blocks = "", 0, None, []  # type: ignore[var-annotated]

    def close() -> None:
        if title or blocks:
            sections.append(Section(title, _kind(title), level, tuple(blocks), heading))

    for block in flat_blocks(document):
        if isinstance(block, Line) and is_heading(block, body):
            close()
            title, level, heading, blocks = plain(block.text).strip(" :"), block.level or 2, block, []
            continue
        opener = _opener(block) if isinstance(block, Line) else ""
        if opener:
            close()
            title, level, heading, blocks = opener, OPENED_LEVEL, block, []  # type: ignore[assignment]
        blocks.append(block)
        if isinstance(block, Table):
            rows = tuple(_row_sections(block))
            if rows:
                close()
                sections.extend(rows)
                blocks = []
    close()
    return tuple(sections)


def _kind(title: str) -> SectionKind:
    return section_kind(title) if title else SectionKind.OTHER


def _opener(line: Line) -> str:
    """The title that opens a running paragraph ("Grading: There will be ..."), else empty."""
    match = re.match(r"([A-Z][^:.;?!\d]{2,45}?)\s?[:.—–](?=\s|$)", plain(line.text))
    if not match or line.marker:
        return ""
    title = match[1].strip()
    is_lead = bool(line.lead) and plain(line.lead).strip(" :.—–").startswith(title[:12])
    known = _kind(title) is not SectionKind.OTHER and len(title.split()) <= 5 and match[0].rstrip().endswith(":")
    return title if is_lead or known else ""


def _row_sections(table: Table) -> Iterator[Section]:
    """A section for each row of a table whose first filled column holds section titles and the next long text."""
    rows = [_title_and_cells(row) for row in table.grid()]
    titled = [(title, cells) for title, cells in rows if title and cells]
    known = [title for title, _ in titled if _kind(title) is not SectionKind.OTHER]
    if len(titled) < 2 or len(known) < 2 or not any(len(cell.text) > 60 for _, cells in titled for cell in cells):
        return
    for title, cells in titled:
        yield Section(title, _kind(title), OPENED_LEVEL, tuple(line for cell in cells for line in cell.lines))


def _title_and_cells(row: Sequence[Cell | None]) -> tuple[str, list[Cell]]:
    cells = list(dict.fromkeys(cell for cell in row if cell is not None and cell.text.strip()))
    if len(cells) < 2 or len(cells[0].text) > 45 or len(cells) > 3:
        return "", []
    return plain(cells[0].text).replace("\n", " ").strip(" :"), cells[1:]


def read_labels(document: Document) -> tuple[LabelledValue, ...]:
    """The labelled facts of a document in reading order: lines "label: value", two-column tables, title above text.

    Several labels on one line give several facts; a label alone takes the next line.
    """
    found: list[LabelledValue] = []
    blocks = flat_blocks(document)
    body = body_size(document)
    for number, block in enumerate(blocks, 1):
        if isinstance(block, Table):
            found.extend(_table_labels(block, number))
            continue
        rest = blocks[number : number + 4]
        found.extend(_line_labels(block, number, rest, body))
    return tuple(found)


def _line_labels(line: Line, number: int, rest: Sequence[Block], body: float) -> Iterator[LabelledValue]:
    text = plain(line.text)
    labels = find_labels(text)
    lead = plain(line.lead).strip(" :")
    leads = bool(lead) and text.startswith(lead) and len(text) > len(lead) and label_kind(lead) is not None
    if not labels and leads and not _GOES_ON.match(text[len(lead) :]):
        labels = ((0, len(lead), label_kind(lead), lead),)
    if not labels and number <= _TOP_BLOCKS and len(text) <= 120:
        labels = _label_without_colon(text)
    if not labels and is_heading(line, body) and label_kind(text.strip(" :")):
        labels = ((0, len(text), label_kind(text.strip(" :")), text.strip(" :")),)
    for index, (_, end, kind, label) in enumerate(labels):
        stop = labels[index + 1][0] if index + 1 < len(labels) else len(text)
        value = text[end:stop].strip(" :,;|\n")
        if kind is None:
            continue
        if stop == len(text):
            value = _continued(value, kind, rest, body)
        if value:
            yield LabelledValue(kind, label, value, line.place, number)


def _label_without_colon(text: str) -> tuple[tuple[int, int, LabelKind | None, str], ...]:
    """A label that only type or a gap sets off ("instructor Ada Example", "location IB 335"), its value being plain."""
    words = text.split(" ")
    for length in (3, 2, 1):
        label, value = " ".join(words[:length]), " ".join(words[length:])
        kind = label_kind(label)
        if kind in _PLAIN_VALUES and re.match(_PLAIN_VALUES[kind], value):
            return ((0, len(label), kind, label),)
    return ()


def _continued(value: str, kind: LabelKind, rest: Sequence[Block], body: float) -> str:
    """The value with the lines that go on with it: all of it when the label stood alone, else times under days."""
    for block in rest:
        if not isinstance(block, Line) or find_labels(plain(block.text)):
            break
        text = plain(block.text)
        if is_heading(block, body) and not re.match(r"[\d(]", text):
            break
        goes_on = not value or (
            kind in {LabelKind.MEETINGS, LabelKind.OFFICE_HOURS}
            and re.match(r"(?:from )?\d{1,2}([:.]\d\d)?\s*[-–apAP]", text)
        )
        if not goes_on:
            break
        value = f"{value}\n{text}" if value else text
    return value


def _table_labels(table: Table, number: int) -> Iterator[LabelledValue]:
    for row in table.grid():
        cells = list(dict.fromkeys(cell for cell in row if cell is not None and cell.text.strip()))
        position = 0
        while position < len(cells):
            cell = cells[position]
            text = plain(cell.text)
            kind = label_kind(text.replace("\n", " ").strip(" :"))
            if kind and position + 1 < len(cells) and not find_labels(plain(cells[position + 1].text)):
                values = cells[position + 1 :] if position == 0 and len(cells) <= 3 else [cells[position + 1]]
                value = ", ".join(plain(other.text) for other in values)
                yield LabelledValue(kind, text.replace("\n", " ").strip(" :"), value, cells[position + 1].place, number)
                position += 1 + len(values)
                continue
            for index, line in enumerate(cell.lines):
                yield from _line_labels(line, number, cell.lines[index + 1 : index + 5], 0.0)
            position += 1
