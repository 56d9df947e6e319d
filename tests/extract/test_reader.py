"""Which reader takes which file, and the sentence for each file that none can read."""

from __future__ import annotations

import os
import zipfile
from pathlib import Path

import docx
import pytest
from PIL import Image
from pypdf import PdfReader, PdfWriter

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract import reader
from syllabus_io.extract.reader import outline_files, read_document
from tests.extract.pdf_files import Sheet, texts


def a_pdf(path: Path) -> Path:
    sheet = Sheet(path)
    sheet.text(72, 100, "Rivers and Maps")
    return sheet.save()


def fault_of(path: Path) -> UnreadableDocument:
    with pytest.raises(UnreadableDocument) as caught:
        read_document(path)
    sentence = str(caught.value)
    assert sentence.startswith(str(path)) and "\n" not in sentence and caught.value.remedy
    return caught.value


def test_a_pdf_and_a_word_file_are_read(tmp_path: Path) -> None:
    document = docx.Document()
    document.add_paragraph("Rivers and Maps")
    document.save(str(tmp_path / "a.docx"))
    assert texts(read_document(tmp_path / "a.docx")) == ["Rivers and Maps"]
    assert texts(read_document(a_pdf(tmp_path / "a.pdf"))) == ["Rivers and Maps"]


def test_a_missing_file(tmp_path: Path) -> None:
    assert "no such file" in fault_of(tmp_path / "gone.pdf").fault


def test_a_folder(tmp_path: Path) -> None:
    assert "folder" in fault_of(tmp_path).fault


def test_an_empty_file(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").touch()
    assert "empty" in fault_of(tmp_path / "a.pdf").fault


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may open every file")
def test_a_file_that_may_not_be_opened(tmp_path: Path) -> None:
    path = a_pdf(tmp_path / "a.pdf")
    path.chmod(0)
    assert "may not be opened" in fault_of(path).fault


def test_a_file_that_the_system_refuses(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> object:
        raise PermissionError

    path = a_pdf(tmp_path / "a.pdf")
    monkeypatch.setattr(Path, "open", refuse)
    assert "may not be opened" in fault_of(path).fault


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (b"<!DOCTYPE html><html><body>Please log in</body></html>", "web page"),
        (b"Rivers and Maps, a course", "plain text"),
        (b"\x89PNG\r\n\x1a\n and so on", "picture"),
        (b"{\\rtf1 Rivers}", "rich text"),
    ],
)
def test_a_pdf_by_name_only(tmp_path: Path, content: bytes, word: str) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(content)
    assert word in fault_of(path).fault


def test_an_archive_named_pdf_or_docx(tmp_path: Path) -> None:
    for name in ("a.pdf", "a.docx"):
        with zipfile.ZipFile(tmp_path / name, "w") as archive:
            archive.writestr("notes.txt", "Rivers")
        assert "zip archive" in fault_of(tmp_path / name).fault


def test_a_pdf_named_docx_and_the_other_way_round(tmp_path: Path) -> None:
    pdf = a_pdf(tmp_path / "a.pdf").rename(tmp_path / "a.docx")
    assert "rename it to end in .pdf" in fault_of(pdf).remedy
    document = docx.Document()
    document.add_paragraph("Rivers")
    document.save(str(tmp_path / "b.pdf"))
    assert "rename it to end in .docx" in fault_of(tmp_path / "b.pdf").remedy


@pytest.mark.parametrize("name", ["a.odt", "a.rtf", "a.png", "a.txt", "a.html", "a.pages", "a.xyz"])
def test_other_forms_of_file_name_the_way_out(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_bytes(b"\x01\x02 something")
    assert ".docx" in fault_of(path).remedy and "PDF" in fault_of(path).remedy


def test_an_encrypted_pdf(tmp_path: Path) -> None:
    writer = PdfWriter(clone_from=PdfReader(a_pdf(tmp_path / "plain.pdf")))
    writer.encrypt(user_password="river", owner_password="bed", algorithm="AES-256")
    writer.write(tmp_path / "locked.pdf")
    assert "password" in fault_of(tmp_path / "locked.pdf").fault


def test_a_pdf_that_only_limits_printing_is_read(tmp_path: Path) -> None:
    writer = PdfWriter(clone_from=PdfReader(a_pdf(tmp_path / "plain.pdf")))
    writer.encrypt(user_password="", owner_password="bed", algorithm="AES-256")
    writer.write(tmp_path / "open.pdf")
    assert texts(read_document(tmp_path / "open.pdf")) == ["Rivers and Maps"]


def test_a_scan(tmp_path: Path) -> None:
    Image.new("L", (200, 300), 200).save(tmp_path / "page.png")
    sheet = Sheet(tmp_path / "scan.pdf")
    sheet.canvas.drawImage(str(tmp_path / "page.png"), 0, 0, 612, 792)
    fault = fault_of(sheet.save())
    assert "scan" in fault.fault and "Word" in fault.remedy


def test_a_pdf_without_anything(tmp_path: Path) -> None:
    sheet = Sheet(tmp_path / "blank.pdf")
    sheet.next_page()
    assert "no text" in fault_of(sheet.save()).fault


@pytest.mark.parametrize("share", [0.02, 0.3, 0.6, 0.9])
def test_a_pdf_cut_short(tmp_path: Path, share: float) -> None:
    whole = a_pdf(tmp_path / "whole.pdf").read_bytes()
    path = tmp_path / "cut.pdf"
    path.write_bytes(whole[: int(len(whole) * share)])
    try:
        assert texts(read_document(path)) == ["Rivers and Maps"]
    except UnreadableDocument as fault:
        assert fault.remedy


def test_two_readers_that_claim_a_file_are_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Greedy:
        def accepts(self, *_: object) -> bool:
            return True

        def read(self, *_: object) -> object:
            raise AssertionError("must not be asked to read")

    monkeypatch.setattr(reader, "READERS", (*reader.READERS, Greedy()))
    assert "Pdf and Greedy" in fault_of(a_pdf(tmp_path / "a.pdf")).fault


class TestOutlineFiles:
    def test_folders_are_searched_and_locks_and_hidden_files_left_out(self, tmp_path: Path) -> None:
        names = ["b.pdf", "a.docx", "sub/c.PDF", ".hidden.pdf", "~$a.docx", "notes.txt", ".git/d.pdf"]
        for name in names:
            (tmp_path / name).parent.mkdir(exist_ok=True)
            (tmp_path / name).write_bytes(b"x")
        found = outline_files([tmp_path])
        assert [path.relative_to(tmp_path).as_posix() for path in found] == ["a.docx", "b.pdf", "sub/c.PDF"]

    def test_a_file_named_twice_counts_once(self, tmp_path: Path) -> None:
        path = a_pdf(tmp_path / "a.pdf")
        assert outline_files([path, tmp_path, path]) == (path,)

    def test_a_missing_path_and_an_empty_folder(self, tmp_path: Path) -> None:
        for path in (tmp_path / "gone", tmp_path):
            with pytest.raises(UnreadableDocument):
                outline_files([path])
