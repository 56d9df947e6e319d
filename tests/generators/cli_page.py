"""Makes docs/cli.md from the parser of the command line: ``python -m tests.generators.cli_page``.

The page is built from the parser's options, not from its help text, whose layout differs between Python versions.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from syllabus_io.cli.main import make_parser

PAGE = Path(__file__).parents[2] / "docs" / "cli.md"

_HEAD = """# The command line

This page is made from the program's own options; change them there.

Exit status: 0 done, 1 something needs attention, 2 bad use or bad input. Faults are one line each on standard error:
which file, what is wrong, what to do. When one of several outlines cannot be read, the others are still read.
"""


def command_parsers() -> dict[str, argparse.ArgumentParser]:
    """Every command with its parser."""
    for action in make_parser()._actions:
        if isinstance(action, argparse._SubParsersAction):
            return dict(action.choices)
    raise AssertionError("the parser has no commands")


def make_page() -> str:
    """The page's text."""
    parts = [_HEAD]
    for name, parser in command_parsers().items():
        parts.append(f"\n## {name}\n\n{parser.description}\n\n| option | what it does |\n|---|---|\n")
        parts += [f"| {_written(action)} | {action.help} |\n" for action in parser._actions if action.dest != "help"]
        if parser.epilog:
            parts.append(f"\nE{parser.epilog[1:].replace(': ', ': `', 1)}`\n")
    return "".join(parts)


def _written(action: argparse.Action) -> str:
    if not action.option_strings:
        return f"`{action.metavar}`"
    value = ""
    if action.nargs != 0:
        value = " " + (str(action.metavar) if action.metavar else "{" + ",".join(map(str, action.choices or ())) + "}")
    return ", ".join(f"`{option}{value}`" for option in action.option_strings).replace("|", "\\|")


if __name__ == "__main__":
    PAGE.write_text(make_page(), encoding="utf-8")
