"""Which workbooks a command is to deal with: one file, or every plan in a folder."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

from syllabus_io.errors import WorkbookMismatch
from syllabus_io.extract.archives import BROKEN_ARCHIVE

__all__ = ["find_workbooks"]

_SET_ASIDE = re.compile(r"\.(before-update-[0-9]+|earlier-[0-9]+|undone)$")
_STORE_NAME = b'name="Plan data"'
_MOST_BYTES = 5_000_000  # of a list of sheets; what is unpacked may be a thousand times what is packed


def find_workbooks(path: Path) -> tuple[Path, ...]:
    """The workbook itself, or the plans in a folder in the order of their names; earlier versions and workbooks of
    other kinds are left out, those that cannot be opened are not. Raises WorkbookMismatch when a folder holds none."""
    if not path.is_dir():
        return (path,)
    found = sorted(one for one in path.iterdir() if one.suffix.lower() == ".xlsx" and _is_plan(one))
    if not found:
        raise WorkbookMismatch(path, "holds no plan", "name the folder that holds the workbooks")
    return tuple(found)


def _is_plan(path: Path) -> bool:
    if path.name.startswith(("~$", ".")) or _SET_ASIDE.search(path.stem) or not path.is_file():
        return False
    try:
        with zipfile.ZipFile(path) as archive, archive.open("xl/workbook.xml") as part:
            return _STORE_NAME in part.read(_MOST_BYTES)
    except KeyError:
        return False
    except BROKEN_ARCHIVE:
        return True  # damaged, protected, or packed in an unknown way: named with its fault, for it may be a plan
