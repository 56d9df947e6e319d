"""The workbook's file: read only when it is safe to change, replaced in one step, its earlier versions kept beside it.

At every moment the old or the new file stands whole under its name: the earlier version gets a second name first, the
new one is written under a third and flushed to the disk, then takes the name in one step.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import time
from dataclasses import dataclass
from pathlib import Path

from syllabus_io.errors import OutputNotWritable, WorkbookMismatch

__all__ = ["KEPT_VERSIONS", "WorkbookFile", "earlier_versions", "open_workbook_file", "replace_file", "restore_earlier"]

KEPT_VERSIONS = 5
"""How many earlier versions are kept beside a workbook."""

_LARGEST_BYTES = 100_000_000
_STALE_SECONDS = 3600
_READ_ONLY = "is read-only"


@dataclass(frozen=True, slots=True)
class WorkbookFile:
    """A workbook as it was read: its place with links followed, its bytes and their digest."""

    path: Path
    content: bytes
    digest: str


def open_workbook_file(path: Path, to_change: bool = True) -> WorkbookFile:
    """The file's bytes. ``to_change`` also makes sure that it may be replaced.

    Raises WorkbookMismatch when there is no such file, OutputNotWritable when it is open in another program or may
    not be changed.
    """
    real = _checked_path(path)
    if to_change:
        _check_not_open(real)
        _check_writable(real)
    try:
        if real.stat().st_size > _LARGEST_BYTES:
            raise WorkbookMismatch(path, "is far too large for a plan", "check that it is the file you meant")
        content = real.read_bytes()
    except OSError as error:
        raise WorkbookMismatch(
            path, f"cannot be read ({_reason(error)})", "give yourself the right to read it, or use a copy"
        ) from None
    return WorkbookFile(real, content, _digest(content))


def _checked_path(path: Path) -> Path:
    if path.suffix.lower() != ".xlsx":
        raise WorkbookMismatch(path, "is not named as a workbook", "save it as .xlsx first")
    if path.is_dir():
        raise WorkbookMismatch(path, "is a folder", "name the workbook itself")
    if not path.exists():
        raise WorkbookMismatch(path, "is not there", "check the name and the folder")
    return path.resolve()


def _check_not_open(path: Path) -> None:
    """Programs that have a workbook open put a small file beside it, named ``~$name`` or ``.~lock.name#``."""
    for name in (f"~${path.name}", f".~lock.{path.name}#"):
        if path.with_name(name).exists():
            raise OutputNotWritable(
                path,
                "is open in another program",
                f"save and close it there; if no program has it open, delete the file {name} beside it",
            )


def _check_writable(path: Path) -> None:
    for place, whose in ((path, ""), (path.parent, "its folder ")):
        if not place.stat().st_mode & 0o222 or not os.access(place, os.W_OK):
            raise OutputNotWritable(path, f"{whose}{_READ_ONLY}", "give yourself the right to write, or use a copy")


def replace_file(file: WorkbookFile, content: bytes) -> Path:
    """Puts new content in the file's place; returns where the earlier version is kept.

    Raises OutputNotWritable when the file was changed since it was read, or cannot be written; it is then as it was.
    """
    from syllabus_io.workbook.write import write_file

    _check_not_open(file.path)
    _check_unchanged(file)
    kept = _keep(file.path)
    try:
        _check_unchanged(file)
        write_file(file.path, content)
    except OutputNotWritable:
        with contextlib.suppress(OSError):
            kept.unlink()
        raise
    _flush_folder(file.path.parent)
    _prune(file.path)
    return kept


def _check_unchanged(file: WorkbookFile) -> None:
    try:
        changed = _digest(file.path.read_bytes()) != file.digest
    except OSError as error:
        raise OutputNotWritable(
            file.path, f"is gone or cannot be read any more ({_reason(error)})", "put it back and start again"
        ) from None
    if changed:
        raise OutputNotWritable(file.path, "was changed by another program meanwhile", "close it there and start again")


def earlier_versions(path: Path) -> tuple[Path, ...]:
    """The versions kept beside a workbook, the newest first."""
    pattern = re.compile(re.escape(path.stem) + r"\.before-update-([0-9]+)" + re.escape(path.suffix))
    found = [(int(match[1]), one) for one in path.parent.iterdir() if (match := pattern.fullmatch(one.name))]
    return tuple(one for _, one in sorted(found, reverse=True))


def restore_earlier(path: Path) -> tuple[Path, Path]:
    """Brings the newest earlier version back; returns that version's name and where the workbook is kept that it
    replaced. Raises WorkbookMismatch when none is kept, OutputNotWritable when the file may not be changed."""
    real = _checked_path(path)
    _check_not_open(real)
    _check_writable(real)
    versions = earlier_versions(real)
    if not versions:
        raise WorkbookMismatch(path, "has no earlier version beside it", "only an update leaves one")
    undone = real.with_name(f"{real.stem}.undone{real.suffix}")
    try:
        spare = _second_name(real, real.with_name(f".{real.stem}-undone.tmp"))
        spare.replace(undone)
        versions[0].replace(real)
    except OSError as error:
        raise OutputNotWritable(real, f"cannot be replaced ({_reason(error)})", "close it and start again") from None
    _flush_folder(real.parent)
    return versions[0], undone


def _keep(path: Path) -> Path:
    """Gives the file as it is a second name, the next of the earlier versions."""
    try:
        versions = earlier_versions(path)
        number = int(versions[0].stem.rpartition("-")[2]) + 1 if versions else 1
        return _second_name(path, path.with_name(f"{path.stem}.before-update-{number}{path.suffix}"))
    except OSError as error:
        raise OutputNotWritable(
            path, f"its earlier version cannot be kept ({_reason(error)})", "make room, or use another folder"
        ) from None


def _second_name(path: Path, name: Path) -> Path:
    name.unlink(missing_ok=True)
    try:
        name.hardlink_to(path)
    except OSError:
        import shutil

        # No second names on this file system: a copy, under its name only once it is whole.
        spare = name.with_name(f".{name.name}.tmp")
        try:
            shutil.copy2(path, spare)
            spare.replace(name)
        finally:
            spare.unlink(missing_ok=True)
    return name


def _prune(path: Path) -> None:
    """Deletes earlier versions beyond those kept, and what runs that were cut off have left."""
    with contextlib.suppress(OSError):
        for old in earlier_versions(path)[KEPT_VERSIONS:]:
            old.unlink(missing_ok=True)
        for spare in path.parent.glob(f".{path.stem}-*.tmp"):
            if time.time() - spare.stat().st_mtime > _STALE_SECONDS:
                spare.unlink(missing_ok=True)


def _flush_folder(folder: Path) -> None:
    """Makes the new name last through a power cut; systems that cannot do it do without."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _reason(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()
