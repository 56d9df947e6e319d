"""Word files for tests, written part by part so that every odd feature can be put in as raw markup."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from pathlib import Path

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
NAMES = (
    f'xmlns:w="{W}" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" '
    'xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" '
    'xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape" '
    'xmlns:m="http://schemas.openxmlformats.org/officeDocument/2006/math" '
    'xmlns:v="urn:schemas-microsoft-com:vml"'
)
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
MAIN_TYPE = "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"


def paragraph(*runs: str, properties: str = "") -> str:
    """A paragraph of runs; a plain text becomes a run of its own."""
    inside = "".join(part if part.startswith("<") else run(part) for part in runs)
    return f"<w:p><w:pPr>{properties}</w:pPr>{inside}</w:p>"


def run(text: str, properties: str = "") -> str:
    """A run of text with direct properties."""
    return f'<w:r><w:rPr>{properties}</w:rPr><w:t xml:space="preserve">{text}</w:t></w:r>'


def table(*rows: str, grid: tuple[int, ...] = (), properties: str = "") -> str:
    """A table of rows, with column widths in twentieths of a point."""
    columns = "".join(f'<w:gridCol w:w="{width}"/>' for width in grid)
    return f"<w:tbl><w:tblPr>{properties}</w:tblPr><w:tblGrid>{columns}</w:tblGrid>{''.join(rows)}</w:tbl>"


def row(*cells: str, properties: str = "") -> str:
    """A row of cells; a plain text becomes a cell of its own."""
    inside = "".join(part if part.startswith("<") else cell(part) for part in cells)
    return f"<w:tr><w:trPr>{properties}</w:trPr>{inside}</w:tr>"


def cell(content: str = "", properties: str = "") -> str:
    """A cell; a plain text becomes its one paragraph."""
    inside = content if content.startswith("<") else paragraph(content)
    return f"<w:tc><w:tcPr>{properties}</w:tcPr>{inside}</w:tc>"


def numbering(levels: str, instances: str = '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num>') -> str:
    """A numbering part with one abstract numbering of these levels."""
    return f'<w:numbering {NAMES}><w:abstractNum w:abstractNumId="0">{levels}</w:abstractNum>{instances}</w:numbering>'


def level(number: int, form: str, text: str, start: int = 1, extra: str = "", indent: int = 720) -> str:
    """One level of a numbering."""
    return (
        f'<w:lvl w:ilvl="{number}"><w:start w:val="{start}"/><w:numFmt w:val="{form}"/>{extra}'
        f'<w:lvlText w:val="{text}"/><w:pPr><w:ind w:left="{indent * (number + 1)}"/></w:pPr></w:lvl>'
    )


def listed(text: str, ilvl: int = 0, number: int = 1) -> str:
    """A paragraph in a list."""
    properties = f'<w:numPr><w:ilvl w:val="{ilvl}"/><w:numId w:val="{number}"/></w:numPr>'
    return paragraph(text, properties=properties)


def write_word(path: Path, body: str, parts: Mapping[str, str] | None = None, section: str = "") -> Path:
    """A Word file with this body. ``parts`` maps a kind ("styles", "footnotes", "header", "app") to its markup."""
    relations: list[str] = []
    files = {
        "[Content_Types].xml": (
            '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
            '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
            '<Default Extension="xml" ContentType="application/xml"/>'
            f'<Override PartName="/word/document.xml" ContentType="{MAIN_TYPE}"/></Types>'
        ),
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="r1" Type="{RELATIONS}/officeDocument" '
        'Target="word/document.xml"/></Relationships>',
        "word/document.xml": f"<w:document {NAMES}><w:body>{body}<w:sectPr>{section}</w:sectPr></w:body></w:document>",
    }
    for kind, markup in (parts or {}).items():
        if kind == "app":
            files["docProps/app.xml"] = markup
            continue
        files[f"word/{kind}.xml"] = markup
        relation = kind.rstrip("0123456789")
        relations.append(f'<Relationship Id="{kind}" Type="{RELATIONS}/{relation}" Target="{kind}.xml"/>')
    files["word/_rels/document.xml.rels"] = f'<Relationships xmlns="{PACKAGE}">{"".join(relations)}</Relationships>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return path
