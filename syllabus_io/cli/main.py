"""The command line: parses, calls one command, turns a known fault into one line and exit status 2."""

from __future__ import annotations

import argparse
import errno
import os
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from syllabus_io import __version__
from syllabus_io.cli.batch_parser import BatchOptions, add_batch
from syllabus_io.cli.options import BuildOptions, ExtractOptions, ResolveOptions
from syllabus_io.cli.workbook_parsers import WORKBOOK_COMMANDS, add_workbook_commands, run_workbook_command
from syllabus_io.errors import SyllabusError

__all__ = ["main", "make_parser", "run"]

DONE, NEEDS_ATTENTION, BAD_INPUT = 0, 1, 2
_INTERRUPTED = 130
_NO_ROOM = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})

_CAUTION = "Your instructor's outline and announcements govern; this plan only repeats what was read from them."


def run() -> None:
    """Runs the command line and leaves with its exit status."""
    sys.exit(main())


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command. Returns 0 when done, 1 when something needs attention, 2 for bad use or bad input."""
    options = make_parser().parse_args(arguments)
    try:
        return _run_command(options)
    except SyllabusError as fault:
        from syllabus_io.cli.report import fault_lines

        print(*fault_lines([fault]), sep="\n", file=sys.stderr)
        return BAD_INPUT
    except BrokenPipeError:
        # The reader of our output has gone (a pager was closed): nothing more to say, and no traceback at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except OSError as error:
        if error.errno not in _NO_ROOM:
            raise
        import tempfile

        place = error.filename or tempfile.gettempdir()
        words = f"nothing more can be written there ({(error.strerror or '').lower()})"
        print(f"syllabus-io: {place}: {words}; make room on the disk and start again", file=sys.stderr)
        return BAD_INPUT
    except KeyboardInterrupt:
        print("syllabus-io: stopped; nothing was changed", file=sys.stderr)
        return _INTERRUPTED


def make_parser() -> argparse.ArgumentParser:
    """The parser of all commands; docs/cli.md is made from it."""
    parser = argparse.ArgumentParser(
        prog="syllabus-io",
        description="Turns a stack of course outlines (PDF, Word) into one plan of the term.",
        epilog=_CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"syllabus-io {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _add_build(commands)
    _add_extract(commands)
    _add_resolve(commands)
    add_workbook_commands(commands)
    add_batch(commands)
    return parser


def _add_build(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    build = commands.add_parser(
        "build",
        help="make a workbook from outlines",
        description="Reads outlines and writes one workbook with everything that is due.",
        epilog="example: syllabus-io build outlines/ -o plan.xlsx --term term.toml",
    )
    build.add_argument("inputs", nargs="+", type=Path, metavar="FILE_OR_FOLDER", help="outlines, or folders of them")
    build.add_argument(
        "-o", "--output", type=Path, default=Path("plan.xlsx"), metavar="FILE", help="the workbook (default plan.xlsx)"
    )
    _add_term(build)
    build.add_argument("--paper", choices=("a4", "letter"), default="letter", help="paper size (default letter)")
    build.add_argument(
        "--look", default="clear", metavar="NAME", help="how it looks: clear, warm or plain (default clear)"
    )
    build.add_argument("--student", default="", metavar="NAME", help="name on the first sheet")
    build.add_argument(
        "--replace",
        action="store_true",
        help="write even when the workbook exists; the one that is there is kept beside it under another name",
    )
    build.add_argument(
        "--language",
        metavar="CODE",
        default="en",
        help="the language of the workbook's own texts: en (the default) or es; words of the outlines stay as they are",
    )
    build.add_argument(
        "--no-pictures",
        action="store_true",
        help="leave out the pictures of the places in PDF outlines that are to be checked",
    )
    _add_no_cache(build)
    build.add_argument("-q", "--quiet", action="store_true", help="no progress bar and no summary")


def _add_extract(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    extract = commands.add_parser(
        "extract",
        help="show what was read from one outline",
        description="Reads one outline and lists what was found, where, and why it should be checked.",
        epilog="example: syllabus-io extract biology.pdf --term term.toml --json biology.json",
    )
    extract.add_argument("file", type=Path, metavar="FILE", help="an outline, PDF or Word")
    _add_term(extract)
    extract.add_argument("--json", type=Path, metavar="FILE", help="write the records as JSON; - is standard output")
    extract.add_argument(
        "--explain",
        action="store_true",
        help="say for everything where it stands, in which words, and by which rules it was read, and name the dates "
        "that were left out, with why",
    )
    _add_no_cache(extract)
    extract.add_argument("-q", "--quiet", action="store_true", help="say nothing when all went well")


def _add_resolve(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    resolve = commands.add_parser(
        "resolve",
        help="read single date phrases",
        description="Reads date phrases, says the day, how certain it is, and why.",
        epilog='example: syllabus-io resolve "the Friday of week 5" --term term.toml',
    )
    resolve.add_argument("phrases", nargs="*", metavar="PHRASE", help="date phrases, each in quotes")
    _add_term(resolve)
    resolve.add_argument(
        "--lines", type=Path, metavar="FILE", help="read phrases from JSON lines (id, text, reference)"
    )
    resolve.add_argument("--json", type=Path, metavar="FILE", help="write JSON lines; - is standard output")
    resolve.add_argument("--reference", type=_date, metavar="DATE", help="the day a phrase is read on (default today)")
    resolve.add_argument("--order", choices=("mdy", "dmy"), help="how 10/12 is meant: month first or day first")


def _add_term(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--term", type=Path, metavar="FILE", help="term file (TOML) with first and last day and days off"
    )


def _add_no_cache(command: argparse.ArgumentParser) -> None:
    command.add_argument("--no-cache", action="store_true", help="read every outline anew and keep nothing of it")


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it like 2026-10-06") from None


def _run_command(options: argparse.Namespace) -> int:
    # Each command is imported only when it is asked for, so that --help answers at once.
    values: dict[str, Any] = {name: tuple(v) if isinstance(v, list) else v for name, v in vars(options).items()}
    del values["command"]
    if options.command in WORKBOOK_COMMANDS:
        return run_workbook_command(options.command, values)
    match options.command:
        case "build":
            from syllabus_io.cli.build import build

            return build(BuildOptions(**values))
        case "extract":
            from syllabus_io.cli.extract import extract

            return extract(ExtractOptions(**values))
        case "batch":
            from syllabus_io.cli.batch import batch

            return batch(BatchOptions(**values))
        case _:
            from syllabus_io.cli.resolve import resolve

            return resolve(ResolveOptions(**values))
