"""The parsers of the commands that take a workbook, and what each of them runs."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from syllabus_io.cli.workbook_options import ExportOptions, UndoOptions, UpdateOptions

__all__ = ["WORKBOOK_COMMANDS", "add_workbook_commands", "run_workbook_command"]

WORKBOOK_COMMANDS = ("update", "undo", "export")
_KINDS = ("assignment", "quiz", "exam", "project", "presentation", "reading")
_QUIET = "say nothing when all went well"


def add_workbook_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Adds the parsers."""
    _add_update(commands)
    _add_undo(commands)
    _add_export(commands)


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


def _add_export(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    export = commands.add_parser(
        "export",
        help="write the plan for other programs",
        description="Writes the plan as it stands in a workbook: iCalendar, CSV or JSON. The workbook is not changed.",
        epilog="example: syllabus-io export plan.xlsx --to ics -o plan.ics",
    )
    export.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook")
    export.add_argument("--to", choices=("ics", "csv", "json"), required=True, help="the format")
    export.add_argument(
        "-o", "--output", type=Path, metavar="FILE", help="the file to write (default: standard output)"
    )
    export.add_argument(
        "--course", action="append", default=[], metavar="NAME", help="only this course; may be given several times"
    )
    export.add_argument(
        "--kind", action="append", default=[], choices=_KINDS, help="only this kind of work; may be given several times"
    )


def run_workbook_command(command: str, values: dict[str, Any]) -> int:
    """Runs one of these commands; each is imported only when it is asked for. Returns the exit status."""
    match command:
        case "update":
            from syllabus_io.cli.update import update

            return update(UpdateOptions(**values))
        case "export":
            from syllabus_io.cli.export import export

            return export(ExportOptions(**values))
        case _:
            from syllabus_io.cli.undo import undo

            return undo(UndoOptions(**values))
