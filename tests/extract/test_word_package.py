"""Word files that are broken, hostile, protected or unusual: read or refused with one plain sentence."""

from __future__ import annotations

import re
import shutil
import zipfile
from pathlib import Path

import pytest

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.document import Line
from syllabus_io.extract.reader import read_document
from syllabus_io.extract.word import read_word
from tests.extract.word_files import NAMES, paragraph, write_word


def refusal(path: Path) -> str:
    """What the reader says about a file it will not read."""
    with pytest.raises(UnreadableDocument) as caught:
        read_document(path)
    sentence = str(caught.value)
    assert sentence.startswith(str(path)), "the sentence names the file"
    assert "; " in sentence, "the sentence says what to do"
    return sentence


def rewritten(path: Path, name: str, content: str | bytes) -> Path:
    """The same archive with one member replaced or added."""
    with zipfile.ZipFile(path) as archive:
        members = {member: archive.read(member) for member in archive.namelist()}
    members[name] = content.encode() if isinstance(content, str) else content
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for member, data in members.items():
            archive.writestr(member, data)
    return path


@pytest.fixture
def plain(tmp_path: Path) -> Path:
    """A sound file with one line."""
    return write_word(tmp_path / "outline.docx", paragraph("Soil Science"))


@pytest.mark.parametrize("ending", ["docm", "dotx", "dotm"])
def test_files_with_macros_and_templates_are_read(plain: Path, ending: str) -> None:
    # their main part differs in its content type alone: ECMA-376 part 1, 11.3.10
    path = plain.with_suffix("." + ending)
    shutil.move(plain, path)
    types = {"docm": "document.macroEnabled", "dotx": "template", "dotm": "template.macroEnabledTemplate"}
    with zipfile.ZipFile(path) as archive:
        content = archive.read("[Content_Types].xml").decode()
    rewritten(path, "[Content_Types].xml", content.replace("document.main", types[ending] + ".main"))
    assert [line.text for line in read_document(path).lines()] == ["Soil Science"]


def test_strict_files_are_read(plain: Path) -> None:
    # ECMA-376 part 1 (strict) names its elements differently from part 4 (transitional)
    with zipfile.ZipFile(plain) as archive:
        content = archive.read("word/document.xml").decode()
    strict = content.replace(
        "http://schemas.openxmlformats.org/wordprocessingml/2006/main",
        "http://purl.oclc.org/ooxml/wordprocessingml/main",
    )
    assert strict != content
    rewritten(plain, "word/document.xml", strict)
    assert [line.text for line in read_word(plain).lines()] == ["Soil Science"]


def test_a_relation_to_a_missing_part_does_no_harm(plain: Path) -> None:
    relations = (
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        '<Relationship Id="a" Type="x/image" Target="NULL"/><Relationship Id="b" Type="x/styles" Target="gone.xml"/>'
        "</Relationships>"
    )
    rewritten(plain, "word/_rels/document.xml.rels", relations)
    assert [line.text for line in read_word(plain).lines()] == ["Soil Science"]


def test_a_compound_file_is_told_to_be_old_or_protected(tmp_path: Path) -> None:
    # the first bytes of a compound file; an encrypted package is a stream of this name (MS-OFFCRYPTO 2.3.4.4)
    head = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)
    old = tmp_path / "old.docx"
    old.write_bytes(head)
    assert "old Word format" in refusal(old)
    protected = tmp_path / "protected.docx"
    protected.write_bytes(head + "EncryptedPackage".encode("utf-16-le"))
    assert "protected by a password" in refusal(protected)


def test_damaged_files_are_refused(plain: Path, tmp_path: Path) -> None:
    whole = plain.read_bytes()
    cut = tmp_path / "cut.docx"
    cut.write_bytes(whole[: len(whole) // 2])
    assert "damaged or cut short" in refusal(cut)
    rewritten(plain, "word/document.xml", "<w:document><unclosed>")
    assert "damaged" in refusal(plain)


def test_every_flipped_byte_is_read_or_refused(plain: Path, tmp_path: Path) -> None:
    whole = plain.read_bytes()
    path = tmp_path / "flipped.docx"
    for position in range(0, len(whole), 23):
        path.write_bytes(whole[:position] + bytes([whole[position] ^ 0xFF]) + whole[position + 1 :])
        try:
            read_word(path)
        except UnreadableDocument as error:
            assert re.search(r"damaged|no Word document|protected|cannot be opened|no text|far more", str(error))


def test_another_office_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "sheet.docx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("xl/workbook.xml", "<workbook/>")
    assert "no Word document" in refusal(path)


def test_files_without_text_are_refused(tmp_path: Path) -> None:
    assert "no text" in refusal(write_word(tmp_path / "empty.docx", paragraph("")))
    picture = write_word(tmp_path / "picture.docx", paragraph("<w:r><w:drawing/></w:r>"))
    assert "pictures but no text" in refusal(picture)


@pytest.mark.parametrize(
    "filler",
    [
        pytest.param(" " * 60_000_000, id="blanks"),
        pytest.param("<w:p/>" * 2_000_000, id="paragraphs"),
    ],
)
def test_a_small_file_that_unpacks_to_millions_is_refused(plain: Path, filler: str) -> None:
    rewritten(plain, "word/document.xml", f"<w:document {NAMES}><w:body>{filler}</w:body></w:document>")
    assert plain.stat().st_size < 2_000_000
    assert "far more than an outline holds" in refusal(plain)


def test_outside_entities_are_never_read(plain: Path, tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("never shown")
    markup = (
        f'<!DOCTYPE w:document [<!ENTITY file SYSTEM "{secret.as_uri()}">]>'
        f"<w:document {NAMES}><w:body>{paragraph('Read me')}{paragraph('&file;')}</w:body></w:document>"
    )
    rewritten(plain, "word/document.xml", markup)
    document = read_word(plain)
    assert [block.text for block in document.blocks if isinstance(block, Line)] == ["Read me"]


def test_entities_that_grow_are_refused(plain: Path) -> None:
    entities = '<!ENTITY a0 "aaaaaaaaaa">' + "".join(
        f'<!ENTITY a{number} "{f"&a{number - 1};" * 10}">' for number in range(1, 10)
    )
    markup = f"<!DOCTYPE d [{entities}]><w:document {NAMES}><w:body>{paragraph('&a9;')}</w:body></w:document>"
    rewritten(plain, "word/document.xml", markup)
    try:
        text = "".join(line.text for line in read_word(plain).lines())
    except UnreadableDocument:
        return
    assert len(text) < 100_000


def test_tables_nested_beyond_reason_are_noted_not_followed(tmp_path: Path) -> None:
    inner = paragraph("deep")
    for _ in range(40):
        inner = f"<w:tbl><w:tr><w:tc>{inner}</w:tc><w:tc>{paragraph('side')}</w:tc></w:tr></w:tbl>"
    document = read_word(write_word(tmp_path / "nested.docx", inner))
    assert "unread" in {note.kind for note in document.notes}
