"""Workbooks made to exhaust or mislead what reads them, from a sound one."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable

import openpyxl

from syllabus_io.workbook.cached_values import sheet_parts
from syllabus_io.workbook.layout_store import KEPT

__all__ = [
    "CRAFTED",
    "blank_cells",
    "far_cell",
    "outside_entity",
    "unknown_format",
    "unknown_style",
    "unpacks_to_far_more",
]


def _changed(content: bytes, change: Callable[[bytes], bytes], sheet: str = "Review") -> bytes:
    """The workbook with one sheet's part changed."""
    part = sheet_parts(content)[sheet]
    packed = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as archive,
        zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as written,
    ):
        for name in archive.namelist():
            written.writestr(name, change(archive.read(name)) if name == part else archive.read(name))
    return packed.getvalue()


def _at_the_end(rows: bytes) -> Callable[[bytes], bytes]:
    return lambda part: part.replace(b"</sheetData>", rows + b"</sheetData>")


def _with_entities(declared: bytes, used: bytes) -> Callable[[bytes], bytes]:
    row = b'<row r="3000"><c r="A3000" t="inlineStr"><is><t>' + used + b"</t></is></c></row>"

    def change(part: bytes) -> bytes:
        return b"<!DOCTYPE x [" + declared + b"]>" + re.sub(rb"<\?xml[^>]*\?>", b"", _at_the_end(row)(part))

    return change


def blank_cells(content: bytes) -> bytes:
    """Four million blank cells, in a few kilobytes."""
    rows = (b'<row r="%d">%s</row>' % (2000 + number, b"<c/>" * 4000) for number in range(1000))
    return _changed(content, _at_the_end(b"".join(rows)))


def far_cell(content: bytes) -> bytes:
    """One cell in the last row and column there can be."""
    return _changed(content, _at_the_end(b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'))


def joined_to_the_end(content: bytes) -> bytes:
    """Cells joined over all there are."""
    joined = b'</sheetData><mergeCells count="1"><mergeCell ref="A5000:XFD1048576"/></mergeCells>'
    return _changed(content, lambda part: part.replace(b"</sheetData>", joined))


def entity_blow_up(content: bytes) -> bytes:
    """Entities within entities, which would unfold to gigabytes."""
    levels = [b'<!ENTITY a "' + b"a" * 20 + b'">']
    levels += [b'<!ENTITY %c "%s">' % (98 + n, b"&%c;" % (97 + n) * 30) for n in range(8)]
    return _changed(content, _with_entities(b"".join(levels), b"&i;"))


def outside_entity(content: bytes, file: str = "/etc/hostname") -> bytes:
    """An entity that stands for the words of another file."""
    return _changed(content, _with_entities(f'<!ENTITY a SYSTEM "file://{file}">'.encode(), b"&a;"))


def unknown_style(content: bytes) -> bytes:
    """A cell whose style stands in no list."""
    return _changed(content, _at_the_end(b'<row r="3000"><c r="A3000" s="65535"><v>1</v></c></row>'))


def unknown_format(content: bytes) -> bytes:
    """Styles with a number format that stands in no list."""
    packed = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as archive,
        zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as written,
    ):
        for name in archive.namelist():
            part = archive.read(name)
            part = re.sub(rb'(<xf\b[^>]*numFmtId=")164"', rb'\g<1>65535"', part) if "styles" in name else part
            written.writestr(name, part)
    return packed.getvalue()


def far_cell_among_kept_words(content: bytes) -> bytes:
    """The sheet of words without a place, with one cell in the last row there can be."""
    book = openpyxl.load_workbook(io.BytesIO(content))
    book.create_sheet(KEPT)["A1048576"] = "far away"
    packed = io.BytesIO()
    book.save(packed)
    return packed.getvalue()


def displaced_directory(content: bytes) -> bytes:
    """An archive whose directory is said to lie farther on than it does, so that its parts lie before its beginning."""
    end = content.rindex(b"PK\x05\x06")
    start = int.from_bytes(content[end + 16 : end + 20], "little") + 1024
    return content[: end + 16] + start.to_bytes(4, "little") + content[end + 20 :]


def unpacks_to_far_more(content: bytes) -> bytes:
    """A part of 210 MB of blanks."""
    packed = io.BytesIO(content)
    with zipfile.ZipFile(packed, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/blanks.xml", b" " * 210_000_000, compresslevel=1)
    return packed.getvalue()


CRAFTED: tuple[Callable[[bytes], bytes], ...] = (
    blank_cells,
    far_cell,
    joined_to_the_end,
    entity_blow_up,
    outside_entity,
    unknown_style,
    unknown_format,
    far_cell_among_kept_words,
    displaced_directory,
    unpacks_to_far_more,
)
