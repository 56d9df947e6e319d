"""What each command that takes a workbook was asked to do: one record a command."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

__all__ = [
    "CheckOptions",
    "ExportOptions",
    "ImportOptions",
    "PrintOptions",
    "ShareOptions",
    "UndoOptions",
    "UpdateOptions",
]


@dataclass(frozen=True, slots=True)
class UpdateOptions:
    """``update``: a workbook, or a folder of them, written anew, revised outlines merged in."""

    workbook: Path
    outlines: tuple[Path, ...]
    quiet: bool
    no_cache: bool = False


@dataclass(frozen=True, slots=True)
class UndoOptions:
    """``undo``: the version before the last update comes back."""

    workbook: Path
    quiet: bool


@dataclass(frozen=True, slots=True)
class CheckOptions:
    """``check``: what is open or odd in a workbook, or in each of a folder."""

    workbook: Path
    json: Path | None


@dataclass(frozen=True, slots=True)
class ShareOptions:
    """``share``: a copy without what is private."""

    workbook: Path
    output: Path
    keep: tuple[str, ...]
    quiet: bool


@dataclass(frozen=True, slots=True)
class ExportOptions:
    """``export``: the plan for other programs."""

    workbook: Path
    to: Literal["ics", "csv", "json"]
    output: Path | None
    course: tuple[str, ...]
    kind: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ImportOptions:
    """``import``: days off from another program's file, into Term dates."""

    workbook: Path
    files: tuple[Path, ...]
    course: str
    quiet: bool


@dataclass(frozen=True, slots=True)
class PrintOptions:
    """``print``: one PDF of a workbook; ``bare`` leaves out cover, contents and dividers."""

    workbook: Path
    output: Path | None
    sheets: tuple[str, ...]
    bare: bool
    two_sided: bool
    quiet: bool
