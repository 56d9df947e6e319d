"""List numbers, held against ECMA-376 part 1, section 17.9, and against LibreOffice's own count."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from lxml import etree

from syllabus_io.extract.word import read_word
from syllabus_io.extract.word_numbering import Numbering, write_number
from tests.extract.word_files import level, listed, numbering, write_word


@pytest.mark.parametrize(
    ("form", "number", "text"),
    [
        # the examples of ECMA-376 part 1, 17.18.59, and their plain continuation
        ("decimal", 12, "12"),
        ("decimalZero", 7, "07"),
        ("decimalZero", 12, "12"),
        ("lowerLetter", 26, "z"),
        ("lowerLetter", 27, "aa"),
        ("lowerLetter", 28, "bb"),
        ("upperLetter", 3, "C"),
        ("upperRoman", 14, "XIV"),
        ("lowerRoman", 1999, "mcmxcix"),
        ("ordinal", 1, "1st"),
        ("ordinal", 12, "12th"),
        ("ordinal", 22, "22nd"),
        ("cardinalText", 21, "Twenty-one"),
        ("ordinalText", 12, "Twelfth"),
        ("ordinalText", 30, "Thirtieth"),
        ("none", 5, ""),
        ("someNewFormat", 5, "5"),
    ],
)
def test_number_formats(form: str, number: int, text: str) -> None:
    assert write_number(number, form) == text


def marks(levels: str, entries: list[tuple[str, int]], instances: str | None = None) -> list[str]:
    """The marks of entries (instance, level) in order."""
    markup = numbering(levels) if instances is None else numbering(levels, instances)
    counter = Numbering(etree.fromstring(markup))
    return [mark.text if (mark := counter.next_mark(*entry)) else "none" for entry in entries]


THREE = level(0, "decimal", "%1.") + level(1, "decimal", "%1.%2") + level(2, "lowerRoman", "%3)")


def test_a_deeper_level_begins_anew() -> None:
    # 17.9.10: without lvlRestart a level restarts after any higher one
    entries = [("1", 0), ("1", 1), ("1", 1), ("1", 0), ("1", 1), ("1", 2)]
    assert marks(THREE, entries) == ["1.", "1.1", "1.2", "2.", "2.1", "i)"]


def test_a_level_told_never_to_restart_goes_on() -> None:
    # 17.9.10: lvlRestart 0
    levels = level(0, "decimal", "%1.") + level(1, "decimal", "%2", extra='<w:lvlRestart w:val="0"/>')
    assert marks(levels, [("1", 0), ("1", 1), ("1", 0), ("1", 1)]) == ["1.", "1", "2.", "2"]


def test_a_level_reached_without_its_parent_takes_the_parents_start() -> None:
    assert marks(THREE, [("1", 1), ("1", 1)]) == ["1.1", "1.2"]


def test_instances_share_a_count_unless_one_overrides_its_start() -> None:
    # 17.9.26 and 17.9.27
    instances = (
        '<w:num w:numId="1"><w:abstractNumId w:val="0"/></w:num><w:num w:numId="2"><w:abstractNumId w:val="0"/></w:num>'
        '<w:num w:numId="3"><w:abstractNumId w:val="0"/><w:lvlOverride w:ilvl="0"><w:startOverride w:val="1"/>'
        "</w:lvlOverride></w:num>"
    )
    entries = [("1", 0), ("2", 0), ("3", 0), ("3", 0)]
    assert marks(level(0, "decimal", "%1."), entries, instances) == ["1.", "2.", "1.", "2."]


def test_legal_numbering_shows_decimals() -> None:
    # 17.9.4
    levels = level(0, "upperRoman", "%1.") + level(1, "decimal", "%1.%2", extra="<w:isLgl/>")
    assert marks(levels, [("1", 0), ("1", 0), ("1", 1)]) == ["I.", "II.", "2.1"]


def test_an_unknown_list_has_no_mark() -> None:
    assert marks(THREE, [("77", 0), ("1", 42)]) == ["none", "none"]


@pytest.mark.office
@pytest.mark.slow
@pytest.mark.skipif(shutil.which("soffice") is None, reason="needs LibreOffice")
def test_numbers_agree_with_libreoffice(tmp_path: Path) -> None:
    levels = level(0, "upperRoman", "%1.") + level(1, "lowerLetter", "%2)") + level(2, "decimal", "%1.%2.%3")
    depths = [0, 1, 1, 2, 2, 0, 1, 2, 2, 1, 2, 0, 0, 1]
    path = write_word(
        tmp_path / "list.docx",
        "".join(listed(f"entry{number}", depth) for number, depth in enumerate(depths)),
        {"numbering": numbering(levels)},
    )
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", "txt:Text", "--outdir", str(tmp_path), str(path)]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    theirs = [line.split() for line in (tmp_path / "list.txt").read_text(encoding="utf-8-sig").splitlines() if line]
    ours = [[line.marker, line.text] for line in read_word(path).lines()]
    assert ours == theirs
