"""The parts of a Word file, opened with care: bounded sizes, no outside entities, transitional or strict names.

The package layout is that of ECMA-376 part 2 (relationships lead from part to part); only the parts that are asked
for are unpacked, so that pictures cost nothing. Files that name missing parts, templates and files with macros are
read like any other: what is asked for is their text.
"""

from __future__ import annotations

import posixpath
import zipfile
from pathlib import Path
from types import TracebackType

from lxml import etree

from syllabus_io.errors import UnreadableDocument
from syllabus_io.extract.archives import BROKEN_ARCHIVE
from syllabus_io.extract.limits import DEFAULT_LIMITS, ReadingLimits

__all__ = ["OFFICE_RELATIONS", "WordPackage", "element_name", "relation_id", "w"]

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
OFFICE_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}Relationship"

STRICT_NAMES = (
    (b"http://purl.oclc.org/ooxml/wordprocessingml/main", W.encode()),
    (b"http://purl.oclc.org/ooxml/officeDocument/relationships", OFFICE_RELATIONS.encode()),
    (
        b"http://purl.oclc.org/ooxml/officeDocument/math",
        b"http://schemas.openxmlformats.org/officeDocument/2006/math",
    ),
)
"""The strict names of ECMA-376 part 1 and the transitional ones that are read here."""

OLD_FORMAT_HEAD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
ENCRYPTED_STREAM = "EncryptedPackage".encode("utf-16-le")

MAX_MEMBERS = 10_000
MAX_XML_TAGS = 2_000_000
"""In one part: millions of empty paragraphs pack into a few hundred kilobytes and unpack into gigabytes."""
MAX_RATIO = 200
RATIO_FLOOR_BYTES = 2_000_000
"""Below this size a part may be packed as tightly as it likes."""

FETCH_AGAIN = "open it in a word processor, save it as a new .docx, and give that file"


def w(name: str) -> str:
    """The full name of a WordprocessingML element or attribute.

    >>> w("p")
    '{http://schemas.openxmlformats.org/wordprocessingml/2006/main}p'
    """
    return f"{{{W}}}{name}"


def element_name(element: etree._Element) -> str:
    """The element's name without its namespace; empty for comments and processing instructions."""
    tag = element.tag
    return tag.rpartition("}")[2] if isinstance(tag, str) else ""


def relation_id(element: etree._Element) -> str | None:
    """The relationship the element points to, or None."""
    value = element.get(f"{{{OFFICE_RELATIONS}}}id")
    return None if value is None else str(value)


class WordPackage:
    """An open Word file. Use as a context manager; raises UnreadableDocument when the file is not fit to be read."""

    def __init__(self, path: Path, limits: ReadingLimits = DEFAULT_LIMITS) -> None:
        self.path = path
        self._limits = limits
        self._archive = _open_archive(path)
        self._names = {name.lower().lstrip("/"): name for name in self._archive.namelist()}
        try:
            self._check_sizes()
            self.main_name = self._main_part()
        except BaseException:
            self._archive.close()
            raise
        self._relations = self._relations_of(self.main_name)

    def __enter__(self) -> WordPackage:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._archive.close()

    def main(self) -> etree._Element:
        """The root of the main part."""
        root = self.part(self.main_name)
        if root is None:
            raise self.damaged("it names a main part that it does not hold")
        return root

    def related(self, kind: str) -> etree._Element | None:
        """The root of the part that the main part relates to as ``kind`` ("styles", "numbering"), or None."""
        for target, relation in self._relations.values():
            if relation == kind:
                return self.part(target)
        return None

    def by_relation(self, identifier: str) -> etree._Element | None:
        """The root of the part that a relationship of the main part leads to, or None when it is missing."""
        target = self._relations.get(identifier)
        return self.part(target[0]) if target else None

    def part(self, name: str) -> etree._Element | None:
        """The root element of a part, or None when the file does not hold it."""
        member = self._names.get(name.lower().lstrip("/"))
        if member is None:
            return None
        try:
            with self._archive.open(member) as file:
                content = file.read(self._limits.part_bytes + 1)
        except RuntimeError:
            raise _protected(self.path) from None
        except (zipfile.BadZipFile, NotImplementedError, EOFError, OSError, ValueError) as error:
            raise self.damaged(f"{name} cannot be unpacked ({error})") from None
        except Exception as error:
            # zlib, lzma and bz2 each raise an error of their own kind for broken data
            if type(error).__module__ not in ("zlib", "_lzma", "lzma"):
                raise
            raise self.damaged(f"{name} cannot be unpacked ({error})") from None
        if len(content) > self._limits.part_bytes or content.count(b"<") > MAX_XML_TAGS:
            raise self.too_large()
        return self._parsed(name, content)

    def damaged(self, what: str) -> UnreadableDocument:
        """The error for a file that is broken inside."""
        return UnreadableDocument(self.path, f"the Word file is damaged: {what}", FETCH_AGAIN)

    def too_large(self) -> UnreadableDocument:
        """The error for a file that would unpack to more than an outline ever holds."""
        return UnreadableDocument(
            self.path, "the Word file unpacks to far more than an outline holds", "save only the outline's own pages"
        )

    def _parsed(self, name: str, content: bytes) -> etree._Element:
        for strict, transitional in STRICT_NAMES:
            content = content.replace(strict, transitional)
        parser = etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False, huge_tree=False)
        try:
            return etree.fromstring(content, parser)
        except etree.XMLSyntaxError as error:
            raise self.damaged(f"{name} is no well-formed XML ({error.msg})") from None

    def _check_sizes(self) -> None:
        members = self._archive.infolist()
        if len(members) > MAX_MEMBERS or sum(member.file_size for member in members) > self._limits.unpacked_bytes:
            raise self.too_large()
        for member in members:
            packed = max(member.compress_size, 1)
            if member.file_size > RATIO_FLOOR_BYTES and member.file_size / packed > MAX_RATIO:
                raise self.too_large()

    def _main_part(self) -> str:
        root = self.part("_rels/.rels")
        if root is not None:
            for relation in root.iter(PACKAGE_RELATIONS):
                if (relation.get("Type") or "").endswith("/officeDocument"):
                    target = posixpath.normpath((relation.get("Target") or "").lstrip("/"))
                    if not target.startswith(("xl/", "ppt/")):
                        return target
        if "word/document.xml" in self._names:
            return "word/document.xml"
        raise UnreadableDocument(
            self.path, "the file is no Word document although its name says so", "save it as a Word document (.docx)"
        )

    def _relations_of(self, name: str) -> dict[str, tuple[str, str]]:
        """Relationship identifier -> name of the part, last word of the relationship's type."""
        folder, base = posixpath.split(name)
        root = self.part(posixpath.join(folder, "_rels", base + ".rels"))
        found: dict[str, tuple[str, str]] = {}
        for relation in root.iter(PACKAGE_RELATIONS) if root is not None else ():
            target = relation.get("Target") or ""
            if relation.get("TargetMode") != "External":
                target = target.lstrip("/") if target.startswith("/") else posixpath.join(folder, target)
                found[relation.get("Id") or ""] = (
                    posixpath.normpath(target),
                    (relation.get("Type") or "").rpartition("/")[2],
                )
        return found


def _open_archive(path: Path) -> zipfile.ZipFile:
    try:
        with path.open("rb") as file:
            head = file.read(len(OLD_FORMAT_HEAD))
        if head == OLD_FORMAT_HEAD:
            raise _old_or_protected(path)
        archive = zipfile.ZipFile(path)
    except FileNotFoundError:
        raise UnreadableDocument(path, "there is no such file", "check the name and the folder") from None
    except OSError as error:
        raise UnreadableDocument(
            path, f"the file cannot be opened ({error.strerror or error})", "copy it to another place and try again"
        ) from None
    except BROKEN_ARCHIVE:
        raise UnreadableDocument(path, "the Word file is damaged or cut short", "fetch or save it again") from None
    if any(member.flag_bits & 1 for member in archive.infolist()):
        archive.close()
        raise _protected(path)
    return archive


def _old_or_protected(path: Path) -> UnreadableDocument:
    """The error for a compound file: a Word file under a password, or one in the old format."""
    with path.open("rb") as file:
        directory = file.read(4_000_000)
    if ENCRYPTED_STREAM in directory:
        return _protected(path)
    return UnreadableDocument(
        path, "the file is in the old Word format (.doc)", "open it in a word processor and save it as .docx"
    )


def _protected(path: Path) -> UnreadableDocument:
    return UnreadableDocument(
        path, "the Word file is protected by a password", "open it with the password and save a copy without one"
    )
