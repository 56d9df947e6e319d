"""A workbook's package with what reading back does not need taken out, so that it opens in a fraction of the time."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Collection

from syllabus_io.workbook.cached_values import sheet_parts

__all__ = ["lightened", "only_sheets"]

_JOINED = re.compile(rb"<mergeCells\b.*?</mergeCells>", re.DOTALL)
_CONTENTS = re.compile(rb"<sheetData>.*</sheetData>", re.DOTALL)
_HIDDEN = re.compile(rb"<sheet\b[^>]*\bstate=\"(?:hidden|veryHidden)\"[^>]*>")
_NAME = re.compile(rb"\bname=\"([^\"]*)\"")


def lightened(content: bytes, needed: str) -> bytes:
    """The package without joined cells, and without the contents of hidden sheets but the ``needed`` one."""
    parts = sheet_parts(content)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        names = [
            match[1].decode("utf-8", "replace")
            for sheet in _HIDDEN.findall(archive.read("xl/workbook.xml"))
            if (match := _NAME.search(sheet))
        ]
    hidden = {parts[name] for name in names if name in parts and name != needed}
    return _without(content, hidden, set(parts.values()))


def only_sheets(content: bytes, names: Collection[str]) -> bytes:
    """The package with the contents of some sheets alone."""
    others = {part for name, part in sheet_parts(content).items() if name not in names}
    return _without(content, others, others)


def _without(content: bytes, emptied: Collection[str], separated: Collection[str]) -> bytes:
    """The package without the contents of some parts, and without the joined cells of some."""
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as archive, zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as light:
        for entry in archive.infolist():
            data = archive.read(entry)
            if entry.filename in emptied:
                data = _CONTENTS.sub(b"<sheetData/>", data)
            if entry.filename in separated:
                data = _JOINED.sub(b"", data)
            light.writestr(entry.filename, data)
    return packed.getvalue()
