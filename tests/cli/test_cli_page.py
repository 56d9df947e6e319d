"""docs/cli.md says what the program's options say."""

from __future__ import annotations

from tests.generators.cli_page import PAGE, command_parsers, make_page


def test_the_page_is_fresh() -> None:
    assert PAGE.read_text(encoding="utf-8") == make_page(), "run: python -m tests.generators.cli_page"


def test_every_option_has_help_and_every_command_an_example() -> None:
    for name, parser in command_parsers().items():
        silent = [action.dest for action in parser._actions if not action.help]
        assert not silent, f"{name}: options without help: {silent}"
        assert (parser.epilog or "").startswith("example: syllabus-io"), f"{name} has no example"
