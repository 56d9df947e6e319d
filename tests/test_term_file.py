"""Term files: what a good one gives, and one clear line for each way to get it wrong."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from syllabus_io.errors import BadSetting
from syllabus_io.resolve.term import DayOff
from syllabus_io.term_file import read_term_file

GOOD = """
[term]
name = "Autumn 2026"
first_day = 2026-08-31
last_day = 2026-12-11
finals = [2026-12-14, 2026-12-18]
break_weeks_count = false
timezone = "America/New_York"
rotation = ["A", "B"]
[[no_class]]
name = "Autumn break"
first_day = 2026-10-15
last_day = 2026-10-16
[[no_class]]
name = "Open day"
first_day = "2026-09-25"
"""


def write(folder: Path, text: str) -> Path:
    path = folder / "term.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_full_term_file_is_read(tmp_path: Path) -> None:
    term = read_term_file(write(tmp_path, GOOD))
    assert (term.name, term.first_day, term.last_day) == ("Autumn 2026", date(2026, 8, 31), date(2026, 12, 11))
    assert term.finals == (date(2026, 12, 14), date(2026, 12, 18))
    assert term.break_weeks_count is False
    assert term.timezone == "America/New_York"
    assert term.rotation == ("A", "B")
    assert term.no_class == (
        DayOff("Autumn break", date(2026, 10, 15), date(2026, 10, 16)),
        DayOff("Open day", date(2026, 9, 25), date(2026, 9, 25)),
    )


FIRST_AND_LAST = "first_day = 2026-08-31\nlast_day = 2026-12-11\n"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[term\n", "is not valid TOML"),
        ("", "has no [term] section"),
        ("term = 3\n", "has no [term] section"),
        ("[terms]\n", "unknown section 'terms'"),
        ('[term]\nfirst_day = 2026-08-31\nlast_day = "soon"\n', "last_day is no date"),
        ("[term]\nfirst_day = 2026-12-11\nlast_day = 2026-08-31\n", "last_day is before first_day"),
        ("[term]\nfirst_day = 2026-08-31T08:00:00\nlast_day = 2026-12-11\n", "first_day is no date"),
        ("[term]\nfirst_day = 0026-08-31\nlast_day = 2026-12-11\n", "lies in the year 26"),
        (f"[term]\n{FIRST_AND_LAST}finals = 2026-12-14\n", "finals is not a pair of dates"),
        (f"[term]\n{FIRST_AND_LAST}finals = [2026-12-18, 2026-12-14]\n", "finals ends before it begins"),
        (f"[term]\n{FIRST_AND_LAST}holidays = 7\n", "holidays is not text"),
        (f'[term]\n{FIRST_AND_LAST}break_weeks_count = "no"\n', "break_weeks_count is neither true nor false"),
        (f'[term]\n{FIRST_AND_LAST}timezone = "Moon/Crater"\n', "is no time zone"),
        (f"[term]\n{FIRST_AND_LAST}fist_day = 1\n", "unknown setting 'fist_day'"),
        (f"no_class = 3\n[term]\n{FIRST_AND_LAST}", "no_class is not a list"),
        (f'[term]\n{FIRST_AND_LAST}[[no_class]]\nname = "Break"\n', "[[no_class]] number 1 first_day is missing"),
        (
            f"[term]\n{FIRST_AND_LAST}[[no_class]]\nfirst_day = 2026-10-16\nlast_day = 2026-10-15\n",
            "[[no_class]] number 1: last_day is before first_day",
        ),
    ],
)
def test_a_fault_names_the_file_and_the_setting(tmp_path: Path, text: str, words: str) -> None:
    path = write(tmp_path, text)
    with pytest.raises(BadSetting) as raised:
        read_term_file(path)
    sentence = str(raised.value)
    assert words in sentence
    assert "\n" not in sentence


def test_a_missing_file_a_folder_and_a_file_that_is_no_text(tmp_path: Path) -> None:
    with pytest.raises(BadSetting, match="term file not found"):
        read_term_file(tmp_path / "none.toml")
    with pytest.raises(BadSetting, match="is a folder"):
        read_term_file(tmp_path)
    path = tmp_path / "term.toml"
    path.write_bytes(b"\xff\xfe\x00[term]")
    with pytest.raises(BadSetting, match="not a text file"):
        read_term_file(path)
