"""The parsers of the commands that take a workbook, and what each of them runs."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from syllabus_io.cli.workbook_options import UndoOptions, UpdateOptions

__all__ = ["WORKBOOK_COMMANDS", "add_workbook_commands", "run_workbook_command"]

WORKBOOK_COMMANDS = ("update", "undo")
_QUIET = "say nothing when all went well"


def add_workbook_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Adds the parsers."""
    _add_update(commands)
    _add_undo(commands)


def _add_update(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    update = commands.add_parser(
        "update",
        help="write a workbook anew, with revised outlines",
        description="Reads a workbook back with everything typed in it, merges revised outlines, writes it anew.",
        epilog="example: syllabus-io update plan.xlsx revised/biology.pdf",
    )
    update.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook, or a folder of workbooks")
    update.add_argument("outlines", nargs="*", type=Path, metavar="FILE", help="revised outlines, or folders of them")
    update.add_argument("-q", "--quiet", action="store_true", help=_QUIET)


def _add_undo(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    undo = commands.add_parser(
        "undo",
        help="bring back the workbook before the last update",
        description="Brings back the version kept before the last update; the present one is kept beside it.",
        epilog="example: syllabus-io undo plan.xlsx",
    )
    undo.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook")
    undo.add_argument("-q", "--quiet", action="store_true", help=_QUIET)


def run_workbook_command(command: str, values: dict[str, Any]) -> int:
    """Runs one of these commands; each is imported only when it is asked for. Returns the exit status."""
    match command:
        case "update":
            from syllabus_io.cli.update import update

            return update(UpdateOptions(**values))
        case _:
            from syllabus_io.cli.undo import undo

            return undo(UndoOptions(**values))
