"""Nothing from an outline or a file name steers the terminal, and nothing the program does touches the network."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest

from syllabus_io.cli.main import main
from syllabus_io.cli.report import plain
from tests.extract.word_files import paragraph, write_word

ROOT = Path(__file__).parents[2]
STEERING = "\u202e\u2066\u200f\u061c\U000e0041\u0085\u2028"
"""Unicode Standard Annex 9 (marks and overrides of direction), tags, and line ends that terminals may follow."""
ESCAPES = ["\x1b[31mred", "\x1b]0;title\x07", "\x9b2J", "a\rb", "a\x08b", "\u202eevil", "a\u2066b", "\x7f", "\ud800"]


def steering_signs(text: str) -> list[str]:
    """The signs of a text that could steer a terminal, by their code."""
    return [f"U+{ord(sign):04X}" for sign in text.replace("\n", "") if unicodedata.category(sign)[0] == "C"]


@pytest.mark.parametrize("text", [*ESCAPES, *STEERING, "tab\tand\x0bline\nends"], ids=ascii)
def test_plain_text_holds_nothing_that_steers(text: str) -> None:
    assert not steering_signs(plain(f"Essay {text} 1"))
    assert plain(f"Essay {text} 1").startswith("Essay") and "\n" not in plain(text)


def test_plain_text_keeps_letters_of_every_script() -> None:
    words = "Προσθήκη 数学 Übung мат. עברית ½ – é"
    assert plain(words) == words


def test_a_very_long_text_is_cut_and_shows_it() -> None:
    assert plain("x" * 100_000).endswith("…") and len(plain("x" * 100_000)) < 3_000


@pytest.mark.skipif(sys.platform == "win32", reason="such names cannot be given to a file there")
def test_hostile_names_and_words_reach_the_terminal_as_plain_text(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    name = "soil\x1b[31m\u202efdp.docx"
    write_word(
        tmp_path / name,
        paragraph(f"Soil{STEERING} Science 101 – Autumn 2026")
        + paragraph(f"Essay \u202e1{STEERING} due October 6, 2026")
        + paragraph("The final exam has no date yet."),
    )
    assert main(["extract", str(tmp_path / name)]) == 0
    shown = capsys.readouterr()
    assert "Essay" in shown.out and not steering_signs(shown.out + shown.err)
    (tmp_path / name).write_bytes(b"nothing")
    assert main(["extract", str(tmp_path / name)]) == 2
    assert main(["extract", str(tmp_path / f"missing{name}")]) == 2
    assert main(["extract", str(tmp_path / name), "--term", str(tmp_path / f"term{name}")]) == 2
    shown = capsys.readouterr()
    assert shown.err.count("\n") == 3 and not steering_signs(shown.err)


def test_json_holds_only_what_json_may_hold(tmp_path: Path) -> None:
    path = write_word(tmp_path / "soil.docx", paragraph(f'Essay "{STEERING}\\" due October 6, 2026'))
    assert main(["extract", str(path), "--json", str(tmp_path / "soil.json")]) == 0
    text = (tmp_path / "soil.json").read_text(encoding="utf-8")
    assert json.loads(text)["format"] == "syllabus-io/outline"
    assert not steering_signs(text)


OFFLINE = """
import sys
def refuse(event, arguments):
    # a pair of connected ends within this machine is how processes of one program talk to each other
    within = event == "socket.__new__" and int(arguments[1]) == 1
    if event.startswith("socket.") and event != "socket.gethostname" and not within:
        print(f"touched the network: {event} {arguments}", file=sys.stderr, flush=True)
        raise SystemExit(99)
sys.addaudithook(refuse)
"""
"""Runs in every process of the program; reading processes, which take no such module, refuse the network themselves."""


def run_offline(folder: Path, *arguments: str) -> None:
    """Runs the command line with every use of the network refused, in its workers too."""
    hooks = folder / "hooks"
    hooks.mkdir()
    (hooks / "sitecustomize.py").write_text(OFFLINE, encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(hooks), str(ROOT)])}
    done = subprocess.run(
        [sys.executable, "-m", "syllabus_io", *arguments],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert "touched the network" not in done.stderr and done.returncode == 0, done.stderr


def test_the_refusal_works(tmp_path: Path) -> None:
    hooks = tmp_path / "sitecustomize.py"
    hooks.write_text(OFFLINE, encoding="utf-8")
    code = "import socket; socket.create_connection(('127.0.0.1', 9), timeout=1)"
    environment = {**os.environ, "PYTHONPATH": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 99 and "touched the network" in done.stderr


@pytest.mark.parametrize("command", ["extract", "resolve", "build", "batch"])
def test_no_network_is_touched(tmp_path: Path, command: str) -> None:
    (tmp_path / "students").mkdir()
    outline = write_word(
        tmp_path / "students" / "soil.docx",
        paragraph("Soil Science 101 – Autumn 2026, see http://example.invalid/soil")
        + paragraph("Essay 1 is due on October 6, 2026, submit at www.example.invalid."),
    )
    out = str(tmp_path / "out")
    calls = {
        "extract": (str(outline), "--no-cache", "--json", out),
        "resolve": ("le 6 octobre 2026", "--term", "samples/term.toml"),
        "build": (str(outline), "--no-cache", "-o", f"{out}.xlsx"),
        "batch": (str(outline.parent), "-o", out, "--extract-only", "--workers", "1"),
    }
    run_offline(tmp_path, command, *calls[command])


@pytest.mark.slow
def test_no_network_is_touched_in_building_all_samples(tmp_path: Path) -> None:
    plan = str(tmp_path / "plan.xlsx")
    run_offline(tmp_path, "build", "samples", "-o", plan, "--term", "samples/term.toml", "--no-cache")
