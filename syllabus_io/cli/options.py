"""What each command was asked to do: one record a command."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Literal

__all__ = ["BuildOptions", "ExtractOptions", "ResolveOptions"]


@dataclass(frozen=True, slots=True)
class BuildOptions:
    """``build``: outlines in, workbook out."""

    inputs: tuple[Path, ...]
    output: Path
    term: Path | None
    paper: Literal["a4", "letter"]
    look: str
    student: str
    replace: bool
    quiet: bool
    no_cache: bool = False
    no_pictures: bool = False
    language: str = "en"


@dataclass(frozen=True, slots=True)
class ExtractOptions:
    """``extract``: the records of one outline, as JSON or for people."""

    file: Path
    term: Path | None
    json: Path | None
    quiet: bool
    no_cache: bool = False
    explain: bool = False


@dataclass(frozen=True, slots=True)
class ResolveOptions:
    """``resolve``: date phrases, given as words or as JSON lines."""

    phrases: tuple[str, ...]
    term: Path | None
    lines: Path | None
    json: Path | None
    reference: date | None
    order: Literal["mdy", "dmy"] | None
