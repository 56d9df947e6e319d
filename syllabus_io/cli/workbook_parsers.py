"""The parsers of the commands that take a workbook, and what each of them runs."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from syllabus_io.cli.workbook_options import (
    CheckOptions,
    ExportOptions,
    ImportOptions,
    PrintOptions,
    ShareOptions,
    UndoOptions,
    UpdateOptions,
)

__all__ = ["WORKBOOK_COMMANDS", "add_workbook_commands", "run_workbook_command"]

WORKBOOK_COMMANDS = ("update", "undo", "check", "share", "export", "import", "print")
_KINDS = ("assignment", "quiz", "exam", "project", "presentation", "reading")
_PRIVATE = ("marks", "statuses", "name", "planning", "beside", "sheets")
_QUIET = "say nothing when all went well"


def add_workbook_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Adds the parsers."""
    _add_update(commands)
    _add_undo(commands)
    _add_check(commands)
    _add_share(commands)
    _add_export(commands)
    _add_import(commands)
    _add_print(commands)


def _add_update(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    update = commands.add_parser(
        "update",
        help="write a workbook anew, with revised outlines",
        description="Reads a workbook back with everything typed in it, merges revised outlines, writes it anew.",
        epilog="example: syllabus-io update plan.xlsx revised/biology.pdf",
    )
    update.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook, or a folder of workbooks")
    update.add_argument("outlines", nargs="*", type=Path, metavar="FILE", help="revised outlines, or folders of them")
    update.add_argument("--no-cache", action="store_true", help="read every outline anew and keep nothing of it")
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


def _add_print(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    printing = commands.add_parser(
        "print",
        help="make one PDF for a ring binder",
        description="Makes one PDF of a workbook with cover, contents and dividers. LibreOffice must be installed.",
        epilog="example: syllabus-io print plan.xlsx -o plan.pdf --sheets Deadlines Exams --two-sided",
    )
    printing.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook")
    printing.add_argument(
        "-o", "--output", type=Path, metavar="FILE", help="the PDF (default: beside the workbook, with its name)"
    )
    printing.add_argument("--sheets", nargs="+", default=[], metavar="NAME", help="only these sheets (default all)")
    printing.add_argument("--bare", action="store_true", help="without cover, contents and dividers")
    printing.add_argument("--two-sided", action="store_true", help="wide margin right or below on every second page")
    printing.add_argument("-q", "--quiet", action="store_true", help=_QUIET)


def _add_check(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    check = commands.add_parser(
        "check",
        help="list what is open or odd in a workbook",
        description="Lists what is open or odd: dates to check, past work that is not done, clashes, doubtful marks.",
        epilog="example: syllabus-io check plan.xlsx",
    )
    check.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook, or a folder of workbooks")
    check.add_argument("--json", type=Path, metavar="FILE", help="write it as JSON; - is standard output")


def _add_share(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    share = commands.add_parser(
        "share",
        help="make a copy without what is private",
        description="Makes a copy with every date and correction, without marks, notes, ticks and names.",
        epilog="example: syllabus-io share plan.xlsx -o copy.xlsx",
    )
    share.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook")
    share.add_argument("-o", "--output", type=Path, required=True, metavar="FILE", help="the copy, a new file")
    share.add_argument("--keep", action="append", default=[], choices=_PRIVATE, help="leave this part in the copy")
    share.add_argument("-q", "--quiet", action="store_true", help=_QUIET)


def _add_import(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    days = commands.add_parser(
        "import",
        help="take days off from a school's calendar",
        description="Adds the days off of a CSV or iCalendar file to Term dates: each event of whole days in the term.",
        epilog="example: syllabus-io import plan.xlsx school.ics",
    )
    days.add_argument("workbook", type=Path, metavar="WORKBOOK", help="the workbook")
    days.add_argument("files", nargs="+", type=Path, metavar="FILE", help=".csv (name, first day, last day) or .ics")
    days.add_argument("--course", default="", metavar="NAME", help="days off of this course alone")
    days.add_argument("-q", "--quiet", action="store_true", help=_QUIET)


def run_workbook_command(command: str, values: dict[str, Any]) -> int:
    """Runs one of these commands; each is imported only when it is asked for. Returns the exit status."""
    match command:
        case "print":
            from syllabus_io.cli.print_binder import print_binder

            return print_binder(PrintOptions(**values))
        case "update":
            from syllabus_io.cli.update import update

            return update(UpdateOptions(**values))
        case "export":
            from syllabus_io.cli.export import export

            return export(ExportOptions(**values))
        case "check":
            from syllabus_io.cli.check import check

            return check(CheckOptions(**values))
        case "share":
            from syllabus_io.cli.share import share

            return share(ShareOptions(**values))
        case "import":
            from syllabus_io.cli.take import take

            return take(ImportOptions(**values))
        case _:
            from syllabus_io.cli.undo import undo

            return undo(UndoOptions(**values))
