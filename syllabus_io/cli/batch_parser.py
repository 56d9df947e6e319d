"""The parser of ``batch``, and the record of what it was asked to do."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

__all__ = ["BatchOptions", "add_batch"]


@dataclass(frozen=True, slots=True)
class BatchOptions:
    """``batch``: a folder of students in, a workbook for each out, or the records of every outline."""

    folder: Path
    output: Path
    term: Path | None
    workers: int | None
    cluster: str | None
    extract_only: bool
    paper: Literal["a4", "letter"]
    look: str
    no_pictures: bool
    language: str
    quiet: bool


def add_batch(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Adds the parser."""
    batch = commands.add_parser(
        "batch",
        help="make workbooks for many students",
        description="Makes a workbook for each student's folder of outlines in a folder. A batch that was stopped goes "
        "on where it was when the same command is given again; what has not changed is not done again.",
        epilog="example: syllabus-io batch students/ -o plans/ --term term.toml",
    )
    batch.add_argument("folder", type=Path, metavar="FOLDER", help="a folder that holds a folder for each student")
    batch.add_argument(
        "-o", "--output", type=Path, required=True, metavar="FOLDER", help="where workbooks, tables and journal go"
    )
    batch.add_argument("--term", type=Path, metavar="FILE", help="term file (TOML), the same for all")
    batch.add_argument(
        "--workers", type=_count, metavar="N", help="how many processes (default: as many as there are processors)"
    )
    batch.add_argument(
        "--cluster",
        metavar="ADDRESS",
        help="have the workers of this dask.distributed scheduler do it; they must see the same folders",
    )
    batch.add_argument(
        "--extract-only", action="store_true", help="write the records of every outline as JSON and no workbooks"
    )
    batch.add_argument("--paper", choices=("a4", "letter"), default="letter", help="paper size (default letter)")
    batch.add_argument(
        "--look", default="clear", metavar="NAME", help="how workbooks look: clear, warm or plain (default clear)"
    )
    batch.add_argument(
        "--no-pictures", action="store_true", help="leave out the pictures of the places that are to be checked"
    )
    batch.add_argument(
        "--language", metavar="CODE", default="en", help="the language of the workbooks' own texts: en (default) or es"
    )
    batch.add_argument("-q", "--quiet", action="store_true", help="no progress and no summary")


def _count(text: str) -> int:
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= 1_000:
        raise argparse.ArgumentTypeError(f"{text!r} is no number of processes; give one from 1 to 1000")
    return int(text)
