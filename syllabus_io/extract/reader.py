"""Choosing the reader of a file, by what it holds and by what its name says; none or two is an error."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable
from pathlib import Path
from typing import Protocol

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.archives import BROKEN_ARCHIVE
from syllabus_io.extract.bounds import bounded
from syllabus_io.extract.document import Document
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits

__all__ = ["Reader", "outline_files", "read_document"]

ENDINGS = (".pdf", ".docx")
WORD_ENDINGS = (".docx", ".docm", ".dotx", ".dotm")
HEAD_BYTES = 2048
COMPOUND_HEAD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""First bytes of a compound file, by MS-CFB 2.2: old Office files, and new ones under a password."""
ASK_FOR_OTHER_FORM = "save it as a Word document (.docx) or as a PDF with text, and give that file"


class Reader(Protocol):
    """What reads one form of file."""

    def accepts(self, path: Path, head: bytes) -> bool:
        """Whether the file is this reader's, judged by its ending and its first bytes."""

    def read(self, path: Path, limits: ReadingLimits) -> Document:
        """The document the file holds."""


class _Pdf:
    def accepts(self, path: Path, head: bytes) -> bool:
        return path.suffix.lower() == ".pdf" and b"%PDF-" in head[:1024]

    def read(self, path: Path, limits: ReadingLimits) -> Document:
        from syllabus_io.extract.pdf import read_pdf

        return read_pdf(path, limits)


class _Word:
    def accepts(self, path: Path, head: bytes) -> bool:
        if path.suffix.lower() not in WORD_ENDINGS:
            return False
        # under a password a Word file is a compound file; its reader says so
        return head.startswith(COMPOUND_HEAD) or (head.startswith(b"PK\x03\x04") and _has_word_parts(path))

    def read(self, path: Path, limits: ReadingLimits) -> Document:
        from syllabus_io.extract.word import read_word

        return read_word(path, limits)


READERS: tuple[Reader, ...] = (_Pdf(), _Word())


def read_document(path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> Document:
    """The document that a PDF or Word file holds, in reading order; of the limits, those on pages and sizes are kept.

    Raises UnreadableDocument when the file is missing, is a folder, is empty, may not be opened, is encrypted,
    damaged, a scan without text, or not what its ending says.
    """
    head = _head(path)
    if path.stat().st_size > limits.file_bytes:
        fault = f"the file is larger than {limits.file_bytes // 1_000_000} MB, far more than an outline takes"
        raise UnreadableDocument(path, fault, "save only the outline's own pages")
    takers = [reader for reader in READERS if reader.accepts(path, head)]
    if len(takers) > 1:
        names = " and ".join(type(reader).__name__.strip("_") for reader in takers)
        raise UnreadableDocument(path, f"both the {names} readers claim this file", "convert it to one plain PDF")
    if not takers:
        raise _not_readable(path, head)
    return bounded(takers[0].read(path, limits))


def outline_files(paths: Iterable[Path]) -> tuple[Path, ...]:
    """The outlines among the given files and folders: each once, folders searched through, sorted by path.

    A file named outright is kept whatever its ending (reading it says what is wrong). In folders only .pdf and .docx
    count; hidden files and folders and the lock files of word processors ("~$...") are left out. Raises
    UnreadableDocument for a missing path and for a folder without outlines.
    """
    found: dict[Path, None] = {}
    for path in paths:
        if path.is_dir():
            inside = _outlines_in(path)
            if not inside:
                raise UnreadableDocument(
                    path, "the folder holds no course outlines", "put .pdf or .docx files into it or name other files"
                )
            found.update(dict.fromkeys(inside))
        elif path.exists():
            found[path] = None
        else:
            raise _missing(path)
    return tuple(sorted(found))


def _outlines_in(folder: Path) -> list[Path]:
    return [
        path
        for path in folder.rglob("*")
        if path.suffix.lower() in ENDINGS
        and path.is_file()
        and not any(part.startswith((".", "~$")) for part in path.relative_to(folder).parts)
    ]


def _missing(path: Path) -> UnreadableDocument:
    return UnreadableDocument(path, "there is no such file", "check the spelling of the name and the folder")


def _head(path: Path) -> bytes:
    try:
        if path.exists() and not (path.is_file() or path.is_dir()):
            raise UnreadableDocument(path, "this is no ordinary file", "copy the outline into a file of its own")
        with path.open("rb") as file:
            head = file.read(HEAD_BYTES)
    except FileNotFoundError:
        raise _missing(path) from None
    except IsADirectoryError:
        raise UnreadableDocument(path, "this is a folder, not a file", "name the outline inside it") from None
    except PermissionError:
        raise UnreadableDocument(
            path, "the file may not be opened", "close the program that holds it or change its permissions"
        ) from None
    except OSError as error:
        raise UnreadableDocument(
            path, f"the file cannot be opened ({error.strerror or error})", "copy it to another place and try again"
        ) from None
    if not head:
        raise UnreadableDocument(path, "the file is empty", "fetch or save the outline again")
    return head


def _has_word_parts(path: Path) -> bool:
    try:
        with zipfile.ZipFile(path) as archive:
            return "[Content_Types].xml" in archive.namelist() and any(
                name.startswith("word/") for name in archive.namelist()
            )
    except BROKEN_ARCHIVE:
        return False


FORMS: tuple[tuple[bytes, str], ...] = (
    (COMPOUND_HEAD, "an old Word or Office file (.doc)"),
    (b"{\\rtf", "a rich text file (.rtf)"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"II*\x00", "a picture"),
    (b"MM\x00*", "a picture"),
)
"""First bytes of other forms of file, from their published formats."""

ENDING_FORMS = {
    ".doc": "an old Word file (.doc)",
    ".odt": "an OpenDocument text (.odt)",
    ".rtf": "a rich text file (.rtf)",
    ".pages": "a Pages file (.pages)",
    ".html": "a web page",
    ".htm": "a web page",
    ".txt": "a plain text file",
    ".md": "a plain text file",
    ".xlsx": "a spreadsheet",
    ".pptx": "a presentation",
    **dict.fromkeys((".png", ".jpg", ".jpeg", ".gif", ".tif", ".tiff", ".bmp", ".webp", ".heic"), "a picture"),
}


def _form(path: Path, head: bytes) -> str | None:
    """What the file is by its first bytes, in words; None when they say nothing."""
    for start, form in FORMS:
        if head.startswith(start):
            return form
    if b"%PDF-" in head[:1024]:
        return "a PDF"
    if head.startswith(b"PK\x03\x04"):
        return _form_of_archive(path)
    if head.lstrip(b"\xef\xbb\xbf \t\r\n").lower().startswith((b"<!doctype html", b"<html", b"<?xml", b"<head")):
        return "a web page"
    if b"\x00" not in head:
        return "plain text"
    return None


def _form_of_archive(path: Path) -> str:
    try:
        with zipfile.ZipFile(path) as archive:
            names = archive.namelist()
            if "mimetype" in names and b"opendocument.text" in archive.read("mimetype")[:100]:
                return "an OpenDocument text (.odt)"
    except BROKEN_ARCHIVE:
        return "a damaged archive"
    for start, form in (("word/", "a Word document"), ("xl/", "a spreadsheet"), ("ppt/", "a presentation")):
        if any(name.startswith(start) for name in names):
            return form
    return "a zip archive"


def _not_readable(path: Path, head: bytes) -> UnreadableDocument:
    ending = path.suffix.lower()
    form = _form(path, head)
    if ending in ENDINGS:
        if form == "a damaged archive":
            return UnreadableDocument(path, "the file is damaged or cut short", "fetch or save the outline again")
        if (form, ending) in (("a PDF", ".docx"), ("a Word document", ".pdf")):
            right = ".pdf" if form == "a PDF" else ".docx"
            return UnreadableDocument(path, f"the file is {form} but is named {ending}", f"rename it to end in {right}")
        kind = "PDF" if ending == ".pdf" else "Word document"
        what = f"it is {form}" if form else "it begins with something else"
        return UnreadableDocument(path, f"the file is no {kind} although its name says so ({what})", ASK_FOR_OTHER_FORM)
    if form == "a PDF":
        return UnreadableDocument(path, f"the file is {form} but its name does not end in .pdf", "rename it")
    if form == "a Word document":
        return UnreadableDocument(path, f"the file is {form} but its name does not end in .docx", "rename it")
    named = ENDING_FORMS.get(ending) or form or "a form of file this program does not know"
    return UnreadableDocument(path, f"this is {named}, and only PDF and Word (.docx) are read", ASK_FOR_OTHER_FORM)
