"""Word files made to exhaust a reader or to lead it outside the file (ECMA-376 part 2; appendix D of the zip note)."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable

from tests.extract.word_files import paragraph

__all__ = ["HEAVY", "LIGHT", "SECRET"]

SECRET = "words of another file"
_MAIN = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPES = (
    f'<Types xmlns="{_PACKAGE}/content-types"><Default Extension="xml" ContentType="application/xml"/>'
    '<Override PartName="/word/document.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>'
)
_RELATIONS = (
    f'<Relationships xmlns="{_PACKAGE}/relationships">'
    f'<Relationship Id="r1" Type="{_OFFICE}/officeDocument" Target="word/document.xml"/></Relationships>'
)


def _package(body: str, prologue: str = "", more: dict[str, str | bytes] | None = None) -> bytes:
    document = f'{prologue}<w:document xmlns:w="{_MAIN}" xmlns:r="{_OFFICE}"><w:body>{body}</w:body></w:document>'
    parts: dict[str, str | bytes] = {
        "[Content_Types].xml": _TYPES,
        "_rels/.rels": _RELATIONS,
        "word/document.xml": document,
        **(more or {}),
    }
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return packed.getvalue()


def entity_blow_up() -> bytes:
    """Ten entities, each ten times the one before: ten thousand million letters."""
    entities = '<!ENTITY a0 "ha">' + "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 11))
    return _package(paragraph("Soil &a10; Science"), f"<!DOCTYPE w [{entities}]>")


def file_entity() -> bytes:
    """An entity that stands for a file of the reader's machine."""
    return _package(paragraph("Soil Science &secret;"), '<!DOCTYPE w [<!ENTITY secret SYSTEM "file:secret.txt">]>')


def network_entity() -> bytes:
    """A document type kept on another machine."""
    return _package(paragraph("Soil Science"), '<!DOCTYPE w SYSTEM "http://192.0.2.1/outline.dtd">')


def external_relations() -> bytes:
    """Template, picture and included document that lie on other machines."""
    relations = "".join(
        f'<Relationship Id="x{n}" Type="{_OFFICE}/{kind}" Target="{target}" TargetMode="External"/>'
        for n, (kind, target) in enumerate(
            [
                ("attachedTemplate", "http://192.0.2.1/template.dotm"),
                ("image", r"\\192.0.2.1\share\picture.png"),
                ("aFChunk", "file:secret.txt"),
                ("styles", "http://192.0.2.1/styles.xml"),
            ]
        )
    )
    more: dict[str, str | bytes] = {
        "word/_rels/document.xml.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">{relations}</Relationships>'
    }
    return _package(paragraph("Soil Science") + '<w:altChunk r:id="x2"/>', more=more)


def members_outside() -> bytes:
    """Members whose names lead out of the archive."""
    return _package(paragraph("Soil Science"), more={"../../outside.xml": "<a/>", "/etc/outside.xml": "<a/>"})


def deep_elements() -> bytes:
    """A hundred thousand elements inside one another."""
    return _package("<w:sdt><w:sdtContent>" * 50_000 + paragraph("x") + "</w:sdtContent></w:sdt>" * 50_000)


def nested_tables() -> bytes:
    """Tables inside one another, sixty deep."""
    inner = paragraph("Soil Science")
    for _ in range(60):
        inner = f"<w:tbl><w:tr><w:tc>{inner}</w:tc><w:tc>{paragraph('Week 1')}</w:tc></w:tr></w:tbl>"
    return _package(inner)


def spans_without_end() -> bytes:
    """A cell that claims to span two thousand million columns."""
    cell = f'<w:tc><w:tcPr><w:gridSpan w:val="2000000000"/></w:tcPr>{paragraph("Week 1")}</w:tc>'
    return _package(f"<w:tbl><w:tr>{cell}{cell}</w:tr></w:tbl>")


def lying_sizes() -> bytes:
    """A member that unpacks to far more than its directory entry says."""
    sound = bytearray(_package(paragraph("Soil Science"), more={"word/styles.xml": "x" * 30_000_000}))
    claimed = (30_000_000).to_bytes(4, "little")
    return bytes(sound).replace(claimed, (100).to_bytes(4, "little"))


def truncated() -> bytes:
    """A sound file, cut short."""
    return _package(paragraph("Soil Science " * 500))[:600]


def many_members() -> bytes:
    """Twenty thousand members."""
    return _package(paragraph("Soil Science"), more={f"word/part{n}.xml": "<a/>" for n in range(20_000)})


def many_paragraphs() -> bytes:
    """Three million empty paragraphs."""
    return _package("<w:p/>" * 3_000_000)


def long_text() -> bytes:
    """One run of text of 400 million letters."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        archive.writestr("[Content_Types].xml", _TYPES)
        archive.writestr("_rels/.rels", _RELATIONS)
        with archive.open("word/document.xml", "w", force_zip64=True) as part:
            part.write(f'<w:document xmlns:w="{_MAIN}"><w:body><w:p><w:r><w:t>'.encode())
            for _ in range(400):
                part.write(b"a" * 1_000_000)
            part.write(b"</w:t></w:r></w:p></w:body></w:document>")
    return packed.getvalue()


def many_words() -> bytes:
    """A million and a half words full of dates, within the size limits."""
    sentence = "Essay {} on Oct 6 is due in week 3 of class {}. "
    return _package("".join(paragraph(sentence.format(n, n * n % 97) * 5) for n in range(30_000)))


LIGHT: tuple[Callable[[], bytes], ...] = (
    entity_blow_up,
    file_entity,
    network_entity,
    external_relations,
    members_outside,
    deep_elements,
    nested_tables,
    spans_without_end,
    truncated,
)
HEAVY: tuple[Callable[[], bytes], ...] = (lying_sizes, many_members, many_paragraphs, long_text, many_words)
